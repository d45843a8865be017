"""Shelf pins on the grid. FP: first principles; CP: common practice of the 32 mm system, which no standards body has."""

from dataclasses import replace

import pytest
from panel_boxes import LEFT, PIN, RIGHT, box, door, drawer, drilled, findings, part, places

from oddleg.job import BackIs, BottomFit, Box, FittingOut, HoleLimits, Shelf
from oddleg.plan.fitted_out import Face, HoleFor
from oddleg.plan.grid import grid_first_mm, line_mm, nearest_line
from oddleg.plan.shelf_holes import pin_rows_mm


def shelf(up_mm=300.0, id="s", **more):
    return Shelf(id, f"shelf {id}", up_mm, **{"pins": "pin-5", "spare": 0, **more})


def pins(made, id=LEFT, face=None):
    return places(made[id], HoleFor.PIN, face)


def test_a_balanced_grid_is_as_far_from_the_top_as_from_the_bottom():
    """CP: height = 32 n + 2 x first hole. 1056 with 64 gives n = 29; with the least first of 32 or more, n = 31."""
    assert (1056 - 2 * 64) / 32 == 29
    first_mm = grid_first_mm(box(height_mm=1056.0))
    assert first_mm == 32 and (1056 - 2 * first_mm) / 32 == 31
    # 720: n = 20 leaves 40 at both ends, n = 21 would leave 24.
    assert grid_first_mm(box()) == 40


def test_a_stated_first_hole_rules():
    here = box(height_mm=1056.0, fitting_out=FittingOut(grid_first_mm=64.0))
    assert grid_first_mm(here) == 64 and line_mm(here, 29) == 1056 - 64


def test_the_grid_starts_at_the_sides_lower_edge():
    under = box(height_mm=1056.0 + 18, box=Box(bottom=BottomFit.UNDER_SIDES))
    assert line_mm(under, 0) == 18 + 32


@pytest.mark.parametrize(("z_mm", "line"), [(40.0, 0), (56.0, 0), (56.1, 1), (72.0, 1), (0.0, 0), (71.9, 1)])
def test_of_two_equally_near_lines_the_lower_one_is_taken(z_mm, line):
    assert nearest_line(box(), z_mm) == line


def test_the_rear_row_is_the_greatest_multiple_of_the_pitch_that_keeps_its_distance():
    """FP: side 560, 37 kept before the rear edge: 560 - 37 - 37 = 486 = 15 x 32 + 6: 37 + 480 = 517. The back of 8 lies
    behind it at 552, far enough."""
    assert pin_rows_mm(box(), PIN, HoleLimits()) == (37, 37 + 15 * 32)


def test_the_rear_row_stays_in_front_of_a_back_that_is_set_in():
    """FP: back 8 set in 50: inside depth 502; rim of 2.5 and 3 of wood before it: 496.5; 37 + 14 x 32 = 485."""
    assert pin_rows_mm(box(box=Box(back_recess_mm=50.0)), PIN, HoleLimits()) == (37, 37 + 14 * 32)


def test_a_shelf_moves_to_the_nearest_line_and_lies_on_its_pins_middles():
    """FP: 300 over a bottom of 18 is 318; lines at 40 + 32 k: k = 9 is 328, k = 8 is 296: 10 against 22."""
    made = drilled(box(part("a", shelves=(shelf(300.0),))))
    assert pins(made) == pins(made, RIGHT) == [(37, 40 + 9 * 32), (517, 40 + 9 * 32)]
    board = made["shelf-a-s"]
    assert board.z_mm - board.thickness_mm == 40 + 9 * 32


def test_spare_holes_lie_above_and_below():
    heights = {v for _, v in pins(drilled(box(part("a", shelves=(shelf(300.0, spare=2),)))))}
    assert heights == {328 + 32 * k for k in (-2, -1, 0, 1, 2)}


def test_a_spare_line_of_which_one_hole_is_in_the_way_is_drilled_nowhere():
    """FP: a plate's screws at 328 + 32 and + 64, in the same row of 37, on the left only: a shelf there would lie on three
    pins, so both lines go, from both rows of both sides."""
    here = box(part("a", shelves=(shelf(300.0, spare=2),)))
    made = drilled(here, [door(compartment="a", cups_mm=(328.0 + 48,))])
    assert pins(made) == pins(made, RIGHT)
    for front in (True, False):
        assert [v for u, v in pins(made) if (u == 37) is front] == [328 - 64, 328 - 32, 328]


def test_spare_holes_stop_at_the_bottom():
    """FP: lowest line 40; the next one down would be 8, behind the bottom of 18."""
    assert min(v for _, v in pins(drilled(box(part("a", shelves=(shelf(20.0, spare=3),)))))) == 40


def test_two_shelves_share_a_spare_hole_and_it_is_drilled_once():
    made = drilled(box(part("a", shelves=(shelf(300.0, spare=2), shelf(364.0, "t", spare=2)))))
    at = pins(made)
    assert len(at) == len(set(at)) == 2 * 7


def test_a_fixed_shelf_has_no_pins():
    assert pins(drilled(box(part("a", shelves=(shelf(fixed=True),))))) == []


def test_pins_back_to_back_in_a_divider_are_one_hole_right_through():
    """FP: twice 12 deep is more than the 18 that the divider has."""
    made = drilled(box(part("a", shelves=(shelf(),)), part("b", shelves=(shelf(),))))
    holes = made["divider-1"].holes
    assert [one.depth_mm for one in holes] == [None, None]
    assert "right through" in holes[0].words
    assert findings(box(part("a", shelves=(shelf(),)), part("b", shelves=(shelf(),)))) == ()
    # In a divider of 28 each has wood of its own: 28 - 24 = 4.
    thick = FittingOut(divider_mm=28.0)
    made = drilled(box(part("a", shelves=(shelf(),)), part("b", shelves=(shelf(),)), fitting_out=thick))
    assert [one.depth_mm for one in made["divider-1"].holes] == [12.0] * 4
    assert len(pins(made, "divider-1", Face.OTHER)) == 2


def test_a_shelf_without_a_second_row_of_pins_is_told():
    found = findings(box(part("a", shelves=(shelf(),)), depth_mm=90.0, box=Box(back=BackIs.ON)))
    assert "hole.no_rear_row" in {one.rule for one in found}


def test_a_shelf_set_back_behind_its_pins_is_told():
    assert "hole.pin_before_shelf" in {
        one.rule for one in findings(box(part("a", shelves=(shelf(set_back_mm=50.0),))))
    }


def test_shelves_that_the_grid_puts_into_one_another_are_told():
    """FP: 300 and 316 over the bottom are 318 and 334, both nearest to the line at 328."""
    found = findings(box(part("a", shelves=(shelf(300.0), shelf(316.0, "t")))))
    rules = [one.rule for one in found]
    assert rules == ["panel.shelves_meet"]
    assert "down by 6" in found[0].wrong


def test_a_shelf_above_the_top_is_told():
    assert [one.rule for one in findings(box(part("a", shelves=(shelf(700.0, fixed=True),))))] == ["panel.shelf_outside"]


def test_a_runner_behind_a_shelf_is_told():
    here = box(part("a", shelves=(shelf(200.0, fixed=True),)))
    # Shelf from 218 to 236; the runner's line at 230.
    found = findings(here, drawers=[drawer("d", 230.0, "a")], rows=[replace(PIN)])
    assert "hole.runner_meets_shelf" in {one.rule for one in found}
    assert "hole.under_board" in {one.rule for one in found}
    assert findings(here, drawers=[drawer("d", 300.0, "a")]) == ()
