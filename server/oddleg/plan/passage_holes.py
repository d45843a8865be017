"""Holes right through sides, for a waste, a supply, a lead or a duct from one item to another."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from oddleg.job import Job, Storey

from .boards import BoardHole, Boards
from .carcass_box import CarcassBox
from .fitted_out import Hole, HoleFor
from .panel_axes import on_panel
from .room_services import PassageHole


def passage_holes(job: Job, box: CarcassBox, passages: Sequence[PassageHole], boards: Boards) -> Iterator[BoardHole]:
    """A passage's depth counts from the outside of the backs, which stand in one line along the run; a side's own rear
    edge lies before it where a back is fixed on it. Its height counts down from the run's top: that is the top of a
    base carcass, and the job's base carcass height over the underside of a tall one. What hangs has no fixed place
    under the run's top, and gets none here."""
    if box.item.storey is Storey.WALL:
        return
    top_mm = job.base_carcass_height_mm if box.item.storey is Storey.TALL else box.height_mm
    for one in passages:
        for item, id in one.panels:
            if item != box.item.id or id not in boards:
                continue
            passage = one.passage
            at_mm = on_panel(boards[id], 0.0, box.depth_mm - passage.from_back_mm, top_mm - passage.below_top_mm)
            yield (
                id,
                Hole(
                    f"{HoleFor.PASSAGE}-{passage.id}",
                    *at_mm,
                    passage.diameter_mm,
                    None,
                    HoleFor.PASSAGE,
                    passage.id,
                    f"{passage.name}, right through",
                ),
            )
