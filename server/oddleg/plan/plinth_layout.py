"""Where plinths lie: the straight recessed lines under a room's units, and what each line comes to at its ends."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from itertools import pairwise

from oddleg.job import (
    ApplianceBay,
    Carcass,
    CornerPost,
    EndPanel,
    Filler,
    Gap,
    Item,
    Job,
    OpenUnit,
    PlinthBoard,
    Point,
    Room,
    Run,
)

from .axes import to_room, to_run
from .heights import SAME_MM, underside_below_datum_mm
from .plinth_back import seen_from_behind, unit_at
from .rod import Placed

REACH_MM = 150.0
"""How far a plinth is carried on past its last unit to a wall, and past the front line to another plinth (ours)."""


class EndKind(StrEnum):
    """What a plinth piece comes to at one of its ends."""

    WALL = "wall"
    PANEL = "panel"
    BAY = "bay"
    UNIT = "unit"
    BUTTS = "butts"
    BEHIND = "behind"
    COVERS = "covers"
    RETURN = "return"
    JOINT = "joint"
    OPEN = "open"


@dataclass(frozen=True)
class PlinthEnd:
    """`words` say it in plain words, "butts against the plinth of Side run"."""

    kind: EndKind
    words: str


@dataclass(frozen=True)
class WallEnd:
    """Where a run comes to a wall, x in its axes, mm, and that in words."""

    x_mm: float
    words: str


# By run id and whether it is the right-hand end.
WallEnds = Mapping[tuple[str, bool], WallEnd]


@dataclass(frozen=True)
class PlinthLine:
    """A straight line of plinth in its run's axes, mm: the board's face lies at y = `face_mm`, from x = `left_mm` to
    `right_mm`. `under`: all that it runs under; `edge_below_datum_mm`: how far the lowest visible edge over it hangs
    below the datum, `underside_below_datum_mm` the lowest underside. An end None: the run ends there, not settled yet.
    `behind`: it closes the backs of a free-standing run, whose axes are then turned round, x counting the other way.
    """

    run: Run
    under: tuple[Placed, ...]
    face_mm: float
    recess_mm: float
    edge_below_datum_mm: float
    underside_below_datum_mm: float
    left_mm: float
    right_mm: float
    left_end: PlinthEnd | None
    right_end: PlinthEnd | None
    behind: bool = False

    @property
    def visible_mm(self) -> float:
        return self.under[-1].right_mm - self.under[0].left_mm

    def end(self, right: bool) -> PlinthEnd | None:
        return self.right_end if right else self.left_end

    def end_mm(self, right: bool) -> float:
        return self.right_mm if right else self.left_mm

    def ended(self, right: bool, at_mm: float, end: PlinthEnd) -> PlinthLine:
        if right:
            return replace(self, right_mm=at_mm, right_end=end)
        return replace(self, left_mm=at_mm, left_end=end)


@dataclass(frozen=True)
class _Stretch:
    """Neighbours that one plinth runs under, and what stops it on either side; None: the run's end."""

    under: tuple[Placed, ...]
    before: PlinthEnd | None
    after: PlinthEnd | None


def plinth_lines(
    job: Job, room: Room, placed: Sequence[Placed], wall_ends: WallEnds | None = None
) -> tuple[PlinthLine, ...]:
    """The straight plinth lines of a room, in the order of its runs, left to right, all ends settled.

    A plinth runs under neighbouring units on legs, and under fillers, posts and panels between them that do not go to
    the floor. A bay stops it, flush with the unit beside it, unless plinths run through; so does a panel or post to the
    floor, a gap, another recess or depth, and an edge that differs by more than may stay open. A line's board lies the
    recess behind the carcass front. Where two runs meet, lengths follow from the lines on which the faces lie: at an
    inside corner the longer line ends at the other's face and the shorter runs on behind it, by the board's thickness;
    at an outside corner the longer covers the shorter's end. At a visible end the line stops its recess short of the
    unit's side, and a return runs back (first principles; joints at corners, common practice). `wall_ends`: where
    ends were set out to walls; elsewhere the walls as drawn count. A free-standing run has lines along its front and,
    where its backs show, along its back, the same recess behind them.
    """
    lines = []
    for run in room.runs:
        standing = [one for one in placed if one.run.id == run.id and one.stands]
        lines += [line for stretch in _stretches(standing) for line in _lines(job, room.plinth, stretch)]
        for part in seen_from_behind(standing, placed, room):
            lines += [
                replace(line, behind=True) for stretch in _stretches(part) for line in _lines(job, room.plinth, stretch)
            ]
    _settle_corners(lines, room.plinth.thickness_mm)
    for number in range(len(lines)):
        for right in (False, True):
            if lines[number].end(right) is None:
                lines[number] = _settle_free(lines[number], right, room, placed, wall_ends or {})
    return tuple(lines)


def _runs_under(item: Item) -> bool:
    if isinstance(item, Carcass | OpenUnit):
        return item.legs is not None
    if isinstance(item, ApplianceBay):
        return item.plinth_runs_through
    if isinstance(item, EndPanel | CornerPost):
        return not item.to_floor
    return isinstance(item, Filler)


def _stop(item: Item) -> PlinthEnd | None:
    """What a thing that plinths do not run under makes of the plinth beside it; None for a gap: that end is visible."""
    if isinstance(item, Gap):
        return None
    if isinstance(item, ApplianceBay):
        return PlinthEnd(EndKind.BAY, f"flush with the unit beside {item.name}")
    if isinstance(item, EndPanel | CornerPost):
        return PlinthEnd(EndKind.PANEL, f"against {item.name}")
    return PlinthEnd(EndKind.UNIT, f"against {item.name}, which stands on no legs")


_VISIBLE = PlinthEnd(EndKind.RETURN, "visible end: covers the edge of its return")


def _stretches(standing: Sequence[Placed]) -> Iterator[_Stretch]:
    here: list[Placed] = []
    before: PlinthEnd | None = None
    for one in standing:
        if _runs_under(one.item):
            here.append(one)
            continue
        after = _stop(one.item) or _VISIBLE
        if here:
            yield _Stretch(tuple(here), before, after)
        here, before = [], after
    if here:
        yield _Stretch(tuple(here), before, None)


def _lines(job: Job, board: PlinthBoard, stretch: _Stretch) -> Iterator[PlinthLine]:
    """A stretch parted where the recessed line or the visible edge changes."""
    groups: list[list[Placed]] = []
    waiting: list[Placed] = []
    found: list[tuple[float, float, list[float], list[float]]] = []
    for one in stretch.under:
        below_mm, item = underside_below_datum_mm(job, one), one.item
        if below_mm is None or one.front_mm is None or not isinstance(item, Carcass | OpenUnit):
            (groups[-1] if groups else waiting).append(one)
            continue
        face_mm, edge_mm = one.front_mm - item.plinth_recess_mm, below_mm + item.visible_drop_mm
        if found and abs(found[-1][0] - face_mm) < SAME_MM:
            edges = [*found[-1][2], edge_mm]
            if max(edges) - min(edges) <= board.greatest_open_mm + SAME_MM:
                groups[-1].append(one)
                found[-1][2].append(edge_mm)
                found[-1][3].append(below_mm)
                continue
        groups.append([*waiting, one])
        waiting = []
        found.append((face_mm, item.plinth_recess_mm, [edge_mm], [below_mm]))
    other = PlinthEnd(EndKind.UNIT, "where the next unit has another front, recess or underside")
    for number, (group, (face_mm, recess_mm, edges, belows)) in enumerate(zip(groups, found, strict=True)):
        line = PlinthLine(
            stretch.under[0].run,
            tuple(group),
            face_mm,
            recess_mm,
            max(edges),
            max(belows),
            group[0].left_mm,
            group[-1].right_mm,
            other if number else stretch.before,
            other if number < len(groups) - 1 else stretch.after,
        )
        for right in (False, True):
            if line.end(right) == _VISIBLE:
                at_mm = line.end_mm(right) + (-recess_mm if right else recess_mm)
                line = line.ended(right, at_mm, _VISIBLE)
        yield line


@dataclass(frozen=True)
class _Meeting:
    """Ends of two lines that come to one corner, inside or outside; `x` where the other's face is, in each one's run.
    `over`: how far that is past the last unit; `sine` of the angle between them."""

    lines: tuple[int, int]
    rights: tuple[bool, bool]
    x_mm: tuple[float, float]
    over_mm: tuple[float, float]
    inside: bool
    sine: float


def _settle_corners(lines: list[PlinthLine], thickness_mm: float) -> None:
    meetings = sorted(
        (meeting for a in range(len(lines)) for b in range(a) for meeting in _meetings(lines, b, a)),
        key=lambda one: (round(sum(abs(over) for over in one.over_mm), 3), one.lines),
    )
    for one in meetings:
        if any(lines[line].end(right) is not None for line, right in zip(one.lines, one.rights, strict=True)):
            continue
        first = 0 if lines[one.lines[0]].visible_mm >= lines[one.lines[1]].visible_mm - SAME_MM else 1
        board_mm = thickness_mm / one.sine
        for place in (first, 1 - first):
            number, right, x_mm = one.lines[place], one.rights[place], one.x_mm[place]
            other = lines[one.lines[1 - place]].run.name
            longer, on = place == first, 1.0 if right else -1.0
            if one.inside and longer:
                end = PlinthEnd(EndKind.BUTTS, f"butts against the face of the plinth of {other}")
            elif one.inside:
                end, x_mm = PlinthEnd(EndKind.BEHIND, f"runs on behind the plinth of {other}"), x_mm + on * board_mm
            elif longer:
                end = PlinthEnd(EndKind.COVERS, f"covers the end of the plinth of {other}")
            else:
                end = PlinthEnd(EndKind.BUTTS, f"butts against the back of the plinth of {other}")
                x_mm -= on * board_mm
            lines[number] = lines[number].ended(right, x_mm, end)
    for number, line in enumerate(lines):
        for right in (False, True):
            if line.end(right) is None and (met := _meets_along(lines, number, right)) is not None:
                x_mm, other = met
                words = f"butts against the face of the plinth of {other}"
                lines[number] = lines[number].ended(right, x_mm, PlinthEnd(EndKind.BUTTS, words))


def _crossing(a: PlinthLine, b: PlinthLine) -> tuple[float, float, float] | None:
    """Where the two faces' lines cross, as x of a's run and x of b's, and the sine of their angle from a to b."""
    turn = math.radians(b.run.bearing_deg - a.run.bearing_deg)
    sine = math.sin(turn)
    if abs(sine) < 0.1:
        return None
    x_mm, y_mm = to_run(a.run, to_room(b.run, 0.0, b.face_mm))
    along_b_mm = (a.face_mm - y_mm) / sine
    return x_mm + along_b_mm * math.cos(turn), along_b_mm, sine


def _meetings(lines: Sequence[PlinthLine], first: int, second: int) -> Iterator[_Meeting]:
    a, b = lines[first], lines[second]
    if a.run.id == b.run.id or (crossing := _crossing(a, b)) is None:
        return
    x_a, x_b, sine = crossing
    for a_right in (False, True):
        for b_right in (False, True):
            if a.end(a_right) is not None or b.end(b_right) is not None:
                continue
            on_a, on_b = 1.0 if a_right else -1.0, 1.0 if b_right else -1.0
            # Of b's way back from the corner, the part out of a's face: into the room at an inside corner.
            b_out, a_out = -on_b * sine, on_a * sine
            if b_out * a_out <= 0:
                continue
            over = (on_a * (x_a - a.end_mm(a_right)), on_b * (x_b - b.end_mm(b_right)))
            inside = b_out > 0
            if not inside and min(over) > SAME_MM:
                continue
            if _comes(a, x_a, a_right, over[0], b, inside) and _comes(b, x_b, b_right, over[1], a, inside):
                yield _Meeting((first, second), (a_right, b_right), (x_a, x_b), over, inside, abs(sine))


def _comes(line: PlinthLine, x_mm: float, right: bool, over_mm: float, other: PlinthLine, inside: bool) -> bool:
    """Whether this end comes to the corner: near enough past its last unit; or, at an inside corner, with its last
    units behind the other's plinth (a blind corner); or, at an outside one, the recess short of its end, or beside the
    other's corner unit, whose side its plinth then closes."""
    if (x_mm <= line.left_mm) if right else (x_mm >= line.right_mm):
        return False
    past = over_mm >= -SAME_MM
    if abs(over_mm) <= other.recess_mm + REACH_MM and (past or not inside):
        return True
    if past == inside:
        return False
    end_y_mm = to_run(other.run, to_room(line.run, line.end_mm(right), line.face_mm))[1]
    return -REACH_MM <= end_y_mm <= other.face_mm


def _meets_along(lines: Sequence[PlinthLine], number: int, right: bool) -> tuple[float, str] | None:
    """x of a free end where it comes to the face of a plinth that runs on past it, and that run's name."""
    line = lines[number]
    on = 1.0 if right else -1.0
    for other in lines:
        if other.run.id == line.run.id or (crossing := _crossing(line, other)) is None:
            continue
        x_mm, x_other, _ = crossing
        over_mm = on * (x_mm - line.end_mm(right))
        comes_from_front = to_run(other.run, to_room(line.run, line.end_mm(not right), line.face_mm))[1] > other.face_mm
        near = -SAME_MM <= over_mm <= other.recess_mm + REACH_MM
        if comes_from_front and near and other.left_mm < x_other < other.right_mm:
            return x_mm, other.run.name
    return None


def _settle_free(
    line: PlinthLine, right: bool, room: Room, placed: Sequence[Placed], wall_ends: WallEnds
) -> PlinthLine:
    """An end of a run: against a wall within reach, where it was set out to or as drawn; else visible. At a back that
    goes on past the side of another run's units it closes their side too, up to the wall; else it ends at them."""
    on = 1.0 if right else -1.0
    end_mm = line.end_mm(right)
    set_out = wall_ends.get((line.run.id, right is not line.behind))
    if set_out is not None:
        x_mm = -set_out.x_mm if line.behind else set_out.x_mm
        if -REACH_MM <= on * (x_mm - end_mm) <= REACH_MM:
            return line.ended(right, x_mm, PlinthEnd(EndKind.WALL, set_out.words))
    past = _units_past(line, right, placed) if line.behind else None
    reach_mm = REACH_MM + ((past.front_mm or 0.0) if past is not None else 0.0)
    met = []
    for wall in room.walls:
        for start, stop in pairwise(wall.points):
            wall_mm = _wall_x_mm(line, start, stop)
            if wall_mm is not None and -REACH_MM <= on * (wall_mm - end_mm) <= reach_mm:
                met.append((on * (wall_mm - end_mm), wall_mm, wall.name))
    if met:
        _, at_mm, name = min(met)
        return line.ended(right, at_mm, PlinthEnd(EndKind.WALL, f"against {name}"))
    if past is not None:
        return line.ended(right, end_mm, PlinthEnd(EndKind.UNIT, f"against {past.item.name} of {past.run.name}"))
    return line.ended(right, end_mm - on * line.recess_mm, _VISIBLE)


def _units_past(line: PlinthLine, right: bool, placed: Sequence[Placed]) -> Placed | None:
    """The unit of another run that stands within reach past this end, on the line of the face."""
    on = 1.0 if right else -1.0
    for step in range(1, 6):
        spot = to_room(line.run, line.end_mm(right) + on * step * REACH_MM / 5, line.face_mm)
        if (found := unit_at(spot, placed, line.run.id)) is not None:
            return found
    return None


def _wall_x_mm(line: PlinthLine, start: Point, stop: Point) -> float | None:
    """Where the board's face line comes to this stretch of wall."""
    (x0, y0), (x1, y1) = to_run(line.run, start), to_run(line.run, stop)
    if not min(y0, y1) - SAME_MM <= line.face_mm <= max(y0, y1) + SAME_MM or abs(y1 - y0) < SAME_MM:
        return None
    return x0 + (x1 - x0) * (line.face_mm - y0) / (y1 - y0)
