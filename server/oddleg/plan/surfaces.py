"""Computation 2: the floor as a surface through its stations."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from oddleg.job import BreakLine, Tolerances

from .adjustment import COVERAGE_95
from .break_lines import Steps
from .triangulation import Triangulation

# Off the half-millimetre steps in which places are given, so that no last bit decides.
SAME_PLACE_MM = 1.1
AT_STATION_MM = 1.0
LEAST_SLOPE_LENGTH_MM = 300.0

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Spot:
    """A station on one surface: its level there and what that level rests on."""

    id: str
    name: str
    x_mm: float
    y_mm: float
    level_mm: float


@dataclass(frozen=True)
class SurfaceLevel:
    """The level of a surface at one place. `rests_on`: (station id, share) with shares that sum to 1. `rule`: plain
    words for how it came about (READ_THERE and the others below). `to_station_mm`: distance to the nearest station on
    this side of any step. `half_width_mm`: 95 %, with the job's unevenness where no station is.
    """

    level_mm: float
    half_width_mm: float
    rests_on: tuple[tuple[str, float], ...]
    rule: str
    to_station_mm: float


READ_THERE = "read there"
ON_LINE = "between its neighbours on the line"
THIS_SIDE = "from the nearest station on its side of the step"
IN_TRIANGLE = "in the triangle of"
AMONG = "among the stations round it"
ON_PROFILE = "off the profile"
BEYOND = "beyond the last station"


class Surface:
    """Linear along lines of stations, linear over the Delaunay triangulation elsewhere.

    Along a line (`tolerances.line_reach_mm` either side of it): linear between neighbours that have a level. From that
    reach to twice as far, past the line's ends, and near a station that stands beside the line without belonging to it,
    the line gives way to the triangulation in proportion, so that the surface has no cliff that a last bit decides.
    Elsewhere: triangulation.py. All stations on one line: their profile, and nothing more than
    `tolerances.profile_reach_mm` from it. Outside: the nearest edge's value. Across a break line nothing is
    interpolated: only stations that can be seen from a place count there; on the step itself the higher side holds,
    for that is where a foot on the step would rest. Stations in one place (within SAME_PLACE_MM) count with their mean.

    `covariance`: of the spots' levels, mm2, in their order. `lines`: station ids in order along each line; ids without
    a spot are passed over. Raises ValueError for a level or place that is no number, a covariance of another size, or
    an id that comes twice.
    """

    def __init__(
        self,
        spots: Sequence[Spot],
        covariance: np.ndarray,
        lines: Sequence[Sequence[str]],
        break_lines: Sequence[BreakLine],
        tolerances: Tolerances,
    ) -> None:
        self.spots: tuple[Spot, ...] = tuple(spots)
        count = len(self.spots)
        self._number = {spot.id: number for number, spot in enumerate(self.spots)}
        if len(self._number) != count:
            raise ValueError("two spots of a surface have the same id")
        self._places = np.array([(spot.x_mm, spot.y_mm) for spot in self.spots], dtype=float).reshape(-1, 2)
        self._levels = np.array([spot.level_mm for spot in self.spots], dtype=float)
        self._covariance = np.asarray(covariance, dtype=float)
        if self._covariance.shape != (count, count) and count:
            raise ValueError(f"covariance of {count} spots has the shape {self._covariance.shape}")
        if not (np.isfinite(self._places).all() and np.isfinite(self._levels).all()):
            raise ValueError("a spot of a surface has a place or level that is no number")
        self._lines = [
            line for ids in lines if len(line := [self._number[one] for one in ids if one in self._number]) > 1
        ]
        self._steps = Steps(break_lines)
        self._tolerances = tolerances
        self._on_step = np.array([self._steps.beside(place) is not None for place in self._places], dtype=bool)
        self._sides: dict[bytes, _Side] = {}
        # Datum, legs and gaps ask for the same places, one after the other.
        self._answers: dict[tuple[float, float], SurfaceLevel | None] = {}

    @property
    def highest(self) -> Spot:
        """The spot of highest level, by id where several are. Raises ValueError where there are no spots."""
        return max(self.spots, key=lambda spot: (spot.level_mm, spot.id))

    @property
    def lowest(self) -> Spot:
        """The spot of lowest level, by id where several are. Raises ValueError where there are no spots."""
        return min(self.spots, key=lambda spot: (spot.level_mm, spot.id))

    @property
    def range_mm(self) -> float:
        """Highest less lowest level, mm. Raises ValueError where there are no spots."""
        return self.highest.level_mm - self.lowest.level_mm

    @property
    def on_steps(self) -> tuple[Spot, ...]:
        """Spots that stand on a break line itself: nobody knows which side they were read on, so they serve neither."""
        return tuple(spot for spot, on_step in zip(self.spots, self._on_step, strict=True) if on_step)

    def at(self, x_mm: float, y_mm: float) -> SurfaceLevel | None:
        """None where nothing can be said: no spots, none on this side of a step, or too far beside a profile.

        Raises ValueError for a place that is no number.
        """
        if not (math.isfinite(x_mm) and math.isfinite(y_mm)):
            raise ValueError(f"{x_mm}, {y_mm} is not a place")
        if not self.spots:
            return None
        place = (x_mm, y_mm)
        if place not in self._answers:
            self._answers[place] = self._at(np.array(place, dtype=float))
        return self._answers[place]

    def _at(self, point: Floats) -> SurfaceLevel | None:
        beside = self._steps.beside(point)
        if beside is None:
            return self._seen_from(point)
        off = np.hypot(*(self._places - point).T)
        nearest = int(off.argmin())
        if self._on_step[nearest] and off[nearest] <= AT_STATION_MM:
            return self._level({nearest: 1.0}, READ_THERE, 0.0, float(off[nearest]))
        sides = [level for one in beside if (level := self._seen_from(one)) is not None]
        return max(sides, key=lambda level: level.level_mm, default=None)

    def profiles(self) -> tuple[tuple[Spot, ...], ...]:
        """The spots along each line of at least two, in order, cut wherever a step lies between neighbours."""
        cut: list[tuple[Spot, ...]] = []
        for line in self._lines:
            piece = [line[0]]
            for a, b in pairwise(line):
                if self._on_step[b] or self._steps.hidden(self._places[a], self._places[[b]])[0]:
                    cut.append(tuple(self.spots[number] for number in piece))
                    piece = []
                piece.append(b)
            cut.append(tuple(self.spots[number] for number in piece))
        return tuple(piece for piece in cut if len(piece) > 1)

    def worst_slope(self) -> tuple[float, Spot, Spot] | None:
        """mm per m, between two neighbouring spots at least 300 mm apart: slope, the upper spot, the lower one."""
        worst: tuple[float, str, str] | None = None
        for number in np.flatnonzero(~self._on_step):
            for other in self._side(self._places[number]).neighbours(int(number)):
                length_mm = math.dist(self._places[number], self._places[other])
                fall_mm = float(self._levels[number] - self._levels[other])
                if length_mm < LEAST_SLOPE_LENGTH_MM or fall_mm < 0:
                    continue
                found = (fall_mm / length_mm * 1000.0, self.spots[number].id, self.spots[other].id)
                worst = found if worst is None else max(worst, found)
        if worst is None:
            return None
        slope, upper, lower = worst
        return slope, self.spots[self._number[upper]], self.spots[self._number[lower]]

    def _side(self, point: Floats) -> _Side:
        seen = ~self._on_step & ~self._steps.hidden(point, self._places)
        key = seen.tobytes()
        if key not in self._sides:
            self._sides[key] = _Side(self._places, seen, self._lines, self._tolerances)
        return self._sides[key]

    def _seen_from(self, point: Floats) -> SurfaceLevel | None:
        side = self._side(point)
        found = side.shares(point)
        if found is None:
            return None
        of, rule = found
        off = np.hypot(*(self._places[side.seen] - point).T)
        to_station_mm = float(off.min())
        uneven_mm = self._tolerances.unevenness_mm
        if to_station_mm <= AT_STATION_MM:
            rule, uneven_mm = READ_THERE, 0.0
        return self._level(of, rule, uneven_mm, to_station_mm)

    def _level(self, of: dict[int, float], rule: str, uneven_mm: float, to_station_mm: float) -> SurfaceLevel:
        numbers = sorted(number for number, share in of.items() if share > 1e-9)
        shares = np.array([of[number] for number in numbers])
        shares /= shares.sum()
        levels = self._levels[numbers]
        level_mm = float(np.clip(shares @ levels, levels.min(), levels.max()))
        variance = float(shares @ self._covariance[np.ix_(numbers, numbers)] @ shares)
        return SurfaceLevel(
            level_mm,
            COVERAGE_95 * math.sqrt(max(variance, 0.0)) + uneven_mm,
            tuple((self.spots[number].id, float(share)) for number, share in zip(numbers, shares, strict=True)),
            rule,
            to_station_mm,
        )


class _Side:
    """What can be said from the stations that are seen from one side of the steps."""

    def __init__(self, places: Floats, seen: NDArray[np.bool_], lines: list[list[int]], tolerances: Tolerances) -> None:
        self.seen = np.flatnonzero(seen)
        self._tolerances = tolerances
        self._members = _in_one_place(places, self.seen)
        self._nodes = np.array([places[one].mean(axis=0) for one in self._members]).reshape(-1, 2)
        self._triangulation = Triangulation(self._nodes) if self._members else None
        self._node_of = {number: node for node, members in enumerate(self._members) for number in members}
        served = ([(number, self._node_of.get(number)) for number in line] for line in lines)
        self._lines = [_Line(places, self._nodes, line) for line in served if any(node is not None for _, node in line)]

    def neighbours(self, number: int) -> set[int]:
        """Spots that are neighbours of this one, in the triangulation or on a line."""
        if self._triangulation is None:
            return set()
        return {other for one in self._beside[self._node_of[number]] for other in self._members[one]}

    @cached_property
    def _beside(self) -> dict[int, set[int]]:
        """Each node's neighbours."""
        found: dict[int, set[int]] = {node: set() for node in range(len(self._members))}
        pairs = self._triangulation.edges() if self._triangulation is not None else set()
        for a, b in pairs.union(*(line.edges() for line in self._lines)):
            found[a].add(b)
            found[b].add(a)
        return found

    def shares(self, point: Floats) -> tuple[dict[int, float], str] | None:
        """Spot number to share, and the rule; None where nothing can be said."""
        if self._triangulation is None:
            return None
        of: dict[int, float] = {}
        rule = ""
        hold, weight, found = 0.0, 0.0, []
        for line in self._lines:
            held = line.shares(point, self._tolerances.line_reach_mm)
            if held is not None and held.hold > 0:
                found.append(held)
                hold = max(hold, held.hold)
                weight += held.weight
        for held in found:
            _add(of, held.of.items(), hold * held.weight / weight)
        if hold > 0.5:
            nearest = max(found, key=lambda held: held.weight)
            rule = THIS_SIDE if nearest.cut else BEYOND if nearest.past_mm > AT_STATION_MM else ON_LINE
        elsewhere = self._triangulation.shares(*map(float, point))
        if self._triangulation.is_profile and elsewhere.outside_mm > self._tolerances.profile_reach_mm:
            if not found:
                return None
            of = {node: share / hold for node, share in of.items()}
            hold = 1.0
        if hold < 1:
            _add(of, elsewhere.of.items(), 1.0 - hold)
        if elsewhere.outside_mm > AT_STATION_MM and (elsewhere.past_end or not self._triangulation.is_profile):
            rule = rule or BEYOND
        elif self._triangulation.is_profile:
            rule = rule or ON_PROFILE
        rule = rule or (AMONG if elsewhere.chance else IN_TRIANGLE)
        spots: dict[int, float] = {}
        for node, share in of.items():
            members = self._members[node]
            _add(spots, ((number, 1.0) for number in members), share / len(members))
        return spots, rule


@dataclass(frozen=True)
class _Held:
    """What a line says at a point: node to share, how far it holds there (0 to 1), its weight beside other lines, and
    whether a step cuts the line here, and how far past the line's end the point lies."""

    of: dict[int, float]
    hold: float
    weight: float
    cut: bool
    past_mm: float


class _Line:
    """A line of stations, each with its node or None where a step hides it; a pair of hidden ones is no part of it."""

    def __init__(self, places: Floats, nodes: Floats, line: list[tuple[int, int | None]]) -> None:
        own = {node for _, node in line if node is not None}
        self._others = np.array([place for node, place in enumerate(nodes) if node not in own]).reshape(-1, 2)
        at = [places[number] if node is None else nodes[node] for number, node in line]
        pairs = [
            (number, a, b)
            for number, (a, b) in enumerate(pairwise([node for _, node in line]))
            if (a is not None or b is not None) and a != b
        ]
        self._pairs = [(b if a is None else a, a if b is None else b) for _, a, b in pairs]
        self._cut = [a is None or b is None for _, a, b in pairs]
        self._from = np.array([at[number] for number, _, _ in pairs]).reshape(-1, 2)
        self._along = np.array([at[number + 1] - at[number] for number, _, _ in pairs]).reshape(-1, 2)
        self._length = np.hypot(*self._along.T)
        self._starts = [number == 0 for number, _, _ in pairs]
        self._stops = [number == len(line) - 2 for number, _, _ in pairs]

    def edges(self) -> set[tuple[int, int]]:
        pairs = zip(self._pairs, self._cut, strict=True)
        return {(min(a, b), max(a, b)) for (a, b), cut in pairs if not cut and a is not None and b is not None}

    def shares(self, point: Floats, reach_mm: float) -> _Held | None:
        if not self._pairs or reach_mm <= 0:
            return None
        to = point - self._from
        along = (to * self._along).sum(axis=1) / self._length**2
        foot = np.clip(along, 0.0, 1.0)
        off = np.hypot(*(to - foot[:, None] * self._along).T)
        best = int(off.argmin())
        off_mm, past_mm = float(off[best]), 0.0
        if (self._starts[best] and along[best] < 0) or (self._stops[best] and along[best] > 1):
            past_mm = abs(float(along[best] - foot[best])) * float(self._length[best])
            off_mm = math.sqrt(max(off_mm**2 - past_mm**2, 0.0))
        hold = _ramp(2.0 - off_mm / reach_mm) * _ramp(1.0 - past_mm / reach_mm)
        if hold > 0 and len(self._others):
            hold *= _ramp(float(np.hypot(*(self._others - point).T).min()) / reach_mm)
        a, b = self._pairs[best]
        assert a is not None and b is not None
        of: dict[int, float] = {}
        _add(of, ((a, 1.0 - float(foot[best])), (b, float(foot[best]))), 1.0)
        # Where two lines cross, the nearer one counts more, smoothly over the millimetre in which they meet.
        return _Held(of, hold, hold / (off_mm**2 + past_mm**2 + 1.0), self._cut[best], past_mm)


def _ramp(share: float) -> float:
    return min(1.0, max(0.0, share))


def _add(of: dict[int, float], more: Iterable[tuple[int, float]], factor: float) -> None:
    for key, share in more:
        of[key] = of.get(key, 0.0) + share * factor


def _in_one_place(places: Floats, numbers: NDArray[np.intp]) -> list[list[int]]:
    """The numbers grouped by place: those within SAME_PLACE_MM of one another, and what is within that of those."""
    group = {int(number): [int(number)] for number in numbers}
    here = places[numbers]
    near = np.hypot(*np.moveaxis(here[:, None] - here[None], -1, 0)) <= SAME_PLACE_MM
    for one, other in zip(*np.nonzero(np.triu(near, 1)), strict=True):
        a, b = group[int(numbers[one])], group[int(numbers[other])]
        if a is not b:
            a.extend(b)
            group.update(dict.fromkeys(b, a))
    return [members for number, members in group.items() if members[0] == number]
