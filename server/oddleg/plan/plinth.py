"""Computation 6, the part that the datum needs: the plinth gap at both front corners of each carcass."""

from __future__ import annotations

from dataclasses import dataclass

from .rod import Placed
from .surfaces import SurfaceLevel


@dataclass(frozen=True)
class GapPlace:
    """One front corner on the plinth line: the finished floor there, and what the visible edge hangs below the datum."""

    placed: Placed
    side: str
    floor: SurfaceLevel
    edge_below_datum_mm: float

    def gap_mm(self, datum_mm: float) -> float:
        """Finished floor to the lowest visible edge at this datum."""
        return datum_mm - self.edge_below_datum_mm - self.floor.level_mm
