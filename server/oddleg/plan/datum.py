"""Computation 4: the one level that every cabinet and appliance of a room can live with."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from .figure import Figure
from .finding import Finding


class End(StrEnum):
    """Which end of the interval a demand sets."""

    LEAST = "least"
    GREATEST = "greatest"


@dataclass(frozen=True)
class Demand:
    """One thing that wants the datum at least or at most so high. `name` names it in plain words ("dishwasher under the
    top", "front left leg of unit 3 at its shortest"); `datum_mm` is the D that it asks for; `cure` what would ease it.
    """

    id: str
    name: str
    end: End
    datum_mm: float
    datum: Figure
    cure: str
    concerns: tuple[str, ...]


@dataclass(frozen=True)
class Slack:
    """How far the interval's own end, or a chosen datum, stays from what a demand asks, mm (0: it binds)."""

    demand: Demand
    slack: Figure


class ChoiceName(StrEnum):
    UNCUT = "uncut_at_high_spot"
    SPLIT = "split_the_difference"
    WANTED = "wanted_height"
    LEAST_CUTTING = "least_cutting"
    LOWEST = "lowest_possible"


@dataclass(frozen=True)
class Choice:
    """One choice of datum. `asked`: the D that its rule gives; None with `why_not` where the rule has nothing to go by.

    `feasible` False: `binds` names what stops it and `nearest` is the nearest D that can be had. `worktop`, `legs`,
    `gaps`, `rip`, `clearance` describe the D that would be used: `asked` where feasible, else `nearest`, else None.
    `rip`: carcasses whose plinth must be ripped; `reach_not`: carcasses where the board leaves more open than wanted.
    """

    name: ChoiceName
    title: str
    rule: str
    asked: Figure | None
    feasible: bool
    why_not: str
    binds: Demand | None
    nearest: Figure | None
    worktop: Figure | None
    legs: tuple[Figure, Figure] | None
    gaps: tuple[Figure, Figure] | None
    rip: int | None
    reach_not: int | None
    of: int
    clearance: Figure | None


@dataclass(frozen=True)
class Chain:
    """Heights that follow from the datum: (what, figure), worktop top, tall top, wall unit underside, clear over top..."""

    heights: tuple[tuple[str, Figure], ...]


@dataclass(frozen=True)
class Decided:
    choice: str
    datum: Figure
    entry: str
    person: str
    at_utc: str


@dataclass(frozen=True)
class Datum:
    """`least`, `greatest`: the demands that bind the interval's ends (None where nothing does). `clash_mm` above 0: no D
    can be had, by so much. `decided` never moves by itself. `at_decided`: slack of every demand at the decided D, else at
    the interval's own ends. `guesses`: what rests on figures that nobody has confirmed.
    """

    room: str
    demands: tuple[Demand, ...]
    least: Demand | None
    greatest: Demand | None
    clash_mm: float
    slacks: tuple[Slack, ...]
    choices: tuple[Choice, ...]
    decided: Decided | None
    chain: Chain | None
    guesses: tuple[str, ...]
    findings: tuple[Finding, ...]

    @property
    def feasible(self) -> bool:
        return self.clash_mm <= 0
