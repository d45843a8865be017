"""Computations 7 to 10 of a room, in order: walls, corners, front lines, rods, battens, whether it fits, what opens."""

from __future__ import annotations

from dataclasses import dataclass, replace

from oddleg.job import Job, Room, Run

from .battens import batten, panel_scribes
from .bay_depths import bay_findings
from .behind_units import stands_out_findings
from .blind_units import blind_units
from .corner import BlindUnit, Corner, OpeningFront
from .corner_angle import corners, triangle_findings
from .corner_places import as_rods_place
from .finding import Finding
from .fit import Fit
from .fits import fits
from .front_line import FrontLine
from .front_lines import front_lines
from .heights import heights
from .opening_fronts import opening_fronts
from .over_features import over_feature_findings
from .packing import PanelScribe, RunBatten
from .rod import Placed
from .rods import rods
from .service_features import service_features
from .set_out import Rod
from .site import Site
from .wall import Wall
from .wall_reading import walls


@dataclass(frozen=True)
class RunSetOut:
    """What follows for one run. `wall` and `batten` None for a run that stands free; `hanging_line` for one without
    wall units. `run` is the job's own; `rod.run` lies on its front line. `behind`: what stands out of the wall behind
    its units, what depth its bays leave, and what its units cover of windows and doors."""

    run: Run
    wall: Wall | None
    line: FrontLine
    hanging_line: FrontLine | None
    rod: Rod
    batten: RunBatten | None
    scribes: tuple[PanelScribe, ...]
    fits: tuple[Fit, ...]
    behind: tuple[Finding, ...] = ()

    @property
    def findings(self) -> tuple[Finding, ...]:
        return (
            *self.line.findings,
            *(self.hanging_line.findings if self.hanging_line else ()),
            *self.rod.findings,
            *self.behind,
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

    @property
    def placed(self) -> tuple[Placed, ...]:
        """Every item of the room where its rod puts it, run by run."""
        return tuple(one for run in self.runs for one in run.rod.placed)


def setting_out(job: Job, room: Room, here: Site, datum_mm: float | None) -> SettingOut:
    """The room's runs as set out from what was read at its walls. `datum_mm`: the decided datum, for what hangs on
    heights."""
    read = walls(job, room, here, datum_mm)
    met = corners(job, room, here, read)
    laid = front_lines(job, room, read, met)
    set_out, lines, not_closed = as_rods_place(job, room, rods(job, room, here, read, laid), laid)
    blind, blind_findings = blind_units(job, room, set_out, read, lines)
    fronts, front_findings = opening_fronts(job, room, set_out, read, lines, datum_mm)
    by_run = {one.run.id: one for one in read}
    rising = heights(job, room, [one for rod in set_out for one in rod.placed])
    runs = []
    for run, rod in zip(room.runs, set_out, strict=True):
        wall = by_run.get(run.id)
        standing, hanging = lines[run.id]
        runs.append(
            RunSetOut(
                run,
                wall,
                standing,
                hanging,
                rod,
                batten(job, room, _with_services(wall, run, here, datum_mm), standing, rod, datum_mm),
                tuple(one for line in (standing, hanging) if line for one in panel_scribes(job, wall, line, rod)),
                fits(job, here, rod),
                (
                    *stands_out_findings(job, wall, standing, rod, datum_mm),
                    *bay_findings(job, wall, standing, rod.placed),
                    *over_feature_findings(job, wall, standing, rod, rising, datum_mm),
                ),
            )
        )
    told = (
        *(finding for one in met for finding in one.findings),
        *triangle_findings(room, here),
        *not_closed,
        *blind_findings,
        *front_findings,
    )
    return SettingOut(tuple(runs), met, blind, fronts, told)


def _with_services(wall: Wall | None, run: Run, here: Site, datum_mm: float | None) -> Wall | None:
    """The wall with the run's services among what it carries, of which a batten is fixed clear."""
    if wall is None:
        return None
    known = {one.id for one in wall.features}
    more = tuple(one for one in service_features(run, here, datum_mm) if one.id not in known)
    return replace(wall, features=(*wall.features, *more))
