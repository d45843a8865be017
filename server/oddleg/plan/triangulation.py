"""A triangulation that no last bit decides: places in plan, and by which shares each of them counts at a point.

Delaunay's triangles, with two departures. Where four or more places lie on one circle within CIRCLE_MM, the diagonals
are a matter of chance, so all triangulations of that polygon count alike. Triangles lower than SLIVER_MM along the
outer edge come from places that stand in one line, and are left out. Lengths in mm.
"""

from __future__ import annotations

import math
from collections import defaultdict
from dataclasses import dataclass
from itertools import combinations, pairwise

import numpy as np
from numpy.typing import NDArray

CIRCLE_MM = 1.0
SLIVER_MM = 1.0
ON_EDGE = 1e-9

Floats = NDArray[np.float64]
Triangle = tuple[int, int, int]
Edge = tuple[int, int]


@dataclass(frozen=True)
class Shares:
    """By which share (0 to 1, sum 1) each place counts. `outside_mm`: 0 in the triangulation, else how far off its edge
    the point lies. `past_end`: the nearest of it is the end of a profile. `chance`: on a circle, all diagonals count.
    """

    of: dict[int, float]
    outside_mm: float
    past_end: bool
    chance: bool


class Triangulation:
    """`places`: n x 2, no two in one place. `is_profile`: all in one line within SLIVER_MM, or fewer than three.

    Raises ValueError without places.
    """

    def __init__(self, places: Floats) -> None:
        if not len(places):
            raise ValueError("no places to triangulate")
        self._centre = places.mean(axis=0)
        self._places = places - self._centre
        line = _in_one_line(self._places)
        if line is not None:
            self._triangles: list[Triangle] = []
            self._rim = list(pairwise(line)) or [(0, 0)]
        else:
            self._triangles, self._rim = _without_slivers(self._places, _delaunay(self._places))
        self.is_profile = not self._triangles
        self._polygon_of = _polygons(self._places, self._triangles)
        ends: dict[int, int] = defaultdict(int)
        for edge in self._rim:
            for place in edge:
                ends[place] += 1
        self._ends = {place for place, count in ends.items() if count == 1 or len(places) == 1}
        if self._triangles:
            corners = self._places[np.array(self._triangles)]
            self._origins = corners[:, 2]
            self._inverses = np.linalg.inv(
                np.stack([corners[:, 0] - corners[:, 2], corners[:, 1] - corners[:, 2]], axis=-1)
            )
        rim = self._places[np.array(self._rim)]
        self._rim_from, self._rim_along = rim[:, 0], rim[:, 1] - rim[:, 0]
        self._rim_square = np.maximum((self._rim_along**2).sum(axis=1), np.finfo(float).tiny)

    def edges(self) -> set[Edge]:
        """Neighbours, each pair once and ascending; in a polygon on a circle everyone is everyone's neighbour."""
        pairs = {_edge(a, b) for a, b in self._rim if a != b}
        for number, triangle in enumerate(self._triangles):
            polygon = self._polygon_of.get(number)
            pairs.update(_edge(a, b) for a, b in combinations(polygon.places if polygon else triangle, 2))
        return pairs

    def shares(self, x_mm: float, y_mm: float) -> Shares:
        """Linear in the triangle round the point; outside, linear along the nearest edge at the foot of the point."""
        point = np.array([x_mm, y_mm]) - self._centre
        if self._triangles:
            two = np.einsum("tij,tj->ti", self._inverses, point - self._origins)
            three = np.column_stack([two, 1.0 - two.sum(axis=1)])
            least = three.min(axis=1)
            best = int(least.argmax())
            if least[best] >= -ON_EDGE:
                polygon = self._polygon_of.get(best)
                if polygon is not None:
                    return Shares(polygon.shares(point), 0.0, False, True)
                held = np.maximum(three[best], 0.0)
                held /= held.sum()
                return Shares(dict(zip(self._triangles[best], map(float, held), strict=True)), 0.0, False, False)
        along = np.clip(((point - self._rim_from) * self._rim_along).sum(axis=1) / self._rim_square, 0.0, 1.0)
        off = np.hypot(*(point - self._rim_from - along[:, None] * self._rim_along).T)
        best = int(off.argmin())
        a, b = self._rim[best]
        share = float(along[best])
        whole = a if share == 0.0 else b if share == 1.0 else None
        of = {whole: 1.0} if whole is not None else {a: 1.0 - share, b: share}
        return Shares(of, float(off[best]), whole in self._ends, False)


class _Polygon:
    """A convex polygon of places on one circle: the mean over all its triangulations.

    Triangle (i, j, k) is in Catalan(j-i-1) * Catalan(k-j-1) * Catalan(n-k+i-1) of the Catalan(n-2) triangulations: the
    ways to divide the three pieces that it leaves (Euler's polygon division).
    """

    def __init__(self, places: list[int], at: Floats) -> None:
        self.places = places
        self._at = at[places]
        n = len(places)
        self._i, self._j, self._k = np.array(list(combinations(range(n), 3))).T
        ways = np.array([_catalan(m) for m in range(n)], dtype=float)
        i, j, k = self._i, self._j, self._k
        self._ways = ways[j - i - 1] * ways[k - j - 1] * ways[n - k + i - 1] / ways[n - 2]

    def shares(self, point: Floats) -> dict[int, float]:
        # One answer for each pair "is the point on the left of the line from i to j" serves all triangles: so
        # each triangulation has exactly one triangle round the point, on a diagonal too. Its own sides are certain.
        to = self._at - point
        left = np.multiply.outer(to[:, 0], to[:, 1]) - np.multiply.outer(to[:, 1], to[:, 0]) >= 0
        n = len(self.places)
        left[np.arange(n - 1), np.arange(1, n)] = True
        left[0, n - 1] = False
        round_it = left[self._i, self._j] & left[self._j, self._k] & ~left[self._i, self._k]
        i, j, k, ways = self._i[round_it], self._j[round_it], self._k[round_it], self._ways[round_it]
        held = np.column_stack([_doubled(to[j], to[k]), _doubled(to[k], to[i]), _doubled(to[i], to[j])])
        held = np.maximum(held, 0.0)
        total = held.sum(axis=1, keepdims=True)
        held = held / np.where(total > 0, total, 1.0) * ways[:, None]
        of = np.zeros(n)
        for corner, column in zip((i, j, k), held.T, strict=True):
            np.add.at(of, corner, column)
        of /= of.sum()
        return {place: float(share) for place, share in zip(self.places, of, strict=True) if share > 0}


def _catalan(n: int) -> int:
    return math.comb(2 * n, n) // (n + 1)


def _edge(a: int, b: int) -> Edge:
    return (a, b) if a < b else (b, a)


def _doubled(a: Floats, b: Floats) -> Floats:
    """Twice the signed area over two vectors."""
    return np.asarray(a[..., 0] * b[..., 1] - a[..., 1] * b[..., 0])


def _in_one_line(at: Floats) -> list[int] | None:
    """The places in order along their line where all of them are in one, within SLIVER_MM; else None."""
    if len(at) == 1:
        return [0]
    apart = ((at[:, None] - at[None]) ** 2).sum(axis=2)
    a, b = divmod(int(apart.argmax()), len(at))
    along = at[b] - at[a]
    off = _doubled(along, at - at[a]) / math.hypot(*along)
    if off.max() - off.min() >= SLIVER_MM:
        return None
    return [int(place) for place in np.argsort(at @ along, kind="stable")]


def _delaunay(at: Floats) -> list[Triangle]:
    """Delaunay's triangles, each anticlockwise where y points up."""
    from scipy.spatial import Delaunay  # here, since it would slow every start of the program

    found = []
    for a, b, c in Delaunay(at).simplices.tolist():
        doubled = float(_doubled(at[b] - at[a], at[c] - at[a]))
        if doubled:
            found.append((a, b, c) if doubled > 0 else (a, c, b))
    return found


def _sides(triangle: Triangle) -> tuple[Edge, Edge, Edge]:
    a, b, c = triangle
    return _edge(a, b), _edge(b, c), _edge(c, a)


def _without_slivers(at: Floats, triangles: list[Triangle]) -> tuple[list[Triangle], list[Edge]]:
    """The triangles that stay, and the edges round them (a tail of places in one line included)."""
    owners: dict[Edge, list[Triangle]] = defaultdict(list)
    for triangle in triangles:
        for side in _sides(triangle):
            owners[side].append(triangle)
    rim = {side for side, those in owners.items() if len(those) == 1}
    stay = set(triangles)
    waiting = sorted(rim)
    while waiting:
        side = waiting.pop()
        left = [one for one in owners[side] if one in stay]
        if not left or side not in rim:
            continue
        triangle = left[0]
        lengths = {one: math.dist(at[one[0]], at[one[1]]) for one in _sides(triangle)}
        a, b, c = triangle
        height_mm = float(_doubled(at[b] - at[a], at[c] - at[a])) / lengths[side]
        if height_mm >= SLIVER_MM or lengths[side] < max(lengths.values()):
            continue
        stay.remove(triangle)
        rim.remove(side)
        others = [one for one in _sides(triangle) if one != side]
        rim.update(others)
        waiting.extend(others)
    return [one for one in triangles if one in stay], sorted(rim)


def _circle(at: Floats, triangle: Triangle) -> tuple[Floats, float]:
    a, b, c = (at[place] for place in triangle)
    ab, ac = b - a, c - a
    doubled = 2.0 * float(_doubled(ab, ac))
    to_centre = np.array([ac[1] * (ab @ ab) - ab[1] * (ac @ ac), ab[0] * (ac @ ac) - ac[0] * (ab @ ab)]) / doubled
    return a + to_centre, math.hypot(*to_centre)


def _polygons(at: Floats, triangles: list[Triangle]) -> dict[int, _Polygon]:
    """Triangle number to the polygon that it belongs to, where neighbours share one circle."""
    owners: dict[Edge, list[int]] = defaultdict(list)
    for number, triangle in enumerate(triangles):
        for side in _sides(triangle):
            owners[side].append(number)
    circles = [_circle(at, triangle) for triangle in triangles]
    group = list(range(len(triangles)))

    def top(number: int) -> int:
        while group[number] != number:
            number = group[number]
        return number

    for side, those in owners.items():
        if len(those) != 2:
            continue
        for one, other in (those, those[::-1]):
            opposite = next(place for place in triangles[other] if place not in side)
            centre, radius = circles[one]
            if abs(math.hypot(*(at[opposite] - centre)) - radius) <= CIRCLE_MM:
                group[top(one)] = top(other)
    grouped: dict[int, list[int]] = defaultdict(list)
    for number in range(len(triangles)):
        grouped[top(number)].append(number)
    polygon_of = {}
    for numbers in grouped.values():
        if len(numbers) > 1 and (ring := _convex_ring(at, [triangles[number] for number in numbers])):
            polygon = _Polygon(ring, at)
            polygon_of.update(dict.fromkeys(numbers, polygon))
    return polygon_of


def _convex_ring(at: Floats, triangles: list[Triangle]) -> list[int] | None:
    """The places round these triangles, anticlockwise; None where they make no convex polygon without places inside."""
    directed = {(a, b) for t in triangles for a, b in zip(t, (*t[1:], t[0]), strict=True)}
    following = {a: b for a, b in directed if (b, a) not in directed}
    ring = [min(following)]
    while (after := following[ring[-1]]) != ring[0] and len(ring) <= len(following):
        ring.append(after)
    if len(ring) != len(triangles) + 2:
        return None
    corners = at[ring]
    ahead = np.roll(corners, -1, axis=0) - corners
    return ring if (_doubled(ahead, np.roll(ahead, -1, axis=0)) > 0).all() else None
