"""A single reading that stands off the line of its neighbours: the likeliest sign of a misread staff."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from oddleg.job import Point, Stage, Tolerances

from .figure import figure
from .finding import Finding, Severity
from .levels import Levels, StationLevel
from .sightings import DIFFERENCE_STEP_MM, shown_mm

# What the adjustment's arithmetic may be out, so that exactly at the limit is not over it.
_HAIR_MM = 1e-6


def off_line_findings(
    lines: Sequence[Sequence[str]],
    levels: Levels,
    places: Mapping[str, Point | None],
    names: Mapping[str, str],
    tolerances: Tolerances,
) -> list[Finding]:
    """Asks for a repeat of each station that rests on one reading and lies more than `off_line_mm` off its neighbours.

    `lines`: station ids in order along each leg line, cut at break lines, since a step is no misreading. Each stage is
    held against itself. The furthest off is judged first and then left out, so that its neighbours are not blamed for
    it; read twice alike, it is a real hump and nobody is asked. An end of a line has no two neighbours.
    """
    asked: dict[str, tuple[float, StationLevel, StationLevel, StationLevel]] = {}
    for line in lines:
        for stage in Stage:
            there = [level for id_ in line if places.get(id_) and (level := levels.at(id_, stage))]
            while worst := _furthest_off(there, places, tolerances.off_line_mm):
                off_mm, before, one, after = worst
                there.remove(one)
                if len(one.readings) == 1 and abs(off_mm) > abs(asked.get(one.station, (0.0,))[0]):
                    asked[one.station] = (off_mm, before, one, after)
    return [_ask(*asked[id_], names, tolerances) for id_ in sorted(asked)]


def _furthest_off(
    there: Sequence[StationLevel], places: Mapping[str, Point | None], limit_mm: float
) -> tuple[float, StationLevel, StationLevel, StationLevel] | None:
    found = [
        (_off_mm(before, one, after, places), before, one, after)
        for before, one, after in zip(there, there[1:], there[2:], strict=False)
    ]
    over = [each for each in found if abs(each[0]) > limit_mm + _HAIR_MM]
    return max(over, key=lambda each: (abs(each[0]), each[2].station), default=None)


def _off_mm(before: StationLevel, one: StationLevel, after: StationLevel, places: Mapping[str, Point | None]) -> float:
    """How far the one lies above the straight line through the two, by its distances from both."""
    back_mm, on_mm = _apart_mm(before, one, places), _apart_mm(one, after, places)
    share = back_mm / (back_mm + on_mm) if back_mm + on_mm > 0 else 0.5
    return one.level_mm - (before.level_mm * (1 - share) + after.level_mm * share)


def _apart_mm(one: StationLevel, other: StationLevel, places: Mapping[str, Point | None]) -> float:
    here, there = places[one.station], places[other.station]
    assert here is not None and there is not None
    return math.hypot(here.x_mm - there.x_mm, here.y_mm - there.y_mm)


def _ask(
    off_mm: float,
    before: StationLevel,
    one: StationLevel,
    after: StationLevel,
    names: Mapping[str, str],
    tolerances: Tolerances,
) -> Finding:
    name = names[one.station]
    return Finding(
        "levels.off_line",
        Severity.WARN,
        name,
        f"On one reading, {name} lies {shown_mm(abs(off_mm))} {'above' if off_mm > 0 else 'below'} the line from "
        f"{names[before.station]} to {names[after.station]}; the limit is {shown_mm(tolerances.off_line_mm)}.",
        f"Read {name} again; if the floor is like that, the second reading settles it.",
        "the job's limit for one reading off its neighbours",
        figure(off_mm, DIFFERENCE_STEP_MM, signed=True),
        (one.station,),
    )
