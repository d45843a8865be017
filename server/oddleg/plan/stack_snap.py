"""Drawers of a stack on the grid: lower edges move until their runners' screws lie on a line of holes. mm."""

from __future__ import annotations

from dataclasses import dataclass

from oddleg.job import Runner, Stack

from .carcass_box import CarcassBox
from .figure import text_mm
from .grid import PITCH_MM, line_mm, nearest_line
from .hardware import Hardware
from .stack_heights import SAME_MM, StackHeights, placed


@dataclass(frozen=True)
class Snapped:
    """`moved_mm`: by member's id, how far its lower edge moved, up positive. `off`: ids of the drawers whose lower edge
    stays off the grid: the lowest of the stack, whose edge is the stack's own, and any that would leave a front without
    its least height."""

    heights: StackHeights
    moved_mm: dict[str, float]
    off: tuple[str, ...]


def snapped(box: CarcassBox, stack: Stack, known: Hardware, found: StackHeights) -> Snapped:
    """Each drawer's lower edge moves to where its line of screws meets the nearest line of the grid; what its front
    gives the front below takes, so the sum stays. Each edge is decided by itself, from where it was: no order of going
    through them makes a difference, and of two lines equally near it is the lower one."""
    least_mm = [_least_mm(known, one.runner) for one in found.members]
    moves = [
        0.0 if number == len(found.members) - 1 else _move_mm(box, known, one.runner, foot_mm)
        for number, (one, foot_mm) in enumerate(zip(found.members, found.feet_mm, strict=True))
    ]
    moved = _heights_mm(found.heights_mm, moves)
    while short := [
        number
        for number, mm in enumerate(moved)
        # A front that was too low before is no lower for a move that makes it higher.
        if mm < min(least_mm[number], found.heights_mm[number]) - SAME_MM and _borders_move(moves, number)
    ]:
        for number in short:
            moves[number] = 0.0
            if number:
                moves[number - 1] = 0.0
        moved = _heights_mm(found.heights_mm, moves)
    off = tuple(
        one.id
        for one, foot_mm, by_mm in zip(found.members, found.feet_mm, moves, strict=True)
        if abs(_move_mm(box, known, one.runner, foot_mm + by_mm)) > SAME_MM
    )
    by_id = {one.id: by_mm for one, by_mm in zip(found.members, moves, strict=True) if abs(by_mm) > SAME_MM}
    heights = placed(stack, moved, found.opening_mm, found.foot_mm, found.end_mm)
    return Snapped(heights, by_id, off)


def snap_words(found: Snapped, step_mm: float) -> tuple[str, ...]:
    """What moved, and what stays off the grid, for whoever reads the stack's heights."""
    words = []
    for one in found.heights.members:
        if one.id in found.moved_mm:
            by_mm = found.moved_mm[one.id]
            words.append(f"{one.name} moved {'up' if by_mm > 0 else 'down'} by {text_mm(abs(by_mm), step_mm)}")
        if one.id in found.off:
            words.append(f"{one.name} stays off it")
    return tuple(words)


def _move_mm(box: CarcassBox, known: Hardware, runner: str | None, foot_mm: float) -> float:
    """From a lower edge to where its runner's screws meet the nearest line of the grid; 0 where it has no runner."""
    row = known.row(Runner, runner)
    if row is None:
        return 0.0
    screws_mm = foot_mm + row.up_mm
    return line_mm(box, nearest_line(box, screws_mm)) - screws_mm


def _least_mm(known: Hardware, runner: str | None) -> float:
    """No front is made lower than one space of the grid, nor than its runner's chart allows."""
    row = known.row(Runner, runner)
    return PITCH_MM if row is None else max(PITCH_MM, row.least_front_mm)


def _borders_move(moves: list[float], number: int) -> bool:
    return moves[number] != 0 or (number > 0 and moves[number - 1] != 0)


def _heights_mm(heights_mm: tuple[float, ...], moves: list[float]) -> tuple[float, ...]:
    """A front loses what its own lower edge goes up, and gains what the one above it goes up."""
    above_mm = [0.0, *moves[:-1]]
    return tuple(mm - own + above for mm, own, above in zip(heights_mm, moves, above_mm, strict=True))
