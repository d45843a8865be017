"""How a run is set out: what it ends at, what it is anchored on, its front line, batten, and what the wall carries.

All in run axes, mm: x from the run's zero to the right facing the wall, levels over the bench mark.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class EndsAt(StrEnum):
    """What a run comes to at an end: a wall; in a corner the other run's line of backs (its own units go into the
    corner) or that one's line of carcass fronts (it begins beside them); or nothing."""

    WALL = "wall"
    OTHER_BACKS = "other_backs"
    OTHER_FRONTS = "other_fronts"
    OPEN = "open"


@dataclass(frozen=True)
class RunEnd:
    """`run`: id of the other run in a corner, None elsewhere."""

    at: EndsAt = EndsAt.OPEN
    run: str | None = None


class FeatureKind(StrEnum):
    """What the wall carries. ELECTRIC: a socket, switch or outlet; PIPE: water, waste or gas."""

    WINDOW = "window"
    SILL = "sill"
    DOOR = "door"
    LINING = "lining"
    PIPE = "pipe"
    ELECTRIC = "electric"
    OTHER = "other"


@dataclass(frozen=True)
class Feature:
    """Something on the wall of a run, from `left_mm` to `right_mm` along it and from level `bottom_mm` to `top_mm`
    (None: not known), standing `stands_out_mm` out of the wall's face (negative: a reveal)."""

    id: str
    name: str
    kind: FeatureKind
    left_mm: float
    right_mm: float
    bottom_mm: float | None = None
    top_mm: float | None = None
    stands_out_mm: float = 0.0


class Edge(StrEnum):
    LEFT = "left"
    CENTRE = "centre"
    RIGHT = "right"


class AnchorOn(StrEnum):
    """Where the anchor is: an end, the middle between the ends, a feature, or a mark at a given x."""

    LEFT_END = "left_end"
    RIGHT_END = "right_end"
    MIDDLE = "middle"
    FEATURE = "feature"
    MARK = "mark"


@dataclass(frozen=True)
class Anchor:
    """The one spot that a row of items is set out from, outward both ways.

    `item`, `item_edge`, `item_offset_mm` (from that edge, to the right +) name what is put there, and `what` says it in
    words where it is a part of the item (bowl, hob, joint). `item` None: with an end the row itself; with MIDDLE,
    FEATURE or MARK the middle of the whole row.
    """

    on: AnchorOn = AnchorOn.LEFT_END
    feature: str | None = None
    feature_edge: Edge = Edge.CENTRE
    x_mm: float | None = None
    item: str | None = None
    item_edge: Edge = Edge.CENTRE
    item_offset_mm: float = 0.0
    what: str = ""


@dataclass(frozen=True)
class LineUp:
    """An edge that is meant to line up with one of another item or feature (`on`); the plan says by how much not."""

    item: str
    item_edge: Edge
    on: str
    on_edge: Edge


class LineIs(StrEnum):
    FREE = "free"
    PARALLEL = "parallel"
    SQUARE = "square"


@dataclass(frozen=True)
class FrontLineRule:
    """How the line through the carcass fronts may lie. FREE: where it wastes least depth, together with the runs that
    it meets in corners. PARALLEL: to the line between two points on the wall of this run: the edges of `feature`, where
    they were measured to be, or `from_x_mm` and `to_x_mm`. SQUARE: to `run`."""

    line: LineIs = LineIs.FREE
    from_x_mm: float | None = None
    to_x_mm: float | None = None
    run: str | None = None
    feature: str | None = None


class BattenIn(StrEnum):
    """In the void, behind the sides' rear edges; or in the recess behind the backs, cut out at every carcass side."""

    VOID = "void"
    RECESS = "recess"


@dataclass(frozen=True)
class Batten:
    """The timber along the wall, its top edge at the run's datum. `supports_mm`: x of studs or patresses where fixings
    must go; none given: every `spacing_mm` or closer. `lies_in` says which depth it may take up."""

    thickness_mm: float = 20.0
    height_mm: float = 45.0
    stock_mm: float = 2400.0
    spacing_mm: float = 600.0
    end_mm: float = 50.0
    lies_in: BattenIn = BattenIn.VOID
    supports_mm: tuple[float, ...] = ()


class PlinthCutKind(StrEnum):
    NOTCH = "notch"
    GRILLE = "grille"


@dataclass(frozen=True)
class PlinthCut:
    """What is cut out of the plinth in front of an item, from that item's appliance's sheet: a notch at its top edge (a
    door's swing) or a grille (ventilation). `left_mm` from the item's left edge. `up_mm`: from the plinth's foot to a
    grille's lower edge, None where the sheet's figure is not known yet, and for a notch."""

    kind: PlinthCutKind
    left_mm: float
    width_mm: float
    height_mm: float
    source: str = ""
    up_mm: float | None = None


@dataclass(frozen=True)
class Trim:
    """A cornice or light rail along wall units; `overhang_mm`: how far its outer face stands out of their fronts and
    ends. `returns`: whether it also runs back to the wall at free ends."""

    overhang_mm: float = 0.0
    returns: bool = True
