"""Instrument checks: two-peg and two-wall, each with a third answer, "cannot tell"."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from oddleg.job import Laser, Tolerances, TwoPeg, TwoWall


class Verdict(StrEnum):
    WITHIN = "within"
    OUTSIDE = "outside"
    CANNOT_TELL = "cannot_tell"


@dataclass(frozen=True)
class CheckResult:
    """`error_mm_per_m` with its 95 % half-width against `limit_mm_per_m`; `words`: what to do."""

    laser: str
    axis: str
    method: str
    error_mm_per_m: float
    half_width_mm_per_m: float
    limit_mm_per_m: float
    verdict: Verdict
    words: str


def two_peg_result(check: TwoPeg, laser: Laser, tolerances: Tolerances) -> CheckResult:
    raise NotImplementedError


def two_wall_result(check: TwoWall, laser: Laser, tolerances: Tolerances) -> CheckResult:
    raise NotImplementedError
