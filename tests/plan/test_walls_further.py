"""Walls as read, further: which way a jump goes, what a single move can explain, how far a wall counts as read, and the
wall between its readings."""

from dataclasses import replace

import pytest
import sample_room as sample
from datum_rooms import all_placed, floor_of, job_of, room_of, surface, unit
from hypothesis import given, settings
from hypothesis import strategies as st
from rod_runs import wall_of as wall_by_hand
from sample_wall import BATTEN, FLOOR, STRING, WORKTOP, all_heights, faces, found, read, rules, run, wall_of, walls_of

from oddleg.job import (
    Anchor,
    AnchorOn,
    EndsAt,
    Feature,
    FeatureKind,
    MeasuredFeature,
    Point,
    Run,
    RunEnd,
    Storey,
    Tolerances,
    Wall,
    WallHeight,
)
from oddleg.plan.knock_places import knock_places
from oddleg.plan.plinth_line import plinth_pieces
from oddleg.plan.wall_profile import merged, points_behind, wall_at, wall_points
from oddleg.plan.wall_stations import wall_stations

SIX = [0.0, 600.0, 1200.0, 1800.0, 2400.0, 3000.0]


# Jumps.


@pytest.mark.parametrize(("further_mm", "words"), [(10.0, "jumps back by 10"), (-10.0, "jumps out by 10")])
def test_a_larger_distance_is_a_wall_that_jumps_back(further_mm, words):
    of_run = run(*[600.0] * 5)
    told = found(wall_of(of_run, all_heights(of_run, *[100.0] * 3, *[100.0 + further_mm] * 3)), "wall.jump")
    assert words in told.wrong and told.amount.mm == -further_mm


def test_a_jump_is_told_against_how_the_wall_runs_and_an_even_fall_is_none():
    """FP: 20 more at each place is how it runs; 30 once is 10 more than that, and the limit is 8."""
    of_run = run(*[600.0] * 5)
    even = wall_of(of_run, all_heights(of_run, 100.0, 120.0, 140.0, 160.0, 180.0, 200.0))
    assert rules(even) == []
    once = wall_of(of_run, all_heights(of_run, 100.0, 120.0, 140.0, 170.0, 190.0, 210.0))
    assert rules(once) == ["wall.jump"] and found(once, "wall.jump").amount.mm == pytest.approx(-10.0)


def test_a_jump_of_exactly_the_limit_is_not_over_it():
    of_run = run(*[600.0] * 5)
    assert rules(wall_of(of_run, all_heights(of_run, *[100.0] * 3, *[108.0] * 3))) == []
    assert rules(wall_of(of_run, all_heights(of_run, *[100.0] * 3, *[108.1] * 3))) == ["wall.jump"]


def test_a_step_at_every_height_that_was_read_height_by_height_is_no_moved_line():
    """One move cannot come between both places at the floor and, a whole walk later, between them at the batten again."""
    of_run = run(*[600.0] * 5)
    walk = [read(of_run, x, 100.0 + 10.0 * (x > 1200), height) for height in (FLOOR, BATTEN, WORKTOP) for x in SIX]
    assert rules(wall_of(of_run, walk)) == []
    at_once = sorted(walk, key=lambda one: one.x_mm)
    assert rules(wall_of(of_run, at_once)) == ["wall.jump"], "read place by place it may be one"
    back = sorted(walk, key=lambda one: -one.x_mm)
    assert rules(wall_of(of_run, back)) == ["wall.jump"], "and from the right to the left too"


def test_two_lines_on_either_side_of_a_step_say_nothing_of_a_moved_line():
    """Each of two places was read from a line of its own: neither line was moved between them."""
    of_run = run(*[600.0] * 5)
    second = replace(STRING, id="second", name="string two")
    bodies = [read(of_run, x, 100.0, height) for x in SIX[:3] for height in (FLOOR, BATTEN, WORKTOP)]
    bodies += [read(of_run, x, 110.0, height, "second") for x in SIX[3:] for height in (FLOOR, BATTEN, WORKTOP)]
    bodies += [read(of_run, x, 100.0, BATTEN, "second") for x in SIX[:2]]
    assert "wall.jump" not in rules(wall_of(of_run, bodies, (STRING, second)))


def test_a_spot_that_differs_by_less_than_half_the_shift_was_read_on_one_side_of_the_move():
    """FP: a shift of 6; a spot that changed by 2 says no move came between its two readings, one that changed by 5 does."""
    assert knock_places(["a", "b", "a", "c"], [100.0, 100.0, 102.0, 100.0], 6.0) == [3]
    assert knock_places(["a", "b", "a", "c"], [100.0, 100.0, 105.0, 100.0], 6.0) == [1, 2]
    assert knock_places(["a", "b", "a"], [100.0, 100.0, 120.0], 6.0) == [], "20 is neither nothing nor the shift"


def test_changes_that_are_not_alike_are_readings_to_be_put_right_and_no_move():
    """FP: 6 and -6 are 12 apart, more than twice 2: no one move did both."""
    of_run = run(*[600.0] * 4)
    bodies = all_heights(of_run, *[100.0] * 5, heights=(BATTEN,))
    wall = wall_of(of_run, [*bodies, read(of_run, 0, 106.0), read(of_run, 600, 94.0)])
    assert "wall.line_moved" not in rules(wall) and rules(wall).count("wall.repeats_differ") == 2


# How far a wall counts as read.


@pytest.mark.parametrize(("spacing_mm", "told"), [(800.0, False), (799.0, True)])
def test_a_stretch_of_exactly_one_and_a_half_spacings_is_read(spacing_mm, told):
    """FP: 1200 between two readings is 1.5 x 800; the place between them is asked for, and nothing more is said."""
    of_run = run(*[600.0] * 4)
    bodies = [read(of_run, x, 100.0, height) for x in (0, 1200, 2400) for height in (FLOOR, BATTEN, WORKTOP)]
    wall = wall_of(of_run, bodies, tolerances=Tolerances(wall_spacing_mm=spacing_mm))
    assert ("wall.not_read" in rules(wall)) is told


@pytest.mark.parametrize(("first_mm", "told"), [(300.0, False), (301.0, True)])
def test_half_a_spacing_beyond_the_last_reading_is_read_and_no_more(first_mm, told):
    of_run = run(600.0, 600.0)
    bodies = [read(of_run, x, 100.0, height) for x in (first_mm, 900, 1200) for height in (FLOOR, BATTEN, WORKTOP)]
    assert ("wall.not_read" in rules(wall_of(of_run, bodies))) is told


def test_a_run_that_begins_left_of_its_zero_is_missed_there_too():
    """FP: three units from -600 on; nothing read between -600 and the zero, 600, more than half a spacing."""
    of_run = run(*[600.0] * 3, anchor=Anchor(AnchorOn.MARK, x_mm=-600.0, item="u0", item_edge="left"), left_end=RunEnd(EndsAt.OPEN))
    room = sample.room(of_run)
    assert wall_stations(sample.job(room), room, of_run)[0].x_mm == -600.0
    wall = wall_of(of_run, all_heights(of_run, 100.0, 100.0, 100.0))
    told = found(wall, "wall.not_read")
    assert "\N{MINUS SIGN}600 to 0" in told.wrong and told.amount.mm == 600


def test_wall_units_longer_than_what_stands_are_read_to_their_end():
    hung = sample.carcass("hung", 1800.0, storey=Storey.WALL, legs=None)
    of_run = sample.run(sample.carcass("u0"), hung)
    room = sample.room(of_run)
    assert [one.x_mm for one in wall_stations(sample.job(room), room, of_run)] == [0.0, 600.0, 1200.0, 1800.0]


# What the wall carries.


def test_what_was_measured_on_another_run_of_this_room_is_that_runs():
    """The job has the window on run A; on site it turned out to be on run B."""
    window = Feature("window", "window", FeatureKind.WINDOW, 100.0, 500.0)
    here, there = run(features=(window,)), replace(run(), id="run-b", name="Run B")
    moved = MeasuredFeature("run-b", replace(window, left_mm=150.0))
    one, other = walls_of((here, there), [moved, STRING, replace(STRING, id="two", run="run-b")])
    assert one.features == () and [feature.left_mm for feature in other.features] == [150.0]


# The wall between its readings.


def face(*points, height=BATTEN):
    return wall_points(wall_by_hand(sample.run(), face=[(x, height, y) for x, y in points]), height)


def test_between_two_readings_the_wall_is_straight_and_at_one_it_is_as_read():
    points = face((0.0, 0.0), (600.0, 6.0), (1200.0, -6.0))
    assert [wall_at(points, x).y_mm for x in (0.0, 300.0, 600.0, 900.0, 1200.0)] == pytest.approx([0, 3, 6, 0, -6])
    assert wall_at(points, 600.0).name == "s1" and wall_at(points, 300.0).name == "between s0 and s1"


def test_beyond_the_last_reading_it_goes_on_as_far_as_it_is_let():
    points = face((0.0, 1.0), (600.0, 6.0))
    assert wall_at(points, 900.0, 300.0).y_mm == 6 and wall_at(points, 900.1, 300.0) is None
    assert wall_at(points, -300.0, 300.0).y_mm == 1 and wall_at(points, -300.1, 300.0) is None
    assert wall_at(points, -1.0) is None and wall_at(points, 601.0) is None and wall_at((), 0.0, 1000.0) is None


def test_only_heights_that_are_asked_for_count_and_of_two_at_one_place_the_one_further_out():
    wall = wall_by_hand(sample.run(), face=[(0.0, BATTEN, 1.0), (0.0, FLOOR, 9.0), (0.0, BATTEN, 4.0), (600.0, BATTEN, 2.0)])
    assert [(one.x_mm, one.y_mm) for one in wall_points(wall, BATTEN)] == [(0.0, 4.0), (600.0, 2.0)]
    assert [one.y_mm for one in wall_points(wall, FLOOR, BATTEN)] == [9.0, 4.0, 2.0]
    unread = replace(wall, spots=tuple(replace(one, wall_mm=None) for one in wall.spots))
    assert wall_points(unread, *WallHeight) == () and wall_points(None, BATTEN) == ()


def test_behind_a_span_lie_the_readings_in_it_and_the_wall_at_its_ends():
    points = face((0.0, 0.0), (600.0, 6.0), (1200.0, -6.0))
    assert [(one.x_mm, one.y_mm) for one in points_behind(points, [(300.0, 900.0)])] == [(300, 3), (600, 6), (900, 0)]
    assert [one.x_mm for one in points_behind(points, [(600.0, 1200.0)])] == [600, 1200]
    assert points_behind(points, [(1300.0, 1900.0)]) == ()


def test_spans_that_touch_or_overlap_are_one():
    assert merged([(5.0, 9.0), (0.0, 4.0), (1.0, 2.0), (4.3, 5.0)]) == ((0.0, 9.0),)
    assert merged([(0.0, 4.0), (4.6, 5.0)]) == ((0.0, 4.0), (4.6, 5.0)) and merged([]) == ()


# A back that shows.


def test_a_wall_of_several_stretches_hides_a_back_wherever_one_of_them_stands():
    """An island of one unit, 60 in front of a wall that turns a corner behind it."""
    island = Run("island", "Island", 1500.0, 2000.0, 0.0, None, items=(unit("a"),))
    far = Wall("far", "far wall", (Point(0, 500), Point(1000, 500), Point(1000, 600)))
    near = Wall("near", "near wall", (Point(0, 600), Point(0, 1940), Point(2500, 1940)))

    def pieces(*walls):
        room = replace(room_of(island), walls=walls)
        return [one.name for one in plinth_pieces(job_of(room), room, all_placed(room), floor_of(surface(lambda x, y: 0.0)), 875.0, {})[0]]

    assert any("back" in name for name in pieces(far)) and not any("back" in name for name in pieces(near))


def test_units_of_another_run_hide_a_back_too():
    """Two islands back to back 20 apart, and one alone."""
    one = Run("one", "One", 1500.0, 2000.0, 0.0, None, items=(unit("a"),))
    other = Run("other", "Other", 2100.0, 1980.0, 180.0, None, items=(unit("b"),))

    def backs(*runs):
        room = replace(room_of(*runs), walls=())
        return sum("back" in each.name for each in plinth_pieces(job_of(room), room, all_placed(room), floor_of(surface(lambda x, y: 0.0)), 875.0, {})[0])

    assert backs(one) == 1 and backs(one, other) == 0


def test_the_faces_of_a_wall_read_from_its_right_end_are_the_same():
    of_run = run(*[600.0] * 3)
    bodies = all_heights(of_run, 100.0, 97.0, 102.0, 100.0)
    assert faces(wall_of(of_run, bodies)) == faces(wall_of(of_run, bodies[::-1])) == {0.0: 0.0, 600.0: 3.0, 1200.0: -2.0, 1800.0: 0.0}


def every_place(spots, values_mm, shift_mm):
    """Said plainly: each index, held against each spot that was read again."""
    seen, possible = {}, [True] * len(spots)
    for index, spot in enumerate(spots):
        earlier = seen.setdefault(spot, index)
        differ_mm, half_mm = values_mm[index] - values_mm[earlier], abs(shift_mm) / 2 + 1e-9
        for first_after in range(1, len(spots)) if earlier < index else ():
            between = earlier < first_after <= index
            possible[first_after] &= abs(differ_mm - shift_mm) <= half_mm if between else abs(differ_mm) <= half_mm
    return [index for index in range(1, len(spots)) if possible[index]]


@settings(derandomize=True, deadline=None, max_examples=200)
@given(st.lists(st.tuples(st.integers(0, 4), st.sampled_from([100.0, 103.0, 106.0, 108.0])), max_size=14), st.sampled_from([6.0, -6.0, 3.0, 0.0]))
def test_where_a_line_may_have_moved_is_what_every_place_tried_by_itself_gives(shots, shift_mm):
    spots, values = [spot for spot, _ in shots], [value for _, value in shots]
    assert knock_places(spots, values, shift_mm) == every_place(spots, values, shift_mm)
