"""The angle of a corner from three measured sides, and how far it can be trusted."""

from __future__ import annotations

import math
from dataclasses import dataclass

from oddleg.job import CornerTriangle

from .sightings import GREATEST_LENGTH_MM


@dataclass(frozen=True)
class MeasuredAngle:
    """`cos`: cosine of the angle between the walls, positive where it is closed. `give_or_take`: of that cosine (95
    %), so that over a length it is that many mm for each mm. `per_diagonal`: what 1 mm in the diagonal makes of it.
    """

    cos: float
    give_or_take: float
    per_diagonal: float

    @property
    def deg(self) -> float:
        # Where a leg is as good as nought, the last bit can leave the range of a cosine.
        return math.degrees(math.acos(max(-1.0, min(1.0, self.cos))))

    @property
    def give_or_take_deg(self) -> float:
        """In a corner near to square."""
        return math.degrees(self.give_or_take / math.sqrt(1.0 - self.cos**2))


def closes(one: CornerTriangle) -> bool:
    """Whether three sides can be a triangle at all."""
    sides = sorted((one.along_mm, one.other_along_mm, one.across_mm))
    if not all(math.isfinite(side) and 0 < side <= GREATEST_LENGTH_MM for side in sides):
        return False
    return sides[2] < sides[0] + sides[1]


def measured_angle(one: CornerTriangle, tape_mm: float) -> MeasuredAngle:
    """Law of cosines; each side is good to `tape_mm` (95 %), by itself.

    cos = (a2 + b2 - c2) / 2ab, so d cos/da = 1/b - cos/a, d cos/db = 1/a - cos/b, d cos/dc = -c/ab. The sides must
    close.
    """
    a, b, c = one.along_mm, one.other_along_mm, one.across_mm
    cos = (a * a + b * b - c * c) / (2.0 * a * b)
    by_diagonal = c / (a * b)
    return MeasuredAngle(cos, tape_mm * math.hypot(1.0 / b - cos / a, 1.0 / a - cos / b, by_diagonal), by_diagonal)
