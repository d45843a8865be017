"""Outlines of cut-outs, and what of a line lies within an area."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from itertools import pairwise

from oddleg.plan.fitted_out import CutOut

from .lettering import Area

Place = tuple[float, float]
# Chords a quarter turn: with a radius of 50 no chord is further than 0.002 from its arc.
CHORDS = 90


def cut_outline(cut: CutOut, chords: int = CHORDS) -> tuple[Place, ...]:
    """Its outline in the panel's own axes, anticlockwise from its lower left. Where it runs out to an edge its
    corners are square, since nothing is left there to be round."""
    left_mm, foot_mm = cut.left_mm, cut.foot_mm
    right_mm, top_mm = left_mm + cut.width_mm, foot_mm + cut.height_mm
    radius_mm = min(cut.width_mm, cut.height_mm) / 2 if cut.round else cut.radius_mm
    corners = (
        (left_mm, foot_mm, 1, 1, ("left", "bottom")),
        (right_mm, foot_mm, -1, 1, ("right", "bottom")),
        (right_mm, top_mm, -1, -1, ("right", "top")),
        (left_mm, top_mm, 1, -1, ("left", "top")),
    )
    points: list[Place] = []
    for number, (u_mm, v_mm, across, up, edges) in enumerate(corners):
        if radius_mm <= 0 or (not cut.round and set(edges) & set(cut.open_to)):
            points.append((u_mm, v_mm))
            continue
        middle = u_mm + across * radius_mm, v_mm + up * radius_mm
        points += arc(middle, radius_mm, 180.0 + 90.0 * number, 270.0 + 90.0 * number, chords)
    return tuple(points)


def arc(middle: Place, radius_mm: float, from_deg: float, to_deg: float, chords: int = CHORDS) -> list[Place]:
    """Points along it, both ends included; so many chords a quarter turn."""
    steps = max(1, round(chords * (to_deg - from_deg) / 90.0))
    turns = (math.radians(from_deg + (to_deg - from_deg) * step / steps) for step in range(steps + 1))
    return [(middle[0] + radius_mm * math.cos(turn), middle[1] + radius_mm * math.sin(turn)) for turn in turns]


def within(points: Sequence[Place], area: Area, closed: bool = False) -> list[list[Place]]:
    """The pieces of a line through these points that lie in the area, in order."""
    pieces: list[list[Place]] = []
    ends = [*points, points[0]] if closed else list(points)
    for start, end in pairwise(ends):
        kept = _segment(start, end, area)
        if kept is None:
            continue
        if pieces and pieces[-1][-1] == kept[0]:
            pieces[-1].append(kept[1])
        else:
            pieces.append([*kept])
    return pieces


def _segment(start: Place, end: Place, area: Area) -> tuple[Place, Place] | None:
    """What of the line from start to end lies in the area (Liang and Barsky's way, from memory)."""
    low, high = 0.0, 1.0
    bounds: tuple[tuple[Callable[[Place], float], float, float], ...] = (
        (lambda at: at[0], area.left_mm, area.right_mm),
        (lambda at: at[1], area.top_mm, area.bottom_mm),
    )
    for of, least_mm, greatest_mm in bounds:
        way = of(end) - of(start)
        if way == 0:
            if not least_mm <= of(start) <= greatest_mm:
                return None
            continue
        into, out_of = sorted(((least_mm - of(start)) / way, (greatest_mm - of(start)) / way))
        low, high = max(low, into), min(high, out_of)
    if low >= high:
        return None

    def at(share: float) -> Place:
        if share in (0.0, 1.0):
            return end if share else start
        return start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])

    return at(low), at(high)
