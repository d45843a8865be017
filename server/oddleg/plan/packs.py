"""Packers: a packing in whole mm put together from those at hand, the fewest of them."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from math import gcd, inf

PARTS_OF_A_MM = 100
# More than that nobody packs: the wall is furred out with timber.
GREATEST_PACKING_MM = 300


@lru_cache(maxsize=1024)
def packed(whole_mm: int, packs_mm: tuple[float, ...]) -> tuple[float, ...] | None:
    """The fewest packers that make exactly `whole_mm`, thickest first; of as few those whose thinnest is thickest (5 +
    2, not 6 + 1: a thin packer slips). None where these packers cannot, or where it is more than 300 mm. Packers count
    to the hundredth of a mm; each may be used as often as is wanted. Raises ValueError below nought."""
    if whole_mm < 0:
        raise ValueError("nothing is packed less than nought")
    if whole_mm > GREATEST_PACKING_MM:
        return None
    sizes = sorted({round(one * PARTS_OF_A_MM) for one in packs_mm if round(one * PARTS_OF_A_MM) > 0})
    unit = gcd(whole_mm * PARTS_OF_A_MM, *sizes) or 1
    wanted = whole_mm * PARTS_OF_A_MM // unit
    fewest = {size: _fewest(wanted, [one // unit for one in sizes if one >= size]) for size in sizes}
    if wanted and (not sizes or fewest[sizes[0]][wanted] == inf):
        return None
    found: list[int] = []
    count = fewest[sizes[0]][wanted] if wanted else 0
    while count:
        # The thickest that may come next and still leave the rest to packers that are no thinner.
        one = max(
            size
            for size in sizes
            if size // unit <= wanted
            and size >= max(found, default=0)
            and fewest[size][wanted - size // unit] == count - 1
        )
        found.append(one)
        wanted -= one // unit
        count -= 1
    return tuple(one / PARTS_OF_A_MM for one in reversed(found))


def packs_words(packers_mm: Sequence[float]) -> str:
    """ "5 + 2"; "none" where nothing is packed."""
    return " + ".join(f"{one:g}" for one in packers_mm) or "none"


def _fewest(wanted: int, sizes: Sequence[int]) -> list[float]:
    """How many packers of these sizes make each sum up to `wanted`, at the fewest."""
    counts: list[float] = [0]
    for sum_ in range(1, wanted + 1):
        counts.append(min((counts[sum_ - one] + 1 for one in sizes if one <= sum_), default=inf))
    return counts
