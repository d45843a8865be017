"""The plinth pieces of a room laid out on stock boards."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from oddleg.job import PlinthBoard

from .cutting_stock import Layout, cut
from .figure import Figure, figure, text_mm
from .finding import Finding, Severity
from .plinth_line import PlinthPiece


@dataclass(frozen=True)
class PlinthCut:
    """A piece on its board: `at_mm` from the board's left end, kerfs before it counted."""

    piece: str
    at_mm: float
    length: Figure


@dataclass(frozen=True)
class PlinthBoardCut:
    """One stock board with its cuts from the left; `offcut` is what is left at its right end."""

    number: int
    cuts: tuple[PlinthCut, ...]
    offcut: Figure


@dataclass(frozen=True)
class PlinthNesting:
    """`waste`: all offcuts and kerfs together; `waste_share` in words ("18 % of 4 boards"). `proved`: fewer boards
    cannot do; else `words` say so."""

    stock: Figure
    kerf: Figure
    boards: tuple[PlinthBoardCut, ...]
    waste: Figure
    waste_share: str
    proved: bool
    words: str


def plinth_nesting(pieces: Sequence[PlinthPiece], board: PlinthBoard, step_mm: float) -> PlinthNesting | None:
    """The fewest stock boards that give all the pieces, and their layout; None where there is nothing to cut.

    Lengths count unrounded. Each piece is of the board's full height, so that no board is parted along its length.
    """
    if not pieces:
        return None
    layout = cut([one.length.mm for one in pieces], board.length_mm, board.kerf_mm)
    stock_mm = board.length_mm
    boards = []
    for number, numbers in enumerate(layout.boards, 1):
        at_mm = 0.0
        cuts = []
        for piece in (pieces[one] for one in numbers):
            cuts.append(PlinthCut(piece.id, at_mm, piece.length))
            at_mm += piece.length.mm + board.kerf_mm
        # A piece that ends at the board's end needs no cut there.
        left_mm = max(stock_mm - at_mm, 0.0)
        why = f"Board {text_mm(stock_mm, step_mm)} less its pieces, and a kerf of {text_mm(board.kerf_mm, 0.1)} each."
        boards.append(PlinthBoardCut(number, tuple(cuts), figure(left_mm, step_mm, why)))
    all_mm = len(boards) * stock_mm
    waste_mm = all_mm - sum(one.length.mm for one in pieces)
    return PlinthNesting(
        figure(stock_mm, step_mm, "The stock board's length, as the job says."),
        figure(board.kerf_mm, 0.1, "What a saw cut takes, as the job says."),
        tuple(boards),
        figure(
            waste_mm,
            step_mm,
            f"{_boards(len(boards))} of {text_mm(stock_mm, step_mm)} less all pieces; kerfs included.",
        ),
        f"{text_mm(100 * waste_mm / all_mm, 1)} % of {_boards(len(boards))}",
        layout.proved,
        _words(layout),
    )


def nesting_findings(nesting: PlinthNesting | None, room: str, room_id: str) -> tuple[Finding, ...]:
    if nesting is None or nesting.proved:
        return ()
    return (
        Finding(
            "plinth.nesting_unproved",
            Severity.NOTE,
            room,
            nesting.words,
            "Order by it all the same, or cut the list in two.",
            "the search stops after a set number of steps",
            concerns=(room_id,),
        ),
    )


def _boards(count: int) -> str:
    return "1 board" if count == 1 else f"{count} boards"


def _words(layout: Layout) -> str:
    boards = _boards(len(layout.boards))
    if layout.proved:
        return f"{boards}; fewer cannot do."
    return f"{boards}; at least {layout.least} are needed, and whether so few can do was not found out."
