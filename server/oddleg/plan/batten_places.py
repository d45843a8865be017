"""Where a batten lies along a run: its stretches, its fixings, and the pieces that it is made of."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from oddleg.job import ApplianceBay, Batten, BattenIn, Carcass, CornerPost, Filler, Gap, OpenUnit

from .heights import SAME_MM
from .hidden_services import BESIDE_MM, Zone
from .rod import Placed
from .wall_profile import Span, merged

# Shorter stretches get no batten (ours). A stud so near an end of the batten would split it (ours).
LEAST_STRETCH_MM, LEAST_END_MM = 100.0, 20.0
# So many fixings more are tried before one that keeps the spacing is given up.
MORE_FIXINGS = 12


@dataclass(frozen=True)
class Places:
    """Fixings of one stretch, from left to right. `open`: spans without one that are longer than they should be."""

    at_mm: tuple[float, ...]
    open: tuple[Span, ...]


def batten_span(placed: Sequence[Placed]) -> Span | None:
    """From the first to the last unit or bay that stands, and on over fillers and posts beside them; an end panel is
    scribed to the wall and stops it there (one between units is notched over it). None where no unit stands."""
    row = [one for one in placed if one.stands]
    units = [i for i, one in enumerate(row) if isinstance(one.item, Carcass | OpenUnit | ApplianceBay)]
    if not units:
        return None
    first, last = units[0], units[-1]
    while first > 0 and isinstance(row[first - 1].item, Filler | CornerPost):
        first -= 1
    while last < len(row) - 1 and isinstance(row[last + 1].item, Filler | CornerPost):
        last += 1
    return row[first].left_mm, row[last].right_mm


def wide_gaps(placed: Sequence[Placed], batten: Batten) -> tuple[Span, ...]:
    """Gaps in the row that are wider than fixings may be apart: the batten stops before and begins after them."""
    gaps = (one for one in placed if one.stands and isinstance(one.item, Gap))
    return tuple((one.left_mm, one.right_mm) for one in gaps if one.right_mm - one.left_mm > batten.spacing_mm)


def recess_mm(placed: Sequence[Placed], batten: Batten) -> float:
    """How far behind the sides' rear edges the batten's face may lie forward: the least back recess of the units, since
    the batten is straight; 0 where it lies in the void."""
    if batten.lies_in is BattenIn.VOID:
        return 0.0
    boxes = [one.item.box for one in placed if one.stands and isinstance(one.item, Carcass | OpenUnit)]
    return min((box.back_recess_mm for box in boxes), default=0.0)


def sides(placed: Sequence[Placed], span: Span) -> tuple[Span, ...]:
    """Where sides of carcasses stand along the batten, neighbours' sides as one."""
    found = []
    for one in placed:
        if one.stands and isinstance(one.item, Carcass | OpenUnit):
            left_mm, right_mm = one.body_mm
            board_mm = one.item.box.board_mm
            found += [(left_mm, left_mm + board_mm), (right_mm - board_mm, right_mm)]
    return merged(
        (max(left, span[0]), min(right, span[1])) for left, right in found if right > span[0] and left < span[1]
    )


def without(span: Span, cuts: Sequence[Span], least_mm: float = LEAST_STRETCH_MM) -> tuple[Span, ...]:
    """What is left of a span when these are cut out of it, as far as it is `least_mm` long or more."""
    found = []
    at_mm = span[0]
    for left_mm, right_mm in (*merged(cuts), (span[1], span[1])):
        end_mm = min(left_mm, span[1])
        if end_mm - at_mm >= least_mm - SAME_MM:
            found.append((at_mm, end_mm))
        at_mm = max(at_mm, right_mm)
    return tuple(found)


def fixing_places(stretch: Span, batten: Batten, supports_mm: Sequence[float], kept_clear: Sequence[Span]) -> Places:
    """Fixings on every support of the stretch; where the job names none, evenly, `end_mm` from both ends and
    `spacing_mm` or closer. None lies in a span that is kept clear: a support there is passed over, another fixing is
    moved to the nearer edge, and where that takes two too far apart there is one fixing more. Past the last fixing a
    batten may reach half the spacing (ours)."""
    clear = merged(kept_clear, 0.0)
    left_mm, right_mm = stretch
    if batten.supports_mm:
        inside = sorted(x for x in supports_mm if left_mm + LEAST_END_MM <= x <= right_mm - LEAST_END_MM)
        at = tuple(x for x in inside if _span_at(x, clear) is None)
        return Places(at, _open(stretch, at, batten.spacing_mm))
    start_mm, stop_mm = _ends(stretch, batten.end_mm, clear)
    if stop_mm - start_mm < SAME_MM:
        middle = _moved((left_mm + right_mm) / 2, clear, stretch)
        at = () if middle is None else (middle,)
        return Places(at, _open(stretch, at, batten.spacing_mm))
    least = max(1, math.ceil((stop_mm - start_mm) / batten.spacing_mm - SAME_MM))
    tries = [_evenly(start_mm, stop_mm, count, clear, stretch) for count in range(least, least + MORE_FIXINGS)]
    for at in tries:
        if not _open(stretch, at, batten.spacing_mm):
            return Places(at, ())
    return Places(tries[0], _open(stretch, tries[0], batten.spacing_mm))


def kept_clear(zones: Sequence[Zone], cut_outs: Sequence[Span]) -> tuple[Span, ...]:
    """Spans in which no fixing goes: known zones with a little beside them, and what is cut or notched."""
    beside = [(zone.left_mm - BESIDE_MM, zone.right_mm + BESIDE_MM) for zone in zones if not zone.whole]
    return merged((*beside, *cut_outs), 0.0)


def pieces(stretch: Span, fixings_mm: Sequence[float], stock_mm: float) -> tuple[tuple[Span, ...], tuple[float, ...]]:
    """The pieces of one stretch, joined on fixings: the fewest, of these the ones whose shortest is longest, and then
    the longer ones to the left. Second: joints that no fixing holds, since two lie further apart than the stock is
    long."""
    left_mm, right_mm = stretch
    marks = [left_mm, *(x for x in fixings_mm if left_mm + SAME_MM < x < right_mm - SAME_MM), right_mm]
    forced: list[float] = []
    for start, stop in pairwise(list(marks)):
        parts = math.ceil((stop - start) / stock_mm - SAME_MM)
        forced += [start + (stop - start) * part / parts for part in range(1, parts)]
    marks = sorted({*marks, *forced})
    best: list[tuple[int, float, int]] = [(0, -math.inf, -1)]
    for i in range(1, len(marks)):
        options = []
        for j in range(i - 1, -1, -1):
            length_mm = marks[i] - marks[j]
            if length_mm > stock_mm + SAME_MM:
                break
            options.append((best[j][0] + 1, -round(min(-best[j][1], length_mm), 6), -j))
        count, shortest, j = min(options)
        best.append((count, shortest, -j))
    found: list[Span] = []
    i = len(marks) - 1
    while i > 0:
        j = best[i][2]
        found.append((marks[j], marks[i]))
        i = j
    return tuple(reversed(found)), tuple(x for x in forced if any(abs(x - one[1]) < SAME_MM for one in found))


def beside_joints(
    stretch: Span, at_mm: Sequence[float], joints_mm: Sequence[float], batten: Batten, kept_clear: Sequence[Span]
) -> tuple[float, ...]:
    """Two fixings in the place of one that a joint lies on, half the end distance either side, so that each end has a
    screw of its own. A stud or patress stays one place, and so does one beside a span that is kept clear: there both
    ends are screwed where the joint lies."""
    if batten.supports_mm:
        return tuple(at_mm)
    clear = merged(kept_clear, 0.0)
    half_mm = max(batten.end_mm / 2, LEAST_END_MM)
    found: list[float] = []
    for x_mm in at_mm:
        two = (x_mm - half_mm, x_mm + half_mm)
        joint = any(abs(x_mm - each) < SAME_MM for each in joints_mm)
        inside = stretch[0] + LEAST_END_MM <= two[0] and two[1] <= stretch[1] - LEAST_END_MM
        found += two if joint and inside and all(_span_at(each, clear) is None for each in two) else (x_mm,)
    return tuple(sorted(found))


def _ends(stretch: Span, end_mm: float, clear: Sequence[Span]) -> tuple[float, float]:
    start_mm, stop_mm = stretch[0] + end_mm, stretch[1] - end_mm
    if (span := _span_at(start_mm, clear)) is not None:
        start_mm = span[1]
    if (span := _span_at(stop_mm, clear)) is not None:
        stop_mm = span[0]
    return start_mm, stop_mm


def _evenly(start_mm: float, stop_mm: float, count: int, clear: Sequence[Span], stretch: Span) -> tuple[float, ...]:
    at = (start_mm + (stop_mm - start_mm) * i / count for i in range(count + 1))
    return tuple(sorted({moved for x in at if (moved := _moved(x, clear, stretch)) is not None}))


def _span_at(x_mm: float, clear: Sequence[Span]) -> Span | None:
    """The span that the place lies in; `clear` in order, none meeting the next."""
    before = bisect_left(clear, x_mm, key=lambda one: one[0]) - 1
    found = before >= 0 and clear[before][0] + SAME_MM < x_mm < clear[before][1] - SAME_MM
    return clear[before] if found else None


def _moved(x_mm: float, clear: Sequence[Span], stretch: Span) -> float | None:
    """The nearest place outside what is kept clear; of two as near the one nearer the stretch's middle. None: there is
    none on this stretch."""
    span = _span_at(x_mm, clear)
    if span is None:
        return x_mm
    middle_mm = (stretch[0] + stretch[1]) / 2
    edges = [edge for edge in span if stretch[0] + LEAST_END_MM <= edge <= stretch[1] - LEAST_END_MM]
    return min(edges, key=lambda edge: (round(abs(edge - x_mm), 6), round(abs(edge - middle_mm), 6)), default=None)


def _open(stretch: Span, at_mm: Sequence[float], spacing_mm: float) -> tuple[Span, ...]:
    if not at_mm:
        return (stretch,)
    found = [(a, b) for a, b in pairwise(at_mm) if b - a > spacing_mm + SAME_MM]
    if at_mm[0] - stretch[0] > spacing_mm / 2 + SAME_MM:
        found.insert(0, (stretch[0], at_mm[0]))
    if stretch[1] - at_mm[-1] > spacing_mm / 2 + SAME_MM:
        found.append((at_mm[-1], stretch[1]))
    return tuple(found)
