"""The survey as it stands: which stations there are, what state each is in, what to read next."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from oddleg.job import (
    AddedStation,
    BenchMark,
    Blocked,
    Job,
    Point,
    Reading,
    Room,
    SetUp,
    Stage,
    Station,
    Tolerances,
    Way,
)

from .figure import figure, text_mm
from .finding import Finding, Severity
from .levels import Levels, StationLevel
from .sightings import named
from .site import Site, body
from .stations import PlannedStation, StationList, leg_lines, proposed_stations, stations_between, stations_on

# A rule is read to half a millimetre; a tenth shows what the adjustment made of it.
RESIDUAL_STEP_MM = 0.1


@dataclass(frozen=True)
class Known:
    """Stations that hold: accepted by the job, added on site, or read where proposed. None of them moves."""

    stations: tuple[Station, ...]
    accepted: frozenset[str]
    added: frozenset[str]

    @property
    def places(self) -> dict[str, Point | None]:
        return {one.id: Point(one.x_mm, one.y_mm) for one in self.stations}

    @property
    def names(self) -> dict[str, str]:
        return {one.id: one.name for one in self.stations}


def mark_place(mark: BenchMark) -> Point | None:
    """Where a bench mark is in plan, if that was given."""
    return None if mark.x_mm is None or mark.y_mm is None else Point(mark.x_mm, mark.y_mm)


def known_stations(job: Job, room: Room, site: Site) -> Known:
    """The job's own first, then those added on site, then those that only a reading names (proposed, and read)."""
    stations = {one.id: one for one in room.stations}
    for entry in site.added:
        new = body(entry, AddedStation)
        stations.setdefault(new.id, Station(new.id, new.name, new.x_mm, new.y_mm, new.serves, new.surface))
    added = frozenset(stations) - {one.id for one in room.stations}
    marks = {mark.id for mark in room.bench_marks}
    serves = {one.id: one.serves for one in proposed_stations(job, room, room.stations)}
    for entry in site.readings:
        read = body(entry, Reading)
        if read.station not in marks and read.station not in stations and None not in (read.x_mm, read.y_mm):
            assert read.x_mm is not None and read.y_mm is not None
            surface = "overhead" if read.way is Way.UP else "floor"
            what = serves.get(read.station, "")
            stations[read.station] = Station(read.station, read.name, read.x_mm, read.y_mm, what, surface)
    return Known(tuple(stations.values()), frozenset(one.id for one in room.stations), added)


def lines_of(room: Room, stations: Sequence[Station], tolerances: Tolerances) -> tuple[tuple[str, ...], ...]:
    """Ids of the stations along each leg line of the room, left to right, lines of fewer than two left out."""
    found = (stations_on(line, stations, tolerances.line_reach_mm) for run in room.runs for line in leg_lines(run))
    return tuple(line for line in found if len(line) > 1)


def floor_tolerances(job: Job, site: Site) -> Tolerances:
    """The job's, with the floor between stations taken as less even where the fitter did without the in-betweens."""
    tolerances = job.tolerances
    if not site.good_enough:
        return tolerances
    return replace(tolerances, unevenness_mm=max(tolerances.unevenness_mm, tolerances.good_enough_mm))


def station_list(job: Job, room: Room, site: Site, known: Known, levels: Levels) -> StationList:
    """Every station with its state, in walking order: the first pass, what was added, then those in between."""
    read_count: dict[str, int] = {}
    for entry in site.readings:
        station = body(entry, Reading).station
        read_count[station] = read_count.get(station, 0) + 1
    blocked = {body(entry, Blocked).station for entry in site.blocked}
    latest = latest_levels(levels)
    level_why = _level_whys(levels, site)
    proposals = proposed_stations(job, room, known.stations)
    lines = lines_of(room, known.stations, job.tolerances)
    between = () if site.good_enough else _between(job, room, known, lines, latest, [*known.stations, *proposals])

    def planned(station: Station, pass_number: int) -> PlannedStation:
        level = latest.get(station.id)
        state = "unread"
        if level is not None:
            state = "read"
        elif read_count.get(station.id):
            state = "open"
        elif station.id in blocked:
            state = "blocked"
        shown = None if level is None else figure(level.level_mm, job.rounding_mm, level_why(level), signed=True)
        accepted, added = station.id in known.accepted, station.id in known.added
        return PlannedStation(station, pass_number, accepted, added, state, shown, read_count.get(station.id, 0))

    first = [planned(one, 1) for one in (*known.stations, *proposals)]
    return StationList((*first, *(planned(one, 2) for one in between)), lines)


def latest_levels(levels: Levels) -> dict[str, StationLevel]:
    """Each station's level at the latest stage it was read at, by station id."""
    latest: dict[str, StationLevel] = {}
    for one in levels.stations:
        if one.station not in latest or latest[one.station].stage.rank < one.stage.rank:
            latest[one.station] = one
    return latest


def _level_whys(levels: Levels, site: Site) -> Callable[[StationLevel], str]:
    """One sentence for a level: from which readings and how far each is off, by which rule, give or take how much."""
    residuals_mm = {one.reading: one.residual_mm for one in levels.residuals}
    names = {body(entry, SetUp).id: body(entry, SetUp).name for entry in site.set_ups}
    values = {entry.uid: body(entry, Reading) for entry in site.readings}

    def why(level: StationLevel) -> str:
        read = [
            f"{text_mm(one.value_mm, 0.01)} {one.way} in {names[one.set_up]}{_off(residuals_mm[uid])}"
            for uid, one in ((uid, values[uid]) for uid in level.readings if uid in values)
        ]
        give_or_take = figure(level.half_width_mm, 0.1).text
        reading = "reading" if len(read) == 1 else "readings"
        return (
            f"From the {reading} {', '.join(read)}; all set-ups adjusted together by least squares from the bench "
            f"mark; give or take {give_or_take} mm (95 %)."
        )

    return why


def _off(residual_mm: float) -> str:
    text = text_mm(residual_mm, RESIDUAL_STEP_MM, signed=True)
    return "" if text == "0" else f" ({text} off)"


def quality(levels: Levels, site: Site, names: Mapping[str, str]) -> tuple[str, ...]:
    """How good the readings are, a sentence each: standard deviation of one, largest residual, largest spread.
    `names` of stations and bench marks. None without levels."""
    if not levels.residuals:
        return ()
    deviation = f"One reading has a standard deviation of {text_mm(levels.noise_mm, 0.01)} mm"
    found = [f"{deviation}, {'pooled from the repeats here' if levels.noise_pooled else 'as the job states it'}."]
    worst = max(levels.residuals, key=lambda one: abs(one.residual_mm))
    if _off(worst.residual_mm):
        called = {body(entry, SetUp).id: body(entry, SetUp).name for entry in site.set_ups}
        off = text_mm(worst.residual_mm, RESIDUAL_STEP_MM, signed=True)
        where = f"{names.get(worst.station, worst.station)} in {called[worst.set_up]}"
        found.append(f"Largest residual {off} mm, {where} (reading less what all readings together make of it).")
    spreads = [(one.spread_mm, one.station) for one in levels.stations if one.spread_mm is not None]
    if spreads:
        spread_mm, station = max(spreads)
        spread = text_mm(spread_mm, RESIDUAL_STEP_MM)
        found.append(f"Repeats differ by {spread} mm at most, at {names.get(station, station)}.")
    return tuple(found)


def survey_findings(job: Job, room: Room, site: Site, known: Known, stations: StationList) -> tuple[Finding, ...]:
    """What keeps the survey from being whole. Nothing here blocks: each says what rests on it."""
    findings = []
    unread = [
        one.station.name for one in stations.stations if one.state in ("unread", "blocked") and one.pass_number == 1
    ]
    between = [one.station.name for one in stations.stations if one.pass_number == 2]
    if site.readings and unread:
        findings.append(_unread_finding(room, unread))
    if between:
        text = f"Neighbours differ by more than {figure(job.tolerances.between_mm).text} mm: read {named(between)} too."
        cure = "Read them, or tap “Good enough” and the floor between stations stays at a wider give or take."
        findings.append(
            Finding("survey.between", Severity.NOTE, room.name, text, cure, "common practice", concerns=(room.id,))
        )
    for station in room.stations:
        same = [one for one in known.stations if one.name == station.name and one.id != station.id]
        if same:
            findings.append(_same_name_finding(station))
    return tuple(findings)


def reading_limits(job: Job) -> dict[str, dict[str, float]]:
    """Fixed limits that the phone compares raw figures with, mm, by way of reading. It asks; it never refuses."""
    tolerances = job.tolerances
    staff = {"least_mm": tolerances.least_reading_mm, "greatest_mm": tolerances.greatest_reading_mm}
    return {"down": staff, "up": staff, "offset": {"least_mm": 0.0, "greatest_mm": tolerances.greatest_reading_mm}}


def stage_words(room: Room) -> dict[str, str]:
    """By stage: what to know before reading at it. A covering of unknown thickness is told before thirty readings stand
    on it, not after.
    """
    words = {}
    for stage in Stage:
        lying = [one for one in room.old_coverings if stage.rank < one.gone_from.rank and one.thickness_mm is None]
        if lying:
            thick = " and ".join(one.name for one in lying)
            words[stage.value] = (
                f"Still on the floor: {thick}, and nobody knows yet how thick. What is read on it shows the floor as "
                "it is, but serves no leg, bay or plinth until the thickness is known."
            )
    return words


def next_words(site: Site, stations: StationList, room: Room, decided: bool) -> str:
    """What to do next, in one sentence."""
    mark = room.bench_marks[0].name if room.bench_marks else "a bench mark"
    unread = [one.station.name for one in stations.stations if one.state == "unread" and one.pass_number == 1]
    between = [one.station.name for one in stations.stations if one.state == "unread" and one.pass_number == 2]
    reopened = [one.station.name for one in stations.stations if one.state == "open"]
    if not site.set_ups:
        return f"Set the laser up near the middle of the room and read the {mark} first."
    if reopened:
        return f"Read {named(reopened)} again: the readings there do not make a level yet."
    if unread:
        return f"Still to read: {named(unread)}. Sweep the floor for its high spot too and add a station there."
    if between:
        return f"In between: {named(between)}; or tap “Good enough”."
    if decided:
        return "Every station is read and the datum is decided. Set the legs."
    if site.readings and body(site.readings[-1], Reading).station in {one.id for one in room.bench_marks}:
        return "Every station is read. Choose a datum."
    return f"Every station is read. Read the {mark} again and choose a datum."


def _between(
    job: Job,
    room: Room,
    known: Known,
    lines: Sequence[Sequence[str]],
    latest: Mapping[str, StationLevel],
    taken: Sequence[Station],
) -> tuple[Station, ...]:
    by_id = {one.id: one for one in known.stations}
    found: list[Station] = []
    for line in lines:
        along = [by_id[id] for id in line]
        levels_mm = [latest[one.id].level_mm if one.id in latest else None for one in along]
        found += stations_between(room, along, levels_mm, job.tolerances.between_mm, [*taken, *found])
    return tuple(found)


def _unread_finding(room: Room, unread: Sequence[str]) -> Finding:
    return Finding(
        "survey.unread",
        Severity.NOTE,
        room.name,
        f"Not read yet: {named(unread)}. What stands there is worked out from its neighbours.",
        "Read them when the stick is there.",
        "common practice",
        concerns=(room.id,),
    )


def _same_name_finding(station: Station) -> Finding:
    return Finding(
        "survey.same_name",
        Severity.WARN,
        station.name,
        f"Two stations are called {station.name}.",
        "Read by the plan, not by the name, until the office gives one of them another name.",
        concerns=(station.id,),
    )
