"""The room: walls, bench marks, floor build-up, break lines, doorways, height limits and stations.

Room axes: X, Y in plan from a named corner, seen from above with the first wall at the top of the page, X to the
right, Y down the page, z up from the bench mark. All lengths in mm, levels in mm above the bench mark.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from .run import Run


class Stage(StrEnum):
    """What a floor reading stood on, in the order in which a floor comes to be."""

    AS_FOUND = "as_found"
    STRIPPED = "stripped"
    LEVELLED = "levelled"
    TILED = "tiled"

    @property
    def rank(self) -> int:
        return list(Stage).index(self)


class Manner(StrEnum):
    """How a layer lies: it follows what is below at constant thickness, or it makes one level plane."""

    FOLLOWS = "follows"
    LEVELS = "levels"


@dataclass(frozen=True)
class Point:
    x_mm: float
    y_mm: float


@dataclass(frozen=True)
class Wall:
    """One wall as a line of at least two points; wall follows wall in plan, seen from above."""

    id: str
    name: str
    points: tuple[Point, ...]


@dataclass(frozen=True)
class BenchMark:
    """A fixed mark of given level. Its place is optional: without one its readings weigh alike."""

    id: str
    name: str
    level_mm: float = 0.0
    x_mm: float | None = None
    y_mm: float | None = None


@dataclass(frozen=True)
class Layer:
    """A layer of the floor build-up, listed from below upwards.

    `thickness_mm` is the constant thickness of a layer that follows, and the least thickness, at the high spot, of
    one that levels. The layer is there from stage `laid_at` on, so a reading of that stage or later stands on it.
    `under_units` False: it stops in front of the units. `bays`: ids of appliance bays that it goes into; None: all.
    """

    id: str
    name: str
    manner: Manner
    thickness_mm: float
    laid_at: Stage
    under_units: bool = True
    bays: tuple[str, ...] | None = None


@dataclass(frozen=True)
class OldCovering:
    """What lies there at first and is lifted before stage `gone_from`. Thickness None: nobody knows yet."""

    id: str
    name: str
    thickness_mm: float | None
    gone_from: Stage = Stage.STRIPPED


@dataclass(frozen=True)
class BreakLine:
    """A step in the floor (old and new screed, a threshold): nothing is interpolated across it."""

    id: str
    name: str
    points: tuple[Point, ...]


@dataclass(frozen=True)
class Doorway:
    """An opening in plan, jamb to jamb, by which appliances come in and go out."""

    id: str
    name: str
    from_point: Point
    to_point: Point


class HeightOf(StrEnum):
    """Which height a limit speaks of."""

    WORKTOP_TOP = "worktop_top"
    TALL_TOP = "tall_top"
    WALL_UNIT_TOP = "wall_unit_top"
    WALL_UNIT_UNDERSIDE = "wall_unit_underside"


class Bound(StrEnum):
    AT_LEAST = "at_least"
    AT_MOST = "at_most"


@dataclass(frozen=True)
class HeightLimit:
    """A sill, ceiling, door head or the like that a height must stay above or below, by at least `clearance_mm`.

    The level is given (`level_mm`), or measured at `stations` (the lowest of them for AT_MOST, the highest for
    AT_LEAST). Exactly one of the two is set.
    """

    id: str
    name: str
    height_of: HeightOf
    bound: Bound
    clearance_mm: float = 0.0
    level_mm: float | None = None
    stations: tuple[str, ...] = ()


@dataclass(frozen=True)
class Station:
    """A named spot where readings are taken. Once issued it never moves and never changes its name.

    `serves`: plain words for what rests on it, e.g. "legs, back of Sink run". `surface`: what is read there, the floor
    or something overhead (a ceiling, read `up`).
    """

    id: str
    name: str
    x_mm: float
    y_mm: float
    serves: str = ""
    surface: str = "floor"


@dataclass(frozen=True)
class Worktop:
    """`build_up_mm`: what lies between carcass and slab. `wanted_height_mm`: top above the finished floor's high spot.

    `assumed`: names of fields here that nobody has confirmed yet; what follows from them rests on a guess.
    `depth_mm`: of the board ordered; `stock_depths_mm`: what there is; `overhang_mm`: beyond the fronts' faces;
    `cover_mm`: what a splashback or wall panel covers at the wall.
    """

    thickness_mm: float
    build_up_mm: float = 0.0
    wanted_height_mm: float | None = None
    depth_mm: float = 600.0
    stock_depths_mm: tuple[float, ...] = (600.0, 650.0, 900.0)
    overhang_mm: float = 20.0
    cover_mm: float = 0.0
    assumed: tuple[str, ...] = ()


@dataclass(frozen=True)
class PlinthBoard:
    """The stock board. `fit_mm`: play that it needs to go in. `greatest_open_mm`: gap above it that may stay open.
    `kerf_mm`: what a saw cut takes off its length."""

    height_mm: float = 150.0
    fit_mm: float = 2.0
    thickness_mm: float = 16.0
    greatest_open_mm: float = 20.0
    length_mm: float = 3000.0
    kerf_mm: float = 3.0
    assumed: tuple[str, ...] = ()


@dataclass(frozen=True)
class WallUnits:
    """How high wall units hang: their tops in line with the tall units' tops, or at a clear height over the worktop.

    With `tops_in_line` True, `clear_over_top_mm` is what the client wants there; the chain of heights tells what comes.
    `rail_below_top_mm`: from a unit's top down to its rail's top edge, from the sheet of the hangers; None: nobody has
    read it yet.
    """

    tops_in_line: bool = True
    clear_over_top_mm: float = 500.0
    rail_below_top_mm: float | None = None
    assumed: tuple[str, ...] = ()


@dataclass(frozen=True)
class Room:
    id: str
    name: str
    corner: str
    walls: tuple[Wall, ...]
    worktop: Worktop
    bench_marks: tuple[BenchMark, ...]
    plinth: PlinthBoard = PlinthBoard()
    wall_units: WallUnits = WallUnits()
    layers: tuple[Layer, ...] = ()
    old_coverings: tuple[OldCovering, ...] = ()
    break_lines: tuple[BreakLine, ...] = ()
    doorways: tuple[Doorway, ...] = ()
    height_limits: tuple[HeightLimit, ...] = ()
    runs: tuple[Run, ...] = ()
    stations: tuple[Station, ...] = ()
