"""Holes for adjustable legs, in the underside of the bottom."""

from __future__ import annotations

from collections.abc import Iterator

from oddleg.job import Leg, Run, Tolerances

from .boards import BoardHole, Boards
from .carcass_box import CarcassBox
from .fitted_out import Face, Hole, HoleFor, PanelKind
from .hardware import Hardware
from .hole_words import ordinal
from .legs import leg_places
from .panel_axes import on_panel
from .rod import Placed
from .row import beside_mm


def leg_holes(box: CarcassBox, known: Hardware, boards: Boards, tolerances: Tolerances) -> Iterator[BoardHole]:
    """Where the legs stand is asked of `legs`, so that the bench sheet of a carcass and its bottom agree; here only the
    carcass stands at the zero of a run of its own."""
    item, id = box.item, PanelKind.BOTTOM.value
    leg = known.row(Leg, item.fitting_out.leg if item.fitting_out is not None else None)
    if leg is None or id not in boards:
        return
    alone = Placed(Run("", "", 0.0, 0.0, 0.0), item, -beside_mm(item), item.width_mm + beside_mm(item))
    for place in leg_places(alone, tolerances):
        for number, (right_mm, back_mm) in enumerate(zip(leg.right_mm, leg.back_mm, strict=True), 1):
            u_mm, v_mm = on_panel(boards[id], place.x_mm + right_mm, box.depth_mm - place.y_mm + back_mm, box.floor_mm)
            yield (
                id,
                Hole(
                    f"{HoleFor.LEG}-{place.id}-{number}",
                    u_mm,
                    v_mm,
                    leg.hole_mm,
                    leg.hole_depth_mm,
                    HoleFor.LEG,
                    place.id,
                    f"{leg.name}, {place.name}, {ordinal(number)} screw",
                    Face.OTHER,
                    leg.id,
                ),
            )
