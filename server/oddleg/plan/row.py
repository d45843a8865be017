"""One row of a run, what stands or what hangs: set out from its anchor, outward both ways.

On either side of the anchor fillers take up what is left there up to the end; everything else keeps its width.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from itertools import takewhile
from typing import TypeGuard

from oddleg.job import Anchor, AnchorOn, Edge, Filler, Item, OpenUnit

from .filler_shares import Strip, shared_mm

FROM_THE_LEFT = Anchor()
# What the arithmetic may be out; two edges as near as this are one mark.
SAME_SPOT_MM = 1e-6


class Trouble(StrEnum):
    """Why a row could not be set out from its anchor, and was set out from its left end."""

    NO_ITEM = "no_item"
    NO_FEATURE = "no_feature"
    NO_PLACE = "no_place"
    NO_END = "no_end"
    OUTSIDE = "outside"


@dataclass(frozen=True)
class Side:
    """One side of the anchor. `bounded`: it goes up to a known end, and fillers were solved. Of what lies there, mm:
    `left_mm` that no filler takes, `short_mm` that fillers lack of their least, `excess_mm` past the end. `spare_mm`:
    what its fillers could still give. `fillers`: ids of those that take it up; `held`: of those that a limit
    keeps from their share."""

    bounded: bool = False
    left_mm: float = 0.0
    short_mm: float = 0.0
    excess_mm: float = 0.0
    spare_mm: float = 0.0
    fillers: tuple[str, ...] = ()
    held: tuple[str, ...] = ()


@dataclass(frozen=True)
class Row:
    """`edges`: left and right edge of each item, in order, mm on the rod. `anchor_mm`: where the anchor lies;
    `wanted_mm`: where it should lie, if that is outside. What is put on it are the items from `first` up to `last`.
    """

    items: tuple[Item, ...]
    edges: tuple[tuple[float, float], ...]
    anchor: Anchor
    anchor_mm: float
    first: int
    last: int
    left: Side
    right: Side
    trouble: Trouble | None = None
    wanted_mm: float | None = None

    @property
    def length_mm(self) -> float:
        return self.edges[-1][1] - self.edges[0][0] if self.edges else 0.0


def taken_mm(item: Item) -> float:
    """What an item takes of the rod, a filler as drawn: an open unit its face frame and gap on either side as well."""
    return item.width_mm + 2 * beside_mm(item)


def beside_mm(item: Item) -> float:
    """What an item takes on either side of its own width."""
    return item.frame_thickness_mm + item.frame_gap_mm if isinstance(item, OpenUnit) else 0.0


def edge_mm(span: tuple[float, float], edge: Edge) -> float:
    left_mm, right_mm = span
    return {Edge.LEFT: left_mm, Edge.CENTRE: (left_mm + right_mm) / 2, Edge.RIGHT: right_mm}[edge]


def row_set_out(
    items: Sequence[Item],
    anchor: Anchor | None,
    zero_mm: float,
    ends_mm: tuple[float | None, float | None],
    spans: Mapping[str, tuple[float, float]],
    limits: Mapping[str, tuple[float, float]] | None = None,
    hangs: bool = False,
) -> Row:
    """The row set out. `ends_mm`: left and right end, None where no end is known. `spans`: each feature's left and
    right edge. `limits`: least and greatest width on the rod of fillers that differ from their own. A row that `hangs`
    goes up to an end only where it is meant to; elsewhere it is free there, as where no end is known."""
    kept, wanted = anchor or FROM_THE_LEFT, None
    first, last, within_mm = _block(items, kept)
    spot, trouble = _spot(kept, items, zero_mm, ends_mm, spans)
    if trouble is None and spot is not None and _outside(spot, ends_mm):
        trouble, wanted = Trouble.OUTSIDE, spot
    if trouble is not None or spot is None:
        first, last, within_mm, spot = 0, 0, 0.0, zero_mm
    widths = [taken_mm(item) for item in items]
    block_mm = spot - within_mm
    block_right_mm = block_mm + sum(widths[first:last])
    left_mm, right_mm = ends_mm
    on_left, on_right = range(first - 1, -1, -1), range(last, len(items))
    left_space_mm = None if left_mm is None else block_mm - left_mm
    right_space_mm = None if right_mm is None else right_mm - block_right_mm
    if hangs and _hangs_free(items, widths, on_left, left_space_mm):
        left_space_mm = None
    if hangs and _hangs_free(items, widths, on_right, right_space_mm):
        right_space_mm = None
    left = _solve(items, widths, range(first), left_space_mm, limits or {})
    right = _solve(items, widths, on_right, right_space_mm, limits or {})
    edges: list[tuple[float, float]] = []
    at_mm = block_mm
    for i in reversed(range(first)):
        edges.append((at_mm - widths[i], at_mm))
        at_mm -= widths[i]
    edges.reverse()
    at_mm = block_mm
    for i in range(first, len(items)):
        edges.append((at_mm, at_mm + widths[i]))
        at_mm += widths[i]
    return Row(tuple(items), tuple(edges), kept, spot, first, last, left, right, trouble, wanted)


def _block(items: Sequence[Item], anchor: Anchor) -> tuple[int, int, float]:
    """What is put on the anchor, the items from first up to last, and where in it the anchor lies.

    Without an item, the row itself begins or ends at an end; elsewhere the middle of what stands between the fillers at
    its ends is put there, or of the fillers as drawn where there is nothing else.
    """
    if anchor.item is not None:
        for i, item in enumerate(items):
            if item.id == anchor.item:
                return i, i + 1, edge_mm((0.0, taken_mm(item)), anchor.item_edge) + anchor.item_offset_mm
        return 0, 0, 0.0
    if anchor.on is AnchorOn.LEFT_END:
        return 0, 0, 0.0
    if anchor.on is AnchorOn.RIGHT_END:
        return len(items), len(items), 0.0
    first = sum(1 for _ in takewhile(lambda one: isinstance(one, Filler), items))
    last = len(items) - sum(1 for _ in takewhile(lambda one: isinstance(one, Filler), reversed(items)))
    if first >= last:
        first, last = 0, len(items)
    return first, last, sum(taken_mm(item) for item in items[first:last]) / 2


def _spot(
    anchor: Anchor,
    items: Sequence[Item],
    zero_mm: float,
    ends_mm: tuple[float | None, float | None],
    spans: Mapping[str, tuple[float, float]],
) -> tuple[float | None, Trouble | None]:
    """Where the anchor lies, or why that cannot be said."""
    if anchor.item is not None and all(item.id != anchor.item for item in items):
        return None, Trouble.NO_ITEM
    left_mm = zero_mm if ends_mm[0] is None else ends_mm[0]
    if anchor.on is AnchorOn.LEFT_END:
        return left_mm, None
    if anchor.on is AnchorOn.FEATURE:
        span = spans.get(anchor.feature or "")
        return (None, Trouble.NO_FEATURE) if span is None else (edge_mm(span, anchor.feature_edge), None)
    if anchor.on is AnchorOn.MARK:
        return (None, Trouble.NO_PLACE) if anchor.x_mm is None else (anchor.x_mm, None)
    if ends_mm[1] is None:
        return None, Trouble.NO_END
    return ends_mm[1] if anchor.on is AnchorOn.RIGHT_END else (left_mm + ends_mm[1]) / 2, None


def _outside(spot_mm: float, ends_mm: tuple[float | None, float | None]) -> bool:
    left_mm, right_mm = ends_mm
    before = left_mm is not None and spot_mm < left_mm - SAME_SPOT_MM
    return before or (right_mm is not None and spot_mm > right_mm + SAME_SPOT_MM)


def _hangs_free(items: Sequence[Item], widths: Sequence[float], outward: range, space_mm: float | None) -> bool:
    """Whether what hangs on one side of the anchor ends before the end: its last item is no filler, and its fillers
    could not bring it up to there. What does not go in is not free."""
    if space_mm is None or (outward and isinstance(items[outward[-1]], Filler)):
        return False
    greatest_mm = sum(item.greatest_mm if _takes_up(item) else widths[i] for i in outward for item in (items[i],))
    return space_mm > greatest_mm + SAME_SPOT_MM


def _takes_up(item: Item) -> TypeGuard[Filler]:
    return isinstance(item, Filler) and item.share > 0


def _solve(
    items: Sequence[Item],
    widths: list[float],
    here: range,
    space_mm: float | None,
    limits: Mapping[str, tuple[float, float]],
) -> Side:
    """Puts what the fillers of one side take into `widths`; they keep what is drawn where no end is known."""
    if space_mm is None:
        return Side()
    at, strips = [], []
    for i in here:
        item = items[i]
        if _takes_up(item):
            least_mm, greatest_mm = limits.get(item.id, (item.least_mm, item.greatest_mm))
            at.append(i)
            strips.append(Strip(item.share, least_mm, greatest_mm))
    taking = set(at)
    rest_mm = space_mm - sum(widths[i] for i in here if i not in taking)
    least_mm, greatest_mm = sum(one.least_mm for one in strips), sum(one.greatest_mm for one in strips)
    spare_mm = max(0.0, min(rest_mm, greatest_mm) - least_mm)
    side = Side(True, spare_mm=spare_mm, fillers=tuple(items[i].id for i in at))
    if rest_mm < least_mm - SAME_SPOT_MM:
        # Too little: they show as narrow as they would come, and a finding says so.
        strips = [replace(one, least_mm=0.0, greatest_mm=one.least_mm) for one in strips]
        side = replace(side, short_mm=least_mm - max(rest_mm, 0.0), excess_mm=max(-rest_mm, 0.0))
        found = shared_mm(max(rest_mm, 0.0), strips)
    else:
        found = shared_mm(rest_mm, strips)
        side = replace(side, left_mm=_nothing_if_tiny(rest_mm - greatest_mm), held=_held(items, at, strips, found))
    for i, width_mm in zip(at, found, strict=True):
        widths[i] = width_mm
    return side


def _nothing_if_tiny(value_mm: float) -> float:
    return value_mm if value_mm > SAME_SPOT_MM else 0.0


def _held(items: Sequence[Item], at: Sequence[int], strips: Sequence[Strip], found: Sequence[float]) -> tuple[str, ...]:
    """Fillers whose limit gives them more or less than their share of what there is."""
    shares, total_mm = sum(one.share for one in strips), sum(found)
    return tuple(
        items[i].id
        for i, strip, mm in zip(at, strips, found, strict=True)
        if abs(mm - total_mm * strip.share / shares) > SAME_SPOT_MM
        and min(abs(mm - strip.least_mm), abs(mm - strip.greatest_mm)) <= SAME_SPOT_MM
    )
