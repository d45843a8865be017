"""A plan's drawings: in mm on paper, and as SVG for the phone."""

from __future__ import annotations

from oddleg.plan import Plan, RoomPlan
from oddleg.plan.legs import unit_numbers

from .corner import corner_drawing
from .datum import datum_drawing
from .floor import floor_drawing
from .legs import bench_drawing, fitted_drawing
from .plinth import layout_drawing, piece_drawing, piece_numbers, plinth_plan
from .primitives import Drawing
from .room_plan import GREATEST_HEIGHT_MM, LARGE_HEIGHT_MM, LARGE_WIDTH_MM, PHONE_WIDTH_MM
from .survey import survey_drawing
from .svg import svg

__all__ = [
    "Drawing",
    "bench_drawing",
    "corner_drawings",
    "datum_drawing",
    "fitted_drawing",
    "floor_drawing",
    "layout_drawing",
    "part_drawings",
    "piece_drawing",
    "piece_numbers",
    "plan_of_datum",
    "plan_of_floor",
    "plan_of_survey",
    "plinth_drawings",
    "plinth_plan",
    "survey_drawing",
    "svg",
]


def plan_of_survey(
    room: RoomPlan, width_mm: float, greatest_height_mm: float = GREATEST_HEIGHT_MM, on_paper: bool = False
) -> Drawing:
    set_ups = [one for one, _ in room.set_ups]
    numbers = unit_numbers(room.placed)
    return survey_drawing(
        room.room, room.placed, room.station_list, set_ups, numbers, width_mm, greatest_height_mm, on_paper=on_paper
    )


def plan_of_floor(room: RoomPlan, width_mm: float = PHONE_WIDTH_MM) -> Drawing:
    return floor_drawing(
        room.room, room.placed, room.station_list, room.floor.as_read, unit_numbers(room.placed), width_mm
    )


def plan_of_datum(room: RoomPlan, rounding_mm: float, width_mm: float = PHONE_WIDTH_MM) -> Drawing:
    return datum_drawing(room.room, room.datum, room.floor.finished, rounding_mm, width_mm)


def part_drawings(plan: Plan) -> dict[str, dict[str, Drawing]]:
    """Drawings for the phone by name of the part that they go into and by field: drawing, or bench and fitted."""
    found: dict[str, dict[str, Drawing]] = {}
    for room in plan.rooms:
        id = room.room.id
        found[f"survey/{id}"] = {"drawing": plan_of_survey(room, LARGE_WIDTH_MM, LARGE_HEIGHT_MM)}
        found[f"floor/{id}"] = {"drawing": plan_of_floor(room)}
        found[f"datum/{id}"] = {"drawing": plan_of_datum(room, plan.job.rounding_mm)}
        for unit in room.units:
            found[f"unit/{unit.placed.item.id}"] = {"bench": bench_drawing(unit), "fitted": fitted_drawing(unit)}
        if room.plinth is not None:
            found[f"plinth/{id}"] = plinth_drawings(room)
        found[f"corners/{id}"] = corner_drawings(room, plan.job.rounding_mm)
    return found


def corner_drawings(room: RoomPlan, rounding_mm: float, width_mm: float = PHONE_WIDTH_MM) -> dict[str, Drawing]:
    """`corner-1` and so on: each corner of the room."""
    return {
        f"corner-{number}": corner_drawing(corner, number, room, rounding_mm, width_mm)
        for number, corner in enumerate(room.setting_out.corners, 1)
    }


def plinth_drawings(room: RoomPlan, width_mm: float = PHONE_WIDTH_MM) -> dict[str, Drawing]:
    """`drawing`: the room from above; `layout` where there is something to cut; `piece-1` and so on: each piece."""
    plinth = room.plinth
    if plinth is None:
        return {}
    found = {"drawing": plinth_plan(room.room, room.placed, unit_numbers(room.placed), plinth, width_mm)}
    if plinth.nesting is not None:
        found["layout"] = layout_drawing(plinth.nesting, piece_numbers(plinth), width_mm)
    for piece in plinth.pieces:
        found[f"piece-{piece.number}"] = piece_drawing(piece, plinth, width_mm)
    return found
