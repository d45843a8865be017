"""The part of a plan that a run's rod card, drawings and sheets show."""

from __future__ import annotations

from typing import TYPE_CHECKING

from .fit import Fit
from .front_line import FrontLine
from .packing import RunBatten
from .part_values import Part, figure_part, finding_part
from .set_out import Rod
from .setting_out import RunSetOut

if TYPE_CHECKING:
    from . import RoomPlan


def run_part(room_plan: RoomPlan, run_set_out: RunSetOut) -> Part:
    lines = [one for one in (run_set_out.line, run_set_out.hanging_line) if one is not None]
    return {
        "run": run_set_out.run.id,
        "name": run_set_out.run.name,
        "room": room_plan.room.id,
        "rod": _rod_part(run_set_out.rod),
        "lines": [_line_part(one) for one in lines],
        "batten": None if run_set_out.batten is None else _batten_part(run_set_out.batten),
        "scribes": [
            {
                "item": one.item,
                "name": one.name,
                "cut_depth": figure_part(one.cut_depth),
                "scribe": [{"label": label, "figure": figure_part(scribe)} for label, scribe in one.scribe],
            }
            for one in run_set_out.scribes
        ],
        "fits": [_fit_part(one) for one in run_set_out.fits],
        "findings": [finding_part(one) for one in run_set_out.findings],
    }


def _rod_part(rod: Rod) -> Part:
    return {
        "opening": figure_part(rod.opening),
        "opening_words": rod.opening_words,
        "anchor_words": rod.anchor_words,
        "marks": [
            {
                "id": one.id,
                "name": one.name,
                "row": one.row,
                "kind": one.kind,
                "items": list(one.items),
                "from_left": figure_part(one.from_left),
                "from_anchor": figure_part(one.from_anchor),
                "from_right": figure_part(one.from_right),
                "order": one.order,
                "marked": figure_part(one.marked),
                "moved": figure_part(one.moved),
            }
            for one in rod.marks
        ],
        "fillers": [
            {
                "item": one.item,
                "name": one.name,
                "width": figure_part(one.width),
                "narrow": figure_part(one.narrow),
                "wide": figure_part(one.wide),
                "cut_words": one.cut_words,
                "cut_from": figure_part(one.cut_from),
                "words": one.words,
            }
            for one in rod.fillers
        ],
        "left_over": figure_part(rod.left_over),
        "end_words": list(rod.end_words),
        "offsets": [{"words": one.words, "offset": figure_part(one.offset)} for one in rod.offsets],
    }


def _line_part(line: FrontLine) -> Part:
    return {
        "storey": line.storey.value,
        "read": line.read,
        "words": line.words,
        "least_void": figure_part(line.least_void),
        "greatest_void": figure_part(line.greatest_void),
        "waste": figure_part(line.waste),
        "depth_needed": figure_part(line.depth_needed),
    }


def _batten_part(batten: RunBatten) -> Part:
    return {
        "thickness": figure_part(batten.thickness),
        "height": figure_part(batten.height),
        "pieces": [
            {
                "number": one.number,
                "left": figure_part(one.left),
                "right": figure_part(one.right),
                "length": figure_part(one.length),
            }
            for one in batten.pieces
        ],
        "fixings": [
            {
                "number": one.number,
                "at": figure_part(one.at),
                "void": figure_part(one.void),
                "packing": figure_part(one.packing),
                "packs": one.packs,
                "on": one.on,
                "zone": one.zone,
            }
            for one in batten.fixings
        ],
        "least": figure_part(batten.least),
        "least_at": figure_part(batten.least_at),
        "cut_outs": [{"left": figure_part(left), "right": figure_part(right)} for left, right in batten.cut_outs],
        "stock_words": batten.stock_words,
        "caution": batten.caution,
    }


def _fit_part(fit: Fit) -> Part:
    return {
        "row": fit.row,
        "space": figure_part(fit.space),
        "taken": figure_part(fit.taken),
        "spare": figure_part(fit.spare),
        "worst": figure_part(fit.worst),
        "likely": figure_part(fit.likely),
        "shift": figure_part(fit.shift),
        "sure": fit.sure,
        "filler_to_be_sure": figure_part(fit.filler_to_be_sure),
        "words": fit.words,
        "chance_words": fit.chance_words,
    }
