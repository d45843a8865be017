"""The front line against a linear programme, scipy's `linprog` (oracle), and against x^2 on [0, 1] (first principles)."""

import random
from itertools import pairwise

import numpy as np
import pytest
from scipy.optimize import linprog

from oddleg.plan.minimax import WallHull, best_slope

EQUAL_MM = 1e-6


def random_wall(chance):
    """2 to 40 readings over up to 6 m: noise, a lean, sometimes a bulge, sometimes two heights at one x."""
    length_mm, lean, bulge_mm = chance.uniform(300, 6000), chance.uniform(-0.01, 0.01), chance.choice((0, 0, -15, 20))
    xs = [chance.uniform(0, length_mm) for _ in range(chance.randint(2, 40))]
    xs += chance.sample(xs, len(xs) // 3)
    return [(x, lean * x + bulge_mm * (x / length_mm) ** 2 + chance.gauss(0, 4)) for x in xs]


def least_greatest_waste(walls, sum_within=None):
    """Back of each wall's line, one slope for all, and the greatest waste t (or, with t at most `sum_within`, the sum of
    the wastes): back + (slope + offset) x >= y everywhere, and no more than its wall's waste over it. x in metres, so
    that the programme is well scaled."""
    n = len(walls)
    rows, limits = [], []
    for number, (points, offset) in enumerate(walls):
        for x, y in points:
            out = y - offset * x
            keeps, wastes = np.zeros(2 * n + 2), np.zeros(2 * n + 2)
            keeps[number], keeps[n] = -1.0, -x / 1000
            wastes[number], wastes[n], wastes[n + 1 + number] = 1.0, x / 1000, -1.0
            rows += [keeps, wastes]
            limits += [-out, out]
        worst = np.zeros(2 * n + 2)
        worst[n + 1 + number], worst[2 * n + 1] = 1.0, -1.0
        rows.append(worst)
        limits.append(0.0)
    cost = np.zeros(2 * n + 2)
    bounds = [(None, None)] * (2 * n + 2)
    if sum_within is None:
        cost[2 * n + 1] = 1.0
    else:
        cost[n + 1 : 2 * n + 1] = 1.0
        bounds[2 * n + 1] = (None, sum_within)
    answer = linprog(cost, A_ub=np.array(rows), b_ub=np.array(limits), bounds=bounds)
    assert answer.status == 0
    return answer.fun


def test_a_free_wall_wastes_what_a_linear_programme_finds_on_a_thousand_walls():
    chance = random.Random(7)
    for _ in range(1000):
        points = random_wall(chance)
        hull = WallHull(points)
        slope = best_slope([(hull, 0.0)])
        assert hull.waste_mm(slope) == pytest.approx(least_greatest_waste([(points, 0.0)]), abs=EQUAL_MM)
        back_mm = hull.back_mm(slope)
        assert all(back_mm + slope * x >= y - 1e-9 for x, y in points)


def test_walls_that_meet_in_a_corner_waste_what_a_linear_programme_finds():
    chance = random.Random(8)
    for _ in range(200):
        walls = [(random_wall(chance), chance.uniform(-0.006, 0.006)) for _ in range(chance.choice((2, 2, 3)))]
        hulls = [(WallHull(points), offset) for points, offset in walls]
        slope = best_slope(hulls)
        wastes = [hull.waste_mm(slope + offset) for hull, offset in hulls]
        greatest = least_greatest_waste(walls)
        assert max(wastes) == pytest.approx(greatest, abs=EQUAL_MM)
        # So little more for the worst of them buys nothing for the sum that could be seen here.
        assert sum(wastes) == pytest.approx(least_greatest_waste(walls, greatest + 1e-9), abs=EQUAL_MM)


CURVE = [(i / 1000, (i / 1000) ** 2) for i in range(1001)]


def test_before_a_wall_x_squared_the_one_sided_line_is_the_chord_and_wastes_a_quarter_in_the_middle():
    # x - x^2 is greatest at 1/2: 1/4. First principles.
    hull = WallHull(CURVE)
    slope = best_slope([(hull, 0.0)])
    assert (slope, hull.back_mm(slope), hull.waste_mm(slope)) == pytest.approx((1.0, 0.0, 1 / 4), abs=1e-9)
    void = [(hull.back_mm(slope) + slope * x - y, x) for x, y in CURVE]
    assert max(void) == pytest.approx((1 / 4, 1 / 2))
    assert [x for left, x in void if left < 1e-9] == [0.0, 1.0]


def test_the_two_sided_line_of_x_squared_is_x_less_an_eighth():
    # Three points that lie 1/8 off with alternating sign, at 0, 1/2, 1, prove it (first principles); the one-sided
    # line moved back by half its waste.
    hull = WallHull(CURVE)
    slope = best_slope([(hull, 0.0)])
    middle = hull.back_mm(slope) - hull.waste_mm(slope) / 2
    assert (middle, slope) == pytest.approx((-1 / 8, 1.0), abs=1e-9)
    off = [y - (middle + slope * x) for x, y in (CURVE[0], CURVE[500], CURVE[1000])]
    assert off == pytest.approx([1 / 8, -1 / 8, 1 / 8], abs=1e-9)
    assert all(before * after < 0 for before, after in pairwise(off))


def test_a_void_of_10_to_15_takes_up_an_ordinary_wall_of_4_metres():
    # Common practice, a fact of the trade. What an ordinary wall is, is ours to say: DIN 18202 table 3 row 6 allows a
    # finished wall 10 under 4 m (by way of a trade handbook, secondary). A wall that hollows or bulges that much leaves
    # no more than that over the line, so a void of 10 to 15 keeps pipes clear and hides it.
    for bow_mm in (10.0, -10.0):
        points = [(x, bow_mm * (1 - ((x - 2000) / 2000) ** 2)) for x in range(0, 4001, 200)]
        hull = WallHull(points)
        waste_mm = hull.waste_mm(best_slope([(hull, 0.0)]))
        assert waste_mm == pytest.approx(10.0)
        assert waste_mm <= 15.0
