"""Zero and end mark of a run: what lies between them, and how far the side walls lie beyond them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from oddleg.job import EndsAt, OpeningDepth, Point, Run, RunEnd, WallHeight

from .axes import to_room, to_run
from .figure import text_mm
from .front_line import FrontLine
from .hung_ends import HungEnd, hung_end
from .set_out_run import depth_at
from .wall import Opening, Wall
from .wall_profile import HEIGHT_WORDS, wall_at, wall_points

DEPTH_WORDS = {OpeningDepth.BACK: "along the wall", OpeningDepth.FRONT: "along the fronts"}
SIDES = ("left", "right")
MARK_WORDS = {"left": "zero mark", "right": "end mark"}
LINE_WORDS = {EndsAt.OTHER_BACKS: "line of backs", EndsAt.OTHER_FRONTS: "carcass fronts"}
# Nothing of a wall is this far from another part of it.
ANY_DISTANCE_MM = 1e9
Lines = Mapping[str, tuple[FrontLine, FrontLine | None]]


@dataclass(frozen=True)
class Beyond:
    """How far a side wall lies beyond its mark at one height and depth; from least to greatest where what was measured
    leaves open which of the two side walls it is."""

    height: WallHeight
    depth: OpeningDepth
    least_mm: float
    greatest_mm: float


@dataclass(frozen=True)
class End:
    """One end of a run. `at`: what it comes to; `other`: the run that it meets in a corner. `taken_mm`: what that one
    takes of the opening, from the plaster to the mark, where the opening is narrowest. `beyond`: side wall to mark.
    `hung`: where what hangs ends in a corner."""

    side: str
    at: EndsAt
    other: Run | None
    taken_mm: float
    beyond: tuple[Beyond, ...]
    hung: HungEnd | None = None

    def beyond_at(self, heights: Sequence[WallHeight]) -> tuple[Beyond, ...]:
        """Where the front of an item at these heights meets the wall: along the fronts, else where it was measured."""
        here = [one for one in self.beyond if one.height in heights] or list(self.beyond)
        return tuple([one for one in here if one.depth is OpeningDepth.FRONT] or here)

    def most_beyond_mm(self, height: WallHeight) -> float:
        """The most that the plaster may lie beyond the mark, at any depth: at this height where it was measured there,
        else at any; 0 where it was not, or comes in past the mark."""
        here = [one for one in self.beyond if one.height is height] or self.beyond
        return max(0.0, *(one.greatest_mm for one in here)) if self.at is EndsAt.WALL and here else 0.0


@dataclass(frozen=True)
class RunEnds:
    """`opening_mm` from zero to end mark, None where nobody knows; `words` say what it is worked out from, `why` as a
    sentence.
    `narrowest`: the reading that it rests on, None where it is as drawn."""

    opening_mm: float | None
    words: str
    why: str
    narrowest: Opening | None
    left: End
    right: End

    @property
    def closed(self) -> bool:
        """Whether something stands at both ends, so that what is between has to go in."""
        return EndsAt.OPEN not in (self.left.at, self.right.at)


@dataclass(frozen=True)
class _Corner:
    """What an end needs to know of the run that it meets."""

    end: RunEnd
    other: Run | None
    line: FrontLine | None
    wall: Wall | None
    meets: Run
    depth_mm: float

    def taken_mm(self, height: WallHeight, depth: OpeningDepth) -> float:
        """From the plaster of the other run's wall to this run's mark: its void there, and its carcasses' depth where
        this run begins beside them. A wall that nobody read there is taken as at the nearest height that was read, else
        as straight."""
        if self.other is None or self.line is None:
            return 0.0
        y_mm = self.meets.void_mm + (self.depth_mm if depth is OpeningDepth.FRONT else 0.0)
        # Square to each other: how far along this run the place is taken is of no account in the other's x.
        along_mm = to_run(self.meets, Point(self.other.x_mm, self.other.y_mm))[0]
        x_mm = to_run(self.other, to_room(self.meets, along_mm, y_mm))[0]
        void_mm = self.line.back_at(x_mm) - self.face_mm(x_mm, height)
        if self.end.at is EndsAt.OTHER_FRONTS:
            return void_mm + depth_at(self.other, to_run(self.other, Point(self.meets.x_mm, self.meets.y_mm))[0])
        return void_mm

    def face_mm(self, x_mm: float, height: WallHeight) -> float:
        order = list(WallHeight)
        for near in sorted(order, key=lambda one: abs(order.index(one) - order.index(height))):
            at = wall_at(wall_points(self.wall, near), x_mm, ANY_DISTANCE_MM)
            if at is not None:
                return at.y_mm
        return 0.0


def run_ends(
    run: Run, runs: Mapping[str, Run], walls: Mapping[str, Wall], lines: Lines, set_out: Run, step_mm: float
) -> RunEnds:
    """The opening between the marks: the narrowest measured from plaster to plaster, else as drawn, less what the runs
    in its corners take, and less what a side wall is known to lie beyond its mark there."""
    wall = walls.get(run.id)
    corners = {
        side: _corner(end, runs, walls, lines, set_out, depth_at(run, 0.0))
        for side, end in zip(SIDES, (run.left_end, run.right_end), strict=True)
    }
    gaps = _gaps(wall, corners)

    def between_mm(height: WallHeight, depth: OpeningDepth, width_mm: float) -> float:
        taken = sum(corners[side].taken_mm(height, depth) for side in SIDES)
        return width_mm - taken - sum(max(gaps.get((side, height, depth), (0.0, 0.0))[1], 0.0) for side in SIDES)

    measured = [(between_mm(one.height, one.depth, one.width.mm), one) for one in (wall.openings if wall else ())]
    least = min(measured, key=lambda one: one[0], default=None)
    if least is not None:
        opening_mm, narrowest = least
        at = (narrowest.height, narrowest.depth)
        start = (
            f"{text_mm(narrowest.width.mm, step_mm)} measured {HEIGHT_WORDS[narrowest.height]} "
            f"{DEPTH_WORDS[narrowest.depth]} ({_which(narrowest, [one for _, one in measured])})"
        )
    elif run.opening_mm is not None:
        at = (WallHeight.BATTEN, OpeningDepth.BACK)
        opening_mm, narrowest = between_mm(*at, run.opening_mm), None
        start = f"{text_mm(run.opening_mm, step_mm)} as drawn, nobody has measured it"
    else:
        at = (WallHeight.BATTEN, OpeningDepth.BACK)
        opening_mm, narrowest = None, None
        # A run that stands free of walls has no opening that anybody could measure.
        free = run.wall is None and EndsAt.OPEN is run.left_end.at is run.right_end.at
        start = "" if free else "neither measured nor drawn"
    beyond = _beyond(measured, opening_mm, gaps, corners)
    ends = []
    for side, corner in corners.items():
        both = lines.get(corner.other.id) if corner.other else None
        hung = hung_end(run, corner.end, set_out, corner.other, both, corner.face_mm)
        ends.append(_end(side, corner, corner.taken_mm(*at), beyond[side], hung))
    if opening_mm is None:
        return RunEnds(None, start, "", None, *ends)
    words = start
    for end in ends:
        gap_mm = max(gaps.get((end.side, *at), (0.0, 0.0))[1], 0.0)
        if end.other is not None:
            words += f", less {text_mm(end.taken_mm, step_mm)} to the {LINE_WORDS[end.at]} of {end.other.name}"
        if gap_mm > 0:
            words += f", less {text_mm(gap_mm, step_mm)} to the {MARK_WORDS[end.side]} at the {end.side}"
    return RunEnds(opening_mm, words, f"{words[0].upper()}{words[1:]}.", narrowest, *ends)


def _which(one: Opening, all_of_it: Sequence[Opening]) -> str:
    """Which of the widths it is: what is taken off may leave least of one that is not the narrowest itself."""
    if len(all_of_it) == 1:
        return "the only one"
    narrowest = one.width.mm <= min(each.width.mm for each in all_of_it)
    return f"{'the narrowest' if narrowest else 'the one that leaves least'} of {len(all_of_it)}"


def _corner(
    end: RunEnd, runs: Mapping[str, Run], walls: Mapping[str, Wall], lines: Lines, set_out: Run, depth_mm: float
) -> _Corner:
    other = runs.get(end.run) if end.run is not None else None
    line = lines[other.id][0] if other is not None and other.id in lines else None
    return _Corner(end, other, line, walls.get(other.id) if other else None, set_out, depth_mm)


def _end(side: str, corner: _Corner, taken_mm: float, beyond: tuple[Beyond, ...], hung: HungEnd | None) -> End:
    # An end at a run that is not there any more is taken as a wall; a finding says so.
    at = EndsAt.WALL if corner.end.run is not None and corner.other is None else corner.end.at
    return End(side, at, corner.other, taken_mm, beyond, hung)


Gaps = Mapping[tuple[str, WallHeight, OpeningDepth], tuple[float, float]]


def _gaps(wall: Wall | None, corners: Mapping[str, _Corner]) -> Gaps:
    """Least and greatest measured from side wall to mark, by side, height and depth; in a corner the mark lies on the
    other run's line, which the plan knows better."""
    found: dict[tuple[str, WallHeight, OpeningDepth], tuple[float, float]] = {}
    for one in wall.end_walls if wall else ():
        if corners[one.side].other is None:
            key = (one.side, one.height, one.depth)
            least, greatest = found.get(key, (one.beyond.mm, one.beyond.mm))
            found[key] = (min(least, one.beyond.mm), max(greatest, one.beyond.mm))
    return found


def _beyond(
    measured: Sequence[tuple[float, Opening]], opening_mm: float | None, gaps: Gaps, corners: Mapping[str, _Corner]
) -> dict[str, tuple[Beyond, ...]]:
    """Side wall to mark at every height and depth: as measured there, else what a measured width leaves over the
    opening; shared in an unknown way where both sides are walls that nobody measured to."""
    found: dict[str, dict[tuple[WallHeight, OpeningDepth], Beyond]] = {side: {} for side in SIDES}
    for (side, height, depth), (least_mm, greatest_mm) in gaps.items():
        found[side][height, depth] = Beyond(height, depth, least_mm, greatest_mm)
    for between_mm, one in measured:
        open_sides = [
            side for side in SIDES if corners[side].other is None and (side, one.height, one.depth) not in gaps
        ]
        walled = [side for side in open_sides if corners[side].end.at is not EndsAt.OPEN] or open_sides
        rest_mm = between_mm - (between_mm if opening_mm is None else opening_mm)
        for side in walled:
            least_mm = 0.0 if len(walled) > 1 else rest_mm
            before = found[side].get((one.height, one.depth))
            found[side][one.height, one.depth] = Beyond(
                one.height,
                one.depth,
                least_mm if before is None else min(before.least_mm, least_mm),
                rest_mm if before is None else max(before.greatest_mm, rest_mm),
            )
    order = (list(WallHeight), list(OpeningDepth))
    return {
        side: tuple(
            sorted(found[side].values(), key=lambda one: (order[0].index(one.height), order[1].index(one.depth)))
        )
        for side in SIDES
    }


def end_words(ends: RunEnds, step_mm: float) -> tuple[str, ...]:
    """One line for each end: how far the wall lies from the mark, and what a tape held on the wall reads then."""
    return tuple(words for end in (ends.left, ends.right) if (words := _end_words(end, ends, step_mm)))


def _end_words(end: End, ends: RunEnds, step_mm: float) -> str:
    mark = MARK_WORDS[end.side]
    if end.other is not None:
        height = HEIGHT_WORDS[WallHeight.BATTEN if ends.narrowest is None else ends.narrowest.height]
        known = f", {text_mm(end.taken_mm, step_mm)} from the plaster of its wall {height}"
        known = "" if ends.opening_mm is None else known
        return f"The {mark} lies on the {LINE_WORDS[end.at]} of {end.other.name}{known}.{_hung_words(end, step_mm)}"
    if end.at is EndsAt.OPEN:
        return ""
    at_batten = [one for one in end.beyond if one.height is WallHeight.BATTEN]
    at = next(iter(sorted(at_batten, key=lambda one: one.depth is not OpeningDepth.BACK)), None)
    if at is None or at.greatest_mm - at.least_mm > step_mm / 2:
        return (
            f"How far the {end.side} wall lies from the {mark} at batten height is not known: hold the tape on the "
            f"mark, never on the wall."
        )
    away = text_mm(abs(at.greatest_mm), step_mm)
    if away == "0":
        return f"The {end.side} wall stands at the {mark} at batten height."
    if at.greatest_mm < 0:
        return f"The {end.side} wall comes in {away} past the {mark} at batten height: no tape can be held on the wall."
    where = "behind the zero" if end.side == "left" else "beyond the end mark"
    return f"The {end.side} wall lies {away} {where} at batten height: a tape held on the wall reads the mark + {away}."


def _hung_words(end: End, step_mm: float) -> str:
    if end.hung is None or (away := text_mm(end.hung.short_mm, step_mm)) == "0" or end.other is None:
        return ""
    at = f"on the line of backs of what hangs on {end.other.name}" if end.hung.other_hangs else "at the plaster there"
    return f" What hangs ends {away} before it, {at}."
