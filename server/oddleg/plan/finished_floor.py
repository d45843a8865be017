"""Computation 3: three floors from the same readings: under legs, under appliances, and where plinths meet it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from oddleg.job import ApplianceBay, Job, Layer, Manner, OldCovering, Point, Room, Stage, Station

from .figure import figure
from .finding import Finding, Severity
from .levels import Levels, StationLevel
from .rod import OPEN_FLOOR, UNDER_UNITS, Zones, placed_items
from .sightings import listed
from .surfaces import Spot, Surface


@dataclass(frozen=True)
class Floor:
    """`as_read`: every station at its latest stage, as it was read. `under_legs`: what legs stand on when they are set.
    `finished`: the finished floor of the open room, which plinths meet and appliances cross. `bays`: finished floor in
    each appliance bay by item id. A surface without spots answers None everywhere.
    """

    as_read: Surface
    under_legs: Surface
    finished: Surface
    bays: Mapping[str, Surface]
    findings: tuple[Finding, ...]


def floor(job: Job, room: Room, stations: Sequence[Station], lines: Sequence[Sequence[str]], levels: Levels) -> Floor:
    """The floors of a room from the levels of its floor stations, mm over the bench mark.

    Each station counts at its latest stage. A reading of stage S in zone Z stands on the layers that lie in Z and are
    laid by S; for a floor of zone T, layers that follow are taken off and put on as T has them. A layer that levels is
    one plane wherever it lies: its highest spot beneath, of the stations where it lies, plus its least thickness; once
    it was read at some stations, the mean of those readings. It cannot be taken off: such a station does not serve a
    floor without it. A reading on an old covering is lowered by that covering; of unknown thickness, it serves
    `as_read` only. Stations whose repeats contradict each other are left out, a hole that `levels` reports.
    Source: first principles.
    """
    readings = _readings(room, stations, levels)
    build_up = _BuildUp(room, readings)
    findings = [*_no_floor(room, readings, levels), *_coverings(room, readings)]

    def surface(heights: Iterable[tuple[_Reading, _Height]]) -> Surface:
        found = list(heights)
        parts = np.zeros((len(found), len(levels.stations)))
        spots = []
        for row, (reading, height) in enumerate(found):
            parts[row] = height.parts
            at = reading.station
            spots.append(Spot(at.id, at.name, at.x_mm, at.y_mm, height.level_mm))
        covariance = parts @ np.asarray(levels.covariance, dtype=float).reshape((parts.shape[1],) * 2) @ parts.T
        return Surface(spots, covariance, lines, room.break_lines, job.tolerances)

    def floor_of(zone: str) -> Surface:
        return surface((reading, height) for reading in readings if (height := build_up.top(reading, zone)) is not None)

    bays = {
        placed.item.id: placed.item.name
        for run in room.runs
        for placed in placed_items(run)
        if placed.stands and isinstance(placed.item, ApplianceBay)
    }
    as_read = surface((reading, reading.height) for reading in readings)
    under_legs, finished = floor_of(UNDER_UNITS), floor_of(OPEN_FLOOR)
    bay_floors = {bay: floor_of(bay) for bay in bays}
    zones = {UNDER_UNITS: "what legs stand on", OPEN_FLOOR: "the open floor"}
    zones |= {bay: f"the floor in {name}" for bay, name in bays.items()}
    findings += build_up.findings(zones)
    findings += _thicknesses(job, room, stations, levels)
    findings += _on_steps(room, as_read)
    return Floor(as_read, under_legs, finished, bay_floors, tuple(findings))


@dataclass(frozen=True)
class _Height:
    """A level, mm, and by which part it rests on each of the adjustment's levels (what is added is taken as exact)."""

    level_mm: float
    parts: NDArray[np.float64]

    def raised(self, by_mm: float) -> _Height:
        return _Height(self.level_mm + by_mm, self.parts)


@dataclass(frozen=True)
class _Reading:
    """A station at its latest stage. `on_mm`: old coverings that it stands on, None where nobody knows how thick."""

    station: Station
    stage: Stage
    zone: str
    height: _Height
    on_mm: float | None


def _readings(room: Room, stations: Sequence[Station], levels: Levels) -> list[_Reading]:
    numbers: dict[str, list[int]] = defaultdict(list)
    for number, level in enumerate(levels.stations):
        numbers[level.station].append(number)
    found = []
    zones = Zones(room)
    for station in stations:
        if station.surface != "floor" or station.id not in numbers or station.id in levels.open_stations:
            continue
        number = max(numbers[station.id], key=lambda one: levels.stations[one].stage.rank)
        level = levels.stations[number]
        parts = np.zeros(len(levels.stations))
        parts[number] = 1.0
        zone = zones.at(Point(station.x_mm, station.y_mm))
        on_mm = _covering_mm(room.old_coverings, level.stage)
        found.append(_Reading(station, level.stage, zone, _Height(level.level_mm, parts), on_mm))
    return found


def _covering_mm(coverings: Sequence[OldCovering], stage: Stage) -> float | None:
    thicknesses = [one.thickness_mm for one in coverings if stage.rank < one.gone_from.rank]
    known = [one for one in thicknesses if one is not None]
    return sum(known) if len(known) == len(thicknesses) else None


def _lies_in(layer: Layer, zone: str) -> bool:
    if zone == OPEN_FLOOR:
        return True
    if zone == UNDER_UNITS:
        return layer.under_units
    return layer.bays is None or zone in layer.bays


class _BuildUp:
    """The layers of a room over its readings, and the plane of each layer that levels."""

    def __init__(self, room: Room, readings: Sequence[_Reading]) -> None:
        self._room = room
        self._readings = readings
        self._planes: dict[str, _Height] = {}
        self._findings: list[Finding] = []
        self._not_serving: dict[tuple[str, str], list[Station]] = defaultdict(list)
        for number, layer in enumerate(room.layers):
            if layer.manner is Manner.LEVELS:
                plane = self._plane(number, layer)
                if plane is not None:
                    self._planes[layer.id] = plane

    def top(self, reading: _Reading, zone: str) -> _Height | None:
        """The finished floor as it would be at this station if it stood in `zone`."""
        return self._up_to(reading, zone, len(self._room.layers))

    def _laid(self, reading: _Reading, layer: Layer) -> bool:
        return layer.laid_at.rank <= reading.stage.rank and _lies_in(layer, reading.zone)

    def _up_to(self, reading: _Reading, zone: str, end: int) -> _Height | None:
        """The top of what lies below layer number `end`, in `zone`."""
        if reading.on_mm is None:
            return None
        start, height = self._settled(reading)
        if start > end:
            return None
        if start and not _lies_in(layer := self._room.layers[start - 1], zone):
            if reading.station not in self._not_serving[layer.id, zone]:
                self._not_serving[layer.id, zone].append(reading.station)
            return None
        for layer in self._room.layers[start:end]:
            if not _lies_in(layer, zone):
                continue
            if layer.manner is Manner.FOLLOWS:
                height = height.raised(layer.thickness_mm)
            else:
                height = self._planes[layer.id]
        return height

    def _settled(self, reading: _Reading) -> tuple[int, _Height]:
        """What a reading says of the floor beneath its layers: the number of layers that are settled by it (all up to
        the uppermost laid one that levels, else none) and the top of those."""
        on_mm = reading.on_mm or 0.0
        for number in range(len(self._room.layers) - 1, -1, -1):
            layer = self._room.layers[number]
            if self._laid(reading, layer):
                if layer.manner is Manner.LEVELS:
                    return number + 1, reading.height.raised(-on_mm)
                on_mm += layer.thickness_mm
        return 0, reading.height.raised(-on_mm)

    def _plane(self, number: int, layer: Layer) -> _Height | None:
        measured = [
            (reading, height)
            for reading in self._readings
            if reading.on_mm is not None
            for start, height in [self._settled(reading)]
            if start == number + 1
        ]
        here = [one for one in self._readings if _lies_in(layer, one.zone)]
        if measured:
            others = [one.station for one in here if one.station not in [m.station for m, _ in measured]]
            if others:
                self._say(layer, others, *_READ_AGAIN)
            heights = [height for _, height in measured]
            mean = sum(height.level_mm for height in heights) / len(heights)
            return _Height(mean, np.mean([height.parts for height in heights], axis=0))
        beneath = [height for one in here if (height := self._up_to(one, one.zone, number)) is not None]
        if not beneath:
            zone = OPEN_FLOOR
            beneath = [height for one in self._readings if (height := self._up_to(one, zone, number)) is not None]
            if beneath:
                self._say(layer, [], *_NONE_THERE)
        if not beneath:
            return None
        return max(beneath, key=lambda height: height.level_mm).raised(layer.thickness_mm)

    def _say(self, layer: Layer, stations: Sequence[Station], rule: str, wrong: str, cure: str) -> None:
        severity = Severity.NOTE if rule == _READ_AGAIN[0] else Severity.WARN
        words = {"layer": layer.name, "stations": _named(stations)}
        self._findings.append(
            Finding(
                rule,
                severity,
                self._room.name,
                wrong.format(**words),
                cure.format(**words),
                "first principles: a layer that levels is one plane",
                concerns=(self._room.id, *(one.id for one in stations)),
            )
        )

    def findings(self, zones: Mapping[str, str]) -> list[Finding]:
        """What was met on the way to all floors asked for; `zones`: their names in plain words."""
        found = list(self._findings)
        names = {layer.id: layer.name for layer in self._room.layers}
        grouped: dict[tuple[str, tuple[str, ...]], list[str]] = defaultdict(list)
        at: dict[str, Station] = {}
        for (layer, zone), stations in self._not_serving.items():
            if zone in zones:
                at |= {one.id: one for one in stations}
                grouped[layer, tuple(one.id for one in stations)].append(zones[zone])
        for (layer, ids), floors in grouped.items():
            found.append(
                Finding(
                    "floor.not_serving",
                    Severity.WARN,
                    self._room.name,
                    f"{_named([at[one] for one in ids])}: read on {names[layer]}, which levels and cannot be taken off "
                    f"again by sums. They do not serve {' and '.join(floors)}, where it does not lie.",
                    f"Read stations where {names[layer]} does not lie, or keep the readings from before it was laid.",
                    "first principles: how thick a levelling layer is differs from spot to spot",
                    concerns=(self._room.id, *ids),
                )
            )
        return found


_READ_AGAIN = (
    "floor.plane_read_elsewhere",
    "{layer} is down and was read, but not at {stations}. They are taken to lie in the plane of those that were read.",
    "Read them again on {layer} for levels of their own.",
)
_NONE_THERE = (
    "floor.no_station_where_it_lies",
    "No station stands where {layer} will lie, so its plane is taken from the highest of all stations of the room.",
    "Add a station or two where {layer} will lie and read them.",
)


def _named(stations: Sequence[Station]) -> str:
    return listed([one.name for one in stations])


def _no_floor(room: Room, readings: Sequence[_Reading], levels: Levels) -> list[Finding]:
    if readings or any(one.severity is Severity.STOP for one in levels.findings):
        return []
    return [
        Finding(
            "floor.no_levels",
            Severity.STOP,
            room.name,
            "No floor station has a level yet, so nothing can be said about the floor.",
            "Read the bench mark and the stations of the first pass.",
            concerns=(room.id,),
        )
    ]


def _coverings(room: Room, readings: Sequence[_Reading]) -> list[Finding]:
    if not room.old_coverings:
        return []
    names = ", ".join(one.name for one in room.old_coverings)
    found = [
        Finding(
            "floor.old_covering",
            Severity.NOTE,
            room.name,
            f"Old floor coverings ({names}) and the adhesive or levelling under them can hold asbestos.",
            "Lift, cut, sand or scrape nothing before they were surveyed and tested as the local code asks; leave what "
            "is found to the licensed trade.",
            "common practice; the local code decides",
            concerns=(room.id,),
            caution=True,
        )
    ]
    unknown = [one.station for one in readings if one.on_mm is None]
    if unknown:
        thick = ", ".join(one.name for one in room.old_coverings if one.thickness_mm is None)
        found.append(
            Finding(
                "floor.covering_thickness",
                Severity.WARN,
                room.name,
                f"{_named(unknown)}: read on {thick}, and nobody knows yet how thick it is. These readings show the "
                "floor as it is, but serve no leg, bay or plinth.",
                "Give its thickness in the job once it is known, or read these stations again when it is gone.",
                "first principles: what is lifted does not carry the units",
                concerns=(room.id, *(one.id for one in unknown)),
            )
        )
    return found


def _thicknesses(job: Job, room: Room, stations: Sequence[Station], levels: Levels) -> list[Finding]:
    """Where a station was read at two stages, what came between must be as thick as the job says."""
    by_station: dict[str, list[StationLevel]] = defaultdict(list)
    for level in levels.stations:
        by_station[level.station].append(level)
    found = []
    zones = Zones(room)
    for station in stations:
        if station.surface != "floor":
            continue
        zone = zones.at(Point(station.x_mm, station.y_mm))
        read = sorted(by_station[station.id], key=lambda one: one.stage.rank)
        for before, after in pairwise(read):
            rise_mm = _stated_rise_mm(room, zone, before.stage, after.stage)
            if rise_mm is None:
                continue
            off_mm = after.level_mm - before.level_mm - rise_mm
            limit_mm = job.tolerances.repeat_mm + before.half_width_mm + after.half_width_mm
            if abs(off_mm) > limit_mm:
                found.append(_thickness_finding(job, station, before, after, rise_mm, limit_mm))
    return found


def _stated_rise_mm(room: Room, zone: str, before: Stage, after: Stage) -> float | None:
    """By how much the floor should have risen from one stage to another; None where the job cannot tell."""
    laid = [one for one in room.layers if before.rank < one.laid_at.rank <= after.rank and _lies_in(one, zone)]
    on_before, on_after = (_covering_mm(room.old_coverings, stage) for stage in (before, after))
    if on_before is None or on_after is None or any(one.manner is Manner.LEVELS for one in laid):
        return None
    return sum(one.thickness_mm for one in laid) + on_after - on_before


def _thickness_finding(
    job: Job, station: Station, before: StationLevel, after: StationLevel, rise_mm: float, limit_mm: float
) -> Finding:
    rose_mm = after.level_mm - before.level_mm
    rose, stated = (figure(one, job.rounding_mm, signed=True) for one in (rose_mm, rise_mm))
    off = figure(rose_mm - rise_mm, job.rounding_mm, signed=True)
    return Finding(
        "floor.thickness_differs",
        Severity.WARN,
        station.name,
        f"From {_stage(before.stage)} to {_stage(after.stage)} the floor here went {rose.text} mm; by the job's layers "
        f"it should be {stated.text} mm. The later reading is used.",
        "Check the stage of both set-ups and the thickness of the layers in the job, or read this station again.",
        f"first principles; more than {figure(limit_mm, job.rounding_mm).text} mm apart (repeats, both give or take)",
        amount=off,
        concerns=(station.id,),
    )


def _stage(stage: Stage) -> str:
    return f"\N{LEFT SINGLE QUOTATION MARK}{stage.replace('_', ' ')}\N{RIGHT SINGLE QUOTATION MARK}"


def _on_steps(room: Room, surface: Surface) -> list[Finding]:
    return [
        Finding(
            "floor.station_on_step",
            Severity.WARN,
            spot.name,
            "This station stands on the step itself, so nobody can tell which side it was read on; it serves neither.",
            "Add a station on each side of the step and read those.",
            "first principles: nothing is interpolated across a step",
            concerns=(room.id, spot.id),
        )
        for spot in surface.on_steps
    ]
