"""Tall and wall units of a room: tops under the ceiling, standing up, rails, trims, and what hangs over a hob."""

from __future__ import annotations

from collections.abc import Sequence

from oddleg.job import Carcass, HeightOf, Job, OpenUnit, Room, Station, Storey

from .ceiling import Ceiling, Overhead, Zone, ceiling
from .figure import figure, text_mm
from .finding import Finding, Severity
from .finished_floor import Floor
from .heights import SAME_MM, Height, heights, worktop_over_datum_mm
from .levels import Levels
from .over_hob import over_hobs
from .rail_heights import one_line, rail_heights
from .rod import Placed
from .set_out import Rod
from .setting_out import RunSetOut
from .sightings import named
from .survey import latest_levels
from .tall_wall import TallWall, TiltUp, TopClearance
from .tilt_up import tilt_up
from .trims import trim_lengths


def tall_wall(
    job: Job,
    room: Room,
    rods: Sequence[Rod],
    floor: Floor,
    stations: Sequence[Station],
    levels: Levels,
    datum_mm: float | None,
    runs: Sequence[RunSetOut] = (),
) -> TallWall | None:
    """All that follows for the room's tall and wall units; None where it has none and nothing asks for a trim.

    Heights hang from the datum as in the chain of heights; `stations` that are overhead, with their latest levels, are
    the ceiling. Before a datum is decided tops have no level, and a note says so; the rest is told all the same, since
    units are ordered by it.
    """
    placed = [one for rod in rods for one in rod.placed]
    rising = {(one.of, one.concerns[0]): one for one in heights(job, room, placed)}
    trims, trims_wrong = trim_lengths(job, rods, rising, runs)
    high = [one for one in placed if one.item.storey is not Storey.BASE and isinstance(one.item, Carcass | OpenUnit)]
    if not high and not trims_wrong and not any(one.item.storey is Storey.WALL for one in placed):
        return None
    worktops = [one.over_datum_mm for (of, _), one in rising.items() if of is HeightOf.WORKTOP_TOP]
    least_mm = None if datum_mm is None else datum_mm + max(worktops, default=0.0)
    overhead, unlikely = ceiling(job, room, stations, latest_levels(levels), least_mm)
    findings: list[Finding] = [*unlikely]
    tops: list[TopClearance] = []
    tilts: list[TiltUp] = []
    unread: list[Placed] = []
    for one in high:
        of = HeightOf.TALL_TOP if one.item.storey is Storey.TALL else HeightOf.WALL_UNIT_TOP
        over = overhead.lowest(_place(one), of)
        if over is None:
            unread.append(one)
        if datum_mm is not None:
            top, told = _top(job, one, rising[of, one.item.id], over, overhead, datum_mm)
            tops.append(top)
            findings.extend(told)
        if one.item.storey is Storey.TALL and isinstance(one.item, Carcass | OpenUnit):
            tilt, wrong = tilt_up(job, one, one.item, floor, overhead, datum_mm)
            tilts.append(tilt)
            findings.extend(wrong)
            findings.extend(_swapped(job, room, one, rising[of, one.item.id]))
    rails, rails_wrong = rail_heights(job, room, placed, rising)
    hobs, over_wrong = over_hobs(job, room, placed, rising)
    words, line_wrong = one_line(job, room, rising)
    findings += [*rails_wrong, *line_wrong, *trims_wrong, *over_wrong]
    if unread:
        findings.append(_unread(room, unread, overhead, job.rounding_mm))
    if high and datum_mm is None:
        findings.append(_no_datum(room))
    if tilts:
        findings.append(_lifting(room, tilts))
    return TallWall(tuple(tops), tuple(tilts), rails, trims, hobs, words, tuple(findings))


def _place(one: Placed) -> Zone:
    return Zone(one.run, one.left_mm, one.right_mm, one.back_mm, one.front_mm or one.back_mm)


def _top(
    job: Job, one: Placed, height: Height, over: Overhead | None, overhead: Ceiling, datum_mm: float
) -> tuple[TopClearance, list[Finding]]:
    step_mm, name = job.rounding_mm, one.item.name
    top_mm = datum_mm + height.over_datum_mm
    why = f"{height.how[0].upper()}{height.how[1:]}: {text_mm(datum_mm, step_mm)} and "
    why += f"{text_mm(height.over_datum_mm, step_mm, signed=True)}, over the bench mark."
    top = figure(top_mm, step_mm, why, signed=True)
    if over is None:
        return TopClearance(one.item.id, name, one.run.name, top, None, None), []
    why = f"The lowest known over it: {over.words(step_mm)}; of what was read within {text_mm(overhead.reach_mm)}."
    clear_mm = over.level_mm - top_mm
    clear = figure(clear_mm, step_mm, f"{over.words(step_mm)}, less the top {top.text}.", signed=True)
    clearance = TopClearance(
        one.item.id, name, one.run.name, top, figure(over.level_mm, step_mm, why, signed=True), clear
    )
    concerns = (one.item.id, *(() if over.station is None else (over.station,)))
    place = f"{name}, {one.run.name}"
    if clear_mm < -SAME_MM:
        return clearance, [
            Finding(
                "tall.over_ceiling",
                Severity.STOP,
                place,
                f"Its top comes {text_mm(-clear_mm, step_mm)} above {over.name}, the lowest known over it.",
                "Read that spot again; if it is right, ask which may give: datum, height of the unit, or ceiling.",
                "first principles",
                clear,
                concerns,
            )
        ]
    if clear_mm <= over.half_width_mm:
        return clearance, [
            Finding(
                "tall.close_to_ceiling",
                Severity.WARN,
                place,
                f"Only {clear.text.lstrip('+')} stay between its top and {over.name}, give or take "
                f"{text_mm(over.half_width_mm, step_mm)}: that cannot tell whether it goes under.",
                "Read the ceiling over it again, at more spots.",
                "give or take of the ceiling's reading",
                clear,
                concerns,
            )
        ]
    return clearance, []


def _swapped(job: Job, room: Room, one: Placed, height: Height) -> list[Finding]:
    worktop_mm = worktop_over_datum_mm(room, one.run.datum_offset_mm)
    if height.over_datum_mm > worktop_mm + SAME_MM:
        return []
    return [
        Finding(
            "tall.lower_than_worktop",
            Severity.STOP,
            f"{one.item.name}, {one.run.name}",
            f"It is called a tall unit, and its top is {text_mm(worktop_mm - height.over_datum_mm, job.rounding_mm)} "
            "below the worktop's.",
            "Look at its height and depth in the job: they may be swapped. A low unit is a base unit.",
            "first principles",
            concerns=(one.item.id,),
        )
    ]


def _unread(room: Room, units: Sequence[Placed], overhead: Ceiling, step_mm: float) -> Finding:
    talls = any(one.item.storey is Storey.TALL for one in units)
    return Finding(
        "tall.ceiling_unread",
        Severity.WARN if talls else Severity.NOTE,
        room.name,
        f"Nobody has read the ceiling within {text_mm(overhead.reach_mm, step_mm)} of "
        f"{named([one.item.name for one in units])}.",
        "Add a station overhead over each, at the lowest spot that you find, and read it upwards, before the units are "
        "ordered.",
        "common practice",
        concerns=(room.id, *(one.item.id for one in units)),
    )


def _no_datum(room: Room) -> Finding:
    return Finding(
        "tall.no_datum",
        Severity.NOTE,
        room.name,
        "No datum is decided, so no top has a level yet; heights here count from the datum line.",
        "Choose a datum.",
        "all tops hang from the datum",
        concerns=(room.id,),
    )


def _lifting(room: Room, tilts: Sequence[TiltUp]) -> Finding:
    return Finding(
        "tall.lifting",
        Severity.NOTE,
        room.name,
        f"{named([one.name for one in tilts])}: a tall unit is heavy to stand up, and tips until it is fixed.",
        "Lift with as many hands as the local rules ask, clear the way first, and fix it before you let go.",
        "common practice; the local rules decide",
        concerns=tuple(one.item for one in tilts),
        caution=True,
    )
