"""Whether the worktop joint in a corner has to be cut to the angle as measured."""

from __future__ import annotations

import math

from oddleg.job import CornerTriangle, Job, Room, Storey

from .corner_findings import CornerFindings, deg_text
from .figure import figure, text_mm
from .finding import Severity
from .meeting_runs import Meeting
from .sightings import DIFFERENCE_STEP_MM, shown_mm
from .triangle import MeasuredAngle

# Legs that the fitter is asked for are given in so whole mm.
LEG_STEP_MM = 100


def worktop_joint(
    job: Job,
    room: Room,
    meeting: Meeting,
    sides: CornerTriangle | None,
    angle: MeasuredAngle | None,
    findings: CornerFindings,
) -> tuple[bool | None, str]:
    """Whether a worktop joint has to be cut to the angle as measured; None: it cannot be told."""
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
        times = unsure_mm / limit_mm
        legs = " by ".join(
            shown_mm(math.ceil(leg * times / LEG_STEP_MM) * LEG_STEP_MM)
            for leg in (sides.along_mm, sides.other_along_mm)
        )
        words = (
            f"The triangle leaves ±{shown_mm(unsure_mm)} {over}, and a joint may open {shown_mm(limit_mm)}: cut no "
            "worktop joint on it."
        )
        findings.add(
            "short_triangle",
            Severity.WARN,
            f"Legs of {shown_mm(sides.along_mm)} and {shown_mm(sides.other_along_mm)} are too short to cut a worktop "
            f"joint on: they leave ±{shown_mm(unsure_mm)} {over}. 1 in the diagonal is "
            f"{text_mm(1000 * angle.per_diagonal, 0.01)} on every metre.",
            f"Measure again with legs of {legs} or longer, or take the joint off a template.",
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
