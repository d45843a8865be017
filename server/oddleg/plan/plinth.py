"""Computation 6, the part that the datum needs: the plinth gap at both front corners of each carcass."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from oddleg.job import Carcass, Job, OpenUnit, PlinthBoard

from .axes import to_room
from .finished_floor import Floor
from .heights import SAME_MM, underside_below_datum_mm
from .rod import Placed
from .surfaces import SurfaceLevel


@dataclass(frozen=True)
class GapPlace:
    """One front corner on the plinth line: finished floor there, and how far the visible edge hangs below the datum."""

    placed: Placed
    side: str
    floor: SurfaceLevel
    edge_below_datum_mm: float

    def gap_mm(self, datum_mm: float) -> float:
        """Finished floor to the lowest visible edge at this datum."""
        return datum_mm - self.edge_below_datum_mm - self.floor.level_mm

    def datum_for_gap_mm(self, gap_mm: float) -> float:
        """The datum at which the gap here is `gap_mm`."""
        return gap_mm + self.edge_below_datum_mm + self.floor.level_mm


def gap_places(job: Job, placed: Sequence[Placed], floor: Floor) -> tuple[tuple[GapPlace, ...], tuple[str, ...]]:
    """Both front corners, left then right, of every unit on legs, on its plinth line (front less plinth recess), over
    the finished floor; and the ids of the units with a corner where no floor is known, which is left out.

    The gap ends at the lowest visible edge: the underside, or what drops below it (a rail, a front).
    """
    places: list[GapPlace] = []
    unknown: list[str] = []
    for one in placed:
        item, front_mm = one.item, one.front_mm
        below_mm = underside_below_datum_mm(job, one)
        if not isinstance(item, Carcass | OpenUnit) or item.legs is None or below_mm is None or front_mm is None:
            continue
        for side, x_mm in (("left", one.left_mm), ("right", one.right_mm)):
            spot = to_room(one.run, x_mm, front_mm - item.plinth_recess_mm)
            level = floor.finished.at(spot.x_mm, spot.y_mm)
            if level is not None:
                places.append(GapPlace(one, side, level, below_mm + item.visible_drop_mm))
            elif item.id not in unknown:
                unknown.append(item.id)
    return tuple(places), tuple(unknown)


def uncut_from_mm(places: Sequence[GapPlace], board: PlinthBoard) -> dict[str, float]:
    """By unit: the lowest datum at which the stock board goes in there uncut, with its play, at both corners."""
    lowest: dict[str, float] = {}
    for place in places:
        datum_mm = place.datum_for_gap_mm(board.height_mm + board.fit_mm)
        lowest[place.placed.item.id] = max(datum_mm, lowest.get(place.placed.item.id, datum_mm))
    return lowest


def ripped(places: Sequence[GapPlace], board: PlinthBoard, datum_mm: float) -> tuple[str, ...]:
    """Ids of the units whose plinth must be ripped at this datum: the gap at a corner is less than board and play."""
    return tuple(item for item, from_mm in uncut_from_mm(places, board).items() if datum_mm < from_mm - SAME_MM)


def rip_mm(gap_mm: float, board: PlinthBoard) -> float:
    """How much must come off the stock board so that it goes in with its play, mm; 0 where it goes in uncut."""
    over_mm = board.height_mm + board.fit_mm - gap_mm
    return over_mm if over_mm > SAME_MM else 0.0


def not_reached(places: Sequence[GapPlace], board: PlinthBoard, datum_mm: float) -> tuple[str, ...]:
    """Ids of the units where the board leaves more open than the job wants, at one corner at least."""
    greatest_mm = board.height_mm + board.greatest_open_mm
    return tuple(
        dict.fromkeys(place.placed.item.id for place in places if place.gap_mm(datum_mm) > greatest_mm + SAME_MM)
    )
