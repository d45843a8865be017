"""Entries: what was measured, done or decided on site. Facts, never edited; a later entry may replace one.

Every entry has a body, or None: an undo, that is, a replacement without a value.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from .room import Stage


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


Body = SetUp | Reading | AddedStation | TwoPeg | TwoWall | DatumDecision | LegsSet | Blocked | GoodEnough | Note


@dataclass(frozen=True)
class Entry:
    """`position` is the place in the job's log; `at_utc` is the phone's clock, for showing only."""

    uid: str
    position: int
    person: str
    at_utc: str
    body: Body | None
    replaces: str | None = None
