"""What the demo's units are fitted out with, held to first principles. FP: first principles; CP: common practice.

Sizes are those of demo/hall_fitting.py and of the charts that ship with the program.
"""

from itertools import pairwise

import demo_hall
import pytest

from oddleg.charts import shipped_rows
from oddleg.job import FrontIs
from oddleg.plan.fitted_out import HoleFor, PartIs
from oddleg.plan.hardware import KIND_OF
from oddleg.plan.parts import parts


@pytest.fixture(scope="module")
def room():
    return demo_hall.hall_plan().rooms[0]


@pytest.fixture(scope="module")
def units(room):
    return {one.item: one for one in room.fitting.units}


def panel(unit, id):
    return next(one for one in unit.panels if one.id == id)


def places(board, what):
    return [(hole.u_mm, hole.v_mm) for hole in board.holes if hole.hole_for is what]


def test_the_job_holds_the_rows_of_charts_as_they_ship():
    """Whoever changes a shipped row runs demo/make_job.py again."""
    shipped = {(KIND_OF[type(row)], row.id): row.sha for row in shipped_rows()}
    pins = demo_hall.job().hardware
    assert pins and all(shipped[pin.kind, pin.row] == pin.sha for pin in pins)


def test_four_equal_fronts_are_177_75_high_and_their_runners_lie_one_pitch_apart(units):
    """FP: (720 - 3 x 3) / 4 = 177.75; from one runner's line to the next a front and a gap, 180.75."""
    base = units["drawers-one"]
    assert [front.height_mm for front in base.fronts] == [pytest.approx(177.75)] * 4
    left, right = places(panel(base, "left_side"), HoleFor.RUNNER), places(panel(base, "right_side"), HoleFor.RUNNER)
    assert left == right and len(left) == 4 * 3
    levels = sorted({v for _, v in left})
    assert [upper - lower for lower, upper in pairwise(levels)] == [pytest.approx(180.75)] * 3
    # CP: the first screw of an overlay front's runner 37 behind the front edge.
    assert min(u for u, _ in left) == 37


def test_every_stack_fills_what_it_has_to_fill(units):
    stacks = [stack for unit in units.values() for stack in unit.stacks]
    assert len(stacks) >= 12
    assert all(stack.sum_mm == pytest.approx(stack.opening_mm, abs=1e-9) for stack in stacks)


def test_two_inner_drawers_stand_on_spacers_between_the_plates_of_their_doors(units):
    base = units["doors-one"]
    assert [drawer.front for drawer in base.drawers] == [None, None]
    assert {(drawer.left_mm, drawer.right_mm) for drawer in base.drawers} == {(18 + 22, 800 - 18 - 22)}
    assert sum(part.count for part in base.drawer_parts if part.part is PartIs.SPACER) >= 4
    # FP: a plate's two holes lie 32 apart, 16 above and below the cup's 170 and 570 over the door's lower edge.
    levels = sorted({v for _, v in places(panel(base, "left_side"), HoleFor.PLATE)})
    foot_mm = base.fronts[0].foot_mm
    assert levels == pytest.approx([foot_mm + cup + half for cup in (170, 570) for half in (-16, 16)])


def test_a_chart_for_16_board_is_rebated_2_in_boards_of_18(units):
    """CP: a chart made for 16 board needs a rebate of 18 - 16 = 2."""
    boards = [part for part in units["drawers-one"].drawer_parts if part.part in (PartIs.BASE, PartIs.BACK)]
    assert len(boards) == 8
    assert {part.rebate.depth_mm for part in boards} == {2}
    # FP: base = inside 800 - 2 x 18 less what the chart says.
    chart = next(row for row in shipped_rows() if row.id == "runner-500")
    assert {part.length_mm for part in boards if part.part is PartIs.BASE} == {800 - 36 - chart.base_less_mm}


def test_the_bin_hangs_on_its_frame_in_the_middle_of_the_unit(units):
    """FP: inside 450 - 36 = 414, its middle 207 from the bottom's left edge."""
    bins = units["bins"]
    assert bins.fronts[0].front is FrontIs.PULL_OUT
    holes = places(panel(bins, "bottom"), HoleFor.PULL_OUT)
    assert len(holes) == 4 and sum(u for u, _ in holes) / 4 == pytest.approx(207)


def test_the_back_of_the_sink_base_is_cut_out_for_its_services_down_from_the_datum(room, units):
    """FP: sockets are set out from the datum, whatever the floor does: middle 236 below, 86 high, 10 clear: from
    236 - 43 - 10 = 183 below it. As found, not as wanted."""
    cuts = [one for one in room.fitting.services.cuts if one.item == "sink"]
    assert len(cuts) == 4 == len(panel(units["sink"], "back").cut_outs)
    socket = next(one for one in cuts if one.cut.services == ("washer-socket",))
    assert socket.below_datum.mm == pytest.approx(183)
    assert (socket.cut.width_mm, socket.cut.height_mm) == (86 + 20, 86 + 20)


def test_waste_supply_and_plug_of_both_machines_go_through_the_sides_of_the_sink_base(units):
    """Trap 47."""
    sink = units["sink"]
    left, right = (places(panel(sink, id), HoleFor.PASSAGE) for id in ("left_side", "right_side"))
    assert (len(left), len(right)) == (3, 2)
    # FP: each 70 before the rear edge of a side 560 deep; 200, 300 and 400 below the datum, which is its top.
    assert {u for u, _ in left + right} == {560 - 70}
    assert [v for _, v in sorted(left)] == [720 - 400, 720 - 300, 720 - 200]


def test_the_larder_holds_fridge_drawer_and_oven_one_above_the_other(units):
    larder = units["larder"]
    assert [front.front for front in larder.fronts] == [FrontIs.DOOR, FrontIs.SPACE, FrontIs.DRAWER, FrontIs.DOOR]
    assert larder.stacks[0].opening_mm == 1970
    oven = larder.fronts[1]
    shelf_mm = {one.name: one.z_mm for one in larder.panels}
    # The oven stands on its shelf, and has between both shelves what its sheet wants.
    assert shelf_mm["shelf under the oven"] == pytest.approx(oven.foot_mm)
    assert shelf_mm["shelf over the oven"] - 18 - shelf_mm["shelf under the oven"] >= 450


def test_what_hangs_below_the_worktop_is_told_down_from_the_datum(room):
    """FP, trap 47: 52 in a top of 30 and 20 of air: clear to 42; the bowl's 190 less 30: 160."""
    assert {one.appliance: one.below_datum.mm for one in room.fitting.services.hanging} == {"hob": 42, "bowl": 160}


def test_what_the_sheets_of_fridge_and_hood_ask_of_the_air_is_there(room):
    """FP: a grille of 400 x 50 is 200 cm2."""
    assert [(one.appliance, one.holds) for one in room.fitting.services.vents] == [("fridge in the larder", True), ("hood", True)]


def test_the_first_holes_are_ticked_where_the_plan_still_has_them():
    base = parts(demo_hall.hall_plan(), 1)["panels/drawers-one"]
    sides = {one["id"]: one["holes"] for one in base["panels"]}
    ticked = {id: [hole for hole in sides[id] if hole["drilled"]] for id in ("left_side", "right_side")}
    assert {id: len(holes) for id, holes in ticked.items()} == {"left_side": 12, "right_side": 5}
    assert all(hole["moved"] is None for holes in ticked.values() for hole in holes)
