"""Which faces of a panel are worked from, and how its holes are numbered; panels made by hand (sample_panels)."""

from dataclasses import replace

import sample_panels as sample

from oddleg.plan.fitted_out import Face, HoleFor, PanelKind
from oddleg.plan.panel_views import COUNTED_FROM, counted_from, numbered_holes, views


def table(panel):
    return [(one.number, one.hole.u_mm, one.hole.v_mm, one.hole.diameter_mm) for one in numbered_holes(panel)]


def test_left_and_right_have_equal_tables_and_mirrored_drawings():
    """Trap 40: depth 560, first hole 37 on both; 523 = 560 - 37 is where a numeric mirror would drill."""
    left, right = sample.drawer_side(), sample.drawer_side(PanelKind.RIGHT)
    assert table(left) == table(right)
    (on_left,), (on_right,) = views(left), views(right)
    assert {one.hole.u_mm for one in on_right.holes} >= {37.0} and 560.0 - 37.0 not in {
        one.hole.u_mm for one in on_right.holes
    }
    assert (on_left.x_mm(37.0), on_right.x_mm(37.0)) == (37.0, 523.0)
    assert (on_left.front_edge, on_right.front_edge) == ("left", "right")


def test_numbers_run_from_the_lowest_and_keep_together_what_serves_one_thing():
    served = [one.hole.of for one in numbered_holes(sample.drawer_side())]
    assert served == [f"drawer-{n}" for n in (1, 2, 3, 4) for _ in range(4)]
    # Pins stand in two columns: up the first, then up the second.
    pins = [one.hole for one in numbered_holes(sample.tall_side()) if one.hole.of == "shelf-1"]
    assert [one.u_mm for one in pins] == [37.0] * 60 + [485.0] * 60
    assert [one.v_mm for one in pins[:60]] == sorted(one.v_mm for one in pins[:60])


def test_numbers_do_not_depend_on_the_order_of_holes():
    panel = sample.tall_side()
    assert numbered_holes(replace(panel, holes=panel.holes[::-1])) == numbered_holes(panel)


def test_a_bottom_with_legs_is_worked_from_its_underside_mirrored_with_the_front_towards_you():
    (view,) = views(sample.bottom())
    assert (view.face, view.mirrored, view.front_edge) == (Face.OTHER, True, "bottom")
    # 564 wide: what is 60 from the carcass's left lies 504 from the left of that drawing.
    assert view.x_mm(60.0) == 564.0 - 60.0
    assert view.field == "panel-unit-1-bottom"
    # Turned over, front edge still towards you, its left edge lies at your right: FP, said wherever figures count from it.
    assert counted_from(view) == ("left edge, now on your RIGHT", "front edge")
    (back,) = views(sample.wide_back())
    assert counted_from(back) == ("left edge", "lower edge")


def test_a_divider_is_worked_from_both_faces_and_a_hole_right_through_is_drilled_once():
    first, second = views(sample.divider())
    assert (first.mirrored, second.mirrored) == (True, False)
    assert (first.field, second.field) == ("panel-unit-1-divider", "panel-unit-1-divider-other")
    through = [one for one in first.holes if one.hole.depth_mm is None]
    assert [one.hole.id for one in through] == ["pass"]
    assert second.from_behind == tuple(through) and not first.from_behind
    assert len(first.holes) + len(second.holes) == len(sample.divider().holes)


def test_a_board_with_nothing_to_mark_has_no_view():
    assert views(replace(sample.rail(), holes=())) == ()
    assert [one.face for one in views(sample.wide_back())] == [Face.SHOWN]


def test_every_kind_of_board_says_where_it_is_counted_from():
    assert set(COUNTED_FROM) == set(PanelKind)


def test_what_both_sides_have_alike_has_equal_numbers_whatever_else_is_on_one():
    plates = tuple(
        sample.hole(f"p{v}", 37.0, v, 5.0, 13.0, HoleFor.PLATE, "door", "plate") for v in (2.0, 34.0)
    )  # fmt: skip
    left = sample.side(holes=(*plates, *sample.runner_holes()))
    right = sample.drawer_side(PanelKind.RIGHT)
    assert table(left)[: len(right.holes)] == table(right)
