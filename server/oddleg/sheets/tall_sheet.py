"""Content of the sheet of tall and wall units of one room: rails, tops, standing up, trims to cut, hoods over hobs."""

from __future__ import annotations

from typing import Any

from oddleg.drawings import svg, tall_drawings
from oddleg.plan import Plan, RoomPlan
from oddleg.plan.part_values import Part

from .source import SheetSource
from .survey_sheet import finding_rows

DRAWING_WIDTH_MM = 88.0
GOES_WORDS = {True: "goes", False: "does not go", None: "not known: ceiling or floor on its way is not read"}


def tall_content(plan: Plan, room: RoomPlan, found: dict[str, Part], printed: SheetSource) -> dict[str, Any]:
    """For a room that has a `tall_wall`."""
    name = f"tall/{room.room.id}"
    part = found[name]
    drawn = tall_drawings(plan.job, room, DRAWING_WIDTH_MM)
    return {
        "one_line": part["one_line"],
        "rails": [
            {"name": one["name"], **{key: _text(one[key]) for key in ("rail", "underside", "top", "clear")}}
            for one in part["rails"]
        ],
        "tops": [
            {"name": one["name"], "run": one["run"], **{key: _text(one[key]) for key in ("top", "ceiling", "clear")}}
            for one in part["tops"]
        ],
        "tilt_ups": [
            {
                "name": one["name"],
                "goes": GOES_WORDS[one["goes"]],
                "lowest": _text(one["lowest"]),
                "ways": [
                    {"words": way["words"], "height": way["height"]["text"], "goes": GOES_WORDS[way["goes"]]}
                    for way in one["ways"]
                ],
                "drawing": svg(drawn[id], id) if id in drawn else None,
            }
            for number, one in enumerate(part["tilt_ups"], 1)
            for id in (f"tilt-{number}",)
        ],
        "trims": [
            {
                "title": f"{one['what'].capitalize()}, {one['run']}",
                "pieces": [{"words": each["words"], "length": each["length"]["text"]} for each in one["pieces"]],
                "total": one["total"]["text"],
            }
            for one in part["trims"]
        ],
        "over_hobs": [
            {
                "name": f"{one['hood']} over {one['hob']}",
                "words": one["words"],
                "wants": _text(one["wants"]),
                "has": _text(one["has"]),
            }
            for one in part["over_hobs"]
        ],
        "drawing": svg(drawn["drawing"], "heights"),
        "findings": finding_rows(plan, [name]),
    }


def _text(one: Part | None) -> str:
    return "–" if one is None else str(one["text"])
