"""Content of the sheets of a room's drawers (boards to cut, rebates in section) and of its drilling (bits, screws)."""

from __future__ import annotations

from typing import Any

from oddleg.drawings import svg
from oddleg.drawings.rebate import rebate_drawing
from oddleg.plan import Plan, RoomPlan
from oddleg.plan.drawers_part import rebates_of
from oddleg.plan.part_values import Part

from .source import SheetSource
from .survey_sheet import finding_rows

SECTION_WIDTH_MM = 86.0


def drawers_content(plan: Plan, room: RoomPlan, found: dict[str, Part], printed: SheetSource) -> dict[str, Any]:
    """For a room that has a `drawers` part."""
    part = found[f"drawers/{room.room.id}"]
    units = [f"panels/{unit.item}" for unit in room.fitting.units if unit.drawers]
    rules = {one["rule"] for one in part["findings"]}
    return {
        "list": [_row(one) for one in part["list"]],
        "whole_job": [_row(one) for one in part["whole_job"]],
        "runners": [{"name": one["name"], "count": str(one["count"])} for one in part["runners"]],
        "boards": [
            {
                "drawer": one["drawer"],
                "part": one["part"],
                **{key: one[key]["text"] for key in ("length", "width", "thickness")},
                "count": str(one["count"]),
                "words": one["words"],
            }
            for one in part["parts"]
        ],
        "sections": [
            svg(rebate_drawing(board, rebate, SECTION_WIDTH_MM), f"section-{number}")
            for number, (board, rebate) in enumerate(rebates_of(room), 1)
        ],
        "findings": [one for one in finding_rows(plan, units) if one["rule"] in rules],
    }


def drilling_content(plan: Plan, room: RoomPlan, found: dict[str, Part], printed: SheetSource) -> dict[str, Any]:
    """For a room that has a `drilling` part."""
    part = found[f"drilling/{room.room.id}"]
    return {
        "bits": [
            {
                "diameter": one["diameter"]["text"],
                "stop": "right through" if one["stop"] is None else one["stop"]["text"],
                "holes": str(one["holes"]),
                "words": one["words"],
            }
            for one in part["bits"]
        ],
        "screws": [one["words"] for one in part["screws"]],
        "units": [{"name": one["name"], "holes": str(one["holes"])} for one in part["units"]],
    }


def _row(one: Part) -> dict[str, str]:
    return {
        "part": one["part"],
        **{key: one[key]["text"] for key in ("length", "width", "thickness")},
        "count": str(one["count"]),
        "rebate": one["rebate_words"],
        "grain": one["grain"],
        "for": one["for_words"],
    }
