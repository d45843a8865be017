"""Whether the worktop joint in a corner has to be cut to the angle as measured."""

from __future__ import annotations

import math
from itertools import pairwise

from oddleg.job import CornerTriangle, Job, Room, Storey

from .corner_findings import CornerFindings, deg_text
from .figure import figure, text_mm
from .finding import Severity
from .meeting_runs import Meeting
from .sightings import DIFFERENCE_STEP_MM, shown_mm
from .triangle import MeasuredAngle, measured_angle

# Sides that the fitter is asked for are given in so whole mm.
SIDE_STEP_MM = 100.0


def worktop_joint(
    job: Job,
    room: Room,
    meeting: Meeting,
    sides: CornerTriangle | None,
    angle: MeasuredAngle | None,
    findings: CornerFindings,
) -> tuple[bool | None, str]:
    """Whether a worktop joint has to be cut to the angle as measured; None: it cannot be told. No sides are asked for
    that are longer than the walls as drawn."""
    depth_mm, limit_mm = room.worktop.depth_mm, job.tolerances.greatest_joint_mm
    if not all(any(item.storey is Storey.BASE for item in run.items) for run in (meeting.left, meeting.right)):
        return False, "No worktop runs through this corner."
    if not meeting.square:
        return None, "Worked out for square corners only: take the joint off a template."
    if angle is None or sides is None:
        return None, "The corner is not measured: cut no worktop joint on it."
    opens_mm, unsure_mm = depth_mm * abs(angle.cos), depth_mm * angle.give_or_take
    over = f"over the worktop's {shown_mm(depth_mm)}"
    if unsure_mm > limit_mm:
        cure = "The walls are too short to tell: square lines with the laser instead, or take the joint off a template."
        if limit_mm <= 0:
            cure = "No sides tell that a joint opens by nothing: let it open by some mm, or take it off a template."
        elif longer := _longer_sides(
            job, sides, unsure_mm / limit_mm, limit_mm / depth_mm, _wall_lengths_mm(room, meeting)
        ):
            by = " by ".join(shown_mm(mm) for mm in longer)
            cure = f"Measure again with sides of {by} or longer, or take the joint off a template."
        words = (
            f"The triangle leaves ±{shown_mm(unsure_mm)} {over}, and a joint may open {shown_mm(limit_mm)}: cut no "
            "worktop joint on it."
        )
        findings.add(
            "short_triangle",
            Severity.WARN,
            f"Sides of {shown_mm(sides.along_mm)} and {shown_mm(sides.other_along_mm)} are too short to cut a worktop "
            f"joint on: they leave ±{shown_mm(unsure_mm)} {over}. 1 in the diagonal is "
            f"{text_mm(1000 * angle.per_diagonal, 0.01)} on every metre.",
            cure,
            f"a joint may open {shown_mm(limit_mm)}",
            figure(unsure_mm, DIFFERENCE_STEP_MM, f"95 % {over}, each side good to ±{job.tolerances.tape_mm:g}."),
        )
        return None, words
    if opens_mm > limit_mm:
        return True, (
            f"Where the tops follow the walls, cut the joint to {deg_text(angle.deg)} degrees: a square one would open "
            f"by {shown_mm(opens_mm)} {over}. Where they follow the fronts it stays square and their backs are scribed."
        )
    return False, (
        f"A square joint does: the walls are out of square by {shown_mm(opens_mm)} {over}, and a joint may open "
        f"{shown_mm(limit_mm)}."
    )


def _wall_lengths_mm(room: Room, meeting: Meeting) -> tuple[float, ...]:
    """Of the walls of both runs, as drawn; of a run with no wall none."""
    by_id = {wall.id: wall for wall in room.walls}
    return tuple(
        sum(math.dist((a.x_mm, a.y_mm), (b.x_mm, b.y_mm)) for a, b in pairwise(by_id[run.wall].points))
        for run in (meeting.left, meeting.right)
        if run.wall in by_id
    )


def _longer_sides(
    job: Job, sides: CornerTriangle, times: float, give_or_take: float, lengths_mm: tuple[float, ...]
) -> tuple[float, float] | None:
    """The sides so many times longer, else as long as the walls, if these do; None: the walls are too short."""

    def does(pair: tuple[float, float]) -> bool:
        if min(pair) <= 0:
            return False
        square = CornerTriangle(sides.run, sides.other_run, *pair, math.hypot(*pair))
        return measured_angle(square, job.tolerances.tape_mm).give_or_take <= give_or_take

    along_mm, other_mm = (
        math.ceil(mm * times / SIDE_STEP_MM) * SIDE_STEP_MM for mm in (sides.along_mm, sides.other_along_mm)
    )
    if len(lengths_mm) != 2:
        return along_mm, other_mm
    most_mm, other_most_mm = (math.floor(mm / SIDE_STEP_MM) * SIDE_STEP_MM for mm in lengths_mm)
    if along_mm <= most_mm and other_mm <= other_most_mm:
        return along_mm, other_mm
    return next(
        (
            pair
            for pair in (
                (min(along_mm, most_mm), min(other_mm, other_most_mm)),
                (most_mm, other_most_mm),
            )
            if does(pair)
        ),
        None,
    )
