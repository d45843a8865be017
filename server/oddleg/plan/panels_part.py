"""The part of a plan that a carcass's panels, their drawings, templates and sticks show."""

from __future__ import annotations

from typing import TYPE_CHECKING

from oddleg.job import Drilled, FrontIs, Job, Runner

from .figure import Figure, figure, text_mm
from .fitted_out import CutOut, DrawerBox, FittedOut, Hole, Panel, PlacedFront, Stick
from .hardware import Hardware
from .panel_views import COUNTED_FROM, NumberedHole, counted_from, letters, numbered_holes, views
from .part_values import Part, figure_part, finding_part, handing_words
from .room_services import cut_outs_of
from .site import body

if TYPE_CHECKING:
    from . import RoomPlan

FRONT_WORDS = {
    FrontIs.DOOR: "door",
    FrontIs.DRAWER: "drawer front",
    FrontIs.FLAP: "flap",
    FrontIs.PULL_OUT: "front of a pull-out",
    FrontIs.FIXED: "fixed front",
    FrontIs.SPACE: "space",
}


def panels_part(job: Job, room_plan: RoomPlan, fitted: FittedOut) -> Part:
    step_mm = job.holes.shop_mm
    drilled = {
        (one.panel, one.hole): one
        for one in (body(entry, Drilled) for entry in room_plan.site.drilled)
        if one.item == fitted.item
    }
    run = next(one for one in room_plan.room.runs if any(item.id == fitted.item for item in one.items))
    return {
        "id": fitted.item,
        "number": fitted.number,
        "name": fitted.name,
        "place": run.name if fitted.number is None else f"unit {fitted.number}, {run.name}",
        "room": room_plan.room.id,
        "run": run.name,
        "handing": handing_words(fitted.box.item),
        "cut_outs": f"cut-outs: {cut_outs_of(room_plan.fitting.services, fitted.item)}",
        "stacks": [
            {
                "words": one.words,
                "opening": _told(one.opening_mm, step_mm, "What the fronts and their gaps have to fill."),
                "sum": _told(one.sum_mm, step_mm, "Every front and gap of the stack put together."),
            }
            for one in fitted.stacks
        ],
        "fronts": [_front(one, step_mm) for one in fitted.fronts],
        "drawers": [_drawer(one, fitted, room_plan.hardware, step_mm) for one in fitted.drawers],
        "panels": [_panel(one, drilled, step_mm) for one in fitted.panels],
        "sticks": [_stick(one, step_mm) for one in fitted.sticks],
        "findings": [finding_part(one) for one in fitted.findings],
    }


def at_figures(panel: Panel, hole: Hole, step_mm: float) -> tuple[Figure, Figure]:
    """u and v of a hole as every screen, drawing and sheet shows them."""
    by = f", by the chart's row {hole.row}" if hole.row else ""
    u, v = (
        figure(at_mm, step_mm, f"From the {edge} to the middle of the hole: {hole.words}{by}.")
        for at_mm, edge in zip((hole.u_mm, hole.v_mm), COUNTED_FROM[panel.kind], strict=True)
    )
    return u, v


def groove_words(panel: Panel, step_mm: float) -> str:
    """The groove for the back in a sentence; empty where there is none."""
    groove = panel.groove
    if groove is None:
        return ""
    start, wide, deep = (text_mm(mm, step_mm) for mm in (groove.from_mm, groove.width_mm, groove.depth_mm))
    return (
        f"Groove for the back on the {panel.face_words.removesuffix(' up')}: begins {start} behind the front edge, "
        f"{wide} wide, {deep} deep."
    )


def depth_words(hole: Hole, step_mm: float) -> str:
    return "through" if hole.depth_mm is None else f"{text_mm(hole.depth_mm, step_mm)} deep"


def _panel(panel: Panel, drilled: dict[tuple[str, str], Drilled], step_mm: float) -> Part:
    return {
        "id": panel.id,
        "name": panel.name,
        "kind": panel.kind.value,
        "width": _told(panel.width_mm, step_mm, f"Away from the {COUNTED_FROM[panel.kind][0]}."),
        "height": _told(panel.height_mm, step_mm, f"Away from the {COUNTED_FROM[panel.kind][1]}."),
        "thickness": _told(panel.thickness_mm, step_mm, "The board that it is made of."),
        "face": panel.face_words,
        "other_face": panel.other_face_words,
        "origin": panel.origin_words,
        "groove": groove_words(panel, step_mm),
        "front_edge": panel.front_edge,
        "axes": list(COUNTED_FROM[panel.kind]),
        "views": [
            {
                "face": one.face.value,
                "words": one.words,
                "front_edge": one.front_edge,
                "axes": list(counted_from(one)),
                "drawing": one.field,
            }
            for one in views(panel)
        ],
        "holes": [_hole(panel, one, drilled.get((panel.id, one.hole.id)), step_mm) for one in numbered_holes(panel)],
        "cut_outs": [_cut(panel, one, letters(n), step_mm) for n, one in enumerate(panel.cut_outs)],
    }


def _hole(panel: Panel, numbered: NumberedHole, tick: Drilled | None, step_mm: float) -> Part:
    hole = numbered.hole
    u, v = at_figures(panel, hole, step_mm)
    done = moved = None
    if tick is not None:
        done = {"u": text_mm(tick.u_mm, step_mm), "v": text_mm(tick.v_mm, step_mm)}
        pairs = ((tick.u_mm, hole.u_mm, done["u"], u.text), (tick.v_mm, hole.v_mm, done["v"], v.text))
        if any(was != now and abs(was_mm - now_mm) > step_mm for was_mm, now_mm, was, now in pairs):
            moved = f"drilled at {done['u']}, {done['v']}; now {u.text}, {v.text}"
    by = f" by the chart's row {hole.row}" if hole.row else ""
    return {
        "id": hole.id,
        "number": numbered.number,
        "u": figure_part(u),
        "v": figure_part(v),
        "diameter": _told(hole.diameter_mm, step_mm, f"The bit for it{by}: {hole.words}."),
        "depth": None
        if hole.depth_mm is None
        else _told(hole.depth_mm, step_mm, f"The depth stop for it{by}: {hole.words}."),
        "face": hole.face.value,
        "hole_for": hole.hole_for.value,
        "words": hole.words,
        "drilled": done,
        "moved": moved,
    }


def _cut(panel: Panel, cut: CutOut, letter: str, step_mm: float) -> Part:
    """Figures of a round one go to its middle, where the hole saw is put on; others to the cut-out's edges."""
    across, up = COUNTED_FROM[panel.kind]
    to = "the middle of the cut-out" if cut.round else "the cut-out"
    in_mm = cut.width_mm / 2 if cut.round else 0.0
    right_mm, top_mm = panel.width_mm - cut.left_mm - cut.width_mm, panel.height_mm - cut.foot_mm - cut.height_mm
    return {
        "id": cut.id,
        "letter": letter,
        "words": cut.words,
        "left": _told(cut.left_mm + in_mm, step_mm, f"From the {across} to {to}."),
        "foot": _told(cut.foot_mm + in_mm, step_mm, f"From the {up} to {to}."),
        "from_right": _told(right_mm + in_mm, step_mm, f"From the edge across from the {across} to {to}."),
        "from_top": _told(top_mm + in_mm, step_mm, f"From the edge across from the {up} to {to}."),
        "width": _told(cut.width_mm, step_mm, f"Across: {cut.words}."),
        "height": _told(cut.height_mm, step_mm, f"Up and down: {cut.words}."),
        "radius": _told(cut.radius_mm, step_mm, "Of its corners.") if cut.radius_mm > 0 and not cut.round else None,
        "round": cut.round,
        "open_to": list(cut.open_to),
    }


def _front(one: PlacedFront, step_mm: float) -> Part:
    return {
        "id": one.id,
        "name": one.name,
        "what": FRONT_WORDS[one.front],
        "width": _told(one.width_mm, step_mm, "Of the front itself, gaps taken off."),
        "height": _told(one.height_mm, step_mm, "Of the front itself, gaps taken off."),
        "foot": _told(one.foot_mm, step_mm, "Its lower edge over the carcass's underside."),
        "weight": f"{text_mm(one.weight_kg, 0.1)} kg" if one.weight_kg > 0 else "",
        "hinges_words": one.hinges_words,
    }


def _drawer(one: DrawerBox, fitted: FittedOut, known: Hardware, step_mm: float) -> Part:
    foot_mm = fitted.box.side_foot_mm
    row = known.row(Runner, one.runner)
    words = "behind a door" if one.front is None else ""
    if one.spacer_mm > 0:
        words += f"{', ' if words else ''}on spacers of {text_mm(one.spacer_mm, step_mm)}"
    return {
        "id": one.id,
        "name": one.name,
        "runner": row.name if row is not None else one.runner,
        "line": _told(one.line_mm - foot_mm, step_mm, "The runner's screws over the lower edge of the side."),
        "first": _told(one.first_mm, step_mm, "The runner's first screw behind the carcass's front edge."),
        "words": words,
    }


def _stick(one: Stick, step_mm: float) -> Part:
    return {
        "id": one.id,
        "name": one.name,
        "words": one.words,
        "offset": _told(one.offset_mm, step_mm, f"Of the line from the {one.against}."),
        "also": [_told(each, step_mm, f"Of a further line from the {one.against}.") for each in one.also_mm],
        "length": _told(one.length_mm, step_mm, f"As long as the board, from the {one.foot_on}."),
        "marks": [
            {"at": _told(each.along_mm, step_mm, f"From the {one.foot_on}: {each.words}."), "words": each.words}
            for each in one.marks
        ],
    }


def _told(value_mm: float, step_mm: float, why: str) -> Part:
    told = figure_part(figure(value_mm, step_mm, why))
    assert told is not None
    return told
