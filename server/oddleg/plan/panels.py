"""Every panel of a carcass with all its holes and cut-outs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from oddleg.job import Job

from .boards import boards
from .carcass_box import CarcassBox
from .fitted_out import CutOut, Hole, Panel, PanelKind
from .hardware import Hardware
from .hinge_holes import hinge_holes
from .hole_words import in_order
from .room_services import PassageHole
from .runner_holes import runner_holes

if TYPE_CHECKING:
    from .front_stacks import FilledFronts


def panels(
    job: Job,
    box: CarcassBox,
    known: Hardware,
    filled: FilledFronts,
    cuts: Sequence[CutOut],
    passages: Sequence[PassageHole],
) -> tuple[Panel, ...]:
    """Sides, dividers, bottom, top or rails, back, shelves, fronts. `cuts` are the back's; `passages` of the whole run,
    those through other items are passed over. Screws that join neighbours: `connecting`."""
    made = {one.id: one for one in boards(box, known, filled.fronts)}
    holes: dict[str, list[Hole]] = {id: [] for id in made}
    for panel, hole in (
        *runner_holes(box, known, filled.drawers, made, job.holes.shop_mm),
        *hinge_holes(box, known, filled.fronts, made),
    ):
        holes[panel].append(hole)
    return tuple(
        replace(one, holes=in_order(holes[one.id]), cut_outs=tuple(cuts) if one.kind is PanelKind.BACK else ())
        for one in made.values()
    )
