"""The batten: packing at its fixings and between them, where it is cut, where it is fixed, what it is cut from."""

from dataclasses import replace
from itertools import pairwise

import pytest
import sample_room as sample
from hypothesis import given, settings
from hypothesis import strategies as st
from set_out_rooms import LEVEL, finding, line_of, lines_of, rod, rules, run, units, wall, with_batten

from oddleg.job import (
    BattenIn,
    Box,
    EndPanel,
    EndsAt,
    Feature,
    FeatureKind,
    Filler,
    FrontLineRule,
    Gap,
    LineIs,
    RunEnd,
    Storey,
)
from oddleg.plan.battens import batten, panel_scribes

hold = settings(derandomize=True, deadline=None, max_examples=50)
FLAT = ((0.0, 0.0), (1800.0, 0.0))
ALONG_THE_STRING = FrontLineRule(LineIs.PARALLEL, 0.0, 1200.0)


def laid(of_wall, datum_mm=None, **job):
    line = line_of(of_wall)
    room = sample.room(of_wall.run)
    return batten(sample.job(room, **job), room, of_wall, line, rod(line), datum_mm)


def packings(of):
    return [(one.at.text, one.packing.text, one.packs) for one in of.fixings]


# Packing


def test_a_batten_of_20_does_not_go_into_a_void_of_12():
    # Trap 20: 12 + 0 - 20 = -8 everywhere. FP
    found = laid(wall(with_batten(run(void_mm=12.0), thickness_mm=20.0), LEVEL))
    assert {one.packing.mm for one in found.fixings} == {-8.0}
    assert {one.packs for one in found.fixings} == {""}
    told = finding(found.findings, "batten.no_room")
    assert told.severity.value == "stop" and told.amount.text == "−8"
    assert "all along" in told.wrong
    assert "bring the line of backs out by 8" in told.cure and "a batten of 12 or less" in told.cure


def test_in_a_recess_of_30_it_is_packed_22_and_cut_at_every_carcass_side():
    # Trap 20: 12 + 30 - 20 = 22; sides of 18 at 0, either side of 600, at 1200. FP
    set_in = units(box=Box(back_recess_mm=30.0))
    found = laid(wall(with_batten(run(*set_in, void_mm=12.0), thickness_mm=20.0, lies_in=BattenIn.RECESS), LEVEL))
    assert {(one.packing.mm, one.packs) for one in found.fixings} == {(22.0, "10 + 6 + 6")}
    assert [(left.mm, right.mm) for left, right in found.cut_outs] == [(0, 18), (582, 618), (1182, 1200)]
    assert "Cut through" in found.cut_outs[0][0].why
    assert [(one.left.mm, one.right.mm) for one in found.pieces] == [(18, 582), (618, 1182)]
    assert found.findings == ()


def test_in_a_recess_shallower_than_itself_it_is_notched_and_runs_through():
    set_in = units(box=Box(back_recess_mm=10.0))
    found = laid(wall(with_batten(run(*set_in, void_mm=12.0), thickness_mm=20.0, lies_in=BattenIn.RECESS), LEVEL))
    assert {one.packing.mm for one in found.fixings} == {12 + 10 - 20}
    assert len(found.pieces) == 1 and "Notched 10 deep" in found.cut_outs[0][0].why
    # No fixing stands where a side is let in.
    assert all(not left.mm < one.x_mm < right.mm for one in found.fixings for left, right in found.cut_outs)


def test_the_void_batten_of_a_run_with_a_recess_is_told_that_the_recess_would_do():
    found = laid(wall(with_batten(run(*units(box=Box(back_recess_mm=30.0)), void_mm=12.0), thickness_mm=20.0), LEVEL))
    assert "set it in the back recess of 30" in finding(found.findings, "batten.no_room").cure


def test_a_recess_that_one_unit_lacks_is_no_recess_for_a_straight_batten():
    mixed = (units(1, box=Box(back_recess_mm=30.0))[0], *units(1, prefix="flush"))
    found = laid(wall(with_batten(run(*mixed, void_mm=25.0), thickness_mm=20.0, lies_in=BattenIn.RECESS), LEVEL))
    assert {one.packing.mm for one in found.fixings} == {25.0 - 20.0}
    assert rules(found.findings) == ["batten.no_recess"]


def test_packing_at_three_places_of_a_wall_read_from_a_string():
    # Trap 23: wall 0, +8, -4, backs at 18: void 18, 10, 22; flush back, batten 10: packing 8, 0, 12. FP
    island = replace(run(*units(prefix="island"), id="island"), wall=None)
    held = with_batten(
        run(*units(), front_line=FrontLineRule(LineIs.SQUARE, run="island")), thickness_mm=10.0, end_mm=0.0
    )
    of_wall = wall(held, ((0.0, 0.0), (600.0, 8.0), (1200.0, -4.0)))
    line = lines_of(of_wall, runs=[held, island])["run-a"][0]
    room = sample.room(held, island)
    found = batten(sample.job(room), room, of_wall, line, rod(line), None)
    assert packings(found) == [("0", "8", "5 + 3"), ("600", "0", "none"), ("1200", "12", "6 + 6")]
    assert (found.least.text, found.least_at.text) == ("0", "600")


def test_a_packing_in_whole_mm_is_seen_to_follow_from_the_void():
    # Void 18.59, batten 12: packing 6.59, so 7 of packers. A void to the half would print 18.5, and 6.5. FP
    found = laid(wall(with_batten(run(void_mm=18.59), thickness_mm=12.0), LEVEL))
    fixing = found.fixings[0]
    assert (fixing.void.text, fixing.packing.text, found.least.text) == ("18.6", "7", "6.6")
    assert "Void 18.6 - batten 12" in fixing.packing.why
    assert "to the nearest whole mm" in fixing.packing.why and "whole mm" not in found.least.why


def test_a_wall_that_leans_out_at_the_floor_leaves_12_more_to_pack_at_the_batten():
    # Trap 24. FP
    upright = laid(wall(with_batten(run(void_mm=12.0), thickness_mm=10.0), LEVEL, floor=LEVEL))
    leans = laid(
        wall(with_batten(run(void_mm=12.0), thickness_mm=10.0), LEVEL, floor=tuple((x, 12.0) for x, _ in LEVEL))
    )
    assert {one.packing.mm for one in leans.fixings} == {one.packing.mm + 12 for one in upright.fixings}


def test_between_two_fixings_with_room_a_bump_can_keep_the_batten_from_seating():
    # Trap 22: fixings 0 and 600 with 2 each, a bump of 3 over the chord: -1. The bump sets the line of backs, so the
    # batten is 3 thicker than the void that is left over it: void 2 at the bump, 5 at the fixings, batten 3. FP
    bump = ((0.0, 0.0), (250.0, 0.0), (300.0, 3.0), (350.0, 0.0), (600.0, 0.0))
    one = with_batten(run(*units(1), void_mm=2.0), thickness_mm=3.0, end_mm=0.0)
    found = laid(wall(one, bump))
    assert packings(found) == [("0", "2", "2"), ("600", "2", "2")]
    assert (found.least.text, found.least_at.text) == ("−1", "300")
    told = finding(found.findings, "batten.no_room")
    # 2 at 250 and -1 at 300: nought two thirds of the way, at 283.3; 316.7 on the other side.
    assert "from 283.5 to 316.5 by up to 1, most at 300" in told.cure
    assert "bring the line of backs out by 1" in told.cure
    assert "all along" not in told.wrong


@hold
@given(st.lists(st.tuples(st.integers(0, 24), st.integers(-30, 30)), min_size=2, max_size=12), st.integers(1, 40))
def test_the_least_packing_is_no_more_than_what_is_left_anywhere_along_the_batten(steps, thickness_mm):
    points = tuple(sorted({step * 50.0: out / 2 for step, out in steps}.items()))
    found = laid(wall(with_batten(run(), thickness_mm=float(thickness_mm)), points))
    line = line_of(wall(run(), points))
    inside = [(x, y) for x, y in points if 0 <= x <= 1200]
    if inside:
        assert found.least.mm <= min(line.back_at(x) - y - thickness_mm for x, y in inside) + 1e-9
        assert ("batten.no_room" in rules(found.findings)) == (found.least.mm < -0.05)


def test_a_run_whose_zero_moved_in_a_corner_is_packed_where_its_wall_was_read():
    # The window run's backs lie 10 further out than its plaster as drawn, so the side run's zero lies at 10: what was
    # read at 310 lies at 300 on the rod. FP
    window = sample.run(*units(2, prefix="window"), id="window", void_mm=10.0, x_mm=-1200.0)
    window = replace(window, right_end=RunEnd(EndsAt.OTHER_FRONTS, "side"))
    side = with_batten(sample.run(*units(1), id="side", void_mm=20.0, left_end=RunEnd(EndsAt.OTHER_BACKS, "window")))
    side = replace(side, bearing_deg=90.0)
    of_wall = wall(side, ((0.0, 0.0), (250.0, 0.0), (310.0, 8.0), (370.0, 0.0), (700.0, 0.0)))
    line = lines_of(wall(window, ((-600.0, 0.0), (1200.0, 0.0))), of_wall)["side"][0]
    room = sample.room(window, side)
    found = batten(sample.job(room), room, of_wall, line, rod(line), None)
    assert line.zero_mm == pytest.approx(10.0)
    assert found.least_at.mm == pytest.approx(300.0)
    assert found.least.mm == pytest.approx(20.0 - 20.0)


def test_before_a_straight_wall_that_leans_off_its_reference_line_packing_is_alike_wherever_the_zero_is():
    # The side run begins beside carcasses of 560; its wall runs 1 in 100 off the line it was read from. FP
    window = sample.run(*units(2, prefix="window"), id="window", void_mm=10.0, x_mm=-1200.0)
    window = replace(window, right_end=RunEnd(EndsAt.OTHER_BACKS, "side"))
    side = sample.run(*units(2), id="side", void_mm=20.0, left_end=RunEnd(EndsAt.OTHER_FRONTS, "window"))
    side = replace(with_batten(side, thickness_mm=10.0), bearing_deg=90.0)
    of_wall = wall(side, ((0.0, 0.0), (2000.0, 20.0)))
    line = lines_of(of_wall, runs=[window, side])["side"][0]
    room = sample.room(window, side)
    found = batten(sample.job(room), room, of_wall, line, rod(line), None)
    assert line.zero_mm > 560.0
    assert [one.packing.mm for one in found.fixings] == pytest.approx([20.0 - 10.0] * 3)


def test_what_stands_out_at_batten_height_takes_packing_there():
    pipe = Feature("pipe", "boxed pipe", FeatureKind.OTHER, 300.0, 400.0, 800.0, 900.0, 15.0)
    one = with_batten(run(*units(), void_mm=30.0, features=(pipe,)), thickness_mm=20.0)
    found = laid(wall(one, LEVEL), datum_mm=875.0)
    # 30 - 20 = 10, less 15.
    assert found.least.text == "−5" and found.least_at.mm == pytest.approx(300.0)
    assert "boxed pipe" in finding(found.findings, "batten.no_room").wrong
    low = replace(pipe, bottom_mm=0.0, top_mm=500.0)
    one = replace(one, features=(low,))
    assert laid(wall(one, LEVEL), datum_mm=875.0).least.text == "10"


def test_a_wall_that_is_not_read_at_batten_height_gives_fixings_without_packing():
    found = laid(wall(with_batten(run(void_mm=20.0), thickness_mm=20.0), worktop=LEVEL))
    assert [one.packing for one in found.fixings] == [None] * 3 and found.least is None
    assert rules(found.findings) == ["batten.unread"]


def test_a_wall_that_is_read_over_a_part_only_says_which_fixings_lack_it():
    found = laid(wall(with_batten(run(*units(4)), thickness_mm=5.0), ((0.0, 0.0), (1200.0, 0.0))))
    assert [one.packing is None for one in found.fixings] == [False] * 3 + [True] * 2
    assert "fixing 4 and 5" in finding(found.findings, "batten.unread").wrong


def test_a_packing_that_no_packers_make_is_told():
    found = laid(wall(with_batten(run(void_mm=17.0), thickness_mm=10.0), LEVEL), packs_mm=(5.0, 10.0))
    assert {one.packs for one in found.fixings} == {""}
    assert "Packers of 5 and 10 do not make 7 at fixing 1" in finding(found.findings, "batten.packers").wrong


def test_there_is_no_batten_for_an_island_or_where_the_job_names_none_or_nothing_stands():
    assert laid(wall(run(), LEVEL)) is None
    room = sample.room(with_batten(run()))
    line = line_of(wall(run(), LEVEL))
    assert batten(sample.job(room), room, None, line, rod(line), None) is None
    empty = with_batten(sample.run(Gap("gap", "gap", 600.0)))
    assert laid(wall(empty, LEVEL)) is None


def test_a_batten_thicker_than_the_void_is_told_before_the_wall_is_read():
    """FP: 20 thick in a void of 15 is 5 too much where the wall touches the line."""
    found = laid(wall(with_batten(run(void_mm=15.0), thickness_mm=20.0)))
    told = finding(found.findings, "batten.thicker_than_void")
    assert told.severity == "warn" and told.amount.text == "5" and told.cure.endswith("a void of 20 or more.")
    fits = laid(wall(with_batten(run(void_mm=20.0), thickness_mm=20.0)))
    assert rules(fits.findings) == ["batten.unread"]


# Fixings


def at(of):
    return [one.x_mm for one in of.fixings]


def test_fixings_are_evenly_spaced_and_so_far_from_the_ends():
    found = laid(wall(with_batten(run(*units(3), void_mm=20.0), end_mm=60.0), FLAT))
    # 1800 - 2 x 60 = 1680 in three spaces of 560. FP
    assert at(found) == pytest.approx([60.0, 620.0, 1180.0, 1740.0])
    assert {one.on for one in found.fixings} == {"spacing"}


def test_a_fixing_stands_on_every_stud_that_the_job_names():
    found = laid(
        wall(with_batten(run(*units(3), void_mm=20.0), supports_mm=(10.0, 300.0, 900.0, 1500.0, 2100.0)), FLAT)
    )
    assert at(found) == [300.0, 900.0, 1500.0]
    assert {one.on for one in found.fixings} == {"stud or patress"}
    assert found.findings == ()


def test_studs_too_far_apart_are_told():
    found = laid(wall(with_batten(run(*units(3), void_mm=20.0), supports_mm=(300.0, 1500.0)), FLAT))
    assert "from 300 to 1500" in finding(found.findings, "batten.far_apart").wrong


def test_no_stud_at_all_is_told_for_the_whole_batten():
    found = laid(wall(with_batten(run(*units(3), void_mm=20.0), supports_mm=(2500.0,)), FLAT))
    assert at(found) == [] and "from 0 to 1800" in finding(found.findings, "batten.far_apart").wrong


SOCKET = Feature("socket", "socket", FeatureKind.ELECTRIC, 590.0, 680.0, 1100.0, 1180.0)


def before_a_socket(**more):
    features = more.pop("features", (SOCKET,))
    datum_mm = more.pop("datum_mm", 875.0)
    one = with_batten(run(*units(3), void_mm=20.0, features=features), end_mm=60.0, **more)
    return laid(wall(one, FLAT), datum_mm=datum_mm)


def test_a_fixing_is_moved_out_of_what_lies_straight_below_a_socket():
    found = before_a_socket()
    # The second of four would stand at 620; 590 - 25 is nearer than 680 + 25, and 1180 - 565 is over 600: so there is
    # one fixing more, 1680 in four of 420: 480 and 900. With 640 between them it is moved. FP
    assert at(found) == pytest.approx([60.0, 480.0, 900.0, 1320.0, 1740.0])
    assert all(one.zone == "" for one in found.fixings)
    moved = before_a_socket(spacing_mm=640.0)
    assert at(moved) == pytest.approx([60.0, 565.0, 1180.0, 1740.0])
    assert found.findings == moved.findings == ()


def test_whatever_is_known_the_caution_says_that_the_rest_is_not():
    for found in (before_a_socket(), before_a_socket(features=())):
        assert "only what was entered is known here" in found.caution
        assert "licensed electrician" in found.caution and "local code" in found.caution
        assert "safe" not in found.caution


def test_a_stud_below_a_socket_gets_no_fixing_and_that_is_told():
    found = before_a_socket(supports_mm=(20.0, 320.0, 620.0, 900.0, 1200.0, 1500.0))
    assert at(found) == [20.0, 320.0, 900.0, 1200.0, 1500.0]
    told = finding(found.findings, "batten.support_in_a_zone")
    assert told.caution and "at 620" in told.wrong


def test_a_socket_at_the_height_of_the_batten_makes_the_whole_of_it_a_zone():
    # Batten 45 high under a datum of 875: 830 to 875; a socket from 860 to 940 is level with it. FP
    found = before_a_socket(features=(replace(SOCKET, bottom_mm=860.0, top_mm=940.0),))
    assert all("level with socket" in one.zone for one in found.fixings)
    told = finding(found.findings, "batten.in_a_zone")
    assert told.caution and told.severity.value == "warn"
    # A socket that begins where the batten ends is not level with it.
    assert before_a_socket(features=(replace(SOCKET, bottom_mm=875.0, top_mm=940.0),)).findings == ()


def test_a_socket_of_unknown_height_is_asked_for():
    found = before_a_socket(features=(replace(SOCKET, bottom_mm=None, top_mm=None),))
    assert rules(found.findings) == ["batten.levels_unknown"] and found.findings[0].caution


def test_pipes_make_zones_like_cables():
    found = before_a_socket(features=(replace(SOCKET, kind=FeatureKind.PIPE),), spacing_mm=640.0)
    assert at(found) == pytest.approx([60.0, 565.0, 1180.0, 1740.0])


def test_beside_a_corner_no_fixing_stands_within_150():
    one = with_batten(run(*units(3), void_mm=20.0, left_end=RunEnd(EndsAt.WALL)), end_mm=60.0)
    found = laid(wall(one, FLAT))
    assert at(found)[0] == pytest.approx(150 + 25)
    assert at(found)[-1] == pytest.approx(1740.0)


def test_a_fixing_that_finds_no_place_outside_a_zone_says_so():
    wide = replace(SOCKET, left_mm=-100.0, right_mm=1900.0)
    found = before_a_socket(features=(wide,))
    assert "batten.far_apart" in rules(found.findings) and at(found) == []


# Stretches and pieces


def test_the_batten_stops_at_end_panels_and_goes_on_behind_fillers():
    row = (
        EndPanel("panel", "panel", 18.0, 590.0, 1.5),
        *units(2),
        Filler("filler", "filler", 50.0, 30.0, 80.0),
    )
    found = laid(wall(with_batten(run(*row, void_mm=20.0)), FLAT))
    assert (found.pieces[0].left.mm, found.pieces[-1].right.mm) == (19.5, 19.5 + 1200 + 50)
    assert "It begins 19.5 right of the zero: mark the zero on an offcut of batten" in found.stock_words


def test_a_long_batten_is_joined_on_fixings_in_the_fewest_pieces():
    long = with_batten(run(*units(5), void_mm=20.0), end_mm=50.0, stock_mm=2400.0, spacing_mm=600.0)
    found = laid(wall(long, ((0.0, 0.0), (3000.0, 0.0))))
    # 2900 in five spaces of 580: 50, 630, 1210, 1790, 2370, 2950. Two pieces; of the joints at 630 to 2370 the one that
    # leaves the longest shorter piece is 1210 or 1790: the longer piece lies left. FP
    assert [(one.left.mm, one.right.mm) for one in found.pieces] == [(0.0, 1790.0), (1790.0, 3000.0)]
    # Each end has its own screw, half of 50 from the joint.
    assert at(found) == [50.0, 630.0, 1210.0, 1765.0, 1815.0, 2370.0, 2950.0]
    # 1790 + 3 for the saw + 1210 is more than 2400.
    assert found.stock_words.startswith("2 pieces out of 2 lengths of 2400; fewer cannot do. Packing is read off the wall's line")


def test_on_a_stud_both_ends_of_a_joint_are_screwed_to_it():
    """No stud lies half an end distance beside another: 100, 700, 1300 and 1700 stay as they are."""
    studs = (100.0, 700.0, 1300.0, 1700.0)
    found = laid(wall(with_batten(run(*units(3), void_mm=20.0), stock_mm=1400.0, supports_mm=studs), FLAT))
    assert at(found) == list(studs) and found.pieces[0].right.mm in studs
    assert found.pieces[0].right.why == (
        "A joint on a stud or patress: both ends are screwed there, each with a screw of its own."
    )


def test_a_joint_that_no_fixing_can_hold_is_told():
    far = with_batten(run(*units(3), void_mm=20.0), stock_mm=1000.0, supports_mm=(100.0, 1700.0))
    found = laid(wall(far, FLAT))
    assert "batten.joint_unheld" in rules(found.findings)
    assert max(one.length.mm for one in found.pieces) <= 1000.0


@hold
@given(st.integers(1, 12), st.integers(700, 3000), st.integers(200, 700), st.integers(0, 60))
def test_pieces_make_up_the_batten_and_none_is_longer_than_the_stock(count, stock_mm, spacing_mm, end_mm):
    one = with_batten(
        run(*units(count), void_mm=20.0), stock_mm=float(stock_mm), spacing_mm=float(spacing_mm), end_mm=float(end_mm)
    )
    found = laid(wall(one, ((0.0, 0.0), (count * 600.0, 0.0))))
    edges = [(piece.left.mm, piece.right.mm) for piece in found.pieces]
    assert edges[0][0] == 0.0 and edges[-1][1] == pytest.approx(count * 600.0)
    assert all(before[1] == after[0] for before, after in pairwise(edges))
    assert all(right - left <= stock_mm + 1e-6 for left, right in edges)
    beside_mm = max(end_mm / 2, 20)
    for _, right in edges[:-1]:
        both = [any(abs(x - right - way * beside_mm) < 1e-6 for x in at(found)) for way in (-1, 1)]
        assert right in at(found) or all(both)
    gaps = [b - a for a, b in pairwise(at(found))]
    assert all(gap <= spacing_mm + 1e-6 for gap in gaps)


def test_a_doorway_parts_the_batten_and_a_window_over_it_does_not():
    door = Feature("door", "side door", FeatureKind.DOOR, 600.0, 1200.0)
    window = Feature("window", "window", FeatureKind.WINDOW, 100.0, 500.0, 1050.0, 2100.0)
    found = before_a_socket(features=(door, window))
    assert [(one.left.mm, one.right.mm) for one in found.pieces] == [(0.0, 600.0), (1200.0, 1800.0)]
    assert rules(found.findings) == ["batten.opening"]


def test_a_doorway_past_the_batten_is_not_in_its_way():
    """Three units of 600: the batten ends at 1800, where one door begins; the other ends where it starts."""
    before = Feature("before", "door before", FeatureKind.DOOR, -900.0, 0.0)
    beyond = Feature("beyond", "door beyond", FeatureKind.DOOR, 1800.0, 2600.0)
    found = before_a_socket(features=(before, beyond))
    assert [(one.left.mm, one.right.mm) for one in found.pieces] == [(0.0, 1800.0)]
    assert rules(found.findings) == [] and found.cut_outs == ()


def test_a_wide_gap_parts_it_and_a_narrow_one_does_not():
    one, two = units(2)
    for gap_mm, count in ((900.0, 2), (3.0, 1)):
        row = (one, Gap("gap", "gap", gap_mm), two)
        found = laid(wall(with_batten(run(*row, void_mm=20.0)), ((0.0, 0.0), (1200.0 + gap_mm, 0.0))))
        assert len(found.pieces) == count


# End panels


def test_an_end_panel_is_cut_to_the_deepest_void_and_scribed_where_the_wall_stands_nearer():
    # Void 10 at the batten, where the wall stands 12 back from the floor's bulge: 22 there, 10 at the floor. A panel of
    # 590 is cut 612 deep, and 12 comes off at the floor. FP
    row = (EndPanel("panel", "panel", 18.0, 590.0, 1.5), *units(2))
    of_wall = wall(run(*row), FLAT, floor=tuple((x, 12.0) for x, _ in FLAT))
    line = line_of(of_wall)
    [scribe] = panel_scribes(sample.job(sample.room(of_wall.run)), of_wall, line, rod(line))
    assert scribe.cut_depth.mm == 590 + 22
    assert [(words, figure.mm) for words, figure in scribe.scribe] == [
        ("just over the floor", 12.0),
        ("at batten height", 0.0),
    ]


def test_panels_before_a_wall_that_is_not_read_and_hanging_ones_are_not_scribed_with_what_stands():
    row = (EndPanel("panel", "panel", 18.0, 590.0), EndPanel("up", "up", 18.0, 330.0, storey=Storey.WALL), *units(1))
    of_wall = wall(run(*row))
    line = line_of(of_wall)
    assert panel_scribes(sample.job(sample.room(of_wall.run)), of_wall, line, rod(line)) == ()
    of_wall = wall(run(*row), FLAT, wall_units=FLAT)
    standing, hanging = lines_of(of_wall)["run-a"]
    job = sample.job(sample.room(of_wall.run))
    assert [one.item for one in panel_scribes(job, of_wall, standing, rod(standing))] == ["panel"]
    assert [one.item for one in panel_scribes(job, of_wall, hanging, rod(standing))] == ["up"]
