"""Where among readings in a row an instrument may have been moved, told from the spots that were read again."""

from __future__ import annotations

from collections.abc import Hashable, Sequence

_HAIR_MM = 1e-9


def knock_places(spots: Sequence[Hashable], values_mm: Sequence[float], shift_mm: float) -> list[int]:
    """Each index whose reading may be the first after a single move that changed every later reading by `shift_mm`.

    A spot read twice says on which side of the move its readings lie: they differ by nearer the shift than nothing if
    it came in between, and by nearer nothing if both were taken on one side.
    """

    def agrees(first_after: int) -> bool:
        seen: dict[Hashable, int] = {}
        for index, spot in enumerate(spots):
            earlier = seen.setdefault(spot, index)
            moved_mm = shift_mm if earlier < first_after <= index else 0.0
            if abs(values_mm[index] - values_mm[earlier] - moved_mm) > abs(shift_mm) / 2 + _HAIR_MM:
                return False
        return True

    return [index for index in range(1, len(spots)) if agrees(index)]
