"""Cut-outs in backs. FP: all figures are sums of the unit's own: 600 wide of 18 board, so the back is 600 - 36 = 564 wide
and 720 - 36 = 684 high; its lower edge lies 18 over the unit's underside, at 155 + 18 = 173 over the bench mark."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from service_rooms import BARE, one_unit, pipe, rules, run, services, socket, unit

from oddleg.job import BackIs, Box, CutOutRule
from oddleg.plan.back_cuts import Need, back_size_mm, cut_outs
from oddleg.plan.carcass_box import carcass_box

CLEAR = CutOutRule(clearance_mm=10.0, corner_radius_mm=10.0, apart_mm=30.0, least_edge_mm=30.0)


def one_cut(*points, **more):
    (found,) = one_unit(*points, **more).cuts
    return found


def test_the_left_edge_from_behind_is_the_width_less_what_lies_before_it():
    """Trap 46: 564 - (100 + 90) = 374."""
    cut = one_cut(socket(x_mm=18 + 100 + 90 / 2))
    assert (cut.from_left.text, cut.width.text, cut.from_behind.text, cut.from_right.text) == ("100", "90", "374", "374")


@pytest.mark.parametrize("floor_mm", [-14.0, 0.0, 9.0])
def test_a_cut_out_is_told_down_from_the_datum_whatever_the_floor_does(floor_mm):
    """Trap 46: a socket at 450 with the datum at 875 is 875 - 450 = 425 below the top; the tape from a floor at -14
    would say 464."""
    found = one_unit(socket(height_mm=90.0), floor_mm=floor_mm)
    (landing,) = found.landings
    assert landing.below_datum.text == "425"
    (cut,) = found.cuts
    assert cut.below_datum.text == "380" and cut.below_datum.mm == 425 - 90 / 2
    assert cut.from_foot.mm == (450 - 45) - 173 and cut.from_top.mm == 684 - 232 - 90


def test_the_clearance_goes_on_every_side_and_corners_are_round():
    cut = one_cut(socket(), rule=CLEAR)
    assert (cut.width.text, cut.height.text, cut.radius.text) == ("110", "110", "10")
    assert cut.from_left.mm == 300 - 18 - 45 - 10


def test_a_pipe_gets_a_round_hole_with_half_its_diameter_for_radius():
    cut = one_cut(pipe(across_mm=40.0), rule=CLEAR)
    assert cut.cut.round and cut.cut.radius_mm == (40 + 2 * 10) / 2 and cut.width.text == "60"


def test_a_bore_is_told_by_its_middle_from_all_four_edges_and_the_datum():
    """FP: a hole saw is set in the middle. x 300 is 300 - 18 = 282 from the left of 564, so 564 - 282 = 282 from the
    right and from behind; what is 425 below the datum lies 425 - 18 below the back's top edge in a carcass of 720."""
    cut = one_cut(pipe(across_mm=40.0))
    middle_mm = cut.cut.left_mm + cut.cut.width_mm / 2
    assert cut.from_left.mm == middle_mm and cut.from_right.mm == cut.from_behind.mm == 564 - middle_mm
    assert cut.from_foot.mm + cut.from_top.mm == 684
    assert cut.below_datum.mm == cut.from_top.mm + 18


def test_cut_outs_that_leave_less_than_the_least_between_them_are_one():
    """FP: edges at 200 and 225 leave 25, less than 30: one from 110 to 315. At 230 they stay two."""
    (one,) = one_unit(socket("a", x_mm=155.0), socket("b", x_mm=270.0)).cuts
    assert (one.cut.left_mm, one.cut.width_mm) == (110 - 18, 205) and one.cut.services == ("a", "b")
    assert "a and b" in one.cut.words
    assert len(one_unit(socket("a", x_mm=155.0), socket("b", x_mm=275.0)).cuts) == 2


def test_round_ones_that_are_joined_are_square():
    (one,) = one_unit(pipe("hot", x_mm=200.0), pipe("cold", x_mm=250.0)).cuts
    assert not one.cut.round and one.cut.width_mm == 50 + 40


def test_a_cut_out_that_leaves_too_little_of_the_panel_is_open_to_its_edge():
    """FP: left edge at 18 + 29: 29 would stay, less than 30; at 30 it stays closed."""
    open_one = one_cut(socket(x_mm=18 + 29 + 45))
    assert open_one.cut.open_to == ("left",) and open_one.cut.left_mm == 0 and open_one.cut.width_mm == 29 + 90
    assert "open to the panel's left edge" in open_one.cut.words and open_one.from_left.text == "0"
    assert one_cut(socket(x_mm=18 + 30 + 45)).cut.open_to == ()


def test_one_larger_than_the_panel_parts_it_and_is_told():
    found = one_unit(socket(width_mm=580.0))
    assert set(found.cuts[0].cut.open_to) == {"left", "right"} and "panel.cut_parts" in rules(found)
    assert "panel.cut_parts" not in rules(one_unit(socket()))


def test_behind_a_side_no_cut_out_helps():
    found = one_unit(socket(x_mm=8.0, width_mm=16.0))
    assert found.cuts == () and "service.beside_back" in rules(found)


@pytest.mark.parametrize(
    ("box", "left_mm"),
    [
        (Box(board_mm=18.0), 300 - 45 - 18),
        (Box(board_mm=18.0, back=BackIs.GROOVE, groove_mm=6.0), 300 - 45 - (18 - 6)),
        (Box(board_mm=18.0, back=BackIs.ON), 300 - 45),
    ],
)
def test_figures_count_from_the_panels_own_edge_groove_included(box, left_mm):
    (cut,) = services(run(unit(box=box), services=(socket(),))).cuts
    assert cut.from_left.mm == left_mm


SPAN = st.tuples(st.integers(-200, 900), st.integers(1, 400))


@settings(derandomize=True, deadline=None, max_examples=200)
@given(st.lists(st.tuples(SPAN, SPAN, st.booleans()), max_size=6), st.integers(0, 40), st.integers(0, 80), st.integers(0, 80))
def test_cut_outs_lie_in_the_panel_hold_their_services_and_add_up_to_its_width(points, clear_mm, apart_mm, edge_mm):
    box = carcass_box(unit())
    rule = CutOutRule(float(clear_mm), 10.0, float(apart_mm), float(edge_mm))
    needs = [
        Need(f"s{i}", f"s{i}", float(x), float(x + wide), float(z), float(z + (wide if round else high)), round)
        for i, ((x, wide), (z, high), round) in enumerate(points)
    ]
    width_mm, height_mm = back_size_mm(box)
    found = cut_outs(rule, box, needs)
    for cut in found:
        assert cut.left_mm >= 0 and cut.foot_mm >= 0 and cut.width_mm > 0 and cut.height_mm > 0
        assert cut.left_mm + cut.width_mm <= width_mm and cut.foot_mm + cut.height_mm <= height_mm
        behind_mm = width_mm - (cut.left_mm + cut.width_mm)
        assert behind_mm + cut.width_mm + cut.left_mm == pytest.approx(width_mm)
        assert cut.radius_mm <= min(cut.width_mm, cut.height_mm) / 2
        for one in needs:
            if one.id in cut.services:
                assert cut.left_mm <= max(one.left_mm - box.back_left_mm, 0)
                assert cut.left_mm + cut.width_mm >= min(one.right_mm - box.back_left_mm, width_mm)
        for other in found:
            if other is not cut:
                across = max(cut.left_mm - other.left_mm - other.width_mm, other.left_mm - cut.left_mm - cut.width_mm)
                up = max(cut.foot_mm - other.foot_mm - other.height_mm, other.foot_mm - cut.foot_mm - cut.height_mm)
                assert max(across, 0) ** 2 + max(up, 0) ** 2 >= apart_mm**2 - 1e-3
    assert len({cut.id for cut in found}) == len(found)
    assert cut_outs(rule, box, needs[::-1]) == found, "order chooses nothing"


def test_the_rule_of_the_job_rules():
    wide = CutOutRule(5.0, 10.0, 30.0, 0.0)
    assert one_cut(socket(x_mm=18 + 29 + 45), rule=wide).cut.open_to == ()
    assert BARE.clearance_mm == 0
