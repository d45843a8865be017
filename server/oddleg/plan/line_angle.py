"""The angle between the lines that two walls in a corner were read from: what their front lines are solved with."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from oddleg.job import CornerTriangle, Job, WallHeight, WallLine

from .corner_findings import CornerFindings, deg_text
from .figure import figure
from .finding import Severity
from .meeting_runs import SQUARE_DEG, Meeting
from .sightings import DIFFERENCE_STEP_MM, shown_mm
from .site import Site, body
from .triangle import MeasuredAngle
from .wall import Wall
from .wall_profile import wall_at, wall_points

# The wall's line along a leg is read off the heights that a tape is held at, best first.
HEIGHTS = (WallHeight.BATTEN, WallHeight.WORKTOP, WallHeight.FLOOR, WallHeight.WALL_UNITS)


@dataclass(frozen=True)
class _Lean:
    """How a wall runs along a leg of the triangle: rise out into the room for each mm away from the corner, read over
    `over_mm`."""

    slope: float
    over_mm: float


def _lean(wall: Wall | None, corner_mm: float | None, leg_mm: float, away: int) -> _Lean | None:
    """None where the wall is read along less than half of the leg."""
    if wall is None or corner_mm is None:
        return None
    mark_mm = corner_mm + away * leg_mm
    for height in HEIGHTS:
        points = wall_points(wall, height)
        if not points:
            continue
        left_mm = max(min(corner_mm, mark_mm), points[0].x_mm)
        right_mm = min(max(corner_mm, mark_mm), points[-1].x_mm)
        left, right = wall_at(points, left_mm), wall_at(points, right_mm)
        if right_mm - left_mm >= leg_mm / 2 and left is not None and right is not None:
            return _Lean(away * (right.y_mm - left.y_mm) / (right_mm - left_mm), right_mm - left_mm)
    return None


def line_angle_deg(
    job: Job,
    here: Site,
    meeting: Meeting,
    walls: Mapping[str, Wall],
    sides: CornerTriangle | None,
    angle: MeasuredAngle | None,
    findings: CornerFindings,
) -> float:
    """Degrees between the two lines y = 0. Both are parallel to the first line that its wall was read from.

    The triangle's angle is that between the walls, from the corner to its marks; what the walls rise from their lines
    on the way is added. Where one line was set square to the other, that holds, and the triangle is its check.
    """
    left_wall, right_wall = walls.get(meeting.left.id), walls.get(meeting.right.id)
    square = _set_square(here, left_wall, right_wall, findings)
    measured: float | None = None
    if angle is not None and sides is not None:
        left = _lean(left_wall, meeting.left_x_mm, sides.along_mm, -1)
        right = _lean(right_wall, meeting.right_x_mm, sides.other_along_mm, 1)
        for run, wall, lean in ((meeting.left, left_wall, left), (meeting.right, right_wall, right)):
            if lean is None and wall is not None and wall.points():
                findings.add(
                    "leg_not_read",
                    Severity.WARN,
                    f"The wall of {run.name} is read along less than half of the triangle's leg there, so how it runs "
                    "to the corner is not known. It counts as straight.",
                    f"Read the wall of {run.name} from the corner to the mark of the triangle.",
                    "the triangle gives the angle of the walls, not of the lines they were read from",
                )
        leans = [lean for lean in (left, right) if lean is not None]
        measured = angle.deg + sum(math.degrees(math.atan(lean.slope)) for lean in leans)
        # Both ends of a chord are read with a rule.
        unsure = math.hypot(
            angle.give_or_take, *(math.sqrt(2.0) * job.tolerances.tape_mm / lean.over_mm for lean in leans)
        )
        off = math.sin(math.radians(measured - SQUARE_DEG))
        if square is not None and abs(off) > unsure:
            over_mm = max(sides.along_mm, sides.other_along_mm)
            findings.add(
                "square_or_not",
                Severity.WARN,
                f"{square} was set square to the other line, but by the triangle the two are {deg_text(measured)} "
                f"degrees apart: {shown_mm(abs(off) * over_mm)} over {shown_mm(over_mm)}, give or take "
                f"{shown_mm(unsure * over_mm)}. "
                "The plan goes by the line set square.",
                "Measure the three sides again, then check the line with the laser where it was set square.",
                "a line set square and a triangle must agree",
                figure(abs(off) * over_mm, DIFFERENCE_STEP_MM, f"Over {shown_mm(over_mm)}."),
            )
    if square is not None:
        return SQUARE_DEG
    if measured is not None:
        return measured
    if meeting.at_walls:
        findings.add(
            "guess",
            Severity.WARN,
            f"Nobody has measured this corner: the plan takes it as {deg_text(meeting.drawn_deg)} degrees, as drawn. "
            "All that is set out in it rests on that guess.",
            "Measure three sides: along both walls from where they meet, the longest legs that fit, and across between "
            "the marks. Or read both walls from lines set square to each other.",
            "no corner is square",
        )
    return meeting.drawn_deg


def _set_square(here: Site, left: Wall | None, right: Wall | None, findings: CornerFindings) -> str | None:
    """Name of the line that was set square to one of the other run, where both are those that their walls are counted
    from: of a line joined to another one the angle is only reckoned."""
    if left is None or right is None:
        return None
    names = [{id: name for id, name, _ in wall.lines} for wall in (left, right)]
    first = {id for wall in (left, right) for id, _, readings in wall.lines[:1] if readings}
    others = []
    for entry in here.wall_lines:
        line = body(entry, WallLine)
        pair = {line.id, line.square_to}
        if pair == first:
            return line.name
        if all(pair & ids.keys() for ids in names):
            others.append(line.name)
    if others:
        findings.add(
            "square_unused",
            Severity.NOTE,
            f"{others[0]} was set square to a line of the other run, but the walls are counted from other lines, the "
            "first that were read. It says nothing of the angle.",
            "Set the first lines of both runs square to each other, or measure three sides.",
            "a wall is counted from its first line",
        )
    return None
