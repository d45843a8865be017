"""Corners from three measured sides: the angle, what it does at the far ends, and what it can be trusted for.

FP: law of cosines, cos = (a2 + b2 - c2) / 2ab; at length L a wall that is off square stands L cos out into the room.
"""

import dataclasses
import math

import corner_rooms as here
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from oddleg.job import EndsAt, Entry, Point, RunEnd, WallHeight, WallLine
from oddleg.plan.corner_angle import corners, triangle_findings

LEFT, RIGHT = here.runs([here.unit("blind-base", 1000.0, here.Handing.LEFT)], [here.post(60.0), here.drawers("pans", 600.0)])
ROOM = here.room(LEFT, RIGHT)


def corner_of(*bodies, room=ROOM, walls=(), lines=(), **tolerances):
    entries = tuple(Entry(line.id, i, "ned", "2026-11-23T10:00:00.000Z", line) for i, line in enumerate(lines))
    (found,) = corners(here.job(room, **tolerances), room, here.site(*bodies, wall_lines=entries), walls)
    return found


def rules(corner):
    return [one.rule for one in corner.findings]


def test_three_four_five_is_square():
    """FP: 9 + 16 = 25."""
    corner = corner_of(here.triangle(3000.0, 4000.0, 5000.0))
    assert corner.angle_deg == pytest.approx(90.0, abs=1e-9) and corner.line_angle_deg == pytest.approx(90.0, abs=1e-9)
    assert [one.deviation.text for one in corner.far_ends] == ["0", "0"]
    assert [label for label, _ in corner.sides] == ["along the wall of Window run", "along the wall of Side run", "across"]
    assert rules(corner) == []


def test_trap_26_an_open_corner_falls_away_and_a_closed_one_comes_out_at_the_far_end():
    """5005 over 3000 and 4000: cos = (9 + 16 - 25.050025) / 24 = -0.0020844, 8.34 over 4000; 4990: 0.0041625, 16.65."""
    opened = corner_of(here.triangle(3000.0, 4000.0, 5005.0))
    assert opened.angle_deg == pytest.approx(90.1194, abs=5e-5)
    window = opened.far_ends[0]
    assert (window.run, window.length.mm) == ("window", 4000.0)
    assert window.deviation.mm == pytest.approx(-4000 * 0.050025 / 24, abs=1e-6) and window.deviation.text == "−8.3"
    closed = corner_of(here.triangle(3000.0, 4000.0, 4990.0))
    assert closed.angle_deg == pytest.approx(89.7615, abs=5e-5)
    assert closed.far_ends[0].deviation.mm == pytest.approx(16.65, abs=1e-9)
    # The side run goes from the corner to 3000: 16.65 x 3/4.
    assert closed.far_ends[1].length.mm == 3000.0
    assert closed.far_ends[1].deviation.mm == pytest.approx(12.4875, abs=1e-9)


def test_trap_27_a_short_triangle_is_told_and_no_joint_is_cut_on_it():
    """1 in the diagonal of 3000 and 4000 is 5000 / 12e6 a mm, 1.67 at 4000; of 600 and 800 1000 / 480000, 8.33."""
    long = corner_of(here.triangle(3000.0, 4000.0, 5000.0))
    short = corner_of(here.triangle(600.0, 800.0, 1000.0))
    assert "1 in the diagonal is 1.67 there" in long.far_ends[0].deviation.why
    assert "1 in the diagonal is 8.33 there" in short.far_ends[0].deviation.why
    assert long.cut_joint is False and rules(long) == []
    assert short.cut_joint is None and "cut no worktop joint on it" in short.joint_words
    assert rules(short) == ["corner.short_triangle"]


def test_give_or_take_is_that_of_all_three_sides():
    """FP: in a right angle d cos is da/b, db/a and c dc/ab: 4000 x root((1/4000)2 + (1/3000)2 + (1/2400)2)."""
    corner = corner_of(here.triangle(3000.0, 4000.0, 5000.0), tape_mm=1.0)
    expected = 4000 * math.sqrt((1 / 4000) ** 2 + (1 / 3000) ** 2 + (1 / 2400) ** 2)
    assert corner.far_ends[0].give_or_take.mm == pytest.approx(expected, abs=1e-9)
    twice = corner_of(here.triangle(3000.0, 4000.0, 5000.0), tape_mm=2.0)
    assert twice.far_ends[0].give_or_take.mm == pytest.approx(2 * expected, abs=1e-9)


def test_the_legs_that_are_asked_for_would_do():
    short = corner_of(here.triangle(600.0, 800.0, 1000.0))
    (finding,) = short.findings
    # 600 x root((1/800)2 + (1/600)2 + (1/480)2) = 1.77 over the worktop; 0.5 may open: 3.54 times as long.
    assert finding.amount.mm == pytest.approx(600 * math.sqrt(800**-2 + 600**-2 + 480**-2), abs=1e-9)
    assert "sides of 2200 by 2900 or longer" in finding.cure
    assert "short_triangle" not in "".join(rules(corner_of(here.triangle(2200.0, 2900.0, math.hypot(2200, 2900)))))


def test_no_sides_are_asked_for_that_are_longer_than_the_walls():
    """The same triangle: walls of 2500 and 2500 do, 600 x root(2/2500^2 + 2/2500^2) = 0.48; walls of 2000 leave 0.6."""

    def cure(length_mm):
        walls = tuple(dataclasses.replace(wall, points=(Point(0.0, 0.0), Point(length_mm, 0.0))) for wall in ROOM.walls)
        room = dataclasses.replace(ROOM, walls=walls)
        (finding,) = corner_of(here.triangle(600.0, 800.0, 1000.0), room=room).findings
        return finding.cure

    assert "sides of 2500 by 2500 or longer" in cure(2500.0)
    assert cure(2000.0).startswith("The walls are too short to tell: square lines with the laser instead")


def test_a_joint_stays_square_where_a_square_one_closes():
    """FP: 600 x 0.002084 is 1.25 and opens, 5001 leaves 600 x 0.000417 = 0.25 and does not."""
    assert corner_of(here.triangle(3000.0, 4000.0, 5005.0)).cut_joint is True
    assert corner_of(here.triangle(3000.0, 4000.0, 5001.0)).cut_joint is False


def test_sides_that_cannot_close_make_no_angle():
    corner = corner_of(here.triangle(3000.0, 4000.0, 7000.0))
    assert corner.angle_deg is None and corner.line_angle_deg == 90.0 and corner.far_ends == ()
    assert rules(corner)[0] == "corner.sides" and corner.findings[0].severity.value == "stop"
    assert "3000, 4000 and 7000 cannot close" in corner.findings[0].wrong
    assert len(corner.sides) == 3


def test_sides_in_each_others_places_are_asked_about_and_not_used():
    """FP: 3000, 5000 and 4000 across make acos(0.6) = 53.13."""
    corner = corner_of(here.triangle(3000.0, 5000.0, 4000.0))
    assert corner.angle_deg is None and "53.13" in corner.findings[0].wrong and rules(corner)[0] == "corner.unlikely"


def test_a_corner_nobody_measured_rests_on_a_guess_and_says_so():
    corner = corner_of()
    assert corner.angle is None and corner.line_angle_deg == 90.0 and corner.cut_joint is None
    assert rules(corner) == ["corner.guess"] and corner.findings[0].severity.value == "warn"
    assert corner.words == "Not measured; taken as drawn, 90 degrees."


def test_what_the_walls_do_beside_their_lines_goes_from_the_triangle_into_the_lines():
    """FP: the window wall comes 6 out over the 3000 from the corner to the mark, the side wall goes 4 back over 4000: of
    a corner measured at 90 the lines are 90 + atan(6 / 3000) - atan(4 / 4000) apart."""
    left, right = here.wall(LEFT, ((1000.0, 6.0), (4000.0, 0.0))), here.wall(RIGHT, ((-575.0, 0.0), (3425.0, -4.0)))
    corner = corner_of(here.triangle(3000.0, 4000.0, 5000.0), walls=(left, right))
    expected = 90 + math.degrees(math.atan(6 / 3000)) - math.degrees(math.atan(4 / 4000))
    assert corner.angle_deg == pytest.approx(90.0, abs=1e-9)
    assert corner.line_angle_deg == pytest.approx(expected, abs=1e-9)


def test_a_leg_along_a_wall_that_is_not_read_there_counts_as_straight_and_says_so():
    left, right = here.wall(LEFT, ((0.0, 9.0), (1200.0, 0.0))), here.wall(RIGHT)
    corner = corner_of(here.triangle(3000.0, 4000.0, 5000.0), walls=(left, right))
    assert rules(corner) == ["corner.leg_not_read"] and corner.line_angle_deg == pytest.approx(90.0, abs=1e-9)


LINES = (WallLine("a", "first line", "window"), WallLine("b", "second line", "side", square_to="a"))


def square_walls(left_points=((1000.0, 0.0), (4000.0, 0.0))):
    return here.wall(LEFT, left_points, "a"), here.wall(RIGHT, ((-575.0, 0.0), (3425.0, 0.0)), "b")


def test_lines_set_square_are_square_and_need_no_triangle():
    corner = corner_of(walls=square_walls(), lines=LINES)
    assert corner.line_angle_deg == 90.0 and rules(corner) == []


def test_lines_set_square_hold_against_a_triangle_that_agrees_and_one_that_does_not():
    agrees = corner_of(here.triangle(3000.0, 4000.0, 5001.0), walls=square_walls(), lines=LINES)
    assert agrees.line_angle_deg == 90.0 and rules(agrees) == []
    # 20 in the diagonal is 33 over 4000.
    clashes = corner_of(here.triangle(3000.0, 4000.0, 5020.0), walls=square_walls(), lines=LINES)
    assert clashes.line_angle_deg == 90.0 and rules(clashes) == ["corner.square_or_not"]
    # The wall itself is open by as much beside its square line: then all is well.
    opened = square_walls(((1000.0, -3000 * 0.2004 / 24), (4000.0, 0.0)))
    assert rules(corner_of(here.triangle(3000.0, 4000.0, 5020.0), walls=opened, lines=LINES)) == []


def test_the_post_is_at_least_the_front_and_handle_across_and_play():
    """Trap 28: 20 + 35 + 5 = 60."""
    assert corner_of().post_least.mm == 60.0 and corner_of().post_has.mm == 60.0
    narrow = here.room(*here.runs([here.unit("blind-base", 1000.0, here.Handing.LEFT)], [here.post(40.0), here.drawers("pans", 600.0)]))
    corner = corner_of(here.triangle(3000.0, 4000.0, 5000.0), room=narrow)
    assert (corner.post_least.mm, corner.post_has.mm) == (60.0, 40.0)
    (finding,) = corner.findings
    assert finding.rule == "corner.post" and finding.amount.mm == 20.0 and finding.cure == "Make post 60 wide or more instead of 40."


def test_trap_26_the_angle_does_not_go_into_the_post():
    same = {corner_of(here.triangle(3000.0, 4000.0, across)).post_least.mm for across in (4990.0, 5000.0, 5005.0)}
    assert same == {60.0}


def test_a_run_that_stands_off_the_middle_of_another_makes_no_corner():
    counter = dataclasses.replace(RIGHT, x_mm=2000.0, wall=None, left_end=RunEnd(EndsAt.OTHER_FRONTS, "window"))
    long = dataclasses.replace(LEFT, right_end=RunEnd(EndsAt.WALL), items=tuple(here.unit(f"u{i}", 600.0) for i in range(6)))
    room = here.room(long, counter)
    assert corners(here.job(room), room, here.site(), ()) == ()


def test_one_run_naming_the_other_is_enough():
    for left_at, right_at in ((EndsAt.OTHER_BACKS, EndsAt.OPEN), (EndsAt.OPEN, EndsAt.OTHER_FRONTS)):
        room = here.room(*here.runs([here.unit("a", 600.0)], [here.unit("b", 600.0)], left_at=left_at, right_at=right_at))
        (corner,) = corners(here.job(room), room, here.site(), ())
        assert (corner.left_run.id, corner.right_run.id) == ("window", "side")


def test_runs_that_turn_away_from_each_other_make_no_inside_corner():
    away = dataclasses.replace(RIGHT, bearing_deg=270.0)
    corner = corner_of(room=here.room(LEFT, away))
    assert corner.findings[0].rule == "corner.not_inside"


def test_a_triangle_of_runs_that_do_not_meet_counts_for_nothing_and_is_told():
    turned = here.site(here.triangle(3000.0, 4000.0, 5000.0, "side", "window"))
    assert [one.rule for one in triangle_findings(ROOM, turned)] == ["corner.no_corner"]
    assert triangle_findings(ROOM, here.site(here.triangle(3000.0, 4000.0, 5000.0))) == ()


@settings(derandomize=True, deadline=None, max_examples=60)
@given(st.floats(500, 4000), st.floats(500, 4000), st.floats(84, 96), st.floats(0.2, 3))
def test_a_mirrored_corner_has_the_same_angle_and_swaps_its_legs(along_mm, other_mm, angle_deg, tape_mm):
    across_mm = math.sqrt(along_mm**2 + other_mm**2 - 2 * along_mm * other_mm * math.cos(math.radians(angle_deg)))
    corner = corner_of(here.triangle(along_mm, other_mm, across_mm), tape_mm=tape_mm)
    assert corner.angle_deg == pytest.approx(angle_deg, abs=1e-6)
    turned = here.mirrored(ROOM)
    (glass,) = corners(here.job(turned, tape_mm=tape_mm), turned, here.site(here.triangle(other_mm, along_mm, across_mm, "side", "window")), ())
    assert glass.angle_deg == pytest.approx(angle_deg, abs=1e-6) and glass.line_angle_deg == pytest.approx(angle_deg, abs=1e-6)
    told = {one.run: (one.length.mm, one.deviation.mm, one.give_or_take.mm) for one in corner.far_ends}
    for one in glass.far_ends:
        assert (one.length.mm, one.deviation.mm, one.give_or_take.mm) == pytest.approx(told[one.run], abs=1e-6)
    assert (glass.post_least.mm, glass.post_has.mm, glass.cut_joint) == (corner.post_least.mm, corner.post_has.mm, corner.cut_joint)


def test_the_height_that_is_read_at_the_leg_is_the_one_that_counts():
    low = here.wall(LEFT, ((1000.0, 6.0), (4000.0, 0.0)), height=WallHeight.FLOOR)
    corner = corner_of(here.triangle(3000.0, 4000.0, 5000.0), walls=(low, here.wall(RIGHT)))
    assert corner.line_angle_deg == pytest.approx(90 + math.degrees(math.atan(6 / 3000)), abs=1e-9)


def test_a_line_set_square_that_its_wall_is_not_counted_from_says_nothing_and_is_told():
    left, right = square_walls()
    left = dataclasses.replace(left, lines=(("first", "an earlier line", 4), *left.lines))
    corner = corner_of(walls=(left, right), lines=LINES)
    assert rules(corner) == ["corner.square_unused", "corner.guess"]


def test_two_short_posts_in_one_corner_are_both_told():
    """FP: both runs begin beside each other's fronts: front 20 + handle 35 + play 5 = 60, and posts of 40 and 50."""
    left, right = [here.drawers("a", 600.0), here.post(40.0, "one")], [here.post(50.0, "two"), here.drawers("b", 600.0)]
    room = here.room(*here.runs(left, right, left_at=EndsAt.OTHER_FRONTS))
    (corner,) = here.plan_of(room).rooms[0].setting_out.corners
    assert (corner.post_least.mm, corner.post_has.mm) == (60.0, 40.0)
    told = [one.amount.mm for one in corner.findings if one.rule == "corner.post"]
    assert told == [20.0, 10.0]
