"""Blind corner units: how far off the other wall they stand, what they use, what is left to reach in by."""

from dataclasses import replace

import corner_rooms as here
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from oddleg.job import EndsAt, Filler, Handing, Run, RunEnd, Storey, WallHeight
from oddleg.plan.blind_units import blind_units


def filler(width_mm):
    return Filler("strip", "strip", width_mm, 0.0, 300.0, share=0.0)


def blind(width_mm=1000.0, blind_mm=600.0, **more):
    return here.unit("blind-base", width_mm, Handing.LEFT, blind_mm=blind_mm, **more)


def units(of_room, walls=(), **tolerances):
    job, rods, lines = here.set_out(of_room, walls, **tolerances)
    return blind_units(job, of_room, rods, walls, lines)


def in_a_corner(*left_items, right=None, **more):
    return here.room(*here.runs(left_items, right or [here.post(60.0), here.drawers("pans", 600.0)], **more))


def test_trap_29_a_blind_corner_is_run_length():
    """Void 15 + 560 + 20 + 35 + 5 = 635, less 600 blind: set 35 off the wall, uses 1035; 20 from the line of backs."""
    (unit,), findings = units(in_a_corner(blind(), filler(20.0)))
    assert (unit.offset.mm, unit.uses.mm, unit.stands.mm) == pytest.approx((35.0, 1035.0, 35.0), abs=1e-9)
    # 400 less a side of 18.
    assert unit.reach.mm == 382.0 and findings == ()
    assert "Void 15 + carcass 560 + front 20 + handle 35 + play 5 = 635" in unit.offset.why
    assert unit.words == (
        "Set it 35 off the wall of Side run or more; it then uses 1035 of the run. The rod sets it 35 off. 382 clear to reach in by."
    )


def test_set_too_near_it_loses_as_much_of_its_opening_and_the_cure_is_a_wider_strip():
    (unit,), (finding,) = units(in_a_corner(blind(), filler(5.0)))
    assert unit.stands.mm == pytest.approx(20.0, abs=1e-9) and unit.reach.mm == pytest.approx(367.0, abs=1e-9)
    assert finding.rule == "fronts.blind_offset" and finding.amount.mm == pytest.approx(15.0, abs=1e-9)
    assert finding.cure == "Make strip 20 wide or more instead of 5."


def test_set_further_off_than_it_must_be_it_keeps_its_opening():
    (unit,), findings = units(in_a_corner(blind(), filler(80.0)))
    assert (unit.offset.mm, unit.reach.mm, unit.stands.mm) == pytest.approx((35.0, 382.0, 95.0), abs=1e-9)
    assert findings == ()


def test_the_void_at_the_corner_counts_not_that_of_the_whole_run():
    """The side wall stands 10 back along the first metre, so the line of backs has 25 behind it there: 645, 45 off."""
    row = [here.post(60.0), *(here.drawers(f"d{i}", 591.25) for i in range(4))]
    room = in_a_corner(blind(), filler(20.0), right=row)
    walls = (here.wall(room.runs[0]), here.wall(room.runs[1], ((-575.0, -10.0), (425.0, -10.0), (1000.0, 0.0), (2000.0, 0.0), (2425.0, -10.0))))
    (unit,), findings = units(room, walls)
    assert unit.offset.mm == pytest.approx(45.0, abs=0.2) and unit.stands.mm == pytest.approx(45.0, abs=0.2)
    assert "off the wall of Side run or more at batten height, where it stands out most; it then uses" in unit.words
    assert unit.stands.why.startswith("From the other wall's face at batten height, where it stands out most")
    assert findings == ()


def test_a_blind_part_at_no_corner_is_asked_about():
    left, right = here.runs([blind()], [here.drawers("pans", 600.0)], left_at=EndsAt.OPEN, right_at=EndsAt.OPEN)
    found, (finding,) = units(here.room(left, right))
    assert found == () and finding.rule == "fronts.blind_alone"


def test_of_two_corners_the_blind_part_is_at_the_nearer():
    left, right = here.runs([blind(), here.drawers("a", 900.0), here.drawers("b", 900.0)], [here.post(60.0), here.drawers("pans", 600.0)])
    store = Run("store", "Store run", 0.0, 3000.0, 270.0, "west", here.VOID, items=(here.drawers("s", 600.0), here.post(60.0, "p")),
                     opening_mm=3000.0, anchor=left.anchor, right_end=RunEnd(EndsAt.OTHER_FRONTS, "window"))  # fmt: skip
    left = replace(left, x_mm=here.VOID, left_end=RunEnd(EndsAt.OTHER_BACKS, "store"), anchor=None)
    (unit,), _ = units(here.room(left, right, store))
    # At the left end of the run it stands on the store run's line of backs, 15 off that wall.
    assert "off the wall of Store run" in unit.words and unit.stands.mm == pytest.approx(15.0, abs=1e-9)


@settings(derandomize=True, deadline=None, max_examples=20)
@given(st.floats(0, 200), st.floats(300, 800), st.floats(0, 60), st.floats(16, 30))
def test_a_mirrored_corner_has_the_same_blind_unit(gap_mm, blind_mm, handle_mm, thick_mm):
    front = replace(here.DRAWER, handle_projection_mm=handle_mm, thickness_mm=thick_mm)
    room = in_a_corner(blind(1200.0, blind_mm), filler(gap_mm), right=[here.post(60.0), here.unit("pans", 600.0, front=front)])
    (unit,), findings = units(room)
    (glass,), others = units(here.mirrored(room))
    # FP: void, carcass, front, handle, play, less the blind part.
    assert unit.offset.mm == pytest.approx(max(15 + 560 + thick_mm + handle_mm + 5 - blind_mm, 0.0), abs=1e-6)
    assert unit.uses.mm == pytest.approx(1200 + unit.offset.mm, abs=1e-6)
    assert (glass.offset.mm, glass.uses.mm, glass.reach.mm, glass.stands.mm) == pytest.approx(
        (unit.offset.mm, unit.uses.mm, unit.reach.mm, unit.stands.mm), abs=1e-6
    )
    assert [one.rule for one in findings] == [one.rule for one in others]


def test_at_wall_unit_height_the_wall_there_counts():
    hung = {"storey": Storey.WALL, "depth_mm": 320.0}
    left = [blind(), filler(20.0), here.unit("up", 700.0, Handing.LEFT, blind_mm=380.0, **hung)]
    right = [here.post(60.0), here.drawers("pans", 600.0), here.unit("r", 600.0, front=here.DRAWER, **hung)]
    room = in_a_corner(*left, right=right)
    room = here.room(replace(room.runs[0], wall_anchor=room.runs[0].anchor), room.runs[1])
    walls = (here.wall(room.runs[0]), here.wall(room.runs[1], ((-575.0, -20.0), (2425.0, -20.0)), height=WallHeight.WALL_UNITS))
    told = {one.item: one for one in units(room, walls)[0]}
    # Hanging on a wall that stands 20 back there its own line of backs keeps 15 to it: 15 + 320 + 20 + 35 + 5 - 380.
    assert told["up"].offset.mm == pytest.approx(15 + 320 + 20 + 35 + 5 - 380, abs=1e-6)
