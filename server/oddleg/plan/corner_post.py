"""What a post or filler in a corner must take up so that the fronts beside it clear those across the corner."""

from __future__ import annotations

from dataclasses import dataclass

from oddleg.job import EndsAt, Job

from .figure import Figure, figure
from .finding import Finding, Severity
from .front_paths import SAME_MM, Across, across, nearest, opens, takes_up
from .meeting_runs import Arm, Meeting, crossing
from .rod import Placed, placed_items
from .sightings import shown_mm


@dataclass(frozen=True)
class Post:
    least: Figure
    has: Figure
    finding: Finding | None


def across_words(met: Across, play_mm: float, own_handle_mm: float = 0.0) -> str:
    """The sum that keeps a front clear of what stands across the corner, in words."""
    terms = [f"front {shown_mm(met.proud_mm)} of {met.name}"]
    if met.handle_mm > 0:
        terms.append(f"its handle {shown_mm(met.handle_mm)}")
    if own_handle_mm > 0:
        terms.append(f"own handle {shown_mm(own_handle_mm)}")
    return " + ".join([*terms, f"play {shown_mm(play_mm)}"])


def first_front(row: list[Placed]) -> tuple[list[Placed], Placed | None]:
    """What lies between the corner and the first thing that opens, and that; None where a unit that does not open comes
    first: then nothing opens beside the corner."""
    between: list[Placed] = []
    for one in row:
        if opens(one.item):
            return between, one
        if one.depth_mm is not None and one.item.made_as != "panel":
            return between, None
        between.append(one)
    return between, None


def corner_post(job: Job, meeting: Meeting) -> Post | None:
    """Of the run that begins beside the other one's fronts; where both do, of the one that is shorter of it. The widths
    are the job's own. None where nothing opens there."""
    crossed = crossing(meeting.left, meeting.right, meeting.left.void_mm, meeting.right.void_mm)
    if crossed is None or not meeting.square:
        return None
    left = Arm(meeting.left, placed_items(meeting.left), "right", crossed[0])
    right = Arm(meeting.right, placed_items(meeting.right), "left", crossed[1])
    found = []
    for own, other in ((left, right), (right, left)):
        end = own.run.right_end if own.side == "right" else own.run.left_end
        if end.at is EndsAt.OTHER_FRONTS and end.run == other.run.id:
            post = _post(job, own, other, f"corner of {meeting.names}")
            found += [post] if post is not None else []
    return max(found, key=lambda one: one.least.mm - one.has.mm, default=None)


def _post(job: Job, own: Arm, other: Arm, place: str) -> Post | None:
    between, one = first_front(own.row(hangs=False))
    if one is None:
        return None
    met = across(one, own, other) or nearest(one, other)
    if met is None:
        return None
    least_mm = met.proud_mm + met.handle_mm + job.tolerances.play_mm
    has_mm = sum(each.item.width_mm for each in between)
    why = f"{across_words(met, job.tolerances.play_mm)}."
    least = figure(least_mm, job.rounding_mm, why[0].upper() + why[1:])
    names = [each.item.name for each in between if takes_up(each.item)]
    has = figure(has_mm, job.rounding_mm, f"{' and '.join(names)}, as drawn." if names else "Nothing is drawn there.")
    if has_mm >= least_mm - SAME_MM:
        return Post(least, has, None)
    finding = Finding(
        "corner.post",
        Severity.WARN,
        place,
        f"{one.item.name} stands {has.text} beside the fronts of {other.run.name}, and wants {least.text}: "
        f"{across_words(met, job.tolerances.play_mm)}.",
        post_cure(between, least_mm - has_mm, "post"),
        "a post keeps a front clear of the front and handle across the corner",
        figure(least_mm - has_mm, job.rounding_mm, "Least post less what is there."),
        (own.run.id, one.item.id, *ids_of(between)),
    )
    return Post(least, has, finding)


def post_cure(between: list[Placed], short_mm: float, what: str) -> str:
    """The least that cures it: one of the strips that are there wider, or a new one."""
    strips = [each for each in between if takes_up(each.item)]
    if not strips:
        return f"Put a {what} of {shown_mm(short_mm)} or wider there."
    last = strips[-1]
    width_mm = last.right_mm - last.left_mm
    return f"Make {last.item.name} {shown_mm(width_mm + short_mm)} wide or more instead of {shown_mm(width_mm)}."


def ids_of(placed: list[Placed]) -> tuple[str, ...]:
    return tuple(one.item.id for one in placed)
