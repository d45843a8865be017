"""The straight line that keeps clear of all points of a wall and leaves least behind it: exact, by convex hulls."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Iterator, Sequence
from itertools import combinations, pairwise

# What the arithmetic may be out, mm: two slopes whose waste differs by less are both best.
EQUAL_MM = 1e-9

Spot = tuple[float, float]


class WallHull:
    """The points (x, y) of a wall as far as a straight line along x can feel them.

    A line y = back + slope x that touches the wall's most proud spot for its slope leaves `waste_mm(slope)` at the
    deepest one: the greatest less the least of y - slope x. That is convex and piecewise linear in the slope, bent at
    the slopes of the hull's edges (first principles). Raises ValueError where there is no point.
    """

    def __init__(self, points: Sequence[Spot]) -> None:
        if not points:
            raise ValueError("a line needs at least one point to keep clear of")
        self._upper = _chain(points, 1.0)
        self._lower = _chain(points, -1.0)
        self._upper_edges = [-slope for slope in _edges(self._upper)]
        self._lower_edges = _edges(self._lower)
        # The slopes at which the spot that the line touches, or the one it leaves deepest, changes.
        self.bends = sorted({*(-slope for slope in self._upper_edges), *self._lower_edges})

    def back_mm(self, slope: float) -> float:
        """The least back at which y = back + slope x lies on no point's far side: the greatest of y - slope x."""
        x_mm, y_mm = self._upper[bisect_left(self._upper_edges, -slope)]
        return y_mm - slope * x_mm

    def waste_mm(self, slope: float) -> float:
        x_mm, y_mm = self._lower[bisect_left(self._lower_edges, slope)]
        return self.back_mm(slope) - (y_mm - slope * x_mm)


def best_slope(walls: Sequence[tuple[WallHull, float]]) -> float:
    """The slope s that wastes least where each wall's own line has the slope s + its offset (second of each pair).

    Least greatest waste over the walls, then least sum of their wastes; where a stretch of slopes is equally good, its
    middle, which neither the order of walls or points nor a mirror changes. All wastes are straight between their bends
    and the places where two of them cross, so that the best is found among those, exactly. With no two x on any wall
    all slopes are alike: the mean of the walls' own references. Raises ValueError where there is no wall.
    """
    if not walls:
        raise ValueError("no wall, no slope")
    bends = sorted({bend - offset for hull, offset in walls for bend in hull.bends})
    if not bends:
        return -math.fsum(offset for _, offset in walls) / len(walls)

    def wastes(slope: float) -> list[float]:
        return [hull.waste_mm(slope + offset) for hull, offset in walls]

    nodes = sorted({*bends, *_crossings(bends, [wastes(bend) for bend in bends])})
    found = [(slope, wastes(slope)) for slope in nodes]
    for measure in (max, math.fsum):
        least_mm = min(measure(wasted) for _, wasted in found)
        found = [(slope, wasted) for slope, wasted in found if measure(wasted) <= least_mm + EQUAL_MM]
    return (found[0][0] + found[-1][0]) / 2


def _crossings(bends: Sequence[float], wastes: Sequence[Sequence[float]]) -> Iterator[float]:
    """Slopes between two bends at which the wastes of two walls are equal."""
    for (start, at_start), (stop, at_stop) in pairwise(zip(bends, wastes, strict=True)):
        for one, other in combinations(range(len(at_start)), 2):
            before, after = at_start[one] - at_start[other], at_stop[one] - at_stop[other]
            if before * after < 0:
                yield start + (stop - start) * before / (before - after)


def _chain(points: Sequence[Spot], side: float) -> list[Spot]:
    """The hull's corners on one side (1: greatest y, -1: least), from left to right."""
    extreme: dict[float, float] = {}
    for x_mm, y_mm in points:
        extreme[x_mm] = side * max(side * y_mm, side * extreme.get(x_mm, y_mm))
    chain: list[Spot] = []
    for x_mm in sorted(extreme):
        spot = (x_mm, extreme[x_mm])
        while len(chain) > 1 and side * _turn(chain[-2], chain[-1], spot) >= 0:
            chain.pop()
        chain.append(spot)
    return chain


def _turn(first: Spot, second: Spot, third: Spot) -> float:
    return (second[0] - first[0]) * (third[1] - first[1]) - (second[1] - first[1]) * (third[0] - first[0])


def _edges(chain: Sequence[Spot]) -> list[float]:
    return [(stop[1] - start[1]) / (stop[0] - start[0]) for start, stop in pairwise(chain)]
