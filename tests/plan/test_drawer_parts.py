"""Bases and backs from the chart and the inside width; rebates that bring a thicker board back to the chart's."""

from dataclasses import replace

import pytest
from datum_rooms import job_of, room_of
from hardware_rows import carcass, known, runner
from hypothesis import given
from hypothesis import strategies as st

from oddleg.job import FittingOut, RebateFace
from oddleg.plan.carcass_box import carcass_box
from oddleg.plan.drawer_parts import drawer_parts
from oddleg.plan.fitted_out import DrawerBox, PartIs
from oddleg.plan.front_stacks import FilledFronts

# A chart made for 16 board: base inside less 75 by length less 24, back inside less 87 by 84 high.
CHART = runner(
    id="runner-500", length_mm=500.0, board_mm=16.0, base_less_mm=75.0, base_shorter_mm=24.0, back_less_mm=87.0, back_height_mm=84.0,
    base_lip_mm=12.0, base_edges=("left", "right", "front"), base_face=RebateFace.BELOW, base_clear_mm=3.0, back_lip_mm=10.0, back_edges=("left", "right"),
)  # fmt: skip
INSIDE_MM = 600.0 - 2 * 18


def drawer(**other):
    given = {"id": "d", "name": "top drawer", "compartment": "all", "runner": "runner-500", "front": "d", "left_mm": 18.0, "right_mm": 582.0, "line_mm": 60.0,
             "first_mm": 37.0, "front_u_mm": 0.0, "rear_u_mm": 510.0, "low_mm": 40.0, "high_mm": 160.0}  # fmt: skip
    return DrawerBox(**{**given, **other})


def made(row=CHART, board_mm=None, drawers=None, **box):
    item = carcass(fitting_out=FittingOut(drawer_board_mm=board_mm), **box)
    found = FilledFronts((), (), tuple(drawers or (drawer(),)), ())
    return drawer_parts(job_of(room_of()), carcass_box(item), known(row), found)


def board(parts, which):
    return next(one for one in parts if one.part is which)


def test_base_and_back_are_the_inside_width_less_what_the_chart_takes():
    parts, findings = made(board_mm=16.0)
    base, back = board(parts, PartIs.BASE), board(parts, PartIs.BACK)
    assert (base.length_mm, base.width_mm) == (INSIDE_MM - 75, 500 - 24)
    assert (back.length_mm, back.width_mm) == (INSIDE_MM - 87, 84)
    assert base.rebate is None and back.rebate is None and findings == ()


def test_a_chart_made_for_16_board_needs_a_2_rebate_in_18_board():
    """Common practice, and 18 - 16 = 2."""
    parts, findings = made(board_mm=18.0)
    base, back = board(parts, PartIs.BASE), board(parts, PartIs.BACK)
    assert base.rebate.depth_mm == 18 - 16 and base.rebate.lip_mm == 12 and base.rebate.edges == ("left", "right", "front")
    assert back.rebate.depth_mm == 2 and back.rebate.lip_mm == 10 and back.rebate.edges == ("left", "right")
    assert findings == ()


def test_drawers_are_cut_from_the_carcass_s_board_where_no_other_is_named():
    parts, _ = made(board_mm=None)
    assert {one.thickness_mm for one in parts} == {18.0}


def test_a_rebate_says_on_which_face_it_lies():
    """Trap 45: below, an 18 base hangs 2 under its lip over the runner; on top it costs 2 inside."""
    below, _ = made(board_mm=18.0)
    above, _ = made(replace(CHART, base_face=RebateFace.ABOVE), board_mm=18.0)
    assert "on its underside, so that it hangs lower than its lip" in board(below, PartIs.BASE).rebate.words
    assert "on its upper face, which takes as much off the inside" in board(above, PartIs.BASE).rebate.words


def test_a_base_that_hangs_lower_than_the_chart_leaves_free_is_a_stop():
    """Trap 45: 18 - 16 = 2 under the lip, and the chart leaves 1.5: short by 0.5. On the upper face nothing hangs."""
    tight = replace(CHART, base_clear_mm=1.5)
    _, findings = made(tight, board_mm=18.0)
    assert [(one.rule, one.severity.value, one.amount.text) for one in findings] == [("drawer.base_hangs_low", "stop", "0.5")]
    assert made(replace(tight, base_face=RebateFace.ABOVE), board_mm=18.0)[1] == ()
    assert made(replace(CHART, base_clear_mm=2.0), board_mm=18.0)[1] == ()


def test_a_board_thinner_than_the_chart_s_is_told_and_has_no_rebate():
    parts, findings = made(board_mm=15.0)
    assert all(one.rebate is None for one in parts)
    assert [(one.rule, one.amount.text) for one in findings] == [("drawer.thin_board", "1")]


def test_a_chart_that_knows_no_rebate_is_asked_for_it_when_the_board_is_thicker():
    _, findings = made(replace(CHART, back_lip_mm=0.0, back_edges=()), board_mm=18.0)
    assert [one.rule for one in findings] == ["drawer.no_rebate"] and "on the back" in findings[0].wrong


def test_spacers_take_their_thickness_off_base_and_back_and_are_cut_with_them():
    inner = drawer(left_mm=18.0 + 25, right_mm=582.0 - 25, spacer_mm=25.0, front=None)
    parts, _ = made(board_mm=16.0, drawers=[inner])
    assert board(parts, PartIs.BASE).length_mm == INSIDE_MM - 50 - 75
    spacer = board(parts, PartIs.SPACER)
    assert (spacer.count, spacer.length_mm, spacer.width_mm, spacer.thickness_mm) == (2, 500, 50, 25)


def test_a_compartment_too_narrow_for_the_chart_is_a_stop_and_cuts_nothing():
    parts, findings = made(board_mm=16.0, drawers=[drawer(left_mm=18.0, right_mm=98.0)])
    assert [(one.rule, one.severity.value, one.amount.text) for one in findings] == [("drawer.no_room", "stop", "7")]  # 87 - 80
    assert [one.part for one in parts] == [PartIs.BASE]


def test_a_drawer_whose_runner_is_in_no_chart_has_no_boards():
    assert made(drawers=[drawer(runner="unheard-of")]) == ((), ())


def test_drawers_that_are_wrong_alike_are_told_once():
    _, findings = made(replace(CHART, base_clear_mm=0.0), board_mm=18.0, drawers=[drawer(), drawer(id="e")])
    assert len(findings) == 1


@given(
    inside_mm=st.integers(200, 1200), board_mm=st.sampled_from((15.0, 16.0, 18.0, 19.0)), less_mm=st.integers(0, 150), length_mm=st.integers(250, 600)
)
def test_base_back_and_what_the_chart_takes_come_to_the_inside_width(inside_mm, board_mm, less_mm, length_mm):
    row = replace(CHART, base_less_mm=float(less_mm), length_mm=float(length_mm))
    parts, _ = made(row, board_mm=board_mm, drawers=[drawer(left_mm=18.0, right_mm=18.0 + inside_mm)])
    base = board(parts, PartIs.BASE)
    assert base.length_mm + less_mm == pytest.approx(inside_mm, abs=1e-9)
    assert base.thickness_mm - (base.rebate.depth_mm if base.rebate else 0.0) == pytest.approx(min(board_mm, 16.0))

