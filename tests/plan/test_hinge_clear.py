"""Shelves where mounting plates are, doors that open too little for what is behind them, face frames. FP: first
principles; CP: common practice."""

import pytest
from datum_rooms import job_of, room_of
from hardware_rows import carcass, compartment, every_row, hinge, member, pin, plate, runner, stack

from oddleg.job import Front, FrontFit, FrontIs, Handing, HungOn, InnerDrawer, Shelf
from oddleg.plan.carcass_box import carcass_box
from oddleg.plan.front_stacks import filled

DOOR = {"hung": HungOn.LEFT, "hinge": "hinge-110", "plate": "plate-0"}
# Set back far enough for the hinge of hardware_rows, which stands in by 22.
INNER = InnerDrawer("inner", "inner drawer", 200.0, 120.0, "runner-500", spacer_mm=22.0)


def made(*members, rows=(), front=None, width_mm=600.0, gap_mm=3.0, side_mm=1.5, **inside):
    part = compartment(stack=stack(*members, gap_mm=gap_mm, side_mm=side_mm), **inside)
    box = carcass_box(carcass("b60", part, front=front or Front(), width_mm=width_mm))
    return filled(job_of(room_of()), box, every_row(*rows))


def door(**more):
    return member("door", **{**DOOR, **more})


def told(found, rule):
    return [one for one in found.findings if one.rule == rule]


# The door is as high as the carcass, 720; its lower cup is 100 up, its plate from 100 - 18.5 to 100 + 18.5.
@pytest.mark.parametrize(
    ("foot_mm", "met"),
    [(81.5 - 18, False), (81.5 - 17.9, True), (91.0, True), (118.4, True), (118.5, False)],
)
def test_a_fixed_shelf_against_a_plate_is_a_stop(foot_mm, met):
    """FP: plate 32 between its screws of 5: 18.5 either side of the cup; shelf 18 thick."""
    found = told(made(door(), shelves=(Shelf("s", "shelf", foot_mm - 18, fixed=True),)), "hinge.meets_shelf")
    assert [one.severity.value for one in found] == (["stop"] if met else [])


def test_it_says_by_how_much_one_of_them_has_to_move():
    """FP: shelf from 110 to 128, plate up to 118.5: 8.5."""
    (found,) = told(made(door(), shelves=(Shelf("s", "shelf", 110.0 - 18, fixed=True),)), "hinge.meets_shelf")
    assert found.amount.text == "8.5" and found.place == "b60, door" and "Move one of them by 8.5" in found.cure


def test_a_shelf_between_both_screws_meets_the_plate_too():
    """FP: a shelf of 18 goes between screws 32 apart, and the plate lies over all of it."""
    found = made(door(), shelves=(Shelf("s", "shelf", 91.0 - 18, fixed=True),))
    assert len(told(found, "hinge.meets_shelf")) == 1


def test_a_shelf_on_pins_can_be_moved_and_is_a_warning():
    found = made(door(), shelves=(Shelf("s", "shelf", 100.0 - 18, pins="pin-5"),), rows=(pin(),))
    assert [one.severity.value for one in told(found, "hinge.meets_shelf")] == ["warn"]


def test_a_shelf_that_is_set_back_behind_the_plate_meets_nothing():
    """FP: plate's row at 37, its holes of 5: up to 39.5 behind the front edge."""
    shelf = Shelf("s", "shelf", 91.0 - 18, fixed=True, set_back_mm=39.5)
    assert told(made(door(), shelves=(shelf,)), "hinge.meets_shelf") == []


def test_no_drawer_comes_out_past_a_door_that_opens_less_than_square():
    held = made(door(), front=Front(opening_angle_deg=85.0), inner_drawers=(INNER,))
    assert [one.severity.value for one in told(held, "hinge.opens_too_little")] == ["stop"]
    short = made(door(), rows=(hinge(opening_deg=80.0),), inner_drawers=(INNER,))
    assert len(told(short, "hinge.opens_too_little")) == 1
    assert told(made(door(), inner_drawers=(INNER,)), "hinge.opens_too_little") == []


def test_a_door_held_before_its_hinge_s_angle_is_asked_to_be_measured():
    """FP: the chart's intrusion is for the chart's angle; a door that opens less stands further in."""
    found = made(door(), front=Front(opening_angle_deg=95.0), inner_drawers=(INNER,))
    assert [one.severity.value for one in told(found, "hinge.held")] == ["warn"]
    assert told(made(door(), front=Front(opening_angle_deg=95.0)), "hinge.held") == []


def test_a_drawer_behind_no_door_is_told():
    space = member("niche", front=FrontIs.SPACE, height_mm=300.0)
    assert told(made(space, door(), inner_drawers=(INNER,)), "drawer.no_door") == []
    high = InnerDrawer("inner", "inner drawer", 1200.0, 120.0, "runner-500", spacer_mm=22.0)
    assert len(told(made(door(), inner_drawers=(high,)), "drawer.no_door")) == 1


def drawer(**more):
    return member("drawer", front=FrontIs.DRAWER, runner="runner-500", **more)


FRAME = Front(FrontFit.FRAME, 18.0, frame_thickness_mm=22.0, set_back_mm=2.0)


def test_a_face_frame_adds_its_thickness_to_the_first_screw():
    """Trap 41, CP: 37 for an overlay front; inset front 18 set back 2: 37 + 18 + 2 = 57; a face frame adds its own."""

    def first_mm(front):
        return made(drawer(), front=front).drawers[0].first_mm

    assert first_mm(Front(FrontFit.OVERLAY, 18.0, set_back_mm=2.0)) == 37
    assert first_mm(Front(FrontFit.INSET, 18.0, set_back_mm=2.0)) == 37 + 18 + 2 == 57
    assert first_mm(FRAME) == 37 + 18 + 2 + 22


def test_a_frame_says_from_where_holes_count_and_what_comes_off_where_it_stands_otherwise():
    """FP: behind the sides' front edge the inside of an 18 front set back 2 lies at 22 + 2 + 18 = 42 where it closes
    behind a flush frame of 22, at 2 + 18 = 20 = 42 - 22 within it, at 2 + 18 - 22 = -2 = 42 - 44 where that frame stands
    before the edge."""
    (said,) = told(made(drawer(), front=FRAME), "stack.frame")
    assert "from the front edge of the sides, not from the frame's face" in said.wrong and "= 42 further back" in said.wrong
    assert 42 - 22 == 2 + 18 and "Take 22 off where the front lies within" in said.wrong
    assert 42 - 44 == 2 + 18 - 22 and "44 where that frame stands before it" in said.wrong


def test_runners_behind_a_frame_are_packed_out_to_its_inner_edge():
    """Trap 41 and FP: fronts 23 short of the inside on each side, 3 of it gap: the frame stands in by 20, which comes
    off the drawer's width on both sides: 564 - 40."""
    found = made(drawer(), front=FRAME, side_mm=23.0)
    (inside,) = found.drawers
    assert inside.spacer_mm == 23 - 3
    assert inside.right_mm - inside.left_mm == 600 - 2 * 18 - 2 * 20
    (said,) = told(found, "stack.frame")
    assert (
        said.severity.value == "warn"
        and said.amount.text == "20"
        and "18 front + 2 set-back + 22 frame = 42" in said.wrong
    )


@pytest.mark.parametrize("hung", [HungOn.LEFT, HungOn.RIGHT])
def test_a_door_in_a_frame_hangs_on_sides_packed_out_to_its_inner_edge(hung):
    """FP: the plate lies on 20 of packing, so the door, 3 short of the frame, has an overlay of -3, not of -23; with a
    plate 20 high its cup's rim is -3 - 13 + 20 = 4 from its edge, as in a frame flush with the sides."""
    for side_mm in (23.0, 3.0):
        found = made(door(hung=hung, plate="plate-20"), front=FRAME, side_mm=side_mm, rows=(plate(id="plate-20", height_mm=20.0),))
        (leaf,) = found.fronts
        assert (leaf.overlay_mm, leaf.edge_mm) == (-3, -3 - 13 + 20)
        assert told(found, "hinge.edge_distance") == []


def test_a_drawer_behind_a_framed_door_clears_frame_and_hinge():
    """FP: the frame stands in by 23 - 3 = 20, the hinge by 22 more."""
    found = made(door(), front=FRAME, side_mm=23.0, inner_drawers=(INNER,))
    (said,) = told(found, "drawer.needs_spacer")
    assert said.amount.mm == 20 + 22 - 22 and "stands in by 20" in said.wrong and "42 or more" in said.cure


def test_a_frame_flush_with_the_sides_needs_no_packing_and_says_so():
    found = made(drawer(), front=FRAME, side_mm=3.0)
    assert found.drawers[0].spacer_mm == 0
    (said,) = told(found, "stack.frame")
    assert "flush with the sides" in said.wrong and said.amount is None


def test_other_fronts_ask_for_no_packing():
    for fit in (FrontFit.OVERLAY, FrontFit.INSET):
        found = made(drawer(), front=Front(fit, 18.0), side_mm=23.0)
        assert found.drawers[0].spacer_mm == 0 and told(found, "stack.frame") == []


def test_fronts_that_come_out_without_a_width_are_told():
    """FP: 40 - 36 = 4 inside; an overlay front less 20 on each side of 40 has no width, a pair of 40 less 36 none."""
    narrow = made(door(), width_mm=40.0, side_mm=20.0)
    assert narrow.fronts == () and [one.place for one in told(narrow, "stack.no_width")] == ["b60, door"]
    pair = made(door(hung=HungOn.PAIR), width_mm=40.0, side_mm=1.5, gap_mm=37.0)
    assert pair.fronts == () and "between both leaves" in told(pair, "stack.no_width")[0].wrong
    assert told(made(door()), "stack.no_width") == []


def test_a_runner_of_any_length_brings_its_own_rows_of_screws():
    """CP: a 500 runner asks for the chart's row for 500: the holes of another length are elsewhere."""
    short = runner(id="runner-450", length_mm=450.0, screws_mm=(0.0, 192.0, 224.0))
    deep = made(drawer(), rows=(short,)).drawers[0]
    assert deep.runner == "runner-500" and deep.rear_u_mm == 3 + 500 + 10


@pytest.mark.parametrize(
    ("handing", "hung", "told_of"),
    [
        (Handing.LEFT, HungOn.LEFT, False),
        (Handing.LEFT, HungOn.RIGHT, True),
        (Handing.PAIR, HungOn.PAIR, False),
        (Handing.PAIR, HungOn.LEFT, True),
        (Handing.NONE, HungOn.LEFT, False),
    ],
)
def test_doors_hung_on_another_side_than_the_label_says_are_told(handing, hung, told_of):
    """Sides are drilled by the stack, and label, rod and corner go by the carcass."""
    box = carcass_box(carcass("b60", compartment(stack=stack(door(hung=hung))), handing=handing))
    assert len(told(filled(job_of(room_of()), box, every_row()), "stack.handing")) == told_of


def test_fronts_of_which_nothing_is_told_are_taken_as_overlay_and_that_is_said():
    box = carcass_box(carcass("b60", compartment(stack=stack(door())), front=None))
    found = filled(job_of(room_of()), box, every_row())
    assert [one.severity.value for one in told(found, "stack.front_not_told")] == ["note"]
    assert found.fronts[0].thickness_mm == 20 and found.fronts[0].stands_mm == 0
