"""What a post or filler in a corner must take up so that the fronts beside it clear those across the corner."""

from __future__ import annotations

from dataclasses import dataclass, replace

from oddleg.job import EndsAt, Filler, Job

from .figure import Figure, figure
from .finding import Finding, Severity
from .front_paths import SAME_MM, Across, across, can_hang_elsewhere, front_of, hangs_at, nearest, opens, takes_up
from .meeting_runs import Arm, Meeting, crossing
from .rod import Placed, placed_items
from .sightings import shown_mm

# A wider strip is no post or filler any more (ours).
WIDEST_STRIP_MM = 200.0


@dataclass(frozen=True)
class Post:
    """`findings`: of it, and of the other run's where both begin beside each other's fronts and both are too short."""

    least: Figure
    has: Figure
    findings: tuple[Finding, ...]


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
    if not found:
        return None
    shortest = max(found, key=lambda one: one.least.mm - one.has.mm)
    return replace(shortest, findings=tuple(finding for one in found for finding in one.findings))


def _post(job: Job, own: Arm, other: Arm, place: str) -> Post | None:
    between, one = first_front(own.row(hangs=False))
    if one is None:
        return None
    met = across(one, own, other) or nearest(one, other)
    if met is None:
        return None
    hung_mm = own_handle_mm(one, own.side)
    least_mm = met.proud_mm + met.handle_mm + hung_mm + job.tolerances.play_mm
    has_mm = sum(each.item.width_mm for each in between)
    terms = across_words(met, job.tolerances.play_mm, hung_mm)
    why = f"{terms}."
    least = figure(least_mm, job.rounding_mm, why[0].upper() + why[1:])
    names = [each.item.name for each in between if takes_up(each.item)]
    has = figure(has_mm, job.rounding_mm, f"{' and '.join(names)}, as drawn." if names else "Nothing is drawn there.")
    if has_mm >= least_mm - SAME_MM:
        return Post(least, has, ())
    finding = Finding(
        "corner.post",
        Severity.WARN,
        place,
        f"{one.item.name} stands {has.text} beside the fronts of {other.run.name}, and wants {least.text}: {terms}.",
        post_cure(between, least_mm - has_mm, "post", ways_out(one, own.side, least_mm - has_mm, BLIND_UNIT)),
        "a post keeps a front clear of the front across the corner and of both handles",
        figure(least_mm - has_mm, job.rounding_mm, "Least post less what is there."),
        (own.run.id, one.item.id, *ids_of(between)),
    )
    return Post(least, has, (finding,))


def own_handle_mm(one: Placed, side: str) -> float:
    """What the handle of a door takes beside it where it hangs on that side and stands open."""
    front = front_of(one.item)
    return front.handle_projection_mm if front and hangs_at(one.item, side) else 0.0


BLIND_UNIT = "put a blind unit into the corner"


def ways_out(one: Placed, side: str, short_mm: float, *others: str) -> tuple[str, ...]:
    """What cures a front without a wider strip, the door hung on its other side first where that is enough."""
    hung_mm = own_handle_mm(one, side)
    hangs = hung_mm >= short_mm - SAME_MM and can_hang_elsewhere(one.item)
    return (*(["hang the door on its other side"] if hangs else []), *others, "take handles that stand out less")


def post_cure(between: list[Placed], short_mm: float, what: str, ways: tuple[str, ...]) -> str:
    """The least that cures it: one of the strips that are there wider, or a new one, unless no strip is so wide: then
    the other ways, the first of them beside a strip too where it is the door hung on its other side."""
    strips = [each for each in between if takes_up(each.item)]
    wider_mm, most_mm = short_mm, WIDEST_STRIP_MM
    cure = f"Put a {what} of {shown_mm(short_mm)} or wider there."
    if strips:
        item, width_mm = strips[-1].item, strips[-1].right_mm - strips[-1].left_mm
        wider_mm = width_mm + short_mm
        if isinstance(item, Filler):
            most_mm = min(most_mm, item.greatest_mm)
        cure = f"Make {item.name} {shown_mm(wider_mm)} wide or more instead of {shown_mm(width_mm)}."
    if wider_mm > most_mm + SAME_MM:
        told = ", or ".join(ways)
        return f"A {what} would have to be {shown_mm(wider_mm)} wide, more than there can be: {told}."
    return cure + (f" Or {ways[0]}." if ways[0].startswith("hang") else "")


def ids_of(placed: list[Placed]) -> tuple[str, ...]:
    return tuple(one.item.id for one in placed)
