"""The rows of charts that a job names, in the version that it is pinned to."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import TypeVar

from oddleg.job import ROW_OF, Carcass, Charts, HardwareKind, HardwareRow, Item, Job, OpenUnit

from .finding import Finding, Severity

Row = TypeVar("Row", bound=HardwareRow)


@dataclass(frozen=True)
class Hardware:
    rows: dict[tuple[HardwareKind, str], HardwareRow] = field(default_factory=dict)

    def row(self, of: type[Row], id: str | None) -> Row | None:
        """The row of this kind; None where none is named, or where no chart has it (`hardware_findings` tells)."""
        found = self.rows.get((KIND_OF[of], id)) if id is not None else None
        return found if isinstance(found, of) else None


def hardware(job: Job, charts: Charts) -> Hardware:
    """The job's rows by kind and id. A row that the job does not pin, or whose pinned version is gone, is not there."""
    by_sha = {(KIND_OF[type(row)], row.id, row.sha): row for row in charts.hardware}
    pinned = {(pin.kind, pin.row): by_sha.get((pin.kind, pin.row, pin.sha)) for pin in job.hardware}
    return Hardware({key: row for key, row in pinned.items() if row is not None})


def hardware_findings(job: Job, known: Hardware) -> tuple[Finding, ...]:
    """A stop for each row that is named by an item and cannot be used."""
    pinned = {(pin.kind, pin.row) for pin in job.hardware}
    told: dict[tuple[HardwareKind, str], list[Item]] = {}
    for item in (item for room in job.rooms for run in room.runs for item in run.items):
        for key in rows_named(item):
            if key not in known.rows:
                told.setdefault(key, []).append(item)
    return tuple(
        Finding(
            "hardware.missing",
            Severity.STOP,
            ", ".join(dict.fromkeys(item.name for item in items)),
            f"The {KIND_WORDS[kind]} {id} that is named here is in no chart"
            + (" in the version that this job holds." if (kind, id) in pinned else "."),
            "Type its sheet in as a chart, or name another row.",
            concerns=tuple(dict.fromkeys(item.id for item in items)),
        )
        for (kind, id), items in told.items()
    )


def rows_named(item: Item) -> Iterator[tuple[HardwareKind, str]]:
    """Kind and id of every row of a chart that an item names, as often as it names it."""
    fitted = item.fitting_out if isinstance(item, Carcass | OpenUnit) else None
    if fitted is None:
        return
    named: list[tuple[HardwareKind, str | None]] = [
        (HardwareKind.LEG, fitted.leg),
        (HardwareKind.BRACKET, fitted.bracket),
        (HardwareKind.CONNECTOR, fitted.connector),
    ]
    for part in fitted.compartments:
        for member in part.stack.members if part.stack is not None else ():
            named += [
                (HardwareKind.RUNNER, member.runner),
                (HardwareKind.HINGE, member.hinge),
                (HardwareKind.PLATE, member.plate),
                (HardwareKind.PULL_OUT, member.pull_out),
            ]
        named += [(HardwareKind.RUNNER, drawer.runner) for drawer in part.inner_drawers]
        named += [(HardwareKind.PULL_OUT, frame.pull_out) for frame in part.pull_outs]
        named += [(HardwareKind.PIN, shelf.pins) for shelf in part.shelves]
    yield from ((kind, id) for kind, id in named if id is not None)


KIND_OF: dict[type, HardwareKind] = {made: kind for kind, made in ROW_OF.items()}
KIND_WORDS = {
    HardwareKind.RUNNER: "runner",
    HardwareKind.HINGE: "hinge",
    HardwareKind.PLATE: "mounting plate",
    HardwareKind.LEG: "leg",
    HardwareKind.BRACKET: "hanging bracket",
    HardwareKind.CONNECTOR: "connecting screw",
    HardwareKind.PIN: "shelf pin",
    HardwareKind.PULL_OUT: "pull-out frame",
}
