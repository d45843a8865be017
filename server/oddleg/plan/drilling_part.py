"""The part that sums a room's drilling up: which bits, what depth stops, how many holes, how many screws."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from oddleg.job import HardwareKind, Job, Pin

from . import Plan, RoomPlan
from .figure import figure
from .fitted_out import FittedOut, Hole, HoleFor
from .part_values import Part, figure_part
from .shelf_holes import pin_rows_mm
from .sightings import counted, listed

FOR_WORDS = {
    HoleFor.RUNNER: "runners",
    HoleFor.CUP: "hinge cups",
    HoleFor.CUP_SCREW: "hinge cups' screws",
    HoleFor.PLATE: "mounting plates",
    HoleFor.LEG: "legs",
    HoleFor.BRACKET: "hanging brackets",
    HoleFor.CONNECTOR: "connecting screws",
    HoleFor.PIN: "shelf pins",
    HoleFor.PULL_OUT: "pull-out frames",
    HoleFor.PASSAGE: "wastes, supplies and leads",
}
# A connecting screw goes through two sides, so two holes take one. Cups, passages and spare holes for pins take none.
HOLES_A_SCREW = {HoleFor.CONNECTOR: 2}
WITHOUT_SCREW = (HoleFor.CUP, HoleFor.PASSAGE)


def drilling_part(plan: Plan, room: RoomPlan) -> Part:
    return {
        "room": room.room.id,
        "name": room.room.name,
        "bits": _bits(plan.job, room),
        "screws": _screws(plan.job, room),
        "units": [
            {"item": unit.item, "name": unit.name, "holes": sum(len(panel.holes) for panel in unit.panels)}
            for unit in room.fitting.units
            if any(panel.holes for panel in unit.panels)
        ],
        "findings": [],
    }


def has_holes(room: RoomPlan) -> bool:
    return any(True for _ in _holes(room))


def _holes(room: RoomPlan) -> Iterator[tuple[FittedOut, Hole]]:
    for unit in room.fitting.units:
        for panel in unit.panels:
            yield from ((unit, hole) for hole in panel.holes)


def _bits(job: Job, room: RoomPlan) -> list[Part]:
    """Small bits first, within one the shallow holes; right through comes last."""
    bits: dict[tuple[float, float | None], Counter[HoleFor]] = {}
    for _, hole in _holes(room):
        bits.setdefault((hole.diameter_mm, hole.depth_mm), Counter())[hole.hole_for] += 1
    rows = []
    for diameter_mm, depth_mm in sorted(bits, key=lambda one: (one[0], one[1] is None, one[1] or 0.0)):
        counts = bits[diameter_mm, depth_mm]
        stop = None if depth_mm is None else figure(depth_mm, job.holes.shop_mm, "Depth by the hardware's chart.")
        rows.append(
            {
                "diameter": figure_part(figure(diameter_mm, job.holes.shop_mm, "Bore by the hardware's chart.")),
                "stop": figure_part(stop),
                "holes": sum(counts.values()),
                "words": listed([f"{FOR_WORDS[what]} {count}" for what, count in counts.items()]),
            }
        )
    return rows


def _pins(job: Job, room: RoomPlan) -> Iterator[str]:
    """The pin's row, once for each pin under a shelf: one in each row of holes at either end."""
    for unit in room.fitting.units:
        for space in unit.box.spaces:
            for shelf in space.compartment.shelves:
                pin = None if shelf.fixed else room.hardware.row(Pin, shelf.pins)
                if pin is not None:
                    yield from [pin.id] * (2 * len(pin_rows_mm(unit.box, pin, job.holes)))


def _screws(job: Job, room: RoomPlan) -> list[Part]:
    """What is put into the holes, by the row of the chart; a chart that says nothing of its screws leaves them to the
    hardware's own sheet. Pins by the shelves that lie on them: most of their holes stay empty."""
    counts = Counter((hole.hole_for, hole.row) for _, hole in _holes(room) if hole.hole_for not in WITHOUT_SCREW)
    pins = Counter(_pins(job, room))
    counts = Counter({one: pins[one[1] or ""] if one[0] is HoleFor.PIN else count for one, count in counts.items()})
    rows = []
    for (what, row), holes in counts.items():
        count = -(-holes // HOLES_A_SCREW.get(what, 1))
        thing = "pin" if what is HoleFor.PIN else "screw"
        rows.append({"words": f"{_name(room, what, row)}: {counted(count, thing)}", "count": count})
    return rows


def _name(room: RoomPlan, what: HoleFor, row: str | None) -> str:
    """The chart's name for it. Rows of two kinds may have one id, so the kind counts."""
    kind = HardwareKind.HINGE if what is HoleFor.CUP_SCREW else HardwareKind(what.value)
    return room.hardware.rows[kind, row].name if row is not None else FOR_WORDS[what]
