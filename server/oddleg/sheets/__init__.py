"""Sheets to print: survey and datum, legs, labels, plinth; as PDF on A4, from the phone's parts and drawings."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from oddleg.drawings.lettering import lines_at_most
from oddleg.plan import Plan, RoomPlan
from oddleg.plan.part_values import Part
from oddleg.plan.parts import parts

from .corners_sheet import corners_content
from .labels import labels_content
from .leg_sheet import legs_content
from .plinth_sheet import plinth_content
from .source import SheetSource, UnknownSheet
from .survey_sheet import survey_content
from .typeset import typeset

__all__ = ["SheetSource", "UnknownSheet", "sheet_names", "sheet_pdf"]

Content = Callable[[Plan, RoomPlan, dict[str, Part], SheetSource], dict[str, Any]]

KINDS: dict[str, Content] = {
    "survey": survey_content,
    "legs": legs_content,
    "labels": labels_content,
    "plinth": plinth_content,
    "corners": corners_content,
}


def sheet_names(plan: Plan) -> list[tuple[str, str]]:
    """(name, title) of every sheet of the plan, room by room: survey-ROOM, legs-ROOM, labels-ROOM, plinth-ROOM."""
    return [(one["name"], one["title"]) for one in parts(plan, revision=0)["sheets"]["sheets"]]


def sheet_pdf(plan: Plan, name: str, printed: SheetSource) -> bytes:
    """One sheet as PDF. The same plan and source give the same bytes. Raises UnknownSheet for any other name."""
    kind, _, room_id = name.partition("-")
    room = next((one for one in plan.rooms if one.room.id == room_id), None)
    if kind not in KINDS or room is None:
        raise UnknownSheet(name)
    found = parts(plan, printed.revision)
    head = next(one for one in found["sheets"]["sheets"] if one["name"] == name)
    content = {
        "kind": kind,
        "document_title": f"{head['title']}, {plan.job.title}",
        "job": lines_at_most(plan.job.title, 2, *JOB_LINES, bold=True),
        "place": lines_at_most(f"{plan.job.place}, {plan.job.client}", 2, *PLACE_LINES),
        "room": room.room.name,
        "title": lines_at_most(head["title"], 1, *TITLE_LINES, bold=True),
        "mark": head["mark"],
        "source": lines_at_most(f"From {printed.source}", 2, *SOURCE_LINES),
        "date": printed.date,
        "code": printed.code_svg(plan.job.id, *LINKS[kind], *([room_id] if kind in OF_ONE_ROOM else [])),
        **KINDS[kind](plan, room, found, printed),
    }
    return typeset(content)


# Width and size, mm, of lines in the title block: 13 pt, 9 pt, 10.5 pt and 7.5 pt of 25.4 / 72 mm.
JOB_LINES, PLACE_LINES, TITLE_LINES, SOURCE_LINES = (84.0, 4.59), (84.0, 3.18), (58.0, 3.71), (58.0, 2.65)

# Where in the app a sheet's code leads.
LINKS = {"survey": ("datum",), "legs": ("units",), "labels": ("units",), "plinth": ("plinth",), "corners": ("corners",)}
OF_ONE_ROOM = ("survey", "plinth", "corners")
