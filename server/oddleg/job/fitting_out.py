"""What a carcass is fitted out with: compartments, stacks of fronts, drawers, shelves, and the rows of charts for them.

Heights are in mm: `up_mm` from the upper face of the carcass's bottom; those of fronts from the fronts' own edges.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class FrontIs(StrEnum):
    """What a member of a stack is. FIXED: a front that does not open; SPACE: no front (an appliance, a niche)."""

    DOOR = "door"
    DRAWER = "drawer"
    FLAP = "flap"
    PULL_OUT = "pull_out"
    FIXED = "fixed"
    SPACE = "space"


class HungOn(StrEnum):
    LEFT = "left"
    RIGHT = "right"
    PAIR = "pair"


class TopIs(StrEnum):
    PANEL = "panel"
    RAILS = "rails"


class BackIs(StrEnum):
    """BETWEEN the sides, top and bottom; in a GROOVE in them; or ON their rear edges."""

    BETWEEN = "between"
    GROOVE = "groove"
    ON = "on"


@dataclass(frozen=True)
class StackMember:
    """One member of a stack: `height_mm` fixed, or `share` of what is left, or neither: all that is left ("the rest").

    `hung` for doors. `runner`, `hinge`, `plate`, `pull_out`: ids of rows of charts. `cups_mm`: heights of the hinges'
    cups over the front's lower edge; none given: by the hinge's chart.
    """

    id: str
    name: str
    front: FrontIs = FrontIs.DOOR
    height_mm: float | None = None
    share: float | None = None
    hung: HungOn | None = None
    runner: str | None = None
    hinge: str | None = None
    plate: str | None = None
    pull_out: str | None = None
    cups_mm: tuple[float, ...] = ()


@dataclass(frozen=True)
class Stack:
    """Fronts one above the other, from the top down.

    They fill the carcass's outside height (overlay), less top_mm and bottom_mm, or its inside height (inset, or a face
    frame), less a gap at either end besides those two. gap_mm: between one and the next. side_mm: what an overlay front
    is short of the carcass's outside edge, and an inset one of the inside, on each side. snap: the lower edges of
    drawers move to the nearest line of the grid at which their runner's screws meet it; what a front gives its
    neighbour takes.
    """

    members: tuple[StackMember, ...] = ()
    gap_mm: float = 3.0
    top_mm: float = 0.0
    bottom_mm: float = 0.0
    side_mm: float = 1.5
    snap: bool = False


@dataclass(frozen=True)
class InnerDrawer:
    """A drawer behind a door. `height_mm` of its space, `up_mm` that space's lower edge; `spacer_mm` under the runners,
    each side; `set_back_mm`: its front behind the carcass's front edge."""

    id: str
    name: str
    up_mm: float
    height_mm: float
    runner: str
    spacer_mm: float = 0.0
    set_back_mm: float = 0.0


@dataclass(frozen=True)
class InnerPullOut:
    """A pull-out frame behind a door that opens by itself."""

    id: str
    name: str
    pull_out: str
    spacer_mm: float = 0.0


@dataclass(frozen=True)
class Shelf:
    """`up_mm`: its underside. Fixed, or on `pins`: then up_mm is moved to the nearest hole of the grid, and `spare`
    further holes lie above and below. `thickness_mm` None: the carcass's board. `set_back_mm`: behind the front edge.
    `clear_mm`: what one that is not fixed is cut short of the inside at either end, so that it goes in (ours).
    """

    id: str
    name: str
    up_mm: float
    fixed: bool = False
    pins: str | None = None
    spare: int = 2
    thickness_mm: float | None = None
    set_back_mm: float = 0.0
    clear_mm: float = 1.0


@dataclass(frozen=True)
class Compartment:
    """A part of the inside, between sides and dividers. `width_mm` None: an equal share of what is left."""

    id: str
    name: str
    width_mm: float | None = None
    stack: Stack | None = None
    inner_drawers: tuple[InnerDrawer, ...] = ()
    pull_outs: tuple[InnerPullOut, ...] = ()
    shelves: tuple[Shelf, ...] = ()


@dataclass(frozen=True)
class FittingOut:
    """Compartments from left to right with a divider of `divider_mm` between each and the next.

    `grid_first_mm`: height of the grid's lowest hole over a side's lower edge; None: the grid is balanced, as far from
    the top as from the bottom. `drawer_board_mm`: of its drawers' bases and backs; None: the carcass's board.
    `spacer_strip_mm`: height of the strips under runners. `leg`, `bracket`, `connector`: ids of rows of charts.
    """

    compartments: tuple[Compartment, ...] = ()
    divider_mm: float = 18.0
    grid_first_mm: float | None = None
    drawer_board_mm: float | None = None
    spacer_strip_mm: float = 50.0
    leg: str | None = None
    bracket: str | None = None
    connector: str | None = None


@dataclass(frozen=True)
class HoleLimits:
    """What holes are held to, mm; rules of thumb. least_web_mm: between the rims of two holes. least_edge_mm: from a
    rim to the board's edge. least_skin_mm: what is left of the board behind a hole that does not go through, and
    between two from opposite faces. shop_mm: what work on a bench holds, and panels and holes are shown to; what is set
    out on site is shown to the job's `rounding_mm`."""

    least_web_mm: float = 3.0
    least_edge_mm: float = 3.0
    least_skin_mm: float = 2.0
    shop_mm: float = 0.1
