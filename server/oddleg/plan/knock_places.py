"""Where among readings in a row an instrument may have been moved, told from the spots that were read again."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from itertools import accumulate

_HAIR_MM = 1e-9


def knock_places(spots: Sequence[Hashable], values_mm: Sequence[float], shift_mm: float) -> list[int]:
    """Each index whose reading may be the first after a single move that changed every later reading by `shift_mm`.

    A spot read twice says on which side of the move its readings lie: they differ by nearer the shift than nothing if
    it came in between, and by nearer nothing if both were taken on one side.
    """
    seen: dict[Hashable, int] = {}
    # A move between `least` and `greatest`, and in none of the stretches between whose ends the count goes up and down.
    least, greatest = 1, len(spots) - 1
    barred = [0] * (len(spots) + 1)
    for index, spot in enumerate(spots):
        earlier = seen.setdefault(spot, index)
        if earlier == index:
            continue
        differ_mm, half_mm = values_mm[index] - values_mm[earlier], abs(shift_mm) / 2 + _HAIR_MM
        in_between, on_one_side = abs(differ_mm - shift_mm) <= half_mm, abs(differ_mm) <= half_mm
        if not on_one_side:
            least, greatest = max(least, earlier + 1), min(greatest, index)
        if not in_between:
            barred[earlier + 1] += 1
            barred[index + 1] -= 1
    stretches = list(accumulate(barred))
    return [index for index in range(least, greatest + 1) if stretches[index] == 0]
