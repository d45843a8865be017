"""Computation 1: levels of stations from all set-ups in one least-squares adjustment with full covariance.

Unknown are the level of each set-up's plane and of each station at each stage; bench marks are fixed. A reading, taken
as "how far below the plane", is plane - level + tilt + noise. The tilt is that of the laser in its set-up, shared by
all its readings, and two things at once: the plane leans (mm/m in X and in Y, times the vector from laser to station),
and the beam climbs alike on every side (mm/m, times the distance), as where the head is turned to each station; the
climb is what a two-peg check finds, and it cancels between equal sights. Nobody states the two apart, so each gets half
the variance: the readings of a set-up have the covariance noise^2 I + slope^2 / 2 (D D' + d d'), D the vectors and d
their lengths, which makes slope x distance at each. Where a place is not known, they weigh alike.
Where nothing closes a set-up, a knock would go unseen: all its readings but those of what it hangs on share one more
error, of `unseen_knock_mm` (95 %). It moves no level, since nothing there is redundant; it widens every give or take.

A laser's stated accuracy is taken as a 95 % half-width in any direction, so its standard deviation is that / 1.96:
makers state a limit, rarely with a coverage (common practice). So is the give or take of a line on a wall.
What contradicts itself is left out with a stop: nothing here averages a blunder away.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from oddleg.job import BenchMark, Entry, Instrument, Job, Laser, Point, Room, SetUp, Stage, Tolerances, Way

from .adjustment import COVERAGE_95, solved
from .finding import Finding, Severity
from .repeats import by_spot, contradictions, knocks, pooled_noise_mm, spread_mm
from .sightings import Sighting, survey
from .ties import (
    Misclosure,
    Unclosed,
    closure,
    reached,
    tie_graph,
    unchecked_findings,
    unclosed_set_ups,
    untied_findings,
)

__all__ = ["Levels", "Misclosure", "Plane", "Residual", "StationLevel", "adjusted_levels"]


@dataclass(frozen=True)
class StationLevel:
    """A level, mm over the bench mark, and its 95 % half-width; the readings taken there, by entry uid.

    `spread_mm`: the largest difference of repeats in one set-up; None where nothing was read twice.
    """

    station: str
    stage: Stage
    level_mm: float
    half_width_mm: float
    readings: tuple[str, ...]
    set_ups: tuple[str, ...]
    spread_mm: float | None = None


@dataclass(frozen=True)
class Plane:
    """The level of a set-up's plane over the bench mark, mm, and its 95 % half-width."""

    set_up: str
    level_mm: float
    half_width_mm: float


@dataclass(frozen=True)
class Residual:
    """What one reading is off the adjusted one, mm (reading less adjusted), by entry uid."""

    reading: str
    set_up: str
    station: str
    residual_mm: float


@dataclass(frozen=True)
class Levels:
    """`covariance` rows and columns stand in the order of `stations`. `noise_mm`: standard deviation of one reading as
    used; `noise_pooled`: it came from repeats. `open_stations`: read, but no level at some stage until that is mended.
    `unclosed`: set-ups that nothing closes, with what rests on them.
    """

    stations: tuple[StationLevel, ...]
    planes: tuple[Plane, ...]
    residuals: tuple[Residual, ...]
    covariance: np.ndarray
    misclosure: Misclosure | None
    noise_mm: float
    noise_pooled: bool
    open_stations: tuple[str, ...]
    findings: tuple[Finding, ...]
    unclosed: tuple[Unclosed, ...] = ()

    def at(self, station: str, stage: Stage) -> StationLevel | None:
        return self._by_stage.get((station, stage))

    @cached_property
    def _by_stage(self) -> dict[tuple[str, Stage], StationLevel]:
        return {(one.station, one.stage): one for one in reversed(self.stations)}


def adjusted_levels(
    job: Job, room: Room, entries: Sequence[Entry], places: Mapping[str, Point | None], names: Mapping[str, str]
) -> Levels:
    """`entries`: live SetUp and Reading entries of this room, one SetUp for each set-up that is read from (`site` sees
    to both). `places`, `names`: station or bench mark id to X, Y and name; without a place, the reading's own counts.

    The order of `entries` is of no account; their `position` says in which order the readings were taken. Readings are
    finite, and the job's `reading_noise_mm` is above 0 (ValueError otherwise).
    """
    taken = survey(job, room, entries, places, names)
    marks = {mark.id: mark for mark in room.bench_marks}
    lines = {id_ for id_, set_up in taken.set_ups.items() if set_up.line_level_mm is not None}
    findings = list(taken.findings)
    if not taken.sightings:
        findings.append(_no_readings(room))

    knocked, said = knocks([one for one in taken.sightings if one.set_up not in lines], taken.called, job.tolerances)
    findings += said
    standing = [one for one in taken.sightings if one.set_up not in knocked]
    doubtful, said = contradictions(standing, taken.called, job.tolerances)
    findings += said
    standing = [one for one in standing if one.uid not in doubtful]
    pooled_mm = pooled_noise_mm(standing, _resolution_mm(job, taken.set_ups))
    noise_mm = job.tolerances.reading_noise_mm if pooled_mm is None else pooled_mm

    set_aside = knocked | {one.set_up for one in taken.sightings if one.uid in doubtful and one.is_mark}
    closing, misclosure, said = _closing(
        standing, taken.set_ups, marks, taken.called, set_aside, job.tolerances, bool(taken.sightings)
    )
    findings += said
    open_spots = {(one.station, one.stage) for one in taken.sightings if one.uid in doubtful and not one.is_mark}
    unclosed = unclosed_set_ups(tie_graph(closing, taken.set_ups, marks), closing)
    knock = _UnseenKnock(job.tolerances.unseen_knock_mm, {one.set_up: one.holder for one in unclosed})
    adjustment = _Adjustment(closing, taken.set_ups, marks, {laser.id: laser for laser in job.lasers}, noise_mm, knock)
    findings += adjustment.findings(taken.called)
    stations, covariance = adjustment.stations(open_spots)
    got = {(one.station, one.stage) for one in stations}
    read = {(one.station, one.stage) for one in taken.sightings if not one.is_mark}
    return Levels(
        stations,
        adjustment.planes(),
        adjustment.residuals(),
        covariance,
        misclosure,
        noise_mm,
        pooled_mm is not None,
        tuple(sorted({station for station, _ in read - got} | taken.unusable)),
        tuple(findings),
        unclosed,
    )


def _closing(
    sightings: Sequence[Sighting],
    set_ups: Mapping[str, SetUp],
    marks: Mapping[str, BenchMark],
    called: Mapping[str, str],
    set_aside: frozenset[str],
    tolerances: Tolerances,
    anything_read: bool,
) -> tuple[list[Sighting], Misclosure | None, list[Finding]]:
    """What is tied to a bench mark and closes. A set-up that does not close goes, and so does what hangs on it only."""
    graph = tie_graph(sightings, set_ups, marks)
    findings = untied_findings(graph, called, marks, set_aside) if anything_read else []
    findings += unchecked_findings(graph, called)
    tied = reached(graph)
    left = [one for one in sightings if one.set_up in tied]
    first = closed = closure(graph, called, tolerances)
    gone: set[str] = set()
    while closed.refused:
        findings += closed.findings
        gone |= closed.refused
        left = [one for one in left if one.set_up not in gone]
        graph = tie_graph(left, set_ups, marks)
        findings += untied_findings(graph, called, marks, gone) if left else []
        tied = reached(graph)
        left = [one for one in left if one.set_up in tied]
        closed = closure(tie_graph(left, set_ups, marks), called, tolerances)
    return left, first.largest, findings


@dataclass(frozen=True)
class _UnseenKnock:
    """A 95 % half-width, mm, and the set-ups that it is to be reckoned with in, each with what it hangs on."""

    half_width_mm: float
    holders: Mapping[str, str]

    def add_to(self, covariance: np.ndarray, sightings: Sequence[Sighting]) -> None:
        """One shared error for the readings of such a set-up, those of what it hangs on left out."""
        for set_up, holder in self.holders.items():
            rows = [row for row, one in enumerate(sightings) if one.set_up == set_up and one.station != holder]
            covariance[np.ix_(rows, rows)] += (self.half_width_mm / COVERAGE_95) ** 2


class _Adjustment:
    """The solved network: design and covariance are laid out once, results are read off it."""

    def __init__(
        self,
        sightings: Sequence[Sighting],
        set_ups: Mapping[str, SetUp],
        marks: Mapping[str, BenchMark],
        lasers: Mapping[str, Laser],
        noise_mm: float,
        knock: _UnseenKnock,
    ) -> None:
        self.sightings = sightings
        self.set_up_ids = sorted({one.set_up for one in sightings})
        self.spots = sorted({(one.station, one.stage) for one in sightings if not one.is_mark}, key=_by_id_then_stage)
        self.lines = [set_ups[id_] for id_ in self.set_up_ids if set_ups[id_].line_level_mm is not None]
        column = {id_: index for index, id_ in enumerate(self.set_up_ids)}
        spot_column = {spot: len(column) + index for index, spot in enumerate(self.spots)}

        count = len(sightings) + len(self.lines)
        design, observed = np.zeros((count, len(column) + len(spot_column))), np.zeros(count)
        covariance = np.eye(count) * noise_mm**2
        for row, one in enumerate(sightings):
            design[row, column[one.set_up]] = 1.0
            observed[row] = one.below_plane_mm
            if one.is_mark:
                observed[row] += marks[one.station].level_mm
            else:
                design[row, spot_column[one.station, one.stage]] = -1.0
        for id_ in self.set_up_ids:
            _add_tilt(covariance, sightings, set_ups[id_], lasers)
        knock.add_to(covariance, sightings)
        for row, line in enumerate(self.lines, len(sightings)):
            design[row, column[line.id]] = 1.0
            observed[row] = line.line_level_mm or 0.0
            if line.line_give_or_take_mm:
                covariance[row, row] = (line.line_give_or_take_mm / COVERAGE_95) ** 2
        self._solution = solved(design, observed, covariance)

    def _half_width_mm(self, index: int) -> float:
        return COVERAGE_95 * float(np.sqrt(self._solution.covariance[index, index]))

    def planes(self) -> tuple[Plane, ...]:
        return tuple(
            Plane(id_, float(self._solution.unknowns[index]), self._half_width_mm(index))
            for index, id_ in enumerate(self.set_up_ids)
        )

    def stations(self, open_spots: set[tuple[str, Stage]]) -> tuple[tuple[StationLevel, ...], np.ndarray]:
        there: dict[tuple[str, Stage], list[Sighting]] = defaultdict(list)
        for one in self.sightings:
            there[one.station, one.stage].append(one)
        levels, kept = [], []
        for index, spot in enumerate(self.spots, len(self.set_up_ids)):
            if spot in open_spots:
                continue
            repeats = [spread_mm(group) for group in by_spot(there[spot]).values() if len(group) > 1]
            kept.append(index)
            levels.append(
                StationLevel(
                    *spot,
                    float(self._solution.unknowns[index]),
                    self._half_width_mm(index),
                    tuple(one.uid for one in there[spot]),
                    tuple(sorted({one.set_up for one in there[spot]})),
                    max(repeats, default=None),
                )
            )
        return tuple(levels), self._solution.covariance[np.ix_(kept, kept)]

    def residuals(self) -> tuple[Residual, ...]:
        """In the reading's own sense: a `down` reading is smaller the higher the station, the other two are larger."""
        return tuple(
            Residual(one.uid, one.set_up, one.station, float(off if one.way is Way.DOWN else -off))
            for one, off in zip(self.sightings, self._solution.residuals[: len(self.sightings)], strict=True)
        )

    def findings(self, called: Mapping[str, str]) -> list[Finding]:
        return [
            Finding(
                "levels.line_without_give_or_take",
                Severity.WARN,
                called[line.id],
                f"The line {called[line.id]} has no give or take above 0; it is taken to be as good as one reading.",
                "Say how far the line may be out; 0.5 is usual for a pencil line.",
                "common practice",
                concerns=(line.id,),
            )
            for line in self.lines
            if not line.line_give_or_take_mm
        ]


def _add_tilt(
    covariance: np.ndarray, sightings: Sequence[Sighting], set_up: SetUp, lasers: Mapping[str, Laser]
) -> None:
    """slope^2 / 2 (D D' + d d') among the readings of a set-up with known places; a line on a wall does not tilt."""
    laser = lasers.get(set_up.laser or "")
    if laser is None or set_up.line_level_mm is not None:
        return
    rows, arms = [], []
    for row, one in enumerate(sightings):
        if one.set_up == set_up.id and one.from_laser_m is not None:
            rows.append(row)
            arms.append(one.from_laser_m)
    if rows:
        arm = np.array(arms)
        arm = np.column_stack([arm, np.hypot(*arm.T)])
        covariance[np.ix_(rows, rows)] += (laser.slope_mm_per_m / COVERAGE_95) ** 2 / 2 * arm @ arm.T


def _by_id_then_stage(spot: tuple[str, Stage]) -> tuple[str, int]:
    return spot[0], spot[1].rank


def _resolution_mm(job: Job, set_ups: Mapping[str, SetUp]) -> float:
    """The coarsest of the rules and measures that this room was read with."""
    used = {set_up.instrument for set_up in set_ups.values()}
    found = [instrument.resolution_mm for instrument in job.instruments if instrument.id in used]
    return max(found, default=Instrument("", "").resolution_mm)


def _no_readings(room: Room) -> Finding:
    return Finding(
        "levels.no_readings",
        Severity.STOP,
        room.name,
        "Nothing that can be used has been read in this room yet.",
        "Set the laser up, read the bench mark, then the stations, then the bench mark again.",
        "levels come from readings",
        concerns=(room.id,),
    )
