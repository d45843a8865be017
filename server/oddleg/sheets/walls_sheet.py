"""Content of the sheet of a room's walls: where to read, what is read, openings, side walls, features, corners."""

from __future__ import annotations

from typing import Any

from oddleg.job import WallHeight
from oddleg.plan import Plan, RoomPlan
from oddleg.plan.part_values import Part

from .source import SheetSource
from .survey_sheet import finding_rows

# What stands in a cell where nothing is asked for.
NOT_ASKED = "–"


def walls_content(plan: Plan, room: RoomPlan, found: dict[str, Part], printed: SheetSource) -> dict[str, Any]:
    """An empty cell is a spot still to read, to be written in by hand; NOT_ASKED one where nothing is to be read."""
    name = f"walls/{room.room.id}"
    part = found[name]
    return {
        "runs": [_run(one, part) for one in part["runs"]],
        "corners": [
            {
                "name": one["name"],
                "sides": [{"label": side["label"], "text": side["figure"]["text"]} for side in one["sides"]],
            }
            for one in part["corners"]
        ],
        "findings": finding_rows(plan, [name]),
    }


def _run(one: Part, part: Part) -> dict[str, Any]:
    asked = [height.value for height in WallHeight if any(height.value in at["heights"] for at in one["stations"])]
    spots = {(spot["station"], spot["height"]): spot for spot in one["spots"]}
    return {
        "name": one["name"],
        "lines": ", ".join(f"{line['name']} ({line['readings']})" for line in one["lines"]),
        "next_words": one["next_words"],
        "heights": [part["heights"][height] for height in asked],
        "rows": [
            {
                "name": at["name"],
                "x": at["x"]["text"],
                "serves": at["serves"],
                "cells": [_cell(spots.get((at["id"], height))) for height in asked],
            }
            for at in one["stations"]
        ],
        "sizes": [{"what": f"opening, {_where(it, part)}", "text": it["width"]["text"]} for it in one["openings"]]
        + [
            {"what": f"{it['side']} wall beyond its mark, {_where(it, part)}", "text": it["beyond"]["text"]}
            for it in one["end_walls"]
        ],
        "features": [
            {
                "name": it["name"],
                **{
                    key: "" if it[key] is None else it[key]["text"]
                    for key in ("left", "right", "bottom", "top", "stands_out")
                },
            }
            for it in one["features"]
        ],
    }


def _where(size: Part, part: Part) -> str:
    return f"{part['heights'][size['height']]}, {part['depths'][size['depth']]}"


def _cell(spot: Part | None) -> str:
    if spot is None:
        return NOT_ASKED
    if spot["state"] == "open":
        return "differ"
    return "" if spot["out"] is None else str(spot["out"]["text"])
