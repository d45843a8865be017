"""Computation 8: corners: the angle between the walls, that between the reference lines, and what follows from it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from oddleg.job import CornerTriangle, Job, Room, Run

from .corner import Corner, FarEnd
from .corner_findings import DEGREE_STEP, CornerFindings, deg_text
from .corner_post import corner_post
from .figure import Figure, figure, text_mm
from .finding import Finding, Severity
from .line_angle import line_angle_deg
from .meeting_runs import SQUARE_DEG, Meeting, meetings
from .rod import placed_items
from .sightings import DIFFERENCE_STEP_MM, shown_mm
from .site import Site, body
from .triangle import MeasuredAngle, closes, measured_angle
from .wall import Wall
from .worktop_joint import worktop_joint

# A triangle further off the drawn corner was measured elsewhere, or written down wrong.
OFF_DRAWN_DEG = 10.0


def corners(job: Job, room: Room, here: Site, walls: Sequence[Wall]) -> tuple[Corner, ...]:
    """Every pair of runs that meet, with its angle as measured; else as drawn, and a finding says so."""
    by_run = {wall.run.id: wall for wall in walls}
    return tuple(_corner(job, room, here, meeting, by_run) for meeting in meetings(room))


def triangle_findings(room: Room, here: Site) -> tuple[Finding, ...]:
    """A note for each measured triangle whose runs do not meet in the job."""
    known = {(one.left.id, one.right.id) for one in meetings(room)}
    names = {run.id: run.name for run in room.runs}
    found = []
    for entry in here.triangles:
        measured = body(entry, CornerTriangle)
        if (measured.run, measured.other_run) not in known:
            left, right = (names.get(id, id) for id in (measured.run, measured.other_run))
            found.append(
                Finding(
                    "corner.no_corner",
                    Severity.NOTE,
                    f"corner of {left} and {right}",
                    f"Three sides were measured at the right end of {left} and the left end of {right}, but in the job "
                    "these runs do not meet there. They count for nothing.",
                    "Say at the desk that the two runs meet, or undo the entry and measure it for the right corner.",
                    "the run with the corner at its right hand comes first",
                    concerns=(measured.run, measured.other_run),
                )
            )
    return tuple(found)


def _corner(job: Job, room: Room, here: Site, meeting: Meeting, walls: Mapping[str, Wall]) -> Corner:
    findings = CornerFindings(meeting)
    if not meeting.square:
        _tell_not_square(meeting, findings)
    sides = next(
        (
            one
            for one in (body(entry, CornerTriangle) for entry in here.triangles)
            if (one.run, one.other_run) == (meeting.left.id, meeting.right.id)
        ),
        None,
    )
    angle = _angle(job, meeting, sides, findings)
    line_deg = line_angle_deg(job, here, meeting, walls, sides, angle, findings)
    post = corner_post(job, meeting)
    if post is not None:
        findings.found += post.findings
    far = _far_ends(job, meeting, walls, angle)
    joint, joint_words = worktop_joint(job, room, meeting, sides, angle, findings)
    shown = None
    if angle is not None:
        shown = figure(angle.deg, DEGREE_STEP, f"From the three sides, ±{deg_text(angle.give_or_take_deg)} degrees.")
    return Corner(
        meeting.left,
        meeting.right,
        angle.deg if angle else None,
        shown,
        line_deg,
        _sides(job, meeting, sides),
        far,
        post.least if post else None,
        post.has if post else None,
        joint,
        joint_words,
        _words(meeting, sides, angle, far),
        tuple(findings.found),
    )


def _tell_not_square(meeting: Meeting, findings: CornerFindings) -> None:
    if meeting.drawn_deg >= 180.0 or meeting.left_x_mm is None:
        findings.add(
            "not_inside",
            Severity.STOP,
            f"As drawn {meeting.names} make no inside corner: they meet at {deg_text(meeting.drawn_deg)} degrees, seen "
            "from the room.",
            "Look at the bearings of the two runs at the desk: going right, the first comes to the corner and the "
            "second leaves it.",
            "two runs that meet stand on two sides of an inside corner",
        )
        return
    findings.add(
        "not_square",
        Severity.WARN,
        f"As drawn {meeting.names} meet at {deg_text(meeting.drawn_deg)} degrees. What its post must take up, whether "
        "fronts beside it open, and its worktop joint are worked out for square corners only.",
        "Draw this corner full size on a board and set its units out on that.",
        "corner units are square",
    )


def _angle(job: Job, meeting: Meeting, sides: CornerTriangle | None, findings: CornerFindings) -> MeasuredAngle | None:
    if sides is None:
        return None
    a, b, c = (shown_mm(mm) for mm in (sides.along_mm, sides.other_along_mm, sides.across_mm))
    if not closes(sides):
        findings.add(
            "sides",
            Severity.STOP,
            f"Sides of {a}, {b} and {c} cannot close to a triangle, so the corner has no measured angle.",
            "Measure all three again: the longest is shorter than the other two together.",
            "three sides of a triangle",
        )
        return None
    angle = measured_angle(sides, job.tolerances.tape_mm)
    if abs(angle.deg - meeting.drawn_deg) > OFF_DRAWN_DEG:
        findings.add(
            "unlikely",
            Severity.STOP,
            f"Sides of {a}, {b} and {c} make a corner of {deg_text(angle.deg)} degrees; drawn is "
            f"{deg_text(meeting.drawn_deg)}. It is not used.",
            "Look whether a side was written in the place of another, then measure all three again.",
            f"a corner is within {deg_text(OFF_DRAWN_DEG)} degrees of what is drawn",
        )
        return None
    return angle


def _far_ends(job: Job, meeting: Meeting, walls: Mapping[str, Wall], angle: MeasuredAngle | None) -> tuple[FarEnd, ...]:
    """Both runs, the left one first."""
    if angle is None or not meeting.square:
        return ()
    found = []
    for run, corner_mm, away in ((meeting.left, meeting.left_x_mm, -1), (meeting.right, meeting.right_x_mm, 1)):
        length_mm, told = _length_mm(run, walls.get(run.id), corner_mm or 0.0, away)
        if length_mm <= 0:
            continue
        off_mm, unsure_mm = length_mm * angle.cos, length_mm * angle.give_or_take
        why = (
            f"The wall at {shown_mm(length_mm)} from a corner of {deg_text(angle.deg)} degrees, {told}; "
            f"1 in the diagonal is {text_mm(length_mm * angle.per_diagonal, 0.01)} there."
        )
        found.append(
            FarEnd(
                run.id,
                run.name,
                figure(length_mm, job.rounding_mm, f"From the corner: {told}."),
                figure(off_mm, DIFFERENCE_STEP_MM, why, signed=True),
                figure(
                    unsure_mm,
                    DIFFERENCE_STEP_MM,
                    f"Each of the three sides is good to ±{shown_mm(job.tolerances.tape_mm)}; they are independent.",
                ),
            )
        )
    return tuple(found)


def _length_mm(run: Run, wall: Wall | None, corner_mm: float, away: int) -> tuple[float, str]:
    """How far a run goes from the corner, and where that comes from."""
    narrowest = wall.narrowest() if wall else None
    if narrowest is not None:
        return narrowest.width.mm, "its narrowest opening as measured"
    if run.opening_mm is not None:
        return run.opening_mm, "its opening as drawn"
    if away < 0:
        return corner_mm, "to its zero"
    row_mm = max((one.right_mm for one in placed_items(run)), default=0.0)
    return row_mm - corner_mm, "to the end of its row"


def _sides(job: Job, meeting: Meeting, sides: CornerTriangle | None) -> tuple[tuple[str, Figure], ...]:
    if sides is None:
        return ()
    labels = (
        (f"along the wall of {meeting.left.name}", sides.along_mm),
        (f"along the wall of {meeting.right.name}", sides.other_along_mm),
        ("across", sides.across_mm),
    )
    return tuple((label, figure(mm, job.rounding_mm, "As measured.")) for label, mm in labels)


def _words(meeting: Meeting, sides: CornerTriangle | None, angle: MeasuredAngle | None, far: Sequence[FarEnd]) -> str:
    if angle is None:
        if sides is not None:
            return "The three sides that were measured cannot be used."
        return f"Not measured; taken as drawn, {deg_text(meeting.drawn_deg)} degrees."
    off = deg_text(abs(angle.deg - SQUARE_DEG))
    kind = "square" if off == "0" else f"{'open' if angle.cos < 0 else 'closed'} by {off} degrees"
    ends = []
    for one in far:
        way = "at square" if one.deviation.text == "0" else f"{shown_mm(abs(one.deviation.mm))} "
        if one.deviation.text != "0":
            way += "out into the room" if one.deviation.mm > 0 else "behind square"
        ends.append(f"{one.length.text} along {one.name} its wall is {way}, within {one.give_or_take.text} either way")
    told = f" At {'; at '.join(ends)}." if ends else ""
    return f"{deg_text(angle.deg)} degrees between the walls, ±{deg_text(angle.give_or_take_deg)}: {kind}.{told}"
