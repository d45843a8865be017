"""plan(): a Job and its entries go in, a Plan comes out.

It calls the computations in order and has no formula of its own.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from oddleg.job import Charts, DatumDecision, Entry, Job, Room, SetUp

from .datum import Datum, datum
from .figure import Figure
from .finding import Finding
from .finished_floor import Floor, floor
from .fitting import NOTHING_FITTED, RoomFitting, room_fitting
from .flatness import flatness_findings
from .floor_figures import floor_figures
from .hardware import Hardware, hardware, hardware_findings
from .instrument import CheckResult
from .laser_checks import check_findings, check_results, reckoned_lasers
from .legs import UnitLegs, unit_legs
from .levels import Levels, adjusted_levels
from .off_line import off_line_findings
from .out_of_level import level_findings
from .rod import Placed
from .room_plinth import RoomPlinth, room_plinth
from .setting_out import SettingOut, setting_out
from .site import Site, body, of_room, readings_in, site
from .skipped import skipped_findings
from .stations import StationList
from .survey import (
    floor_tolerances,
    known_stations,
    latest_levels,
    mark_place,
    station_list,
    survey_findings,
)
from .tall_units import tall_wall
from .tall_wall import TallWall


@dataclass(frozen=True)
class RoomPlan:
    """What follows for one room. `set_ups` with the number of live readings in each;
    `floor_figures`: label and figure. `flatness_findings`: the floor against the named classes and rules.
    `plinth` None until a datum is decided; `tall_wall` where nothing is tall or hangs.
    `hardware`: the rows of charts that the job names."""

    room: Room
    site: Site
    setting_out: SettingOut
    placed: tuple[Placed, ...]
    station_list: StationList
    set_ups: tuple[tuple[SetUp, int], ...]
    checks: tuple[CheckResult, ...]
    levels: Levels
    floor: Floor
    floor_figures: tuple[tuple[str, Figure], ...]
    flatness_findings: tuple[Finding, ...]
    datum: Datum
    units: tuple[UnitLegs, ...]
    findings: tuple[Finding, ...]
    plinth: RoomPlinth | None = None
    tall_wall: TallWall | None = None
    fitting: RoomFitting = NOTHING_FITTED
    hardware: Hardware = field(default_factory=Hardware)


@dataclass(frozen=True)
class Plan:
    job: Job
    rooms: tuple[RoomPlan, ...]
    findings: tuple[Finding, ...]
    hardware_findings: tuple[Finding, ...] = ()


def plan(job: Job, entries: Sequence[Entry], charts: Charts) -> Plan:
    """The plan that follows from a job, its log of entries and the tables. Pure: the same in gives the same out.

    Entries are in log order. Nothing here raises for what was measured or typed: what cannot be built is a finding.
    """
    known = site(job, entries)
    rows = hardware(job, charts)
    rooms = tuple(_room_plan(job, room, of_room(known, room), charts, rows) for room in job.rooms)
    return Plan(job, rooms, known.findings, hardware_findings(job, rows))


def _room_plan(job: Job, room: Room, here: Site, charts: Charts, rows: Hardware) -> RoomPlan:
    stations = known_stations(job, room, here)
    marks = {mark.id: (mark.name, mark_place(mark)) for mark in room.bench_marks}
    places = stations.places | {id: place for id, (_, place) in marks.items()}
    names = stations.names | {id: name for id, (name, _) in marks.items()}
    checks = check_results(job, here)
    lasers = reckoned_lasers(job, checks)
    levels = adjusted_levels(replace(job, lasers=lasers), room, (*here.set_ups, *here.readings), places, names)
    listed = station_list(job, room, here, stations, levels)
    on_floor = replace(job, tolerances=floor_tolerances(job, here))
    floors = floor(on_floor, room, stations.stations, listed.lines, levels)
    out = setting_out(job, room, here, _one_decision_mm(here))
    placed = out.placed
    decided = datum(job, room, placed, floors, latest_levels(levels), here.decisions, here.legs_set, here.readings)
    datum_mm = decided.decided.datum.mm if decided.decided else None
    tall = tall_wall(job, room, [one.rod for one in out.runs], floors, stations.stations, levels, datum_mm, out.runs)
    profiles = [[spot.id for spot in profile] for profile in floors.as_read.profiles()]
    return RoomPlan(
        room,
        here,
        out,
        placed,
        listed,
        tuple((set_up, readings_in(here, set_up)) for set_up in (body(entry, SetUp) for entry in here.set_ups)),
        checks,
        levels,
        floors,
        floor_figures(job, floors),
        (
            *flatness_findings(job, room, floors.as_read, charts.flatness_classes),
            *level_findings(job, room, floors.as_read, charts.level_rules),
        ),
        decided,
        unit_legs(job, room, placed, floors, datum_mm, here.legs_set, here.readings),
        (
            *check_findings(job, here, checks),
            *off_line_findings(profiles, levels, places, names, job.tolerances),
            *survey_findings(job, room, here, stations, listed),
            *skipped_findings(job, room, here, levels, checks),
        ),
        room_plinth(job, room, placed, floors, datum_mm, here.readings, out.runs),
        tall,
        room_fitting(job, room, here, out, floors, datum_mm, rows),
        rows,
    )


def _one_decision_mm(here: Site) -> float | None:
    """The room's datum where exactly one decision stands: what is set out from heights needs it before legs do."""
    return body(here.decisions[0], DatumDecision).datum_mm if len(here.decisions) == 1 else None
