"""What the entries amount to: which are live, and what of each kind the rest of the plan works from.

A later entry may replace one; the replaced one is dead whoever came first. An undo is a replacement without a value.
Arrival order chooses nothing: where two live entries rival each other, both are handed on and a check says so.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import TypeVar

from oddleg.job import (
    AddedStation,
    Blocked,
    DatumDecision,
    Entry,
    GoodEnough,
    Job,
    LegsSet,
    Note,
    Reading,
    Room,
    SetUp,
    TwoPeg,
    TwoWall,
)

from .finding import Finding, Severity

Wanted = TypeVar("Wanted")


@dataclass(frozen=True)
class Site:
    """Live entries by kind, in log order. `set_ups` and `readings` belong together: every reading's set-up is there."""

    set_ups: tuple[Entry, ...] = ()
    readings: tuple[Entry, ...] = ()
    added: tuple[Entry, ...] = ()
    checks: tuple[Entry, ...] = ()
    decisions: tuple[Entry, ...] = ()
    legs_set: tuple[Entry, ...] = ()
    blocked: tuple[Entry, ...] = ()
    good_enough: tuple[Entry, ...] = ()
    notes: tuple[Entry, ...] = ()
    findings: tuple[Finding, ...] = field(default=())


def body(entry: Entry, kind: type[Wanted]) -> Wanted:
    """The entry's body as the kind that the caller sorted it by."""
    assert isinstance(entry.body, kind)
    return entry.body


def site(job: Job, entries: Sequence[Entry]) -> Site:
    """Sorts the entries of one job. Left out, each with a note: what replaces an entry that is not here yet, a reading
    whose set-up is not here (yet, or any more), and what names a room, a unit or a laser that the job has not."""
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

    set_ups = of(SetUp)
    doubled = _doubled(set_ups, lambda entry: body(entry, SetUp).id)
    for name in sorted({body(entry, SetUp).name for entry in set_ups if entry.uid in doubled}):
        findings.append(
            Finding(
                "entries.rival_set_ups",
                Severity.STOP,
                name,
                f"{name} was changed twice, on different phones, and both changes stand. It is not used.",
                "Undo one of the two under Entries.",
                "one set-up, one position",
            )
        )
    set_ups = tuple(entry for entry in set_ups if entry.uid not in doubled)
    known = {body(entry, SetUp).id for entry in set_ups}
    readings = []
    for entry in of(Reading):
        reading = body(entry, Reading)
        if reading.set_up in known:
            readings.append(entry)
        else:
            findings.append(
                Finding(
                    "entries.no_set_up",
                    Severity.NOTE,
                    reading.name,
                    f"A reading at {reading.name} is left out: its set-up is not here.",
                    "Send what is still on the phone it was taken with, or read it again in a set-up that stands.",
                    "a reading belongs to one position of the laser",
                    concerns=(reading.station,),
                )
            )
    return Site(
        set_ups,
        tuple(readings),
        of(AddedStation),
        of(TwoPeg, TwoWall),
        of(DatumDecision),
        of(LegsSet),
        of(Blocked),
        of(GoodEnough),
        of(Note),
        tuple(findings),
    )


def of_room(all_of_it: Site, room: Room) -> Site:
    """The part of it that belongs to one room. Checks of instruments belong to every room."""
    set_ups = tuple(entry for entry in all_of_it.set_ups if body(entry, SetUp).room == room.id)
    known = {body(entry, SetUp).id for entry in set_ups}
    items = {item.id for run in room.runs for item in run.items}
    return Site(
        set_ups,
        tuple(entry for entry in all_of_it.readings if body(entry, Reading).set_up in known),
        tuple(entry for entry in all_of_it.added if body(entry, AddedStation).room == room.id),
        all_of_it.checks,
        tuple(entry for entry in all_of_it.decisions if body(entry, DatumDecision).room == room.id),
        tuple(entry for entry in all_of_it.legs_set if body(entry, LegsSet).item in items),
        all_of_it.blocked,
        tuple(entry for entry in all_of_it.good_enough if body(entry, GoodEnough).room == room.id),
        all_of_it.notes,
    )


def readings_in(here: Site, set_up: SetUp) -> int:
    """How many live readings a set-up has."""
    return sum(body(entry, Reading).set_up == set_up.id for entry in here.readings)


def _strangers(job: Job, live: Sequence[Entry]) -> list[Finding]:
    """A note for each thing that entries name and the job has not."""
    rooms = {room.id for room in job.rooms}
    items = {item.id for room in job.rooms for run in room.runs for item in run.items}
    lasers = {laser.id for laser in job.lasers}
    counts: dict[tuple[str, str], int] = {}
    for entry in live:
        match entry.body:
            case SetUp(room=id) | AddedStation(room=id) | DatumDecision(room=id) | GoodEnough(room=id):
                kind, there = "room", rooms
            case LegsSet(item=id):
                kind, there = "unit", items
            case TwoPeg(laser=id) | TwoWall(laser=id):
                kind, there = "laser", lasers
            case _:
                continue
        if id not in there:
            counts[kind, id] = counts.get((kind, id), 0) + 1
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


def _doubled(entries: Sequence[Entry], key: Callable[[Entry], str]) -> set[str]:
    by_key: dict[str, list[str]] = {}
    for entry in entries:
        by_key.setdefault(key(entry), []).append(entry.uid)
    return {uid for uids in by_key.values() if len(uids) > 1 for uid in uids}


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
