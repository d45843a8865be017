"""Holes for hanging brackets, inside both sides, from their top and back edges."""

from __future__ import annotations

from collections.abc import Iterator

from oddleg.job import Bracket

from .boards import BoardHole, Boards
from .carcass_box import CarcassBox
from .fitted_out import Hole, HoleFor, PanelKind
from .hardware import Hardware
from .hole_words import ordinal


def bracket_holes(box: CarcassBox, known: Hardware, boards: Boards) -> Iterator[BoardHole]:
    fitted = box.item.fitting_out
    bracket = known.row(Bracket, fitted.bracket if fitted is not None else None)
    if bracket is None:
        return
    for id in (PanelKind.LEFT.value, PanelKind.RIGHT.value):
        if id not in boards:
            continue
        side = boards[id]
        for number, (down_mm, in_mm) in enumerate(zip(bracket.down_mm, bracket.in_mm, strict=True), 1):
            yield (
                id,
                Hole(
                    f"{HoleFor.BRACKET}-{number}",
                    side.width_mm - in_mm,
                    side.height_mm - down_mm,
                    bracket.hole_mm,
                    bracket.hole_depth_mm,
                    HoleFor.BRACKET,
                    box.item.id,
                    f"{bracket.name}, {ordinal(number)} screw",
                    row=bracket.id,
                ),
            )
