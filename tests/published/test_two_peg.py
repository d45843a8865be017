"""Two-peg and two-wall checks as published.

Two-peg: unipeppa.com, problem 2.1: pegs 50 m apart; midway 1.283, 0.860; then 5 m beyond B 1.612, 1.219.
Published: -0.030 m in 50 m, true reading at A 1.645, hence at B 1.222.
Two-wall: a laser's manual: the two marks may be twice the wall distance times the accuracy apart; 5 m at 0.3 mm/m: 3 mm.
"""

import pytest

from oddleg.job import Laser, Tolerances, TwoPeg
from oddleg.plan.instrument import Verdict, greatest_offset_mm, two_peg_result

CHECK = TwoPeg("laser", "along", 1283.0, 860.0, 1612.0, 1219.0, 55.0, 5.0, 1.0)


def test_the_error_is_minus_30_mm_in_50_m():
    result = two_peg_result(CHECK, Laser("laser", "laser", 0.3), Tolerances())
    assert result.error_mm_per_m * 50 == pytest.approx(-30.0)
    assert result.verdict is Verdict.OUTSIDE


def test_the_true_readings_follow_from_it():
    per_m = two_peg_result(CHECK, Laser("laser", "laser", 0.3), Tolerances()).error_mm_per_m
    assert 1612.0 - per_m * 55 == pytest.approx(1645.0)
    assert 1219.0 - per_m * 5 == pytest.approx(1222.0)


def test_two_walls_at_five_metres_allow_three_millimetres():
    assert greatest_offset_mm(5.0, 0.3) == pytest.approx(3.0)
