"""Computation 7: the line of backs that keeps the wanted void everywhere and wastes least depth."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from oddleg.job import Run, Storey, WallHeight

from .figure import Figure
from .finding import Finding
from .wall import Wall
from .wall_profile import Span, points_behind, wall_points


@dataclass(frozen=True)
class FrontLine:
    """Where the backs of a run's carcasses lie: y = back_mm + slope * x in run axes; fronts lie a carcass depth further
    out.

    `storey` BASE for all that stands, WALL for what hangs (parallel to the former, with an offset of its own). `read`:
    False where no wall is read and the job's void is taken. `binding`: (x, y) of wall points that hold it.
    `least_void`, `greatest_void` over the wall read; `waste`: the greatest void over the wanted one. `depth_needed`: of
    the worktop, from the deepest hollow to the front edge; None for what hangs. `set_out`: the run with its origin,
    bearing and void moved so that y = void_mm is this line; the job's own run where nothing is read. `zero_mm`: x of
    its zero in the job's run axes, those of wall readings and features (not 0 only in a corner). `words`: one sentence
    of how it was found.
    """

    run: Run
    storey: Storey
    read: bool
    back_mm: float
    slope: float
    binding: tuple[tuple[float, float], ...]
    least_void: Figure
    greatest_void: Figure
    waste: Figure
    depth_needed: Figure | None
    words: str
    set_out: Run
    findings: tuple[Finding, ...]
    zero_mm: float = 0.0

    def back_at(self, x_mm: float) -> float:
        """y of the line of backs in run axes, mm."""
        return self.back_mm + self.slope * x_mm

    def least_void_mm(self, wall: Wall | None, heights: Iterable[WallHeight], span: Span) -> float:
        """The least void along a span of the run's axes, at these heights; where nothing is read there, the run's."""
        points = [at for height in heights for at in points_behind(wall_points(wall, height), [span])]
        return min((self.back_at(at.x_mm) - at.y_mm for at in points), default=self.least_void.mm)
