"""What stands across a corner: where the lines of backs cross, and the void behind what is there."""

from dataclasses import replace

import corner_rooms as here
import numpy as np
import pytest

from oddleg.job import EndsAt, Handing, RunEnd, Storey, WallHeight
from oddleg.plan.corner_arms import arms, crossed_at, void_behind

BATTEN, UNITS = WallHeight.BATTEN, WallHeight.WALL_UNITS
HUNG = replace(here.unit("hung", 600.0, depth_mm=320.0), storey=Storey.WALL)
LEFT, RIGHT = here.runs([here.unit("a", 1000.0, Handing.LEFT), HUNG], [here.post(60.0), here.drawers("b", 600.0), replace(HUNG, id="up")])
ROOM = here.room(LEFT, RIGHT)


def arm_of(walls=(), run="side", room=ROOM):
    _, rods, lines = here.set_out(room, walls)
    return next(own for own, _ in arms(room, rods) if own.run.id == run), lines


def void(walls=(), hangs=False, deep_mm=560.0, run="side"):
    arm, lines = arm_of(walls, run)
    return void_behind(arm, deep_mm, hangs, walls, lines)


def test_where_no_wall_is_read_the_lines_own_void_counts():
    assert void() == (pytest.approx(15.0), None) and void(hangs=True) == (pytest.approx(15.0), None)


def test_the_least_void_within_the_depth_of_the_corner_counts_and_no_other():
    """The wall read at five places, straight between them: the least of line less wall, looked for at every mm."""
    points = ((-575.0, 0.0), (0.0, 0.0), (300.0, 3.0), (2000.0, 8.0), (3000.0, 0.0))
    wall = here.wall(RIGHT, points)
    arm, lines = arm_of((wall,))
    line = lines["side"][0]
    at = np.arange(arm.from_mm, arm.from_mm + 900.0 + 0.5) + line.zero_mm
    least = min(line.back_at(x) - np.interp(x, *zip(*points, strict=True)) for x in at)
    found, height = void((wall,), deep_mm=900.0)
    assert found == pytest.approx(least, abs=0.01) and height is BATTEN
    # The line keeps its 15 behind the units only; in the corner itself, where none of them stands, there is less.
    assert line.least_void.mm == pytest.approx(15.0) and found < 15.0


def test_what_hangs_goes_by_wall_unit_height():
    """FP: the wall 9 back up there: 15 and 9; what stands goes by its own."""
    low = here.wall(RIGHT, ((-575.0, 0.0), (3000.0, 0.0)))
    high = here.wall(RIGHT, ((-575.0, -9.0), (3000.0, -9.0)), height=UNITS)
    both = replace(low, spots=(*low.spots, *high.spots))
    assert void((both,), hangs=True) == (pytest.approx(15 + 9), UNITS) and void((both,)) == (pytest.approx(15.0), BATTEN)


@pytest.mark.parametrize(("from_mm", "read"), [(500.0, True), (700.0, False)])
def test_a_wall_counts_as_read_600_past_its_last_reading(from_mm, read):
    """The corner lies at -560 of the side run, 560 deep: to the zero; read from 500 on it counts, from 700 on it does not."""
    wall = here.wall(RIGHT, ((from_mm, 0.0), (3000.0, 0.0)))
    assert (void((wall,))[1] is BATTEN) is read


def test_lines_cross_where_the_rods_say_and_where_the_room_does():
    """FP: the window run ends at the side run's backs, 15 off 4000; the side run begins 560 from them."""
    _, rods, _ = here.set_out(ROOM)
    by_id = {rod.run.id: rod for rod in rods}
    assert crossed_at(by_id["window"], by_id["side"], "right") == pytest.approx((3985.0, 3985.0))
    assert crossed_at(by_id["side"], by_id["window"], "left") == pytest.approx((-560.0, -560.0))


def test_a_run_whose_end_nobody_knows_crosses_at_no_mark_and_one_off_square_nowhere():
    unknown = here.room(replace(LEFT, opening_mm=None, anchor=None), RIGHT)
    rods = {rod.run.id: rod for rod in here.set_out(unknown)[1]}
    assert crossed_at(rods["window"], rods["side"], "right") is None
    turned = here.room(LEFT, replace(RIGHT, bearing_deg=45.0))
    rods = {rod.run.id: rod for rod in here.set_out(turned)[1]}
    assert crossed_at(rods["window"], rods["side"], "right") is None and list(arms(turned, tuple(rods.values()))) == []


def test_both_ways_round_and_only_of_runs_that_have_rods():
    _, rods, _ = here.set_out(ROOM)
    assert [(own.run.id, own.side, across.run.id) for own, across in arms(ROOM, rods)] == [("window", "right", "side"), ("side", "left", "window")]
    assert list(arms(ROOM, rods[:1])) == []
    alone = here.room(replace(LEFT, right_end=RunEnd(EndsAt.WALL)), replace(RIGHT, left_end=RunEnd(EndsAt.OPEN)))
    assert list(arms(alone, here.set_out(alone)[1])) == []
