"""What follows for one carcass from what it is fitted out with: fronts, drawers, panels with their holes, parts.

Carcass axes: see `carcass_box`. Panel axes: u and v from the panel's own origin corner, one table for every kind in
`panel_axes`. All mm, nothing rounded.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from oddleg.job import FrontIs, HungOn, RebateFace

from .carcass_box import CarcassBox
from .finding import Finding


@dataclass(frozen=True)
class PlacedFront:
    """One leaf of a stack as it hangs: a pair of doors makes two, with `-left` and `-right` after the member's id.

    `left_mm`, `foot_mm`: of its left and lower edge, x and z in carcass axes; a SPACE has no board: `thickness_mm` 0.
    `stands_mm`: u of its inside face (0 for an overlay front, thickness and set-back inside for an inset one: u of its
    back). `hung`: the side its hinges are on. `cups_mm`: heights of the cups over its lower edge. `overlay_mm`: over
    the side or divider that it hangs on. `edge_mm`: from its hinge edge to the cup's rim.
    """

    id: str
    member: str
    name: str
    compartment: str
    front: FrontIs
    left_mm: float
    foot_mm: float
    width_mm: float
    height_mm: float
    thickness_mm: float
    stands_mm: float
    hung: HungOn | None = None
    runner: str | None = None
    hinge: str | None = None
    plate: str | None = None
    pull_out: str | None = None
    weight_kg: float = 0.0
    cups_mm: tuple[float, ...] = ()
    edge_mm: float | None = None
    overlay_mm: float | None = None
    hinges_words: str = ""


@dataclass(frozen=True)
class DrawerBox:
    """A drawer on its runners. `line_mm`: z of the runners' screws; `left_mm` to `right_mm`: between the faces that the
    runners are fixed to (spacers taken off); `first_mm`: u of the first screw; from `front_u_mm` to `rear_u_mm`, void
    behind it included; from `low_mm` to `high_mm` it and its runners take up the height. `front`: id of its front; None
    for an inner drawer."""

    id: str
    name: str
    compartment: str
    runner: str
    front: str | None
    left_mm: float
    right_mm: float
    line_mm: float
    first_mm: float
    front_u_mm: float
    rear_u_mm: float
    low_mm: float
    high_mm: float
    spacer_mm: float = 0.0


@dataclass(frozen=True)
class StackFilled:
    """A stack with its heights. `opening_mm`: what it has to fill; `sum_mm`: what fronts and gaps come to."""

    compartment: str
    opening_mm: float
    sum_mm: float
    words: str


class PanelKind(StrEnum):
    LEFT = "left_side"
    RIGHT = "right_side"
    DIVIDER = "divider"
    BOTTOM = "bottom"
    TOP = "top"
    FRONT_RAIL = "front_rail"
    BACK_RAIL = "back_rail"
    BACK = "back"
    SHELF = "shelf"
    FRONT = "front"


class Face(StrEnum):
    """The face whose axes the panel is told in, or the one behind it (told with the same u, v)."""

    SHOWN = "shown"
    OTHER = "other"


class HoleFor(StrEnum):
    RUNNER = "runner"
    CUP = "cup"
    CUP_SCREW = "cup_screw"
    PLATE = "plate"
    LEG = "leg"
    BRACKET = "bracket"
    CONNECTOR = "connector"
    PIN = "pin"
    PULL_OUT = "pull_out"
    PASSAGE = "passage"


@dataclass(frozen=True)
class Hole:
    """`id` stays the same while what it is for does. `depth_mm` None: right through. `of`: id of what it serves; `row`:
    id of the chart's row; `words`: what it is for."""

    id: str
    u_mm: float
    v_mm: float
    diameter_mm: float
    depth_mm: float | None
    hole_for: HoleFor
    of: str
    words: str
    face: Face = Face.SHOWN
    row: str | None = None


@dataclass(frozen=True)
class CutOut:
    """An opening sawn or routed in a panel: left_mm and foot_mm are u and v of its lower left corner on the shown face.
    `open_to`: edges that it runs out to (left, right, top, bottom). `round`: width_mm is a diameter. `services`: ids.
    """

    id: str
    left_mm: float
    foot_mm: float
    width_mm: float
    height_mm: float
    radius_mm: float
    round: bool
    open_to: tuple[str, ...]
    services: tuple[str, ...]
    words: str


@dataclass(frozen=True)
class Groove:
    """What the back goes into, in the shown face: from_mm behind the board's front edge, width_mm, depth_mm."""

    from_mm: float
    width_mm: float
    depth_mm: float


@dataclass(frozen=True)
class Panel:
    """One board. width_mm along u, height_mm along v. x_mm, u_mm, z_mm: carcass axes of its origin corner. `mirrored`:
    on the drawing of its shown face u runs to the left. `face_words`: which face is up; `origin_words`: where u, v
    start; `front_edge`: the edge of the drawing that is the carcass's front (left, right, bottom, top; None: has none).
    """

    id: str
    item: str
    kind: PanelKind
    name: str
    width_mm: float
    height_mm: float
    thickness_mm: float
    x_mm: float
    u_mm: float
    z_mm: float
    mirrored: bool
    front_edge: str | None
    face_words: str
    other_face_words: str
    origin_words: str
    holes: tuple[Hole, ...] = ()
    cut_outs: tuple[CutOut, ...] = ()
    groove: Groove | None = None


@dataclass(frozen=True)
class Rebate:
    """What brings a thicker board back to the chart's: `depth_mm` of the face, `lip_mm` wide, along `edges`."""

    depth_mm: float
    lip_mm: float
    edges: tuple[str, ...]
    face: RebateFace | None
    words: str


class PartIs(StrEnum):
    BASE = "base"
    BACK = "back"
    SPACER = "spacer"


@dataclass(frozen=True)
class DrawerPart:
    """A board of a drawer, or a spacer under its runner. length_mm runs along the grain: across the drawer for base and
    back, along the runner for a spacer."""

    drawer: str
    part: PartIs
    length_mm: float
    width_mm: float
    thickness_mm: float
    count: int
    rebate: Rebate | None
    words: str


@dataclass(frozen=True)
class StickMark:
    """One hole on the stick: `along_mm` from the stick's end that sits on the carcass's bottom edge (or front edge)."""

    along_mm: float
    hole: str
    words: str


@dataclass(frozen=True)
class Stick:
    """A straight stick against a side's front edge (or bottom edge), its foot on the edge named: every hole of a line
    that is `offset_mm` away from that edge; the same marks serve further lines, `also_mm` away from it. The same stick
    serves both sides, turned over."""

    id: str
    name: str
    panels: tuple[str, ...]
    against: str
    foot_on: str
    offset_mm: float
    length_mm: float
    marks: tuple[StickMark, ...]
    words: str
    also_mm: tuple[float, ...] = ()


@dataclass(frozen=True)
class FittedOut:
    """All of it for one item. `number` as in the unit list; None for what stands on no legs and has none there."""

    item: str
    number: int | None
    name: str
    box: CarcassBox
    stacks: tuple[StackFilled, ...] = ()
    fronts: tuple[PlacedFront, ...] = ()
    drawers: tuple[DrawerBox, ...] = ()
    panels: tuple[Panel, ...] = ()
    drawer_parts: tuple[DrawerPart, ...] = ()
    sticks: tuple[Stick, ...] = ()
    findings: tuple[Finding, ...] = ()
