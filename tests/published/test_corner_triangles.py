"""The corner's triangle against what needs no law of cosines: Euclid's whole-number right triangles, angles of points in
the plane by numpy, and derivatives taken numerically. And the first-principles values of a corner that is open or closed.
"""

import math

import numpy as np
import pytest

from oddleg.job import CornerTriangle
from oddleg.plan.triangle import measured_angle


def of(a, b, c, tape_mm=1.0):
    return measured_angle(CornerTriangle("left", "right", a, b, c), tape_mm)


@pytest.mark.parametrize(("m", "n"), [(2, 1), (3, 2), (4, 1), (4, 3), (5, 2), (7, 4)])
def test_euclids_right_triangles_are_square(m, n):
    """Euclid's formula, from memory: m2 - n2, 2mn and m2 + n2 are the sides of a right triangle; 3, 4, 5 is the first."""
    a, b, c = 200.0 * (m * m - n * n), 200.0 * 2 * m * n, 200.0 * (m * m + n * n)
    assert of(a, b, c).deg == pytest.approx(90.0, abs=1e-10)


def test_the_angle_is_that_of_points_in_the_plane():
    rng = np.random.default_rng(8)
    for _ in range(200):
        a, b = rng.uniform(400, 6000, size=2)
        angle = math.radians(rng.uniform(80, 100))
        one, two = np.array([a, 0.0]), np.array([b * np.cos(angle), b * np.sin(angle)])
        found = of(a, b, float(np.linalg.norm(one - two)))
        assert math.radians(found.deg) == pytest.approx(float(np.arctan2(two[1], two[0])), abs=1e-9)


def test_give_or_take_is_what_each_side_does_by_itself():
    """Central differences of 0.001 mm, put together as independent."""
    rng = np.random.default_rng(9)
    for _ in range(100):
        sides = rng.uniform(500, 5000, size=2).tolist()
        angle = math.radians(rng.uniform(82, 98))
        sides.append(math.sqrt(sides[0] ** 2 + sides[1] ** 2 - 2 * sides[0] * sides[1] * math.cos(angle)))
        by_side = []
        for i in range(3):
            up, down = ([mm + (step if k == i else 0.0) for k, mm in enumerate(sides)] for step in (1e-3, -1e-3))
            by_side.append((of(*up).cos - of(*down).cos) / 2e-3)
        found = of(*sides, tape_mm=1.5)
        assert found.give_or_take == pytest.approx(1.5 * math.hypot(*by_side), rel=1e-5)
        assert found.per_diagonal == pytest.approx(-by_side[2], rel=1e-5)


def test_first_principles_of_an_open_and_a_closed_corner():
    """3000, 4000 and 5005: 25.050025 - 25 = 0.050025 of 24 is 0.0020844; 4990: 0.0999 of 24 is 0.0041625."""
    opened, closed = of(3000, 4000, 5005), of(3000, 4000, 4990)
    assert opened.deg == pytest.approx(90.1194, abs=5e-5) and 4000 * opened.cos == pytest.approx(-8.3375, abs=1e-9)
    assert closed.deg == pytest.approx(89.7615, abs=5e-5) and 4000 * closed.cos == pytest.approx(16.65, abs=1e-9)


def test_first_principles_of_one_in_the_diagonal():
    """4000 x 5000 / (3000 x 4000) = 1.67; 4000 x 1000 / (600 x 800) = 8.33."""
    assert 4000 * of(3000, 4000, 5000).per_diagonal == pytest.approx(5 / 3)
    assert 4000 * of(600, 800, 1000).per_diagonal == pytest.approx(25 / 3)
