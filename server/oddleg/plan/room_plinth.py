"""What closes the leg space of a room at the decided datum: plinth pieces, boards to cut them from, panels to floor."""

from __future__ import annotations

from dataclasses import dataclass

from .figure import Figure
from .finding import Finding
from .floor_panels import PanelHeight
from .plinth_line import PlinthPiece
from .plinth_nesting import PlinthNesting


@dataclass(frozen=True)
class RoomPlinth:
    """`nesting` None where there is nothing to cut."""

    datum: Figure
    board_height: Figure
    board_thickness: Figure
    pieces: tuple[PlinthPiece, ...]
    nesting: PlinthNesting | None
    panels: tuple[PanelHeight, ...]
    findings: tuple[Finding, ...]
