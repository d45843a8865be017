"""Rows of fitting charts: what one piece of hardware asks of the boards that it is fixed to. No rule and no formula.

All lengths in mm. Every row has an `id`, a `name`, a `source` (whose sheet, or that it is invented), `checked_on` (the
day on which somebody held the row against that sheet, ISO 8601; empty: nobody has) and `sha`, 16 hex digits over kind
and figures, by which a job names the row. A list of distances that belongs with another is as long as that one.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class HardwareKind(StrEnum):
    RUNNER = "runner"
    HINGE = "hinge"
    PLATE = "plate"
    LEG = "leg"
    BRACKET = "bracket"
    CONNECTOR = "connector"
    PIN = "pin"
    PULL_OUT = "pull_out"


class RebateFace(StrEnum):
    """On which face of a drawer's base a rebate lies. BELOW: the board hangs under its lip, over the runner; ABOVE: it
    costs as much of the inside."""

    BELOW = "below"
    ABOVE = "above"


class FixedTo(StrEnum):
    BOTTOM = "bottom"
    SIDES = "sides"


@dataclass(frozen=True)
class Runner:
    """A pair of drawer runners, one on either side of the compartment.

    length_mm: nominal; front_mm: its front end behind the carcass's front edge; rear_void_mm: free depth that it needs
    behind its rear end (a plug or locking pin). up_mm: height of its line of screws over the lower edge of the
    drawer's space, which is the front's lower edge; least_up_mm: the least height of that line over the board below.
    first_mm: first screw behind the carcass's front edge, for an overlay front; screws_mm: every screw behind the first
    one, itself (0) included. hole_mm, hole_depth_mm: of each. below_mm, above_mm: how far runner and drawer reach below
    and above the line; least_front_mm: least height of a front for it. side_mm: what runner and drawer side take of the
    inside width, each side. load_kg: what the pair carries.

    Drawer parts: board_mm: thickness of base and back that the chart is made for; base_less_mm, base_shorter_mm: base
    is inside width less the one, length_mm less the other; back_less_mm, back_height_mm: of the back. base_lip_mm,
    back_lip_mm: width of the rebate that a thicker board needs, on base_edges and back_edges (words out of left, right,
    front, back; of the back: left, right, top, bottom); base_face; base_clear_mm: what is free below the base's lip,
    over the runner.
    """

    id: str
    name: str
    length_mm: float
    front_mm: float
    rear_void_mm: float
    up_mm: float
    least_up_mm: float
    first_mm: float
    screws_mm: tuple[float, ...]
    hole_mm: float
    hole_depth_mm: float
    below_mm: float
    above_mm: float
    least_front_mm: float
    side_mm: float
    load_kg: float
    board_mm: float
    base_less_mm: float
    base_shorter_mm: float
    back_less_mm: float
    back_height_mm: float
    base_lip_mm: float
    base_edges: tuple[str, ...]
    base_face: RebateFace
    base_clear_mm: float
    back_lip_mm: float
    back_edges: tuple[str, ...]
    source: str = ""
    checked_on: str = ""
    sha: str = ""


@dataclass(frozen=True)
class Hinge:
    """A concealed hinge with a cup.

    cup_mm, cup_depth_mm: bore in the door; least_edge_mm, greatest_edge_mm: from the door's edge to the cup's rim.
    screws_back_mm: line of the cup's screws beyond the cup's centre, away from the door's edge; screws_apart_mm:
    between them along the door; screw_mm, screw_depth_mm: their holes. constant_mm: overlay of the door over the
    carcass's side = constant + edge distance - plate height. end_mm: first and last cup from the door's ends.
    intrusion_mm: how far the open door and hinge stand into the opening from the side's inside face. least_door_mm,
    greatest_door_mm: thickness. up_to_mm, up_to_kg: greatest height and greatest weight of a door with 2, 3, 4 ... of
    them.
    """

    id: str
    name: str
    opening_deg: float
    cup_mm: float
    cup_depth_mm: float
    least_edge_mm: float
    greatest_edge_mm: float
    screws_back_mm: float
    screws_apart_mm: float
    screw_mm: float
    screw_depth_mm: float
    constant_mm: float
    end_mm: float
    intrusion_mm: float
    least_door_mm: float
    greatest_door_mm: float
    up_to_mm: tuple[float, ...]
    up_to_kg: tuple[float, ...]
    source: str = ""
    checked_on: str = ""
    sha: str = ""


@dataclass(frozen=True)
class Plate:
    """A mounting plate: height_mm between side and hinge arm; its two screws spread_mm apart, one above the other,
    row_mm behind the carcass's front edge for an overlay door."""

    id: str
    name: str
    height_mm: float
    row_mm: float
    spread_mm: float
    hole_mm: float
    hole_depth_mm: float
    source: str = ""
    checked_on: str = ""
    sha: str = ""


@dataclass(frozen=True)
class Leg:
    """An adjustable leg: holes in the carcass's underside, at right_mm (to the right) and back_mm (towards the back)
    from the leg's centre, as fitted."""

    id: str
    name: str
    least_mm: float
    greatest_mm: float
    right_mm: tuple[float, ...]
    back_mm: tuple[float, ...]
    hole_mm: float
    hole_depth_mm: float
    load_kg: float
    source: str = ""
    checked_on: str = ""
    sha: str = ""


@dataclass(frozen=True)
class Bracket:
    """A hanging bracket inside a wall unit, on the side: holes at down_mm from the side's top edge and in_mm from its
    back edge. rail_down_mm: top edge of the rail below the unit's top; least_recess_mm: the back's least set-in;
    load_kg: what a pair carries into the rail, never what the wall does."""

    id: str
    name: str
    down_mm: tuple[float, ...]
    in_mm: tuple[float, ...]
    hole_mm: float
    hole_depth_mm: float
    rail_down_mm: float
    least_recess_mm: float
    load_kg: float
    source: str = ""
    checked_on: str = ""
    sha: str = ""


@dataclass(frozen=True)
class Connector:
    """A screw through the sides of two neighbours: hole_mm right through both; two lines, front_mm behind the front
    edge and back_mm before the back edge, on each of them one screw near the top and one near the bottom, top_mm and
    bottom_mm from those ends; clear_mm: kept from the rim of any other hole. least_boards_mm, greatest_boards_mm: of
    both sides together."""

    id: str
    name: str
    hole_mm: float
    front_mm: float
    back_mm: float
    top_mm: float
    bottom_mm: float
    clear_mm: float
    least_boards_mm: float
    greatest_boards_mm: float
    source: str = ""
    checked_on: str = ""
    sha: str = ""


@dataclass(frozen=True)
class Pin:
    """A shelf pin: its front row row_mm behind the front edge, the rear row a multiple of pitch_mm behind it and at
    least least_back_mm before the side's rear edge; holes on a grid of pitch_mm. load_kg: of four."""

    id: str
    name: str
    hole_mm: float
    hole_depth_mm: float
    row_mm: float
    pitch_mm: float
    least_back_mm: float
    load_kg: float
    source: str = ""
    checked_on: str = ""
    sha: str = ""


@dataclass(frozen=True)
class PullOut:
    """A frame that comes out as a whole (bins, racks), fixed to the bottom or to both sides.

    least_width_mm, greatest_width_mm, least_depth_mm, least_height_mm: of the inside that it needs. holes_u_mm: behind
    the carcass's front edge; holes_across_mm: of the same holes, from the compartment's middle to the right (bottom),
    or up from the bottom's upper face (sides). door_up_mm, door_across_mm: holes in the front that hangs on it, from
    its lower edge and from its middle; none: it has no front of its own.
    """

    id: str
    name: str
    fixed_to: FixedTo
    least_width_mm: float
    greatest_width_mm: float
    least_depth_mm: float
    least_height_mm: float
    holes_u_mm: tuple[float, ...]
    holes_across_mm: tuple[float, ...]
    hole_mm: float
    hole_depth_mm: float
    door_up_mm: tuple[float, ...]
    door_across_mm: tuple[float, ...]
    door_hole_mm: float
    door_hole_depth_mm: float
    load_kg: float
    source: str = ""
    checked_on: str = ""
    sha: str = ""


HardwareRow = Runner | Hinge | Plate | Leg | Bracket | Connector | Pin | PullOut
ROW_OF: dict[HardwareKind, type[HardwareRow]] = {
    HardwareKind.RUNNER: Runner,
    HardwareKind.HINGE: Hinge,
    HardwareKind.PLATE: Plate,
    HardwareKind.LEG: Leg,
    HardwareKind.BRACKET: Bracket,
    HardwareKind.CONNECTOR: Connector,
    HardwareKind.PIN: Pin,
    HardwareKind.PULL_OUT: PullOut,
}


@dataclass(frozen=True)
class PinnedRow:
    """The row of a chart as this job uses it: a changed chart changes no job until the office takes the new row."""

    kind: HardwareKind
    row: str
    sha: str
