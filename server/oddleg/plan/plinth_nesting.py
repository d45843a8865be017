"""Cutting pieces of given lengths from stock boards of one length with the fewest boards."""

from __future__ import annotations

from dataclasses import dataclass

from .figure import Figure


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
