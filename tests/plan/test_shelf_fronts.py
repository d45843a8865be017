"""Shelves behind fronts that stand in the opening. First principles."""

import pytest
from datum_rooms import job_of, room_of
from hardware_rows import carcass, compartment, every_row, member, stack

from oddleg.job import Front, FrontFit, FrontIs, Shelf
from oddleg.plan.carcass_box import carcass_box
from oddleg.plan.front_stacks import filled

INSET = Front(FrontFit.INSET, 18.0, set_back_mm=2.0)


def told(front, *members, up_mm=300.0, **shelf):
    one = Shelf("s", "shelf", up_mm, fixed=True, **shelf)
    box = carcass_box(carcass("b60", compartment(stack=stack(*members), shelves=(one,)), front=front))
    return [
        one for one in filled(job_of(room_of()), box, every_row()).findings if one.rule == "panel.shelf_meets_front"
    ]


def fixed(id="front", **more):
    return member(id, front=FrontIs.FIXED, **more)


@pytest.mark.parametrize(("set_back_mm", "short"), [(0.0, "20"), (19.9, "0.1"), (20.0, None), (30.0, None)])
def test_a_shelf_stands_back_behind_an_inset_front(set_back_mm, short):
    """A front 18 thick, set back 2, reaches to 20."""
    found = told(INSET, fixed(), set_back_mm=set_back_mm)
    assert [one.amount.text for one in found] == ([short] if short else [])
    assert all(one.severity.value == "stop" and "20 or more" in one.cure for one in found)


def test_an_overlay_front_leaves_a_shelf_where_it_is():
    assert told(Front(FrontFit.OVERLAY, 18.0, set_back_mm=2.0), fixed()) == []


def test_in_a_face_frame_it_is_a_warning():
    (found,) = told(Front(FrontFit.FRAME, 18.0, set_back_mm=2.0, frame_thickness_mm=20.0), fixed(), set_back_mm=10.0)
    assert found.severity.value == "warn" and found.amount.mm == 18 + 2 + 20 - 10


def test_only_the_front_before_the_shelf_counts_and_a_niche_has_none():
    """A niche of 300 from the top, a front below it: 684 - 300 - 3 gaps of 3 is 375, so it reaches up to 18 + 3 + 375."""
    niche = member("niche", front=FrontIs.SPACE, height_mm=300.0)
    assert told(INSET, niche, fixed(), up_mm=500.0) == []
    assert len(told(INSET, niche, fixed(), up_mm=200.0)) == 1
