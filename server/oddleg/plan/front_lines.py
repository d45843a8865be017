"""Computation 7: the line of backs of every run of a room, so that the void is kept and least depth is wasted."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from oddleg.job import Gap, Job, LineIs, Room, Run, Storey, WallHeight

from .corner import Corner
from .figure import Figure, figure, text_mm
from .finding import Finding, Severity
from .front_line import FrontLine
from .minimax import WallHull
from .parallel_to import parallel_points
from .rod import Placed, placed_items
from .rotation import Rotation, rotation
from .set_out_run import Laid, set_out_runs, zero_moved_mm
from .sightings import named
from .wall import Wall
from .wall_profile import STANDING, Span, WallPoint, merged, points_behind, wall_at, wall_points
from .worktop_depth import worktop_depth

# At the worktop a line that is to lie parallel to the wall is seen; else the nearest height that is read.
SEEN = (WallHeight.WORKTOP, WallHeight.BATTEN, WallHeight.FLOOR, WallHeight.WALL_UNITS)
TOUCHES_MM = 1e-6


@dataclass(frozen=True)
class _Run:
    """A run with its wall: the points behind what stands (`standing`) and behind what hangs."""

    run: Run
    wall: Wall | None
    placed: tuple[Placed, ...]
    standing: tuple[WallPoint, ...]
    hanging: tuple[WallPoint, ...]

    @property
    def hangs(self) -> bool:
        return any(not one.stands for one in self.placed)

    @property
    def span(self) -> Span:
        there = [one for one in self.placed if one.stands] or list(self.placed)
        right_mm = max((one.right_mm for one in there), default=self.run.opening_mm or 0.0)
        return min((one.left_mm for one in there), default=0.0), right_mm


def front_lines(
    job: Job, room: Room, walls: Sequence[Wall], corners: Sequence[Corner]
) -> dict[str, tuple[FrontLine, FrontLine | None]]:
    """The line of backs of what stands and of what hangs (None: nothing does), for every run of the room.

    The line y = back + slope x keeps at least the run's void to every point of the wall behind the run's items, at all
    heights from floor to worktop (behind tall units at wall-unit height too), and so between readings as well, where
    the wall is straight. Of all such lines that one whose greatest void is least; runs in a corner together. What hangs
    lies parallel to it and keeps the same void at wall-unit height. A run whose wall is not read keeps the job's void
    from its drawn wall, and turns with the runs that it meets.
    """
    read = {wall.run.id: wall for wall in walls}
    known = [_run(run, read.get(run.id)) for run in room.runs]
    hulls = {
        one.run.id: WallHull([(point.x_mm, point.y_mm) for point in points])
        for one in known
        if (points := one.standing or (() if any(p.stands for p in one.placed) else one.hanging))
    }
    parallels = {one.run.id: _parallel(one) for one in known if one.run.front_line.line is LineIs.PARALLEL}
    turned = rotation(room.runs, hulls, parallels, corners)
    laid = {one.run.id: _laid(one, turned.slopes[one.run.id]) for one in known}
    moved = frozenset(id for id, slope in turned.slopes.items() if id in hulls or slope != 0.0)
    set_out = set_out_runs(turned.groups, laid, moved)
    return {one.run.id: _lines(job, room, one, laid[one.run.id], set_out[one.run.id], turned) for one in known}


def _run(run: Run, wall: Wall | None) -> _Run:
    placed = placed_items(run)
    solid = [one for one in placed if not isinstance(one.item, Gap)]
    tall = merged((one.left_mm, one.right_mm) for one in solid if one.item.storey is Storey.TALL)
    hangs = merged((one.left_mm, one.right_mm) for one in solid if not one.stands)
    stands = merged((one.left_mm, one.right_mm) for one in solid if one.stands)
    units = wall_points(wall, WallHeight.WALL_UNITS)
    everywhere = not placed
    standing: list[WallPoint] = []
    for height in STANDING:
        points = wall_points(wall, height)
        standing.extend(points if everywhere else points_behind(points, stands))
    standing.extend(points_behind(units, tall))
    return _Run(run, wall, placed, tuple(standing), points_behind(units, hangs))


def _laid(one: _Run, slope: float) -> Laid:
    """The back that keeps the void; where no wall is read, from the wall as drawn, y = 0."""
    left_mm, right_mm = one.span
    points = [(point.x_mm, point.y_mm) for point in one.standing] or [(left_mm, 0.0), (right_mm, 0.0)]
    return Laid(one.run, max(y - slope * x for x, y in points) + one.run.void_mm, slope, right_mm)


def _parallel(one: _Run) -> float | None:
    """Slope of the line between the two wall points of the run's rule; None where no height is read at both."""
    between = parallel_points(one.run.front_line, one.wall.features if one.wall else one.run.features)
    if between is None:
        return None
    for height in SEEN:
        points = wall_points(one.wall, height)
        start, stop = (wall_at(points, x_mm) for x_mm in between)
        if start is not None and stop is not None:
            return (stop.y_mm - start.y_mm) / (stop.x_mm - start.x_mm)
    return None


def _lines(
    job: Job, room: Room, one: _Run, laid: Laid, set_out: Run, turned: Rotation
) -> tuple[FrontLine, FrontLine | None]:
    run = one.run
    words = _words(one, laid, turned.how[run.id])
    plain = _line(job, one, laid, Storey.BASE, one.standing, words, set_out)
    depth, findings = worktop_depth(job, room, one.placed, one.wall, plain)
    told = [*turned.findings.get(run.id, ()), *_unread(one), *findings]
    line = replace(plain, depth_needed=depth, findings=tuple(told), zero_mm=zero_moved_mm(run, set_out))
    if not one.hangs:
        return line, None
    back_mm = laid.back_mm
    if one.hanging:
        back_mm = max(point.y_mm - laid.slope * point.x_mm for point in one.hanging) + run.void_mm
    out_mm = (back_mm - laid.back_mm) / math.hypot(1.0, laid.slope)
    words = f"Parallel to the line of what stands, {_out(out_mm, job.rounding_mm)}."
    if not one.hanging:
        words = "On the line of what stands: the wall is not read at wall-unit height."
    hung = _line(
        job, one, replace(laid, back_mm=back_mm), Storey.WALL, one.hanging, words,
        replace(set_out, void_mm=set_out.void_mm + out_mm),
    )  # fmt: skip
    return line, replace(hung, zero_mm=line.zero_mm)


def _line(
    job: Job, one: _Run, laid: Laid, storey: Storey, points: Sequence[WallPoint], words: str, set_out: Run
) -> FrontLine:
    wanted_mm, step_mm = one.run.void_mm, job.rounding_mm
    voids = [(laid.back_mm + laid.slope * point.x_mm - point.y_mm, point) for point in points]
    if voids:
        least, greatest = (pick(voids, key=lambda each: (each[0], each[1].x_mm)) for pick in (min, max))
        narrow, wide = _void(*least, step_mm), _void(*greatest, step_mm)
    else:
        left_mm, right_mm = one.span
        ends = [laid.back_mm + laid.slope * x_mm for x_mm in (left_mm, right_mm)]
        why = "From the wall as drawn: it is not read." if laid.slope else "The job's void: the wall is not read."
        if one.wall is None:
            why = "The job's void: the run stands free of walls."
        narrow, wide = (figure(pick(ends), step_mm, why) for pick in (min, max))
    return FrontLine(
        one.run,
        storey,
        bool(points),
        laid.back_mm,
        laid.slope,
        tuple((point.x_mm, point.y_mm) for void_mm, point in voids if void_mm <= wanted_mm + TOUCHES_MM),
        narrow,
        wide,
        figure(
            wide.mm - wanted_mm,
            step_mm,
            f"Greatest void {text_mm(wide.mm, step_mm)} less the {text_mm(wanted_mm, step_mm)} that is wanted.",
        ),
        None,
        words,
        set_out,
        (),
    )


def _void(void_mm: float, point: WallPoint, step_mm: float) -> Figure:
    out_mm = point.y_mm + void_mm
    why = (
        f"At {text_mm(point.x_mm, step_mm)} from the zero the line of backs lies at {text_mm(out_mm, step_mm)}, "
        f"the wall at {text_mm(point.y_mm, step_mm)} ({point.words})."
    )
    return figure(void_mm, step_mm, why)


def _words(one: _Run, laid: Laid, how: str) -> str:
    if one.wall is None and not one.standing:
        free = "Free-standing: backs lie where they are drawn"
        return f"{free}, turned with the runs that it meets ({how})." if laid.slope else f"{free}."
    if not one.standing:
        base = "The wall is not read: backs lie the job's void from the wall as drawn"
        return f"{base}, turned with the runs that it meets ({how})." if laid.slope else f"{base}."
    at = [
        point.words
        for point in one.standing
        if laid.back_mm + laid.slope * point.x_mm - point.y_mm <= one.run.void_mm + TOUCHES_MM
    ]
    touched = named(list(dict.fromkeys(at)))
    return f"{how[0].upper()}{how[1:]}; the least void is at {touched}."


def _out(out_mm: float, step_mm: float) -> str:
    if abs(out_mm) < step_mm / 2:
        return "and on it"
    return f"{text_mm(abs(out_mm), step_mm)} further {'out' if out_mm > 0 else 'back'}"


def _unread(one: _Run) -> list[Finding]:
    """A note for a wall of which nothing is read at all; stretches that lack readings are told where walls are read."""
    if one.wall is None or not one.placed or wall_points(one.wall, *WallHeight):
        return []
    return [
        Finding(
            "front_line.unread",
            Severity.NOTE,
            one.run.name,
            f"The wall is not read yet; backs lie {text_mm(one.run.void_mm)} from the wall as drawn, and what follows "
            "from that rests on a guess.",
            "Read the wall at its stations before the batten is fixed and the worktop is ordered.",
            "the void is kept to what was read",
            concerns=(one.run.id,),
        )
    ]
