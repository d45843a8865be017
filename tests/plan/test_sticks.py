"""Setting-out sticks: the holes of sides as distances along a stick and offsets; from the holes themselves (FP)."""

from dataclasses import replace

import sample_panels as sample
import sample_plan
from hypothesis import given, settings
from hypothesis import strategies as st

from oddleg.plan.fitted_out import HoleFor, PanelKind
from oddleg.plan.sticks import LEAST_HOLES, sticks

BOX = sample.fitted().box


def made(*panels):
    return sticks(sample_plan.job(), BOX, panels)


def both(holes):
    return sample.side(holes=holes), sample.side(PanelKind.RIGHT, holes=holes)


def places(stick):
    """Every (u, v) that the stick marks."""
    for offset_mm in (stick.offset_mm, *stick.also_mm):
        for mark in stick.marks:
            yield (mark.along_mm, offset_mm) if stick.foot_on == "front edge" else (offset_mm, mark.along_mm)


def test_four_drawers_need_one_runner_stick_and_one_stick_for_its_heights():
    runner, heights = made(sample.drawer_side(), sample.drawer_side(PanelKind.RIGHT))
    assert (runner.against, runner.foot_on) == ("lower edge", "front edge")
    assert [one.along_mm for one in runner.marks] == [37.0, 69.0, 261.0, 389.0]
    assert (runner.offset_mm, *runner.also_mm) == (37.3, 217.4, 397.4, 577.45)
    assert (heights.against, heights.foot_on, heights.offset_mm) == ("front edge", "lower edge", 37.0)
    assert [one.along_mm for one in heights.marks] == [37.3, 217.4, 397.4, 577.45]


def test_one_stick_serves_both_sides():
    """Trap 40: both are counted from the front edge."""
    for stick in made(sample.drawer_side(), sample.drawer_side(PanelKind.RIGHT)):
        assert stick.panels == ("unit-1-left", "unit-1-right")
        assert "Turned over it serves the other side." in stick.words
        assert not any("only" in mark.words for mark in stick.marks)


def test_marks_carry_the_numbers_of_the_tables():
    runner, heights = made(sample.drawer_side(), sample.drawer_side(PanelKind.RIGHT))
    assert [one.words for one in runner.marks][:2] == ["runner 1, 5, 9 and 13", "runner 2, 6, 10 and 14"]
    assert [one.words for one in heights.marks] == ["runner 1", "runner 5", "runner 9", "runner 13"]


def test_plates_on_one_side_alone_say_so():
    plates = [
        sample.hole(f"p{v}", 37.0, v, 5.0, 13.0, HoleFor.PLATE, "door", "plate", row="plate-0") for v in (86.0, 118.0, 602.0, 634.0)
    ]  # fmt: skip
    left = sample.side(holes=(*sample.runner_holes(), *plates))
    (_, upright) = made(left, sample.drawer_side(PanelKind.RIGHT))
    words = {one.along_mm: one.words for one in upright.marks}
    assert words[86.0].startswith("hinge plate left side") and words[86.0].endswith("only")
    assert "only" not in words[37.3]


def test_the_front_row_of_the_grid_is_one_stick_and_the_rear_row_another():
    found = made(
        *(sample.side(kind, height_mm=2000.0, holes=sample.pin_holes()) for kind in (PanelKind.LEFT, PanelKind.RIGHT))
    )
    assert [(one.offset_mm, len(one.marks), one.length_mm) for one in found] == [
        (37.0, 60, 2000.0),
        (485.0, 60, 2000.0),
    ]


def test_what_is_struck_too_seldom_is_worth_no_stick():
    # One runner of two screws on one side: three holes or fewer are sooner marked from the table.
    few = sample.runner_holes((100.0,), (37.0, 69.0, 261.0))
    assert len(few) < LEAST_HOLES and made(sample.side(holes=few)) == ()
    assert made(*both(())) == ()


def test_a_hole_for_a_pipe_is_on_no_stick():
    pipes = tuple(
        sample.hole(f"w{v}", 500.0, v, 50.0, None, HoleFor.PASSAGE, "waste", "waste", row=None) for v in (100.0, 200.0)
    )
    assert made(*both(pipes)) == ()


def test_bottoms_backs_and_fronts_have_no_stick():
    assert made(sample.bottom(), sample.wide_back(), sample.door(), sample.rail()) == ()


def test_a_divider_drilled_alike_shares_the_stick():
    holes = sample.runner_holes()
    found = made(*both(holes), replace(sample.side(PanelKind.DIVIDER, holes=holes)))
    assert len(found) == 2 and all("unit-1-divider" in one.panels and "divider" in one.name for one in found)


def test_a_divider_drilled_otherwise_has_sticks_of_its_own():
    own = sample.side(PanelKind.DIVIDER, holes=sample.runner_holes((90.0, 300.0), (37.0, 133.0)))
    alike = sample.side(PanelKind.DIVIDER, holes=sample.runner_holes(), item="unit-2")
    found = made(*both(sample.runner_holes()), alike, own, replace(own, id="third"))
    assert [one.panels for one in found[2:]] == [("unit-1-divider", "third")]
    assert [one.id for one in found] == ["unit-1-stick-1", "unit-1-stick-2", "unit-1-stick-3"]


@settings(derandomize=True, deadline=None, max_examples=60)
@given(
    st.lists(st.integers(20, 690), min_size=1, max_size=6, unique=True),
    st.lists(st.integers(20, 540), min_size=2, max_size=5, unique=True),
)
def test_every_mark_is_a_hole_and_every_runner_line_of_both_sides_is_on_a_stick(lines, screws):
    holes = sample.runner_holes(sorted(map(float, lines)), sorted(map(float, screws)))
    wanted = {(one.u_mm, one.v_mm) for one in holes}
    found = made(*both(holes))
    marked = {place for stick in found for place in places(stick)}
    assert marked == wanted
    assert len({one.id for one in found}) == len(found)


def test_numbers_that_differ_are_told_side_by_side_with_one_blank_between_words():
    right = sample.drawer_side(PanelKind.RIGHT)
    fewer = replace(right, holes=tuple(one for one in right.holes if one.id != right.holes[0].id))
    words = [mark.words for stick in made(sample.drawer_side(), fewer) for mark in stick.marks]
    assert any("; " in one for one in words) and not any("  " in one for one in words)
