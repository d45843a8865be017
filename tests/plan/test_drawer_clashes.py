"""Drawers on their runners, and what is in their way. First principles; figures of charts are invented."""

from hardware_rows import carcass, compartment, every_row, member, runner, stack
from hypothesis import given, settings
from hypothesis import strategies as st
from sample_room import job, room, run

from oddleg.job import BottomFit, Box, Front, FrontFit, FrontIs, Shelf, TopIs
from oddleg.plan.carcass_box import carcass_box
from oddleg.plan.fitted_out import HoleFor, PanelKind
from oddleg.plan.front_stacks import filled
from oddleg.plan.panels import panels

LEFT, RIGHT = PanelKind.LEFT.value, PanelKind.RIGHT.value
INSET = Front(FrontFit.INSET, thickness_mm=18.0, set_back_mm=2.0)
# Its line 55 over the front's lower edge, 37 over the bottom; it reaches from 26 below the line to 80 above it.
LOW = runner(up_mm=55.0, below_mm=26.0, above_mm=80.0, least_up_mm=33.0)


def drawer(id="drawer", **more):
    return member(id, front=FrontIs.DRAWER, **{"runner": "runner-500", **more})


def fill(*members, rows=(LOW,), part=(), stack_of=None, **item):
    here = compartment(stack=stack(*members, **(stack_of or {})), **dict(part))
    box = carcass_box(carcass("b60", here, **item))
    return filled(job(room(run(box.item))), box, every_row(*rows))


def drilled(*members, rows=(LOW,), stack_of=None, **item):
    box = carcass_box(carcass("b60", compartment(stack=stack(*members, **(stack_of or {}))), **item))
    here, known = job(room(run(box.item))), every_row(*rows)
    return {one.id: one for one in panels(here, box, known, filled(here, box, known), (), ())}


def wrong(found):
    return {one.rule: one for one in found.findings}


def test_the_line_is_the_fronts_lower_edge_and_the_charts_height():
    """Two fronts of (720 - 3) / 2 = 358.5: edges at 361.5 and 0, lines 55 above them."""
    found = fill(drawer("a"), drawer("b"))
    assert [one.line_mm for one in found.drawers] == [361.5 + 55, 55]
    assert [one.front for one in found.drawers] == ["a", "b"]
    assert not wrong(found)


def test_a_drawer_takes_its_runner_from_the_front_edge_to_the_end_of_its_void():
    """3 before the runner, 500 of it, 10 behind it; 26 below the line and 80 above it."""
    (one,) = fill(drawer()).drawers
    assert (one.front_u_mm, one.rear_u_mm) == (0, 3 + 500 + 10)
    assert (one.low_mm, one.high_mm) == (55 - 26, 55 + 80)
    assert (one.left_mm, one.right_mm) == (18, 582)


def test_an_inset_front_starts_its_runner_behind_itself():
    """Trap 41: 37 + 18 + 2 = 57, on both sides alike; an overlay one starts at 37."""
    assert fill(drawer(), front=INSET).drawers[0].first_mm == 37 + 18 + 2 == 57
    assert fill(drawer()).drawers[0].first_mm == 37
    boards = drilled(drawer(), front=INSET)
    places = [[(one.u_mm, one.v_mm) for one in boards[side].holes] for side in (LEFT, RIGHT)]
    assert places[0] == places[1] and min(places[0])[0] == 57


def test_a_face_frame_adds_its_thickness():
    """Trap 41: 37 + 18 + 2, and 20 of frame."""
    framed = Front(FrontFit.FRAME, thickness_mm=18.0, set_back_mm=2.0, frame_thickness_mm=20.0)
    assert fill(drawer(), front=framed).drawers[0].first_mm == 37 + 18 + 2 + 20


def test_a_500_runner_does_not_go_into_a_carcass_of_560_with_a_recess_of_50():
    """Trap 44: 560 - 18 - 50 = 492 inside; 3 + 500 + 10 = 513 is 21 too much."""
    deep = Box(back_mm=18.0, back_recess_mm=50.0)
    found = wrong(fill(drawer("a"), drawer("b"), box=deep))["drawer.runner_too_long"]
    assert found.amount.mm == 513 - 492 and "The inside is 492 deep" in found.wrong
    assert found.place == "b60, a and b"
    assert "a runner of 479 or less" in found.cure  # 492 - 3 - 10


def test_it_names_the_longest_known_runner_that_goes_in():
    deep = Box(back_mm=18.0, back_recess_mm=50.0)
    rows = [runner(id=f"runner-{mm}", name=f"runner {mm}", length_mm=float(mm)) for mm in (400, 450, 480)]
    found = wrong(fill(drawer(), rows=(LOW, *rows), box=deep))["drawer.runner_too_long"]
    assert found.cure.startswith("runner 450, 450 long, goes in")


def test_an_inset_front_costs_the_runner_its_depth():
    """560 - 8 = 552 inside; 20 + 513 = 533 goes in; with a recess of 20 more it does not, by 1."""
    assert "drawer.runner_too_long" not in wrong(fill(drawer(), front=INSET))
    found = wrong(fill(drawer(), front=INSET, box=Box(back_recess_mm=20.0)))["drawer.runner_too_long"]
    assert found.amount.mm == 533 - 532


def test_a_line_too_near_to_the_bottom_is_told():
    """Line at 45, the bottom's upper face at 18: 27, and the chart wants 33."""
    found = wrong(fill(drawer(), rows=(runner(up_mm=45.0),)))["drawer.line_too_low"]
    assert found.amount.mm == 33 - (45 - 18) and "27 above the upper face of the bottom" in found.wrong


def test_a_line_too_near_to_a_fixed_shelf_is_told_with_the_shelfs_name():
    """Shelf's upper face at 18 + 322 + 18 = 358; the upper drawer's line at 361.5 + 26 = 387.5: 29.5."""
    shelf = Shelf("s", "middle shelf", 322.0, fixed=True)
    row = runner(up_mm=26.0, below_mm=5.0, least_up_mm=33.0)
    found = fill(drawer("a"), member("b", front=FrontIs.FIXED), rows=(row,), part={"shelves": (shelf,)})
    assert "29.5 above the upper face of the middle shelf" in wrong(found)["drawer.line_too_low"].wrong


def test_a_front_lower_than_the_runner_needs_is_told():
    found = fill(drawer("a", height_mm=90.0), member("rest", front=FrontIs.FIXED))
    assert wrong(found)["drawer.front_too_low"].amount.mm == 110 - 90


def test_a_drawer_under_a_top_or_rails_is_held_to_them():
    """Fronts 118 and 599: edge at 602, line at 657, drawer up to 737; the top's underside is at 702: 35 into it."""
    members = (drawer("a", height_mm=118.0), member("rest", front=FrontIs.FIXED))
    found = wrong(fill(*members))["drawer.meets_top"]
    assert found.amount.mm == 602 + 55 + 80 - 702 and "into the top" in found.wrong
    assert "into the rails" in wrong(fill(*members, box=Box(top=TopIs.RAILS)))["drawer.meets_top"].wrong


def test_a_drawer_that_reaches_into_the_bottom_is_told():
    """55 - 40 = 15 is 3 under the bottom's upper face."""
    assert wrong(fill(drawer(), rows=(runner(up_mm=55.0, below_mm=40.0),)))["drawer.meets_bottom"].amount.mm == 3


def test_a_shelf_in_a_drawers_way_is_told_and_one_behind_it_is_not():
    """Drawer from 29 to 135; a shelf from 118 to 136 takes 17 of that. One set back by 513 lies behind the runner."""
    shelf = Shelf("s", "shelf", 100.0, fixed=True)
    found = wrong(fill(drawer(), part={"shelves": (shelf,)}))["drawer.meets_shelf"]
    assert found.amount.mm == 135 - 118 and "s" in found.concerns
    behind = Shelf("s", "shelf", 100.0, fixed=True, set_back_mm=513.0)
    assert not wrong(fill(drawer(), part={"shelves": (behind,)}))


def test_two_drawers_that_need_the_same_height_are_told():
    """Edges 100 + 3 apart, and each needs 26 + 80 = 106: 3 of it twice."""
    found = fill(member("rest", front=FrontIs.FIXED), drawer("a", height_mm=120.0), drawer("b", height_mm=100.0))
    assert wrong(found)["drawer.meets_drawer"].amount.mm == 106 - 103
    assert wrong(found)["drawer.meets_drawer"].place == "b60, a and b"


def test_a_drawer_whose_runner_is_in_no_chart_is_left_out():
    found = fill(drawer(runner="unheard-of"))
    assert found.drawers == () and not wrong(found)


def test_a_drawer_front_without_a_runner_is_noted():
    found = wrong(fill(drawer("a", runner=None), drawer("b", runner=None)))["stack.no_hardware"]
    assert found.severity.value == "note" and found.place == "b60, a and b"


def test_a_bottom_under_the_sides_takes_its_board_off_their_heights():
    """Line at 55; the side starts at 18: v = 37."""
    under = drilled(drawer(), box=Box(bottom=BottomFit.UNDER_SIDES))
    assert {one.v_mm for one in under[LEFT].holes} == {55 - 18}


@settings(derandomize=True, deadline=None, max_examples=60)
@given(
    st.integers(1, 6), st.floats(200, 2400), st.floats(250, 900), st.floats(0, 60), st.sampled_from(FrontFit), st.booleans()
)  # fmt: skip
def test_sides_are_drilled_alike_and_no_two_drawers_share_a_hole(count, height_mm, depth_mm, up_mm, fit, snap):
    members = [drawer(f"d{number}") for number in range(count)]
    boards = drilled(
        *members,
        rows=(runner(up_mm=up_mm),),
        stack_of={"snap": snap},
        height_mm=height_mm,
        depth_mm=depth_mm,
        front=Front(fit),
    )
    left, right = ([one for one in boards[side].holes if one.hole_for is HoleFor.RUNNER] for side in (LEFT, RIGHT))
    assert [(one.id, one.u_mm, one.v_mm) for one in left] == [(one.id, one.u_mm, one.v_mm) for one in right]
    assert len({(round(one.u_mm, 2), round(one.v_mm, 2)) for one in left}) == len(left)


def test_a_compartment_narrower_than_its_runners_takes_no_drawer():
    """FP: 100 wide of 18 board is 64 inside; 38 on either side make 76, so 12 are missing."""
    row = runner(up_mm=55.0, below_mm=26.0, above_mm=80.0, least_up_mm=33.0, side_mm=38.0)
    one = wrong(fill(drawer(), rows=(row,), width_mm=100.0))["drawer.too_narrow"]
    assert one.severity.value == "stop" and one.amount.text == "12"
    assert "drawer.too_narrow" not in wrong(fill(drawer(), rows=(row,), width_mm=600.0))
