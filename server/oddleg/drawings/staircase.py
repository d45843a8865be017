"""Labels at marks along a line: each beside its own leader, in rows, so that no leader runs through a label."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class Step:
    """The row that a label stands in, 0 nearest to the line, and whether it stands to the left of its leader."""

    row: int
    to_left: bool


def staircase(
    places_mm: Sequence[float], widths_mm: Sequence[float], gap_mm: float, low_mm: float, high_mm: float
) -> tuple[Step, ...] | None:
    """For places in order and the width of each one's label: right of its leader, or left of it where the paper ends.

    A label stands in a row beyond all labels and leaders that it would touch. None: some label reaches out of `low_mm`
    to `high_mm` on either side.
    """
    count = len(places_mm)
    left: set[int] = set()
    for i in reversed(range(count)):
        over = places_mm[i] + widths_mm[i] > high_mm
        meets = (places_mm[k] - places_mm[i] < max(widths_mm[i], widths_mm[k]) + gap_mm for k in left)
        if over or any(meets):
            left.add(i)
    if any(places_mm[i] - widths_mm[i] < low_mm for i in left):
        return None

    def span(i: int) -> tuple[float, float]:
        x_mm, wide_mm = places_mm[i], widths_mm[i]
        return (x_mm - wide_mm, x_mm) if i in left else (x_mm, x_mm + wide_mm)

    rows: dict[int, int] = {}
    for i in [*sorted(left), *(i for i in reversed(range(count)) if i not in left)]:
        from_mm, to_mm = span(i)
        met = (rows[k] for k in rows if span(k)[0] < to_mm + gap_mm and span(k)[1] > from_mm - gap_mm)
        rows[i] = max(met, default=-1) + 1
    return tuple(Step(rows[i], i in left) for i in range(count))
