"""Which version of each row a job uses."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from oddleg.job import HardwareRow, Job, PinnedRow
from oddleg.plan.hardware import KIND_OF, rows_named


def pinned(job: Job, rows: Sequence[HardwareRow]) -> Job:
    """The job with a pin for every row that an item names and that it has none for yet: the first of `rows` with that
    kind and id. What is in none of them stays without a pin, and the plan says so."""
    have = {(pin.kind, pin.row) for pin in job.hardware}
    named = dict.fromkeys(
        key for room in job.rooms for run in room.runs for item in run.items for key in rows_named(item)
    )
    first: dict[tuple[str, str], HardwareRow] = {}
    for row in rows:
        first.setdefault((KIND_OF[type(row)], row.id), row)
    new = tuple(
        PinnedRow(kind, id, first[kind, id].sha) for kind, id in named if (kind, id) not in have and (kind, id) in first
    )
    return replace(job, hardware=(*job.hardware, *new))
