"""The straight lengths of board that a plinth line is made of: pieces between joints, and returns at visible ends."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from oddleg.job import Job, PlinthBoard, Point, Room, Run

from .axes import to_room, to_run
from .figure import text_mm
from .finding import Finding, Severity
from .heights import SAME_MM
from .plinth_layout import EndKind, PlinthEnd, PlinthLine
from .rod import Placed
from .sightings import listed


@dataclass(frozen=True)
class PlinthLength:
    """A straight length of board before heights: its face from left to right, in room axes; the edge over it.

    `left_mm`: its left end in run axes; None for what does not lie along the fronts. `over`: what it runs under.
    """

    run: Run
    name: str
    start: Point
    stop: Point
    left_end: PlinthEnd
    right_end: PlinthEnd
    recess_mm: float
    edge_below_datum_mm: float
    units: tuple[str, ...]
    concerns: tuple[str, ...]
    why: str
    returns: bool = False
    left_mm: float | None = None
    over: tuple[Placed, ...] = ()

    @property
    def length_mm(self) -> float:
        return math.hypot(self.stop.x_mm - self.start.x_mm, self.stop.y_mm - self.start.y_mm)


def plinth_lengths(
    job: Job, room: Room, line: PlinthLine, lines: Sequence[PlinthLine]
) -> tuple[list[PlinthLength], list[Finding]]:
    """The lengths of a line in order, then its returns, and what is wrong; `lines`: all of the room."""
    board, step_mm = room.plinth, job.rounding_mm
    if line.left_end is None or line.right_end is None or line.right_mm - line.left_mm <= SAME_MM:
        return [], [_no_length(line)]
    cuts, forced = joints(line, board.length_mm)
    marks = [line.left_mm, *cuts, line.right_mm]
    lengths = []
    joint = PlinthEnd(EndKind.JOINT, "joint where two units meet")
    for number, (left_mm, right_mm) in enumerate(pairwise(marks)):
        left_end = line.left_end if number == 0 else joint
        right_end = line.right_end if number == len(cuts) else joint
        under = [one for one in line.under if one.left_mm < right_mm - SAME_MM and one.right_mm > left_mm + SAME_MM]
        over = under or list(line.under)
        why = f"From {_from(line, left_mm, left_end, step_mm)} to {_from(line, right_mm, right_end, step_mm)}."
        lengths.append(
            PlinthLength(
                line.run,
                f"{line.run.name}, {'back, ' if line.behind else ''}under {_span([one.item.name for one in over])}",
                to_room(line.run, left_mm, line.face_mm),
                to_room(line.run, right_mm, line.face_mm),
                left_end,
                right_end,
                line.recess_mm,
                line.edge_below_datum_mm,
                tuple(one.item.name for one in over),
                (line.run.id, *(one.item.id for one in over)),
                why,
                left_mm=None if line.behind else left_mm,
                over=tuple(over),
            )
        )
    findings = [_joint_in_unit(line, at_mm, board, step_mm) for at_mm in forced]
    for one, front_first in _returns(room, line, lines):
        parts = _in_boards(one, board.length_mm, front_first)
        lengths += parts
        if len(parts) > 1:
            findings.append(_joint_in_return(one, board, step_mm))
    return lengths, findings


def _span(names: Sequence[str]) -> str:
    return names[0] if len(names) == 1 else f"{names[0]} to {names[-1]}"


def _from(line: PlinthLine, at_mm: float, end: PlinthEnd, step_mm: float) -> str:
    return f"{_place(line, at_mm, step_mm)} from the zero of {line.run.name} ({end.words})"


def _place(line: PlinthLine, at_mm: float, step_mm: float) -> str:
    """x in the axes of the run as the rod has them; along a back the line's own count the other way."""
    return text_mm(-at_mm if line.behind else at_mm, step_mm)


def joints(line: PlinthLine, stock_mm: float) -> tuple[list[float], list[float]]:
    """x of the joints of a line that is longer than the stock board, and those of them that no two units hide.

    The fewest pieces; of equal ones the longest first from the left. A joint lies where two units meet.
    """
    hidden = sorted({one.right_mm for one in line.under[:-1] if line.left_mm < one.right_mm < line.right_mm})
    cuts: list[float] = []
    forced: list[float] = []
    at_mm = line.left_mm
    while line.right_mm - at_mm > stock_mm + SAME_MM:
        reached = [x_mm for x_mm in hidden if at_mm + SAME_MM < x_mm <= at_mm + stock_mm + SAME_MM]
        if reached:
            at_mm = reached[-1]
        else:
            at_mm += stock_mm
            forced.append(at_mm)
        cuts.append(at_mm)
    return cuts, forced


def _returns(room: Room, line: PlinthLine, lines: Sequence[PlinthLine]) -> Iterator[tuple[PlinthLength, bool]]:
    """Behind the face of a visible end, back to the wall; in a run that stands free to the back of the back piece that
    ends there too, which then has no return of its own, or else to the units' backs. Each in one length, and whether
    its left end is the one at the front."""
    thick_mm = room.plinth.thickness_mm
    covered_mm = line.face_mm - thick_mm
    front = PlinthEnd(EndKind.BUTTS, "butts against the back of the front piece")
    for right in (False, True):
        end, meets = line.end(right), _back_piece(line, right, lines)
        if end is None or end.kind is not EndKind.RETURN or line.behind:
            continue
        if line.run.wall is not None:
            back_mm, to, back = 0.0, "the wall", PlinthEnd(EndKind.WALL, "against the wall")
        elif meets is not None:
            back_mm = _y_of(meets, line) + thick_mm
            to, back = (
                "the back of the back piece",
                PlinthEnd(EndKind.BUTTS, "butts against the back of the back piece"),
            )
        else:
            back_mm, to = line.under[0].back_mm, "the back of the units"
            back = PlinthEnd(EndKind.OPEN, "ends at the back")
        if covered_mm - back_mm <= SAME_MM:
            continue
        at_front, at_back = (to_room(line.run, line.end_mm(right), y_mm) for y_mm in (covered_mm, back_mm))
        unit = line.under[-1 if right else 0]
        # Facing a right-hand return, the wall is on your right; facing a left-hand one, on your left.
        start, stop, ends = (at_front, at_back, (front, back)) if right else (at_back, at_front, (back, front))
        made = PlinthLength(
            line.run,
            f"{line.run.name}, return at the {'right' if right else 'left'} of {unit.item.name}",
            start,
            stop,
            *ends,
            line.recess_mm,
            line.underside_below_datum_mm,
            (unit.item.name,),
            (line.run.id, unit.item.id),
            f"From the back of the front piece's board ({text_mm(thick_mm)} thick) to {to}.",
            returns=True,
        )
        yield made, right


def _in_boards(one: PlinthLength, stock_mm: float, front_first: bool) -> list[PlinthLength]:
    """A return in lengths that a board gives: whole ones from the front, where it is seen first, and what is left."""
    whole_mm = one.length_mm
    count = max(1, math.ceil((whole_mm - SAME_MM) / stock_mm))
    from_front = [min(number * stock_mm, whole_mm) for number in range(count + 1)]
    at = from_front if front_first else [whole_mm - mm for mm in reversed(from_front)]
    joint = PlinthEnd(EndKind.JOINT, "joint in the return")
    marks = [_along(one, mm / whole_mm) for mm in at]
    return [
        replace(
            one,
            start=start,
            stop=stop,
            left_end=one.left_end if number == 0 else joint,
            right_end=one.right_end if number == count - 1 else joint,
        )
        for number, (start, stop) in enumerate(pairwise(marks))
    ]


def _along(one: PlinthLength, share: float) -> Point:
    def between(start_mm: float, stop_mm: float) -> float:
        return start_mm + share * (stop_mm - start_mm)

    return Point(between(one.start.x_mm, one.stop.x_mm), between(one.start.y_mm, one.stop.y_mm))


def _back_piece(line: PlinthLine, right: bool, lines: Sequence[PlinthLine]) -> PlinthLine | None:
    """The line along the back of the same run that is visible at the same end."""
    for other in lines:
        end = other.end(not right)
        if not other.behind or other.run.id != line.run.id or end is None or end.kind is not EndKind.RETURN:
            continue
        if abs(-other.end_mm(not right) - line.end_mm(right)) <= 1.0:
            return other
    return None


def _y_of(behind: PlinthLine, line: PlinthLine) -> float:
    """y of a back piece's face in the axes of the front line's run."""
    return to_run(line.run, to_room(behind.run, 0.0, behind.face_mm))[1]


def _no_length(line: PlinthLine) -> Finding:
    return Finding(
        "plinth.no_length",
        Severity.WARN,
        line.run.name,
        f"No length is left for its plinth under {listed([one.item.name for one in line.under])}: both ends pass.",
        "Look at the recess of the units and at the runs that meet there.",
        "first principles",
        concerns=(line.run.id, *(one.item.id for one in line.under)),
    )


def _joint_in_unit(line: PlinthLine, at_mm: float, board: PlinthBoard, step_mm: float) -> Finding:
    return Finding(
        "plinth.joint_shows",
        Severity.WARN,
        line.run.name,
        f"The plinth needs a joint {_place(line, at_mm, step_mm)} from the run's zero, where no two units meet: "
        f"the board is {text_mm(board.length_mm, step_mm)} long.",
        "Take a longer board, or hide the joint by hand.",
        "joints are hidden where two units meet (common practice)",
        concerns=(line.run.id,),
    )


def _joint_in_return(one: PlinthLength, board: PlinthBoard, step_mm: float) -> Finding:
    return Finding(
        "plinth.joint_shows",
        Severity.WARN,
        one.name,
        f"It is {text_mm(one.length_mm, step_mm)} long and the board {text_mm(board.length_mm, step_mm)}: it needs a "
        "joint that nothing hides.",
        "Take a longer board, or let the joint show at its far end.",
        "joints are hidden where two units meet (common practice)",
        concerns=one.concerns,
    )
