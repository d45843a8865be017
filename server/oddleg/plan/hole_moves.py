"""What changes between two plans of one job that differ in a row of a chart: holes that move, boards of drawers that
are cut differently, findings that come."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import NoReturn

from oddleg.job import Job

from . import Plan
from .figure import Figure, figure
from .finding import Finding
from .fitted_out import DrawerPart, FittedOut, Hole, Panel

SAME_MM = 1e-6
Drilled = tuple[FittedOut, Panel, Hole]
Cut = tuple[FittedOut, DrawerPart]


@dataclass(frozen=True)
class HolePlace:
    """`depth` None: right through."""

    u: Figure
    v: Figure
    diameter: Figure
    depth: Figure | None


@dataclass(frozen=True)
class HoleMove:
    """One hole of one panel. `before` None: it is new; `after` None: it is not drilled any more."""

    item: str
    item_name: str
    panel: str
    panel_name: str
    hole: str
    words: str
    before: HolePlace | None
    after: HolePlace | None


@dataclass(frozen=True)
class BoardSize:
    length: Figure
    width: Figure
    rebate: str


@dataclass(frozen=True)
class BoardChange:
    """A board of a drawer whose size or rebate changes; None: there is none."""

    item: str
    item_name: str
    board: str
    before: BoardSize | None
    after: BoardSize | None


@dataclass(frozen=True)
class Changes:
    """`findings`: those that the first plan has not."""

    holes: tuple[HoleMove, ...]
    boards: tuple[BoardChange, ...]
    findings: tuple[Finding, ...]


def changes(before: Plan, after: Plan) -> Changes:
    """What a fitter would drill and cut differently by the second plan, in order of rooms, items and panels."""
    drilled, to_drill = _holes(before), _holes(after)
    moves = tuple(
        _move(before.job, after.job, drilled.get(key), to_drill.get(key))
        for key in dict.fromkeys((*drilled, *to_drill))
        if not _alike(drilled.get(key), to_drill.get(key))
    )
    cut, to_cut = _boards(before), _boards(after)
    boards = tuple(
        _change(before.job, after.job, cut.get(key), to_cut.get(key))
        for key in dict.fromkeys((*cut, *to_cut))
        if _size_mm(cut.get(key)) != _size_mm(to_cut.get(key))
    )
    known = {(one.rule, one.place, one.wrong) for one in _findings(before)}
    come = tuple(one for one in _findings(after) if (one.rule, one.place, one.wrong) not in known)
    return Changes(moves, boards, come)


def _holes(made: Plan) -> dict[tuple[str, str, str], Drilled]:
    return {
        (unit.item, panel.id, hole.id): (unit, panel, hole)
        for room in made.rooms
        for unit in room.fitting.units
        for panel in unit.panels
        for hole in panel.holes
    }


def _alike(one: Drilled | None, other: Drilled | None) -> bool:
    if one is None or other is None:
        return False
    was, now = one[2], other[2]
    if (was.depth_mm is None) != (now.depth_mm is None) or was.face != now.face:
        return False
    pairs = (
        (was.u_mm, now.u_mm),
        (was.v_mm, now.v_mm),
        (was.diameter_mm, now.diameter_mm),
        (was.depth_mm or 0.0, now.depth_mm or 0.0),
    )
    return all(abs(a - b) <= SAME_MM for a, b in pairs)


def _move(was_in: Job, now_in: Job, was: Drilled | None, now: Drilled | None) -> HoleMove:
    unit, panel, hole = now or was or _nothing()
    return HoleMove(
        unit.item,
        unit.name,
        panel.id,
        panel.name,
        hole.id,
        hole.words,
        _place(was_in, was[2]) if was else None,
        _place(now_in, now[2]) if now else None,
    )


def _place(job: Job, hole: Hole) -> HolePlace:
    step_mm = job.holes.shop_mm
    return HolePlace(
        figure(hole.u_mm, step_mm, "The hole's centre, along the panel from its own corner."),
        figure(hole.v_mm, step_mm, "The hole's centre, up the panel from its own corner."),
        figure(hole.diameter_mm, step_mm, "The bit, by the chart."),
        None if hole.depth_mm is None else figure(hole.depth_mm, step_mm, "The depth stop, by the chart."),
    )


def _boards(made: Plan) -> dict[tuple[str, str, str], Cut]:
    return {
        (unit.item, part.drawer, part.part): (unit, part)
        for room in made.rooms
        for unit in room.fitting.units
        for part in unit.drawer_parts
    }


def _size_mm(board: Cut | None) -> tuple[object, ...] | None:
    if board is None:
        return None
    part = board[1]
    sizes = (round(one, 6) for one in (part.length_mm, part.width_mm, part.thickness_mm))
    return (*sizes, part.rebate.words if part.rebate else "")


def _change(was_in: Job, now_in: Job, was: Cut | None, now: Cut | None) -> BoardChange:
    unit, part = now or was or _nothing()
    drawer = next((one.name for one in unit.drawers if one.id == part.drawer), part.drawer)
    return BoardChange(
        unit.item,
        unit.name,
        f"{drawer}, {part.part}",
        _size(was_in, was[1]) if was else None,
        _size(now_in, now[1]) if now else None,
    )


def _size(job: Job, part: DrawerPart) -> BoardSize:
    step_mm = job.holes.shop_mm
    return BoardSize(
        figure(part.length_mm, step_mm, part.words),
        figure(part.width_mm, step_mm, part.words),
        part.rebate.words if part.rebate else "",
    )


def _nothing() -> NoReturn:
    raise AssertionError("a key of neither plan")


def _findings(made: Plan) -> Iterator[Finding]:
    yield from made.hardware_findings
    for room in made.rooms:
        for unit in room.fitting.units:
            yield from unit.findings
        # A runner's row decides how far its drawer reaches, and so which services it meets.
        yield from room.fitting.services.findings
