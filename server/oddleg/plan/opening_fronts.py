"""Computation 8: whether fronts beside a corner, a wall or what stands out of one can open."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from oddleg.job import EndsAt, Feature, Job, Room

from .corner import OpeningFront
from .corner_arms import Lines, arms, void_behind_mm
from .corner_post import BLIND_UNIT, across_words, first_front, ids_of, own_handle_mm, post_cure, ways_out
from .figure import figure, text_mm
from .finding import Finding, Severity
from .front_line import FrontLine
from .front_paths import SAME_MM, across, blind_mm, way_of_opening
from .meeting_runs import Arm, end_of, names_at
from .rod import Placed
from .set_out import Rod
from .side_walls import CLOSING, SideWall, at_height, heights_of, side_wall
from .sightings import shown_mm
from .wall import Wall

# With so much more than it needs a front is not beside it.
BESIDE_MM = 300.0
OTHER_SIDE = {"left": "right", "right": "left"}


@dataclass(frozen=True)
class Beside:
    """A front and the first thing beside it that could stop it. `needs_mm` is made of `terms`; `hung_mm` of it would go
    if the door hung on its other side. `told`: another check says so already."""

    one: Placed
    side: str
    what: str
    needs_mm: float
    terms: str
    has_mm: float
    hung_mm: float
    between: list[Placed]
    strip: str = "filler"
    told: bool = False


def opening_fronts(
    job: Job, room: Room, rods: Sequence[Rod], walls: Sequence[Wall], lines: Lines, datum_mm: float | None = None
) -> tuple[tuple[OpeningFront, ...], tuple[Finding, ...]]:
    """The first front from every corner, wall end and thing that stands out past the fronts, in room order.

    A door that hangs on that side needs its handle and play there when it stands open at 90 degrees; a drawer, a flap
    or the free edge of a door only play; across a corner the front and handle of what they pass come on top. With the
    datum what stands out only above or below a front is left out.
    """
    order = {run.id: place for place, run in enumerate(room.runs)}
    found = [*_at_corners(job, room, rods, walls, lines), *_at_walls(job, room, rods, walls, lines, datum_mm)]
    found = [one for one in found if one.has_mm <= one.needs_mm + BESIDE_MM]
    found.sort(key=lambda one: (order[one.one.run.id], not one.one.stands, one.one.left_mm, one.side, one.what))
    fronts = tuple(_front(job, one) for one in found)
    return fronts, tuple(
        _finding(one, front, job.rounding_mm) for one, front in zip(found, fronts, strict=True) if _is_told(one, front)
    )


def _at_corners(job: Job, room: Room, rods: Sequence[Rod], walls: Sequence[Wall], lines: Lines) -> Iterator[Beside]:
    for own, other in arms(room, rods):
        ends_there = names_at(own.run, own.side) == other.run.id
        body_mm = other.deepest_mm()
        for hangs in (False, True):
            row = own.row(hangs)
            middles = [sum(own.near_far_mm(one)) / 2 for one in row]
            ahead = [one for one, at_mm in zip(row, middles, strict=True) if ends_there or at_mm >= body_mm / 2]
            between, one = first_front(ahead)
            if one is not None:
                beside = _across_corner(job, own, other, between, one, walls, lines)
                yield from [beside] if beside is not None else []
            behind = [one for one, at_mm in zip(row, middles, strict=True) if not ends_there and at_mm < body_mm / 2]
            between, one = first_front(behind[::-1])
            if one is not None and not hangs:
                side = OTHER_SIDE[own.side]
                has_mm = -own.near_far_mm(one)[1] - other.run.void_mm - blind_mm(one, side)
                yield _plain(job, one, side, f"the back of {other.run.name}", has_mm, between)


def _across_corner(
    job: Job,
    own: Arm,
    other: Arm,
    between: list[Placed],
    one: Placed,
    walls: Sequence[Wall],
    lines: Lines,
) -> Beside | None:
    play_mm = job.tolerances.play_mm
    near_mm = own.near_far_mm(one)[0] + blind_mm(one, own.side)
    met = across(one, own, other)
    if met is None:
        if other.run.wall is None:
            return None
        deep_mm = own.front_mm(one) or 0.0
        has_mm = near_mm + void_behind_mm(other, deep_mm, not one.stands, walls, lines)
        return _plain(job, one, own.side, f"the wall of {other.run.name}", has_mm, between)
    hung_mm = own_handle_mm(one, own.side)
    needs_mm = met.proud_mm + met.handle_mm + hung_mm + play_mm
    strips_mm = sum(each.item.width_mm for each in between)
    by_post = end_of(own.run, own.side) is EndsAt.OTHER_FRONTS and one.stands and strips_mm < needs_mm - SAME_MM
    by_blind = blind_mm(one, own.side) > 0
    return Beside(
        one,
        own.side,
        f"the fronts of {other.run.name}",
        needs_mm,
        across_words(met, play_mm, hung_mm),
        near_mm - met.front_mm,
        hung_mm,
        between,
        "post",
        told=by_post or (by_blind and hung_mm == 0),
    )


def _plain(
    job: Job,
    one: Placed,
    side: str,
    what: str,
    has_mm: float,
    between: list[Placed],
    out: tuple[tuple[str, float], ...] = (),
) -> Beside:
    """Beside something flat: a wall, a back, or what stands `out` of a wall (what, mm)."""
    play_mm = job.tolerances.play_mm
    hung_mm = own_handle_mm(one, side)
    terms = [*out, *([("own handle", hung_mm)] if hung_mm > 0 else []), ("play", play_mm)]
    words = " + ".join(f"{name} {shown_mm(mm)}" for name, mm in terms)
    return Beside(one, side, what, sum(mm for _, mm in terms), words, has_mm, hung_mm, between)


def _at_walls(
    job: Job, room: Room, rods: Sequence[Rod], walls: Sequence[Wall], lines: Lines, datum_mm: float | None
) -> Iterator[Beside]:
    read = {wall.run.id: wall for wall in walls}
    for rod in rods:
        wall = read.get(rod.run.id)
        for hangs in (False, True):
            row = sorted((one for one in rod.placed if one.stands != hangs), key=lambda one: one.left_mm)
            for side, items in (("left", row), ("right", row[::-1])):
                between, one = first_front(items)
                if one is not None and end_of(rod.run, side) is EndsAt.WALL:
                    yield _at_a_wall(job, rod, one, side, between, side_wall(room, read, rod, side), datum_mm)
            for feature in wall.features if wall else rod.run.features:
                yield from _at_feature(job, row, feature, wall, lines[rod.run.id][0], datum_mm)


def _at_a_wall(
    job: Job, rod: Rod, one: Placed, side: str, between: list[Placed], there: SideWall, datum_mm: float | None
) -> Beside:
    from_end_mm = one.left_mm - rod.left_mm if side == "left" else rod.right_mm - one.right_mm
    out = there.on_the_way(one, datum_mm)
    what = f"the {side} wall" + "".join(f" and {name}" for name, _ in out if name != CLOSING)
    return _plain(job, one, side, what, from_end_mm + there.beyond_mm(one), between, out)


def _at_feature(
    job: Job, row: Sequence[Placed], feature: Feature, wall: Wall | None, line: FrontLine, datum_mm: float | None
) -> Iterator[Beside]:
    """The fronts on both sides of something on the run's own wall that stands out past their carcasses."""
    left_mm, right_mm = feature.left_mm - line.zero_mm, feature.right_mm - line.zero_mm
    before = [one for one in row if one.left_mm + one.right_mm < left_mm + right_mm]
    after = [one for one in row if one.left_mm + one.right_mm >= left_mm + right_mm]
    for side, items in (("right", before[::-1]), ("left", after)):
        between, one = first_front(items)
        if one is None or one.depth_mm is None or not at_height(one, feature, datum_mm):
            continue
        out_of_backs_mm = (one.front_mm or 0.0) - line.set_out.void_mm
        void_mm = line.least_void_mm(wall, heights_of(one.item), (feature.left_mm, feature.right_mm))
        if feature.stands_out_mm > void_mm + out_of_backs_mm:
            has_mm = left_mm - one.right_mm if side == "right" else one.left_mm - right_mm
            yield _plain(job, one, side, feature.name, has_mm, between)


def _front(job: Job, one: Beside) -> OpeningFront:
    short_mm = max(one.needs_mm - one.has_mm, 0.0)
    opens = short_mm <= SAME_MM
    step_mm = job.rounding_mm
    needs = figure(one.needs_mm, step_mm, f"{one.terms[0].upper()}{one.terms[1:]}.")
    has = figure(one.has_mm, step_mm, f"From its edge to {one.what}, as the rod sets it out.")
    short = figure(0.0 if opens else short_mm, step_mm, "What it needs less what it has.")
    way = way_of_opening(one.one.item, one.side)
    start = f"{way[0].upper()}{way[1:]} beside {one.what}"
    sums = f"needs {needs.text} ({one.terms}), {_has_words(one.has_mm, step_mm)}"
    words = f"{start}: opens; {sums}." if opens else f"{start}: does not open; {sums}. {_cure(one, short_mm)}"
    item = one.one.item
    return OpeningFront(item.id, item.name, one.one.run.id, one.side, one.what, needs, has, short, opens, words)


def _cure(one: Beside, short_mm: float) -> str:
    others = (BLIND_UNIT,) if one.strip == "post" else ("take a narrower unit",)
    return post_cure(one.between, short_mm, one.strip, ways_out(one.one, one.side, short_mm, *others))


def _has_words(has_mm: float, step_mm: float) -> str:
    """An edge that lies past what it comes to has less than nothing."""
    shown = text_mm(abs(has_mm), step_mm)
    return f"overlaps by {shown}" if has_mm < 0 and shown != "0" else f"has {shown}"


def _is_told(one: Beside, front: OpeningFront) -> bool:
    return not front.opens and not one.told


def _finding(one: Beside, front: OpeningFront, step_mm: float) -> Finding:
    way = way_of_opening(one.one.item, one.side)
    return Finding(
        "fronts.no_room",
        Severity.WARN,
        f"{front.name}, {one.one.run.name}",
        f"The {way} of {front.name} does not open beside {one.what}: it needs {front.needs.text} ({one.terms}) and "
        f"{_has_words(one.has_mm, step_mm)}.",
        _cure(one, one.needs_mm - one.has_mm),
        "front, handle and play",
        front.short,
        (one.one.run.id, front.item, *ids_of(one.between)),
    )
