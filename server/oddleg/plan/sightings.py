"""Readings brought into one form, with what is wrong about a single one of them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from oddleg.job import Entry, Job, Point, Reading, Room, SetUp, Stage, Tolerances, Way

from .figure import figure, text_mm
from .finding import Finding, Severity

# A kilometre: no staff reads it, and up to there the arithmetic keeps far more than the 0.0001 mm that is asked of it.
GREATEST_LENGTH_MM = 1e6
# So many names stand in one sentence at most; the rest is counted.
NAMED = 6
# Differences in findings are shown finer than marks, so that 2.2 against a limit of 2 does not read "2 against 2".
DIFFERENCE_STEP_MM = 0.1


@dataclass(frozen=True)
class Sighting:
    """One live reading. `below_plane_mm`: how far what was read lies below the plane, positive down, whichever way it
    was read. `position`: order in the job's log. `from_laser_m`: X, Y from the laser to it, where both are known.
    """

    uid: str
    position: int
    set_up: str
    station: str
    stage: Stage
    is_mark: bool
    way: Way
    below_plane_mm: float
    from_laser_m: tuple[float, float] | None


@dataclass(frozen=True)
class Survey:
    """The set-ups by id, the sightings in an order that does not depend on arrival, the plain name of every id, what
    could not be used at all (station ids), and the findings made on the way."""

    set_ups: Mapping[str, SetUp]
    sightings: tuple[Sighting, ...]
    called: Mapping[str, str]
    unusable: frozenset[str]
    findings: tuple[Finding, ...]


def shown_mm(value_mm: float) -> str:
    return text_mm(value_mm, DIFFERENCE_STEP_MM)


def listed(words: Sequence[str]) -> str:
    """ "A", "A and B", "A, B and C": never "A, B, and C"."""
    return words[0] if len(words) == 1 else ", ".join(words[:-1]) + " and " + words[-1] if words else ""


def counted(number: int, noun: str) -> str:
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


def named(names: Sequence[str]) -> str:
    """The names as `listed`, or the first few of them and how many more."""
    if len(names) <= NAMED:
        return listed(names)
    return f"{', '.join(names[:NAMED])} and {counted(len(names) - NAMED, 'other')}"


def survey(
    job: Job, room: Room, entries: Sequence[Entry], places: Mapping[str, Point | None], names: Mapping[str, str]
) -> Survey:
    """Every usable reading of the room as a sighting. Down: plane less reading; up and offset: plane plus reading."""
    ordered = sorted(entries, key=lambda entry: (entry.position, entry.uid))
    set_ups = {entry.body.id: entry.body for entry in ordered if isinstance(entry.body, SetUp)}
    readings = [(entry, entry.body) for entry in ordered if isinstance(entry.body, Reading)]
    called = {body.station: body.name for _, body in readings} | {one.id: one.name for one in set_ups.values()}
    called |= dict(names) | {mark.id: mark.name for mark in room.bench_marks}
    marks = {mark.id for mark in room.bench_marks}

    made: list[Sighting] = []
    unusable: set[str] = set()
    findings: list[Finding] = []
    for entry, body in readings:
        name = called[body.station]
        if abs(body.value_mm) > GREATEST_LENGTH_MM:
            unusable |= {body.station} - marks
            findings.append(_beyond_measure(name, called[body.set_up], body))
            continue
        place = places.get(body.station)
        if place is None and body.x_mm is not None and body.y_mm is not None:
            place = Point(body.x_mm, body.y_mm)
        made.append(_sighting(entry, body, set_ups[body.set_up], body.station in marks, place))
        findings += _unlikely(name, called[body.set_up], body, job.tolerances)
    findings += _rivals(readings, called)
    made.sort(key=lambda one: (one.set_up, one.station, one.uid))
    return Survey(set_ups, tuple(made), called, frozenset(unusable), tuple(findings))


def _sighting(entry: Entry, body: Reading, set_up: SetUp, is_mark: bool, place: Point | None) -> Sighting:
    away = None
    if place is not None and set_up.x_mm is not None and set_up.y_mm is not None:
        away = ((place.x_mm - set_up.x_mm) / 1000.0, (place.y_mm - set_up.y_mm) / 1000.0)
    below_mm = body.value_mm if body.way is Way.DOWN else -body.value_mm
    return Sighting(
        entry.uid, entry.position, body.set_up, body.station, set_up.stage, is_mark, body.way, below_mm, away
    )


def _beyond_measure(name: str, set_up: str, body: Reading) -> Finding:
    return Finding(
        "levels.beyond_measure",
        Severity.STOP,
        f"{name}, {set_up}",
        f"A reading of {body.value_mm:g} mm is more than a kilometre: no staff reads that, so it does not count.",
        f"Read {name} again and undo this one.",
        "what a length can be",
        concerns=(body.station, body.set_up),
    )


def _unlikely(name: str, set_up: str, body: Reading, tolerances: Tolerances) -> list[Finding]:
    """Counted all the same: the fitter was asked on the phone and kept it."""
    least_mm, greatest_mm = tolerances.least_reading_mm, tolerances.greatest_reading_mm
    low_mm = -greatest_mm if body.way is Way.OFFSET else least_mm
    if low_mm <= body.value_mm <= greatest_mm:
        return []
    return [
        Finding(
            "levels.reading_unlikely",
            Severity.WARN,
            f"{name}, {set_up}",
            f"A reading of {shown_mm(body.value_mm)} lies outside what is to be expected, "
            f"{shown_mm(low_mm)} to {shown_mm(greatest_mm)}; it counts as it stands.",
            f"Look at the unit (mm, cm, m) and read {name} again; undo this one if it was wrong.",
            "the job's least and greatest reading",
            figure(body.value_mm, DIFFERENCE_STEP_MM),
            (body.station, body.set_up),
        )
    ]


def _rivals(readings: Sequence[tuple[Entry, Reading]], called: Mapping[str, str]) -> list[Finding]:
    by_replaced: dict[str, list[Reading]] = defaultdict(list)
    for entry, body in readings:
        if entry.replaces is not None:
            by_replaced[entry.replaces].append(body)
    return [
        Finding(
            "levels.rival_readings",
            Severity.WARN,
            listed(sorted({called[body.station] for body in bodies})),
            f"{len(bodies)} readings replace the same earlier one "
            f"({listed([shown_mm(body.value_mm) for body in bodies])}); all of them count, as repeats.",
            "If one of them is wrong, undo it.",
            "two phones corrected the same reading",
            concerns=tuple(sorted({body.station for body in bodies})),
        )
        for _, bodies in sorted(by_replaced.items())
        if len(bodies) > 1
    ]
