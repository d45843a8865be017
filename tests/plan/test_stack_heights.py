"""Heights of fronts: fixed, by share, the rest. First principles: fronts and gaps sum to the opening."""

import pytest
from datum_rooms import job_of, room_of
from hardware_rows import carcass, compartment, known, member, stack
from hypothesis import given, settings
from hypothesis import strategies as st

from oddleg.job import BottomFit, Box, Front, FrontFit
from oddleg.plan.carcass_box import carcass_box
from oddleg.plan.front_stacks import filled

INSET = Front(FrontFit.INSET, thickness_mm=18.0, set_back_mm=2.0)


def fill(*members, front=None, height_mm=720.0, box=None, **given_stack):
    item = carcass(
        "b60",
        compartment(stack=stack(*members, **given_stack)),
        front=front or Front(),
        height_mm=height_mm,
        box=box or Box(),
    )
    return filled(job_of(room_of()), carcass_box(item), known())


def equal(count):
    return [member(f"m{number}") for number in range(count)]


def stops(found):
    return {one.rule: one for one in found.findings if one.severity.value == "stop"}


def test_four_equal_overlay_fronts_in_720_with_gaps_of_3_are_177_75():
    """Trap 42: outside height less n - 1 gaps: (720 - 9) / 4."""
    found = fill(*equal(4), gap_mm=3.0)
    assert [one.height_mm for one in found.fronts] == [(720 - 3 * 3) / 4] * 4 == [177.75] * 4
    assert found.stacks[0].opening_mm == found.stacks[0].sum_mm == 720


def test_with_a_reveal_of_3_at_the_top_they_are_177():
    """Trap 42: (720 - 3 - 9) / 4."""
    found = fill(*equal(4), gap_mm=3.0, top_mm=3.0)
    assert [one.height_mm for one in found.fronts] == [177.0] * 4
    assert found.fronts[0].foot_mm + 177 == 720 - 3


@pytest.mark.parametrize("fit", [FrontFit.INSET, FrontFit.FRAME])
def test_inset_and_framed_fronts_fill_the_inside_with_a_gap_at_both_ends(fit):
    """Trap 42: 720 - 2 x 18 = 684; n + 1 gaps of 2: (684 - 10) / 4."""
    found = fill(*equal(4), front=Front(fit, thickness_mm=18.0), gap_mm=2.0)
    assert [one.height_mm for one in found.fronts] == [(684 - 5 * 2) / 4] * 4 == [168.5] * 4
    assert found.stacks[0].opening_mm == found.stacks[0].sum_mm == 684
    assert found.fronts[-1].foot_mm == 18 + 2
    assert found.fronts[0].foot_mm + 168.5 == pytest.approx(720 - 18 - 2)


def test_shares_divide_what_fixed_heights_and_gaps_leave():
    """720 - 140 - 2 x 3 = 574, as 2 to 5: 164 and 410."""
    found = fill(member("a", height_mm=140.0), member("b", share=2.0), member("c", share=5.0))
    assert [one.height_mm for one in found.fronts] == pytest.approx([140, 574 * 2 / 7, 574 * 5 / 7])


def test_the_rest_is_all_that_is_left():
    found = fill(member("a", height_mm=140.0), member("b", height_mm=200.0), member("rest"))
    assert found.fronts[-1].height_mm == 720 - 140 - 200 - 6
    assert found.fronts[-1].foot_mm == 0


def test_a_reveal_at_the_bottom_raises_the_lowest_front():
    found = fill(*equal(2), bottom_mm=5.0)
    assert found.fronts[-1].foot_mm == 5


def test_fronts_of_fixed_heights_that_come_to_too_much_say_by_how_much():
    """4 x 180 + 9 = 729: 9 too much, or 2.25 of each."""
    found = stops(fill(*[member(f"m{i}", height_mm=180.0) for i in range(4)]))["stack.does_not_fill"]
    assert found.amount.mm == 9 and "9 too much" in found.wrong
    assert "all 4 by 2.3 each" in found.cure and "leave one height out" in found.cure


def test_and_so_do_those_that_come_to_too_little():
    found = stops(fill(member("a", height_mm=300.0), member("b", height_mm=400.0)))["stack.does_not_fill"]
    assert found.amount.mm == 720 - 703 and "17 too little" in found.wrong


@pytest.mark.parametrize(("over_mm", "told"), [(0.1, False), (-0.1, False), (0.11, True), (-0.11, True)])
def test_a_tenth_is_exact_enough(over_mm, told):
    found = fill(member("a", height_mm=717.0 - 300 + over_mm), member("b", height_mm=300.0))
    assert ("stack.does_not_fill" in stops(found)) is told


def test_where_nothing_is_left_for_the_rest_it_has_no_front_and_is_told():
    """500 + 300 + 2 x 3 = 806 in 720: 86 short."""
    found = fill(member("a", height_mm=500.0), member("b", height_mm=300.0), member("c", name="the lowest"))
    wrong = stops(found)["stack.nothing_left"]
    assert wrong.amount.mm == 86 and "the lowest" in wrong.wrong
    assert [one.id for one in found.fronts] == ["a", "b"]
    assert "stack.does_not_fill" not in stops(found)


def test_the_bottom_under_the_sides_changes_nothing_outside():
    under = fill(*equal(4), box=Box(bottom=BottomFit.UNDER_SIDES))
    assert [one.height_mm for one in under.fronts] == [177.75] * 4 and under.fronts[-1].foot_mm == 0


def test_words_tell_the_stack_from_the_top_down():
    assert fill(*equal(2)).stacks[0].words == "all, from the top down: 358.5 + 358.5, and 1 gap of 3"


SIZES = st.floats(1.0, 20_000.0)
MEMBERS = st.lists(
    st.one_of(
        st.builds(lambda mm: {"height_mm": mm}, SIZES), st.builds(lambda of: {"share": of}, st.floats(0.001, 1000)), st.just({})
    ),
    min_size=1,
    max_size=8,
)  # fmt: skip


@settings(derandomize=True, deadline=None, max_examples=200)
@given(MEMBERS, SIZES, st.floats(0, 20), st.floats(0, 20), st.sampled_from(FrontFit))
def test_fronts_and_gaps_sum_to_the_opening_or_a_finding_tells(members, height_mm, gap_mm, top_mm, fit):
    members = [member(f"m{number}", **one) for number, one in enumerate(members)]
    found = fill(*members, front=Front(fit), height_mm=height_mm, gap_mm=gap_mm, top_mm=top_mm)
    (made,) = found.stacks
    if not stops(found):
        assert made.sum_mm == pytest.approx(made.opening_mm, abs=0.1 + 1e-6)
        inside_mm = height_mm if fit is FrontFit.OVERLAY else height_mm - 36 - 2 * gap_mm
        assert sum(one.height_mm for one in found.fronts) == pytest.approx(
            inside_mm - top_mm - gap_mm * (len(members) - 1), abs=0.1 + 1e-6
        )
        assert len(found.fronts) == len(members)
    else:
        assert {"stack.does_not_fill", "stack.nothing_left"} & set(stops(found)) or height_mm <= 36


@settings(derandomize=True, deadline=None, max_examples=100)
@given(MEMBERS, st.floats(300, 3000), st.floats(0, 10))
def test_shares_do_not_depend_on_the_order_of_the_fronts(members, height_mm, gap_mm):
    down = [member(f"m{number}", **one) for number, one in enumerate(members)]
    one, other = (fill(*each, height_mm=height_mm, gap_mm=gap_mm) for each in (down, down[::-1]))
    high = {front.id: front.height_mm for front in one.fronts}
    assert {front.id: pytest.approx(front.height_mm) for front in other.fronts} == high
