"""How fronts come open: what stands proud, how far a front reaches out, and the room that it needs beside it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from oddleg.job import (
    ApplianceBay,
    Carcass,
    CornerPost,
    EndsAt,
    Filler,
    Front,
    FrontFit,
    FrontMoves,
    Gap,
    Handing,
    Item,
    Storey,
)

from .meeting_runs import Arm, level_with
from .rod import Placed

# A difference of lengths below this is none.
SAME_MM = 1e-6


def face_mm(front: Front) -> float:
    """How far the closed front's face stands out of the carcass's front edge; an inset one lies behind it (-)."""
    if front.fit is FrontFit.OVERLAY:
        return front.thickness_mm
    return (front.frame_thickness_mm if front.fit is FrontFit.FRAME else 0.0) - front.set_back_mm


def proud_mm(front: Front | None) -> float:
    """How far front and frame stand out of the carcass's front edge, without the handle."""
    if front is None:
        return 0.0
    frame_mm = front.frame_thickness_mm if front.fit is FrontFit.FRAME else 0.0
    return max(face_mm(front), frame_mm, 0.0)


def with_handle_mm(front: Front) -> float:
    """How far the closed front's handle stands out of the carcass's front edge; never less than front and frame."""
    return max(proud_mm(front), face_mm(front) + front.handle_projection_mm)


def front_of(item: Item) -> Front | None:
    return item.front if isinstance(item, Carcass | ApplianceBay) else None


def opens(item: Item) -> bool:
    """Whether anything opens there; a carcass with no handing and no drawer has a fixed front."""
    front = front_of(item)
    if front is None:
        return False
    return isinstance(item, ApplianceBay) or front.moves is not FrontMoves.DOOR or _handing(item) is not Handing.NONE


def hangs_at(item: Item, side: str) -> bool:
    """Whether a door hangs on that side. Of an appliance's door nobody knows: it may."""
    front = front_of(item)
    if front is None or front.moves is not FrontMoves.DOOR:
        return False
    if isinstance(item, ApplianceBay):
        return True
    return _handing(item) is Handing.PAIR or _handing(item).value == side


def can_hang_elsewhere(item: Item) -> bool:
    """Whether a door that hangs on one side might hang on the other."""
    return isinstance(item, Carcass) and item.handing in (Handing.LEFT, Handing.RIGHT)


def reach_mm(item: Item) -> float:
    """How far in front of its closed face the front comes: a drawer its carcass's depth (full extension), a door its
    width, half of it in a pair, a flap its height."""
    front = front_of(item)
    if front is None:
        return 0.0
    if front.moves is FrontMoves.DRAWER:
        return getattr(item, "depth_mm", 0.0)
    if front.moves is FrontMoves.FLAP:
        return item.height_mm if isinstance(item, Carcass) else _bay_height_mm(item)
    width_mm = item.width_mm - getattr(item, "blind_mm", 0.0)
    return width_mm / 2.0 if _handing(item) is Handing.PAIR else width_mm


def way_of_opening(item: Item, side: str) -> str:
    """The front in words: "drawer", "flap", "door hung on the left"."""
    front = front_of(item)
    if front is not None and front.moves is not FrontMoves.DOOR:
        return front.moves.value
    if isinstance(item, ApplianceBay):
        return "appliance door"
    if _handing(item) is Handing.PAIR:
        return f"{side} door of the pair"
    return f"door hung on the {_handing(item).value}"


def _handing(item: Item) -> Handing:
    return item.handing if isinstance(item, Carcass) else Handing.NONE


def _bay_height_mm(item: Item) -> float:
    return item.appliance.least_height_mm if isinstance(item, ApplianceBay) else 0.0


@dataclass(frozen=True)
class Across:
    """What an opening front meets of the run across the corner: `front_mm` from the line of backs to its carcass front,
    `proud_mm` and `handle_mm` beyond that, `name` of the item that stands out most on the way."""

    front_mm: float
    proud_mm: float
    handle_mm: float
    name: str

    @property
    def total_mm(self) -> float:
        return self.front_mm + self.proud_mm + self.handle_mm


def across(one: Placed, own: Arm, other: Arm) -> Across | None:
    """What the front of an item meets of the run across the corner on its way out; None: nothing of it.

    Handles count where their front lies over the way. A filler or post there is as deep as the carcass next to it and
    flush with its front; the blind part of a corner unit has a front and no handle.
    """
    front, depth_mm = front_of(one.item), own.front_mm(one)
    if front is None or depth_mm is None:
        return None
    start_mm = depth_mm + min(face_mm(front), 0.0)
    end_mm = depth_mm + with_handle_mm(front) + reach_mm(one.item)
    met = []
    for hangs in (False, True):
        row = other.row(hangs)
        for there in row:
            near_mm, far_mm = other.near_far_mm(there)
            if level_with(one.item, there.item) and near_mm < end_mm - SAME_MM and start_mm < far_mm - SAME_MM:
                opens_from_mm = near_mm + blind_mm(there, other.side)
                met.append(_met(there, other, row, opens_from_mm < end_mm - SAME_MM))
    return max((one for one in met if one is not None), key=lambda one: one.total_mm, default=None)


def nearest(one: Placed, other: Arm) -> Across | None:
    """The front nearest to the corner of the run across it, for where its row as drawn does not come that far."""
    for there in other.row(not one.stands):
        if front_of(there.item) is not None:
            return _met(there, other, (), True)
    return None


def _met(one: Placed, arm: Arm, row: Sequence[Placed], handle_counts: bool) -> Across | None:
    depth_mm, front = arm.front_mm(one), front_of(one.item)
    if depth_mm is not None:
        counts = front is not None and handle_counts and opens(one.item)
        handle_mm = with_handle_mm(front) - proud_mm(front) if counts and front is not None else 0.0
        return Across(depth_mm, proud_mm(front), handle_mm, one.item.name)
    fronted = [other for other in row if front_of(other.item) is not None]
    if isinstance(one.item, Gap) or not fronted:
        return None
    beside = min(fronted, key=lambda other: abs(other.left_mm + other.right_mm - one.left_mm - one.right_mm))
    return Across(arm.front_mm(beside) or 0.0, proud_mm(front_of(beside.item)), 0.0, one.item.name)


def blind_mm(one: Placed, side: str) -> float:
    """Width of the part that nothing opens on, at the item's edge on that side."""
    return one.item.blind_mm if isinstance(one.item, Carcass) and blind_side(one) == side else 0.0


def blind_side(one: Placed) -> str | None:
    """The end of its run at which a blind unit has its blind part: where it goes into a corner, of two such the nearer;
    None where its run meets no corner or it has no blind part."""
    if not isinstance(one.item, Carcass) or one.item.blind_mm <= 0:
        return None
    ends = (("left", one.run.left_end.at), ("right", one.run.right_end.at))
    for kinds in ((EndsAt.OTHER_BACKS,), (EndsAt.OTHER_FRONTS,)):
        sides = [side for side, at in ends if at in kinds]
        if len(sides) == 2:
            row = [item.id for item in one.run.items if (item.storey is Storey.WALL) != one.stands]
            return "left" if 2 * row.index(one.item.id) < len(row) - 1 else "right"
        if sides:
            return sides[0]
    return None


def takes_up(item: Item) -> bool:
    """Whether it is there to take up width: a post, a filler, a gap."""
    return isinstance(item, CornerPost | Filler | Gap)
