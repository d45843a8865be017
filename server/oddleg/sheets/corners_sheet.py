"""Content of the corners sheet of one room: each corner with its drawing and figures, blind units, fronts that open."""

from __future__ import annotations

from typing import Any

from oddleg.drawings import corner_drawings, svg
from oddleg.plan import Plan, RoomPlan
from oddleg.plan.part_values import Part

from .source import SheetSource
from .survey_sheet import finding_rows

DRAWING_WIDTH_MM = 90.0


def corners_content(plan: Plan, room: RoomPlan, found: dict[str, Part], printed: SheetSource) -> dict[str, Any]:
    name = f"corners/{room.room.id}"
    part = found[name]
    drawn = corner_drawings(room, plan.job.rounding_mm, DRAWING_WIDTH_MM)
    return {
        "corners": [
            {**_corner(one), "drawing": svg(drawn[id], id)}
            for one in part["corners"]
            for id in (f"corner-{one['number']}",)
        ],
        "fronts": [
            {
                "name": one["name"],
                "run": one["run"],
                "words": one["words"],
                "needs": one["needs"]["text"],
                "has": one["has"]["text"],
                "short": "opens" if one["opens"] else f"short by {one['short']['text']}",
                "opens": one["opens"],
            }
            for one in part["fronts"]
        ],
        "blind": [
            {
                "name": one["name"],
                "run": one["run"],
                "words": one["words"],
                **{key: one[key]["text"] for key in ("offset", "stands", "uses", "reach")},
            }
            for one in part["blind"]
        ],
        "findings": finding_rows(plan, [name]),
    }


def _corner(one: Part) -> dict[str, Any]:
    figures = [
        *((side["label"], side["figure"]["text"]) for side in one["sides"]),
        *(
            (
                f"off square at {end['length']['text']} along {end['name']}",
                f"{end['deviation']['text']} ±{end['give_or_take']['text']}",
            )
            for end in one["far_ends"]
        ),
    ]
    if one["post_least"] is not None and one["post_has"] is not None:
        figures += [("post, at least", one["post_least"]["text"]), ("post there is", one["post_has"]["text"])]
    return {
        "title": f"Corner {one['number']}: {one['left_run']} and {one['right_run']}",
        "angle": None if one["angle"] is None else one["angle"]["text"],
        "figures": [{"label": label, "text": text} for label, text in figures],
        "words": one["words"],
        "joint": one["joint_words"],
    }
