"""Content of the leg sheet of one room: a table of all units, then each as it lies on the bench."""

from __future__ import annotations

from typing import Any

from oddleg.drawings import bench_drawing, svg
from oddleg.plan import Plan, RoomPlan
from oddleg.plan.part_values import Part

from .source import SheetSource
from .survey_sheet import finding_rows

DRAWING_WIDTH_MM = 86.0
LEG_COLUMNS = (("BL",), ("BML", "BM", "BMR"), ("BR",), ("FL",), ("FML", "FM", "FMR"), ("FR",))
"""Of eight legs, two share the column of the middle one."""


def legs_content(plan: Plan, room: RoomPlan, found: dict[str, Part], printed: SheetSource) -> dict[str, Any]:
    datum = found[f"datum/{room.room.id}"]["decided"]
    names = [f"unit/{unit.placed.item.id}" for unit in room.units]
    return {
        "datum": None if datum is None else datum["datum"]["text"],
        "units": [_row(found[name]) for name in names],
        "drawings": [
            {"svg": svg(bench_drawing(unit, DRAWING_WIDTH_MM), f"unit-{unit.number}"), "title": _title(found[name])}
            for unit, name in zip(room.units, names, strict=True)
        ],
        "findings": finding_rows(plan, names),
    }


def _title(part: Part) -> dict[str, str]:
    return {"number": str(part["number"]), "name": part["name"], "run": part["run"], "preset": part["preset"]["text"]}


def _row(part: Part) -> dict[str, Any]:
    heights = {leg["id"]: leg["height"]["text"] for leg in part["legs"]}
    gaps = {one["side"]: one["gap"]["text"] for one in part["gaps"]}
    set_legs = [leg for leg in part["legs"] if leg["set_at"] is not None]
    return {
        **_title(part),
        "handing": part["handing"],
        "legs": [" · ".join(heights[id] for id in column if id in heights) for column in LEG_COLUMNS],
        "gaps": [gaps.get("left", "–"), gaps.get("right", "–")],
        "set": f"{len(set_legs)} of {len(part['legs'])}" if set_legs else "",
    }
