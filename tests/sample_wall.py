"""A wall as it is read from a line, for tests: one run of a small room, lines in front of it, readings at its stations."""

import sample_room as sample

from oddleg.job import Entry, WallHeight, WallLine, WallReading
from oddleg.plan.site import of_room, site
from oddleg.plan.wall_reading import walls
from oddleg.plan.wall_stations import wall_station_id

FLOOR, BATTEN, WORKTOP, WALL_UNITS = WallHeight
STRING = WallLine("string", "string one", "run-a", stands_off_mm=100.0)


def entry(uid, body, position=0, replaces=None):
    return Entry(uid, position, "Ned", "2026-11-23T08:40:00Z", body, replaces)


def run(*widths_mm, **more):
    """A run of base carcasses; 1200 long if not said otherwise."""
    return sample.run(*(sample.carcass(f"u{i}", width) for i, width in enumerate(widths_mm or (600.0, 600.0))), **more)


def read(of_run, x_mm, distance_mm, height=BATTEN, line="string", name=None, station=None):
    return WallReading(line, station or wall_station_id(of_run, x_mm), height, distance_mm, name or f"spot {x_mm:g}", float(x_mm))


def all_heights(of_run, *distances, heights=(FLOOR, BATTEN, WORKTOP), start=0.0, step=600.0, line="string"):
    """The same distance at every height, station after station, as a careful fitter reads."""
    return [read(of_run, start + i * step, value, each, line) for i, value in enumerate(distances) for each in heights]


def room_of(*runs):
    return sample.room(*runs)


def walls_of(runs, bodies, datum_mm=None, **more):
    """The walls of a room with these runs, from bodies in the order in which they were entered."""
    room = room_of(*runs)
    job = sample.job(room, **more)
    entries = [entry(f"e{i:03}", body, i + 1) for i, body in enumerate(bodies)]
    return walls(job, room, of_room(site(job, entries), room), datum_mm)


def wall_of(of_run, bodies, lines=(STRING,), **more):
    return walls_of((of_run,), (*lines, *bodies), **more)[0]


def faces(wall, height=BATTEN):
    """x to y of the wall at one height, as far as it is read."""
    return {one.x_mm: one.wall_mm for one in wall.spots if one.height is height and one.wall_mm is not None}


def rules(wall):
    return [one.rule for one in wall.findings]


def found(wall, rule):
    return next(one for one in wall.findings if one.rule == rule)
