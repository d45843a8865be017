"""Content of the labels of one room: one a carcass, to stick on it before it goes to the bench."""

from __future__ import annotations

from typing import Any

from oddleg.drawings import bench_drawing, svg
from oddleg.drawings.lettering import lines_at_most
from oddleg.plan import Plan, RoomPlan
from oddleg.plan.part_values import Part

from .source import SheetSource

DRAWING_WIDTH_MM = 84.0
NAME_WIDTH_MM = 50.0
NAME_SIZE_MM = 4.2
PLACE_SIZE_MM = 3.2
JOB_WIDTH_MM = 55.0
JOB_SIZE_MM = 2.6


def labels_content(plan: Plan, room: RoomPlan, found: dict[str, Part], printed: SheetSource) -> dict[str, Any]:
    labels = []
    for unit in room.units:
        part = found[f"unit/{unit.placed.item.id}"]
        labels.append(
            {
                "number": str(unit.number),
                "name": lines_at_most(part["name"], 2, NAME_WIDTH_MM, NAME_SIZE_MM, bold=True),
                "place": lines_at_most(f"{part['run']}, {room.room.name}", 1, NAME_WIDTH_MM, PLACE_SIZE_MM),
                "handing": part["handing"],
                "cut_outs": part["cut_outs"],
                "mark": part["mark"],
                "code": printed.code_svg(plan.job.id, "unit", unit.placed.item.id),
                "svg": svg(bench_drawing(unit, DRAWING_WIDTH_MM), f"unit-{unit.number}"),
            }
        )
    job = lines_at_most(plan.job.title, 1, JOB_WIDTH_MM, JOB_SIZE_MM)
    return {"job_on_label": job, "labels": labels, "decided": found[f"datum/{room.room.id}"]["decided"] is not None}
