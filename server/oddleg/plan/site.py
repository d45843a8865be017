"""What the entries amount to: which are live, and what of each kind the rest of the plan works from.

A later entry may replace one; the replaced one is dead whoever came first. An undo is a replacement without a value.
Arrival order chooses nothing: where two live entries rival each other, both are handed on and a check says so, or, of
what can only be one thing (a position, a corner's triangle, a window, a mark), neither is used.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass, field, replace
from typing import TypeVar

from oddleg.job import (
    AddedStation,
    Blocked,
    CornerTriangle,
    DatumDecision,
    Drilled,
    EndGap,
    Entry,
    GoodEnough,
    Job,
    LegsSet,
    Marked,
    MeasuredFeature,
    MeasuredService,
    Note,
    OpeningWidth,
    Reading,
    Room,
    SetUp,
    TwoPeg,
    TwoWall,
    UnitWidth,
    WallLine,
    WallReading,
)

from .finding import Finding, Severity

Wanted = TypeVar("Wanted")
Entries = tuple[Entry, ...]


@dataclass(frozen=True)
class Site:
    """Live entries by kind, in log order. `set_ups` and `readings` belong together: every reading's set-up is there;
    so do `wall_lines` and `wall_readings`. One triangle a corner, one of each feature, unit width, mark, service and
    hole."""

    set_ups: tuple[Entry, ...] = ()
    readings: tuple[Entry, ...] = ()
    added: tuple[Entry, ...] = ()
    checks: tuple[Entry, ...] = ()
    decisions: tuple[Entry, ...] = ()
    legs_set: tuple[Entry, ...] = ()
    blocked: tuple[Entry, ...] = ()
    good_enough: tuple[Entry, ...] = ()
    notes: tuple[Entry, ...] = ()
    wall_lines: tuple[Entry, ...] = ()
    wall_readings: tuple[Entry, ...] = ()
    openings: tuple[Entry, ...] = ()
    end_gaps: tuple[Entry, ...] = ()
    triangles: tuple[Entry, ...] = ()
    features: tuple[Entry, ...] = ()
    unit_widths: tuple[Entry, ...] = ()
    marked: tuple[Entry, ...] = ()
    services: tuple[Entry, ...] = ()
    drilled: tuple[Entry, ...] = ()
    findings: tuple[Finding, ...] = field(default=())


def body(entry: Entry, kind: type[Wanted]) -> Wanted:
    """The entry's body as the kind that the caller sorted it by."""
    assert isinstance(entry.body, kind)
    return entry.body


def site(job: Job, entries: Sequence[Entry]) -> Site:
    """Sorts the entries of one job. Left out, each with a note: what replaces an entry that is not here yet, a reading
    whose set-up or line is not here (yet, or any more), and what names a room, a run, a unit or a laser that the job
    has not."""
    here = {entry.uid for entry in entries}
    findings: list[Finding] = []
    dead = {entry.replaces for entry in entries if entry.replaces in here}
    live: list[Entry] = []
    for entry in entries:
        if entry.replaces is not None and entry.replaces not in here:
            findings.append(_waits(entry))
        elif entry.uid not in dead and entry.body is not None:
            live.append(entry)
    findings += _strangers(job, live)

    def of(*kinds: type) -> tuple[Entry, ...]:
        return tuple(entry for entry in live if isinstance(entry.body, kinds))

    def one_each(kind: type, key: Callable[[Entry], Hashable], name: Callable[[Entry], str], rule: str) -> Entries:
        kept, rivals = _one_each(of(kind), key)
        findings.extend(_rival(names, rule) for names in sorted({name(entry) for entry in rivals}))
        return kept

    set_ups, moved = _one_each(of(SetUp), lambda entry: body(entry, SetUp).id, alike=False)
    lines, changed = _one_each(of(WallLine), lambda entry: body(entry, WallLine).id, alike=False)
    for name in sorted({body(entry, SetUp).name for entry in moved}):
        findings.append(_changed_twice(name, "entries.rival_set_ups", "one set-up, one position"))
    for name in sorted({body(entry, WallLine).name for entry in changed}):
        findings.append(_changed_twice(name, "entries.rival_lines", "one line, one position"))
    readings, without_set_up = _belonging(of(Reading), {body(entry, SetUp).id for entry in set_ups})
    wall_readings, without_line = _belonging(of(WallReading), {body(entry, WallLine).id for entry in lines})
    findings += [_alone(body(entry, Reading), "set-up") for entry in without_set_up]
    findings += [_alone(body(entry, WallReading), "line") for entry in without_line]
    runs = {run.id: run.name for room in job.rooms for run in room.runs}
    items = {item.id: item.name for room in job.rooms for run in room.runs for item in run.items}

    def corner(entry: Entry) -> str:
        measured = body(entry, CornerTriangle)
        both = (runs.get(id, id) for id in (measured.run, measured.other_run))
        return f"The corner of {' and '.join(both)}"

    return Site(
        set_ups=set_ups,
        readings=readings,
        added=of(AddedStation),
        checks=of(TwoPeg, TwoWall),
        decisions=of(DatumDecision),
        legs_set=of(LegsSet),
        blocked=of(Blocked),
        good_enough=of(GoodEnough),
        notes=of(Note),
        wall_lines=lines,
        wall_readings=wall_readings,
        openings=of(OpeningWidth),
        end_gaps=of(EndGap),
        triangles=one_each(
            CornerTriangle,
            lambda entry: (body(entry, CornerTriangle).run, body(entry, CornerTriangle).other_run),
            corner,
            "entries.rival_triangles",
        ),
        features=one_each(
            MeasuredFeature,
            lambda entry: body(entry, MeasuredFeature).feature.id,
            lambda entry: body(entry, MeasuredFeature).feature.name,
            "entries.rival_features",
        ),
        unit_widths=one_each(
            UnitWidth,
            lambda entry: body(entry, UnitWidth).item,
            lambda entry: f"The width of {items.get(body(entry, UnitWidth).item, body(entry, UnitWidth).item)}",
            "entries.rival_widths",
        ),
        marked=one_each(
            Marked,
            lambda entry: (body(entry, Marked).run, body(entry, Marked).mark),
            lambda entry: f"A mark of {runs.get(body(entry, Marked).run, body(entry, Marked).run)}",
            "entries.rival_marks",
        ),
        services=one_each(
            MeasuredService,
            lambda entry: body(entry, MeasuredService).service.id,
            lambda entry: body(entry, MeasuredService).service.name,
            "entries.rival_services",
        ),
        drilled=one_each(
            Drilled,
            lambda entry: (body(entry, Drilled).item, body(entry, Drilled).panel, body(entry, Drilled).hole),
            lambda entry: f"A hole of {items.get(body(entry, Drilled).item, body(entry, Drilled).item)}",
            "entries.rival_holes",
        ),
        findings=tuple(findings),
    )


def of_room(all_of_it: Site, room: Room) -> Site:
    """The part of it that belongs to one room. Checks of instruments belong to every room."""
    set_ups = tuple(entry for entry in all_of_it.set_ups if body(entry, SetUp).room == room.id)
    known = {body(entry, SetUp).id for entry in set_ups}
    runs = {run.id for run in room.runs}
    items = {item.id for run in room.runs for item in run.items}
    lines = tuple(entry for entry in all_of_it.wall_lines if body(entry, WallLine).run in runs)
    known_lines = {body(entry, WallLine).id for entry in lines}
    triangles = (
        entry for entry in all_of_it.triangles if {(of := body(entry, CornerTriangle)).run, of.other_run} <= runs
    )
    return Site(
        set_ups=set_ups,
        readings=tuple(entry for entry in all_of_it.readings if body(entry, Reading).set_up in known),
        added=tuple(entry for entry in all_of_it.added if body(entry, AddedStation).room == room.id),
        checks=all_of_it.checks,
        decisions=tuple(entry for entry in all_of_it.decisions if body(entry, DatumDecision).room == room.id),
        legs_set=tuple(entry for entry in all_of_it.legs_set if body(entry, LegsSet).item in items),
        blocked=all_of_it.blocked,
        good_enough=tuple(entry for entry in all_of_it.good_enough if body(entry, GoodEnough).room == room.id),
        notes=all_of_it.notes,
        wall_lines=lines,
        wall_readings=tuple(one for one in all_of_it.wall_readings if body(one, WallReading).line in known_lines),
        openings=tuple(entry for entry in all_of_it.openings if body(entry, OpeningWidth).run in runs),
        end_gaps=tuple(entry for entry in all_of_it.end_gaps if body(entry, EndGap).run in runs),
        triangles=tuple(triangles),
        features=tuple(entry for entry in all_of_it.features if body(entry, MeasuredFeature).run in runs),
        unit_widths=tuple(entry for entry in all_of_it.unit_widths if body(entry, UnitWidth).item in items),
        marked=tuple(entry for entry in all_of_it.marked if body(entry, Marked).run in runs),
        services=tuple(entry for entry in all_of_it.services if body(entry, MeasuredService).run in runs),
        drilled=tuple(entry for entry in all_of_it.drilled if body(entry, Drilled).item in items),
    )


def readings_in(here: Site, set_up: SetUp) -> int:
    """How many live readings a set-up has."""
    return sum(body(entry, Reading).set_up == set_up.id for entry in here.readings)


def _strangers(job: Job, live: Sequence[Entry]) -> list[Finding]:
    """A note for each thing that entries name and the job has not."""
    rooms = {room.id for room in job.rooms}
    runs = {run.id for room in job.rooms for run in room.runs}
    items = {item.id for room in job.rooms for run in room.runs for item in run.items}
    lasers = {laser.id for laser in job.lasers}
    counts: dict[tuple[str, str], int] = {}
    for entry in live:
        ids: tuple[str, ...]
        match entry.body:
            case SetUp(room=id) | AddedStation(room=id) | DatumDecision(room=id) | GoodEnough(room=id):
                kind, there, ids = "room", rooms, (id,)
            case LegsSet(item=id) | UnitWidth(item=id) | Drilled(item=id):
                kind, there, ids = "unit", items, (id,)
            case TwoPeg(laser=id) | TwoWall(laser=id):
                kind, there, ids = "laser", lasers, (id,)
            case CornerTriangle(run=id, other_run=other):
                kind, there, ids = "run", runs, (id, other)
            case WallLine(run=id) | OpeningWidth(run=id) | EndGap(run=id) | MeasuredFeature(run=id) | Marked(run=id):
                kind, there, ids = "run", runs, (id,)
            case MeasuredService(run=id):
                kind, there, ids = "run", runs, (id,)
            case _:
                continue
        for stranger in set(ids) - there:
            counts[kind, stranger] = counts.get((kind, stranger), 0) + 1
    return [
        Finding(
            "entries.not_in_job",
            Severity.NOTE,
            id,
            f"{'An entry is' if count == 1 else f'{count} entries are'} left out: this job has no {kind} {id}.",
            "Bring the job up to date at the desk, or undo what was meant for something else.",
            "an entry counts only for what the job holds",
            concerns=(id,),
        )
        for (kind, id), count in sorted(counts.items())
    ]


def _one_each(entries: Entries, key: Callable[[Entry], Hashable], alike: bool = True) -> tuple[Entries, Entries]:
    """The entries that are the only ones of their key, and the rivals. `alike`: several with the same figures are no
    rivals, and the one with the least uid stands for them."""
    by_key: dict[Hashable, list[Entry]] = {}
    for entry in entries:
        by_key.setdefault(key(entry), []).append(entry)
    kept: set[str] = set()
    rivals: list[Entry] = []
    for same in by_key.values():
        if len(same) == 1 or (alike and len({_figures(entry) for entry in same}) == 1):
            kept.add(min(entry.uid for entry in same))
        else:
            rivals += same
    return tuple(entry for entry in entries if entry.uid in kept), tuple(rivals)


def _figures(entry: Entry) -> object:
    """The body without what does not bear on anything: the mark of the part that it was read from."""
    return replace(entry.body, part_mark="") if isinstance(entry.body, Marked | Drilled) else entry.body


def _belonging(entries: Entries, known: set[str]) -> tuple[Entries, Entries]:
    """The readings whose set-up or line is known, and the others."""

    def belongs(entry: Entry) -> bool:
        match entry.body:
            case Reading(set_up=id) | WallReading(line=id):
                return id in known
        return False

    return tuple(one for one in entries if belongs(one)), tuple(one for one in entries if not belongs(one))


def _alone(reading: Reading | WallReading, kind: str) -> Finding:
    moved = "position of the laser" if kind == "set-up" else "position of the line"
    return Finding(
        "entries.no_set_up" if kind == "set-up" else "entries.no_line",
        Severity.NOTE,
        reading.name,
        f"A reading at {reading.name} is left out: its {kind} is not here.",
        f"Send what is still on the phone it was taken with, or read it again from a {kind} that stands.",
        f"a reading belongs to one {moved}",
        concerns=(reading.station,),
    )


def _changed_twice(name: str, rule: str, source: str) -> Finding:
    return Finding(
        rule,
        Severity.STOP,
        name,
        f"{name} was changed twice, on different phones, and both changes stand. It is not used.",
        "Undo one of the two under Entries.",
        source,
    )


def _rival(name: str, rule: str) -> Finding:
    return Finding(
        rule,
        Severity.WARN,
        name,
        f"{name} was entered more than once, with different figures. None of them is used.",
        "Undo all but the right one under Entries.",
        "arrival order chooses nothing",
    )


def _waits(entry: Entry) -> Finding:
    return Finding(
        "entries.waits",
        Severity.NOTE,
        "Entries",
        "An entry that replaces another one is left out until that one arrives.",
        "Send what is still on the phone it was made on.",
        "an entry counts only beside the one it replaces",
        concerns=(entry.uid,),
    )
