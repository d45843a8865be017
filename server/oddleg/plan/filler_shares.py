"""What fillers take up between them: in the ratio of their shares, each between its limits."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class Strip:
    """A filler's share, above 0, and the least and greatest width that it may take on the rod, mm."""

    share: float
    least_mm: float
    greatest_mm: float

    def at(self, per_share_mm: float) -> float:
        """Its width where each share stands for so much."""
        return max(self.least_mm, min(self.share * per_share_mm, self.greatest_mm))


def shared_mm(total_mm: float, strips: Sequence[Strip]) -> tuple[float, ...]:
    """Widths in the ratio of the shares that sum to `total_mm`; what one held at a limit leaves, the others share.

    Where not even the limits reach the total, all lie at that limit: the caller says what is missing or left.
    """
    if not strips:
        return ()
    plain_mm = total_mm / sum(one.share for one in strips)
    if all(one.least_mm <= one.share * plain_mm <= one.greatest_mm for one in strips):
        return tuple(one.share * plain_mm for one in strips)
    turns = sorted({mm / one.share for one in strips for mm in (one.least_mm, one.greatest_mm)})
    low, high = 0, len(turns) - 1
    while low < high:
        middle = (low + high) // 2
        if sum(one.at(turns[middle]) for one in strips) < total_mm:
            low = middle + 1
        else:
            high = middle
    # Between two turns the sum grows evenly, by the shares of those that no limit holds there.
    at_mm = turns[low]
    over_mm = sum(one.at(at_mm) for one in strips) - total_mm
    before_mm = turns[low - 1] if low else at_mm
    free = sum(
        one.share for one in strips if one.least_mm / one.share < at_mm and one.greatest_mm / one.share > before_mm
    )
    if over_mm > 0 and low and free > 0:
        at_mm -= over_mm / free
    return tuple(one.at(at_mm) for one in strips)
