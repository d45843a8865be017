"""Entries: what was measured, done or decided on site. Facts, never edited; a later entry may replace one.

Every entry has a body, or None: an undo, that is, a replacement without a value.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from .room import Stage
from .services import Service
from .setting_out import Feature


class Way(StrEnum):
    """How a number was read. DOWN: staff stands on the surface, beam above. UP: staff hangs from the surface, beam
    below. OFFSET: surface above the beam is +, below it is -."""

    DOWN = "down"
    UP = "up"
    OFFSET = "offset"


@dataclass(frozen=True)
class SetUp:
    """One position of the laser, or a level line drawn on a wall that readings are taken from later.

    For a line, `line_level_mm` is its level over the bench mark and `line_give_or_take_mm` the 95 % half-width of it.
    X, Y of the laser where it was shown on the plan.
    """

    id: str
    name: str
    room: str
    stage: Stage
    laser: str | None = None
    instrument: str | None = None
    x_mm: float | None = None
    y_mm: float | None = None
    line_level_mm: float | None = None
    line_give_or_take_mm: float | None = None


@dataclass(frozen=True)
class Reading:
    """One measured number, mm, at a station or bench mark in one set-up. It repeats the name, X and Y on screen."""

    set_up: str
    station: str
    way: Way
    value_mm: float
    name: str
    x_mm: float | None
    y_mm: float | None


@dataclass(frozen=True)
class AddedStation:
    """A station that the fitter added on site."""

    id: str
    name: str
    room: str
    x_mm: float
    y_mm: float
    serves: str = ""
    surface: str = "floor"


@dataclass(frozen=True)
class TwoPeg:
    """Two-peg check of one axis of a laser: pegs A and B read from midway and from near one peg; mm, distances m."""

    laser: str
    axis: str
    middle_a_mm: float
    middle_b_mm: float
    end_a_mm: float
    end_b_mm: float
    end_to_a_m: float
    end_to_b_m: float
    resolution_mm: float


@dataclass(frozen=True)
class TwoWall:
    """Two-wall check of a line laser: offset between the two marks on the far wall, mm, and the wall distance, m."""

    laser: str
    axis: str
    offset_mm: float
    walls_apart_m: float
    resolution_mm: float


@dataclass(frozen=True)
class DatumDecision:
    """The datum that was chosen, as its number, with the choice's name and the mark of the part it was read from."""

    room: str
    choice: str
    datum_mm: float
    part_mark: str


@dataclass(frozen=True)
class LegsSet:
    """The legs of one unit were set at these heights (leg name, mm), read off the part with this mark."""

    item: str
    heights_mm: tuple[tuple[str, float], ...]
    part_mark: str


@dataclass(frozen=True)
class Blocked:
    """A station that cannot be read now, and why."""

    station: str
    reason: str


@dataclass(frozen=True)
class GoodEnough:
    """The fitter does without the stations in between; the floor between stations stays at +- the stated figure."""

    room: str


@dataclass(frozen=True)
class Note:
    target: str
    text: str


class WallHeight(StrEnum):
    """Height on a wall: just over the floor (skirting counted unless it will be cut away), at the batten, at the
    worktop, at the rail of the wall units."""

    FLOOR = "floor"
    BATTEN = "batten"
    WORKTOP = "worktop"
    WALL_UNITS = "wall_units"


class OpeningDepth(StrEnum):
    """Where in the depth a width is taken: along the wall, or along the fronts."""

    BACK = "back"
    FRONT = "front"


@dataclass(frozen=True)
class WallLine:
    """A straight vertical reference in front of a run's wall (laser line or string); a new one wherever it is moved.

    It is taken as parallel to the run's y = 0. `stands_off_mm`: its y; None: the wall at its leftmost reading counts as
    y = 0. `square_to`: id of another line that it was set square to with one instrument.
    """

    id: str
    name: str
    run: str
    square_to: str | None = None
    stands_off_mm: float | None = None


@dataclass(frozen=True)
class WallReading:
    """Distance from a line to the wall, mm, at a wall station and one height: a larger one is a hollow. Negative where
    the wall stands out beyond the line."""

    line: str
    station: str
    height: WallHeight
    value_mm: float
    name: str
    x_mm: float


@dataclass(frozen=True)
class OpeningWidth:
    """Width of a run's opening at one height and depth, wall to wall (in a corner too: plaster to plaster)."""

    run: str
    height: WallHeight
    depth: OpeningDepth
    value_mm: float


@dataclass(frozen=True)
class EndGap:
    """How far the side wall lies beyond the plumbed zero mark (left) or end mark (right) at one height, depth."""

    run: str
    side: str
    height: WallHeight
    depth: OpeningDepth
    value_mm: float


@dataclass(frozen=True)
class CornerTriangle:
    """Three sides measured in the corner at the right end of `run`, from where the walls meet: along its wall, along
    the wall of `other_run`, and across between the two marks."""

    run: str
    other_run: str
    along_mm: float
    other_along_mm: float
    across_mm: float


@dataclass(frozen=True)
class MeasuredFeature:
    """A feature of a run's wall as measured on site; it takes the place of the job's with the same id. `above_datum`:
    its levels were measured from the run's datum line (above +), not from the bench mark."""

    run: str
    feature: Feature
    above_datum: bool = False


@dataclass(frozen=True)
class UnitWidth:
    """The outside width of one delivered unit as measured."""

    item: str
    value_mm: float


@dataclass(frozen=True)
class Marked:
    """A mark of a run's rod was made on the batten at this distance from the zero, read off the part with this mark."""

    run: str
    mark: str
    at_mm: float
    part_mark: str


@dataclass(frozen=True)
class MeasuredService:
    """A service point of a run as it is there; it takes the place of the job's with the same id."""

    run: str
    service: Service


@dataclass(frozen=True)
class Drilled:
    """A hole of one panel of an item was drilled where it was shown (u, v, mm), read off the part with this mark."""

    item: str
    panel: str
    hole: str
    u_mm: float
    v_mm: float
    part_mark: str


Body = (
    SetUp
    | Reading
    | AddedStation
    | TwoPeg
    | TwoWall
    | DatumDecision
    | LegsSet
    | Blocked
    | GoodEnough
    | Note
    | WallLine
    | WallReading
    | OpeningWidth
    | EndGap
    | CornerTriangle
    | MeasuredFeature
    | UnitWidth
    | Marked
    | MeasuredService
    | Drilled
)


@dataclass(frozen=True)
class Entry:
    """`position` is the place in the job's log; `at_utc` is the phone's clock, for showing only."""

    uid: str
    position: int
    person: str
    at_utc: str
    body: Body | None
    replaces: str | None = None
