"""The sum of a room's drilling: bits, depth stops, screws and pins, counted by hand. First principles."""

from dataclasses import replace

import pytest
import sample_plan
from hardware_rows import carcass, compartment, every_row, hinge, member, pin, plate, stack

from oddleg.job import FittingOut, FrontIs, HungOn, Shelf
from oddleg.plan.carcass_box import carcass_box
from oddleg.plan.drilling_part import drilling_part, has_holes
from oddleg.plan.fitted_out import FittedOut
from oddleg.plan.fitting import RoomFitting
from oddleg.plan.front_stacks import filled
from oddleg.plan.panels import panels
from oddleg.plan.room_services import RoomServices

KNOWN = every_row()
DOOR = member("door", hung=HungOn.LEFT, hinge="hinge-110", plate="plate-0")


def part(*items, known=KNOWN):
    job = sample_plan.job()
    units = []
    for item in items:
        box = carcass_box(item)
        fronts = filled(job, box, known)
        units.append(FittedOut(item.id, None, item.name, box, panels=panels(job, box, known, fronts, (), ())))
    room = replace(sample_plan.room_plan(), fitting=RoomFitting(tuple(units), RoomServices()), hardware=known)
    return drilling_part(sample_plan.plan(room), room), room


def counts(found):
    return {one["words"].rsplit(":", 1)[0]: one["count"] for one in found["screws"]}


def bits(found):
    return [(one["diameter"]["mm"], one["stop"] and one["stop"]["mm"], one["holes"]) for one in found["bits"]]


def test_a_door_takes_two_screws_a_cup_and_two_a_plate_and_none_for_the_cup():
    """720 high and 720 x 597 x 20 at 750 kg/m3 is 6.4 kg: two hinges."""
    found, room = part(carcass("b60", compartment(stack=stack(DOOR))))
    assert has_holes(room)
    assert counts(found) == {"hinge 110": 2 * 2, "plate 0": 2 * 2}
    assert bits(found) == [(2.5, 10.0, 4), (5.0, 12.0, 4), (35.0, 12.5, 2)]


@pytest.mark.parametrize("spare", [0, 2, 4])
def test_a_shelf_lies_on_four_pins_however_many_holes_are_spare(spare):
    """Two rows on either side; each spare line above and below has four holes more, and no pin."""
    found, _ = part(carcass("b60", compartment(shelves=(Shelf("s", "shelf", 350.0, pins="pin-5", spare=spare),))))
    assert counts(found) == {pin().name: 4}
    assert bits(found) == [(5.0, 12.0, 4 * (1 + 2 * spare))]


def test_two_shelves_on_one_divider_have_eight_pins_though_holes_go_right_through():
    """Pins of 12 from both faces of 18 meet: two holes right through serve four pins of the divider."""
    shelf = Shelf("s", "shelf", 350.0, pins="pin-5", spare=0)
    halves = (compartment("one", shelves=(shelf,)), compartment("two", shelves=(replace(shelf, id="t"),)))
    found, _ = part(carcass("b60", *halves))
    assert counts(found) == {pin().name: 2 * 4}
    assert bits(found) == [(5.0, 12.0, 4), (5.0, None, 2)]


def test_drawers_and_legs_of_two_units_are_summed():
    """Three screws a runner on either side; four legs of four screws. Two of the same: twice that."""
    drawer = member("drawer", front=FrontIs.DRAWER, runner="runner-500")
    one = carcass("b60", compartment(stack=stack(drawer)), fitting_out=FittingOut(leg="leg-150"))
    found, _ = part(one, replace(one, id="b61"))
    assert counts(found) == {"runner 500": 2 * 2 * 3, "leg 150": 2 * 4 * 4}
    assert bits(found) == [(3.0, 12.0, 32), (5.0, 12.0, 12)]
    assert [unit["holes"] for unit in found["units"]] == [6 + 16, 6 + 16]


def test_rows_of_two_kinds_with_one_id_keep_their_own_names():
    """Ids are given within a kind."""
    known = every_row(hinge(id="standard", name="the hinge"), plate(id="standard", name="the plate"))
    door = replace(DOOR, hinge="standard", plate="standard")
    found, _ = part(carcass("b60", compartment(stack=stack(door))), known=known)
    assert counts(found) == {"the hinge": 4, "the plate": 4}
