"""Two-peg and two-wall: within, outside, or cannot tell."""

import pytest

from oddleg.job import Laser, Tolerances, TwoPeg, TwoWall
from oddleg.plan.instrument import Verdict, greatest_offset_mm, two_peg_result, two_wall_result

LASER = Laser("laser", "laser", 0.3)


def two_peg(bent_mm, base_m, resolution_mm=0.5, near_m=1.0, noise_mm=0.5, axis="along"):
    """Pegs level with each other; from the end, peg A at `base_m` more than B reads `bent_mm` too much."""
    check = TwoPeg("laser", axis, 1200.0, 1200.0, 1250.0 + bent_mm, 1250.0, base_m + near_m, near_m, resolution_mm)
    return two_peg_result(check, LASER, Tolerances(reading_noise_mm=noise_mm))


@pytest.mark.parametrize("bent_mm", [0.0, 0.5, 1.0, 1.5, 2.0])
def test_readings_to_half_a_millimetre_over_four_metres_cannot_fail_a_laser_of_0_3(bent_mm):
    """TRAPS 3: the half-width is (2 + 1.96 x 2) x 0.5 / 4 = 0.74 mm/m."""
    result = two_peg(bent_mm, 4.0)
    assert result.half_width_mm_per_m == pytest.approx((2 + 1.96 * 2) * 0.5 / 4)
    assert result.verdict is Verdict.CANNOT_TELL
    assert "longer base or a finer reading" in result.words


@pytest.mark.parametrize(
    ("bent_mm", "verdict"),
    [
        (0.0, Verdict.WITHIN),
        (-3.0, Verdict.WITHIN),
        (9.0, Verdict.CANNOT_TELL),
        (15.0, Verdict.OUTSIDE),
        (-15.0, Verdict.OUTSIDE),
    ],
)
def test_a_longer_base_can_tell(bent_mm, verdict):
    """30 m: limit 9 mm, half-width 2.96 mm."""
    assert two_peg(bent_mm, 30.0).verdict is verdict


def test_a_finer_reading_can_tell():
    assert two_peg(0.0, 4.0, resolution_mm=0.1, noise_mm=0.1).verdict is Verdict.WITHIN


def test_noise_and_resolution_both_widen_the_answer():
    assert two_peg(0.0, 4.0, resolution_mm=0.1).half_width_mm_per_m < two_peg(0.0, 4.0).half_width_mm_per_m
    assert two_peg(0.0, 4.0, noise_mm=0.1).half_width_mm_per_m < two_peg(0.0, 4.0).half_width_mm_per_m


def test_which_peg_is_near_makes_no_odds():
    near_b = TwoPeg("laser", "along", 1200.0, 1190.0, 1262.0, 1250.0, 31.0, 1.0, 0.5)
    near_a = TwoPeg("laser", "along", 1190.0, 1200.0, 1250.0, 1262.0, 1.0, 31.0, 0.5)
    assert two_peg_result(near_b, LASER, Tolerances()) == two_peg_result(near_a, LASER, Tolerances())


def test_both_axes_are_told_apart():
    assert two_peg(0.0, 30.0, axis="across").axis == "across"


@pytest.mark.parametrize(("to_a_m", "to_b_m"), [(10.0, 10.0), (0.0, 0.0), (-5.0, 20.0), (float("inf"), 1.0)])
def test_a_second_pair_from_midway_is_a_clear_answer_and_no_division_by_nought(to_a_m, to_b_m):
    result = two_peg_result(
        TwoPeg("laser", "along", 1200.0, 1200.0, 1250.0, 1250.0, to_a_m, to_b_m, 0.5), LASER, Tolerances()
    )
    assert result.verdict is Verdict.CANNOT_TELL
    assert (result.error_mm_per_m, result.half_width_mm_per_m) == (None, None)
    assert "near one peg" in result.words


@pytest.mark.parametrize(
    ("offset_mm", "verdict"),
    [(1.0, Verdict.WITHIN), (-1.0, Verdict.WITHIN), (3.0, Verdict.CANNOT_TELL), (5.0, Verdict.OUTSIDE)],
)
def test_two_walls_five_metres_apart(offset_mm, verdict):
    """Limit 3 mm; half-width half a step, 0.25, and two marks of noise 0.5: 1.96 x 0.5 x root 2."""
    result = two_wall_result(TwoWall("laser", "along", offset_mm, 5.0, 0.5), LASER, Tolerances())
    assert result.error_mm_per_m == pytest.approx(abs(offset_mm) / 10)
    assert result.half_width_mm_per_m == pytest.approx((0.25 + 1.96 * 0.5 * 2**0.5) / 10)
    assert result.verdict is verdict


@pytest.mark.parametrize("walls_apart_m", [0.0, -5.0, float("inf")])
def test_walls_no_distance_apart_are_a_clear_answer(walls_apart_m):
    result = two_wall_result(TwoWall("laser", "along", 3.0, walls_apart_m, 0.5), LASER, Tolerances())
    assert (result.verdict, result.error_mm_per_m) == (Verdict.CANNOT_TELL, None)
    assert "above 0" in result.words


def test_the_greatest_offset_is_there_and_back():
    assert greatest_offset_mm(5.0, 0.3) == pytest.approx(3.0)
