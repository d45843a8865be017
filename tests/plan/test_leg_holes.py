"""Holes for legs, brackets, pull-outs and passages: each where its piece of hardware will be. FP: first principles."""

from dataclasses import replace

import pytest
from panel_boxes import BOTTOM, BRACKET, LEFT, RIGHT, box, door, drilled, findings, part, places
from sample_room import run

from oddleg.job import (
    BackIs,
    BottomFit,
    Box,
    FittingOut,
    FrontIs,
    InnerPullOut,
    Legs,
    Passage,
    ServiceKind,
    Storey,
    Tolerances,
)
from oddleg.plan.fitted_out import Face, HoleFor
from oddleg.plan.legs import leg_places
from oddleg.plan.rod import placed_items
from oddleg.plan.room_services import PassageHole

ON_LEGS = FittingOut(leg="leg-150")
HUNG = {"storey": Storey.WALL, "legs": None, "fitting_out": FittingOut(bracket="bracket")}


def test_legs_are_drilled_in_the_underside_about_where_they_stand():
    """FP: inset 40 from the outside edge and 60 from the front; a bottom between sides of 18 starts 18 in: 40 - 18 = 22
    to the leg's middle; its screws 16 to either side."""
    bottom = drilled(box(fitting_out=ON_LEGS))[BOTTOM]
    assert {one.face for one in bottom.holes} == {Face.OTHER}
    front_left = [(one.u_mm, one.v_mm) for one in bottom.holes if one.of == "FL"]
    assert sorted(front_left) == [(22 - 16, 60 - 16), (22 - 16, 60 + 16), (22 + 16, 60 - 16), (22 + 16, 60 + 16)]
    back_right = [(one.u_mm, one.v_mm) for one in bottom.holes if one.of == "BR"]
    assert (600 - 40 - 18 + 16, 560 - 40 + 16) in back_right


def test_under_the_sides_the_bottom_starts_at_the_outside_edge():
    bottom = drilled(box(fitting_out=ON_LEGS, box=Box(bottom=BottomFit.UNDER_SIDES)))[BOTTOM]
    assert (40 - 16, 60 - 16) in places(bottom)


def test_legs_stand_where_the_bench_sheet_says():
    here = box(fitting_out=ON_LEGS, width_mm=1000.0, legs=Legs(100, 180, count=5), depth_mm=600.0)
    bench = {one.id: one for one in leg_places(placed_items(run(here.item, void_mm=30.0))[0], Tolerances())}
    bottom = drilled(here)[BOTTOM]
    for id, place in bench.items():
        at = [(one.u_mm, one.v_mm) for one in bottom.holes if one.of == id]
        # Middle of its four screws, from the carcass's left and front edge.
        assert sum(u for u, _ in at) / 4 + 18 == pytest.approx(place.x_mm)
        assert 30 + 600 - sum(v for _, v in at) / 4 == pytest.approx(place.y_mm)


def test_a_carcass_without_legs_has_no_holes_for_them():
    assert drilled(box(fitting_out=ON_LEGS, legs=None))[BOTTOM].holes == ()


def test_brackets_count_from_the_sides_top_and_back_edges():
    made = drilled(box(height_mm=600.0, depth_mm=320.0, box=Box(back_recess_mm=20.0), **HUNG))
    assert places(made[LEFT]) == places(made[RIGHT]) == [(320 - 20, 600 - 62), (320 - 20, 600 - 30)]


def test_a_bracket_needs_the_back_set_in_for_its_rail():
    """Its pegs 30 from the rear edge lie before a back of 8 set in by 15: 30 - 2.5 > 15 + 8."""
    before = replace(BRACKET, in_mm=(30.0, 30.0))
    found = findings(box(box=Box(back_recess_mm=10.0), **HUNG), rows=[before])
    assert [one.rule for one in found] == ["hole.bracket_recess"]
    assert found[0].amount.mm == BRACKET.least_recess_mm - 10
    assert findings(box(box=Box(back_recess_mm=15.0), **HUNG), rows=[before]) == ()


@pytest.mark.parametrize(
    ("recess_mm", "back", "groove_mm", "into_mm"),
    [
        (20.0, BackIs.BETWEEN, 0.0, 2.5),  # its back from 20 to 28 before the rear edge, the pegs from 17.5 to 22.5
        (15.0, BackIs.BETWEEN, 0.0, 3 + 2.5),  # from 15 to 23: 23 - 20 and half a peg
        (20.0, BackIs.GROOVE, 6.0, 2.5),
        (22.5, BackIs.BETWEEN, 0.0, None),  # behind the back, just clear of it
        (40.0, BackIs.BETWEEN, 0.0, None),
    ],
)
def test_a_brackets_pegs_that_meet_the_back_are_asked_about(recess_mm, back, groove_mm, into_mm):
    """FP: pegs of 5 whose middles lie 20 before the side's rear edge, a back of 8."""
    found = findings(box(box=Box(back_mm=8.0, back_recess_mm=recess_mm, back=back, groove_mm=groove_mm), **HUNG))
    if into_mm is None:
        assert found == ()
        return
    (said,) = found
    assert (said.rule, said.severity.value) == ("hole.bracket_in_back", "warn")
    assert said.amount.mm == pytest.approx(into_mm) and "notch the back" in said.cure


def frame_front(**more):
    return door("bins", None, front=FrontIs.PULL_OUT, pull_out="bins", hinge=None, plate=None, cups_mm=(), **more)


def test_a_frame_stands_in_the_middle_of_its_compartment_on_the_bottom():
    """FP: inside from 18 to 582, middle 300; 120 to either side, less the 18 at which the bottom starts."""
    made = drilled(box(), [frame_front()])
    assert places(made[BOTTOM]) == [(300 - 120 - 18, 37), (300 + 120 - 18, 37), (300 - 120 - 18, 437), (300 + 120 - 18, 437)]
    assert {one.face for one in made[BOTTOM].holes} == {Face.SHOWN}


def test_the_holes_in_its_front_meet_the_frame_and_not_the_fronts_own_middle():
    """FP: an end compartment from 18 to 300, middle 159; its front from 1.5 to 307.5: seen from behind the middle of the
    frame lies 307.5 - 159 from the left."""
    here = box(part("a", width_mm=282.0), part("b"))
    front = drilled(here, [frame_front(compartment="a", left_mm=1.5, width_mm=306.0, foot_mm=2.0)])["front-bins"]
    us = sorted({u for u, _ in places(front)})
    assert us == [307.5 - 159 - 100, 307.5 - 159 + 100]
    assert {v for _, v in places(front)} == {60, 92}


def test_a_frame_on_the_sides_has_the_same_holes_in_both_over_the_bottom():
    made = drilled(box(part("a", pull_outs=(InnerPullOut("p", "bins", "side-bins", 20.0),))), [door(compartment="a")])
    assert places(made[LEFT], HoleFor.PULL_OUT) == places(made[RIGHT]) == [(37, 18 + 46), (261, 18 + 46)]
    assert "on its spacer 20 thick" in made[RIGHT].holes[0].words


def test_behind_an_inset_door_an_inner_frame_goes_back_with_the_door():
    inner = part("a", pull_outs=(InnerPullOut("p", "bins", "side-bins"),))
    made = drilled(box(inner), [door(compartment="a", stands_mm=20.0)])
    assert [u for u, _ in places(made[RIGHT])] == [37 + 20, 261 + 20]


def passage(*panels, below_top_mm=250.0, **more):
    values = {"diameter_mm": 50.0, "from_back_mm": 60.0, **more}
    what = Passage("waste", "waste", ServiceKind.WASTE, "b60", "other", below_top_mm=below_top_mm, **values)
    return PassageHole("run-a", what, tuple(("b60", id) for id in panels))


def test_a_passage_counts_from_the_rear_edge_and_down_from_the_top():
    """FP: 560 - 60 back, 720 - 250 up; the same on both sides, since both are counted from the carcass."""
    made = drilled(box(), passages=[passage(LEFT, RIGHT)])
    assert places(made[LEFT]) == places(made[RIGHT]) == [(500, 470)]
    assert made[LEFT].holes[0].depth_mm is None


def test_in_a_tall_unit_a_passage_counts_from_the_base_carcasses_top():
    """FP: 720 base, 2000 tall, undersides in line: 250 below the base's top is 470 up both of them."""
    made = drilled(box(height_mm=2000.0, storey=Storey.TALL), passages=[passage(LEFT)])
    assert places(made[LEFT]) == [(500, 470)]


def test_a_passage_through_other_items_drills_nothing_here():
    other = PassageHole("run-a", passage().passage, (("else", LEFT),))
    assert drilled(box(), passages=[other])[LEFT].holes == ()
