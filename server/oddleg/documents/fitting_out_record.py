"""Records of what a carcass is fitted out with: compartments, stacks, drawers, shelves, and rows of charts."""

from __future__ import annotations

import re
from typing import Any

from marshmallow import ValidationError

from oddleg.job import (
    Compartment,
    FittingOut,
    FrontIs,
    HardwareKind,
    HoleLimits,
    HungOn,
    InnerDrawer,
    InnerPullOut,
    PinnedRow,
    Shelf,
    Stack,
    StackMember,
)

from .fields import Choice, Described, Kind, Listing, Number, Part, Record, Slug, Text, YesNo
from .sizes import board, play, size

GREATEST_MEMBERS, GREATEST_COMPARTMENTS, GREATEST_SHELVES, GREATEST_CUPS = 50, 20, 50, 20
SHA = r"[0-9a-f]{16}"

# Which rows of charts each kind of front takes.
ROWS = {
    FrontIs.DOOR: ("hinge", "plate"),
    FrontIs.DRAWER: ("runner",),
    FrontIs.FLAP: ("hinge", "plate"),
    FrontIs.PULL_OUT: ("pull_out",),
    FrontIs.FIXED: (),
    FrontIs.SPACE: (),
}


def row(**more: bool) -> Slug:
    """The id of a row of a chart."""
    return Slug(**more)


class RowSha(Kind):
    """16 hex digits over the figures of a row, as the program gives them."""

    def taken(self, value: Any) -> str:
        if not isinstance(value, str) or not re.fullmatch(SHA, value):
            raise ValidationError("This is not the code of a chart's row, 16 digits and letters a to f, as exported.")
        return value

    def described(self) -> Described:
        return {"type": "string", "pattern": f"^{SHA}$"}


class StackMemberRecord(Record):
    makes = StackMember
    id = Slug()
    name = Text(greatest=80)
    front = Choice(FrontIs)
    height_mm = size(allow_none=True)
    share = Number(0.001, 1_000, "", allow_none=True)
    hung = Choice(HungOn, allow_none=True)
    runner = row(allow_none=True)
    hinge = row(allow_none=True)
    plate = row(allow_none=True)
    pull_out = row(allow_none=True)
    cups_mm = Listing(size(0), greatest=GREATEST_CUPS)

    def clashes(self, made: StackMember) -> dict[str, str]:
        found = {}
        if made.height_mm is not None and made.share is not None:
            found["share"] = "Its height is fixed, so it takes no share of what is left; give one of the two, or null."
        taken = ROWS[made.front]
        for name in ("runner", "hinge", "plate", "pull_out"):
            if getattr(made, name) is not None and name not in taken:
                allowed = f"it takes {' and '.join(taken)}" if taken else "it takes no hardware"
                found[name] = (
                    f"A {made.front.value.replace('_', '-')} front has none of these: {allowed}; give null here."
                )
        if (made.front is FrontIs.DOOR) != (made.hung is not None):
            found["hung"] = (
                "A door needs the side that it hangs on: left, right or pair."
                if made.hung is None
                else "Only a door hangs on a side; give null here."
            )
        if not found and (made.hinge is None) != (made.plate is None):
            missing = "hinge" if made.hinge is None else "plate"
            found[missing] = "Hinge and mounting plate go together: give both rows, or neither."
        if list(made.cups_mm) != sorted(set(made.cups_mm)):
            found["cups_mm"] = "Heights of the cups must rise from the lower edge, each given once."
        return found


class StackRecord(Record):
    makes = Stack
    members = Listing(Part(StackMemberRecord), greatest=GREATEST_MEMBERS)
    gap_mm = play()
    top_mm = play()
    bottom_mm = play()
    side_mm = play()
    snap = YesNo()


class InnerDrawerRecord(Record):
    makes = InnerDrawer
    id = Slug()
    name = Text(greatest=80)
    up_mm = size(0)
    height_mm = size()
    runner = row()
    spacer_mm = play()
    set_back_mm = play()


class InnerPullOutRecord(Record):
    makes = InnerPullOut
    id = Slug()
    name = Text(greatest=80)
    pull_out = row()
    spacer_mm = play()


class ShelfRecord(Record):
    makes = Shelf
    id = Slug()
    name = Text(greatest=80)
    up_mm = size(0)
    fixed = YesNo()
    pins = row(allow_none=True)
    spare = Number(0, 20, "holes", whole=True)
    thickness_mm = board(allow_none=True)
    set_back_mm = play()
    clear_mm = Number(0, 5)

    def clashes(self, made: Shelf) -> dict[str, str]:
        if made.fixed and made.pins is not None:
            return {"pins": "A fixed shelf stands on no pins; give null here, or false for fixed."}
        return {}


class CompartmentRecord(Record):
    makes = Compartment
    id = Slug()
    name = Text(greatest=80)
    width_mm = size(allow_none=True)
    stack = Part(StackRecord, allow_none=True)
    inner_drawers = Listing(Part(InnerDrawerRecord), greatest=GREATEST_MEMBERS)
    pull_outs = Listing(Part(InnerPullOutRecord), greatest=GREATEST_MEMBERS)
    shelves = Listing(Part(ShelfRecord), greatest=GREATEST_SHELVES)


class FittingOutRecord(Record):
    makes = FittingOut
    compartments = Listing(Part(CompartmentRecord), greatest=GREATEST_COMPARTMENTS)
    divider_mm = board()
    grid_first_mm = play(allow_none=True)
    drawer_board_mm = board(allow_none=True)
    spacer_strip_mm = size()
    leg = row(allow_none=True)
    bracket = row(allow_none=True)
    connector = row(allow_none=True)


class PinnedRowRecord(Record):
    makes = PinnedRow
    kind = Choice(HardwareKind)
    row = Slug()
    sha = RowSha()


class HoleLimitsRecord(Record):
    makes = HoleLimits
    least_web_mm = Number(0, 100)
    least_edge_mm = Number(0, 100)
    least_skin_mm = Number(0, 100)
    shop_mm = Number(0.01, 10)
