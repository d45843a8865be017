"""Content of the marking sheet of one carcass: the carcass from the front, then a page for each face that is worked."""

from __future__ import annotations

from itertools import groupby, takewhile
from typing import Any

from oddleg.drawings import svg
from oddleg.drawings.carcass_front import carcass_front
from oddleg.drawings.panel import capital, panel_drawing
from oddleg.plan import Plan, RoomPlan
from oddleg.plan.fitted_out import Face, FittedOut, Panel
from oddleg.plan.panel_views import COUNTED_FROM, PanelView, counted_from, views
from oddleg.plan.part_values import Part
from oddleg.plan.sightings import listed

from .survey_sheet import finding_rows

COLUMN_MM, PAGE_MM = 88.0, 182.0
# What is left of an upright A4 page under title block and headings; and of that for a drawing over its table.
DRAWING_HEIGHT_MM, WIDE_HEIGHT_MM = 205.0, 120.0
FRONT_HEIGHT_MM = 130.0
# A board so much longer than high is drawn over its table, not beside it.
WIDE = 1.4
# From so many holes on, three columns to a page.
LONG, NARROW_MM = 34, 56.6
EDGE_WORDS = {"left": "on the left", "right": "on the right", "bottom": "towards you", "top": "away from you"}


def panels_content(plan: Plan, room: RoomPlan, fitted: FittedOut, found: dict[str, Part]) -> dict[str, Any]:
    name, step_mm = f"panels/{fitted.item}", plan.job.holes.shop_mm
    part = found[name]
    told = {one["id"]: one for one in part["panels"]}
    return {
        "unit": part["name"],
        "standing": part["place"],
        "front": svg(carcass_front(fitted, step_mm, COLUMN_MM, FRONT_HEIGHT_MM), "front"),
        "stacks": [f"{one['words']}: {one['sum']['text']} of {one['opening']['text']}" for one in part["stacks"]],
        "hinges": [f"{one['name']}: {one['hinges_words']}" for one in part["fronts"] if one["hinges_words"]],
        "drawers": [
            {
                "name": one["name"],
                "runner": one["runner"],
                "line": one["line"]["text"],
                "first": one["first"]["text"],
                "words": one["words"],
            }
            for one in part["drawers"]
        ],
        "boards": [
            {
                "name": one["name"],
                "size": " × ".join(one[key]["text"] for key in ("width", "height", "thickness")),
                "holes": str(len(one["holes"]) or ""),
                "cut_outs": str(len(one["cut_outs"]) or ""),
                "groove": one["groove"],
            }
            for one in part["panels"]
        ],
        "faces": [
            _face(view, told[panel.id], step_mm) for panel in fitted.panels for view in views(panel)
        ],
        "sticks": [{"name": one["name"], "words": one["words"]} for one in part["sticks"]],
        "findings": finding_rows(plan, [name]),
    }  # fmt: skip


def face_words(view: PanelView) -> str:
    """Which face is up, and where the carcass's front edge lies on it."""
    words = capital(view.words)
    if view.front_edge is not None and EDGE_WORDS[view.front_edge] not in words:
        words += f", front edge {EDGE_WORDS[view.front_edge]}"
    return f"{words}."


def _face(view: PanelView, part: Part, step_mm: float) -> dict[str, Any]:
    panel = view.panel
    wide = panel.width_mm > WIDE * panel.height_mm
    long = not wide and len(view.holes) > LONG
    size = (PAGE_MM, WIDE_HEIGHT_MM) if wide else (NARROW_MM if long else COLUMN_MM, DRAWING_HEIGHT_MM)
    numbers = {one.number for one in view.holes}
    behind = [str(one.number) for one in view.from_behind]
    return {
        "name": capital(panel.name),
        "words": face_words(view),
        "size": " × ".join(part[key]["text"] for key in ("width", "height", "thickness")),
        "across": f"From {_edge(panel, 0)}",
        "up": f"From {_edge(panel, 1)}",
        "counted": "Counted from the {} and the {}.".format(*counted_from(view)),
        "wide": wide,
        "columns": 3 if long else 2,
        "column_mm": size[0],
        "svg": svg(panel_drawing(view, step_mm, *size), view.field),
        "rows": _rows([one for one in part["holes"] if one["number"] in numbers]),
        "behind": f"Drilled from the other face: {listed(behind)}." if behind else "",
        "cut_outs": [_cut(one) for one in part["cut_outs"]] if view.face is Face.SHOWN else [],
    }


def _edge(panel: Panel, axis: int) -> str:
    return COUNTED_FROM[panel.kind][axis].split(" edge")[0]


def _rows(holes: list[Part]) -> list[dict[str, Any]]:
    """Rows of the table; what neighbours are for alike is said once over them."""
    rows: list[dict[str, Any]] = []
    for _, group in groupby(holes, key=_served):
        here = list(group)
        pieces = [one["words"].split(", ") for one in here]
        alike = [each[0] for each in takewhile(lambda each: len({*each}) == 1, zip(*pieces, strict=False))]
        depth = here[0]["depth"]
        deep = "right through" if depth is None else f"{depth['text']} deep"
        rows.append({
            "head": ", ".join(alike) or here[0]["words"],
            "bit": f"Bit {here[0]['diameter']['text']}, {deep}",
        })  # fmt: skip
        for one, words in zip(here, pieces, strict=True):
            rows.append(
                {
                    "head": None,
                    "number": str(one["number"]),
                    "u": one["u"]["text"],
                    "v": one["v"]["text"],
                    "words": ", ".join(words[len(alike) :]) if alike else "",
                    "done": one["drilled"] is not None and one["moved"] is None,
                    "moved": one["moved"] or "",
                }
            )
    return rows


def _served(hole: Part) -> tuple[str, ...]:
    """What is told together: the same use of the same thing, by the same bit and depth stop."""
    depth = "" if hole["depth"] is None else hole["depth"]["text"]
    return hole["hole_for"], *hole["words"].split(", ")[:2], hole["diameter"]["text"], depth


def _cut(one: Part) -> dict[str, Any]:
    keys = ("left", "foot", "from_right", "from_top", "width", "height")
    return {
        "words": f"{one['letter']}: {one['words']}",
        **{key: one[key]["text"] for key in keys},
        "round": one["round"],
        "radius": one["radius"]["text"] if one["radius"] is not None else "–",
        "open_to": f"open to the {listed(one['open_to'])}" if one["open_to"] else "",
    }
