"""A rule for how level a floor must be, as a frozen value."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class LevelRule:
    """Between two places of a floor up to `up_to_mm` apart the level may differ by `mm_per_m` for each metre; further
    apart by `beyond_mm`. `applies_to`, `source`, `status` as of a FlatnessClass."""

    name: str
    applies_to: str
    mm_per_m: float
    up_to_mm: float
    beyond_mm: float
    source: str
    status: str
