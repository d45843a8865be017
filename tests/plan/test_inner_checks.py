"""Drawers and frames behind doors. First principles; figures of charts are invented."""

import dataclasses

import pytest
from hardware_rows import carcass, compartment, every_row, hinge, member, pull_out, runner, stack
from sample_room import job, room, run

from oddleg.job import Front, FrontFit, FrontIs, HungOn, InnerDrawer, InnerPullOut, Shelf
from oddleg.plan.carcass_box import carcass_box
from oddleg.plan.front_stacks import filled

# Its line 55 over its space's lower edge; it reaches from 26 below the line to 80 above it.
LOW = runner(up_mm=55.0, below_mm=26.0, above_mm=80.0)
# A hinge that swings the door clear, so that no spacer comes into it.
CLEAR = hinge(intrusion_mm=0.0)
BINS = pull_out(id="bins", least_width_mm=540.0, greatest_width_mm=564.0, least_depth_mm=500.0, least_height_mm=420.0)


def door(hung=HungOn.LEFT, **more):
    return member("door", hung=hung, **{"hinge": "hinge-110", "plate": "plate-0", **more})


def inner(up_mm=150.0, **more):
    return InnerDrawer("inner", "inner drawer", up_mm, **{"height_mm": 140.0, "runner": "runner-500", **more})


def fill(*members, drawers=(), frames=(), shelves=(), rows=(LOW, CLEAR, BINS), side_mm=1.5, **item):
    part = compartment(stack=stack(*members, side_mm=side_mm), inner_drawers=drawers, pull_outs=frames, shelves=shelves)
    box = carcass_box(carcass("b60", part, **item))
    return filled(job(room(run(box.item))), box, every_row(*rows))


def wrong(found):
    return {one.rule: one for one in found.findings}


def test_an_inner_drawers_line_counts_from_the_bottoms_upper_face():
    """18 + 150 + 55."""
    found = fill(door(), drawers=(inner(),))
    (one,) = found.drawers
    assert (one.line_mm, one.front, one.first_mm) == (18 + 150 + 55, None, 37)
    assert not wrong(found)


def test_a_set_back_takes_its_runner_back():
    (one,) = fill(door(), drawers=(inner(set_back_mm=25.0),)).drawers
    assert (one.first_mm, one.front_u_mm, one.rear_u_mm) == (37 + 25, 25, 25 + 513)


def test_a_space_lower_than_the_runner_reaches_is_told():
    """55 + 80 = 135 over its lower edge, in a space of 120."""
    found = wrong(fill(door(), drawers=(inner(height_mm=120.0),)))["drawer.space_too_low"]
    assert found.amount.mm == 135 - 120


def test_no_drawer_comes_out_behind_a_front_that_does_not_open():
    found = fill(member("fixed", front=FrontIs.FIXED), drawers=(inner(),))
    assert "drawer.behind_fixed" in wrong(found)


@pytest.mark.parametrize(("up_mm", "met"), [(5.9, False), (6.1, True), (27.0, True), (47.9, True), (48.1, False)])
def test_a_runner_that_lies_where_a_plate_is_is_told(up_mm, met):
    """The plate's middle at 100, its screws 32 apart and 5 in diameter: from 81.5 to 118.5; the runner's screws, 5 too,
    take 2.5 on either side of the line at 18 + 55 + up: it meets from 79 to 121."""
    assert (79 < 18 + 55 + up_mm < 121) is met
    found = fill(door(), drawers=(inner(up_mm, height_mm=150.0),))
    assert ("drawer.level_with_hinge" in wrong(found)) is met


def test_a_strip_under_the_runner_is_higher_than_the_runners_screws():
    """A strip of 50 reaches 25 either way: with the line at 18 + 70 + 55 = 143 from 118, and the plate ends at 118.5."""
    found = wrong(fill(door(), drawers=(inner(70.0, spacer_mm=10.0),)))["drawer.level_with_hinge"]
    assert found.amount.mm == 118.5 - 118
    assert "drawer.level_with_hinge" not in wrong(fill(door(), drawers=(inner(70.0),)))


def test_a_frame_is_held_to_the_inside_less_its_spacers():
    """564 inside; spacers of 13 leave 538 of the 540 that it needs."""
    assert not wrong(fill(door(), frames=(InnerPullOut("bin", "bin", "bins"),)))
    found = wrong(fill(door(), frames=(InnerPullOut("bin", "bin", "bins", 13.0),)))["pull_out.too_little_width"]
    assert found.amount.mm == 540 - 538


def test_a_frame_in_too_wide_an_inside_is_to_be_packed_out():
    """764 inside, at most 564: 100 on each side."""
    found = wrong(fill(door(), frames=(InnerPullOut("bin", "bin", "bins"),), width_mm=800.0))["pull_out.too_wide"]
    assert found.amount.mm == 200 and "by 100 on each side" in found.cure


def test_a_frame_is_held_to_depth_and_height():
    """500 - 8 = 492 deep; a shelf 350 up leaves 350."""
    frame = (InnerPullOut("bin", "bin", "bins"),)
    found = wrong(fill(door(), frames=frame, shelves=(Shelf("s", "shelf", 350.0, True),), depth_mm=500.0))
    assert found["pull_out.too_little_depth"].amount.mm == 500 - 492
    assert found["pull_out.too_little_height"].amount.mm == 420 - 350
    assert "below shelf" in found["pull_out.too_little_height"].wrong


def test_a_frame_with_a_front_of_its_own_is_held_to_the_same():
    front = member("bin", front=FrontIs.PULL_OUT, pull_out="bins")
    assert not wrong(fill(front))
    assert "pull_out.too_little_width" in wrong(fill(front, width_mm=500.0))


@pytest.mark.parametrize(("bottom_mm", "fit", "off_mm"), [(0.0, FrontFit.OVERLAY, None), (3.0, FrontFit.OVERLAY, 3), (0.0, FrontFit.INSET, 18 + 2)])
def test_a_front_that_does_not_end_at_the_underside_is_held_to_its_frame_first(bottom_mm, fit, off_mm):
    """FP: the frame stands on the bottom of 18; an inset front ends 2 above that, one with a reveal of 3 ends 3 up."""
    front = member("bin", front=FrontIs.PULL_OUT, pull_out="bins")
    part = compartment(stack=stack(front, gap_mm=2.0, side_mm=2.0, bottom_mm=bottom_mm))
    box = carcass_box(carcass("b60", part, front=Front(fit, 18.0)))
    found = wrong(filled(job(room(run(box.item))), box, every_row(BINS)))
    assert (found["pull_out.front_height"].amount.mm if off_mm else found) == (off_mm or {})


def test_a_frame_behind_a_door_asks_for_a_spacer_past_its_hinges():
    frame = (InnerPullOut("bin", "bin", "bins", 5.0),)
    found = wrong(fill(door(), frames=frame, rows=(BINS, hinge(intrusion_mm=22.0))))["pull_out.needs_spacer"]
    assert found.severity.value == "warn" and found.amount.mm == 22 - 5


def test_a_pull_out_in_a_face_frame_goes_between_its_edges_and_past_its_hinges():
    """FP: fronts 13 short of the inside with a gap of 3: the frame stands in by 10 on each side. Of 564 inside 544 are
    between its edges, 6 short of 550; the hinge's 22 count from that edge, less a spacer of 5."""
    made = Front(FrontFit.FRAME, 18.0, frame_thickness_mm=20.0)
    rows = (dataclasses.replace(BINS, least_width_mm=550.0), hinge(intrusion_mm=22.0))
    frame = (InnerPullOut("bin", "bin", "bins", 5.0),)
    found = wrong(fill(door(), frames=frame, rows=rows, side_mm=13.0, front=made))
    assert found["pull_out.too_little_width"].amount.mm == pytest.approx(550 - (600 - 2 * 18 - 2 * 10))
    assert found["pull_out.needs_spacer"].amount.mm == pytest.approx(10 + 22 - 5)


def test_two_frames_in_one_compartment_are_told():
    frames = (InnerPullOut("one", "bin", "bins"), InnerPullOut("other", "rack", "bins"))
    assert "pull_out.two" in wrong(fill(door(), frames=frames))


def test_inner_drawers_whose_spaces_overlap_are_told_by_how_much():
    """FP: 0 to 180 and 100 to 280 have 80 in common; 180 to 320 beside 0 to 180 have nothing."""
    two = (inner(0.0, height_mm=180.0), dataclasses.replace(inner(100.0, height_mm=180.0), id="other", name="other drawer"))
    one = wrong(fill(door(), drawers=two))["drawer.spaces_meet"]
    assert one.amount.text == "80" and "inner drawer" in one.place and "other drawer" in one.place
    apart = (two[0], dataclasses.replace(two[1], up_mm=180.0))
    assert "drawer.spaces_meet" not in wrong(fill(door(), drawers=apart))
