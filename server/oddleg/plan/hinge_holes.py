"""Holes for hinges: the cup and its two screws in the door's back, the mounting plate's two in the carcass's side."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from oddleg.job import Hinge, HungOn, Plate

from .boards import BoardHole, Boards, flanks, front_id
from .carcass_box import CarcassBox
from .fitted_out import Hole, HoleFor, PlacedFront
from .hardware import Hardware
from .hole_words import ordinal
from .panel_axes import on_panel


def hinge_holes(box: CarcassBox, known: Hardware, fronts: Sequence[PlacedFront], boards: Boards) -> Iterator[BoardHole]:
    """Plates and cups of every front that hangs on hinges; nothing for one whose chart is not known."""
    for front in fronts:
        if front.hung not in (HungOn.LEFT, HungOn.RIGHT):
            continue
        hinge, plate = known.row(Hinge, front.hinge), known.row(Plate, front.plate)
        if hinge is not None and front_id(front.id) in boards:
            yield from ((front_id(front.id), hole) for hole in _cups(front, hinge))
        if plate is not None:
            yield from _plates(box, front, plate, boards)


def _cups(front: PlacedFront, hinge: Hinge) -> Iterator[Hole]:
    """Cup's centre = edge distance + half the cup. The door is seen from behind, so a door hung on the left has its
    hinge edge on the right. v counts from the door's own lower edge."""
    edge_mm = hinge.least_edge_mm if front.edge_mm is None else front.edge_mm
    cup_mm = edge_mm + hinge.cup_mm / 2

    def in_from_edge_mm(mm: float) -> float:
        return front.width_mm - mm if front.hung is HungOn.LEFT else mm

    for number, up_mm in enumerate(front.cups_mm, 1):
        words = f"{hinge.name}, {front.name}, {ordinal(number)} hinge from below"
        yield Hole(
            f"{HoleFor.CUP}-{number}",
            in_from_edge_mm(cup_mm),
            up_mm,
            hinge.cup_mm,
            hinge.cup_depth_mm,
            HoleFor.CUP,
            front.id,
            f"{words}, cup",
            row=hinge.id,
        )
        for end, away_mm in (("lower", -hinge.screws_apart_mm / 2), ("upper", hinge.screws_apart_mm / 2)):
            yield Hole(
                f"{HoleFor.CUP_SCREW}-{number}-{end}",
                in_from_edge_mm(cup_mm + hinge.screws_back_mm),
                up_mm + away_mm,
                hinge.screw_mm,
                hinge.screw_depth_mm,
                HoleFor.CUP_SCREW,
                front.id,
                f"{words}, {end} screw",
                row=hinge.id,
            )


def _plates(box: CarcassBox, front: PlacedFront, plate: Plate, boards: Boards) -> Iterator[BoardHole]:
    """Two screws, spread about the cup's height: that counts from the door's lower edge, v from the panel's. The row
    is for an overlay door; one that stands in the opening takes the row back with it."""
    left, right = flanks(box, front.compartment)
    panel, face = left if front.hung is HungOn.LEFT else right
    if panel not in boards:
        return
    for number, up_mm in enumerate(front.cups_mm, 1):
        for end, away_mm in (("lower", -plate.spread_mm / 2), ("upper", plate.spread_mm / 2)):
            z_mm = front.foot_mm + up_mm + away_mm
            u_mm, v_mm = on_panel(boards[panel], 0.0, front.stands_mm + plate.row_mm, z_mm)
            yield (
                panel,
                Hole(
                    f"{HoleFor.PLATE}-{front.id}-{number}-{end}",
                    u_mm,
                    v_mm,
                    plate.hole_mm,
                    plate.hole_depth_mm,
                    HoleFor.PLATE,
                    front.id,
                    f"{plate.name}, {front.name}, {ordinal(number)} hinge from below, {end} screw",
                    face,
                    plate.id,
                ),
            )
