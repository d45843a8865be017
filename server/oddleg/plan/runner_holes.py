"""Holes for the screws of drawer runners, the same (u, v) on both faces that look into the compartment."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from oddleg.job import Runner

from .boards import BoardHole, Boards, flanks
from .carcass_box import CarcassBox
from .figure import text_mm
from .fitted_out import DrawerBox, Hole, HoleFor
from .hardware import Hardware
from .hole_words import ordinal
from .panel_axes import on_panel


def runner_holes(
    box: CarcassBox, known: Hardware, drawers: Sequence[DrawerBox], boards: Boards, shop_mm: float
) -> Iterator[BoardHole]:
    """u counts from the carcass's front edge; v from each panel's own lower edge, which is not the carcass's where the
    bottom runs under the sides or the panel is a divider. A runner on spacers has its holes in the same place, and the
    words say that the strip comes between."""
    for drawer in drawers:
        runner = known.row(Runner, drawer.runner)
        if runner is None:
            continue
        on = f", on its spacer {text_mm(drawer.spacer_mm, shop_mm)} thick" if drawer.spacer_mm > 0 else ""
        for panel, face in flanks(box, drawer.compartment):
            if panel not in boards:
                continue
            for number, behind_mm in enumerate(runner.screws_mm, 1):
                u_mm, v_mm = on_panel(boards[panel], 0.0, drawer.first_mm + behind_mm, drawer.line_mm)
                yield (
                    panel,
                    Hole(
                        f"{HoleFor.RUNNER}-{drawer.id}-{number}",
                        u_mm,
                        v_mm,
                        runner.hole_mm,
                        runner.hole_depth_mm,
                        HoleFor.RUNNER,
                        drawer.id,
                        f"{runner.name}, {drawer.name}, {ordinal(number)} screw{on}",
                        face,
                        runner.id,
                    ),
                )
