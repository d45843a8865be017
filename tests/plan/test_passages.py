"""Holes through sides between two items (trap 47): a waste, a supply, a plug from a bay to the cupboard beside it."""

from __future__ import annotations

import pytest
import sample_room
from service_rooms import bay, finding, passage, rules, run, services, unit, wall_unit

from oddleg.job import BackIs, Box, Compartment, EndPanel, FittingOut, Gap
from oddleg.plan.boards import boards
from oddleg.plan.carcass_box import carcass_box
from oddleg.plan.hardware import Hardware
from oddleg.plan.passage_holes import passage_holes

TWO = FittingOut((Compartment("one", "one"), Compartment("two", "two")))


def panels(found):
    (one,) = found.passages
    return list(one.panels)


def test_neighbours_are_joined_through_the_two_sides_that_meet():
    found = services(run(unit("a"), unit("b"), passages=(passage("a", "b"),)))
    assert panels(found) == [("a", "right_side"), ("b", "left_side")] and rules(found) == []


def test_a_plug_goes_from_a_bay_through_one_side():
    found = services(run(unit("a"), bay("bay"), unit("b"), passages=(passage("bay", "b"),)))
    assert panels(found) == [("b", "left_side")]


def test_what_stands_between_is_gone_through_whole_dividers_too():
    between = (unit("a"), unit("b", fitting_out=TWO), Gap("gap", "gap", 30.0), unit("c"))
    found = services(run(*between, passages=(passage("c", "a"),)))
    assert panels(found) == [
        ("a", "right_side"),
        ("b", "left_side"),
        ("b", "divider-1"),
        ("b", "right_side"),
        ("c", "left_side"),
    ]


def test_it_meets_in_both_sides_where_a_back_is_on_the_one_and_between_the_other():
    """Backs stand in one line. 80 before their outside and 300 below the datum: 560 - 80 = 480 in from the front on both,
    though the side that a back of 8 is fixed on is only 552 deep; 720 - 300 = 420 up."""
    on, between = unit("on", box=Box(board_mm=18.0, back_mm=8.0, back=BackIs.ON)), unit("between")
    a_run = run(on, between, passages=(passage("on", "between"),))
    drilled = []
    for item in (on, between):
        box = carcass_box(item)
        made = {one.id: one for one in boards(box, Hardware({}), ())}
        drilled += passage_holes(sample_room.job(sample_room.room(a_run)), box, services(a_run).passages, made)
    assert [(id, hole.u_mm, hole.v_mm) for id, hole in drilled] == [
        ("right_side", 480.0, 420.0),
        ("left_side", 480.0, 420.0),
    ]


def test_a_panel_between_is_told_since_it_is_drilled_too():
    found = services(run(unit("a"), EndPanel("panel", "panel", 18.0, 560.0), unit("b"), passages=(passage("a", "b"),)))
    assert "panel" in finding(found, "service.passage_through_panel").wrong


@pytest.mark.parametrize("to", ["nobody", "glasses"])
def test_to_what_does_not_stand_in_the_run_is_a_stop(to):
    found = services(run(unit("a"), wall_unit("glasses"), passages=(passage("a", to),)))
    assert panels(found) == [] and finding(found, "service.passage_of_nothing").severity.value == "stop"


@pytest.mark.parametrize(
    ("below_mm", "from_back_mm", "goes"),
    [(48.0, 80.0, True), (47.0, 80.0, False), (672.0, 80.0, True), (673.0, 80.0, False), (300.0, 29.0, False)],
)
def test_it_goes_from_inside_to_inside(below_mm, from_back_mm, goes):
    """FP: 60 across under an 18 top: 18 + 30 = 48 down at least, 720 - 18 - 30 = 672 at most; 30 from the edge."""
    found = services(
        run(unit("a"), unit("b"), passages=(passage("a", "b", below_top_mm=below_mm, from_back_mm=from_back_mm),))
    )
    assert ("service.passage_outside" not in rules(found)) is goes
