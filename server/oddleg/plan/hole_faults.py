"""Faults of single holes, told together: one finding for each way in which holes of one kind break one rule."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from oddleg.job import Job

from .carcass_box import CarcassBox
from .figure import figure
from .finding import Finding, Severity
from .fitted_out import Hole, HoleFor, Panel
from .panel_views import numbered_holes
from .sightings import counted, listed, named

NAMED_HOLES = 12


@dataclass(frozen=True)
class Fault:
    """A hole, or a pair of holes, of one panel that breaks a rule, by `by_mm`. `says`: what is wrong, after the holes;
    `what`: the other thing that it is about, where there is one."""

    rule: str
    severity: Severity
    panel: Panel
    holes: tuple[Hole, ...]
    says: str
    cure: str
    source: str
    by_mm: float
    what: str = ""


def told(job: Job, box: CarcassBox, faults: Sequence[Fault]) -> tuple[Finding, ...]:
    """One finding for each rule, kind of hole and row of a chart, over all panels of the carcass."""
    groups: dict[tuple[str, Severity, str, str, tuple[tuple[HoleFor, str | None], ...]], list[Fault]] = {}
    for one in faults:
        kinds = tuple(sorted(((hole.hole_for, hole.row) for hole in one.holes), key=str))
        groups.setdefault((one.rule, one.severity, one.says, one.what, kinds), []).append(one)
    numbers: dict[str, dict[str, int]] = {}
    for one in faults:
        if one.panel.id not in numbers:
            numbers[one.panel.id] = {each.hole.id: each.number for each in numbered_holes(one.panel)}
    return tuple(_finding(job, box, together, numbers) for together in groups.values())


def _finding(job: Job, box: CarcassBox, faults: Sequence[Fault], numbers: dict[str, dict[str, int]]) -> Finding:
    first = faults[0]
    by_panel: dict[str, list[Fault]] = {}
    for one in faults:
        by_panel.setdefault(one.panel.name, []).append(one)
    by_holes: dict[str, list[str]] = {}
    for name, here in by_panel.items():
        pairs = [" with ".join(str(numbers[one.panel.id][hole.id]) for hole in one.holes) for one in here]
        by_holes.setdefault(_holes_words(pairs), []).append(name)
    where = "; ".join(f"{listed(names)}, {holes}" for holes, names in by_holes.items())
    example = " / ".join(hole.words for hole in first.holes)
    others = len(faults) - 1
    also = f", and {counted(others, 'other')}" if others else ""
    worst = max(faults, key=lambda one: one.by_mm)
    panels = tuple(dict.fromkeys(one.panel.id for one in faults))
    return Finding(
        first.rule,
        first.severity,
        box.item.name,
        f"{where[0].upper()}{where[1:]} ({example}{also}): {first.says}.",
        first.cure,
        first.source,
        figure(worst.by_mm, job.holes.shop_mm),
        (box.item.id, *panels),
    )


def _holes_words(numbers: Sequence[str]) -> str:
    word = "hole" if len(numbers) == 1 else "holes"
    if len(numbers) <= NAMED_HOLES:
        return f"{word} {listed(numbers)}"
    return f"{word} {named(numbers)}"
