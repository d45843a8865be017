"""Content of the setting-out sticks of one carcass, as tiles at full size."""

from __future__ import annotations

from typing import Any

from oddleg.drawings import svg
from oddleg.drawings.stick_tiles import stick_tiles
from oddleg.plan import Plan, RoomPlan
from oddleg.plan.fitted_out import FittedOut
from oddleg.plan.part_values import Part

from .survey_sheet import finding_rows


def stick_content(paper: str, plan: Plan, room: RoomPlan, fitted: FittedOut, found: dict[str, Part]) -> dict[str, Any]:
    """Tiles on the paper named, laid across; those with no mark are left out."""
    name, step_mm = f"panels/{fitted.item}", plan.job.holes.shop_mm
    told = {one["id"]: one for one in found[name]["sticks"]}
    return {
        "kind": "stick",
        "paper": paper,
        "flipped": True,
        "sticks": [
            {
                "name": stick.name,
                "words": stick.words,
                "length": told[stick.id]["length"]["text"],
                "tiles": [
                    {"svg": svg(one, f"{stick.id}-{number}"), "width_mm": one.width_mm, "height_mm": one.height_mm}
                    for number, one in enumerate(stick_tiles(stick, paper, step_mm))
                ],
            }
            for stick in fitted.sticks
        ],
        "findings": [one for one in finding_rows(plan, [name]) if one["severity"] == "stop"],
    }
