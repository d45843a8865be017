"""The strip of a side that a drawer runner lies on, behind which nothing can be driven or drilled."""

from __future__ import annotations

from dataclasses import dataclass

from oddleg.job import Runner

from .fitted_out import Face, Hole, HoleFor, Panel
from .hardware import Hardware
from .hole_distances import from_rectangle_mm


@dataclass(frozen=True)
class RunnerLine:
    """Along a runner's line of screws from its front end to its rear end: as narrow as its screw holes, since a chart
    says how high the drawer is and not how high the runner is. `of`: the drawer."""

    of: str
    words: str
    face: Face
    from_u_mm: float
    to_u_mm: float
    v_mm: float
    half_mm: float

    def from_rim_mm(self, hole: Hole) -> float:
        """From the hole's rim to the line's edge; below 0: it reaches behind the runner."""
        across_mm, up_mm = (self.from_u_mm, self.to_u_mm), (self.v_mm - self.half_mm, self.v_mm + self.half_mm)
        return from_rectangle_mm(hole, across_mm, up_mm)


def runner_lines(known: Hardware, panel: Panel) -> tuple[RunnerLine, ...]:
    """One for each drawer and face, from its holes in this panel."""
    first: dict[tuple[str, Face], Hole] = {}
    for hole in panel.holes:
        if hole.hole_for is HoleFor.RUNNER:
            kept = first.setdefault((hole.of, hole.face), hole)
            if hole.u_mm < kept.u_mm:
                first[hole.of, hole.face] = hole
    lines = []
    for (of, face), hole in first.items():
        runner = known.row(Runner, hole.row)
        if runner is None:
            continue
        from_mm = hole.u_mm - runner.first_mm - min(runner.screws_mm) + runner.front_mm
        to_mm = from_mm + runner.length_mm
        lines.append(RunnerLine(of, hole.words, face, from_mm, to_mm, hole.v_mm, hole.diameter_mm / 2))
    return tuple(lines)
