"""Packers: a packing in whole mm put together from those at hand, the fewest of them."""

from __future__ import annotations

from collections.abc import Sequence
from math import gcd

PARTS_OF_A_MM = 100
# More than that nobody packs: the wall is furred out with timber.
GREATEST_PACKING_MM = 300


def packed(whole_mm: int, packs_mm: Sequence[float]) -> tuple[float, ...] | None:
    """The fewest packers that make exactly `whole_mm`, thickest first; of as few the one with the thickest. None where
    these packers cannot, or where it is more than 300 mm. Packers count to the hundredth of a mm; each may be used as
    often as is wanted. Raises ValueError below nought."""
    if whole_mm < 0:
        raise ValueError("nothing is packed less than nought")
    if whole_mm > GREATEST_PACKING_MM:
        return None
    sizes = sorted({round(one * PARTS_OF_A_MM) for one in packs_mm if round(one * PARTS_OF_A_MM) > 0}, reverse=True)
    wanted = whole_mm * PARTS_OF_A_MM
    unit = gcd(wanted, *sizes) or 1
    fewest: list[int | None] = [0]
    for sum_ in range(1, wanted // unit + 1):
        before = [count for one in sizes if one // unit <= sum_ and (count := fewest[sum_ - one // unit]) is not None]
        fewest.append(min(before) + 1 if before else None)
    if fewest[-1] is None:
        return None
    found: list[float] = []
    left = wanted // unit
    while left:
        count = fewest[left]
        assert count is not None
        one = next(one for one in sizes if one // unit <= left and fewest[left - one // unit] == count - 1)
        found.append(one / PARTS_OF_A_MM)
        left -= one // unit
    return tuple(found)


def packs_words(packers_mm: Sequence[float]) -> str:
    """ "5 + 2"; "none" where nothing is packed."""
    return " + ".join(f"{one:g}" for one in packers_mm) or "none"
