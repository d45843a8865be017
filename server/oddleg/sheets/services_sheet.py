"""Content of the sheets of a room's services: where they land, what is cut for them, first fix before plaster."""

from __future__ import annotations

from typing import Any

from oddleg.drawings import Drawing, first_fix_drawings, service_drawings, svg
from oddleg.plan import Plan, RoomPlan
from oddleg.plan.part_values import Part

from .source import SheetSource
from .survey_sheet import finding_rows

ELEVATION_WIDTH_MM, BACK_WIDTH_MM = 182.0, 88.0
# What is left of an upright A4 page under title block and heading.
ELEVATION_HEIGHT_MM = 220.0


def services_content(plan: Plan, room: RoomPlan, found: dict[str, Part], printed: SheetSource) -> dict[str, Any]:
    """For a room that has a `services` part."""
    name = f"services/{room.room.id}"
    part = found[name]
    elevations, backs = service_drawings(plan.job, room, ELEVATION_WIDTH_MM, BACK_WIDTH_MM, ELEVATION_HEIGHT_MM)
    return {
        "cautions": part["cautions"],
        "zeros": [one["words"] for one in part["zeros"]],
        "landings": [
            {
                "name": one["name"],
                "what": one["what"],
                "run": one["run"],
                "live": one["live"],
                "found": one["found"],
                "behind": one["behind"],
                "from_datum": one["from_datum"] or "–",
                **{key: _text(one[key]) for key in ("left", "right")},
                "reached": one["reached"] or "not within reach",
                "words": one["words"],
            }
            for one in part["landings"]
        ],
        "cuts": [
            {
                "name": one["name"],
                "words": one["words"],
                "open_to": " and ".join(one["open_to"]),
                "from_datum": one["from_datum"],
                "size": f"{_text(one['width'])} bore"
                if one["round"]
                else f"{_text(one['width'])} × {_text(one['height'])}",
                **{key: _text(one[key]) for key in ("from_left", "from_right", "from_top", "from_foot")},
            }
            for one in part["cuts"]
        ],
        "passages": [
            {
                "name": one["name"],
                "words": one["words"],
                "panels": ", ".join(one["panels"]),
                **{key: _text(one[key]) for key in ("diameter", "from_back", "below_datum")},
            }
            for one in part["passages"]
        ],
        "hanging": [{**one, "below_datum": _text(one["below_datum"])} for one in part["hanging"]],
        "vents": [
            {**one, "holds": {True: "holds", False: "does not hold", None: "not known"}[one["holds"]]}
            for one in part["vents"]
        ],
        "elevations": _drawn("elevation", elevations),
        "backs": _drawn("back", backs),
        "findings": finding_rows(plan, [name]),
    }


def first_fix_content(plan: Plan, room: RoomPlan, found: dict[str, Part], printed: SheetSource) -> dict[str, Any]:
    """For the trades before plaster: only what is wanted, from the wall and the finished floor."""
    part = found[f"services/{room.room.id}"]
    drawn = first_fix_drawings(plan.job, room, ELEVATION_WIDTH_MM, ELEVATION_HEIGHT_MM)
    return {
        "cautions": part["cautions"],
        "wanted": [
            {
                "name": one["name"],
                "run": one["run"],
                "from_left": _text(one["from_left"]),
                "from_left_words": one["from_left_words"],
                "over_floor": _text(one["over_floor"]),
                "words": one["words"],
            }
            for one in part["wanted"]
        ],
        "elevations": _drawn("first-fix", drawn),
    }


def _drawn(name: str, drawings: list[Drawing]) -> list[dict[str, Any]]:
    return [
        {"title": one.title, "svg": svg(one, f"{name}-{number}"), "width_mm": one.width_mm}
        for number, one in enumerate(drawings)
    ]


def _text(one: Part | None) -> str:
    return "–" if one is None else str(one["text"])
