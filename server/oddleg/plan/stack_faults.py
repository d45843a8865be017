"""Faults of single fronts, drawers and frames of a carcass, told together where they are wrong in one way."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from oddleg.job import HardwareRow, Job

from .carcass_box import CarcassBox
from .figure import figure
from .finding import Finding, Severity
from .sightings import named


@dataclass(frozen=True)
class StackFault:
    """`names`: of what is wrong, as the joiner calls it; `ids` the same. `row`: the chart's row that says so."""

    rule: str
    names: tuple[str, ...]
    ids: tuple[str, ...]
    wrong: str
    cure: str
    by_mm: float | None = None
    row: HardwareRow | None = None
    severity: Severity = Severity.STOP


def told(job: Job, box: CarcassBox, faults: Iterable[StackFault]) -> tuple[Finding, ...]:
    """One finding for each rule and way of being wrong; its amount is the worst one's."""
    groups: dict[tuple[str, Severity, str, str], list[StackFault]] = {}
    for one in faults:
        groups.setdefault((one.rule, one.severity, one.wrong, one.cure), []).append(one)
    return tuple(_finding(job, box, together) for together in groups.values())


def _finding(job: Job, box: CarcassBox, faults: list[StackFault]) -> Finding:
    first = faults[0]
    amounts = [one.by_mm for one in faults if one.by_mm is not None]
    names = list(dict.fromkeys(name for one in faults for name in one.names))
    ids = dict.fromkeys(id for one in faults for id in one.ids)
    source = "" if first.row is None else f"chart row {first.row.name}: {first.row.source}".removesuffix(": ")
    return Finding(
        first.rule,
        first.severity,
        f"{box.item.name}, {named(names)}" if names else box.item.name,
        first.wrong,
        first.cure,
        source,
        figure(max(amounts), job.holes.shop_mm) if amounts else None,
        (box.item.id, *ids),
    )
