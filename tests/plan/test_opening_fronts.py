"""Fronts beside corners, walls and what stands out of them: what they need, what they have, what cures it."""

from dataclasses import replace

import corner_rooms as here
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from oddleg.job import (
    Appliance,
    ApplianceBay,
    ApplianceSeat,
    EndsAt,
    Feature,
    FeatureKind,
    Filler,
    FrontFit,
    FrontMoves,
    Handing,
    OpeningDepth,
    Run,
    RunEnd,
    Storey,
    WallHeight,
)
from oddleg.plan.corner_angle import corners
from oddleg.plan.figure import figure
from oddleg.plan.opening_fronts import opening_fronts
from oddleg.plan.wall import EndWall


def filler(width_mm, id="strip"):
    return Filler(id, id, width_mm, 0.0, 200.0, share=0.0)


def fronts(of_room, walls=(), datum_mm=None, **tolerances):
    job, rods, lines = here.set_out(of_room, walls, **tolerances)
    return opening_fronts(job, of_room, rods, walls, lines, datum_mm)


def by_place(found):
    return {(one.item, one.side): one for one in found}


def in_a_corner(left_items, right_items, **more):
    return here.room(*here.runs(left_items, right_items, **more))


def blind(width_mm=1000.0, blind_mm=600.0, **more):
    return here.unit("blind-base", width_mm, more.pop("handing", Handing.LEFT), blind_mm=blind_mm, **more)


def at_walls(*items, length_mm=2000.0, features=(), **more):
    values = {"left_end": RunEnd(EndsAt.WALL), "right_end": RunEnd(EndsAt.WALL), "opening_mm": length_mm, **more}
    return Run("window", "Window run", 0.0, 0.0, 0.0, "north", here.VOID, items=items, features=features, **values)


def test_trap_28_a_drawer_beside_a_corner_needs_the_front_and_handle_across_and_play():
    """20 + 35 + 5 = 60; the blind unit's opening, 400 from 635, lies over the way of the drawers."""
    found, findings = fronts(in_a_corner([blind(), filler(20.0)], [here.post(60.0), here.drawers("pans", 600.0)]))
    pans = by_place(found)["pans", "left"]
    assert (pans.needs.mm, pans.opens) == (60.0, True)
    assert pans.has.mm == pytest.approx(60.0, abs=1e-9) and pans.short.mm == 0.0 and findings == ()
    assert pans.words == (
        "Drawer beside the fronts of Window run: opens; needs 60 (front 20 of blind base + its handle 35 + play 5), has 60."
    )


def test_a_narrow_post_is_told_once_by_the_corner_and_the_front_says_what_cures_it():
    found, findings = fronts(in_a_corner([blind(), filler(20.0)], [here.post(40.0), here.drawers("pans", 600.0)]))
    pans = by_place(found)["pans", "left"]
    assert not pans.opens and pans.short.mm == pytest.approx(20.0, abs=1e-9)
    assert pans.words.endswith("Make post 60 wide or more instead of 40.")
    assert findings == ()


def test_a_door_that_hangs_in_the_corner_needs_both_handles():
    """20 + 35 across, 35 of its own, 5: 95; hung on its other side 60 do."""
    room = in_a_corner([blind(), filler(20.0)], [here.post(60.0), here.unit("pans", 600.0, Handing.LEFT)])
    found, findings = fronts(room)
    pans = by_place(found)["pans", "left"]
    assert (pans.needs.mm, pans.has.mm, pans.short.mm) == pytest.approx((95.0, 60.0, 35.0), abs=1e-9)
    assert findings == ()
    # The corner says it, with the same figure, and says it once.
    (corner,) = corners(here.job(room), room, here.site(), ())
    (finding,) = (one for one in corner.findings if one.rule == "corner.post")
    assert corner.post_least.mm == 95.0 and finding.amount.mm == pytest.approx(35.0)
    assert corner.post_least.why == "Front 20 of blind base + its handle 35 + own handle 35 + play 5."
    assert finding.cure == "Make post 95 wide or more instead of 60. Or hang the door on its other side."
    other = in_a_corner([blind(), filler(20.0)], [here.post(60.0), here.unit("pans", 600.0, Handing.RIGHT)])
    assert by_place(fronts(other)[0])["pans", "left"].opens


def test_handles_beyond_the_reach_of_a_front_do_not_count():
    """The door across opens from 635 + 300 on, a 300 door beside the corner reaches 580 + 35 + 300 = 915."""
    far = here.unit("blind-base", 1300.0, Handing.LEFT, blind_mm=900.0)
    room = in_a_corner([far, filler(20.0)], [here.post(60.0), here.unit("pans", 300.0, Handing.RIGHT)])
    assert by_place(fronts(room)[0])["pans", "left"].needs.mm == 25.0
    wide = in_a_corner([far, filler(20.0)], [here.post(60.0), here.unit("pans", 400.0, Handing.RIGHT)])
    assert by_place(fronts(wide)[0])["pans", "left"].needs.mm == 60.0


def test_the_run_that_goes_into_the_corner_must_clear_the_other_ones_handles_too():
    """Its drawers end 500 from the line of backs, 60 behind the other carcasses' fronts."""
    room = in_a_corner([here.drawers("wide", 900.0), filler(500.0)], [here.post(60.0), here.drawers("pans", 600.0)])
    found, (finding,) = fronts(room)
    wide = by_place(found)["wide", "right"]
    assert (wide.needs.mm, wide.has.mm) == pytest.approx((60.0, -60.0), abs=1e-9)
    assert "and overlaps by 60." in finding.wrong
    assert finding.cure == (
        "A post would have to be 620 wide, more than there can be: put a blind unit into the corner, or take handles that "
        "stand out less."
    )
    cured = in_a_corner([here.drawers("wide", 900.0), filler(620.0)], [here.post(60.0), here.drawers("pans", 600.0)])
    assert by_place(fronts(cured)[0])["wide", "right"].opens and fronts(cured)[1] == ()


def test_a_post_passed_on_the_way_stands_as_proud_as_the_fronts_beside_it():
    """A 300 drawer reaches 560 out, past a post of 600 only: front 20 and play 5, no handle."""
    room = in_a_corner([here.drawers("wide", 900.0), filler(590.0)], [here.post(700.0), here.drawers("pans", 600.0)])
    assert by_place(fronts(room)[0])["wide", "right"].needs.mm == 25.0


def test_trap_28_a_door_hung_at_a_wall_needs_its_handle_and_play():
    """35 + 5 = 40, with nothing between: a filler of 40."""
    found, findings = fronts(here.room(at_walls(here.unit("a", 600.0, Handing.LEFT))))
    (door,) = found
    assert (door.needs.mm, door.has.mm, door.short.mm, door.side) == (40.0, 0.0, 40.0, "left")
    assert findings[0].cure == "Put a filler of 40 or wider there."
    cured = here.room(at_walls(filler(40.0), here.unit("a", 600.0, Handing.LEFT)))
    assert by_place(fronts(cured)[0])["a", "left"].opens


def test_a_pair_hangs_at_both_walls():
    found, _ = fronts(here.room(at_walls(filler(40.0), here.unit("a", 600.0, Handing.PAIR), length_mm=670.0)))
    told = by_place(found)
    assert told["a", "left"].opens and told["a", "right"].short.mm == pytest.approx(10.0)
    assert "hang the door" not in told["a", "right"].words


LINING = Feature("lining", "door lining", FeatureKind.LINING, 700.0, 760.0, 0.0, 2050.0, 15.0)


def beside_a_lining(*items, lining=LINING, walls=True):
    """The side run stands further down the side wall; the window run ends at that wall."""
    window = at_walls(*items, length_mm=4000.0)
    side = Run("side", "Side run", 4000.0, 0.0, 90.0, "east", here.VOID, features=(lining,))
    return here.room(window, side)


def test_trap_28_a_drawer_at_a_wall_needs_what_stands_proud_on_its_path():
    """The lining stands 15 out from 700 to 760; drawers come out from 575 by 560: 15 + 5 = 20."""
    drawers = here.drawers("a", 900.0)
    tight = by_place(fronts(beside_a_lining(drawers, filler(10.0), here.drawers("b", 3090.0 - 10.0), filler(10.0)))[0])
    assert (tight["b", "right"].needs.mm, tight["b", "right"].has.mm) == (20.0, 10.0)
    assert "door lining 15 + play 5" in tight["b", "right"].words
    far = replace(LINING, left_mm=1200.0, right_mm=1260.0)
    clear = by_place(fronts(beside_a_lining(drawers, here.drawers("b", 3095.0), filler(5.0), lining=far))[0])
    assert clear["b", "right"].needs.mm == 5.0 and clear["b", "right"].opens


def test_a_door_that_swings_away_from_a_wall_passes_the_lining():
    door = by_place(fronts(beside_a_lining(here.unit("b", 3990.0, Handing.LEFT), filler(10.0)))[0])["b", "right"]
    assert door.needs.mm == 5.0 and door.opens


def test_with_the_datum_what_lies_over_the_front_is_no_matter():
    sill = replace(LINING, bottom_mm=1000.0, top_mm=1040.0)
    room = beside_a_lining(here.drawers("b", 3990.0), filler(10.0), lining=sill)
    assert by_place(fronts(room)[0])["b", "right"].needs.mm == 20.0
    assert by_place(fronts(room, datum_mm=870.0)[0])["b", "right"].needs.mm == 5.0


def test_a_wall_that_closes_in_takes_room_from_a_drawer_on_its_way():
    """10 beyond the mark at the back, 0 along the fronts 575 further out: over the next 560 it comes 560 x 10 / 575 in."""
    run = at_walls(filler(10.0), here.drawers("a", 600.0))
    gaps = tuple(
        EndWall("left", WallHeight.BATTEN, depth, figure(mm), "e") for depth, mm in ((OpeningDepth.BACK, 10.0), (OpeningDepth.FRONT, 0.0))
    )
    wall = here.wall(run, end_walls=gaps)
    drawer = by_place(fronts(here.room(run), walls=(wall,))[0])["a", "left"]
    assert drawer.needs.mm == pytest.approx(5.0 + 560 * 10 / 575)
    assert not drawer.opens


def test_a_wall_beyond_the_mark_leaves_room():
    run = at_walls(filler(30.0), here.unit("a", 600.0, Handing.LEFT))
    gap = EndWall("left", WallHeight.BATTEN, OpeningDepth.FRONT, figure(12.0), "e")
    door = by_place(fronts(here.room(run), walls=(here.wall(run, end_walls=(gap,)),))[0])["a", "left"]
    assert door.has.mm == 42.0 and door.opens


def test_a_breast_on_the_own_wall_that_stands_past_the_fronts_counts_on_both_its_sides():
    breast = Feature("breast", "chimney breast", FeatureKind.OTHER, 800.0, 1200.0, stands_out_mm=700.0)
    items = (here.unit("a", 790.0, Handing.RIGHT), here.post(425.0, "gap"), here.drawers("b", 600.0))
    room = here.room(at_walls(*items, features=(breast,), left_end=RunEnd(), right_end=RunEnd()))
    told = by_place(fronts(room)[0])
    # A door hung at it: 35 + 5 of 10; drawers from 1215: 5 of 15.
    assert (told["a", "right"].needs.mm, told["a", "right"].has.mm) == (40.0, 10.0)
    assert (told["b", "left"].needs.mm, told["b", "left"].has.mm) == (5.0, 15.0)
    run = room.runs[0]
    hollow = here.wall(run, ((0.0, 0.0), (799.0, 0.0), (800.0, -150.0), (1200.0, -150.0), (1201.0, 0.0), (1815.0, 0.0)))
    # Out of a wall 150 further back, void 15 + 150 + carcasses 560 = 725 pass its 700. FP
    assert fronts(room, walls=(hollow,))[0] == ()
    low = replace(breast, stands_out_mm=500.0)
    assert fronts(here.room(at_walls(*items, features=(low,), left_end=RunEnd(), right_end=RunEnd())))[0] == ()


def test_an_appliance_door_may_hang_on_either_side():
    machine = Appliance("machine", "fridge", ApplianceSeat.UNDER_TOP, 820.0)
    bay = ApplianceBay("bay", "fridge bay", 600.0, here.DEEP, machine, front=here.DOOR)
    assert by_place(fronts(here.room(at_walls(bay)))[0])["bay", "left"].needs.mm == 40.0
    flap = replace(bay, front=replace(here.DOOR, moves=FrontMoves.FLAP))
    assert by_place(fronts(here.room(at_walls(flap)))[0])["bay", "left"].needs.mm == 5.0


def test_what_does_not_open_is_not_asked_about():
    assert fronts(here.room(at_walls(here.unit("a", 600.0, Handing.NONE), here.unit("b", 600.0, front=None))))[0] == ()


@pytest.mark.parametrize(
    ("fit", "more", "proud_mm", "handle_mm"),
    [
        (FrontFit.OVERLAY, {}, 20.0, 35.0),
        # Flush in a 22 frame: the frame stands 22 out, the handle 35 beyond.
        (FrontFit.FRAME, {"frame_thickness_mm": 22.0}, 22.0, 35.0),
        # Set back 2 in the carcass: nothing but 35 - 2 of handle.
        (FrontFit.INSET, {"set_back_mm": 2.0}, 0.0, 33.0),
    ],
)
def test_how_a_front_fits_says_how_far_it_stands_out(fit, more, proud_mm, handle_mm):
    front = replace(here.DOOR, fit=fit, **more)
    room = in_a_corner([blind(front=front), filler(20.0)], [here.post(60.0), here.drawers("pans", 600.0)])
    assert by_place(fronts(room)[0])["pans", "left"].needs.mm == proud_mm + handle_mm + here.PLAY


def test_wall_units_are_held_against_wall_units_and_the_other_wall():
    """Base units are no matter up there."""
    hung = {"storey": Storey.WALL, "depth_mm": 320.0}
    up = here.unit("up", 600.0, Handing.RIGHT, **hung)
    strip = replace(filler(20.0, "wall-strip"), storey=Storey.WALL)

    def told(*right):
        room = in_a_corner([blind(), filler(20.0), up, strip], [here.post(60.0), here.drawers("pans", 600.0), *right])
        room = replace(room, runs=(replace(room.runs[0], wall_anchor=room.runs[0].anchor), room.runs[1]))
        return by_place(fronts(room)[0])["up", "right"]

    # Nothing hangs on the side run: its wall is 15 behind its line of backs, 20 from the door.
    alone = told()
    assert (alone.needs.mm, alone.beside) == (40.0, "the wall of Side run")
    assert alone.has.mm == pytest.approx(35.0, abs=1e-9)
    # 320 deep there: 20 + 35 across, 35 of its own and 5 of the 20 - 320.
    met = told(here.unit("r", 600.0, front=here.DRAWER, **hung))
    assert (met.needs.mm, met.has.mm) == pytest.approx((95.0, -300.0), abs=1e-9)


def test_a_counter_off_the_middle_stands_beside_fronts_on_both_its_sides():
    """The counter is 560 deep; its back stands at 2000, its carcass fronts at 1440: left of them 1400 leave 40."""
    items = (here.drawers("a", 1400.0), filler(570.0), here.unit("b", 600.0, Handing.LEFT))
    window = at_walls(*items, length_mm=4000.0, left_end=RunEnd(), right_end=RunEnd())
    counter = Run(
        "counter", "Counter", 2000.0, 575.0, 90.0, None, 0.0, items=(here.post(65.0, "counter-post"), here.drawers("c", 900.0)),
        left_end=RunEnd(EndsAt.OTHER_FRONTS, "window"),
    )  # fmt: skip
    told = by_place(fronts(here.room(window, counter))[0])
    assert (told["a", "right"].needs.mm, told["a", "right"].has.mm) == pytest.approx((60.0, 40.0), abs=1e-9)
    # Its back is 30 past the door that hangs there: 1970 - 2000.
    assert (told["b", "left"].needs.mm, told["b", "left"].has.mm) == pytest.approx((40.0, -30.0), abs=1e-9)
    assert told["c", "left"].opens


@settings(derandomize=True, deadline=None, max_examples=20)
@given(
    st.floats(0, 120),
    st.floats(0, 200),
    st.floats(0, 60),
    st.floats(300, 700),
    st.sampled_from(list(Handing)),
    st.booleans(),
)
def test_a_mirrored_room_has_the_same_fronts_on_the_other_hand(post_mm, gap_mm, handle_mm, width_mm, handing, draws):
    front = replace(here.DRAWER if draws else here.DOOR, handle_projection_mm=handle_mm)
    room = in_a_corner(
        [here.unit("a", 500.0, Handing.PAIR), blind(front=front), filler(gap_mm)],
        [here.post(post_mm), here.unit("pans", width_mm, handing, front)],
    )
    turned = {"left": "right", "right": "left"}

    def told(found):
        return {
            (one.item, one.side): (one.needs.mm, one.has.mm, one.opens, one.beside) for one in found
        }

    straight, glass = told(fronts(room)[0]), told(fronts(here.mirrored(room))[0])
    assert {(item, turned[side]) for item, side in straight} == set(glass)
    for (item, side), (needs, has, opens, beside) in straight.items():
        other = glass[item, turned[side]]
        assert other[:2] == pytest.approx((needs, has), abs=1e-6)
        assert other[3] == beside or "wall" in beside
        if abs(needs - has) > 1e-3:
            assert other[2] == opens
