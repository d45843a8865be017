"""The 32 mm system: bellinghambaywoodcraft.com, "32mm"; 32mm.dalrun.com; woodweb.com, "Odd cabinet heights".

Pitch 32, hole 5, front row 37 behind the front edge, rear row a multiple of 32 behind it, mounting plates on two holes
32 apart; balanced panel: height = 32 n + 2 x first hole, 1056 with 64 gives n = 29. No standards body defines it.
"""

import pytest
from panel_boxes import LEFT, PIN, PLATE, box, door, drilled, part, places

from oddleg.charts import shipped_rows
from oddleg.job import FittingOut, HoleLimits, Pin, Plate, Runner, Shelf
from oddleg.plan.grid import PITCH_MM, line_mm
from oddleg.plan.shelf_holes import pin_rows_mm

BALANCED = FittingOut(grid_first_mm=64.0)


def test_a_balanced_panel_of_1056_with_64_has_29_spaces():
    here = box(height_mm=1056.0, fitting_out=BALANCED)
    assert PITCH_MM == 32
    assert line_mm(here, 0) == 64
    assert line_mm(here, 29) == 1056 - 64


def test_a_panel_that_states_no_first_hole_is_balanced_too():
    here = box(height_mm=1056.0)
    below_mm = line_mm(here, 0)
    spaces = (1056 - 2 * below_mm) / 32
    assert spaces == int(spaces) and below_mm >= 32


def test_rows_of_pins_are_37_behind_the_front_edge_and_a_multiple_of_32_behind_that():
    front_mm, rear_mm = pin_rows_mm(box(), PIN, HoleLimits())
    assert front_mm == 37 and (rear_mm - front_mm) % 32 == 0


def test_a_plate_takes_two_holes_of_the_grid():
    """Its middle is between two lines: 64 + 16."""
    here = box(part("a", shelves=(Shelf("s", "shelf", 500.0, pins="pin-5"),)), height_mm=1056.0, fitting_out=BALANCED)
    side = drilled(here, [door(compartment="a", cups_mm=(64.0 + 16,))])[LEFT]
    assert PLATE.spread_mm == 32 and {one.diameter_mm for one in side.holes} == {5.0}
    assert all((v - 64) % 32 == 0 for _, v in places(side))


SHIPPED = shipped_rows()
PINS = [one for one in SHIPPED if isinstance(one, Pin)]
PLATES = [one for one in SHIPPED if isinstance(one, Plate)]
RUNNERS = [one for one in SHIPPED if isinstance(one, Runner)]


@pytest.mark.parametrize("pin", PINS, ids=lambda one: one.id)
def test_shipped_pins_stand_in_rows_37_behind_the_front_edge_on_a_pitch_of_32(pin):
    assert (pin.row_mm, pin.pitch_mm) == (37, 32)
    for depth_mm in (300.0, 350.0, 560.0, 580.0):
        front_mm, rear_mm = pin_rows_mm(box(depth_mm=depth_mm), pin, HoleLimits())
        assert front_mm == 37 and rear_mm > front_mm and (rear_mm - front_mm) % 32 == 0


def test_there_is_a_shipped_pin_for_holes_of_5():
    assert 5 in {one.hole_mm for one in PINS}


@pytest.mark.parametrize("plate", PLATES, ids=lambda one: one.id)
def test_shipped_plates_take_two_holes_of_5_on_the_row_of_37(plate):
    assert (plate.row_mm, plate.spread_mm, plate.hole_mm) == (37, 32, 5)


@pytest.mark.parametrize("runner", RUNNERS, ids=lambda one: one.id)
def test_shipped_runners_are_screwed_into_holes_of_the_rows(runner):
    """Holes of 5, the first in the row of 37, the others a multiple of 32 behind it."""
    assert (runner.first_mm, runner.hole_mm) == (37, 5)
    assert all(screw_mm % 32 == 0 for screw_mm in runner.screws_mm)
