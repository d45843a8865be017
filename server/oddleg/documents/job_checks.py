"""What is wrong between parts of a job that are each right: ids given twice or used before, ids of nothing."""

from __future__ import annotations

from collections.abc import Iterator

from oddleg.job import ApplianceBay, Carcass, Job, OpenUnit, Room

from .fitting_out_checks import fitting_out_clashes, fitting_out_ids, service_ids
from .run_record import GREATEST_ITEMS
from .setting_out_checks import allowed, set_out_clashes

KINDS_IN_A_ROOM = (
    "walls",
    "bench_marks",
    "layers",
    "old_coverings",
    "break_lines",
    "doorways",
    "height_limits",
    "stations",
)


def clashes_of(job: Job) -> dict[str, list[str]]:
    """Texts by path; empty where nothing clashes."""
    found: dict[str, list[str]] = {}
    first: dict[str, str] = {}
    removed = set(job.removed_ids)
    for path, id in ids_of(job):
        if id in removed:
            found[path] = [f"The id {id} was used before and removed; ids are never used again: give a new one."]
        elif id in first:
            found[path] = [f"The id {id} is already that of {first[id]}; ids are unique within a job: give another."]
        first.setdefault(id, path)
    for place, room in enumerate(job.rooms):
        found |= strangers_in(room, f"rooms.{place}")
        for path, text in (*set_out_clashes(room), *fitting_out_clashes(room)):
            found.setdefault(f"rooms.{place}.{path}", []).append(text)
    pinned: set[tuple[str, str]] = set()
    for place, pin in enumerate(job.hardware):
        if (pin.kind, pin.row) in pinned:
            found[f"hardware.{place}.row"] = [f"The row {pin.row} is in it twice; a job uses one version of a row."]
        pinned.add((pin.kind, pin.row))
    items = sum(len(run.items) for room in job.rooms for run in room.runs)
    if items > GREATEST_ITEMS:
        found["rooms"] = [f"The job has {items} items; at most {GREATEST_ITEMS} are taken: make two jobs of it."]
    return found


def ids_of(job: Job) -> Iterator[tuple[str, str]]:
    """Path and value of every id of the job."""
    yield "id", job.id
    for kind in ("lasers", "instruments"):
        yield from ((f"{kind}.{place}.id", thing.id) for place, thing in enumerate(getattr(job, kind)))
    for place, room in enumerate(job.rooms):
        yield from ((f"rooms.{place}.{path}", id) for path, id in ids_in(room))


def ids_in(room: Room) -> Iterator[tuple[str, str]]:
    yield "id", room.id
    for kind in KINDS_IN_A_ROOM:
        yield from ((f"{kind}.{place}.id", thing.id) for place, thing in enumerate(getattr(room, kind)))
    for run_place, run in enumerate(room.runs):
        yield f"runs.{run_place}.id", run.id
        yield from ((f"runs.{run_place}.features.{k}.id", feature.id) for k, feature in enumerate(run.features))
        yield from ((f"runs.{run_place}.{path}", id) for path, id in service_ids(run))
        for item_place, item in enumerate(run.items):
            path = f"runs.{run_place}.items.{item_place}"
            yield f"{path}.id", item.id
            if isinstance(item, ApplianceBay):
                yield f"{path}.appliance.id", item.appliance.id
            if isinstance(item, Carcass):
                for place, appliance in enumerate(item.appliances):
                    yield f"{path}.appliances.{place}.id", appliance.id
            if isinstance(item, Carcass | OpenUnit):
                yield from ((f"{path}.{below}", id) for below, id in fitting_out_ids(item))


def strangers_in(room: Room, path: str) -> dict[str, list[str]]:
    """Ids that name nothing in this room."""
    walls = {wall.id for wall in room.walls}
    stations = {station.id for station in room.stations}
    bays = {item.id for run in room.runs for item in run.items if isinstance(item, ApplianceBay)}
    named = [(f"runs.{i}.wall", run.wall, walls, "wall") for i, run in enumerate(room.runs) if run.wall is not None]
    for i, limit in enumerate(room.height_limits):
        named += [(f"height_limits.{i}.stations.{k}", id, stations, "station") for k, id in enumerate(limit.stations)]
    for i, layer in enumerate(room.layers):
        named += [(f"layers.{i}.bays.{k}", id, bays, "appliance bay") for k, id in enumerate(layer.bays or ())]
    return {
        f"{path}.{place}": [f"There is no {kind} {id} in this room; {allowed(known)}."]
        for place, id, known, kind in named
        if id not in known
    }
