"""How near two holes of one panel come to each other: on one face, and from both faces where they meet inside."""

from __future__ import annotations

import math

from oddleg.job import HoleLimits

from .fitted_out import CutOut, Hole, Panel

SAME_MM = 1e-6


def web_mm(one: Hole, other: Hole) -> float:
    """What is left between the rims of two holes as seen on the face, mm; below 0: they overlap."""
    apart_mm = math.hypot(one.u_mm - other.u_mm, one.v_mm - other.v_mm)
    return apart_mm - (one.diameter_mm + other.diameter_mm) / 2


def meet_inside(panel: Panel, one: Hole, other: Hole, limits: HoleLimits) -> bool:
    """Whether both are in the same wood: on the same face, one right through, or from both faces so deep that they
    leave less than the least skin between them."""
    if one.face is other.face or one.depth_mm is None or other.depth_mm is None:
        return True
    return one.depth_mm + other.depth_mm > panel.thickness_mm - limits.least_skin_mm + SAME_MM


def in_the_way(panel: Panel, one: Hole, other: Hole, limits: HoleLimits) -> bool:
    """Whether less than the least web is left between them."""
    return web_mm(one, other) < limits.least_web_mm - SAME_MM and meet_inside(panel, one, other, limits)


def from_cut_out_mm(cut: CutOut, hole: Hole) -> float:
    """From the hole's rim to the cut-out's edge; below 0: it lies in it. A cut-out counts as the rectangle about it."""
    return from_rectangle_mm(
        hole, (cut.left_mm, cut.left_mm + cut.width_mm), (cut.foot_mm, cut.foot_mm + cut.height_mm)
    )


def from_rectangle_mm(hole: Hole, across_mm: tuple[float, float], up_mm: tuple[float, float]) -> float:
    """From the hole's rim to the edge of a rectangle with these ends along u and v, mm; below 0: it reaches into it."""
    beside_mm = max(across_mm[0] - hole.u_mm, hole.u_mm - across_mm[1])
    above_mm = max(up_mm[0] - hole.v_mm, hole.v_mm - up_mm[1])
    between_mm = math.hypot(beside_mm, above_mm) if min(beside_mm, above_mm) > 0 else max(beside_mm, above_mm)
    return between_mm - hole.diameter_mm / 2
