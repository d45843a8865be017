"""Tall and wall units before a window, a door, its lining or a sill: how much they cover of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from oddleg.job import Feature, FeatureKind, HeightOf, Job, Storey

from .figure import figure, text_mm
from .finding import Finding, Severity
from .front_line import FrontLine
from .heights import Height
from .rod import Placed
from .set_out import Rod
from .wall import Wall

KEPT_CLEAR = (FeatureKind.WINDOW, FeatureKind.DOOR, FeatureKind.LINING, FeatureKind.SILL)


def over_feature_findings(
    job: Job, wall: Wall | None, line: FrontLine, rod: Rod, rising: Iterable[Height], datum_mm: float | None
) -> Iterator[Finding]:
    """Of each tall or hanging unit that comes before one of them, seen from the room. Where a height of either is not
    known, it may go over or under it: a note. What rounding hides is nothing. `rising`: heights over the datum of the
    room's units."""
    over_mm = {(one.of, one.concerns[0]): one.over_datum_mm for one in rising}
    features = wall.features if wall is not None else line.run.features
    for placed in rod.placed:
        span = _levels_mm(placed, over_mm, datum_mm)
        for one in features if span is not None else ():
            left_mm = max(placed.left_mm + line.zero_mm, one.left_mm)
            wide_mm = min(placed.right_mm + line.zero_mm, one.right_mm) - left_mm
            if one.kind in KEPT_CLEAR and wide_mm > job.rounding_mm and span is not None:
                yield from _covers(job, placed, one, wide_mm, span)


def _levels_mm(
    placed: Placed, over_mm: dict[tuple[HeightOf, str], float], datum_mm: float | None
) -> tuple[float | None, float | None] | None:
    """Levels from which and up to which it stands or hangs, each None where no datum is decided; of a tall unit from
    the floor, lower than all that counts. None for anything else."""
    id = placed.item.id
    if placed.item.storey is Storey.TALL and (HeightOf.TALL_TOP, id) in over_mm:
        return float("-inf"), None if datum_mm is None else datum_mm + over_mm[HeightOf.TALL_TOP, id]
    if placed.item.storey is Storey.WALL and (HeightOf.WALL_UNIT_TOP, id) in over_mm:
        ends = over_mm[HeightOf.WALL_UNIT_UNDERSIDE, id], over_mm[HeightOf.WALL_UNIT_TOP, id]
        return (None, None) if datum_mm is None else (datum_mm + ends[0], datum_mm + ends[1])
    return None


def _covers(
    job: Job, placed: Placed, one: Feature, wide_mm: float, span: tuple[float | None, float | None]
) -> Iterator[Finding]:
    step_mm, (bottom_mm, top_mm) = job.rounding_mm, span
    above = bottom_mm is not None and one.top_mm is not None and bottom_mm >= one.top_mm - step_mm
    below = top_mm is not None and one.bottom_mm is not None and top_mm <= one.bottom_mm + step_mm
    if above or below:
        return
    wide = figure(wide_mm, step_mm, "What the unit and it have in common along the wall.")
    if bottom_mm is not None and top_mm is not None and one.bottom_mm is not None and one.top_mm is not None:
        high = text_mm(min(top_mm, one.top_mm) - max(bottom_mm, one.bottom_mm), step_mm)
        wrong = f"It covers {wide.text} of {one.name} along the wall, over {high} of its height."
        severity, start = Severity.WARN, "Move"
    else:
        wrong = f"It lies before {wide.text} of {one.name} along the wall; whether at the same height is not known yet."
        severity = Severity.NOTE
        start = f"Choose the datum and say how high {one.name} begins and ends. If it is in the way, move"
    cure = f"{start} the unit clear by {wide.text}, make it narrower, or leave a gap there."
    yield Finding(
        "rod.over_feature",
        severity,
        f"{placed.item.name}, {placed.run.name}",
        wrong,
        cure,
        "windows, doors and sills stay clear",
        wide,
        (placed.run.id, placed.item.id, one.id),
    )
