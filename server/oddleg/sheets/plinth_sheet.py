"""Content of the plinth sheet of one room: the cutting list, the boards, panels to the floor, and each piece as cut."""

from __future__ import annotations

from typing import Any

from oddleg.drawings import layout_drawing, piece_numbers, plinth_drawings, svg
from oddleg.plan import Plan, RoomPlan
from oddleg.plan.part_values import Part

from .source import SheetSource
from .survey_sheet import finding_rows

DRAWING_WIDTH_MM = 86.0
LAYOUT_WIDTH_MM = 182.0


def plinth_content(plan: Plan, room: RoomPlan, found: dict[str, Part], printed: SheetSource) -> dict[str, Any]:
    """`plinth` is None until a datum is decided: then there is no height to cut to. Only what is ripped or cut out is
    drawn: of a board that goes in uncut the list says all."""
    name = f"plinth/{room.room.id}"
    part, plinth = found.get(name), room.plinth
    if part is None or plinth is None:
        return {"plinth": None}
    drawn = plinth_drawings(room, DRAWING_WIDTH_MM)
    layout = None
    if plinth.nesting is not None:
        layout = svg(layout_drawing(plinth.nesting, piece_numbers(plinth), LAYOUT_WIDTH_MM), "layout")
    return {
        "plinth": {
            "datum": part["datum"]["text"],
            "board": {key: one["text"] if one else None for key, one in part["board"].items()},
            "pieces": [_piece(one) for one in part["pieces"]],
            "panels": [_panel(one) for one in part["panels"]],
            "where": svg(drawn["drawing"], "where"),
            "layout": layout,
            "waste": f"Waste {part['waste']['text']} mm, {part['waste_share']}." if part["waste"] else "",
            "nesting_words": part["nesting_words"],
            "drawings": [
                svg(drawn[f"piece-{one.number}"], f"piece-{one.number}")
                for one in plinth.pieces
                if one.cuts or not one.uncut
            ],
            "findings": finding_rows(plan, [name]),
        }
    }


def _piece(one: Part) -> dict[str, Any]:
    return {
        "number": f"P{one['number']}",
        "name": one["name"],
        "run": one["run"],
        "ends": f"Left: {one['left_end']['words']}. Right: {one['right_end']['words']}.",
        "profile": ", ".join(f"{spot['height']['text']} at {spot['at']['text']}" for spot in one["profile"]),
        "cuts": [
            f"{cut['words'][0].upper()}{cut['words'][1:]}: {cut['width']['text']} wide, {cut['height']['text']} high, "
            f"{cut['at']['text']} from the left end{_up(cut)}."
            for cut in one["cuts"]
        ],
        "length": one["length"]["text"],
        "left": one["left"]["text"],
        "right": one["right"]["text"],
        "rip": "uncut" if one["uncut"] or one["rip"] is None else one["rip"]["text"],
        "open": one["open_above"]["text"],
        "recess": one["recess"]["text"],
        "board": "–" if one["board"] is None else str(one["board"]),
    }


def _panel(one: Part) -> dict[str, Any]:
    return {
        "name": one["name"],
        "run": one["run"],
        "edges": ", ".join(f"{edge['name']} {edge['length']['text']}" for edge in one["edges"]),
        "longest": one["longest"]["text"],
        "scribe": one["scribe"]["text"],
        "stands_on": one["stands_on"],
    }


def _up(cut: Part) -> str:
    return "" if cut["up"] is None else f", its lower edge {cut['up']['text']} up from the foot"
