"""Computations 7 to 10 of a room, in order: walls, corners, front lines, rods, battens, whether it fits, what opens."""

from __future__ import annotations

from dataclasses import dataclass

from oddleg.job import Run

from .corner import BlindUnit, Corner, OpeningFront
from .finding import Finding
from .fit import Fit
from .front_line import FrontLine
from .packing import PanelScribe, RunBatten
from .set_out import Rod
from .wall import Wall


@dataclass(frozen=True)
class RunSetOut:
    """What follows for one run. `wall` and `batten` None for a run that stands free; `hanging_line` for one without
    wall units. `run` is the job's own; `rod.run` lies on its front line."""

    run: Run
    wall: Wall | None
    line: FrontLine
    hanging_line: FrontLine | None
    rod: Rod
    batten: RunBatten | None
    scribes: tuple[PanelScribe, ...]
    fits: tuple[Fit, ...]

    @property
    def findings(self) -> tuple[Finding, ...]:
        return (
            *self.line.findings,
            *(self.hanging_line.findings if self.hanging_line else ()),
            *self.rod.findings,
            *(self.batten.findings if self.batten else ()),
            *(finding for fit in self.fits for finding in fit.findings),
        )


@dataclass(frozen=True)
class SettingOut:
    """`findings` of corners, blind units and fronts that do not open."""

    runs: tuple[RunSetOut, ...]
    corners: tuple[Corner, ...]
    blind: tuple[BlindUnit, ...]
    fronts: tuple[OpeningFront, ...]
    findings: tuple[Finding, ...]
