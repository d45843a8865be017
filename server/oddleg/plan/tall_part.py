"""The part of a plan that the screen of tall and wall units shows."""

from __future__ import annotations

from typing import TYPE_CHECKING

from .part_values import Part, figure_part, finding_part

if TYPE_CHECKING:
    from . import RoomPlan


def tall_part(room_plan: RoomPlan) -> Part:
    """For a room that has a `tall_wall`. `goes` is null where the ceiling or the floor on the way is not read."""
    found = room_plan.tall_wall
    assert found is not None
    return {
        "room": room_plan.room.id,
        "name": room_plan.room.name,
        "tops": [
            {
                "item": one.item,
                "name": one.name,
                "run": one.run,
                "top": figure_part(one.top),
                "ceiling": figure_part(one.ceiling),
                "clear": figure_part(one.clear),
            }
            for one in found.tops
        ],
        "tilt_ups": [
            {
                "item": one.item,
                "name": one.name,
                "diagonal": figure_part(one.diagonal),
                "lowest": figure_part(one.lowest),
                "goes": one.goes,
                "leg": figure_part(one.leg),
                "ways": [
                    {"words": words, "height": figure_part(height), "goes": goes} for words, height, goes in one.ways
                ],
            }
            for one in found.tilt_ups
        ],
        "rails": [
            {
                "run": one.run,
                "name": one.name,
                "underside": figure_part(one.underside),
                "rail": figure_part(one.rail),
                "top": figure_part(one.top),
                "clear": figure_part(one.clear),
            }
            for one in found.rails
        ],
        "trims": [
            {
                "run": one.name,
                "what": one.what,
                "pieces": [{"words": words, "length": figure_part(length)} for words, length in one.pieces],
                "total": figure_part(one.total),
            }
            for one in found.trims
        ],
        "over_hobs": [
            {
                "hob": one.hob,
                "hood": one.hood,
                "wants": figure_part(one.wants),
                "has": figure_part(one.has),
                "words": one.words,
            }
            for one in found.over_hobs
        ],
        "one_line": found.one_line,
        "findings": [finding_part(one) for one in found.findings],
    }
