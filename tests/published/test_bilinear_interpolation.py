"""Interpolation in a rectangle, against a published worked example of bilinear interpolation.

Source: stellingconsulting.nl, bilinear interpolation: corners (400, 60) 149, (500, 60) 163, (400, 80) 169, (500, 80)
187; at (451, 75) 172.67.
"""

import numpy as np
import pytest

from oddleg.job import Tolerances
from oddleg.plan.surfaces import Spot, Surface

# The example's axes are no millimetres: stretched tenfold here, so that the corners stand as stations do.
CORNERS = [(4000, 600, 149), (5000, 600, 163), (4000, 800, 169), (5000, 800, 187)]
# Bilinear is a + b u + c v + twist u v; ours is the mean of both diagonals' planes. First principles: they differ by at
# most twist / 16 (at the quarters of a diagonal), and by nothing on the sides and in the middle.
TWIST = 149 - 163 - 169 + 187


def floor():
    spots = [Spot(str(n), str(n), x, y, z) for n, (x, y, z) in enumerate(CORNERS)]
    return Surface(spots, np.zeros((4, 4)), (), (), Tolerances())


def bilinear(x, y):
    u, v = (x - 4000) / 1000, (y - 600) / 200
    return 149 * (1 - u) * (1 - v) + 163 * u * (1 - v) + 169 * (1 - u) * v + 187 * u * v


def test_the_example_is_met_within_the_two_rules_difference():
    assert bilinear(4510, 750) == pytest.approx(172.67, abs=0.005)
    assert floor().at(4510, 750).level_mm == pytest.approx(172.67, abs=TWIST / 16)


def test_everywhere_within_a_sixteenth_of_the_twist():
    found = floor()
    off = [
        found.at(x, y).level_mm - bilinear(x, y) for x in np.linspace(4000, 5000, 21) for y in np.linspace(600, 800, 21)
    ]
    assert max(map(abs, off)) == pytest.approx(TWIST / 16, rel=1e-6)


@pytest.mark.parametrize(("x", "y"), [(4510, 600), (4000, 750), (5000, 620), (4130, 800), (4500, 700)])
def test_on_the_sides_and_in_the_middle_it_is_the_bilinear_value(x, y):
    assert floor().at(x, y).level_mm == pytest.approx(bilinear(x, y), abs=1e-9)
