"""Outlines of cut-outs and what of a line lies within an area, by first principles."""

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from oddleg.drawings.lettering import Area
from oddleg.drawings.outlines import arc, cut_outline, within
from oddleg.plan.fitted_out import CutOut


def cut(width_mm=200.0, height_mm=100.0, radius_mm=0.0, round=False, open_to=()):
    return CutOut("c", 50.0, 30.0, width_mm, height_mm, radius_mm, round, open_to, (), "socket")


def enclosed_mm2(points):
    """Gauss's area formula."""
    pairs = zip(points, (*points[1:], points[0]), strict=True)
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs) / 2


def test_a_square_cut_out_has_four_corners():
    assert cut_outline(cut()) == ((50.0, 30.0), (250.0, 30.0), (250.0, 130.0), (50.0, 130.0))


def test_round_corners_take_away_what_a_circle_lacks_of_its_square():
    # Four corners: (4 - pi) r^2.
    assert enclosed_mm2(cut_outline(cut(radius_mm=10.0))) == pytest.approx(200 * 100 - (4 - math.pi) * 100, abs=0.1)
    # A corner at an open edge stays square: half of that.
    open_foot = enclosed_mm2(cut_outline(cut(radius_mm=10.0, open_to=("bottom",))))
    assert open_foot == pytest.approx(200 * 100 - (4 - math.pi) * 50, abs=0.1)


def test_a_round_cut_out_is_a_circle():
    points = cut_outline(cut(125.0, 125.0, round=True))
    assert all(math.dist(one, (112.5, 92.5)) == pytest.approx(62.5, abs=1e-9) for one in points)
    assert enclosed_mm2(points) == pytest.approx(math.pi * 62.5**2, rel=1e-4)


def test_chords_keep_to_their_arc():
    # The middle of a chord lies r (1 - cos(half its angle)) inside: 90 chords a quarter, so half a degree each.
    points = arc((0.0, 0.0), 62.5, 0.0, 90.0)
    middles = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in pairwise(points)]
    off_mm = 62.5 * (1 - math.cos(math.radians(0.5)))
    assert off_mm < 0.0025
    assert all(62.5 - math.hypot(*one) == pytest.approx(off_mm, abs=1e-9) for one in middles)


AREA = Area(0.0, 0.0, 100.0, 60.0)


@pytest.mark.parametrize(
    ("points", "kept"),
    [
        ([(-50.0, 30.0), (150.0, 30.0)], [[(0.0, 30.0), (100.0, 30.0)]]),
        ([(10.0, 10.0), (20.0, 20.0)], [[(10.0, 10.0), (20.0, 20.0)]]),
        ([(-10.0, 70.0), (110.0, 70.0)], []),
        # A slope of 1 enters at (0, 10) and leaves at (50, 60).
        ([(-10.0, 0.0), (90.0, 100.0)], [[(0.0, 10.0), (50.0, 60.0)]]),
        # Out and in again: two pieces.
        ([(50.0, 30.0), (150.0, 30.0), (150.0, 40.0), (50.0, 40.0)], [[(50.0, 30.0), (100.0, 30.0)], [(100.0, 40.0), (50.0, 40.0)]]),
    ],
)  # fmt: skip
def test_what_lies_in_an_area_is_kept(points, kept):
    assert within(points, AREA) == kept


coordinate = st.floats(-200.0, 300.0, allow_nan=False)


@settings(derandomize=True, deadline=None, max_examples=200)
@given(st.lists(st.tuples(coordinate, coordinate), min_size=2, max_size=5))
def test_every_piece_lies_in_the_area_and_on_the_line(points):
    for piece in within(points, AREA):
        for x, y in piece:
            assert -1e-6 <= x <= 100.0 + 1e-6 and -1e-6 <= y <= 60.0 + 1e-6
        # As long as it is sampled to be.
    length_mm = sum(math.dist(a, b) for piece in within(points, AREA) for a, b in pairwise(piece))
    sampled_mm = 0.0
    for a, b in pairwise(points):
        steps = 400
        inside = sum(
            0.0 <= a[0] + (b[0] - a[0]) * (i + 0.5) / steps <= 100.0
            and 0.0 <= a[1] + (b[1] - a[1]) * (i + 0.5) / steps <= 60.0
            for i in range(steps)
        )
        sampled_mm += math.dist(a, b) * inside / steps
    longest_mm = max(math.dist(a, b) for a, b in pairwise(points))
    assert length_mm == pytest.approx(sampled_mm, abs=len(points) * (2 * longest_mm / 400 + 1e-6))
