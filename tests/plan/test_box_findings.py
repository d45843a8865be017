"""Boxes that leave no inside, and compartments that do not fill one. First principles."""

import pytest
from hardware_rows import carcass, compartment, known, member, stack
from sample_room import job, room, run

from oddleg.job import BackIs, Box, FittingOut, OpenUnit, TopIs
from oddleg.plan.carcass_box import carcass_box
from oddleg.plan.front_stacks import filled


def told(*compartments, item=None, **more):
    item = item or carcass("b60", *compartments, **more)
    found = filled(job(room(run(item))), carcass_box(item), known())
    return {one.rule: one for one in found.findings if one.severity.value == "stop"}


def test_a_usual_carcass_is_not_told():
    assert told(compartment()) == {} == told(compartment("a"), compartment("b", width_mm=200.0))


@pytest.mark.parametrize(
    ("rule", "by_mm", "more"),
    [
        ("box.no_inside_width", 36 - 30, {"width_mm": 30.0}),
        ("box.no_inside_width", 0, {"width_mm": 36.0}),
        ("box.no_inside_height", 36 - 20, {"height_mm": 20.0}),
        ("box.no_inside_depth", 8 + 50 - 40, {"depth_mm": 40.0, "box": Box(back_recess_mm=50.0)}),
        ("box.rails_meet", 2 * 300 - (560 - 8), {"box": Box(top=TopIs.RAILS, rail_mm=300.0)}),
        ("box.groove_through", 20 - 18, {"box": Box(back=BackIs.GROOVE, groove_mm=20.0)}),
    ],
)
def test_a_box_that_cannot_be_made_is_a_stop_with_what_is_missing(rule, by_mm, more):
    found = told(compartment(), **more)
    assert set(found) == {rule} and found[rule].amount.mm == pytest.approx(by_mm)


def test_a_recess_does_not_count_where_the_back_is_on_the_rear_edges():
    assert told(compartment(), depth_mm=40.0, box=Box(back=BackIs.ON, back_recess_mm=50.0)) == {}


def test_compartments_wider_than_the_inside_say_by_how_much():
    """300 + 18 + 300 = 618 in 564."""
    found = told(compartment("a", width_mm=300.0), compartment("b", width_mm=300.0))["box.compartments_too_wide"]
    assert found.amount.mm == 618 - 564 and "54 too much" in found.wrong


def test_compartments_narrower_than_the_inside_say_so_too():
    found = told(compartment("a", width_mm=200.0), compartment("b", width_mm=300.0))["box.compartments_do_not_fill"]
    assert found.amount.mm == 564 - 518 and "46 too little" in found.wrong


def test_a_compartment_that_nothing_is_left_for_is_named():
    found = told(compartment("a", width_mm=600.0), compartment("narrow"))["box.compartments_too_wide"]
    assert "leave nothing for narrow" in found.wrong


def test_a_width_of_nought_or_less_is_told():
    assert set(told(compartment("a", width_mm=-5.0), compartment("b"))) == {"box.compartment_width"}


def test_dividers_thicker_than_the_inside_are_told():
    item = carcass("b60", fitting_out=FittingOut((compartment("a"), compartment("b")), divider_mm=600.0))
    assert "box.compartments_too_wide" in told(item=item)


def test_an_open_unit_with_a_stack_is_a_stop_and_has_no_fronts():
    fitted = FittingOut((compartment(stack=stack(member())),))
    item = OpenUnit("o60", "shelves", 600.0, 720.0, 560.0, fitting_out=fitted)
    found = filled(job(room(run(item))), carcass_box(item), known())
    assert found.fronts == () and found.stacks == ()
    assert [(one.rule, one.severity.value) for one in found.findings] == [("stack.open_unit", "stop")]
