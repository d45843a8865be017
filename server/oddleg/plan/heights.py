"""Heights over the datum: undersides, worktop, tall units, wall units, and the chain that follows once a datum stands.

Everything here hangs from the datum D, the level of the base carcasses' tops; a run with an offset has its own top at
D + offset, and all that stands in or hangs over that run goes with it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from oddleg.job import Carcass, HeightOf, Job, OpenUnit, Room, Storey

from .figure import Figure, figure, text_mm
from .finding import Finding, Severity
from .rod import Placed

SAME_MM = 1e-6
OF_ALL = {
    HeightOf.WORKTOP_TOP: "worktop",
    HeightOf.TALL_TOP: "top of tall units",
    HeightOf.WALL_UNIT_TOP: "top of wall units",
    HeightOf.WALL_UNIT_UNDERSIDE: "underside of wall units",
}


@dataclass(frozen=True)
class Chain:
    """Heights that follow from the datum, (what, figure): worktop, tall top, wall unit underside, clear over top..."""

    heights: tuple[tuple[str, Figure], ...]


@dataclass(frozen=True)
class Height:
    """A height that moves with the datum: its level is D + `over_datum_mm`. `how`: the sum in plain words."""

    of: HeightOf
    name: str
    over_datum_mm: float
    how: str
    concerns: tuple[str, ...]


def underside_below_datum_mm(job: Job, placed: Placed) -> float | None:
    """How far a standing unit's underside lies below the room's datum, mm; None for what has no underside of its own.

    A base unit hangs its own height below its run's top; a tall one the job's base carcass height, so that plinths run
    through along the run.
    """
    item = placed.item
    if not placed.stands or not isinstance(item, Carcass | OpenUnit):
        return None
    height_mm = job.base_carcass_height_mm if item.storey is Storey.TALL else item.height_mm
    return height_mm - placed.run.datum_offset_mm


def worktop_over_datum_mm(room: Room, offset_mm: float) -> float:
    """Top of the worktop over the room's datum in a run with this offset: offset + build-up + thickness, mm."""
    return offset_mm + room.worktop.build_up_mm + room.worktop.thickness_mm


def heights(job: Job, room: Room, placed: Sequence[Placed]) -> tuple[Height, ...]:
    """All that moves with the datum: worktops by run, tall tops, wall units' undersides and tops."""
    step_mm = job.rounding_mm
    worktops = tuple(
        Height(
            HeightOf.WORKTOP_TOP,
            f"worktop of {run.name}",
            worktop_over_datum_mm(room, run.datum_offset_mm),
            _sum(
                step_mm,
                ("the datum", None),
                ("the run's offset", run.datum_offset_mm),
                ("build-up", room.worktop.build_up_mm),
                ("worktop", room.worktop.thickness_mm),
            ),
            (run.id,),
        )
        for run in room.runs
        if any(one.run.id == run.id and one.item.storey is Storey.BASE for one in placed)
    )
    talls = []
    for one in placed:
        below_mm = underside_below_datum_mm(job, one)
        if below_mm is not None and one.item.storey is Storey.TALL and isinstance(one.item, Carcass | OpenUnit):
            how = _sum(
                step_mm,
                ("the datum", None),
                ("the run's offset", one.run.datum_offset_mm),
                ("base carcass", -job.base_carcass_height_mm),
                ("tall unit", one.item.height_mm),
            )
            talls.append(
                Height(HeightOf.TALL_TOP, f"top of {one.item.name}", one.item.height_mm - below_mm, how, (one.item.id,))
            )
    hung = tuple(height for one in placed for height in _wall_unit(room, one, talls, step_mm))
    return worktops + tuple(talls) + hung


def _wall_unit(room: Room, placed: Placed, talls: Sequence[Height], step_mm: float) -> tuple[Height, ...]:
    """Underside and top of a wall unit: tops in line with the highest tall unit of the room, where the job says so and
    there is one; else the clear height over its run's worktop."""
    item = placed.item
    if item.storey is not Storey.WALL or not isinstance(item, Carcass | OpenUnit):
        return ()
    if room.wall_units.tops_in_line and talls:
        tall = max(talls, key=lambda one: one.over_datum_mm)
        top_mm, underside_mm = tall.over_datum_mm, tall.over_datum_mm - item.height_mm
        top_how = f"in line with the {tall.name}: {tall.how}"
        under_how = f"{top_how}, less wall unit {text_mm(item.height_mm, step_mm)}"
    else:
        worktop_mm = worktop_over_datum_mm(room, placed.run.datum_offset_mm)
        underside_mm = worktop_mm + room.wall_units.clear_over_top_mm
        top_mm = underside_mm + item.height_mm
        under_how = f"worktop, plus clear over it {text_mm(room.wall_units.clear_over_top_mm, step_mm)}"
        top_how = f"{under_how}, plus wall unit {text_mm(item.height_mm, step_mm)}"
    return (
        Height(HeightOf.WALL_UNIT_UNDERSIDE, f"underside of {item.name}", underside_mm, under_how, (item.id,)),
        Height(HeightOf.WALL_UNIT_TOP, f"top of {item.name}", top_mm, top_how, (item.id,)),
    )


def clear_over_worktops(room: Room, placed: Sequence[Placed], rising: Sequence[Height]) -> tuple[float, str] | None:
    """The least clear height between a worktop and the wall unit over it, mm, and that unit's id; None without one.

    The least, since a short unit over a window or a hood is meant to leave more.
    """
    runs = {one.item.id: one.run for one in placed}
    clears = [
        (one.over_datum_mm - worktop_over_datum_mm(room, runs[one.concerns[0]].datum_offset_mm), one.concerns[0])
        for one in rising
        if one.of is HeightOf.WALL_UNIT_UNDERSIDE
    ]
    return min(clears, default=None)


def chain(job: Job, room: Room, placed: Sequence[Placed], datum_mm: float, finished_high_mm: float | None) -> Chain:
    """The heights that follow from the datum `datum_mm`, all above the highest spot of the finished floor, mm; above
    the bench mark where no floor is known. Equal heights of one kind are one line; where they differ, each is named."""
    step_mm = job.rounding_mm
    zero_mm = finished_high_mm or 0.0
    above = "above the bench mark" if finished_high_mm is None else "above the finished floor's highest spot"
    lines = [
        ("datum above the bench mark", figure(datum_mm, step_mm, "The level of the base carcasses' tops, as chosen."))
    ]
    if finished_high_mm is not None:
        why = f"Datum {text_mm(datum_mm, step_mm)} less the finished floor's highest spot {text_mm(zero_mm, step_mm)}."
        lines.append((f"carcass tops {above}", figure(datum_mm - zero_mm, step_mm, why)))
    rising = heights(job, room, placed)
    kinds = {(one.of, round(one.over_datum_mm, 6)): one for one in reversed(rising)}
    for one in reversed(kinds.values()):
        alone = sum(1 for of, _ in kinds if of is one.of) == 1
        name = OF_ALL[one.of] if alone else one.name
        level_mm = datum_mm + one.over_datum_mm
        why = f"{one.how[0].upper()}{one.how[1:]}; {text_mm(level_mm, step_mm)} above the bench mark."
        lines.append((f"{name} {above}", figure(level_mm - zero_mm, step_mm, why)))
    clear = clear_over_worktops(room, placed, rising)
    if clear is not None:
        lines.append(
            ("clear over the worktop", figure(clear[0], step_mm, "Wall unit's underside less the worktop's top."))
        )
    return Chain(tuple(lines))


def clear_findings(job: Job, room: Room, placed: Sequence[Placed]) -> tuple[Finding, ...]:
    """Where tops in line leave another clear height than is wanted: which of the two may give. No datum is needed for
    it, since both hang from the datum; it has to be asked before units are ordered."""
    rising = heights(job, room, placed)
    clear = clear_over_worktops(room, placed, rising)
    talls = [one for one in rising if one.of is HeightOf.TALL_TOP]
    if clear is None or not talls or not room.wall_units.tops_in_line:
        return ()
    clear_mm, unit = clear
    wanted_mm = room.wall_units.clear_over_top_mm
    if abs(clear_mm - wanted_mm) <= job.rounding_mm + SAME_MM:
        return ()
    step_mm = job.rounding_mm
    return (
        Finding(
            "heights.clear_over_top",
            Severity.WARN,
            room.name,
            f"With the tops of wall and tall units in line, {text_mm(clear_mm, step_mm)} stay clear over the worktop; "
            f"{text_mm(wanted_mm, step_mm)} are wanted.",
            "Ask which may give: the tops in line, the clear height, or the height of the wall units. Ask before they "
            "are ordered.",
            "all three hang from the datum, so no datum mends it",
            figure(clear_mm - wanted_mm, step_mm, signed=True),
            (room.id, unit, *talls[0].concerns),
        ),
    )


def _sum(step_mm: float, *parts: tuple[str, float | None]) -> str:
    """The sum in words ("the datum, plus worktop 30, less base carcass 720"); parts of nought are left out."""
    words = []
    for name, part_mm in parts:
        if part_mm is None:
            words.append(name)
        elif abs(part_mm) > SAME_MM:
            words.append(f"{'plus' if part_mm > 0 else 'less'} {name} {text_mm(abs(part_mm), step_mm)}")
    return ", ".join(words)
