"""A plan's drawings: in mm on paper, and as SVG for the phone."""

from __future__ import annotations

from oddleg.job import Job
from oddleg.plan import Plan, RoomPlan
from oddleg.plan.drawers_part import rebates_of
from oddleg.plan.fitted_out import FittedOut
from oddleg.plan.legs import unit_numbers
from oddleg.plan.room_services import BackCut
from oddleg.plan.setting_out import RunSetOut

from .back_cuts import back_drawing
from .carcass_front import carcass_drawings
from .corner import corner_drawing
from .datum import datum_drawing
from .floor import floor_drawing
from .legs import bench_drawing, fitted_drawing
from .plinth import layout_drawing, piece_drawing, piece_numbers, plinth_plan
from .primitives import Drawing
from .rebate import rebate_drawing
from .rod_strip import strip_drawing
from .room_plan import GREATEST_HEIGHT_MM, LARGE_HEIGHT_MM, LARGE_WIDTH_MM, PHONE_WIDTH_MM
from .run_elevation import run_elevations
from .run_items import RunHeights, run_heights
from .run_plan import run_plans
from .services import first_fix_elevations, service_elevations
from .strip_tiles import PAPERS, strip_tiles
from .survey import survey_drawing
from .svg import svg
from .tall import tall_drawings

__all__ = [
    "PAPERS",
    "Drawing",
    "bench_drawing",
    "corner_drawings",
    "datum_drawing",
    "first_fix_drawings",
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
    "run_drawings",
    "service_drawings",
    "strip_tiles",
    "survey_drawing",
    "svg",
    "tall_drawings",
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
        for run in room.setting_out.runs:
            pictures = run_drawings(plan.job, room, run)
            numbers = unit_numbers(room.placed)
            found[f"run/{run.run.id}"] = {
                "strip": strip_drawing(run, numbers, PHONE_WIDTH_MM),
                **{field: one for field, (one,) in pictures.items()},
            }
        if room.tall_wall is not None:
            found[f"tall/{id}"] = tall_drawings(plan.job, room)
        found |= _fitting_drawings(plan.job, room)
    return found


def run_drawings(
    job: Job, room: RoomPlan, run: RunSetOut, width_mm: float = PHONE_WIDTH_MM, greatest_height_mm: float | None = None
) -> dict[str, tuple[Drawing, ...]]:
    """`plan` and `elevation` of a run; each in one drawing unless it may be no higher than `greatest_height_mm`."""
    numbers = unit_numbers(room.placed)
    datum = room.datum.decided.datum if room.datum.decided is not None else None
    heights = heights_of(job, room, run)
    return {
        "plan": run_plans(run, numbers, width_mm, job.rounding_mm, greatest_height_mm),
        "elevation": run_elevations(run, heights, datum, numbers, width_mm, greatest_height_mm),
    }


def heights_of(job: Job, room: RoomPlan, run: RunSetOut) -> RunHeights:
    datum, finished = room.datum.decided, room.floor.finished
    floor_mm = None if datum is None or not finished.spots else finished.highest.level_mm - datum.datum.mm
    return run_heights(job, room.room, room.placed, run.rod.placed, floor_mm)


def service_drawings(
    job: Job, room: RoomPlan, width_mm: float, back_width_mm: float, greatest_height_mm: float | None = None
) -> tuple[list[Drawing], list[Drawing]]:
    """The runs with services from the front; and each back that is cut, from the front and from behind."""
    numbers, services = unit_numbers(room.placed), room.fitting.services
    datum = room.datum.decided.datum if room.datum.decided is not None else None
    elevations = [
        one
        for run in room.setting_out.runs
        for one in service_elevations(
            run, services, heights_of(job, room, run), datum, numbers, width_mm, greatest_height_mm
        )
    ]
    backs = [
        back_drawing(unit.box, cuts, back_width_mm, behind)
        for unit, cuts in cut_backs(room)
        for behind in (False, True)
    ]
    return elevations, backs


def first_fix_drawings(
    job: Job, room: RoomPlan, width_mm: float, greatest_height_mm: float | None = None
) -> list[Drawing]:
    numbers = unit_numbers(room.placed)
    return [
        one
        for run in room.setting_out.runs
        for one in first_fix_elevations(
            run, room.fitting.services, heights_of(job, room, run), numbers, width_mm, greatest_height_mm
        )
    ]


def cut_backs(room: RoomPlan) -> list[tuple[FittedOut, list[BackCut]]]:
    """The units whose back is cut, each with its cut-outs."""
    found = []
    for unit in room.fitting.units:
        cuts = [one for one in room.fitting.services.cuts if one.item == unit.item]
        if cuts:
            found.append((unit, cuts))
    return found


def _fitting_drawings(job: Job, room: RoomPlan) -> dict[str, dict[str, Drawing]]:
    """For the phone: services by run and by back, the rebates of drawer boards, and carcasses with their panels."""
    id, numbers, services = room.room.id, unit_numbers(room.placed), room.fitting.services
    datum = room.datum.decided.datum if room.datum.decided is not None else None
    found: dict[str, Drawing] = {}
    for run in room.setting_out.runs:
        heights = heights_of(job, room, run)
        for one in service_elevations(run, services, heights, datum, numbers, PHONE_WIDTH_MM):
            found[f"elevation-{run.run.id}"] = one
        for one in first_fix_elevations(run, services, heights, numbers, PHONE_WIDTH_MM):
            found[f"first_fix-{run.run.id}"] = one
    for unit, cuts in cut_backs(room):
        found[f"back-{unit.item}"] = back_drawing(unit.box, cuts, PHONE_WIDTH_MM, behind=False)
        found[f"behind-{unit.item}"] = back_drawing(unit.box, cuts, PHONE_WIDTH_MM, behind=True)
    sections = {
        f"section-{number}": rebate_drawing(board, rebate, PHONE_WIDTH_MM)
        for number, (board, rebate) in enumerate(rebates_of(room), 1)
    }
    carcasses = {f"panels/{unit.item}": carcass_drawings(job, unit) for unit in room.fitting.units}
    return {f"services/{id}": found, f"drawers/{id}": sections} | carcasses


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
