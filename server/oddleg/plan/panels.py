"""Every panel of a carcass with all its holes and cut-outs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from oddleg.job import Job

from .boards import boards, on_pins
from .bracket_holes import bracket_holes
from .carcass_box import CarcassBox
from .fitted_out import CutOut, Hole, Panel, PanelKind
from .hardware import Hardware
from .hinge_holes import hinge_holes
from .hole_words import in_order
from .leg_holes import leg_holes
from .passage_holes import passage_holes
from .pull_out_holes import pull_out_holes
from .room_services import PassageHole
from .runner_holes import runner_holes
from .shelf_holes import drilled_through, line_of, pin_holes, spare_that_fit

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
    spare: dict[str, list[Hole]] = {id: [] for id in made}
    carrying, spare_pins = pin_holes(box, known, made, job.holes)
    for panel, hole in (
        *runner_holes(box, known, filled.drawers, made, job.holes.shop_mm),
        *hinge_holes(box, known, filled.fronts, made),
        *pull_out_holes(box, known, filled.fronts, made, job.holes.shop_mm),
        *carrying,
        *leg_holes(box, known, made, job.tolerances),
        *bracket_holes(box, known, made),
        *passage_holes(job, box, passages, made),
    ):
        holes[panel].append(hole)
    for panel, hole in spare_pins:
        spare[panel].append(hole)
    moved = on_pins(box, known)
    stay = [one for one in made.values() if one.id not in moved]
    fit = {id: spare_that_fit(made[id], holes[id], here, stay, job.holes) for id, here in spare.items() if here}
    # A shelf on three pins falls, and one on uneven pins rocks: a spare line is drilled whole or not at all.
    broken = {line_of(hole) for id, here in fit.items() for hole in spare[id] if hole not in here}
    drilled = []
    for one in made.values():
        kept = holes[one.id] + [hole for hole in fit.get(one.id, ()) if line_of(hole) not in broken]
        cut_outs = tuple(cuts) if one.kind is PanelKind.BACK else ()
        drilled.append(replace(one, holes=in_order(drilled_through(one, kept, job.holes)), cut_outs=cut_outs))
    return tuple(drilled)
