"""The wall of every run as read on site: its face along x at several heights, openings, ends, and what it carries."""

from __future__ import annotations

from collections.abc import Sequence

from oddleg.job import Job, Room, Run, WallHeight, WallLine, WallReading

from .figure import figure, text_mm
from .finding import Finding, Severity
from .sightings import listed, shown_mm
from .site import Site, body
from .wall import Wall, WallSpot, WallStation
from .wall_checks import profile_findings, unread_findings
from .wall_lines import LinesRead, Shot, WallAt, lines_read, shots_of
from .wall_measures import end_walls, features, openings
from .wall_stations import wall_stations

# Readings of one station that name places this far apart were not taken at one station.
MOVED_MM = 0.5


def walls(job: Job, room: Room, here: Site, datum_mm: float | None) -> tuple[Wall, ...]:
    """One for each run that has a wall, and for any other where something was measured. `datum_mm`: the decided datum,
    from which the levels of some features were measured."""
    return tuple(
        _wall(job, room, run, here, datum_mm) for run in room.runs if run.wall is not None or _measured(run, here)
    )


def _measured(run: Run, here: Site) -> bool:
    measured = (*here.wall_lines, *here.openings, *here.end_gaps, *here.features)
    return any(getattr(entry.body, "run", None) == run.id for entry in measured)


def _wall(job: Job, room: Room, run: Run, here: Site, datum_mm: float | None) -> Wall:
    tolerances, step_mm = job.tolerances, job.rounding_mm
    lines = [line for entry in here.wall_lines for line in (body(entry, WallLine),) if line.run == run.id]
    ids = {line.id for line in lines}
    entries = [entry for entry in here.wall_readings if body(entry, WallReading).line in ids]
    shots, told = _at_one_place(run, shots_of(entries))
    read = lines_read(lines, shots, tolerances, run.name, run.id)
    stations = wall_stations(job, room, run, [body(entry, WallReading) for entry in entries])
    spots = tuple(_spots(stations, read, step_mm))
    widths, widths_told = openings(run, here.openings, tolerances, step_mm)
    ends, ends_told = end_walls(run, here.end_gaps, tolerances, step_mm)
    carried, carried_told = features(run, here.features, datum_mm)
    counts = {line.id: sum(shot.line == line.id for shot in shots) for line in lines}
    return Wall(
        run,
        tuple((line.id, line.name, counts[line.id]) for line in read.lines),
        stations,
        spots,
        widths,
        ends,
        carried,
        (
            *told,
            *read.findings,
            *profile_findings(spots, read, tolerances, run.name, run.id),
            *unread_findings(stations, spots, tolerances, run.name, run.id),
            *widths_told,
            *ends_told,
            *carried_told,
        ),
    )


def _at_one_place(run: Run, shots: Sequence[Shot]) -> tuple[list[Shot], list[Finding]]:
    """The readings without those of a station that is said to be at two places."""
    places: dict[str, list[Shot]] = {}
    for one in shots:
        places.setdefault(one.station, []).append(one)
    moved = {id: same for id, same in places.items() if max(x := [one.x_mm for one in same]) - min(x) > MOVED_MM}
    return [one for one in shots if one.station not in moved], [
        Finding(
            "wall.two_places",
            Severity.STOP,
            f"{same[0].name}, {run.name}",
            f"The readings of {same[0].name} name different places along the run, "
            f"{listed([text_mm(x) for x in sorted({one.x_mm for one in same})])}: none of them counts.",
            "Undo those that were taken at the wrong place and read again.",
            "a station with a reading never moves",
            concerns=(run.id, id),
        )
        for id, same in sorted(moved.items())
    ]


def _spots(stations: Sequence[WallStation], read: LinesRead, step_mm: float) -> list[WallSpot]:
    """Every place and height that is read or is to be, from left to right and from the floor up."""
    uids: dict[tuple[str, WallHeight], list[str]] = {}
    for shot in read.shots:
        uids.setdefault(shot.spot, []).append(shot.uid)
    spots = []
    for one in stations:
        for height in WallHeight:
            spot = (one.id, height)
            if height not in one.heights and spot not in uids:
                continue
            at = read.walls.get(spot)
            state = "read" if at is not None else "open" if spot in uids else "unread"
            out = None if at is None else figure(at.wall_mm, step_mm, _why(at, read.words), signed=True)
            wall_mm = None if at is None else at.wall_mm
            spots.append(
                WallSpot(one.id, one.name, one.x_mm, height, state, wall_mm, out, tuple(sorted(uids.get(spot, ()))))
            )
    return spots


def _why(at: WallAt, words: str) -> str:
    read = listed([f"{listed([shown_mm(value) for value in values])} from {name}" for name, values in at.from_lines])
    several = sum(len(values) for _, values in at.from_lines) > 1
    return f"Read {read}{', the mean of them' if several else ''}; {words}."
