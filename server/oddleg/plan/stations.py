"""Where to read: the stations that the fitter is sent to, in a first pass and then in between.

First pass: along the two leg lines of each run at both ends and every `spacing_mm` or closer, in each appliance bay and
on its way out, and in each doorway. In between: only where neighbours on a line differ by more than `between_mm`. The
high spot cannot be foretold: it is found by sweeping, and the fitter adds a station there. Common practice.
"""

from __future__ import annotations

import hashlib
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from oddleg.job import ApplianceBay, Job, Point, Room, Run, Station

from .axes import to_room, to_run
from .bay_floor import way_out_mm
from .figure import Figure
from .rod import Placed, placed_items

# A spot this near to a station is served by it; a second mark there would only be mixed up with the first.
SAME_SPOT_MM = 150.0
# Closer than this two neighbours need nothing between them: a staff's foot and a leg's cover the rest.
NO_CLOSER_MM = 400.0

ONES = (
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen "
    "eighteen nineteen"
).split()
TENS = ("", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")


@dataclass(frozen=True)
class PlannedStation:
    """`state`: unread, read, open (read, but no level until one reading is replaced), blocked. `pass_number` 1: first
    pass, 2: in between. `accepted`: the job holds it; `added`: by the fitter on site; neither: proposed. `level` at its
    latest stage, as read.
    """

    station: Station
    pass_number: int
    accepted: bool
    added: bool
    state: str
    level: Figure | None
    readings: int


@dataclass(frozen=True)
class StationList:
    """`stations` in walking order; `lines`: ids along each leg line, left to right."""

    stations: tuple[PlannedStation, ...]
    lines: tuple[tuple[str, ...], ...]


@dataclass(frozen=True)
class LegLine:
    """A line of legs along a run: `depth_mm` is its y in run axes; `left_mm`, `right_mm` at the outermost legs."""

    run: Run
    word: str
    depth_mm: float
    left_mm: float
    right_mm: float


def said(number: int) -> str:
    """A whole number from 0 as it is called out across a room, up to 99 in words."""
    if number < 20:
        return ONES[number]
    if number < 100:
        tens, ones = divmod(number, 10)
        return TENS[tens] + (f"-{ONES[ones]}" if ones else "")
    return str(number)


def station_id(room: Room, x_mm: float, y_mm: float) -> str:
    """The id of a station at this spot: the same spot always gets the same id, another spot never does."""
    spot = f"{room.id} {round(x_mm)} {round(y_mm)}"
    return "st-" + hashlib.sha256(spot.encode()).hexdigest()[:8]


def leg_lines(run: Run) -> tuple[LegLine, ...]:
    """The run's lines of legs, back ones first. Carcasses of one depth and inset share their lines."""
    found: dict[tuple[str, float], tuple[float, float]] = {}
    for placed in placed_items(run):
        legs, (left_mm, right_mm) = placed.legs, placed.body_mm
        if legs is None or placed.front_mm is None:
            continue
        span = (left_mm + legs.inset_side_mm, right_mm - legs.inset_side_mm)
        back_mm = run.void_mm + legs.inset_back_mm
        front_mm = placed.front_mm - legs.inset_front_mm
        for key in (("back", back_mm), ("front", front_mm)):
            least, greatest = found.get(key, span)
            found[key] = (min(least, span[0]), max(greatest, span[1]))
    lines = (LegLine(run, word, depth, left, right) for (word, depth), (left, right) in found.items())
    return tuple(sorted(lines, key=lambda line: (line.word, line.depth_mm)))


def stations_on(line: LegLine, stations: Sequence[Station], reach_mm: float) -> tuple[str, ...]:
    """Ids of the floor stations that lie on the line, within reach of it, from left to right."""
    on_line = []
    for station in stations:
        if station.surface != "floor":
            continue
        x_mm, y_mm = to_run(line.run, Point(station.x_mm, station.y_mm))
        if abs(y_mm - line.depth_mm) <= reach_mm and line.left_mm - reach_mm <= x_mm <= line.right_mm + reach_mm:
            on_line.append((x_mm, station.id))
    return tuple(id for _, id in sorted(on_line))


def proposed_stations(job: Job, room: Room, already: Sequence[Station] = ()) -> tuple[Station, ...]:
    """The first pass of a room, in walking order: along the backs, back along the fronts, bays, doorways.

    Spots that a floor station of `already` serves are left out, and no name of theirs is given again.
    """
    places = np.array([_at(one) for one in already if one.surface == "floor"], dtype=float).reshape(-1, 2)
    names = {one.name for one in already}
    proposed: list[Station] = []
    numbers: dict[str, int] = {}
    for word, spot, serves in _wanted_spots(job, room):
        at = np.array([spot.x_mm, spot.y_mm])
        if (np.hypot(*(places - at).T) < SAME_SPOT_MM).any():
            continue
        name = None
        while name is None or name in names:
            numbers[word] = numbers.get(word, 0) + 1
            name = f"{word} {said(numbers[word])}"
        id = station_id(room, spot.x_mm, spot.y_mm)
        proposed.append(Station(id, name, float(round(spot.x_mm)), float(round(spot.y_mm)), serves))
        places = np.vstack([places, at])
    return tuple(proposed)


def stations_between(
    room: Room, line: Sequence[Station], levels_mm: Sequence[float | None], between_mm: float, known: Sequence[Station]
) -> tuple[Station, ...]:
    """A station half way between each two neighbours on a line whose levels differ by more than `between_mm`."""
    names = {one.name for one in known}
    found = []
    for left, right, left_mm, right_mm in zip(line, line[1:], levels_mm, levels_mm[1:], strict=False):
        if left_mm is None or right_mm is None or abs(left_mm - right_mm) <= between_mm:
            continue
        if math.dist(_at(left), _at(right)) <= NO_CLOSER_MM or _step_between(room, left, right):
            continue
        x_mm, y_mm = (left.x_mm + right.x_mm) / 2, (left.y_mm + right.y_mm) / 2
        if any(math.dist(_at(one), (x_mm, y_mm)) < SAME_SPOT_MM for one in known):
            continue
        name = next(one for one in _names_between(left.name) if one not in names)
        names.add(name)
        where = f"between {left.name} and {right.name}"
        found.append(Station(station_id(room, x_mm, y_mm), name, float(round(x_mm)), float(round(y_mm)), where))
    return tuple(found)


def _at(station: Station) -> tuple[float, float]:
    return station.x_mm, station.y_mm


def _step_between(room: Room, left: Station, right: Station) -> bool:
    """Whether a break line is crossed on the way: then the two need no middle, each side speaks for itself."""
    way = (Point(*_at(left)), Point(*_at(right)))
    return any(
        _cross(way, (start, end))
        for line in room.break_lines
        for start, end in zip(line.points, line.points[1:], strict=False)
    )


def _cross(one: tuple[Point, Point], other: tuple[Point, Point]) -> bool:
    def side(line: tuple[Point, Point], point: Point) -> float:
        (a, b), p = line, point
        return (b.x_mm - a.x_mm) * (p.y_mm - a.y_mm) - (b.y_mm - a.y_mm) * (p.x_mm - a.x_mm)

    return side(one, other[0]) * side(one, other[1]) < 0 and side(other, one[0]) * side(other, one[1]) < 0


def _names_between(name: str) -> Iterator[str]:
    yield f"{name} half"
    yield f"{name} quarter"
    number = 2
    while True:
        yield f"{name} part {said(number)}"
        number += 1


def _wanted_spots(job: Job, room: Room) -> Iterator[tuple[str, Point, str]]:
    for run in room.runs:
        for line in leg_lines(run):
            count = max(1, math.ceil((line.right_mm - line.left_mm) / job.tolerances.spacing_mm - 1e-9))
            xs = [line.left_mm + (line.right_mm - line.left_mm) * i / count for i in range(count + 1)]
            for x_mm in xs if line.word == "back" else reversed(xs):
                yield line.word, to_room(run, x_mm, line.depth_mm), f"{line.word} legs, {run.name}"
    for run in room.runs:
        for placed in placed_items(run):
            if isinstance(placed.item, ApplianceBay) and placed.stands:
                yield from _bay_spots(run, placed, placed.item)
    for door in room.doorways:
        x_mm = (door.from_point.x_mm + door.to_point.x_mm) / 2
        y_mm = (door.from_point.y_mm + door.to_point.y_mm) / 2
        yield "door", Point(x_mm, y_mm), f"way in, {door.name}"


def _bay_spots(run: Run, placed: Placed, bay: ApplianceBay) -> Iterator[tuple[str, Point, str]]:
    middle_mm, front_mm = (placed.left_mm + placed.right_mm) / 2, placed.back_mm + bay.depth_mm
    yield "bay", to_room(run, middle_mm, placed.back_mm + bay.depth_mm / 2), f"{bay.name} stands there"
    yield "way", to_room(run, middle_mm, front_mm + way_out_mm(bay) / 2), f"{bay.name} goes in and comes out"
