"""The runs as set out: each turned and moved onto its line of backs, its zero in a corner on the other run's line."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from oddleg.job import EndsAt, Point, Run

from .axes import to_room, to_run
from .meeting_runs import AT_THE_OTHER
from .rod import placed_items
from .rotation import DRAWN_DEG, Group

STEP_MM = 1000.0


@dataclass(frozen=True)
class Laid:
    """A run's line of backs in the run's own axes, y = back_mm + slope x; `length_mm` of what stands along it."""

    run: Run
    back_mm: float
    slope: float
    length_mm: float


@dataclass(frozen=True)
class _Line:
    """A run's line of backs in the room: through `through`, turned to `bearing_deg`; its zero `to_zero_mm` back along
    it from there."""

    through: Point
    bearing_deg: float
    to_zero_mm: float


def set_out_runs(groups: Sequence[Group], laid: Mapping[str, Laid], turned: frozenset[str]) -> dict[str, Run]:
    """Every run as set out: y = its wanted void is its line of backs, x = 0 its zero.

    Reference lines that meet at what was measured may be drawn at 90: the runs of a group get one rotation in the room,
    the mean of what the runs with most corners have as drawn, so that they are square there too, and turn about their
    corner (about their middle between two). First all lines are settled, then the zeros: one at the other run's backs
    or carcass fronts lies on that line. A group of which nothing is read or ruled (not in `turned`) stays as drawn.
    """
    lines: dict[str, _Line] = {}
    found: dict[str, Run] = {}
    for group in groups:
        runs = [laid[run.id] for run, _ in group.runs]
        if not any(one.run.id in turned for one in runs):
            found.update((one.run.id, one.run) for one in runs)
            continue
        bearing_deg = _common_bearing(runs)
        for one in runs:
            spot_mm = _turns_about(one, laid)
            through = to_room(one.run, spot_mm, one.back_mm + one.slope * spot_mm)
            heading_deg = one.run.bearing_deg
            if bearing_deg is not None:
                heading_deg = bearing_deg + _drawn(one.run.bearing_deg - runs[0].run.bearing_deg)
            lines[one.run.id] = _Line(through, heading_deg, spot_mm)
    for id, line in lines.items():
        run = laid[id].run
        on_line = replace(run, x_mm=line.through.x_mm, y_mm=line.through.y_mm, bearing_deg=line.bearing_deg)
        zero_mm = -line.to_zero_mm
        other = run.left_end.run
        if run.left_end.at in AT_THE_OTHER and other in lines and other != id:
            crossing_mm = _crossing_mm(on_line, lines[other], _reach_mm(run, laid[other].run))
            zero_mm = zero_mm if crossing_mm is None else crossing_mm
        origin = to_room(on_line, zero_mm, -run.void_mm)
        found[id] = replace(run, x_mm=origin.x_mm, y_mm=origin.y_mm, bearing_deg=line.bearing_deg)
    return found


def zero_moved_mm(run: Run, set_out: Run) -> float:
    """x, in the run's own axes, of its zero as set out."""
    return to_run(run, to_room(set_out, 0.0, set_out.void_mm))[0]


def depth_at(run: Run, x_mm: float) -> float:
    """Depth of the standing carcass that is nearest to x, mm; 0 where nothing of the run has a depth."""
    deep = [one for one in placed_items(run) if one.stands and one.depth_mm is not None]
    boxes = [one for one in deep if one.item.made_as in ("carcass", "open_unit", "bay")] or deep
    nearest = min(boxes, key=lambda one: max(one.left_mm - x_mm, x_mm - one.right_mm, 0.0), default=None)
    return 0.0 if nearest is None or nearest.depth_mm is None else nearest.depth_mm


def _drawn(turn_deg: float) -> float:
    return math.floor(turn_deg / DRAWN_DEG + 0.5) * DRAWN_DEG


def _corner_ends(run: Run) -> int:
    return sum(end.at in AT_THE_OTHER for end in (run.left_end, run.right_end))


def _common_bearing(runs: Sequence[Laid]) -> float | None:
    """Bearing of the first run's line that they all agree on; None where it is as drawn."""
    first_deg = runs[0].run.bearing_deg
    most = max(_corner_ends(one.run) for one in runs)
    turns = []
    for one in runs:
        if _corner_ends(one.run) == most:
            drawn_deg = one.run.bearing_deg - first_deg
            turns.append(drawn_deg - _drawn(drawn_deg) + math.degrees(math.atan(one.slope)))
    turn_deg = math.fsum(turns) / len(turns)
    straight = all(one.run.bearing_deg - first_deg == _drawn(one.run.bearing_deg - first_deg) for one in runs)
    return None if turn_deg == 0.0 and straight else first_deg + turn_deg


def _turns_about(one: Laid, laid: Mapping[str, Laid]) -> float:
    """x about which the run's line is turned in the room: its corner, its middle between two, else its zero."""
    left, right = (end.at in AT_THE_OTHER for end in (one.run.left_end, one.run.right_end))
    if not right:
        return 0.0
    other = laid.get(one.run.right_end.run or "")
    right_mm = one.length_mm
    if other is not None:
        met = _crossing_mm(one.run, _Line(to_room(other.run, 0.0, other.back_mm), other.run.bearing_deg, 0.0), 0.0)
        right_mm = right_mm if met is None else met
    return right_mm / 2 if left else right_mm


def _reach_mm(run: Run, other: Run) -> float:
    """How far out of the other run's line of backs this run's zero lies: at its carcass fronts, or on it."""
    if run.left_end.at is EndsAt.OTHER_BACKS:
        return 0.0
    return depth_at(other, to_run(other, Point(run.x_mm, run.y_mm))[0])


def _crossing_mm(on_line: Run, other: _Line, out_mm: float) -> float | None:
    """x, along a line that is the y = 0 of `on_line`, of where it crosses the other one moved out by `out_mm`."""
    across = Run("", "", other.through.x_mm, other.through.y_mm, other.bearing_deg)
    start, stop = (to_run(across, to_room(on_line, x_mm, 0.0))[1] for x_mm in (0.0, STEP_MM))
    if abs(stop - start) < STEP_MM / 10:
        return None
    return (out_mm - start) / (stop - start) * STEP_MM
