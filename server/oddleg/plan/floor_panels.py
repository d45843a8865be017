"""End panels and posts that run to the floor: how long they are at their edges, and the scribe between."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from oddleg.job import Carcass, CornerPost, EndPanel, Job, OpenUnit, SetOn, Storey

from .axes import to_room
from .figure import Figure, figure, text_mm
from .finding import Finding, Severity
from .finished_floor import Floor
from .heights import SAME_MM, underside_below_datum_mm
from .rod import Placed
from .sources import floor_words
from .surfaces import SurfaceLevel

SAMPLE_MM = 50.0


@dataclass(frozen=True)
class PanelHeight:
    """Lengths from the top down to what it stands on. A panel has a `front` and a `back` edge; a post, which stands in
    the front line, its `left` and `right` as `edges` say. `scribe`: the longer less the shorter. `longest`: to cut it
    to, the greatest along its foot. `top`: level of its top over the bench mark.
    """

    item: str
    name: str
    run: str
    what: str
    top: Figure
    edges: tuple[tuple[str, Figure], tuple[str, Figure]]
    longest: Figure
    scribe: Figure
    stands_on: str


def floor_panels(
    job: Job, placed: Sequence[Placed], floor: Floor, datum_mm: float, names: Mapping[str, str]
) -> tuple[tuple[PanelHeight, ...], tuple[Finding, ...]]:
    """Panels and posts that run to the floor, by runs and items: length = level of their top less what they stand on.

    A base panel or post ends at its run's top, a tall one at the top of the tall unit beside it (the nearest of its
    run). It stands on the finished floor, or, where that is laid up to it afterwards, on what is there under the units.
    A panel is looked at along the middle of its thickness every 50 mm or closer; a post along the front line of the
    nearest unit. First principles.
    """
    panels: list[PanelHeight] = []
    findings: list[Finding] = []
    for one in placed:
        if isinstance(one.item, EndPanel | CornerPost) and one.item.to_floor and one.stands:
            made = _panel(job, one, one.item, placed, floor, datum_mm, names)
            if isinstance(made, Finding):
                findings.append(made)
            else:
                panels.append(made)
    return tuple(panels), tuple(findings)


def _panel(
    job: Job,
    one: Placed,
    item: EndPanel | CornerPost,
    placed: Sequence[Placed],
    floor: Floor,
    datum_mm: float,
    names: Mapping[str, str],
) -> PanelHeight | Finding:
    step_mm = job.rounding_mm
    top = _top(job, one, placed, datum_mm)
    line = _foot(one, item, placed)
    if top is None or line is None:
        wrong = (
            "No tall unit stands in its run: nothing says how high it is."
            if top is None
            else ("No unit stands in its run: nothing says where its foot is.")
        )
        return _unknown(one, wrong, "Give its run in the job the unit that it belongs to.")
    surface = floor.finished if item.set_on is SetOn.FINISHED_FLOOR else floor.under_legs
    (x0, y0), (x1, y1) = line
    pieces = max(1, math.ceil(math.hypot(x1 - x0, y1 - y0) / SAMPLE_MM))
    levels: list[SurfaceLevel] = []
    for i in range(pieces + 1):
        spot = to_room(one.run, x0 + (x1 - x0) * i / pieces, y0 + (y1 - y0) * i / pieces)
        level = surface.at(spot.x_mm, spot.y_mm)
        if level is not None:
            levels.append(level)
        elif i in (0, pieces):
            return _unknown(
                one, "No floor is known at one of its edges, so it has no length yet.", "Read a station there."
            )
    on = "the finished floor" if item.set_on is SetOn.FINISHED_FLOOR else "what is there under the units"

    def length(level: SurfaceLevel) -> Figure:
        what = "finished " if item.set_on is SetOn.FINISHED_FLOOR else ""
        why = f"Top {top.text} less {what}{floor_words(level, names, step_mm)}."
        return figure(top.mm - level.level_mm, step_mm, why)

    first, last = length(levels[0]), length(levels[-1])
    longest = length(min(levels, key=lambda level: level.level_mm))
    shortest = length(max(levels, key=lambda level: level.level_mm))
    if shortest.mm <= SAME_MM:
        return _unknown(
            one, f"Its top, {top.text}, is not above the floor.", "Look at the datum and the readings there."
        )
    edge_names = ("front", "back") if isinstance(item, EndPanel) else ("left", "right")
    scribe = figure(
        longest.mm - shortest.mm, step_mm, f"Longest {longest.text} less shortest {shortest.text} along its foot."
    )
    what = "end panel" if isinstance(item, EndPanel) else "post"
    return PanelHeight(
        item.id,
        item.name,
        one.run.name,
        what,
        top,
        ((edge_names[0], first), (edge_names[1], last)),
        longest,
        scribe,
        on,
    )


def _top(job: Job, one: Placed, placed: Sequence[Placed], datum_mm: float) -> Figure | None:
    step_mm, offset_mm = job.rounding_mm, one.run.datum_offset_mm
    offset = f" and the run's offset {text_mm(offset_mm, step_mm, signed=True)}" if offset_mm else ""
    if one.item.storey is not Storey.TALL:
        why = f"The top of its run: datum {text_mm(datum_mm, step_mm)}{offset}."
        return figure(datum_mm + offset_mm, step_mm, why, signed=True)
    tall = _nearest(one, [other for other in placed if other.item.storey is Storey.TALL])
    below_mm = None if tall is None else underside_below_datum_mm(job, tall)
    if tall is None or below_mm is None or not isinstance(tall.item, Carcass | OpenUnit):
        return None
    why = (
        f"The top of {tall.item.name}: datum {text_mm(datum_mm, step_mm)} less {text_mm(below_mm, step_mm)} to its "
        f"underside, plus its height {text_mm(tall.item.height_mm, step_mm)}."
    )
    return figure(datum_mm - below_mm + tall.item.height_mm, step_mm, why, signed=True)


def _foot(
    one: Placed, item: EndPanel | CornerPost, placed: Sequence[Placed]
) -> tuple[tuple[float, float], tuple[float, float]] | None:
    """From the first edge to the second, in run axes: front to back in the middle of a panel's thickness (its allowance
    apart), left to right along a post."""
    if isinstance(item, EndPanel) and one.front_mm is not None:
        middle_mm = (one.left_mm + one.right_mm) / 2
        return (middle_mm, one.front_mm), (middle_mm, one.back_mm)
    unit = _nearest(one, placed)
    if unit is None or unit.front_mm is None:
        return None
    return (one.left_mm, unit.front_mm), (one.right_mm, unit.front_mm)


def _nearest(one: Placed, placed: Sequence[Placed]) -> Placed | None:
    """The unit of the same run that is nearest along it, the left one of equals."""
    units = [
        other
        for other in placed
        if other.run.id == one.run.id and other.stands and isinstance(other.item, Carcass | OpenUnit)
    ]
    return min(
        units,
        key=lambda other: (max(other.left_mm - one.right_mm, one.left_mm - other.right_mm), other.left_mm),
        default=None,
    )


def _unknown(one: Placed, wrong: str, cure: str) -> Finding:
    return Finding(
        "plinth.panel_unknown",
        Severity.WARN,
        f"{one.item.name}, {one.run.name}",
        wrong,
        cure,
        "a panel's length is its top less what it stands on",
        concerns=(one.item.id,),
    )
