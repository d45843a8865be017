"""Runs and the items in them.

Run axes: stand facing the wall; x to the right from the run's zero mark, y out of the wall towards you, z up. All mm.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from .fitting_out import BackIs, FittingOut, TopIs
from .services import Passage, Service, Vent
from .setting_out import Anchor, Batten, Feature, FrontLineRule, LineUp, PlinthCut, RunEnd, Trim


class Storey(StrEnum):
    """Where an item stands or hangs: base under the worktop, tall from the floor, wall above the worktop."""

    BASE = "base"
    TALL = "tall"
    WALL = "wall"


class Handing(StrEnum):
    """The side on which a single door hangs; a pair, or none where no door hangs."""

    LEFT = "left"
    RIGHT = "right"
    PAIR = "pair"
    NONE = "none"


class FrontFit(StrEnum):
    OVERLAY = "overlay"
    INSET = "inset"
    FRAME = "frame"


class BottomFit(StrEnum):
    BETWEEN_SIDES = "between_sides"
    UNDER_SIDES = "under_sides"


class SetOn(StrEnum):
    """What a panel or post that runs to the floor is set on: the finished floor, or, where that is laid up to it
    afterwards, what is there under the units."""

    FINISHED_FLOOR = "finished_floor"
    WHAT_IS_THERE = "what_is_there"


class ApplianceSeat(StrEnum):
    """IN_TOP: let into the worktop (a hob). OVER_TOP: hangs over it (a hood); it is one of the appliances of a wall
    unit, whose underside counts for its own."""

    UNDER_TOP = "under_top"
    BESIDE_TOP = "beside_top"
    IN_CARCASS = "in_carcass"
    IN_TOP = "in_top"
    OVER_TOP = "over_top"


class FrontMoves(StrEnum):
    """How a front comes open: a door swings on one side, a drawer comes straight out, a flap swings at its foot."""

    DOOR = "door"
    DRAWER = "drawer"
    FLAP = "flap"


@dataclass(frozen=True)
class Legs:
    """Adjustable legs of one carcass. Insets are from the carcass's outside edges to the leg's centre.

    `reserve_mm` is kept back at each end of the range. `count` None: four, and six, with one in the middle of each row,
    from the job's width on. Else 4, 5 (two at the back, three in front: FL, FM, FR, BL, BR), 6 or 8 (four and four,
    those between the ends named ML and MR), spaced evenly between the side insets.
    """

    least_mm: float
    greatest_mm: float
    reserve_mm: float = 5.0
    inset_front_mm: float = 60.0
    inset_back_mm: float = 40.0
    inset_side_mm: float = 40.0
    count: int | None = None


@dataclass(frozen=True)
class Front:
    """`density_kg_m3`: of its board, for its weight."""

    fit: FrontFit = FrontFit.OVERLAY
    thickness_mm: float = 20.0
    handle_projection_mm: float = 0.0
    opening_angle_deg: float = 110.0
    frame_thickness_mm: float = 0.0
    set_back_mm: float = 0.0
    moves: FrontMoves = FrontMoves.DOOR
    density_kg_m3: float = 750.0


@dataclass(frozen=True)
class Box:
    """How a carcass is made: board, back recess (back panel's set-in from the carcass's rear edge), bottom's place.

    `top`: a panel, or two rails of `rail_mm` laid flat, one at the front and one at the back. `back`: where its edges
    lie; `groove_mm`: how deep they go into sides, top and bottom.
    """

    board_mm: float = 18.0
    back_mm: float = 8.0
    back_recess_mm: float = 0.0
    bottom: BottomFit = BottomFit.BETWEEN_SIDES
    top: TopIs = TopIs.PANEL
    rail_mm: float = 100.0
    back: BackIs = BackIs.BETWEEN
    groove_mm: float = 0.0


@dataclass(frozen=True)
class Appliance:
    """Sizes from the appliance's own sheet; heights are those of the opening that it wants, clearance included.

    `least_height_mm`: the opening's least height with the feet wound in. `greatest_height_mm`: how high it can be
    raised. `built_in`: fixed to the top by brackets that reach `bracket_reach_mm` above it. `assumed`: names of fields
    that nobody has read off the sheet yet. `clear_above_mm`, `clear_below_mm`: the clear height that the sheet of a hob
    or cooker wants above the worktop, and that of a hood between worktop and itself; None: nobody has read it yet.
    `drop_mm`: how deep what is let into the top (hob, bowl) hangs below its upper face, and `air_gap_mm` what must stay
    free below that; `at_mm`: its left edge from that of its carcass (None: in the middle). `relief_height_mm`: height
    over the floor up to which the back of a machine stands back by `relief_depth_mm`, for what stands out of the wall.
    `vents`: what its sheet asks. `cooks`: False for
    what is let into the top and no hob: a bowl, a tap.
    """

    id: str
    name: str
    seat: ApplianceSeat
    least_height_mm: float
    greatest_height_mm: float | None = None
    least_width_mm: float | None = None
    greatest_width_mm: float | None = None
    least_depth_mm: float | None = None
    greatest_depth_mm: float | None = None
    built_in: bool = False
    bracket_reach_mm: float = 0.0
    clear_above_mm: float | None = None
    clear_below_mm: float | None = None
    drop_mm: float | None = None
    air_gap_mm: float | None = None
    at_mm: float | None = None
    relief_height_mm: float | None = None
    relief_depth_mm: float | None = None
    vents: tuple[Vent, ...] = ()
    cooks: bool = True
    assumed: tuple[str, ...] = ()


@dataclass(frozen=True)
class Carcass:
    """A box of outside size width x height x depth. `legs` None for wall units.

    `visible_drop_mm`: how far a rail or front drops below the carcass's underside where the plinth meets it.
    `blind_mm`: width of the part, at the end of the run that meets a corner, that nothing opens on. `width_within_mm`,
    here and of open units, panels and posts: how far it may be off its width, either way; None: a unit by the job's
    `unit_size_mm`, a panel or post by nothing.
    """

    id: str
    name: str
    width_mm: float
    height_mm: float
    depth_mm: float
    storey: Storey = Storey.BASE
    handing: Handing = Handing.NONE
    legs: Legs | None = None
    front: Front | None = None
    box: Box = Box()
    plinth_recess_mm: float = 50.0
    visible_drop_mm: float = 0.0
    appliances: tuple[Appliance, ...] = ()
    blind_mm: float = 0.0
    plinth_cuts: tuple[PlinthCut, ...] = ()
    width_within_mm: float | None = None
    fitting_out: FittingOut | None = None
    made_as: str = "carcass"


@dataclass(frozen=True)
class ApplianceBay:
    """Room kept for an appliance that stands on the finished floor. Never a place for slack.

    `way_out_mm`: how far out of the front line the floor counts for going in and coming out; None: as far as the
    machine is deep (the bay where its sheet gives no depth), for so long some of it is still under the top.
    """

    id: str
    name: str
    width_mm: float
    depth_mm: float
    appliance: Appliance
    storey: Storey = Storey.BASE
    way_out_mm: float | None = None
    plinth_runs_through: bool = False
    front: Front | None = None
    plinth_cuts: tuple[PlinthCut, ...] = ()
    made_as: str = "bay"


@dataclass(frozen=True)
class EndPanel:
    id: str
    name: str
    thickness_mm: float
    depth_mm: float
    allowance_mm: float = 0.0
    to_floor: bool = True
    storey: Storey = Storey.BASE
    set_on: SetOn = SetOn.FINISHED_FLOOR
    width_within_mm: float | None = None
    made_as: str = "panel"

    @property
    def width_mm(self) -> float:
        return self.thickness_mm + self.allowance_mm


@dataclass(frozen=True)
class Filler:
    """A strip that takes up what is left, from `least_mm` to `greatest_mm` wide; `width_mm` is what the drawing gives
    it.

    `share`: of what fillers on the same side of the anchor have to take up, this one takes its share over the sum of
    theirs; 0: it keeps `width_mm`. Equal shares, a given ratio, and one that takes all are all said with it.
    """

    id: str
    name: str
    width_mm: float
    least_mm: float
    greatest_mm: float
    scribed: bool = True
    share: float = 1.0
    storey: Storey = Storey.BASE
    made_as: str = "filler"


@dataclass(frozen=True)
class CornerPost:
    id: str
    name: str
    width_mm: float
    storey: Storey = Storey.BASE
    to_floor: bool = False
    set_on: SetOn = SetOn.FINISHED_FLOOR
    width_within_mm: float | None = None
    made_as: str = "post"


@dataclass(frozen=True)
class OpenUnit:
    """An open unit with a face frame that also covers its sides: on the rod it takes its own width and, on either
    side, the frame's thickness and the gap between frame and carcass."""

    id: str
    name: str
    width_mm: float
    height_mm: float
    depth_mm: float
    storey: Storey = Storey.BASE
    legs: Legs | None = None
    frame_thickness_mm: float = 0.0
    frame_gap_mm: float = 0.0
    box: Box = Box()
    plinth_recess_mm: float = 50.0
    visible_drop_mm: float = 0.0
    width_within_mm: float | None = None
    fitting_out: FittingOut | None = None
    made_as: str = "open_unit"


@dataclass(frozen=True)
class Gap:
    id: str
    name: str
    width_mm: float
    storey: Storey = Storey.BASE
    made_as: str = "gap"


Item = Carcass | ApplianceBay | EndPanel | Filler | CornerPost | OpenUnit | Gap


@dataclass(frozen=True)
class Run:
    """A straight line of items along a wall, or free-standing (`wall` None; its back is the side at y = 0).

    Origin X, Y and bearing of the x axis, clockwise from the room's X seen from above. Items follow one another from
    the zero, base and tall ones along the floor, wall ones on a line of their own from the same zero. `void_mm`:
    service void between the line y = 0 and the carcass backs; once the wall is read, the least void that is wanted
    anywhere. `datum_offset_mm`: this run's top over the room's datum. `opening_mm`: from the left end to the right one
    as drawn, wall to wall where two walls are; None: nobody knows. `anchor` for what stands, `wall_anchor` for what
    hangs; None: from the left end. `cornice`, `light_rail`: along tops and undersides of its wall units.
    """

    id: str
    name: str
    x_mm: float
    y_mm: float
    bearing_deg: float
    wall: str | None = None
    void_mm: float = 0.0
    datum_offset_mm: float = 0.0
    items: tuple[Item, ...] = ()
    left_end: RunEnd = RunEnd()
    right_end: RunEnd = RunEnd()
    opening_mm: float | None = None
    anchor: Anchor | None = None
    wall_anchor: Anchor | None = None
    front_line: FrontLineRule = FrontLineRule()
    batten: Batten | None = None
    features: tuple[Feature, ...] = ()
    line_up: tuple[LineUp, ...] = ()
    cornice: Trim | None = None
    light_rail: Trim | None = None
    services: tuple[Service, ...] = ()
    passages: tuple[Passage, ...] = ()
