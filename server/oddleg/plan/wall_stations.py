"""Where to read a wall: at both ends of its run, at each batten fixing, and every `wall_spacing_mm` or closer."""

from __future__ import annotations

import hashlib
import math
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import count, pairwise

from oddleg.job import EndsAt, FeatureKind, Gap, Job, LineIs, Room, Run, Storey, WallHeight, WallReading

from .axes import to_room, to_run
from .batten_places import batten_span, fixing_places, kept_clear, wide_gaps, without
from .hidden_services import zones
from .parallel_to import parallel_points
from .rod import Placed, placed_items
from .stations import said
from .wall import WallStation
from .wall_profile import STANDING, merged

# A place this near to another is served by it: a rule held there reads the same wall.
SAME_PLACE_MM = 80.0
# Two walls that meet at less than this have no corner in the room.
LEAST_CORNER_DEG = 20.0
FIXING = "batten fixing"
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


@dataclass(frozen=True)
class _Place:
    """`needed` False: only there so that no two stations lie too far apart."""

    x_mm: float
    serves: str
    needed: bool = True


def wall_station_id(run: Run, x_mm: float) -> str:
    """The id of a station of this run's wall: the same place always gets the same id, another place never does."""
    return "ws-" + hashlib.sha256(f"wall {run.id} {round(x_mm)}".encode()).hexdigest()[:8]


def wall_span(room: Room, run: Run) -> tuple[float, float] | None:
    """The stretch of wall that a run is set out along, mm from its zero: as drawn or as its items need it, and in a
    corner on to the other wall, which units that go into the corner stand against. None: nothing is drawn."""
    placed = placed_items(run)
    lefts, rights = [one.left_mm for one in placed], [one.right_mm for one in placed]
    if run.opening_mm is None and not placed:
        return None
    left_mm = min(lefts) if run.left_end.at is EndsAt.OPEN and lefts else 0.0
    right_mm = run.opening_mm if run.opening_mm is not None else max(rights)
    corners = [_corner_mm(room, run, end.run) for end in (run.left_end, run.right_end)]
    if corners[0] is not None:
        left_mm = min(left_mm, corners[0])
    if corners[1] is not None:
        right_mm = max(right_mm, corners[1])
    return (left_mm, right_mm) if right_mm > left_mm else None


def wall_stations(job: Job, room: Room, run: Run, readings: Sequence[WallReading] = ()) -> tuple[WallStation, ...]:
    """The stations of one run, left to right: those that have a reading, which stay as they were read, and what is
    still to be read beside them. Names are called by a letter for the run and a number: "A three"."""
    placed = placed_items(run)
    span = wall_span(room, run)
    read = _read(run, readings)
    planned = {
        wall_station_id(run, one.x_mm): one for one in (_wanted(job, run, span, placed) if span is not None else ())
    }
    names = _names(run_letter(room, run), planned, read)
    read_at = sorted(one.x_mm for one in read.values())
    kept = {id: one for id, one in planned.items() if id in read or not _served(one, read_at)}
    if read.keys() - planned.keys():
        _leave_out(kept, read, job.tolerances.wall_spacing_mm)
    found = [replace(one, serves=kept[one.id].serves if one.id in kept else one.serves) for one in read.values()]
    found += [
        WallStation(id, names[id], float(round(one.x_mm)), (), one.serves) for id, one in kept.items() if id not in read
    ]
    found.sort(key=lambda one: (one.x_mm, one.id))
    return _with_heights(found, placed)


def run_letter(room: Room, run: Run) -> str:
    number = [one.id for one in room.runs].index(run.id)
    return LETTERS[number % 26] * (number // 26 + 1)


def _names(letter: str, planned: Iterable[str], read: Mapping[str, WallStation]) -> dict[str, str]:
    """Names of planned stations, numbered from the left, so that reading one renames no other. A number that a station
    read before has is not given again."""
    ids = list(planned)
    taken = {one.name for one in read.values()}
    spare = (f"{letter} {said(number)}" for number in count(len(ids) + 1))
    found = {}
    for number, id in enumerate(ids, 1):
        name = f"{letter} {said(number)}"
        found[id] = name if name not in taken or id in read else next(one for one in spare if one not in taken)
    return found


def _read(run: Run, readings: Sequence[WallReading]) -> dict[str, WallStation]:
    """Stations that have a reading. One whose id is not that of its place was added on site."""
    found: dict[str, WallStation] = {}
    for one in sorted(readings, key=lambda one: (one.x_mm, one.station, one.name)):
        added = one.station != wall_station_id(run, one.x_mm)
        serves = "added on site" if added else "read before the run was changed"
        found.setdefault(one.station, WallStation(one.station, one.name, one.x_mm, (), serves, added))
    return found


def _wanted(job: Job, run: Run, span: tuple[float, float], placed: Sequence[Placed]) -> Iterator[_Place]:
    """The places to read: ends, fixings on named supports, what stands out of the wall, the two points of a parallel
    line; then fixings and places in between, evenly. Windows and sills lie over what stands."""
    left_mm, right_mm = span
    spacing_mm = job.tolerances.wall_spacing_mm
    needed = [_Place(left_mm, "left end"), _Place(right_mm, "right end")]
    fixings = [_Place(x, FIXING) for x in _fixings(run, placed) if left_mm <= x <= right_mm]
    named = run.batten is not None and bool(run.batten.supports_mm)
    if named:
        needed += fixings
    rule = run.front_line
    if rule.line is LineIs.PARALLEL:
        points = [x for x in parallel_points(rule, run.features) or () if left_mm <= x <= right_mm]
        needed += [_Place(x, "the line is parallel to the wall here") for x in points]
    for feature in run.features:
        if feature.stands_out_mm > 0 and feature.kind not in (FeatureKind.WINDOW, FeatureKind.SILL):
            edges = ((feature.left_mm, "left"), (feature.right_mm, "right"))
            needed += [_Place(x, f"{side} edge, {feature.name}") for x, side in edges if left_mm < x < right_mm]
    kept: list[_Place] = []
    for one in (*needed, *(() if named else (replace(fixing, needed=False) for fixing in fixings))):
        if all(abs(one.x_mm - other.x_mm) >= SAME_PLACE_MM for other in kept):
            kept.append(one)
    kept.sort(key=lambda one: one.x_mm)
    for before, after in pairwise(kept):
        yield before
        between = _evenly(before.x_mm, after.x_mm, spacing_mm)[1:-1]
        yield from (_Place(x, "in between", needed=False) for x in between)
    yield kept[-1]


def _fixings(run: Run, placed: Sequence[Placed]) -> list[float]:
    """Where the batten's fixings come as drawn. What is known only once the wall is read (bays where the batten is cut
    out) may move one, and then it lies between two places that are read."""
    if run.batten is None or (span := batten_span(placed)) is None:
        return []
    known = kept_clear(zones(run, run.features, 0.0, span, (None, None)), ())
    stretches = without(span, wide_gaps(placed, run.batten))
    return [x for one in stretches for x in fixing_places(one, run.batten, run.batten.supports_mm, known).at_mm]


def _evenly(left_mm: float, right_mm: float, spacing_mm: float) -> list[float]:
    """From the left to the right in equal steps of at most `spacing_mm`; whole mm may be half a mm over."""
    if right_mm - left_mm <= 0:
        return []
    steps = max(1, math.ceil((right_mm - left_mm) / spacing_mm - 1e-9))
    return [left_mm + (right_mm - left_mm) * i / steps for i in range(steps + 1)]


def _served(place: _Place, read_at_mm: Sequence[float]) -> bool:
    after = bisect_left(read_at_mm, place.x_mm)
    return any(abs(place.x_mm - x_mm) < SAME_PLACE_MM for x_mm in read_at_mm[max(0, after - 1) : after + 1])


def _leave_out(kept: dict[str, _Place], read: Mapping[str, WallStation], spacing_mm: float) -> None:
    """Takes out what is only in between where readings from before the run was changed lie close enough already."""
    for id in [id for id, one in kept.items() if not one.needed and id not in read]:
        xs = [one.x_mm for other, one in kept.items() if other != id] + [one.x_mm for one in read.values()]
        before = max((x for x in xs if x <= kept[id].x_mm), default=-math.inf)
        after = min((x for x in xs if x > kept[id].x_mm), default=math.inf)
        if after - before <= spacing_mm:
            del kept[id]


def _with_heights(stations: Sequence[WallStation], placed: Sequence[Placed]) -> tuple[WallStation, ...]:
    """At floor, batten and worktop wherever anything stands along the run; at the wall units' height behind what hangs
    and behind tall units."""
    standing = STANDING if any(one.stands for one in placed) or not placed else ()
    high = merged(
        (one.left_mm, one.right_mm)
        for one in placed
        if (not one.stands or one.item.storey is Storey.TALL) and not isinstance(one.item, Gap)
    )
    found = []
    for station in stations:
        up = any(left - SAME_PLACE_MM <= station.x_mm <= right + SAME_PLACE_MM for left, right in high)
        found.append(replace(station, heights=(*standing, *((WallHeight.WALL_UNITS,) if up else ()))))
    return tuple(found)


def _corner_mm(room: Room, run: Run, other_id: str | None) -> float | None:
    """x at which the other run's wall, y = 0, meets this run's; None where it names none or they hardly meet."""
    other = next((one for one in room.runs if one.id == other_id), None)
    if other is None:
        return None
    start = to_run(run, to_room(other, 0.0, 0.0))
    along = to_run(run, to_room(other, 1.0, 0.0))
    dx, dy = along[0] - start[0], along[1] - start[1]
    if abs(dy) < math.sin(math.radians(LEAST_CORNER_DEG)):
        return None
    return start[0] - dx * start[1] / dy
