"""Holes for pull-out frames: in the bottom or in both sides, and in the front that hangs on the frame."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from oddleg.job import FixedTo, PullOut

from .boards import BoardHole, Boards, flanks, front_id
from .carcass_box import CarcassBox, Space
from .figure import text_mm
from .fitted_out import Hole, HoleFor, PanelKind, PlacedFront
from .hardware import Hardware
from .hole_words import ordinal
from .panel_axes import on_panel


@dataclass(frozen=True)
class _Frame:
    """A frame in its compartment; `stands_mm`: how far a front inside the opening takes it back."""

    row: PullOut
    of: str
    words: str
    space: Space
    stands_mm: float

    @property
    def middle_mm(self) -> float:
        return (self.space.left_mm + self.space.right_mm) / 2

    def hole(self, of: str, number: int, at_mm: tuple[float, float], front: bool = False) -> Hole:
        return Hole(
            f"{of}-{self.of}-{number}",
            *at_mm,
            self.row.door_hole_mm if front else self.row.hole_mm,
            self.row.door_hole_depth_mm if front else self.row.hole_depth_mm,
            HoleFor.PULL_OUT,
            self.of,
            f"{self.words}, {ordinal(number)} screw",
            row=self.row.id,
        )


def pull_out_holes(
    box: CarcassBox, known: Hardware, fronts: Sequence[PlacedFront], boards: Boards, shop_mm: float
) -> Iterator[BoardHole]:
    """A frame stands in the middle of its compartment, and the holes in its front are reckoned from that middle too:
    the front of an end compartment reaches further over a side than over a divider, and its own middle is not there.
    """
    for front in fronts:
        row = known.row(PullOut, front.pull_out)
        if row is None:
            continue
        frame = _Frame(row, front.id, f"{row.name}, {front.name}", box.space(front.compartment), front.stands_mm)
        yield from _in_carcass(box, frame, boards)
        if front_id(front.id) in boards:
            yield from _in_front(frame, front, boards)
    for space in box.spaces:
        here = [front.stands_mm for front in fronts if front.compartment == space.compartment.id]
        for inner in space.compartment.pull_outs:
            row = known.row(PullOut, inner.pull_out)
            if row is None:
                continue
            on = f", on its spacer {text_mm(inner.spacer_mm, shop_mm)} thick" if inner.spacer_mm > 0 else ""
            frame = _Frame(row, inner.id, f"{row.name}, {inner.name}{on}", space, max(here, default=0.0))
            yield from _in_carcass(box, frame, boards)


def _in_carcass(box: CarcassBox, frame: _Frame, boards: Boards) -> Iterator[BoardHole]:
    row = frame.row
    for number, (behind_mm, across_mm) in enumerate(zip(row.holes_u_mm, row.holes_across_mm, strict=True), 1):
        u_mm = frame.stands_mm + behind_mm
        if row.fixed_to is FixedTo.BOTTOM:
            id = PanelKind.BOTTOM.value
            if id in boards:
                at_mm = on_panel(boards[id], frame.middle_mm + across_mm, u_mm, box.floor_mm)
                yield id, frame.hole(HoleFor.PULL_OUT, number, at_mm)
            continue
        for id, face in flanks(box, frame.space.compartment.id):
            if id in boards:
                at_mm = on_panel(boards[id], 0.0, u_mm, box.floor_mm + across_mm)
                yield id, replace(frame.hole(HoleFor.PULL_OUT, number, at_mm), face=face)


def _in_front(frame: _Frame, front: PlacedFront, boards: Boards) -> Iterator[BoardHole]:
    board = boards[front_id(front.id)]
    for number, (up_mm, across_mm) in enumerate(zip(frame.row.door_up_mm, frame.row.door_across_mm, strict=True), 1):
        at_mm = on_panel(board, frame.middle_mm + across_mm, front.stands_mm, front.foot_mm + up_mm)
        yield board.id, frame.hole("front", number, at_mm, front=True)
