"""Computation 9: the rod of a run: where items stand, what fillers take up, and every mark from three sides."""

from __future__ import annotations

from dataclasses import dataclass

from oddleg.job import Run

from .figure import Figure
from .finding import Finding
from .hung_ends import HungEnd
from .rod import Placed


@dataclass(frozen=True)
class RodMark:
    """A mark on the rod. `row`: base (all that stands) or wall. `kind`: zero, end, anchor, edge (of an item), centre
    (of a feature or of what is centred). From the zero (left), from the anchor (to the right +), from the end mark
    (right); a run with an open right end and no opening has its last edge for its end mark. `order`: in order of
    marking, from 1; 0 for what is not marked on the batten. `marked`: the distance at which the fitter made it, if so;
    `moved`: how far the plan has moved since, None for no more than the rounding, which a pencil line is wide."""

    id: str
    name: str
    row: str
    kind: str
    items: tuple[str, ...]
    x_mm: float
    from_left: Figure
    from_anchor: Figure
    from_right: Figure
    order: int
    marked: Figure | None = None
    moved: Figure | None = None


@dataclass(frozen=True)
class FillerWidth:
    """What a filler shows and is cut from. `width`: between its marks on the rod; `narrow`, `wide`: least and greatest
    visible width over the heights measured. `cut_from`: the strip to start from, scribe allowance included (`cut_words`
    "cut from"), or its width where it is not scribed ("cut to"); None for a space that "stays open"."""

    item: str
    name: str
    width: Figure
    narrow: Figure
    wide: Figure
    cut_words: str
    cut_from: Figure | None
    words: str


@dataclass(frozen=True)
class Offset:
    """An edge that was to line up with another, and by how much it does not (to the right +)."""

    words: str
    offset: Figure


@dataclass(frozen=True)
class Rod:
    """One run set out. `run`: as set out (moved onto its front line). `left_mm`, `right_mm`: zero and end mark, in its
    axes; `opening`: between them, None where neither measured nor drawn; `opening_words` say which it is,
    empty for a run that stands free.
    `anchor_words`: what is put where. `left_over`: what no filler takes, None where an end is open. `end_words`: how
    far each side wall lies from its mark. `hung_ends`: left and right, where what hangs ends in a corner. `beyond_mm`:
    left and right, the most that the plaster lies beyond the mark, at wall-unit height where it is read there, else at
    any; 0 where it is not read."""

    run: Run
    left_mm: float
    right_mm: float
    opening: Figure | None
    opening_words: str
    anchor_mm: float
    anchor_words: str
    placed: tuple[Placed, ...]
    fillers: tuple[FillerWidth, ...]
    marks: tuple[RodMark, ...]
    left_over: Figure | None
    end_words: tuple[str, ...]
    offsets: tuple[Offset, ...]
    findings: tuple[Finding, ...]
    hung_ends: tuple[HungEnd | None, HungEnd | None] = (None, None)
    beyond_mm: tuple[float, float] = (0.0, 0.0)
