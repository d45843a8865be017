"""Boards of a carcass and where their sizes come from. FP: first principles, written as arithmetic."""

import pytest
from panel_boxes import BACK, BOTTOM, LEFT, RIGHT, box, door, drilled, part

from oddleg.job import BackIs, BottomFit, Box, FrontIs, Shelf, TopIs
from oddleg.plan.meeting_boards import extents_mm
from oddleg.plan.panels_part import groove_words


def sizes(panel):
    return panel.width_mm, panel.height_mm, panel.thickness_mm


def test_sides_stand_full_height_beside_a_bottom_that_lies_between_them():
    made = drilled(box())
    assert sizes(made[LEFT]) == sizes(made[RIGHT]) == (560, 720, 18)
    assert sizes(made[BOTTOM]) == (600 - 2 * 18, 560, 18)
    assert sizes(made["top"]) == (600 - 2 * 18, 560, 18)


def test_sides_stand_on_a_bottom_that_lies_under_them():
    made = drilled(box(box=Box(bottom=BottomFit.UNDER_SIDES)))
    assert sizes(made[LEFT]) == (560, 720 - 18, 18)
    assert made[LEFT].z_mm == 18
    assert sizes(made[BOTTOM]) == (600, 560, 18)


def test_a_back_between_in_a_groove_and_on():
    inside = (600 - 36, 720 - 36)
    assert sizes(drilled(box(box=Box(back=BackIs.BETWEEN)))[BACK])[:2] == inside
    groove = Box(back=BackIs.GROOVE, groove_mm=8.0, back_recess_mm=50.0)
    assert sizes(drilled(box(box=groove))[BACK])[:2] == (inside[0] + 2 * 8, inside[1] + 2 * 8)
    on = drilled(box(box=Box(back=BackIs.ON, back_mm=8.0)))
    assert sizes(on[BACK])[:2] == (600, 720)
    assert on[LEFT].width_mm == 560 - 8


def test_rails_instead_of_a_top_lie_at_the_front_and_before_the_back():
    made = drilled(box(box=Box(top=TopIs.RAILS, rail_mm=100.0, back_mm=8.0, back_recess_mm=50.0)))
    assert "top" not in made
    assert sizes(made["front_rail"]) == sizes(made["back_rail"]) == (564, 100, 18)
    assert made["front_rail"].u_mm == 0
    assert made["back_rail"].u_mm + 100 == 560 - 8 - 50
    # The back runs up behind the rails.
    assert made[BACK].z_mm + made[BACK].height_mm == 720


def test_a_divider_stands_between_bottom_and_top_before_the_back():
    made = drilled(box(part("a", width_mm=300.0), part("b"), box=Box(back_mm=8.0, back_recess_mm=20.0)))
    assert sizes(made["divider-1"]) == (560 - 28, 720 - 36, 18)
    assert (made["divider-1"].x_mm, made["divider-1"].z_mm) == (18 + 300, 18)


def test_a_shelf_fills_its_compartment_and_stands_back():
    shelf = Shelf("s", "shelf", 300.0, fixed=True, set_back_mm=5.0, thickness_mm=25.0)
    made = drilled(box(part("a", width_mm=300.0), part("b", shelves=(shelf,)), box=Box(back_mm=8.0)))
    board = made["shelf-b-s"]
    assert sizes(board) == (564 - 300 - 18, 560 - 8 - 5, 25)
    # Its upper face: bottom 18, 300 up to its underside, its own 25.
    assert (board.x_mm, board.u_mm, board.z_mm) == (18 + 300 + 18, 5, 18 + 300 + 25)


@pytest.mark.parametrize(("more", "wide_mm"), [({}, 564 - 2), ({"clear_mm": 0.5}, 564 - 1), ({"fixed": True}, 564)])
def test_a_shelf_that_is_not_fixed_is_cut_short_of_the_inside_at_either_end(more, wide_mm):
    """Common practice: a board as wide as its opening does not go in. It stays in the middle."""
    board = drilled(box(part("a", shelves=(Shelf("s", "shelf", 300.0, **more),))))["shelf-a-s"]
    assert board.width_mm == wide_mm
    assert board.x_mm + board.width_mm / 2 == 600 / 2


def test_a_front_is_told_from_behind_so_it_starts_at_its_right_edge():
    front = drilled(box(), [door(left_mm=1.5, width_mm=597.0)])["front-door"]
    assert (front.x_mm, front.width_mm) == (1.5 + 597, 597)


def test_a_place_without_a_front_has_no_board():
    assert "front-niche" not in drilled(box(), [door("niche", None, front=FrontIs.SPACE, hinge=None)])


def test_what_comes_out_at_nought_or_less_is_no_board():
    made = drilled(box(part("a", width_mm=500.0), part("b", shelves=(Shelf("s", "shelf", 300.0, fixed=True),)), width_mm=500.0))
    assert "shelf-b-s" not in made
    assert min(min(sizes(one)) for one in made.values()) > 0


@pytest.mark.parametrize("fit", list(BottomFit))
def test_boards_do_not_lie_in_one_another(fit):
    """FP: boxes that meet share a face and no room; only a groove lets one board into another."""
    shelf = Shelf("s", "shelf", 300.0, fixed=True)
    for top in TopIs:
        for back in (BackIs.BETWEEN, BackIs.ON):
            made = list(
                drilled(
                    box(part("a", shelves=(shelf,)), part("b"), box=Box(bottom=fit, top=top, back=back, back_recess_mm=20.0)),
                    [door(compartment="a")],
                ).values()
            )
            for i, one in enumerate(made):
                for other in made[i + 1 :]:
                    if {one.id, other.id} == {"front_rail", "back_rail"}:
                        continue
                    shared = [
                        min(a[1], b[1]) - max(a[0], b[0])
                        for a, b in zip(extents_mm(one), extents_mm(other), strict=True)
                    ]
                    assert min(shared) <= 1e-9, (one.id, other.id)


def test_a_groove_for_the_back_lies_where_the_inside_ends_in_sides_bottom_and_top():
    """FP: 560 deep, back 8 set in by 20: its inside face is 560 - 20 - 8 = 532 behind the front edge."""
    made = drilled(box(box=Box(back_mm=8.0, back_recess_mm=20.0, back=BackIs.GROOVE, groove_mm=10.0)))
    assert {id for id, one in made.items() if one.groove is not None} == {LEFT, RIGHT, BOTTOM, "top"}
    groove = made[LEFT].groove
    assert (groove.from_mm, groove.width_mm, groove.depth_mm) == (532.0, 8.0, 10.0) and made["top"].groove == groove
    assert groove_words(made[LEFT], 0.1) == "Groove for the back on the inside face: begins 532 behind the front edge, 8 wide, 10 deep."
    assert all(one.groove is None for one in drilled(box()).values())
