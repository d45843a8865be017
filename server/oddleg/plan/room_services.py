"""What follows for the services of a room: where each lands, what is cut out for it, how it is asked for before
plaster. Run axes, mm; levels over the bench mark."""

from __future__ import annotations

from dataclasses import dataclass

from oddleg.job import ComesFrom, Passage, Service

from .figure import Figure
from .finding import Finding
from .fitted_out import CutOut

MINUS = "\N{MINUS SIGN}"


@dataclass(frozen=True)
class Landing:
    """One service point: as found where that is known, else as wanted. left_mm to right_mm along the run; low_mm,
    high_mm: levels, None while datum or floor are not known. `item`: id of what it lands behind (or under), None: open
    wall. `cut_out`: id of its cut-out in that one's back. `reached`: how it is reached once all is fitted, in words;
    None where it is not. `left`, `right`: from the rod's zero mark; `middle`: in the axes that the wall was read in, as
    it is measured on site; `below_datum`: its middle, down from the datum line. `also`: ids of further items that it
    lands behind, where it lies across a joint. `low`, `high`: those levels as shown."""

    run: str
    service: Service
    left_mm: float
    right_mm: float
    low_mm: float | None
    high_mm: float | None
    left: Figure
    right: Figure
    middle: Figure
    below_datum: Figure | None
    item: str | None
    cut_out: str | None
    reached: str | None
    words: str
    also: tuple[str, ...] = ()
    low: Figure | None = None
    high: Figure | None = None


@dataclass(frozen=True)
class Inside:
    """What takes up room in a carcass from behind or above, in its own axes: x from left_mm to right_mm, u from
    from_u_mm to to_u_mm, z from low_mm to high_mm. `of`: id of the service, passage or appliance. `service`: None for
    a passage and for what hangs below the top (`hangs`)."""

    item: str
    of: str
    name: str
    left_mm: float
    right_mm: float
    low_mm: float
    high_mm: float
    from_u_mm: float
    to_u_mm: float
    service: Service | None = None
    hangs: bool = False


def from_datum(one: Figure) -> str:
    """A distance below the datum line, or above it where it is negative, in words."""
    return f"{one.text} below" if one.mm >= 0 else f"{one.text.lstrip(MINUS)} above"


@dataclass(frozen=True)
class BackCut:
    """A cut-out in the back panel of `item`, with the figures it is marked from: the panel's left, right, top and
    bottom edge as seen from the front; `from_behind`: from the left edge as seen from behind; `below_datum`: its upper
    edge down from the run's datum line. Of a round one all of them go to its middle: a hole saw is set there."""

    item: str
    cut: CutOut
    from_left: Figure
    from_right: Figure
    from_foot: Figure
    from_top: Figure
    from_behind: Figure
    below_datum: Figure
    width: Figure
    height: Figure
    radius: Figure


@dataclass(frozen=True)
class PassageHole:
    """A hole through every side between two items: `panels` as (item, panel id)."""

    run: str
    passage: Passage
    panels: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Hanging:
    """What hangs below a worktop into a carcass: clear to `below_datum` under the run's datum, air gap included.
    left_mm to right_mm along the rod."""

    item: str
    appliance: str
    name: str
    left_mm: float
    right_mm: float
    below_datum: Figure
    words: str


@dataclass(frozen=True)
class Wanted:
    """A service point as asked for before plaster: its middle from a wall (or the run's zero) and over the finished
    floor; None where one of them is not known yet. `x_mm`: its middle along the rod."""

    run: str
    service: Service
    x_mm: float
    from_left: Figure
    from_left_words: str
    over_floor: Figure | None
    below_datum: Figure | None
    words: str


@dataclass(frozen=True)
class VentRoute:
    """What an appliance's sheet asks for its air, and what there is of it."""

    item: str
    appliance: str
    asked: str
    has: str
    holds: bool | None


@dataclass(frozen=True)
class RoomServices:
    landings: tuple[Landing, ...] = ()
    cuts: tuple[BackCut, ...] = ()
    passages: tuple[PassageHole, ...] = ()
    hanging: tuple[Hanging, ...] = ()
    wanted: tuple[Wanted, ...] = ()
    vents: tuple[VentRoute, ...] = ()
    cautions: tuple[str, ...] = ()
    findings: tuple[Finding, ...] = ()
    inside: tuple[Inside, ...] = ()


def cut_outs_of(services: RoomServices, item: str) -> str:
    """What a unit's label says of cut-outs in its back: "yes (2)", "none", or that it is not known yet, since the
    height of a service that may lie behind it is not."""
    count = sum(one.item == item for one in services.cuts)
    unknown = any(
        one.below_datum is None and one.service.comes_from is ComesFrom.WALL and item in (one.item, *one.also)
        for one in services.landings
    )
    if unknown:
        return f"yes ({count} so far)" if count else "not known yet"
    return f"yes ({count})" if count else "none"
