"""Computation 6: the straight plinth lines of a run, their pieces, and each piece's heights over the finished floor."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from .figure import Figure


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
class ProfilePoint:
    """`at`: from the piece's left end, facing it. `height`: of the cut board there. `gap`: finished floor to edge."""

    at: Figure
    height: Figure
    gap: Figure


@dataclass(frozen=True)
class PlinthPiece:
    """One piece of plinth, left and right as you face its front from the room.

    `x0_mm`, `y0_mm`, `x1_mm`, `y1_mm`: left and right end of its face in room axes. `left`, `right`: heights to cut at
    the ends. `profile`: heights along it, both ends included; empty where a straight cut does. `uncut`: the stock board
    goes in as it is. `rip`: the most that comes off the board, None where uncut. `open_above`: the most that stays open
    between board and visible edge, play included. `returns`: a return at a visible end.
    `number`: 1, 2, 3 over the room.
    """

    id: str
    number: int
    name: str
    run: str
    returns: bool
    x0_mm: float
    y0_mm: float
    x1_mm: float
    y1_mm: float
    length: Figure
    recess: Figure
    left_end: PlinthEnd
    right_end: PlinthEnd
    left: Figure
    right: Figure
    least_gap: Figure
    greatest_gap: Figure
    profile: tuple[ProfilePoint, ...]
    uncut: bool
    rip: Figure | None
    open_above: Figure
    units: tuple[str, ...]
