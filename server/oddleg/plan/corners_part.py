"""The part of a plan that the corners' screen and sheet show. Runs stand in it by name."""

from __future__ import annotations

from typing import TYPE_CHECKING

from .corner import BlindUnit, Corner, OpeningFront
from .part_values import Part, figure_part, finding_part

if TYPE_CHECKING:
    from . import RoomPlan


def corners_part(room_plan: RoomPlan) -> Part:
    """Corners are numbered in the order of their runs, from 1."""
    out = room_plan.setting_out
    names = {run.id: run.name for run in room_plan.room.runs}
    return {
        "room": room_plan.room.id,
        "name": room_plan.room.name,
        "corners": [_corner_part(number, one) for number, one in enumerate(out.corners, 1)],
        "blind": [_blind_part(one, names) for one in out.blind],
        "fronts": [_front_part(one, names) for one in out.fronts],
        "findings": [finding_part(one) for one in out.findings],
    }


def _corner_part(number: int, one: Corner) -> Part:
    return {
        "number": number,
        "left_run": one.left_run.name,
        "right_run": one.right_run.name,
        "angle": figure_part(one.angle),
        "sides": [{"label": label, "figure": figure_part(side)} for label, side in one.sides],
        "far_ends": [
            {
                "run": end.run,
                "name": end.name,
                "length": figure_part(end.length),
                "deviation": figure_part(end.deviation),
                "give_or_take": figure_part(end.give_or_take),
            }
            for end in one.far_ends
        ],
        "post_least": figure_part(one.post_least),
        "post_has": figure_part(one.post_has),
        "cut_joint": one.cut_joint,
        "joint_words": one.joint_words,
        "words": one.words,
    }


def _blind_part(one: BlindUnit, names: dict[str, str]) -> Part:
    return {
        "item": one.item,
        "name": one.name,
        "run": names[one.run],
        "offset": figure_part(one.offset),
        "stands": figure_part(one.stands),
        "uses": figure_part(one.uses),
        "reach": figure_part(one.reach),
        "words": one.words,
    }


def _front_part(one: OpeningFront, names: dict[str, str]) -> Part:
    return {
        "item": one.item,
        "name": one.name,
        "run": names[one.run],
        "side": one.side,
        "beside": one.beside,
        "needs": figure_part(one.needs),
        "has": figure_part(one.has),
        "short": figure_part(one.short),
        "opens": one.opens,
        "words": one.words,
    }
