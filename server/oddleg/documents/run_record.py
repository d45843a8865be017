"""Records of a run and of the items in it."""

from __future__ import annotations

from oddleg.job import (
    Appliance,
    ApplianceBay,
    ApplianceSeat,
    BackIs,
    BottomFit,
    Box,
    Carcass,
    CornerPost,
    EndPanel,
    Filler,
    Front,
    FrontFit,
    FrontMoves,
    Gap,
    Handing,
    Legs,
    OpenUnit,
    Run,
    SetOn,
    Storey,
    TopIs,
)

from .fields import Choice, Listing, Number, OneOf, Part, Record, Slug, Text, YesNo, reversed_limits
from .fitting_out_record import FittingOutRecord
from .services_record import GREATEST_SERVICES, PassageRecord, ServiceRecord, VentRecord
from .setting_out_record import (
    AnchorRecord,
    BattenRecord,
    FeatureRecord,
    FrontLineRuleRecord,
    LineUpRecord,
    PlinthCutRecord,
    RunEndRecord,
    TrimRecord,
)
from .sizes import WithAssumed, board, place, play, size, width_within

GREATEST_ITEMS = 2000


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
    moves = Choice(FrontMoves)
    density_kg_m3 = Number(50, 5_000, "kg/m3")


class BoxRecord(Record):
    makes = Box
    board_mm = board()
    back_mm = board(0)
    back_recess_mm = play()
    bottom = Choice(BottomFit)
    top = Choice(TopIs)
    rail_mm = size()
    back = Choice(BackIs)
    groove_mm = Number(0, 100)

    def clashes(self, made: Box) -> dict[str, str]:
        if (made.back is BackIs.GROOVE) != (made.groove_mm > 0):
            return {
                "groove_mm": "A back in a groove needs the groove's depth."
                if made.groove_mm == 0
                else "Only a back in a groove has a groove's depth; give 0 here, or groove for back."
            }
        if made.groove_mm >= made.board_mm:
            return {"groove_mm": f"It must be less than the board, {made.board_mm:g}."}
        return {}


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
    clear_above_mm = play(allow_none=True)
    clear_below_mm = play(allow_none=True)
    drop_mm = play(allow_none=True)
    air_gap_mm = play(allow_none=True)
    at_mm = play(allow_none=True)
    relief_height_mm = play(allow_none=True)
    relief_depth_mm = play(allow_none=True)
    vents = Listing(Part(VentRecord), greatest=20)
    cooks = YesNo()
    assumed = Listing(Text(greatest=64), greatest=50)

    def clashes(self, made: Appliance) -> dict[str, str]:
        pairs = ((f"least_{size}_mm", f"greatest_{size}_mm") for size in ("height", "width", "depth"))
        found = {**super().clashes(made), **reversed_limits(made, *pairs)}
        if made.drop_mm is not None and made.seat is not ApplianceSeat.IN_TOP:
            found["drop_mm"] = "Only what is let into the worktop (in_top) hangs below it; give null here."
        if (made.relief_height_mm is None) != (made.relief_depth_mm is None):
            missing = "relief_depth_mm" if made.relief_depth_mm is None else "relief_height_mm"
            found[missing] = "A relief at the back has a height and a depth: give both, or neither."
        return found


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
    blind_mm = play()
    plinth_cuts = Listing(Part(PlinthCutRecord), greatest=20)
    width_within_mm = width_within()
    fitting_out = Part(FittingOutRecord, allow_none=True)

    def clashes(self, made: Carcass) -> dict[str, str]:
        found = {**legs_on_a_wall(made), **cuts_beside(made)}
        if made.blind_mm >= made.width_mm:
            found["blind_mm"] = f"It leaves nothing of the carcass to open; less than its width, {made.width_mm:g}."
        return found


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
    front = Part(FrontRecord, allow_none=True)
    plinth_cuts = Listing(Part(PlinthCutRecord), greatest=20)

    def clashes(self, made: ApplianceBay) -> dict[str, str]:
        return cuts_beside(made)


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
    width_within_mm = width_within()


class FillerRecord(Record):
    makes = Filler
    made_as = Choice(("filler",))
    id = Slug()
    name = Text()
    width_mm = size(0)
    least_mm = size(0)
    greatest_mm = size(0)
    scribed = YesNo()
    share = Number(0, 1_000, "")
    storey = Choice(Storey)

    def clashes(self, made: Filler) -> dict[str, str]:
        found = reversed_limits(made, ("least_mm", "greatest_mm"))
        if not found and not made.least_mm <= made.width_mm <= made.greatest_mm:
            found["width_mm"] = (
                f"{made.name} is drawn {made.width_mm:g} wide, and may be {made.least_mm:g} to {made.greatest_mm:g}; "
                "put its width right, or its limits."
            )
        return found


class PostRecord(Record):
    makes = CornerPost
    made_as = Choice(("post",))
    id = Slug()
    name = Text()
    width_mm = size()
    storey = Choice(Storey)
    to_floor = YesNo()
    set_on = Choice(SetOn)
    width_within_mm = width_within()


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
    width_within_mm = width_within()
    fitting_out = Part(FittingOutRecord, allow_none=True)

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


def cuts_beside(made: Carcass | ApplianceBay) -> dict[str, str]:
    if any(cut.left_mm + cut.width_mm > made.width_mm for cut in made.plinth_cuts):
        return {"plinth_cuts": f"One reaches beyond the item's right edge; the item is {made.width_mm:g} wide."}
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
    left_end = Part(RunEndRecord)
    right_end = Part(RunEndRecord)
    opening_mm = size(allow_none=True)
    anchor = Part(AnchorRecord, allow_none=True)
    wall_anchor = Part(AnchorRecord, allow_none=True)
    front_line = Part(FrontLineRuleRecord)
    batten = Part(BattenRecord, allow_none=True)
    features = Listing(Part(FeatureRecord), greatest=200)
    line_up = Listing(Part(LineUpRecord), greatest=200)
    cornice = Part(TrimRecord, allow_none=True)
    light_rail = Part(TrimRecord, allow_none=True)
    services = Listing(Part(ServiceRecord), greatest=GREATEST_SERVICES)
    passages = Listing(Part(PassageRecord), greatest=GREATEST_SERVICES)

    def clashes(self, made: Run) -> dict[str, str]:
        if made.batten is not None and made.wall is None:
            return {"batten": "A run without a wall has nothing to fix a batten to; give null, or name its wall."}
        if made.batten is not None and made.opening_mm is not None:
            # In a corner the wall goes on to the left of the zero.
            least_mm = 0.0 if made.left_end.run is None else -made.opening_mm
            beyond = [x for x in made.batten.supports_mm if not least_mm <= x <= made.opening_mm]
            if beyond:
                return {
                    "batten": f"In supports_mm, {beyond[0]:g} lies beyond {made.name}, which is {made.opening_mm:g} "
                    "long; give the studs and patresses behind this run, from its zero."
                }
        return {}
