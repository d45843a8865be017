"""Computation 3: three floors from the same readings: what legs stand on, what appliances roll in on, what plinths meet."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from oddleg.job import Job, Room, Station

from .finding import Finding
from .levels import Levels
from .surfaces import Surface


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
    raise NotImplementedError
