"""Runs that meet in a corner: where their lines cross, at which angle as drawn, and where a run goes on past another."""

from dataclasses import replace

import corner_rooms as here
import pytest
import sample_room as sample

from oddleg.job import EndsAt, Filler, Gap, Handing, RunEnd, Storey
from oddleg.plan.axes import to_room
from oddleg.plan.meeting_runs import Arm, crossing, drawn_angle_deg, level_with, meetings, names_at
from oddleg.plan.rod import placed_items
from oddleg.plan.rotation import off_square_deg

LEFT, RIGHT = here.runs([here.unit("a", 1000.0, Handing.LEFT)], [here.drawers("b", 600.0)])


@pytest.mark.parametrize("bearing_deg", [90.0, 60.0, 135.0, -90.0, 30.0])
@pytest.mark.parametrize("turned_deg", [0.0, 40.0, 200.0])
def test_the_lines_cross_at_one_spot_of_the_room_told_in_both_axes(bearing_deg, turned_deg):
    one = replace(LEFT, x_mm=300.0, y_mm=-200.0, bearing_deg=turned_deg)
    other = replace(RIGHT, x_mm=2500.0, y_mm=900.0, bearing_deg=turned_deg + bearing_deg)
    x_mm, other_x_mm = crossing(one, other, 15.0, 40.0)
    spot, same = to_room(one, x_mm, 15.0), to_room(other, other_x_mm, 40.0)
    assert (spot.x_mm, spot.y_mm) == pytest.approx((same.x_mm, same.y_mm))


def test_lines_that_hardly_turn_do_not_cross():
    assert crossing(LEFT, replace(RIGHT, bearing_deg=180.0)) is None and crossing(LEFT, replace(RIGHT, bearing_deg=0.5)) is None


@pytest.mark.parametrize(("bearing_deg", "angle_deg", "square"), [(90.0, 90.0, True), (45.0, 135.0, False), (135.0, 45.0, False), (-90.0, 270.0, False)])
def test_the_angle_as_drawn_is_that_between_the_walls(bearing_deg, angle_deg, square):
    """A square inside corner turns the wall to the right of you by 90; an outside one has 270 between its walls."""
    right = replace(RIGHT, bearing_deg=bearing_deg)
    assert drawn_angle_deg(LEFT, right) == angle_deg
    (meeting,) = meetings(here.room(LEFT, right))
    assert meeting.square is square


@pytest.mark.parametrize(("angle_deg", "off_deg"), [(90.0, 0.0), (91.5, 1.5), (-91.5, -1.5), (130.0, -5.0), (0.0, 0.0), (22.0, 22.0), (23.0, -22.0), (359.0, -1.0)])
def test_what_an_angle_is_off_the_nearest_of_the_eighths_of_a_turn(angle_deg, off_deg):
    assert off_square_deg(angle_deg) == pytest.approx(off_deg)


def test_each_end_names_its_own_run():
    both = replace(LEFT, left_end=RunEnd(EndsAt.OTHER_FRONTS, "west"))
    assert (names_at(both, "left"), names_at(both, "right")) == ("west", "side")
    assert names_at(replace(both, left_end=RunEnd(EndsAt.WALL)), "left") is None


def test_a_run_that_goes_on_past_one_that_names_it_makes_no_corner_and_at_either_hand():
    """The window run names nobody: up to 4000 it ends at the side run, up to 4600 it goes on past it."""
    unnamed = replace(LEFT, right_end=RunEnd(EndsAt.OPEN), anchor=None)
    for last_mm, corners in ((3000.0, 1), (3600.0, 0)):
        long = replace(unnamed, items=(sample.carcass("l", 1000.0), sample.carcass("m", last_mm)))
        assert len(meetings(here.room(long, RIGHT))) == corners
    # At the other hand: the side run names nobody, and units stand to the left of where the window run meets it.
    side = replace(RIGHT, left_end=RunEnd(EndsAt.OPEN), y_mm=0.0)
    for y_mm, corners in ((0.0, 1), (-600.0, 0)):
        assert len(meetings(here.room(LEFT, replace(side, y_mm=y_mm, items=(here.drawers("b", 1200.0),))))) == corners


def test_seen_from_the_corner_items_come_nearest_first():
    """FP: the corner at 4000: 600 up to 3990 is 10 to 610 away; from the left end of another at 100, 50 to 650."""
    units = (sample.carcass("far", 600.0), sample.carcass("near", 600.0))
    run = replace(LEFT, items=units, anchor=None)
    row = tuple(replace(one, left_mm=one.left_mm + 2790.0, right_mm=one.right_mm + 2790.0) for one in placed_items(run))
    arm = Arm(run, row, "right", 4000.0)
    assert [one.item.id for one in arm.row(hangs=False)] == ["near", "far"] and arm.row(hangs=True) == []
    assert [arm.near_far_mm(one) for one in arm.row(hangs=False)] == [(10.0, 610.0), (610.0, 1210.0)]
    left = Arm(run, row, "left", 2740.0)
    assert [left.near_far_mm(one) for one in left.row(hangs=False)] == [(50.0, 650.0), (650.0, 1250.0)]


def test_fronts_lie_out_of_the_line_of_backs_by_the_depth_and_the_deepest_that_stands_counts():
    """FP: 560 and 600 deep, whatever the void; what hangs and what has no depth count for nothing."""
    items = (sample.carcass("a"), sample.carcass("b", depth_mm=600.0), Filler("f", "f", 50.0, 20.0, 100.0), Gap("g", "g", 10.0),
             sample.carcass("up", depth_mm=700.0, storey=Storey.WALL, legs=None))  # fmt: skip
    run = replace(LEFT, items=items, void_mm=33.0, anchor=None)
    arm = Arm(run, placed_items(run), "right", 4000.0)
    assert arm.deepest_mm() == 600.0
    assert [arm.front_mm(one) for one in arm.placed] == [560.0, 600.0, None, None, 700.0]
    assert Arm(run, (), "right", 4000.0).deepest_mm() == 0.0


def test_what_stands_low_and_what_hangs_have_no_height_in_common():
    base, tall, up = (sample.carcass(id, storey=storey) for id, storey in (("b", Storey.BASE), ("t", Storey.TALL), ("w", Storey.WALL)))
    assert not level_with(base, up) and level_with(tall, base) and level_with(tall, up) and level_with(up, up) and level_with(base, base)
