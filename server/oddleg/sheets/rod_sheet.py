"""Content of the sheets of one run: the rod as a list to mark from, and as tiles at full size."""

from __future__ import annotations

from typing import Any

from oddleg.drawings import PAPERS, run_drawings, strip_tiles, svg
from oddleg.plan import Plan, RoomPlan
from oddleg.plan.figure import text_mm
from oddleg.plan.part_values import Part
from oddleg.plan.setting_out import RunSetOut

from .survey_sheet import finding_rows

DRAWING_WIDTH_MM = 182.0
# What is left of an upright A4 page under title block and heading.
DRAWING_HEIGHT_MM = 228.0
# What a drawing's heading takes, with the space over it.
HEADING_MM = 14.0
STOREYS = {"base": "What stands", "wall": "What hangs"}


def rod_content(plan: Plan, room: RoomPlan, run: RunSetOut, found: dict[str, Part]) -> dict[str, Any]:
    name = f"run/{run.run.id}"
    part = found[name]
    rod, batten = part["rod"], part["batten"]
    drawn = run_drawings(plan.job, room, run, DRAWING_WIDTH_MM, DRAWING_HEIGHT_MM)
    heights_mm = [one.height_mm + HEADING_MM for drawings in drawn.values() for one in drawings]
    marks = sorted(rod["marks"], key=lambda one: (one["order"] == 0, one["order"], one["from_left"]["mm"]))
    return {
        "run": part["name"],
        "anchor": rod["anchor_words"],
        "opening": _text(rod["opening"]),
        "opening_words": rod["opening_words"],
        "left_over": _text(rod["left_over"]),
        "ends": rod["end_words"],
        "marks": [_mark(one) for one in marks if one["order"]],
        "seen": [_mark(one) for one in marks if not one["order"]],
        "fillers": [
            {key: _text(value) if isinstance(value, dict) else value for key, value in one.items()}
            for one in rod["fillers"]
        ],
        "offsets": [{"words": one["words"], "offset": one["offset"]["text"]} for one in rod["offsets"]],
        "lines": [_line(one, len(part["lines"]) > 1) for one in part["lines"]],
        "batten": None if batten is None else _batten(batten),
        "scribes": [
            {
                "name": one["name"],
                "cut_depth": one["cut_depth"]["text"],
                "scribe": ", ".join(f"{each['label']} {each['figure']['text']}" for each in one["scribe"]),
            }
            for one in part["scribes"]
        ],
        "fits": [line for one in part["fits"] for line in (one["words"], one["chance_words"]) if line],
        # Plan and elevation are read side by side, so they are kept on one page where one holds both.
        "together": sum(heights_mm) <= DRAWING_HEIGHT_MM + HEADING_MM,
        "drawings": [
            {"title": one.title, "svg": svg(one, f"{field}-{number}")}
            for field, drawings in drawn.items()
            for number, one in enumerate(drawings)
        ],
        "findings": [{**one, "short": _short(one, part["name"])} for one in finding_rows(plan, [name])],
    }


def strip_content(paper: str, plan: Plan, room: RoomPlan, run: RunSetOut, found: dict[str, Part]) -> dict[str, Any]:
    """Tiles at full size on the paper named, laid across; those with no mark are left out and counted."""
    of, tiles = PAPERS[paper], strip_tiles(run, paper)
    part = found[f"run/{run.run.id}"]
    return {
        "kind": "strip",
        "paper": paper,
        "flipped": True,
        "anchor": part["rod"]["anchor_words"],
        "step": text_mm(of.step_mm),
        "caution": part["batten"]["caution"] if part["batten"] is not None else "",
        "tiles": [
            {"svg": svg(one, f"tile-{number}"), "width_mm": one.width_mm, "height_mm": one.height_mm}
            for number, one in enumerate(tiles)
        ],
        "findings": [one for one in finding_rows(plan, [f"run/{run.run.id}"]) if one["severity"] == "stop"],
    }


def _short(one: dict[str, Any], run: str) -> str:
    """Its first sentence, with its place where that is not the run itself."""
    sentence = one["wrong"].split(". ")[0].rstrip(".")
    return f"{sentence}." if one["place"] == run else f"{one['place']}: {sentence}."


def _text(one: Part | None) -> str | None:
    return None if one is None else str(one["text"])


def _mark(one: Part) -> dict[str, Any]:
    was = ""
    if one["marked"] is not None:
        was = f"marked at {one['marked']['text']}"
        if one["moved"] is not None:
            was += f", now {one['moved']['text']}"
    return {
        "order": str(one["order"] or ""),
        "name": one["name"],
        "row": one["row"],
        "left": one["from_left"]["text"],
        "anchor": one["from_anchor"]["text"],
        "right": one["from_right"]["text"],
        "done": one["marked"] is not None and one["moved"] is None,
        "was": was,
    }


def _line(one: Part, named: bool) -> str:
    words = f"Void {one['least_void']['text']} to {one['greatest_void']['text']}. {one['words']}"
    if one["depth_needed"] is not None:
        words += f" Worktop depth needed: {one['depth_needed']['text']}."
    return f"{STOREYS[one['storey']]}: {words}" if named else words


def _batten(batten: Part) -> dict[str, Any]:
    least = None
    if batten["least"] is not None and batten["least_at"] is not None:
        least = f"Least packing {batten['least']['text']}, at {batten['least_at']['text']} from the zero."
    return {
        "section": f"{batten['thickness']['text']} × {batten['height']['text']}",
        "pieces": [
            {"number": str(one["number"]), **{key: one[key]["text"] for key in ("left", "right", "length")}}
            for one in batten["pieces"]
        ],
        "fixings": [
            {
                "number": f"F{one['number']}",
                "at": one["at"]["text"],
                "void": _text(one["void"]) or "–",
                "packing": _text(one["packing"]) or "–",
                "packs": one["packs"],
                "on": one["on"],
                "zone": one["zone"],
            }
            for one in batten["fixings"]
        ],
        "least": least,
        "cut_outs": [f"{one['left']['text']} to {one['right']['text']}" for one in batten["cut_outs"]],
        "stock_words": batten["stock_words"],
        "caution": batten["caution"],
    }
