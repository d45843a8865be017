"""Cups in doors and plates in sides. FP: first principles; CP: common practice."""

import pytest
from panel_boxes import HINGE, LEFT, RIGHT, box, door, drilled, part, places

from oddleg.job import BottomFit, Box, HungOn
from oddleg.plan.fitted_out import Face, HoleFor


def test_height_counts_from_the_panel_and_not_from_the_door():
    """FP: a door of 715 on 720 with reveals 3 and 2; cup 100 up the door: plate at 102, holes 32 apart: 86 and 118."""
    leaf = door(foot_mm=2.0, height_mm=715.0, cups_mm=(100.0,))
    assert [v for _, v in places(drilled(box(), [leaf])[LEFT])] == [86, 118]
    cup = places(drilled(box(), [leaf])["front-door"], HoleFor.CUP)[0]
    assert cup[1] == 100


def test_with_the_bottom_under_the_sides_it_is_84():
    """FP: plate's middle at 102 - 18 = 84 up the side."""
    under = box(box=Box(bottom=BottomFit.UNDER_SIDES))
    at = [v for _, v in places(drilled(under, [door(foot_mm=2.0, cups_mm=(100.0,))])[LEFT])]
    assert sum(at) / 2 == 84


def test_the_cups_centre_is_its_edge_distance_and_half_the_cup():
    """CP: edge distance 5 and a cup of 35: 5 + 17.5 = 22.5 from the door's hinge edge."""
    left = drilled(box(), [door(hung=HungOn.LEFT, width_mm=597.0, edge_mm=5.0)])["front-door"]
    right = drilled(box(), [door(hung=HungOn.RIGHT, width_mm=597.0, edge_mm=5.0)])["front-door"]
    # Seen from behind, a door hung on the left has its hinge edge on the right.
    assert places(left, HoleFor.CUP)[0][0] == 597 - 22.5
    assert places(right, HoleFor.CUP)[0][0] == 22.5


def test_the_cups_screws_lie_further_in_from_the_hinge_edge():
    panel = drilled(box(), [door(hung=HungOn.RIGHT, cups_mm=(100.0,))])["front-door"]
    in_mm = 22.5 + HINGE.screws_back_mm
    assert places(panel, HoleFor.CUP_SCREW) == [(in_mm, 100 - 45 / 2), (in_mm, 100 + 45 / 2)]
    panel = drilled(box(), [door(hung=HungOn.LEFT, cups_mm=(100.0,))])["front-door"]
    assert {u for u, _ in places(panel, HoleFor.CUP_SCREW)} == {597 - in_mm}


@pytest.mark.parametrize(("hung", "on", "off"), [(HungOn.LEFT, LEFT, RIGHT), (HungOn.RIGHT, RIGHT, LEFT)])
def test_plates_are_on_the_side_that_the_door_hangs_on(hung, on, off):
    made = drilled(box(), [door(hung=hung)])
    assert len(places(made[on])) == 2 * 2 and places(made[off]) == []


def test_a_pair_hangs_on_both_sides():
    pair = [
        door("door-left", HungOn.LEFT, width_mm=297.0),
        door("door-right", HungOn.RIGHT, width_mm=297.0, left_mm=301.5),
    ]
    made = drilled(box(), pair)
    assert places(made[LEFT]) == places(made[RIGHT]) != []


def test_an_inset_door_takes_its_plates_back():
    """CP: thickness 18 and set-back 2 inside the opening: 37 + 18 + 2 = 57."""
    made = drilled(box(), [door(stands_mm=18.0 + 2)])
    assert {u for u, _ in places(made[LEFT])} == {37 + 18 + 2}


def test_plate_and_cup_are_at_one_height():
    made = drilled(box(), [door(foot_mm=2.0, cups_mm=(97.0, 400.0, 620.0))])
    side, front = made[LEFT], made["front-door"]
    cups = [front.z_mm + v for _, v in places(front, HoleFor.CUP)]
    plates = [side.z_mm + v for _, v in places(side, HoleFor.PLATE)]
    assert [(a + b) / 2 for a, b in zip(plates[::2], plates[1::2], strict=True)] == cups


def test_a_door_on_a_divider_has_its_plates_on_the_face_that_looks_into_its_compartment():
    made = drilled(box(part("a"), part("b")), [door("d", HungOn.LEFT, "b", foot_mm=2.0, cups_mm=(100.0,))])
    assert places(made["divider-1"], face=Face.OTHER) == [(37, 86 - 18), (37, 118 - 18)]
    assert places(made["divider-1"], face=Face.SHOWN) == []
