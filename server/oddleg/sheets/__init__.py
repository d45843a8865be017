"""Sheets to print, of a room (survey and datum, walls, legs, labels, plinth, corners, tall and wall units, drawers,
drilling, services), of a run (its rod, listed and at full size) or of an item that is fitted out (panels, templates,
sticks); as PDF on A4 or A3, from the phone's parts and drawings."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from functools import partial
from typing import Any

from oddleg.drawings.lettering import lines_at_most
from oddleg.plan import Plan, RoomPlan
from oddleg.plan.fitted_out import FittedOut
from oddleg.plan.part_values import Part
from oddleg.plan.parts import parts
from oddleg.plan.setting_out import RunSetOut

from .corners_sheet import corners_content
from .drawers_sheet import drawers_content, drilling_content
from .labels import labels_content
from .leg_sheet import legs_content
from .panels_sheet import panels_content
from .plinth_sheet import plinth_content
from .rod_sheet import rod_content, strip_content
from .services_sheet import first_fix_content, services_content
from .source import SheetSource, UnknownSheet
from .stick_sheet import stick_content
from .survey_sheet import survey_content
from .tall_sheet import tall_content
from .template_sheet import template_content
from .typeset import typeset
from .walls_sheet import walls_content

__all__ = ["SheetSource", "UnknownSheet", "on_paper", "sheet_names", "sheet_pdf", "sheet_pdfs"]

Content = Callable[[Plan, RoomPlan, dict[str, Part], SheetSource], dict[str, Any]]
ContentOfARun = Callable[[Plan, RoomPlan, RunSetOut, dict[str, Part]], dict[str, Any]]
ContentOfAnItem = Callable[[Plan, RoomPlan, FittedOut, dict[str, Part]], dict[str, Any]]

KINDS: dict[str, Content] = {
    "survey": survey_content,
    "walls": walls_content,
    "legs": legs_content,
    "labels": labels_content,
    "plinth": plinth_content,
    "corners": corners_content,
    "tall": tall_content,
    "drawers": drawers_content,
    "drilling": drilling_content,
    "services": services_content,
    "first_fix": first_fix_content,
}

KINDS_OF_A_RUN: dict[str, ContentOfARun] = {
    "rod": rod_content,
    "strip_a4": partial(strip_content, "a4"),
    "strip_a3": partial(strip_content, "a3"),
}

KINDS_OF_AN_ITEM: dict[str, ContentOfAnItem] = {
    "panels": panels_content,
    "template_a4": partial(template_content, "a4"),
    "template_a3": partial(template_content, "a3"),
    "stick_a4": partial(stick_content, "a4"),
    "stick_a3": partial(stick_content, "a3"),
}


def on_paper(name: str, paper: str) -> bool:
    """Whether a sheet is printed on this paper (a4, a3), or, not being at full size, on any."""
    kind = name.partition("-")[0]
    return not kind.endswith(("_a4", "_a3")) or kind.endswith(f"_{paper}")


def sheet_names(plan: Plan) -> list[tuple[str, str]]:
    """(name, title) of every sheet of the plan, room by room: survey-ROOM and so on, then rod-RUN and so on."""
    return [(one["name"], one["title"]) for one in parts(plan, revision=0)["sheets"]["sheets"]]


def sheet_pdf(plan: Plan, name: str, printed: SheetSource) -> bytes:
    """One sheet as PDF. The same plan and source give the same bytes. Raises UnknownSheet for any other name."""
    return _pdf(plan, name, printed, parts(plan, printed.revision))


def sheet_pdfs(plan: Plan, names: Iterable[str], printed: SheetSource) -> Iterator[tuple[str, bytes]]:
    """Each sheet with its name, one after another; the plan's parts are made once for all of them. Raises
    UnknownSheet."""
    found = parts(plan, printed.revision)
    for name in names:
        yield name, _pdf(plan, name, printed, found)


def _pdf(plan: Plan, name: str, printed: SheetSource, found: dict[str, Part]) -> bytes:
    kind, _, id = name.partition("-")
    head = next((one for one in found["sheets"]["sheets"] if one["name"] == name), None)
    if head is None:
        raise UnknownSheet(name)
    if kind in KINDS and (room := next((one for one in plan.rooms if one.room.id == id), None)) is not None:
        shown, place = KINDS[kind](plan, room, found, printed), (id,) if kind in OF_ONE_ROOM else ()
    elif kind in KINDS_OF_A_RUN and (of := _run_of(plan, id)) is not None:
        room, run = of
        shown, place = KINDS_OF_A_RUN[kind](plan, room, run, found), (id,)
    elif kind in KINDS_OF_AN_ITEM and (fitted_out := _fitted_out(plan, id)) is not None:
        room, fitted = fitted_out
        shown, place = KINDS_OF_AN_ITEM[kind](plan, room, fitted, found), (id,)
    else:
        raise UnknownSheet(name)
    # The title of a run's or an item's sheet names that alone.
    in_room = [room.room.name] if kind in KINDS_OF_A_RUN or kind in KINDS_OF_AN_ITEM else []
    content = {
        "kind": kind,
        "document_title": f"{head['title']}, {plan.job.title}",
        "job": lines_at_most(plan.job.title, 2, *JOB_LINES, bold=True),
        "place": lines_at_most(", ".join([*in_room, plan.job.place, plan.job.client]), 2, *PLACE_LINES),
        "room": room.room.name,
        "title": lines_at_most(head["title"], 1, *TITLE_LINES, bold=True),
        "mark": head["mark"],
        "source": lines_at_most(f"From {printed.source}", 2, *SOURCE_LINES),
        "date": printed.date,
        "code": printed.code_svg(plan.job.id, *LINKS[kind], *place),
        **shown,
    }
    return typeset(content)


def _run_of(plan: Plan, id: str) -> tuple[RoomPlan, RunSetOut] | None:
    return next(((room, run) for room in plan.rooms for run in room.setting_out.runs if run.run.id == id), None)


def _fitted_out(plan: Plan, id: str) -> tuple[RoomPlan, FittedOut] | None:
    return next(((room, unit) for room in plan.rooms for unit in room.fitting.units if unit.item == id), None)


# Width and size, mm, of lines in the title block: 13 pt, 9 pt, 10.5 pt and 7.5 pt of 25.4 / 72 mm.
JOB_LINES, PLACE_LINES, TITLE_LINES, SOURCE_LINES = (84.0, 4.59), (84.0, 3.18), (58.0, 3.71), (58.0, 2.65)

# Where in the app a sheet's code leads.
LINKS = {"survey": ("datum",), "legs": ("units",), "labels": ("units",), "plinth": ("plinth",)}
LINKS |= {"walls": ("walls",), "corners": ("corners",), "tall": ("tall",)}
LINKS |= {"drawers": ("drawers",), "drilling": ("drilling",), "services": ("services",), "first_fix": ("services",)}
LINKS |= dict.fromkeys(KINDS_OF_A_RUN, ("run",)) | dict.fromkeys(KINDS_OF_AN_ITEM, ("panels",))
OF_ONE_ROOM = ("survey", "plinth", "walls", "corners", "tall", "drawers", "drilling", "services", "first_fix")
