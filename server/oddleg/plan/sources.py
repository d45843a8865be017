"""Where a number comes from, in plain words: the floor it stands on, the stations that gave it, the readings there."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from oddleg.job import Entry, Reading, Room

from .figure import text_mm
from .finished_floor import Floor
from .sightings import listed
from .site import body
from .surfaces import SurfaceLevel


def station_names(room: Room, floor: Floor, readings: Sequence[Entry]) -> dict[str, str]:
    """Station id to the name that is said aloud: as read, as on the surface, as in the job, the job's last word."""
    names = {body(entry, Reading).station: body(entry, Reading).name for entry in readings}
    for surface in (floor.as_read, floor.under_legs, floor.finished, *floor.bays.values()):
        names.update((spot.id, spot.name) for spot in surface.spots)
    names.update((station.id, station.name) for station in room.stations)
    return names


def floor_words(level: SurfaceLevel, names: Mapping[str, str], step_mm: float) -> str:
    """The floor at one place: its level, how it came about, from which stations with which shares, give or take."""
    shares = [(names.get(station, station), share) for station, share in level.rests_on if abs(share) >= 0.005]
    if len(shares) == 1:
        rests = shares[0][0]
    else:
        rests = ", ".join(f"{name} {text_mm(share * 100, 1)} %" for name, share in shares)
    return (
        f"floor {text_mm(level.level_mm, step_mm)}, {level.rule}{': ' if rests else ''}{rests}, "
        f"give or take {text_mm(level.half_width_mm, step_mm)}"
    )


def readings_words(
    stations: Iterable[str], names: Mapping[str, str], readings: Sequence[Entry], step_mm: float, after: int
) -> str:
    """The stations that a number rests on and, first, which readings at them came after log position `after`."""
    wanted = tuple(dict.fromkeys(stations))
    if not wanted:
        return "It rests on figures of the job, not on readings."
    words = f"It rests on {listed([names.get(station, station) for station in wanted])}."
    later = [entry for entry in readings if body(entry, Reading).station in wanted and entry.position > after]
    if not later:
        return words
    said = [
        f"{names.get(reading.station, reading.name)} {text_mm(reading.value_mm, step_mm)}"
        for reading in (body(entry, Reading) for entry in later)
    ]
    return f"{words} Read since then: {listed(said)}."
