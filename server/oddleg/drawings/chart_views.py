"""Which views and which words show a row of a chart."""

from __future__ import annotations

from collections.abc import Sequence

from oddleg.job import (
    Bracket,
    Connector,
    HardwareRow,
    Hinge,
    Leg,
    Pin,
    Plate,
    PullOut,
    RebateFace,
    Runner,
)
from oddleg.plan.sightings import listed

from .chart_carcass_views import boards, bracket, clearance, connector, leg_height, leg_holes, pin
from .chart_door_views import closed, cup, hinges, plate
from .chart_drawer_views import drawer, frame, frame_front, runner
from .chart_view import View, mm, section


def views_of(row: HardwareRow) -> tuple[View, ...]:
    match row:
        case Runner():
            return runner(row), drawer(row)
        case Hinge():
            return cup(row), closed(row), hinges(row)
        case Plate():
            return plate(row), section(row.hole_mm, row.hole_depth_mm)
        case Leg():
            return leg_holes(row), leg_height(row)
        case Bracket():
            return bracket(row), section(row.hole_mm, row.hole_depth_mm)
        case Connector():
            return connector(row), clearance(row), boards(row)
        case Pin():
            return pin(row), section(row.hole_mm, row.hole_depth_mm)
        case PullOut():
            return (frame(row), frame_front(row)) if row.door_up_mm else (frame(row),)


def words_of(row: HardwareRow) -> tuple[str, ...]:
    """The figures that the views do not show."""
    match row:
        case Runner():
            face = "in its underside" if row.base_face is RebateFace.BELOW else "in its upper face"
            base = _rebate("base", row.board_mm, row.base_lip_mm, row.base_edges)
            back = _rebate("back", row.board_mm, row.back_lip_mm, row.back_edges)
            return (
                f"Screws {listed([mm(one) for one in row.screws_mm])} behind the first. "
                f"{_holes(row.hole_mm, row.hole_depth_mm)} A pair carries {mm(row.load_kg)} kg.",
                f"Base: inside width less {mm(row.base_less_mm)}, by the runner's {mm(row.length_mm)} less "
                f"{mm(row.base_shorter_mm)}. Back: inside width less {mm(row.back_less_mm)}, {mm(row.back_height_mm)} "
                "high.",
                f"{base}, {face}, with {mm(row.base_clear_mm)} free under its lip. {back}.",
            )
        case Hinge():
            return (
                f"Opens {mm(row.opening_deg)} degrees. Cup {mm(row.cup_mm)} across, {mm(row.cup_depth_mm)} deep. Its "
                f"screws {mm(row.screws_apart_mm)} apart, {mm(row.screws_back_mm)} beyond its middle, "
                f"{mm(row.screw_mm)} across, {mm(row.screw_depth_mm)} deep. Doors {mm(row.least_door_mm)} to "
                f"{mm(row.greatest_door_mm)} thick.",
                f"Overlay = {mm(row.constant_mm)} + edge distance \N{MINUS SIGN} height of the plate.",
            )
        case Leg():
            return (f"{_holes(row.hole_mm, row.hole_depth_mm)} One leg carries {mm(row.load_kg)} kg.",)
        case Bracket():
            return (f"A pair carries {mm(row.load_kg)} kg into the rail. What the wall carries no chart says.",)
        case Plate() | Connector():
            return ()
        case Pin():
            return (
                f"Rear row at least {mm(row.least_back_mm)} before the rear edge. Four of them carry "
                f"{mm(row.load_kg)} kg.",
            )
        case PullOut():
            front = (
                f" In its front {mm(row.door_hole_mm)} across, {mm(row.door_hole_depth_mm)} deep."
                if row.door_up_mm
                else ""
            )
            return (f"{_holes(row.hole_mm, row.hole_depth_mm)}{front} It carries {mm(row.load_kg)} kg.",)


def _holes(hole_mm: float, deep_mm: float) -> str:
    return f"Holes {mm(hole_mm)} across, {mm(deep_mm)} deep."


def _rebate(part: str, board_mm: float, lip_mm: float, edges: Sequence[str]) -> str:
    where = ", ".join(edges) if edges else "no edge"
    return f"A {part} thicker than {mm(board_mm)} gets a rebate {mm(lip_mm)} wide along: {where}"
