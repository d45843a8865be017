"""Content of the labels of one room: one a carcass, to stick on it before it goes to the bench; a wall unit's too."""

from __future__ import annotations

from typing import Any

from oddleg.drawings import bench_drawing, svg
from oddleg.drawings.carcass_front import carcass_front
from oddleg.drawings.lettering import lines_at_most
from oddleg.plan import Plan, RoomPlan
from oddleg.plan.part_values import Part

from .source import SheetSource

DRAWING_WIDTH_MM = 84.0
FRONT_HEIGHT_MM = 34.0
NAME_WIDTH_MM = 50.0
NAME_SIZE_MM = 4.2
PLACE_SIZE_MM = 3.2
JOB_WIDTH_MM = 55.0
JOB_SIZE_MM = 2.6


def labels_content(plan: Plan, room: RoomPlan, found: dict[str, Part], printed: SheetSource) -> dict[str, Any]:
    def label(number: str, kind: str, item: str, drawing: str) -> dict[str, Any]:
        part = found[f"{kind}/{item}"]
        return {
            "number": number,
            "name": lines_at_most(part["name"], 2, NAME_WIDTH_MM, NAME_SIZE_MM, bold=True),
            "place": lines_at_most(f"{part['run']}, {room.room.name}", 1, NAME_WIDTH_MM, PLACE_SIZE_MM),
            "handing": part["handing"],
            "cut_outs": part["cut_outs"],
            "mark": part["mark"],
            "code": printed.code_svg(plan.job.id, kind, item),
            "svg": drawing,
        }

    labels = [
        label(
            str(unit.number),
            "unit",
            unit.placed.item.id,
            svg(bench_drawing(unit, DRAWING_WIDTH_MM), f"unit-{unit.number}"),
        )
        for unit in room.units
    ]
    # What hangs stands on no legs and has no number: its name and its fronts tell it from the others.
    labels += [
        label(
            "",
            "panels",
            unit.item,
            svg(carcass_front(unit, plan.job.holes.shop_mm, DRAWING_WIDTH_MM, FRONT_HEIGHT_MM), f"hangs-{unit.item}"),
        )
        for unit in room.fitting.hanging
    ]
    job = lines_at_most(plan.job.title, 1, JOB_WIDTH_MM, JOB_SIZE_MM)
    return {
        "job_on_label": job,
        "labels": labels,
        "standing": bool(room.units),
        "decided": found[f"datum/{room.room.id}"]["decided"] is not None,
    }
