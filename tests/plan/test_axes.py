"""Run axes to room axes and back: an L with its corner at either hand, against coordinates written out by hand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from oddleg.job import Point, Run
from oddleg.plan.axes import to_room, to_run


def run(x_mm, y_mm, bearing_deg):
    return Run("run", "Run", x_mm, y_mm, bearing_deg)


def test_along_the_wall_at_the_top_of_the_page_x_goes_right_and_y_comes_down_to_you():
    assert to_room(run(100, 0, 0), 400, 560) == Point(500, 560)


def test_an_l_with_its_corner_at_the_right_hand_turns_clockwise():
    # Facing the right-hand wall of a room 5400 wide, your right hand points down the page and the wall is behind y.
    assert to_room(run(5400, 600, 90), 300, 560) == Point(5400 - 560, 600 + 300)


def test_an_l_with_its_corner_at_the_left_hand_ends_at_the_corner():
    # Facing the left-hand wall, your right hand points up the page: the run's zero is at its far end from the corner.
    assert to_room(run(0, 3000, 270), 300, 560) == Point(560, 3000 - 300)


def test_facing_the_wall_at_the_bottom_everything_is_turned_half_round():
    assert to_room(run(5400, 4000, 180), 400, 560) == Point(5000, 3440)


@given(*(st.floats(-1e4, 1e4) for _ in range(4)), st.floats(-720, 720))
def test_there_and_back_again_is_the_same_place(x_mm, y_mm, along_mm, out_mm, bearing_deg):
    there = to_room(run(x_mm, y_mm, bearing_deg), along_mm, out_mm)
    assert to_run(run(x_mm, y_mm, bearing_deg), there) == pytest.approx((along_mm, out_mm), abs=1e-8)
