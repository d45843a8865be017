"""Where a job names rows of fitting charts, by path, so that a wrong name is told where it stands."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator
from typing import Any

from oddleg.job import Carcass, HardwareKind, Job, OpenUnit

from .strict_json import joined

KIND_BY_FIELD = {
    "runner": HardwareKind.RUNNER,
    "hinge": HardwareKind.HINGE,
    "plate": HardwareKind.PLATE,
    "leg": HardwareKind.LEG,
    "bracket": HardwareKind.BRACKET,
    "connector": HardwareKind.CONNECTOR,
    "pins": HardwareKind.PIN,
    "pull_out": HardwareKind.PULL_OUT,
}


def rows_named_in(job: Job) -> Iterator[tuple[str, HardwareKind, str]]:
    """Path, kind and id of each row that an item names, as often as it is named."""
    for room_place, room in enumerate(job.rooms):
        for run_place, run in enumerate(room.runs):
            for item_place, item in enumerate(run.items):
                if isinstance(item, Carcass | OpenUnit) and item.fitting_out is not None:
                    path = f"rooms.{room_place}.runs.{run_place}.items.{item_place}.fitting_out"
                    yield from _named(item.fitting_out, path)


def _named(part: Any, path: str) -> Iterator[tuple[str, HardwareKind, str]]:
    for field in dataclasses.fields(part):
        value, below = getattr(part, field.name), joined(path, field.name)
        if isinstance(value, str) and field.name in KIND_BY_FIELD:
            yield below, KIND_BY_FIELD[field.name], value
        elif dataclasses.is_dataclass(value):
            yield from _named(value, below)
        elif isinstance(value, tuple):
            for place, one in enumerate(value):
                if dataclasses.is_dataclass(one):
                    yield from _named(one, joined(below, place))
