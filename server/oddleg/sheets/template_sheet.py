"""Content of the templates of one carcass: a map of the tiles of every face, then each tile at full size on a page."""

from __future__ import annotations

from typing import Any

from oddleg.drawings import svg
from oddleg.drawings.panel import capital
from oddleg.drawings.template_paper import TEMPLATE_PAPERS, tiling
from oddleg.drawings.template_tiles import BAR_MM, control_words, template_key, template_tiles
from oddleg.plan import Plan, RoomPlan
from oddleg.plan.figure import text_mm
from oddleg.plan.fitted_out import FittedOut
from oddleg.plan.panel_views import views
from oddleg.plan.part_values import Part
from oddleg.plan.sightings import counted

from .panels_sheet import face_words
from .survey_sheet import finding_rows

KEY_WIDTH_MM, KEY_HEIGHT_MM = 56.0, 70.0


def template_content(
    paper: str, plan: Plan, room: RoomPlan, fitted: FittedOut, found: dict[str, Part]
) -> dict[str, Any]:
    """Tiles at full size on the paper named; those with nothing to mark are left out and counted."""
    of, step_mm = TEMPLATE_PAPERS[paper], plan.job.holes.shop_mm
    faces = [view for panel in fitted.panels for view in views(panel)]
    drawn = [(view, tiling(view, of), template_tiles(view, paper, step_mm)) for view in faces]
    return {
        "kind": "template",
        "paper": paper,
        "bar": text_mm(BAR_MM),
        "faces": [
            {
                "name": capital(view.panel.name),
                "words": face_words(view),
                "count": f"{counted(len(tiles), 'tile')}, {laid.left_out} with nothing to mark left out",
                "control": f"All tiles laid: {control_words(laid, step_mm)}.",
                "key": svg(key, f"key-{number}"),
                "key_width_mm": key.width_mm,
            }
            for number, (view, laid, tiles) in enumerate(drawn)
            for key in (template_key(view, paper, KEY_WIDTH_MM, KEY_HEIGHT_MM),)
        ],
        "tiles": [
            {"svg": svg(one, f"tile-{number}"), "width_mm": one.width_mm, "height_mm": one.height_mm}
            for number, one in enumerate(one for _, _, tiles in drawn for one in tiles)
        ],
        "findings": [one for one in finding_rows(plan, [f"panels/{fitted.item}"]) if one["severity"] == "stop"],
    }
