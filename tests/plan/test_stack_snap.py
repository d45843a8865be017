"""Drawers of a stack on the grid of holes. The grid: common practice; the rest from first principles."""

import pytest
from hardware_rows import carcass, known, runner
from hypothesis import given, settings
from hypothesis import strategies as st

from oddleg.job import Compartment, FittingOut, FrontFit, FrontIs, Stack, StackMember
from oddleg.plan.carcass_box import carcass_box
from oddleg.plan.stack_heights import stack_heights
from oddleg.plan.stack_snap import snapped

# A grid that starts 64 up and a line of screws 45 over the front's lower edge.
RUNNER = runner(up_mm=45.0, least_front_mm=100.0)


def drawer(id, **more):
    return StackMember(id, id, FrontIs.DRAWER, runner=RUNNER.id, **more)


def snap(*members, height_mm=720.0, first_mm=64.0, row=RUNNER, **stack):
    stack = Stack(members, snap=True, **stack)
    fitted = FittingOut((Compartment("all", "all", stack=stack),), grid_first_mm=first_mm)
    box = carcass_box(carcass(height_mm=height_mm, fitting_out=fitted))
    before = stack_heights(box, stack, FrontFit.OVERLAY)
    return before, snapped(box, stack, known(row), before)


def off_grid_mm(z_mm, first_mm=64.0):
    """From the nearest line of the grid."""
    over_mm = (z_mm - first_mm) % 32
    return min(over_mm, 32 - over_mm)


def test_lines_of_screws_move_to_the_nearest_line_of_the_grid():
    """Four equal fronts in 720 with gaps of 3: (720 - 9) / 4 = 177.75 high, edges at 542.25, 361.5 and 180.75; lines 45
    over them: 587.25, 406.5 and 225.75. Lines of the grid, 64 + 32 n: 576, 416 and 224."""
    before, found = snap(*(drawer(id) for id in "abcd"))
    assert before.feet_mm == (542.25, 361.5, 180.75, 0.0)
    assert found.heights.feet_mm == (576 - 45, 416 - 45, 224 - 45, 0)
    assert found.moved_mm == {"a": 576 - 587.25, "b": 416 - 406.5, "c": 224 - 225.75}


def test_what_a_front_gives_its_neighbour_takes():
    before, found = snap(*(drawer(id) for id in "abcd"))
    assert found.heights.heights_mm == (177.75 + 11.25, 177.75 - 11.25 - 9.5, 177.75 + 9.5 + 1.75, 177.75 - 1.75)
    assert found.heights.sum_mm == before.sum_mm == 720


def test_the_lowest_edge_is_the_stacks_own_and_stays():
    """Its line is at 45, and the grid starts at 64."""
    _, found = snap(*(drawer(id) for id in "ab"))
    assert "b" not in found.moved_mm and found.off == ("b",)


def test_a_lowest_drawer_that_is_on_the_grid_is_not_told():
    """Line at 45, grid from 45 on."""
    _, found = snap(*(drawer(id) for id in "ab"), first_mm=45.0)
    assert found.off == ()


def test_of_two_lines_equally_near_it_is_the_lower():
    """Fixed so that the edge lies at 64 + 16 + 256 - 45 = 291: its line is at 336, midway between 320 and 352."""
    _, found = snap(drawer("a", height_mm=720.0 - 291), drawer("b"))
    assert found.heights.feet_mm[0] + 45 == 320


def test_doors_and_fixed_fronts_stay_where_nothing_beside_them_moves():
    door = StackMember("door", "door", FrontIs.DOOR, height_mm=300.0)
    before, found = snap(door, StackMember("rest", "rest", FrontIs.FIXED))
    assert found.heights == before and found.moved_mm == {} and found.off == ()


def test_a_drawer_over_a_door_moves_the_doors_upper_edge():
    """Drawer 140 on the top of 720: edge at 580, line at 625; the grid has 608 and 640, which is nearer: 15 up."""
    _, found = snap(drawer("a", height_mm=140.0), StackMember("door", "door", FrontIs.DOOR))
    assert found.moved_mm == {"a": 640 - 625}
    assert found.heights.heights_mm == (140 - 15, 720 - 140 - 3 + 15)


def test_a_front_is_not_made_lower_than_its_runners_chart_allows():
    """The same drawer with a runner that needs a front of 130: 140 - 15 is too low, so it stays, and that is told."""
    _, found = snap(
        drawer("a", height_mm=140.0),
        StackMember("door", "door", FrontIs.DOOR),
        row=runner(up_mm=45.0, least_front_mm=130.0),
    )
    assert found.moved_mm == {} and found.off == ("a",)
    assert found.heights.heights_mm[0] == 140


def test_a_drawer_whose_runner_no_chart_has_stays():
    _, found = snap(drawer("a"), drawer("b"), row=runner(id="other"))
    assert found.moved_mm == {} and found.off == ()


@settings(derandomize=True, deadline=None, max_examples=150)
@given(
    st.lists(st.sampled_from((140.0, 177.75, 200.0, 283.5, None)), min_size=1, max_size=6),
    st.floats(300, 2400),
    st.floats(0, 100),
    st.floats(20, 60),
    st.floats(0, 10),
)  # fmt: skip
def test_sums_stay_and_every_edge_moves_half_a_space_at_most(fronts_mm, height_mm, first_mm, up_mm, gap_mm):
    row = runner(up_mm=up_mm, least_front_mm=100.0)
    members = [drawer(f"d{number}", height_mm=mm) for number, mm in enumerate(fronts_mm)]
    before, found = snap(*members, height_mm=height_mm, first_mm=first_mm, row=row, gap_mm=gap_mm)
    assert found.heights.sum_mm == pytest.approx(before.sum_mm, abs=1e-6)
    assert found.heights.feet_mm[-1] == pytest.approx(before.feet_mm[-1], abs=1e-6)
    for one, foot_mm in zip(members, found.heights.feet_mm, strict=True):
        # Under its lowest line the grid has no other to move to.
        assert abs(found.moved_mm.get(one.id, 0.0)) <= max(16, first_mm - min(before.feet_mm) - up_mm) + 1e-6
        if one.id not in found.off:
            assert off_grid_mm(foot_mm + up_mm, first_mm) < 1e-5
    for was_mm, is_mm in zip(before.heights_mm, found.heights.heights_mm, strict=True):
        assert is_mm >= min(was_mm, 100) - 1e-6


@settings(derandomize=True, deadline=None, max_examples=100)
@given(st.floats(300, 2400), st.floats(0.1, 0.9), st.floats(0, 100))
def test_an_edge_is_decided_by_itself(height_mm, part, first_mm):
    """A drawer's edge at one height goes to one line, whatever fronts lie above and below it."""
    edge_mm = height_mm * part
    row = runner(up_mm=45.0, least_front_mm=0.0)
    rest = StackMember("rest", "rest", FrontIs.FIXED)
    fixed = StackMember("top", "top", FrontIs.FIXED, height_mm=1.0)
    _, one = snap(
        drawer("a", height_mm=height_mm - edge_mm), rest, height_mm=height_mm, first_mm=first_mm, row=row, gap_mm=0.0
    )
    _, other = snap(
        fixed, drawer("a", height_mm=height_mm - edge_mm - 1), rest, height_mm=height_mm, first_mm=first_mm, row=row, gap_mm=0.0
    )  # fmt: skip
    if "a" not in (*one.off, *other.off):
        assert one.moved_mm.get("a", 0.0) == pytest.approx(other.moved_mm.get("a", 0.0), abs=1e-6)
