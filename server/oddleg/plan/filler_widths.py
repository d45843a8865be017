"""What a filler may take on the rod, what of it shows where its side wall runs away, and what it is cut from."""

from __future__ import annotations

import math
from collections.abc import Sequence

from oddleg.job import EndsAt, Filler, Item, OpeningDepth, Storey, Tolerances, WallHeight

from .figure import Figure, figure, text_mm
from .rod_ends import DEPTH_WORDS, Beyond, RunEnds
from .row import SAME_SPOT_MM, Row
from .set_out import FillerWidth
from .sightings import listed
from .wall_profile import HEIGHT_WORDS, STANDING

# Fillers are cut in whole mm (common practice).
CUT_STEP_MM = 1.0
HEIGHTS = {
    Storey.BASE: STANDING,
    Storey.TALL: tuple(WallHeight),
    Storey.WALL: (WallHeight.WALL_UNITS,),
}


def beyond_item(items: Sequence[Item], i: int, ends: RunEnds) -> tuple[Beyond, ...]:
    """How far the side wall lies beyond the end where this item stands beside it, or hangs in a corner where the other
    run hangs nothing; nothing elsewhere."""
    heights = HEIGHTS[items[i].storey]
    found: list[Beyond] = []
    for at, end in ((0, ends.left), (len(items) - 1, ends.right)):
        if i == at and end.at is EndsAt.WALL:
            found += end.beyond_at(heights)
        elif i == at and items[i].storey is Storey.WALL and end.hung is not None and not end.hung.other_hangs:
            past_mm = max(0.0, end.hung.beyond_mm)
            found.append(Beyond(WallHeight.WALL_UNITS, OpeningDepth.FRONT, past_mm, past_mm))
    return tuple(found)


def limits_on_the_rod(items: Sequence[Item], ends: RunEnds) -> dict[str, tuple[float, float]]:
    """Least and greatest width that fillers beside a side wall may take between the marks.

    A filler stands at the fronts, its limits are for what shows there; a carcass must clear the wall all the way back.
    So where the wall is certain to lie beyond the mark all along the fronts, the filler may take that much less between
    the marks, but never less than nothing. Where it shows wider than its greatest in places, a finding says so.
    """
    found = {}
    for i, item in enumerate(items):
        beyond = beyond_item(items, i, ends) if isinstance(item, Filler) else ()
        if isinstance(item, Filler) and beyond:
            shows_more_mm = min(one.least_mm for one in beyond)
            least_mm = max(0.0, item.least_mm - shows_more_mm)
            found[item.id] = (least_mm, max(least_mm, item.greatest_mm - shows_more_mm))
    return found


def visible_mm(width_mm: float, beyond: Sequence[Beyond]) -> tuple[float, float]:
    """Least and greatest that shows of a filler which takes `width_mm` between the marks."""
    least_mm = min((one.least_mm for one in beyond), default=0.0)
    return width_mm + least_mm, width_mm + max((one.greatest_mm for one in beyond), default=0.0)


def filler_widths(row: Row, ends: RunEnds, tolerances: Tolerances, step_mm: float) -> list[FillerWidth]:
    found = []
    for i, (item, (left_mm, right_mm)) in enumerate(zip(row.items, row.edges, strict=True)):
        if isinstance(item, Filler):
            beyond, behind = beyond_item(row.items, i, ends), _behind(row.items, i, ends)
            found.append(_filler_width(item, right_mm - left_mm, beyond, behind, row, tolerances, step_mm))
    return found


def _behind(items: Sequence[Item], i: int, ends: RunEnds) -> str:
    """Name of the run whose units stand before a filler at the end of a run that goes into the corner; empty: none."""
    for at, end in ((0, ends.left), (len(items) - 1, ends.right)):
        if i == at and items[i].storey is Storey.BASE and end.at is EndsAt.OTHER_BACKS and end.other is not None:
            return end.other.name
    return ""


def _filler_width(
    item: Filler,
    width_mm: float,
    beyond: Sequence[Beyond],
    behind: str,
    row: Row,
    tolerances: Tolerances,
    step_mm: float,
) -> FillerWidth:
    narrow_mm, wide_mm = visible_mm(width_mm, beyond)
    where = _where(width_mm, beyond)
    shows = f"Over the heights measured it shows {where}." if beyond else "No side wall beside it is measured."
    shown_step_mm = CUT_STEP_MM if item.scribed else step_mm
    cut: Figure | None = None
    if beyond and wide_mm < -SAME_SPOT_MM:
        cut_words, words = "no room", "no room for it, since the wall comes in past the mark: nothing is cut for it"
    elif item.scribed:
        # A strip is cut from whole mm, never narrower than it must be.
        cut_mm = float(math.ceil(wide_mm + tolerances.scribe_mm - SAME_SPOT_MM))
        scribe = text_mm(tolerances.scribe_mm, step_mm)
        cut = figure(cut_mm, CUT_STEP_MM, f"Its widest, {text_mm(wide_mm, step_mm)}, and {scribe} to scribe.")
        cut_words, words = "cut from", f"cut from {cut.text} or more and scribed to the wall"
    elif behind:
        # Not scribed and out of sight: room for play, not a strip.
        cut_words, words = "stays open", f"a space behind {behind}, not scribed: nothing is cut for it"
    else:
        cut = figure(wide_mm, step_mm, "Its width; it is not scribed.")
        cut_words, words = "cut to", f"cut to {cut.text}, not scribed"
    return FillerWidth(
        item.id,
        item.name,
        figure(width_mm, step_mm, _width_why(item, row)),
        figure(narrow_mm, shown_step_mm, shows),
        figure(wide_mm, shown_step_mm, shows),
        cut_words,
        cut,
        f"{item.name}: {f'{where}; ' if beyond else ''}{words}.{_rod_words(width_mm, narrow_mm, wide_mm, step_mm)}",
    )


def _rod_words(width_mm: float, narrow_mm: float, wide_mm: float, step_mm: float) -> str:
    """Why the rod has another width than shows: the side wall lies off the mark, and how far."""
    width, off = text_mm(width_mm, step_mm), [text_mm(mm - width_mm, step_mm) for mm in (narrow_mm, wide_mm)]
    if off == ["0", "0"]:
        return ""
    away = off[0] if off[0] == off[1] else f"{off[0]} to {off[1]}"
    return f" On the rod it takes {width}, up to the mark; the wall lies {away} beyond it."


def _where(width_mm: float, beyond: Sequence[Beyond]) -> str:
    """What shows where, places that show the same together: "50 just over the floor, 58 at worktop height"."""
    places: dict[str, list[str]] = {}
    for one in beyond:
        least, greatest = (_strip(width_mm + mm) for mm in (one.least_mm, one.greatest_mm))
        shows = least if least == greatest else f"{least} to {greatest}"
        # Along the fronts is where a filler stands; a width taken elsewhere says so.
        where = "" if one.depth is OpeningDepth.FRONT else f", {DEPTH_WORDS[one.depth]}"
        places.setdefault(shows, []).append(f"{HEIGHT_WORDS[one.height]}{where}")
    return ", ".join(f"{shows} {listed(here)}" for shows, here in places.items())


def _strip(shows_mm: float) -> str:
    """No strip is less than nothing: how far a wall comes in past its mark is said of the mark."""
    return "nothing" if shows_mm < -SAME_SPOT_MM else text_mm(shows_mm, CUT_STEP_MM)


def _width_why(item: Filler, row: Row) -> str:
    side = next((one for one in (row.left, row.right) if item.id in one.fillers), None)
    if side is None:
        return "As drawn: it takes up nothing, or the row is free on its side, or the end there is not known."
    if side.short_mm > 0:
        return "What there is for it, less than its least."
    if item.id in side.held:
        return "Its own limit; what is left goes to the others, or stays open."
    if len(side.fillers) == 1:
        return "What is left on its side of the anchor, all of it."
    return f"Its share of what is left on its side of the anchor, among {len(side.fillers)} fillers."
