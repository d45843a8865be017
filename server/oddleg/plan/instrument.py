"""Instrument checks: two-peg and two-wall, each with a third answer, "cannot tell"."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

from oddleg.job import Laser, Tolerances, TwoPeg, TwoWall

from .adjustment import COVERAGE_95
from .figure import text_mm

_LONGER_OR_FINER = "Cannot tell; take a longer base or a finer reading."


class Verdict(StrEnum):
    WITHIN = "within"
    OUTSIDE = "outside"
    CANNOT_TELL = "cannot_tell"


@dataclass(frozen=True)
class CheckResult:
    """`error_mm_per_m` with its 95 % half-width against `limit_mm_per_m`; `words`: what to do.

    The error is how much too high the laser reads with each metre of distance (two-peg, signed; two-wall, its size).
    Error and half-width are None where the check was laid out so that no error can be had from it; `words` says why.
    """

    laser: str
    axis: str
    method: str
    error_mm_per_m: float | None
    half_width_mm_per_m: float | None
    limit_mm_per_m: float
    verdict: Verdict
    words: str


def two_peg_result(check: TwoPeg, laser: Laser, tolerances: Tolerances) -> CheckResult:
    """((end A - end B) - (middle A - middle B)) / (distance to A - distance to B), mm per m.

    Midway the two readings are wrong by the same, so their difference is right whatever the laser does. Half-width:
    half a step of the rule on each of four readings, the worst case, plus 1.96 x the noise of four readings (twice that
    of one), over the difference of the distances. First principles.
    """
    base_m = check.end_to_a_m - check.end_to_b_m
    if min(check.end_to_a_m, check.end_to_b_m) < 0 or base_m == 0 or not math.isfinite(base_m):
        return _no_result(
            check, "two-peg", laser, "For the second pair stand near one peg: both distances are the same."
        )
    bent_mm = (check.end_a_mm - check.end_b_mm) - (check.middle_a_mm - check.middle_b_mm)
    doubt_mm = 4 * check.resolution_mm / 2 + COVERAGE_95 * tolerances.reading_noise_mm * math.sqrt(4)
    return _result(check, "two-peg", laser, bent_mm / base_m, doubt_mm / abs(base_m))


def two_wall_result(check: TwoWall, laser: Laser, tolerances: Tolerances) -> CheckResult:
    """Offset between the two marks / (2 x wall distance), mm per m.

    Half-width: half a step of the rule on the one offset, plus 1.96 x the noise of two marks, over twice the distance.
    """
    if not 0 < check.walls_apart_m < math.inf:
        return _no_result(check, "two-wall", laser, "The distance between the walls must be above 0.")
    doubt_mm = check.resolution_mm / 2 + COVERAGE_95 * tolerances.reading_noise_mm * math.sqrt(2)
    way_m = 2 * check.walls_apart_m
    return _result(check, "two-wall", laser, abs(check.offset_mm) / way_m, doubt_mm / way_m)


def greatest_offset_mm(walls_apart_m: float, slope_mm_per_m: float) -> float:
    """Largest offset of a two-wall check that is still within the stated accuracy: there and back, so twice."""
    return 2 * walls_apart_m * slope_mm_per_m


def _result(
    check: TwoPeg | TwoWall, method: str, laser: Laser, error_mm_per_m: float, half_width_mm_per_m: float
) -> CheckResult:
    limit_mm_per_m = laser.slope_mm_per_m
    found = (
        f"{_per_m(error_mm_per_m)} \N{PLUS-MINUS SIGN}{_per_m(half_width_mm_per_m)} mm per m, "
        f"stated \N{PLUS-MINUS SIGN}{_per_m(limit_mm_per_m)}."
    )
    if abs(error_mm_per_m) + half_width_mm_per_m <= limit_mm_per_m:
        verdict, words = Verdict.WITHIN, f"Within: {found}"
    elif abs(error_mm_per_m) - half_width_mm_per_m > limit_mm_per_m:
        verdict, words = Verdict.OUTSIDE, f"Outside: {found} Have the laser adjusted, or take another one."
    else:
        verdict, words = Verdict.CANNOT_TELL, f"{_LONGER_OR_FINER} {found}"
    return CheckResult(
        laser.id, check.axis, method, error_mm_per_m, half_width_mm_per_m, limit_mm_per_m, verdict, words
    )


def _no_result(check: TwoPeg | TwoWall, method: str, laser: Laser, words: str) -> CheckResult:
    return CheckResult(
        laser.id, check.axis, method, None, None, laser.slope_mm_per_m, Verdict.CANNOT_TELL, f"Cannot tell. {words}"
    )


def _per_m(slope_mm_per_m: float) -> str:
    return text_mm(slope_mm_per_m, 0.01)
