"""How far a floor is out of level between any two stations, held against a rule that others answer for."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from oddleg.job import Job, LevelRule, Room

from .figure import figure, rounded_mm, text_mm
from .finding import Finding, Severity
from .surfaces import Spot, Surface

# A rule "per metre" says nothing of a shorter way, where two readings' give or take is as large as what it allows.
LEAST_WAY_MM = 1000.0


@dataclass(frozen=True)
class Fall:
    """From `upper` down to `lower`, mm: how far apart, how much lower, and what the rule allows there."""

    upper: Spot
    lower: Spot
    apart_mm: float
    fall_mm: float
    allowed_mm: float


def allowed_mm(rule: LevelRule, apart_mm: NDArray[np.float64]) -> NDArray[np.float64]:
    """The greatest difference of level between places so far apart, mm."""
    return np.where(apart_mm <= rule.up_to_mm, rule.mm_per_m * apart_mm / 1000, rule.beyond_mm)


def worst_fall(spots: Sequence[Spot], rule: LevelRule) -> Fall | None:
    """The pair of stations at least a metre apart that takes most of what the rule allows; None without such a pair."""
    ordered = sorted(spots, key=lambda spot: spot.id)
    places = np.array([(one.x_mm, one.y_mm) for one in ordered]).reshape(-1, 2)
    levels = np.array([one.level_mm for one in ordered])
    apart_mm = np.hypot(*np.moveaxis(places[:, None] - places[None], -1, 0))
    fall_mm = levels[:, None] - levels[None]
    most_mm = allowed_mm(rule, apart_mm)
    counts = (apart_mm >= LEAST_WAY_MM) & (fall_mm >= 0)
    if not counts.any():
        return None
    share = np.where(counts, fall_mm / np.where(counts, most_mm, 1.0), -1.0)
    upper, lower = (int(one) for one in np.unravel_index(share.argmax(), share.shape))
    apart, fall, most = (float(one[upper, lower]) for one in (apart_mm, fall_mm, most_mm))
    return Fall(ordered[upper], ordered[lower], apart, fall, most)


def level_findings(job: Job, room: Room, surface: Surface, rules: Sequence[LevelRule]) -> tuple[Finding, ...]:
    """A note for each rule: legs take up what a floor is out of level, so nothing here blocks."""
    findings = []
    for rule in rules:
        worst = worst_fall(surface.spots, rule)
        if worst is None:
            continue
        step_mm = job.rounding_mm
        over_mm = float(rounded_mm(worst.fall_mm, step_mm) - rounded_mm(worst.allowed_mm, step_mm))
        told = (
            f"From {worst.upper.name} down to {worst.lower.name}, {text_mm(worst.apart_mm / 1000, 0.1)} m apart, the "
            f"floor falls {text_mm(worst.fall_mm, step_mm)} mm; {rule.name} lets it be "
            f"{text_mm(worst.allowed_mm, step_mm)} there."
        )
        if over_mm > 0:
            told += f" That is {text_mm(over_mm, step_mm)} mm too much."
        findings.append(
            Finding(
                "floor.out_of_level",
                Severity.NOTE,
                room.name,
                told,
                "Legs and plinth take it up; tell who answers for the floor, where this rule holds."
                if over_mm > 0
                else "Nothing to do.",
                f"{rule.name} ({rule.applies_to}); {rule.source}; {rule.status}",
                figure(over_mm if over_mm > 0 else worst.fall_mm, step_mm),
                (room.id, worst.upper.id, worst.lower.id),
            )
        )
    return tuple(findings)
