"""What is overhead near a unit: overhead stations that were read, and heights that the job gives as a limit."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from oddleg.job import Bound, HeightOf, Job, Point, Room, Run, Station

from .axes import to_run
from .figure import text_mm
from .finding import Finding, Severity
from .levels import StationLevel


@dataclass(frozen=True)
class Overhead:
    """Something overhead at a level, mm over the bench mark, with its 95 % half-width. `station` None: a level that the
    job gives, which holds wherever what it limits stands."""

    name: str
    level_mm: float
    half_width_mm: float = 0.0
    station: str | None = None
    x_mm: float = 0.0
    y_mm: float = 0.0

    def words(self, step_mm: float) -> str:
        """Its name and level, and how well that is known."""
        how = "as the job gives it"
        if self.station is not None:
            how = f"read, give or take {text_mm(self.half_width_mm, step_mm)}"
        return f"{self.name} {text_mm(self.level_mm, step_mm, signed=True)}, {how}"


@dataclass(frozen=True)
class Zone:
    """A rectangle of the floor in run axes, mm: a unit's place, or the way on which it is stood up."""

    run: Run
    left_mm: float
    right_mm: float
    back_mm: float
    front_mm: float

    def distance_mm(self, x_mm: float, y_mm: float) -> float:
        """From a point of the room to the rectangle in plan; 0 inside it."""
        x, y = to_run(self.run, Point(x_mm, y_mm))
        return math.hypot(max(self.left_mm - x, 0.0, x - self.right_mm), max(self.back_mm - y, 0.0, y - self.front_mm))


@dataclass(frozen=True)
class Ceiling:
    """`spots`: overhead stations that were read. `limits`: by what a limit speaks of, the levels that the job sets for
    it, clearance apart, where the datum code takes them from too. `reach_mm`: how near in plan a spot serves."""

    spots: tuple[Overhead, ...]
    limits: Mapping[HeightOf, tuple[Overhead, ...]]
    reach_mm: float

    def lowest(self, zone: Zone, of: HeightOf) -> Overhead | None:
        """The lowest of what is overhead within reach of the zone or limits such heights; None where none is known."""
        near = [one for one in self.spots if zone.distance_mm(one.x_mm, one.y_mm) <= self.reach_mm]
        return min((*near, *self.limits.get(of, ())), key=lambda one: (one.level_mm, one.name), default=None)


def ceiling(
    job: Job,
    room: Room,
    stations: Sequence[Station],
    levels: Mapping[str, StationLevel],
    least_mm: float | None,
) -> tuple[Ceiling, tuple[Finding, ...]]:
    """The room's overhead readings and limits. `levels`: station id to its level. A reading at or below `least_mm`, the
    highest worktop's level, is no ceiling: it was read the wrong way up or off another plane; it is named and left out.
    """
    spots: list[Overhead] = []
    findings: list[Finding] = []
    for one in stations:
        level = levels.get(one.id)
        if one.surface != "overhead" or level is None:
            continue
        if least_mm is not None and level.level_mm <= least_mm:
            findings.append(_too_low(one, level, least_mm, job.rounding_mm))
            continue
        spots.append(Overhead(one.name, level.level_mm, level.half_width_mm, one.id, one.x_mm, one.y_mm))
    by_id = {one.station: one for one in spots}
    limits: dict[HeightOf, tuple[Overhead, ...]] = {}
    for limit in room.height_limits:
        if limit.bound is not Bound.AT_MOST:
            continue
        given = () if limit.level_mm is None else (Overhead(limit.name, limit.level_mm),)
        read = tuple(by_id[id] for id in limit.stations if id in by_id)
        limits[limit.height_of] = (*limits.get(limit.height_of, ()), *given, *read)
    return Ceiling(tuple(spots), limits, job.tolerances.spacing_mm), tuple(findings)


def _too_low(station: Station, level: StationLevel, least_mm: float, step_mm: float) -> Finding:
    return Finding(
        "tall.overhead_too_low",
        Severity.WARN,
        station.name,
        f"What is overhead there comes out at {text_mm(level.level_mm, step_mm, signed=True)}, not above the worktop "
        f"at {text_mm(least_mm, step_mm, signed=True)}: it is left out.",
        f"Read {station.name} again with the staff hanging from it, as a reading upwards; undo the wrong one.",
        "a ceiling is over the worktop",
        concerns=(station.id,),
    )
