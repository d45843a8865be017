"""Tall and wall units: against the ceiling, standing them up, the rail, clear heights, cornice and light rail."""

from __future__ import annotations

from dataclasses import dataclass

from .figure import Figure
from .finding import Finding


@dataclass(frozen=True)
class TopClearance:
    """A tall or wall unit under the ceiling. `top`, `ceiling`: levels over the bench mark at the decided datum, the
    ceiling's lowest near the unit, None where nobody read it; `clear`: ceiling less top."""

    item: str
    name: str
    run: str
    top: Figure
    ceiling: Figure | None
    clear: Figure | None


@dataclass(frozen=True)
class TiltUp:
    """Standing a tall unit up. `diagonal` about its rear foot with legs on; `lowest`: from the highest floor to the
    lowest ceiling on its way, None where either is not read; `ways`: (words, height needed, whether it goes or
    None) of all ways, as planned first: sideways, legs afterwards. `leg`: the rear leg that was reckoned with, None
    where it has none."""

    item: str
    name: str
    diagonal: Figure
    lowest: Figure | None
    goes: bool | None
    ways: tuple[tuple[str, Figure, bool | None], ...]
    leg: Figure | None


@dataclass(frozen=True)
class RailHeight:
    """Underside, rail (its top edge; None where the job does not say how far below the units' top it comes) and top of
    a run's wall units over the datum line, and clear height over the worktop. `run` its id; `name` says which
    units where they hang at several heights."""

    run: str
    name: str
    underside: Figure
    rail: Figure | None
    top: Figure
    clear: Figure


@dataclass(frozen=True)
class TrimLength:
    """A cornice or light rail of one run (`what`): pieces (words, length to the long point of the mitres). `run`
    its id, `name` its name."""

    run: str
    name: str
    what: str
    pieces: tuple[tuple[str, Figure], ...]
    total: Figure


@dataclass(frozen=True)
class OverHob:
    """A hood over a hob: what the sheets want and what there is. `wants` None: no sheet value is in the job."""

    hob: str
    hood: str
    wants: Figure | None
    has: Figure | None
    words: str


@dataclass(frozen=True)
class TallWall:
    """What follows for a room's tall and wall units. Before a datum is decided there are no `tops`, since these are
    levels; all else hangs from the datum or from the floor. `one_line`: whether tops lie in one line, in words."""

    tops: tuple[TopClearance, ...]
    tilt_ups: tuple[TiltUp, ...]
    rails: tuple[RailHeight, ...]
    trims: tuple[TrimLength, ...]
    over_hobs: tuple[OverHob, ...]
    one_line: str
    findings: tuple[Finding, ...]
