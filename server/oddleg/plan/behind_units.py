"""What stands out of the wall behind a run's units further than the void there: pipes, boxings, piers."""

from __future__ import annotations

from collections.abc import Iterator

from oddleg.job import Carcass, Feature, Gap, Job, OpenUnit, Storey, WallHeight

from .batten_laid import HOLES
from .batten_packing import NOTHING_MM
from .figure import figure, text_mm
from .finding import Finding, Severity
from .front_line import FrontLine
from .heights import underside_below_datum_mm
from .rod import Placed
from .set_out import Rod
from .sightings import DIFFERENCE_STEP_MM, listed, shown_mm
from .wall import Wall
from .wall_profile import STANDING


def stands_out_findings(
    job: Job, wall: Wall | None, line: FrontLine, rod: Rod, datum_mm: float | None
) -> Iterator[Finding]:
    """Of each feature that comes down to what stands before it, and stands out of the wall's face by more than the
    least void there. Where its bottom is not known, or no datum is decided, it may not come down to it: a note."""
    step_mm = job.rounding_mm
    for one in wall.features if wall is not None else ():
        if one.stands_out_mm <= 0 or one.kind in HOLES:
            continue
        met = [placed for placed in rod.placed if _before(job, placed, one, line.zero_mm, datum_mm)]
        if not met:
            continue
        tall = any(placed.item.storey is Storey.TALL for placed in met)
        heights = tuple(WallHeight) if tall else STANDING
        void_mm = line.least_void_mm(wall, heights, (one.left_mm, one.right_mm))
        over_mm = one.stands_out_mm - void_mm
        if over_mm <= NOTHING_MM:
            continue
        known = datum_mm is not None and one.bottom_mm is not None
        names = listed([each.item.name for each in met])
        yield Finding(
            "front_line.stands_out",
            Severity.WARN if known else Severity.NOTE,
            line.run.name,
            f"{one.name} stands {text_mm(one.stands_out_mm, step_mm)} out of the wall behind {names}, where the void "
            f"is {text_mm(void_mm, step_mm)}." + ("" if known else " Whether it comes down to them is not known yet."),
            f"Cut the units there by {shown_mm(over_mm)}, bring the line out by as much, or have it taken back.",
            "the void is kept to the wall, not to what stands out of it",
            figure(over_mm, DIFFERENCE_STEP_MM),
            (line.run.id, one.id, *(each.item.id for each in met)),
        )


def _before(job: Job, placed: Placed, one: Feature, zero_mm: float, datum_mm: float | None) -> bool:
    """Whether the item stands before a feature that, as far as is known, comes down below its top."""
    if not placed.stands or isinstance(placed.item, Gap):
        return False
    if placed.left_mm + zero_mm >= one.right_mm or placed.right_mm + zero_mm <= one.left_mm:
        return False
    if datum_mm is None or one.bottom_mm is None:
        return True
    return one.bottom_mm < datum_mm + _top_over_datum_mm(job, placed)


def _top_over_datum_mm(job: Job, placed: Placed) -> float:
    """Top of what stands over the room's datum: the run's own, but of tall units theirs."""
    below_mm = underside_below_datum_mm(job, placed)
    if below_mm is None or not isinstance(placed.item, Carcass | OpenUnit):
        return placed.run.datum_offset_mm
    return placed.item.height_mm - below_mm
