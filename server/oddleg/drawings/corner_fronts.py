"""Fronts beside a corner, closed with their handles, and as they stand open."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from oddleg.job import Carcass, FrontMoves, Handing
from oddleg.plan.front_paths import blind_mm, face_mm, front_of, opens, proud_mm, reach_mm
from oddleg.plan.meeting_runs import Arm
from oddleg.plan.rod import Placed

from .primitives import Line, Mark, Polygon, Polyline

# On paper a front is no thinner, and a handle so wide; on a door it sits so far in from the free edge.
THIN_MM, HANDLE_MM, FROM_EDGE_MM = 0.7, 1.4, 60.0
ARC_STEPS = 12


@dataclass(frozen=True)
class Sight:
    """The lines of backs cross at x, y on paper; `shown_mm` of the arm whose corner end is "right" or "left"."""

    x_mm: float
    y_mm: float
    scale: float
    shown_mm: Mapping[str, float]

    def at(self, arm: Arm, along_mm: float, out_mm: float) -> tuple[float, float]:
        """`along_mm` from the corner along an arm, `out_mm` out of its line of backs."""
        along, out = along_mm * self.scale, out_mm * self.scale
        return (self.x_mm - along, self.y_mm + out) if arm.side == "right" else (self.x_mm - out, self.y_mm + along)

    def block(self, arm: Arm, along_mm: tuple[float, float], out_mm: tuple[float, float], css: str) -> Polygon:
        (a, b), (c, d) = along_mm, out_mm
        return Polygon(tuple(self.at(arm, along, out) for along, out in ((a, c), (b, c), (b, d), (a, d))), css)


def leaves(arm: Arm, one: Placed) -> list[tuple[float, float]]:
    """Of a front that opens, its hinge and its free edge along the arm for each leaf; both edges of what comes straight
    out."""
    near_mm, far_mm = arm.near_far_mm(one)
    near_mm += blind_mm(one, arm.side)
    front = front_of(one.item)
    handing = one.item.handing if isinstance(one.item, Carcass) else Handing.NONE
    if front is None or front.moves is not FrontMoves.DOOR or handing is Handing.NONE:
        return [(near_mm, far_mm)]
    if handing is Handing.PAIR:
        middle_mm = (near_mm + far_mm) / 2
        return [(near_mm, middle_mm), (far_mm, middle_mm)]
    return [(near_mm, far_mm) if handing.value == arm.side else (far_mm, near_mm)]


def closed_front(sight: Sight, arm: Arm, one: Placed) -> list[Mark]:
    """The front along its carcass, and a handle where it opens. What is not shown of it is cut off."""
    front, deep_mm = front_of(one.item), arm.front_mm(one)
    if front is None or deep_mm is None:
        return []
    near_mm, far_mm = arm.near_far_mm(one)
    shown_mm = sight.shown_mm[arm.side]
    thin_mm = max(proud_mm(front), THIN_MM / sight.scale)
    marks: list[Mark] = [
        sight.block(arm, (max(near_mm, 0.0), min(far_mm, shown_mm)), (deep_mm, deep_mm + thin_mm), "part")
    ]
    if not opens(one.item) or front.handle_projection_mm <= 0:
        return marks
    swings = front.moves is FrontMoves.DOOR
    face = max(face_mm(front), THIN_MM / sight.scale)
    half_mm = HANDLE_MM / 2 / sight.scale
    for hinge_mm, free_mm in leaves(arm, one):
        towards = 1.0 if hinge_mm > free_mm else -1.0
        at_mm = (
            free_mm + towards * min(FROM_EDGE_MM, abs(hinge_mm - free_mm) / 2) if swings else (hinge_mm + free_mm) / 2
        )
        if half_mm < at_mm < shown_mm - half_mm:
            out = (deep_mm + face, deep_mm + face + front.handle_projection_mm)
            marks.append(sight.block(arm, (at_mm - half_mm, at_mm + half_mm), out, "packing"))
    return marks


def opened_front(sight: Sight, arm: Arm, one: Placed, css: str) -> list[Mark]:
    """A door at 90 degrees with the arc of its free edge; a drawer or flap as far out as it comes."""
    front, deep_mm = front_of(one.item), arm.front_mm(one)
    if front is None or deep_mm is None:
        return []
    face = deep_mm + max(face_mm(front), 0.0)
    marks: list[Mark] = []
    for hinge_mm, free_mm in leaves(arm, one):
        if front.moves is not FrontMoves.DOOR or not isinstance(one.item, Carcass):
            out_mm = face + reach_mm(one.item)
            ends = [sight.at(arm, along, out) for along, out in (
                (hinge_mm, face), (hinge_mm, out_mm), (free_mm, out_mm), (free_mm, face))]  # fmt: skip
            marks.append(Polyline(tuple(ends), css))
            continue
        turns = [math.pi / 2 * step / ARC_STEPS for step in range(ARC_STEPS + 1)]
        arc = tuple(
            sight.at(
                arm, hinge_mm + (free_mm - hinge_mm) * math.cos(turn), face + abs(free_mm - hinge_mm) * math.sin(turn)
            )
            for turn in turns
        )
        marks += [Polyline(arc, css), Line(*sight.at(arm, hinge_mm, face), *arc[-1], css)]
    return marks
