"""What holds for stacks of fronts of any size: first principles."""

from dataclasses import replace

import pytest
from datum_rooms import job_of, room_of
from hardware_rows import carcass, compartment, every_row, member, stack
from hypothesis import given, settings
from hypothesis import strategies as st

from oddleg.job import (
    BackIs,
    BottomFit,
    Box,
    FittingOut,
    Front,
    FrontFit,
    FrontIs,
    HungOn,
    InnerDrawer,
    InnerPullOut,
    Shelf,
    TopIs,
)
from oddleg.plan.carcass_box import carcass_box
from oddleg.plan.drawer_parts import drawer_parts
from oddleg.plan.front_stacks import filled
from oddleg.plan.hole_checks import hole_findings
from oddleg.plan.panels import panels

EXACT_MM = 0.1
ROWS = every_row()
JOB = job_of(room_of())

# What the door lets in: sizes of 1 mm to 20 m, boards of 1 to 300, plays of 0 to 5 m.
sizes = st.one_of(st.sampled_from((1.0, 20_000.0)), st.floats(1, 20_000), st.floats(250, 1200))
boards = st.one_of(st.sampled_from((1.0, 18.0, 300.0)), st.floats(1, 300))
plays = st.one_of(st.sampled_from((0.0, 3.0, 5000.0)), st.floats(0, 20), st.floats(0, 5000))
angles = st.one_of(st.just(110.0), st.floats(1, 270))


def row_names(front):
    return {
        FrontIs.DOOR: {"hinge": "hinge-110", "plate": "plate-0"},
        FrontIs.DRAWER: {"runner": "runner-500"},
        FrontIs.PULL_OUT: {"pull_out": "bin-600"},
    }.get(front, {})


@st.composite
def members(draw, heights=sizes):
    made = []
    for number in range(draw(st.integers(1, 5))):
        front = draw(st.sampled_from(FrontIs))
        high = draw(st.sampled_from(("fixed", "share", "rest")))
        made.append(
            member(
                f"m{number}",
                front=front,
                height_mm=draw(heights) if high == "fixed" else None,
                share=draw(st.floats(0.001, 1000)) if high == "share" else None,
                hung=draw(st.sampled_from(HungOn)) if front is FrontIs.DOOR else None,
                **row_names(front),
            )
        )
    return tuple(made)


@st.composite
def compartments(draw, number):
    stacked = stack(
        *draw(members()),
        gap_mm=draw(plays),
        top_mm=draw(plays),
        bottom_mm=draw(plays),
        side_mm=draw(plays),
        snap=draw(st.booleans()),
    )
    return compartment(
        f"c{number}",
        width_mm=draw(st.none() | sizes),
        stack=draw(st.sampled_from((stacked, None))),
        inner_drawers=tuple(
            InnerDrawer(f"c{number}i{one}", "inner", draw(plays), draw(sizes), "runner-500", draw(plays), draw(plays))
            for one in range(draw(st.integers(0, 2)))
        ),
        pull_outs=tuple(
            InnerPullOut(f"c{number}p{one}", "bins", "bin-600", draw(plays)) for one in range(draw(st.integers(0, 2)))
        ),
        shelves=tuple(
            Shelf(f"c{number}s{one}", "shelf", draw(plays), draw(st.booleans()), pins="pin-5", set_back_mm=draw(plays))
            for one in range(draw(st.integers(0, 2)))
        ),
    )


@st.composite
def odd_carcasses(draw):
    return carcass(
        width_mm=draw(sizes),
        height_mm=draw(sizes),
        depth_mm=draw(sizes),
        front=draw(
            st.none()
            | st.builds(
                Front,
                fit=st.sampled_from(FrontFit),
                thickness_mm=boards,
                opening_angle_deg=angles,
                frame_thickness_mm=st.just(0.0) | boards,
                set_back_mm=plays,
            )
        ),
        box=Box(
            draw(boards),
            draw(boards),
            draw(plays),
            draw(st.sampled_from(BottomFit)),
            draw(st.sampled_from(TopIs)),
            draw(sizes),
            draw(st.sampled_from(BackIs)),
            draw(boards),
        ),
        fitting_out=FittingOut(
            tuple(draw(compartments(number)) for number in range(draw(st.integers(1, 3)))),
            divider_mm=draw(boards),
            grid_first_mm=draw(st.none() | plays),
        ),
    )


@settings(derandomize=True, deadline=None, max_examples=150)
@given(odd_carcasses())
def test_no_size_that_the_door_lets_in_raises(item):
    box = carcass_box(item)
    found = filled(JOB, box, ROWS)
    for one in found.fronts:
        assert one.width_mm > 0 and one.height_mm > 0
    made = panels(JOB, box, ROWS, found, (), ())
    hole_findings(JOB, box, ROWS, found, made)
    drawer_parts(JOB, box, ROWS, found)
    for finding in found.findings:
        assert finding.wrong.endswith(".") and finding.cure.endswith(".") and finding.place.startswith(item.name)
        assert "nan" not in finding.wrong and "inf " not in finding.wrong


@settings(derandomize=True, deadline=None, max_examples=150)
@given(odd_carcasses())
def test_a_stack_that_does_not_sum_to_its_opening_is_never_silent(item):
    found = filled(JOB, carcass_box(item), ROWS)
    wrong = any(one.rule in ("stack.does_not_fill", "stack.nothing_left", "stack.no_height") for one in found.findings)
    assert wrong or all(abs(one.sum_mm - one.opening_mm) <= EXACT_MM + 1e-6 for one in found.stacks)


@st.composite
def usual_stacks(draw):
    shares = [
        member(f"m{number}", front=FrontIs.DRAWER, share=draw(st.floats(0.5, 3)), runner="runner-500")
        for number in range(draw(st.integers(1, 6)))
    ]
    return stack(
        *shares,
        gap_mm=draw(st.floats(0, 6)),
        top_mm=draw(st.floats(0, 40)),
        bottom_mm=draw(st.floats(0, 40)),
        snap=draw(st.booleans()),
    )


@settings(derandomize=True, deadline=None, max_examples=150)
@given(usual_stacks(), st.floats(500, 2400), st.sampled_from(FrontFit))
def test_fronts_from_the_top_down_and_gaps_fill_the_opening(stacked, height_mm, fit):
    """From the upper end of the opening to its lower end every mm is a reveal, a front or a gap."""
    front = Front(fit, 18.0)
    item = carcass("b60", compartment(stack=stacked), height_mm=height_mm, front=front)
    found = filled(JOB, carcass_box(item), ROWS)
    end_mm = 0.0 if fit is FrontFit.OVERLAY else 18.0 + stacked.gap_mm
    upper_mm = height_mm - end_mm - stacked.top_mm
    assert [one.member for one in found.fronts] == [one.id for one in stacked.members]
    for one in found.fronts:
        assert one.foot_mm + one.height_mm == pytest.approx(upper_mm, abs=1e-6)
        upper_mm = one.foot_mm - stacked.gap_mm
    assert upper_mm + stacked.gap_mm == pytest.approx(end_mm + stacked.bottom_mm, abs=1e-6)


@settings(derandomize=True, deadline=None, max_examples=100)
@given(usual_stacks(), st.floats(500, 2400))
def test_shares_keep_their_ratio(stacked, height_mm):
    stacked = replace(stacked, snap=False)
    found = filled(JOB, carcass_box(carcass("b60", compartment(stack=stacked), height_mm=height_mm)), ROWS)
    each = [one.height_mm / of.share for one, of in zip(found.fronts, stacked.members, strict=True)]
    assert each == pytest.approx([each[0]] * len(each), rel=1e-9)


TURNED = {HungOn.LEFT: HungOn.RIGHT, HungOn.RIGHT: HungOn.LEFT, HungOn.PAIR: HungOn.PAIR}


@settings(derandomize=True, deadline=None, max_examples=100)
@given(
    st.lists(st.tuples(st.sampled_from(HungOn), st.floats(150, 500)), min_size=1, max_size=3),
    st.sampled_from(FrontFit),
    st.floats(0, 4),
)
def test_a_carcass_built_the_other_way_round_hangs_its_doors_the_other_way_round(parts, fit, side_mm):
    """Compartments in the opposite order and doors hung on the opposite side: each leaf mirrored in the middle, its
    hinges the same."""

    def hung(order, turned):
        made = [
            compartment(
                f"c{number}",
                width_mm=width_mm,
                stack=stack(
                    member(f"m{number}", hung=TURNED[hung] if turned else hung, **row_names(FrontIs.DOOR)),
                    side_mm=side_mm,
                ),
            )
            for number, (hung, width_mm) in order
        ]
        width_mm = sum(mm for _, mm in parts) + 18 * (len(parts) + 1)
        return width_mm, filled(JOB, carcass_box(carcass("b", *made, width_mm=width_mm, front=Front(fit, 18.0))), ROWS)

    numbered = list(enumerate(parts))
    width_mm, one = hung(numbered, False)
    _, other = hung(numbered[::-1], True)

    def leaves(found, turned):
        return sorted(
            (
                round(width_mm - leaf.left_mm - leaf.width_mm if turned else leaf.left_mm, 6),
                round(leaf.width_mm, 6),
                (TURNED[leaf.hung] if turned else leaf.hung).value,
                tuple(round(mm, 6) for mm in leaf.cups_mm),
                round(leaf.overlay_mm, 6),
                round(leaf.edge_mm, 6),
            )
            for leaf in found.fronts
        )

    assert leaves(one, False) == leaves(other, True)
    assert sorted(each.rule for each in one.findings) == sorted(each.rule for each in other.findings)


def test_heights_are_written_so_that_they_add_up():
    """(720 - 3 x 3) / 4 = 177.75; four of 177.8 and three gaps would be 720.2."""
    four = stack(*(member(f"m{number}", front=FrontIs.DRAWER) for number in range(4)))
    (found,) = filled(JOB, carcass_box(carcass("b60", compartment(stack=four))), ROWS).stacks
    assert "177.75 + 177.75 + 177.75 + 177.75, and 3 gaps of 3" in found.words
