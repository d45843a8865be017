"""Records of a run and of the items in it."""

from __future__ import annotations

from typing import Any

from oddleg.job import (
    Appliance,
    ApplianceBay,
    ApplianceSeat,
    BottomFit,
    Box,
    Carcass,
    CornerPost,
    EndPanel,
    Filler,
    Front,
    FrontFit,
    Gap,
    Handing,
    Legs,
    OpenUnit,
    Run,
    SetOn,
    Storey,
)

from .fields import Choice, Listing, Number, OneOf, Part, Record, Slug, Text, YesNo, reversed_limits

GREATEST_ITEMS = 2000


def size(least: float = 1, **more: Any) -> Number:
    """A size of a thing that a person fits."""
    return Number(least, 20_000, **more)


def board(least: float = 1, **more: Any) -> Number:
    """A thickness."""
    return Number(least, 300, **more)


def play(**more: Any) -> Number:
    """A distance that may be nought."""
    return Number(0, 5_000, **more)


def place(**more: Any) -> Number:
    """A coordinate."""
    return Number(-1_000_000, 1_000_000, **more)


def level(**more: Any) -> Number:
    """A level over or under the bench mark."""
    return Number(-20_000, 20_000, **more)


class WithAssumed(Record):
    """A record that names its own fields that nobody has confirmed yet."""

    assumed = Listing(Text(greatest=64), greatest=50)

    def clashes(self, made: Any) -> dict[str, str]:
        own = [name for name in self.fields if name not in ("id", "assumed")]
        unknown = [name for name in made.assumed if name not in own]
        if unknown:
            return {"assumed": f"There is no field {unknown[0]} here to be assumed; allowed: {', '.join(own)}."}
        return {}


class LegsRecord(Record):
    makes = Legs
    least_mm = Number(10, 1_000)
    greatest_mm = Number(10, 1_000)
    reserve_mm = Number(0, 200)
    inset_front_mm = play()
    inset_back_mm = play()
    inset_side_mm = play()
    count = Number(4, 8, "legs", whole=True, allow_none=True)

    def clashes(self, made: Legs) -> dict[str, str]:
        if found := reversed_limits(made, ("least_mm", "greatest_mm")):
            return found
        if made.least_mm + 2 * made.reserve_mm > made.greatest_mm:
            most = (made.greatest_mm - made.least_mm) / 2
            return {"reserve_mm": f"Kept back at each end, it leaves nothing of the range; at most {most:g} here."}
        if made.count == 7:
            return {"count": "Allowed: 4, 5, 6 or 8, or null for the job's rule."}
        return {}


class FrontRecord(Record):
    makes = Front
    fit = Choice(FrontFit)
    thickness_mm = board()
    handle_projection_mm = play()
    opening_angle_deg = Number(1, 270, "degrees")
    frame_thickness_mm = board(0)
    set_back_mm = play()


class BoxRecord(Record):
    makes = Box
    board_mm = board()
    back_mm = board(0)
    back_recess_mm = play()
    bottom = Choice(BottomFit)


class ApplianceRecord(WithAssumed):
    makes = Appliance
    id = Slug()
    name = Text()
    seat = Choice(ApplianceSeat)
    least_height_mm = size()
    greatest_height_mm = size(allow_none=True)
    least_width_mm = size(allow_none=True)
    greatest_width_mm = size(allow_none=True)
    least_depth_mm = size(allow_none=True)
    greatest_depth_mm = size(allow_none=True)
    built_in = YesNo()
    bracket_reach_mm = Number(0, 500)
    assumed = Listing(Text(greatest=64), greatest=50)

    def clashes(self, made: Appliance) -> dict[str, str]:
        pairs = ((f"least_{size}_mm", f"greatest_{size}_mm") for size in ("height", "width", "depth"))
        return {**super().clashes(made), **reversed_limits(made, *pairs)}


class CarcassRecord(Record):
    makes = Carcass
    made_as = Choice(("carcass",))
    id = Slug()
    name = Text()
    width_mm = size()
    height_mm = size()
    depth_mm = size()
    storey = Choice(Storey)
    handing = Choice(Handing)
    legs = Part(LegsRecord, allow_none=True)
    front = Part(FrontRecord, allow_none=True)
    box = Part(BoxRecord)
    plinth_recess_mm = play()
    visible_drop_mm = Number(0, 500)
    appliances = Listing(Part(ApplianceRecord), greatest=10)

    def clashes(self, made: Carcass) -> dict[str, str]:
        return legs_on_a_wall(made)


class BayRecord(Record):
    makes = ApplianceBay
    made_as = Choice(("bay",))
    id = Slug()
    name = Text()
    width_mm = size()
    depth_mm = size()
    appliance = Part(ApplianceRecord)
    storey = Choice(Storey)
    way_out_mm = play(allow_none=True)
    plinth_runs_through = YesNo()


class PanelRecord(Record):
    makes = EndPanel
    made_as = Choice(("panel",))
    id = Slug()
    name = Text()
    thickness_mm = board()
    depth_mm = size()
    allowance_mm = Number(0, 300)
    to_floor = YesNo()
    storey = Choice(Storey)
    set_on = Choice(SetOn)


class FillerRecord(Record):
    makes = Filler
    made_as = Choice(("filler",))
    id = Slug()
    name = Text()
    width_mm = size(0)
    least_mm = size(0)
    greatest_mm = size(0)
    scribed = YesNo()
    storey = Choice(Storey)

    def clashes(self, made: Filler) -> dict[str, str]:
        return reversed_limits(made, ("least_mm", "greatest_mm"))


class PostRecord(Record):
    makes = CornerPost
    made_as = Choice(("post",))
    id = Slug()
    name = Text()
    width_mm = size()
    storey = Choice(Storey)
    to_floor = YesNo()
    set_on = Choice(SetOn)


class OpenUnitRecord(Record):
    makes = OpenUnit
    made_as = Choice(("open_unit",))
    id = Slug()
    name = Text()
    width_mm = size()
    height_mm = size()
    depth_mm = size()
    storey = Choice(Storey)
    legs = Part(LegsRecord, allow_none=True)
    frame_thickness_mm = board(0)
    frame_gap_mm = play()
    box = Part(BoxRecord)
    plinth_recess_mm = play()
    visible_drop_mm = Number(0, 500)

    def clashes(self, made: OpenUnit) -> dict[str, str]:
        return legs_on_a_wall(made)


class GapRecord(Record):
    makes = Gap
    made_as = Choice(("gap",))
    id = Slug()
    name = Text()
    width_mm = size(0)
    storey = Choice(Storey)


def legs_on_a_wall(made: Carcass | OpenUnit) -> dict[str, str]:
    if made.storey is Storey.WALL and made.legs is not None:
        return {"legs": "A wall unit hangs and has no legs; give null, or another storey."}
    return {}


ITEMS: dict[str, type[Record]] = {
    "carcass": CarcassRecord,
    "bay": BayRecord,
    "panel": PanelRecord,
    "filler": FillerRecord,
    "post": PostRecord,
    "open_unit": OpenUnitRecord,
    "gap": GapRecord,
}


class RunRecord(Record):
    makes = Run
    id = Slug()
    name = Text()
    x_mm = place()
    y_mm = place()
    bearing_deg = Number(-360, 360, "degrees")
    wall = Slug(allow_none=True)
    void_mm = play()
    datum_offset_mm = Number(-2_000, 2_000)
    items = Listing(OneOf("made_as", ITEMS), greatest=GREATEST_ITEMS)
