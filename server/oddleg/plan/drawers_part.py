"""The part of a room's drawers: every board with its rebate, the list by size, and how many runners of each kind."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator

from oddleg.job import Job, RebateFace, Runner

from . import Plan, RoomPlan
from .drawer_parts import PART_WORDS
from .figure import Figure, figure, text_mm
from .fitted_out import DrawerBox, DrawerPart, FittedOut, PartIs, Rebate
from .part_values import Part, figure_part, finding_part
from .sightings import listed

GRAIN_WORDS = {
    PartIs.BASE: "along the first figure, across the drawer",
    PartIs.BACK: "along the first figure, across the drawer",
    PartIs.SPACER: "along the first figure, front to back",
}
DRAWER_RULES = ("drawer.thin_board", "drawer.no_rebate", "drawer.base_hangs_low", "drawer.no_room")
OF_BOARD = {
    PartIs.BASE: "Of the board that bases and backs are cut from.",
    PartIs.BACK: "Of the board that bases and backs are cut from.",
    PartIs.SPACER: "Of the spacer, as the drawer asks for it.",
}


def drawers_part(plan: Plan, room: RoomPlan) -> Part:
    """`list`: of this room; `whole_job`: of all rooms, empty where this one has all the drawers."""
    job = plan.job
    with_drawers = [one for one in plan.rooms if has_drawers(one)]
    return {
        "room": room.room.id,
        "name": room.room.name,
        "parts": [_part(job, unit, drawer, one) for unit, drawer, one in boards_of([room])],
        "list": _list(job, [room]),
        "whole_job": _list(job, with_drawers) if len(with_drawers) > 1 else [],
        "runners": _runners(room),
        "findings": [
            finding_part(one) for unit in room.fitting.units for one in unit.findings if one.rule in DRAWER_RULES
        ],
    }


def has_drawers(room: RoomPlan) -> bool:
    return any(unit.drawers for unit in room.fitting.units)


def rebates_of(room: RoomPlan) -> list[tuple[DrawerPart, Rebate]]:
    """The first board of each rebate that differs, in the order in which they come."""
    first: dict[tuple[object, ...], tuple[DrawerPart, Rebate]] = {}
    for _, _, part in boards_of([room]):
        if part.rebate is not None:
            first.setdefault((part.part, part.thickness_mm, part.rebate), (part, part.rebate))
    return list(first.values())


def boards_of(rooms: Iterable[RoomPlan]) -> Iterator[tuple[FittedOut, DrawerBox, DrawerPart]]:
    for room in rooms:
        for unit in room.fitting.units:
            drawers = {one.id: one for one in unit.drawers}
            yield from ((unit, drawers[part.drawer], part) for part in unit.drawer_parts)


def _part(job: Job, unit: FittedOut, drawer: DrawerBox, part: DrawerPart) -> Part:
    return {
        "item": unit.item,
        "drawer": f"{unit.name}, {drawer.name}",
        "part": PART_WORDS[part.part],
        "length": figure_part(_figure(job, part.length_mm, f"{part.words}.")),
        "width": figure_part(_figure(job, part.width_mm, f"{part.words}.")),
        "thickness": figure_part(_figure(job, part.thickness_mm, OF_BOARD[part.part])),
        "count": part.count,
        "rebate": None
        if part.rebate is None
        else {
            "depth": figure_part(_figure(job, part.rebate.depth_mm, f"{part.rebate.words}.")),
            "lip": figure_part(_figure(job, part.rebate.lip_mm, "by the runner's chart.")),
            "words": part.rebate.words,
        },
        "grain": GRAIN_WORDS[part.part],
        "words": part.words,
    }


def _list(job: Job, rooms: list[RoomPlan]) -> list[Part]:
    """Boards of one size, thickness and rebate together, the largest first: by what is shown, as a saw is set to it."""
    rows: dict[tuple[str, ...], Part] = {}
    for unit, drawer, part in boards_of(rooms):
        why = {"length": f"{part.words}.", "width": f"{part.words}.", "thickness": OF_BOARD[part.part]}
        sizes = {name: _figure(job, getattr(part, f"{name}_mm"), words) for name, words in why.items()}
        rebate = _short_rebate(job, part.rebate)
        key = (part.part.value, *(one.text for one in sizes.values()), rebate)
        if key not in rows:
            shown = {name: figure_part(one) for name, one in sizes.items()}
            rows[key] = {
                "part": PART_WORDS[part.part],
                **shown,
                "count": 0,
                "rebate_words": rebate,
                "grain": GRAIN_WORDS[part.part],
                "for": {},
            }
        rows[key]["count"] += part.count
        rows[key]["for"].setdefault(unit.name, []).append(drawer.name)
    order = list(PartIs)
    keys = sorted(
        rows, key=lambda key: (order.index(PartIs(key[0])), -rows[key]["length"]["mm"], -rows[key]["width"]["mm"])
    )
    found = [rows[key] for key in keys]
    for row in found:
        row["for_words"] = "; ".join(f"{unit}: {listed(drawers)}" for unit, drawers in row.pop("for").items())
    return found


def _short_rebate(job: Job, rebate: Rebate | None) -> str:
    """The rebate as a list has room for: which face, how deep, how wide, which edges."""
    if rebate is None:
        return "no rebate"
    face = {RebateFace.BELOW: "underside", RebateFace.ABOVE: "upper face", None: "rear face"}[rebate.face]
    depth, lip = (text_mm(mm, job.holes.shop_mm) for mm in (rebate.depth_mm, rebate.lip_mm))
    return f"{depth} deep, {lip} wide, {face}, {listed(rebate.edges)}"


def _runners(room: RoomPlan) -> list[Part]:
    counts = Counter(drawer.runner for unit in room.fitting.units for drawer in unit.drawers)
    return [
        {"row": id, "name": row.name, "count": count}
        for id, count in counts.items()
        if (row := room.hardware.row(Runner, id)) is not None
    ]


def _figure(job: Job, value_mm: float, why: str) -> Figure:
    return figure(value_mm, job.holes.shop_mm, f"{why[:1].upper()}{why[1:]}")
