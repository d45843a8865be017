"""The wall at the end of a run: where it is nearest, at which heights it closes in, what stands out of it at either hand."""

from dataclasses import replace

import corner_rooms as here
import pytest

from oddleg.job import EndsAt, Feature, FeatureKind, OpeningDepth, RunEnd, Storey, WallHeight
from oddleg.plan.figure import figure
from oddleg.plan.rod import Placed
from oddleg.plan.side_walls import CLOSING, SideWall, at_height, side_wall
from oddleg.plan.wall import EndWall

FLOOR, BATTEN, WORKTOP, WALL_UNITS = WallHeight
BACK, FRONT = OpeningDepth
RUN, SIDE = here.runs([here.drawers("pans", 600.0)], [here.unit("door", 600.0)])
DRAWERS = Placed(RUN, RUN.items[0], 0.0, 600.0)


def wall(*gaps, out=()):
    """`gaps`: (height, depth, beyond)."""
    return SideWall("left", tuple(EndWall("left", height, depth, figure(mm), f"g{n}") for n, (height, depth, mm) in enumerate(gaps)), out)


def hung(one=DRAWERS):
    return replace(one, item=replace(one.item, storey=Storey.WALL))


def closing(of_wall, one=DRAWERS):
    return dict(of_wall.on_the_way(one, None)).get(CLOSING)


def test_the_front_counts_before_the_back_and_the_nearest_of_what_was_measured():
    assert wall((FLOOR, BACK, 3.0), (FLOOR, FRONT, 9.0), (WORKTOP, FRONT, 7.0)).beyond_mm(DRAWERS) == 7.0
    assert wall((FLOOR, BACK, 3.0), (WORKTOP, BACK, 5.0)).beyond_mm(DRAWERS) == 3.0
    assert wall().beyond_mm(DRAWERS) == 0.0


def test_what_was_measured_at_wall_units_is_for_wall_units_only():
    high = wall((WALL_UNITS, FRONT, 4.0), (BATTEN, FRONT, 9.0))
    assert (high.beyond_mm(DRAWERS), high.beyond_mm(hung())) == (9.0, 4.0)
    tall = replace(DRAWERS, item=replace(DRAWERS.item, storey=Storey.TALL))
    assert high.beyond_mm(tall) == 4.0


def test_a_wall_closes_in_by_what_its_back_and_front_say_at_one_height():
    """FP: 10 at the back, 0 along fronts 575 further out; a drawer comes 560 out."""
    assert closing(wall((BATTEN, BACK, 10.0), (BATTEN, FRONT, 0.0))) == pytest.approx(560 * 10 / 575)
    assert closing(wall((BATTEN, BACK, 10.0), (WORKTOP, FRONT, 0.0))) is None, "two heights say nothing together"
    assert closing(wall((BATTEN, BACK, 0.0), (BATTEN, FRONT, 10.0))) is None, "it opens"


def test_of_two_measured_alike_the_nearer_counts_and_of_two_heights_the_one_that_closes_more():
    twice = wall((BATTEN, BACK, 10.0), (BATTEN, BACK, 8.0), (BATTEN, FRONT, 3.0), (BATTEN, FRONT, 2.0))
    assert closing(twice) == pytest.approx(560 * (8 - 2) / 575)
    both = wall((BATTEN, BACK, 4.0), (BATTEN, FRONT, 0.0), (WORKTOP, BACK, 10.0), (WORKTOP, FRONT, 0.0))
    assert closing(both) == pytest.approx(560 * 10 / 575)


def test_what_lies_wholly_above_or_below_is_in_no_fronts_way():
    sill = Feature("sill", "sill", FeatureKind.SILL, 0.0, 100.0, 1000.0, 1030.0, 40.0)
    low = replace(sill, bottom_mm=0.0, top_mm=500.0)
    assert [at_height(DRAWERS, one, 870.0) for one in (sill, low)] == [False, True]
    assert [at_height(hung(), one, 870.0) for one in (sill, low)] == [True, False]
    assert at_height(DRAWERS, sill, None) and at_height(hung(), low, None)


PIPE = Feature("pipe", "boxed pipe", FeatureKind.OTHER, 700.0, 800.0, stands_out_mm=60.0)


def rods_of(of_room):
    _, rods, _ = here.set_out(of_room)
    return {rod.run.id: rod for rod in rods}


@pytest.mark.parametrize(("of_room", "side"), [(lambda room: room, "right"), (here.mirrored, "left")])
def test_what_stands_out_of_the_end_wall_is_found_at_either_hand(of_room, side):
    """On the side run's wall from 700 to 800 of its axes, that is from 575 + 700 out of the window wall; in the looking-glass
    as far out."""
    left = replace(RUN, right_end=RunEnd(EndsAt.WALL))
    room = of_room(here.room(left, replace(SIDE, features=(PIPE,))))
    found = side_wall(room, {}, rods_of(room)["window"], side)
    (one,) = found.out
    assert (one.feature.id, one.out_mm) == ("pipe", 60.0)
    assert (one.near_mm, one.far_mm) == pytest.approx((575 + 700, 575 + 800))
    other = side_wall(room, {}, rods_of(room)["window"], "left" if side == "right" else "right")
    assert other.out == ()


def test_a_reveal_and_a_run_far_from_the_end_are_not_on_the_way():
    left = replace(RUN, right_end=RunEnd(EndsAt.WALL))
    flush = here.room(left, replace(SIDE, features=(replace(PIPE, stands_out_mm=-60.0),)))
    assert side_wall(flush, {}, rods_of(flush)["window"], "right").out == ()
    far = here.room(left, replace(SIDE, features=(PIPE,), x_mm=4200.0))
    assert side_wall(far, {}, rods_of(far)["window"], "right").out == ()
