"""Spacers that inner drawers need past an open door. First principles."""

from dataclasses import replace

import pytest
from datum_rooms import job_of, room_of
from hardware_rows import HINGE, carcass, compartment, every_row, member, stack

from oddleg.job import Front, FrontFit, HungOn, InnerDrawer
from oddleg.plan.carcass_box import carcass_box
from oddleg.plan.front_stacks import filled

INSIDE_MM = 600.0 - 2 * 18


def behind(spacer_mm, intrusion_mm=22.0, hung=HungOn.LEFT, set_back_mm=0.0, front=None):
    door = member("door", hung=hung, hinge="hinge-110", plate="plate-0")
    inner = InnerDrawer("inner", "inner drawer", 200.0, 120.0, "runner-500", spacer_mm, set_back_mm)
    item = carcass("b60", compartment(stack=stack(door), inner_drawers=(inner,)), front=front or Front())
    found = filled(job_of(room_of()), carcass_box(item), every_row(replace(HINGE, intrusion_mm=intrusion_mm)))
    return found, [one for one in found.findings if one.rule == "drawer.needs_spacer"]


@pytest.mark.parametrize(("has_mm", "short"), [(0.0, "22"), (8.0, "14"), (21.9, "0.1"), (22.0, None), (30.0, None)])
def test_a_spacer_is_as_thick_as_the_open_door_stands_in(has_mm, short):
    """Both count from the side's inside face, and the drawer's own side lies within what its chart takes beside it: so
    nothing of that can be counted off."""
    _, said = behind(has_mm)
    assert [one.amount.text for one in said] == ([short] if short else [])
    assert all("a spacer of 22 or more" in one.cure and "both sides" in one.cure for one in said)


def test_a_hinge_that_swings_the_door_clear_asks_for_none():
    assert behind(0.0, intrusion_mm=0.0)[1] == []


@pytest.mark.parametrize("hung", list(HungOn))
def test_it_is_asked_for_once_whatever_side_the_door_hangs_on(hung):
    assert len(behind(0.0, hung=hung)[1]) == 1


def test_spacers_come_off_the_drawers_width_on_both_sides_so_that_it_stays_in_the_middle():
    found, _ = behind(22.0)
    (drawer,) = found.drawers
    assert drawer.right_mm - drawer.left_mm == INSIDE_MM - 2 * 22
    assert (drawer.left_mm + drawer.right_mm) / 2 == 300


def test_a_drawer_behind_an_inset_door_is_set_back_behind_its_back_face():
    """Door 18 set back 2 reaches to 20."""
    inset = Front(FrontFit.INSET, 18.0, set_back_mm=2.0)
    near = [one for one in behind(22.0, set_back_mm=15.0, front=inset)[0].findings if one.rule == "drawer.meets_door"]
    assert [one.amount.text for one in near] == ["5"]
    clear, _ = behind(22.0, set_back_mm=20.0, front=inset)
    assert "drawer.meets_door" not in [one.rule for one in clear.findings]
    assert clear.drawers[0].first_mm == 20 + 37
