"""The line that keeps clear of all points and leaves least behind it: bends, ties, one wall and several together."""

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from oddleg.plan.minimax import WallHull, best_slope

x_mm = st.integers(0, 60).map(lambda step: step * 100.0)
y_mm = st.integers(-60, 60).map(lambda step: step / 4)
WALLS = st.lists(st.tuples(x_mm, y_mm), min_size=1, max_size=25)
SLOPES = st.integers(-40, 40).map(lambda step: step / 1000)
hold = settings(derandomize=True, deadline=None, max_examples=60)


def waste_by_hand(points, slope):
    """Greatest less least of y - slope x, point by point."""
    rest = [y - slope * x for x, y in points]
    return max(rest) - min(rest)


@hold
@given(WALLS, SLOPES)
def test_a_hull_says_of_every_slope_what_all_points_say(points, slope):
    hull = WallHull(points)
    assert hull.waste_mm(slope) == pytest.approx(waste_by_hand(points, slope), abs=1e-9)
    assert hull.back_mm(slope) == pytest.approx(max(y - slope * x for x, y in points), abs=1e-9)


@hold
@given(WALLS, SLOPES)
def test_no_slope_wastes_less_than_the_best_one(points, slope):
    hull = WallHull(points)
    assert hull.waste_mm(best_slope([(hull, 0.0)])) <= waste_by_hand(points, slope) + 1e-9


@hold
@given(WALLS)
def test_a_mirror_turns_the_slope_round(points):
    mirrored = [(6000.0 - x, y) for x, y in points]
    assert best_slope([(WallHull(mirrored), 0.0)]) == pytest.approx(-best_slope([(WallHull(points), 0.0)]), abs=1e-9)


@hold
@given(WALLS, st.floats(-3000, 3000), st.floats(-200, 200), SLOPES)
def test_moving_and_turning_the_line_that_was_read_from_moves_the_best_line_with_it(points, along, out, turn):
    moved = [(x + along, y + out + turn * x) for x, y in points]
    if len({x for x, _ in points}) > 1:
        slope = best_slope([(WallHull(points), 0.0)])
        assert best_slope([(WallHull(moved), 0.0)]) == pytest.approx(slope + turn, abs=1e-7)


@hold
@given(st.lists(st.tuples(WALLS, SLOPES), min_size=1, max_size=4), st.randoms(use_true_random=False))
def test_the_order_of_readings_and_of_walls_chooses_nothing(walls, chance):
    def shuffled(values):
        values = list(values)
        chance.shuffle(values)
        return values

    found = best_slope([(WallHull(points), offset) for points, offset in walls])
    other = best_slope([(WallHull(shuffled(points)), offset) for points, offset in shuffled(walls)])
    assert other == pytest.approx(found, abs=1e-9)


@hold
@given(st.lists(st.tuples(WALLS, SLOPES), min_size=2, max_size=4), SLOPES)
def test_of_several_walls_the_worst_comes_first_and_then_their_sum(walls, slope):
    hulls = [(WallHull(points), offset) for points, offset in walls]
    best = best_slope(hulls)

    def wastes(at):
        return [waste_by_hand(points, at + offset) for points, offset in walls]

    assert max(wastes(best)) <= max(wastes(slope)) + 1e-8
    if max(wastes(slope)) <= max(wastes(best)) + 1e-12:
        assert sum(wastes(best)) <= sum(wastes(slope)) + 1e-8


def test_where_a_stretch_of_slopes_is_equally_good_its_middle_is_taken():
    # Two heights at 0: 0 and 10; at 1000: 4. Waste is 10 as long as the line through 4 stays between: slopes from
    # (4 - 10) / 1000 to 4 / 1000. FP
    points = [(0.0, 0.0), (0.0, 10.0), (1000.0, 4.0)]
    assert best_slope([(WallHull(points), 0.0)]) == pytest.approx((-6 + 4) / 2 / 1000)


def test_the_equally_good_middle_of_two_walls_is_where_their_sum_is_least():
    # The first wall wastes 10 for slopes from -0.006 to 0.004; the second, straight, 1 for 0.001 either way of 0.003:
    # the worst is 10 all along, and the second one says which of these slopes. FP
    first = WallHull([(0.0, 0.0), (0.0, 10.0), (1000.0, 4.0)])
    second = WallHull([(0.0, 0.0), (1000.0, 3.0)])
    assert best_slope([(first, 0.0), (second, 0.0)]) == pytest.approx(0.003)


def test_two_straight_walls_of_unequal_length_share_what_they_are_off_square_so_that_both_waste_alike():
    # Walls of 1000 and 3000, 0.004 off: 1000 |s| = 3000 |s + 0.004| at s = -0.003: both waste 3. FP
    short, long = WallHull([(0.0, 0.0), (1000.0, 0.0)]), WallHull([(0.0, 0.0), (3000.0, 0.0)])
    slope = best_slope([(short, 0.0), (long, 0.004)])
    assert slope == pytest.approx(-0.003)
    assert short.waste_mm(slope) == pytest.approx(3.0) and long.waste_mm(slope + 0.004) == pytest.approx(3.0)


def test_one_place_on_a_wall_gives_no_direction_and_the_reference_line_is_kept():
    assert best_slope([(WallHull([(600.0, 0.0), (600.0, 5.0)]), 0.0)]) == 0.0
    # Two such walls, square to each other but for 0.002: each gives way by half. FP
    assert best_slope([(WallHull([(0.0, 0.0)]), 0.0), (WallHull([(0.0, 0.0)]), 0.002)]) == pytest.approx(-0.001)


def test_a_thousand_points_on_a_curve_all_lie_on_the_hull_and_are_all_counted():
    points = [(i / 1000, (i / 1000) ** 2) for i in range(1001)]
    random.Random(1).shuffle(points)
    assert len(WallHull(points).bends) == 1001


def test_no_point_and_no_wall_is_refused():
    with pytest.raises(ValueError, match="at least one point"):
        WallHull([])
    with pytest.raises(ValueError, match="no wall"):
        best_slope([])
