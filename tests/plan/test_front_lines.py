"""Lines of backs: the void kept everywhere, least depth wasted, rules, corners, zeros, and the worktop's depth."""

import math
from dataclasses import replace

import pytest
import sample_room as sample
from hypothesis import given, settings
from hypothesis import strategies as st
from set_out_rooms import finding, line_of, lines_of, rules, run, units, wall

from oddleg.job import (
    EndsAt,
    Feature,
    FeatureKind,
    Front,
    FrontFit,
    FrontLineRule,
    Gap,
    LineIs,
    RunEnd,
    Storey,
    Worktop,
)
from oddleg.plan.axes import to_room, to_run
from oddleg.plan.corner import Corner

hold = settings(derandomize=True, deadline=None, max_examples=50)
STRING = ((0.0, 0.0), (600.0, 8.0), (1200.0, -4.0))


def square_to(other):
    return FrontLineRule(LineIs.SQUARE, run=other)


def level_run():
    """An island of which nothing is read: what is square to it lies along its own reference line."""
    return replace(run(sample.carcass("island-unit"), id="island"), wall=None)


def parallel(from_x_mm, to_x_mm):
    return FrontLineRule(LineIs.PARALLEL, from_x_mm, to_x_mm)


# One run


def test_a_large_reading_from_a_string_is_a_hollow_and_the_worktop_needs_its_depth():
    # Trap 23: wall 0, +8, -4, least void 10, held parallel to the string: backs at 18, void 18, 10, 22; with carcass
    # 560, front 20 and overhang 20 the top needs 622. FP
    held = run(front_line=square_to("island"))
    line = lines_of(wall(held, STRING), runs=[held, level_run()])["run-a"][0]
    assert (line.back_mm, line.slope) == (18.0, 0.0)
    assert [line.back_at(x) - y for x, y in STRING] == [18.0, 10.0, 22.0]
    assert (line.least_void.text, line.greatest_void.text, line.waste.text) == ("10", "22", "12")
    assert line.depth_needed.mm == 22 + 560 + 20 + 20
    told = finding(line.findings, "front_line.worktop_depth")
    assert told.amount.text == "22" and "650 or 900" in told.cure and "at 1200 from the zero" in told.wrong


def test_a_splashback_of_12_leaves_10_of_the_22_to_find():
    held = run(front_line=square_to("island"))
    lines = lines_of(wall(held, STRING), runs=[held, level_run()], worktop=Worktop(30.0, cover_mm=12.0))
    told = finding(lines["run-a"][0].findings, "front_line.worktop_depth")
    assert told.amount.mm == 22 - 12
    assert "let it overhang 10" in told.cure


def test_left_free_the_same_wall_wastes_2_less():
    # The hull of 0, 8, -4: its widest chord stands over the middle: 8 - (0 - 4) / 2 = 10. FP
    line = line_of(wall(run(), STRING))
    assert line.waste.mm == pytest.approx(10.0)
    assert line.slope == pytest.approx(-4 / 1200)
    assert [line.back_at(x) - y for x, y in STRING] == pytest.approx([20.0, 10.0, 20.0])
    assert line.binding == ((600.0, 8.0),)
    assert line.words == "It lies where it wastes least depth; the least void is at wall 2, at batten height."


def test_a_worktop_that_is_deep_enough_is_no_finding():
    line = line_of(wall(run(), STRING), worktop=Worktop(30.0, depth_mm=620.0))
    assert rules(line.findings) == []


def test_an_inset_front_adds_nothing_and_a_face_frame_its_thickness():
    level = ((0.0, 0.0), (1200.0, 0.0))
    for front, stands_mm in (
        (Front(FrontFit.INSET, 20.0), 0.0),
        (Front(FrontFit.FRAME, 20.0, frame_thickness_mm=22.0), 22.0),
        (None, 0.0),
    ):
        line = line_of(wall(run(*units(front=front)), level))
        assert line.depth_needed.mm == 10 + 560 + stands_mm + 20


def test_the_wall_that_leans_out_at_the_floor_sets_the_line():
    # Trap 24: 12 further out at the bottom: backs at 12 + 10, and 12 more at batten height. FP
    level = ((0.0, 0.0), (1200.0, 0.0))
    line = line_of(wall(run(), level, floor=((0.0, 12.0), (1200.0, 12.0))))
    assert (line.back_mm, line.slope) == (22.0, 0.0)
    assert (line.least_void.mm, line.greatest_void.mm) == (10.0, 22.0)
    # The worktop lies where the wall stands back.
    assert line.depth_needed.mm == 22 + 560 + 20 + 20


def test_a_hollow_at_the_floor_costs_the_worktop_nothing():
    level = ((0.0, 0.0), (1200.0, 0.0))
    line = line_of(wall(run(), level, floor=((0.0, -15.0), (1200.0, -15.0)), worktop=level))
    assert line.greatest_void.mm == 25.0
    assert line.depth_needed.mm == 10 + 560 + 20 + 20


def test_what_hangs_lies_parallel_with_an_offset_of_its_own():
    # Trap 24: the wall leans, 6 further out at wall-unit height.
    hung = sample.carcass("hung", 600.0, depth_mm=330.0, legs=None, storey=Storey.WALL)
    of_wall = wall(run(*units(), hung), STRING, wall_units=((0.0, 26.0), (600.0, 20.0)))
    standing, hanging = lines_of(of_wall)["run-a"]
    assert hanging.slope == standing.slope
    # Backs at the wall unit: 26 + 10 at 0, where the standing line has 20: 16 further out. FP
    assert hanging.back_mm == pytest.approx(26.0 + 10.0)
    assert hanging.set_out.bearing_deg == standing.set_out.bearing_deg
    assert hanging.set_out.void_mm - standing.set_out.void_mm == pytest.approx(16.0, abs=1e-3)
    assert hanging.depth_needed is None
    assert (hanging.set_out.x_mm, hanging.set_out.y_mm) == (standing.set_out.x_mm, standing.set_out.y_mm)


def test_wall_units_before_a_wall_that_is_not_read_up_there_hang_on_the_line_of_what_stands():
    hung = sample.carcass("hung", 600.0, legs=None, storey=Storey.WALL)
    standing, hanging = lines_of(wall(run(*units(), hung), STRING))["run-a"]
    assert not hanging.read and hanging.back_mm == standing.back_mm
    assert "not read at wall-unit height" in hanging.words


def test_a_bulge_up_at_wall_units_counts_behind_a_tall_unit_only():
    level = ((0.0, 0.0), (1800.0, 0.0))
    bulge = ((0.0, 9.0), (1200.0, 0.0), (1800.0, 0.0))
    tall = sample.carcass("tall", 600.0, height_mm=1970.0, storey=Storey.TALL)
    low = line_of(wall(run(*units(3)), level, wall_units=bulge))
    at_the_bulge = line_of(wall(run(tall, *units(2)), level, wall_units=bulge))
    elsewhere = line_of(wall(run(*units(2), tall), level, wall_units=bulge))
    assert low.waste.mm == elsewhere.waste.mm == pytest.approx(0.0)
    # 9 at 0 down to 4.5 at the tall unit's right side: the line must clear both. FP
    assert at_the_bulge.back_at(0.0) == pytest.approx(19.0)
    assert at_the_bulge.back_at(600.0) >= 4.5 + 10 - 1e-9


def test_what_stands_out_beyond_the_run_or_in_a_gap_of_it_is_not_kept_clear():
    bulge = ((0.0, 0.0), (600.0, 0.0), (700.0, 30.0), (800.0, 30.0), (900.0, 0.0), (1500.0, 0.0), (2000.0, 40.0))
    gap = Gap("gap", "gap", 300.0)
    one, two = units(2)
    line = line_of(wall(run(one, gap, two), bulge))
    assert line.waste.mm == pytest.approx(0.0)
    assert line.back_mm == pytest.approx(10.0)


def test_the_line_is_parallel_to_the_wall_between_the_two_points_of_its_rule():
    # From 0 at 300 (between 0 and 0) to 6 at 900: 6 in 600; the high spot 8 holds it: 8 + 10 - 0.01 x 600. FP
    points = ((0.0, 0.0), (300.0, 0.0), (600.0, 8.0), (900.0, 6.0), (1200.0, 2.0))
    line = line_of(wall(run(front_line=parallel(300.0, 900.0)), points))
    assert line.slope == pytest.approx(6 / 600)
    assert line.back_mm == pytest.approx(8 + 10 - 0.01 * 600)
    assert "parallel to the wall from 300 to 900" in line.words


def test_the_line_is_parallel_to_the_wall_at_a_feature_where_that_was_measured():
    """Drawn from 0 to 600, measured 300 further on: from 0 at 300 to 6 at 900, as above."""
    points = ((0.0, 0.0), (300.0, 0.0), (600.0, 8.0), (900.0, 6.0), (1200.0, 2.0))
    drawn = Feature("window", "the window", FeatureKind.WINDOW, 0.0, 600.0, stands_out_mm=-90.0)
    measured = replace(drawn, left_mm=300.0, right_mm=900.0)
    rule = FrontLineRule(LineIs.PARALLEL, feature="window")
    of_wall = replace(wall(run(front_line=rule, features=(drawn,)), points), features=(measured,))
    line = line_of(of_wall)
    assert line.slope == pytest.approx(6 / 600) and line.back_mm == pytest.approx(8 + 10 - 0.01 * 600)
    assert "parallel to the wall between the edges of the window" in line.words
    nowhere = line_of(replace(of_wall, features=()))
    assert "front_line.parallel_unread" in rules(nowhere.findings)


def test_a_rule_whose_points_are_not_read_leaves_the_line_free_and_says_so():
    of_wall = wall(run(front_line=parallel(300.0, 1900.0)), STRING)
    line = line_of(of_wall)
    assert line.slope == pytest.approx(line_of(wall(run(), STRING)).slope)
    assert "front_line.parallel_unread" in rules(line.findings)


def test_a_wall_that_is_not_read_keeps_the_drawn_line_and_says_so():
    line = line_of(wall(run()))
    assert (line.read, line.back_mm, line.slope) == (False, 10.0, 0.0)
    assert line.set_out == line.run
    assert rules(line.findings) == ["front_line.unread", "front_line.worktop_depth"]
    assert line.findings[1].severity.value == "note"


def test_a_run_without_a_wall_or_without_items_still_has_a_line():
    lines = lines_of(runs=[level_run(), replace(sample.run(id="empty"), void_mm=15.0)])
    assert [(line.read, line.back_mm) for line, _ in lines.values()] == [(False, 10.0), (False, 15.0)]
    assert [line.depth_needed for line, _ in lines.values()] == [None, None]
    assert all("front_line.unread" not in rules(line.findings) for line, _ in lines.values())


def test_one_reading_moves_the_line_and_does_not_turn_it():
    line = line_of(wall(run(), ((600.0, 5.0),)))
    assert (line.read, line.back_mm, line.slope) == (True, 15.0, 0.0)


def test_the_run_as_set_out_has_its_line_of_backs_at_its_void():
    line = line_of(wall(run(), STRING))
    for x_mm in (0.0, 700.0, 1200.0):
        on_line = to_room(line.run, x_mm, line.back_at(x_mm))
        x_out, y_out = to_run(line.set_out, on_line)
        assert y_out == pytest.approx(line.set_out.void_mm, abs=1e-9)
        assert x_out == pytest.approx(x_mm, abs=0.02)


@hold
@given(
    st.lists(st.tuples(st.integers(0, 12), st.integers(-40, 40)), min_size=1, max_size=15),
    st.integers(0, 30),
)
def test_the_void_is_kept_at_every_reading_and_held_at_one(steps, void_mm):
    points = tuple(sorted({step * 100.0: out / 2 for step, out in steps}.items()))
    line = line_of(wall(run(void_mm=float(void_mm)), points))
    voids = [line.back_at(x) - y for x, y in points]
    assert min(voids) == pytest.approx(void_mm, abs=1e-9)
    assert max(voids) - void_mm == pytest.approx(line.waste.mm, abs=1e-9)


# Corners

LENGTH_MM = 3000.0


def ell(left_points=None, right_points=None, angle_deg=90.0, **more):
    """A window run whose right end meets the left end of a side run; both walls 3000 long, as drawn square."""
    rule = more.pop("left_rule", FrontLineRule())
    left = sample.run(
        *units(5, prefix="window"), id="window", void_mm=10.0, right_end=RunEnd(EndsAt.OTHER_BACKS, "side"), front_line=rule
    )  # fmt: skip
    side = sample.run(
        *units(4, prefix="side"), id="side", void_mm=10.0, x_mm=LENGTH_MM, left_end=RunEnd(more.pop("begins", EndsAt.OTHER_FRONTS), "window"),
        front_line=more.pop("right_rule", FrontLineRule()),
    )  # fmt: skip
    side = replace(side, bearing_deg=90.0)
    corner = Corner(left, side, angle_deg, None, angle_deg, (), (), None, None, None, "", "", ())
    walls = [wall(one, points) for one, points in ((left, left_points), (side, right_points)) if points is not None]
    lines = lines_of(*walls, runs=[left, side], corners=(corner,))
    return lines["window"][0], lines["side"][0]


FLAT = ((0.0, 0.0), (4000.0, 0.0))


def test_a_corner_opened_leaves_the_far_end_further_from_the_wall():
    # Trap 26: open 90.1194 over 4000: far void + 8.3. FP
    _, line = ell(FLAT, ((0.0, 0.0), (2400.0, 0.0)), 90.1194, left_rule=parallel(0.0, 3000.0))
    assert line.back_at(4000.0) - line.back_at(0.0) == pytest.approx(4000 * math.sin(math.radians(0.1194)), abs=0.001)
    assert line.back_at(4000.0) - 10.0 == pytest.approx(8.3, abs=0.05)
    assert line.back_at(0.0) == pytest.approx(10.0)


def test_a_corner_closed_brings_the_line_out_by_what_it_takes_at_the_far_end():
    # Trap 26: closed 89.7615: 16.65 less at 4000, so the line comes out by 16.65 at the corner. FP
    far = units(4, 1000.0, "side")
    left = sample.run(*units(5, prefix="window"), id="window", void_mm=10.0, front_line=parallel(0.0, 3000.0))
    side = replace(sample.run(*far, id="side", void_mm=10.0, x_mm=LENGTH_MM), bearing_deg=90.0)
    corner = Corner(left, side, 89.7615, None, 89.7615, (), (), None, None, None, "", "", ())
    lines = lines_of(wall(left, FLAT), wall(side, FLAT), corners=(corner,))
    line = lines["side"][0]
    assert line.back_at(4000.0) == pytest.approx(10.0)
    assert line.back_at(0.0) == pytest.approx(10.0 + 16.65, abs=0.005)


def test_two_straight_walls_share_what_their_corner_is_off():
    # Equal lengths, 0.1 degrees open: either takes half, the greatest waste is 2400 x tan(0.1) / 2. FP
    left, side = ell(((0.0, 0.0), (2400.0, 0.0)), ((0.0, 0.0), (2400.0, 0.0)), 90.1)
    turn = math.tan(math.radians(0.1))
    assert (left.slope, side.slope) == pytest.approx((-turn / 2, turn / 2))
    assert left.waste.mm == pytest.approx(side.waste.mm) == pytest.approx(2400 * turn / 2)
    assert left.words.startswith("Window and side, square to each other, lie where they waste least depth; the least void is ")


def test_runs_in_a_corner_are_square_in_the_room_whatever_the_walls_do():
    left, side = ell(STRING, ((0.0, 0.0), (1200.0, 9.0), (2400.0, 3.0)), 90.2)
    assert side.set_out.bearing_deg - left.set_out.bearing_deg == pytest.approx(90.0, abs=1e-9)


def test_a_run_begins_at_the_other_ones_line_of_backs_and_not_at_the_plaster():
    # Trap 25: the window run's void of 22 (10 wanted, 12 of the bulge at 0) takes 22 of the side run. FP
    bulge = ((0.0, 12.0), (200.0, 12.0), (2800.0, 12.0), (3000.0, 0.0))
    left, side = ell(bulge, FLAT, begins=EndsAt.OTHER_BACKS, left_rule=parallel(200.0, 2800.0))
    assert left.back_at(LENGTH_MM) == pytest.approx(22.0)
    assert side.zero_mm == pytest.approx(22.0)
    assert to_run(left.set_out, to_room(side.set_out, 0.0, 300.0))[1] == pytest.approx(left.set_out.void_mm)


def test_beside_the_other_ones_fronts_its_carcass_depth_is_added():
    left, side = ell(FLAT, FLAT)
    assert side.zero_mm == pytest.approx(10.0 + 560.0)
    assert to_run(left.set_out, to_room(side.set_out, 0.0, 0.0))[1] == pytest.approx(left.set_out.void_mm + 560.0)


def test_where_a_corner_is_drawn_square_and_is_not_the_runs_turn_about_it():
    left, side = ell(STRING, ((0.0, 0.0), (1200.0, 9.0), (2400.0, 3.0)), 90.2)
    for line, x_mm in ((left, LENGTH_MM - side.back_mm), (side, 0.0)):
        x_out = to_run(line.set_out, to_room(line.run, x_mm, line.back_at(x_mm)))
        assert x_out[1] == pytest.approx(line.set_out.void_mm, abs=0.05)
    # At the far end the drawing, square, and the walls, open, are apart: each run takes half of 0.2 degrees. FP
    far = to_run(left.set_out, to_room(left.run, 0.0, left.back_at(0.0)))[1] - left.set_out.void_mm
    assert abs(far) == pytest.approx(LENGTH_MM * math.tan(math.radians(0.1)), abs=0.1)


def test_the_zero_lies_on_the_other_line_also_where_both_are_turned():
    left, side = ell(STRING, ((0.0, 0.0), (1200.0, 9.0), (2400.0, 3.0)), 90.2)
    for y_mm in (-200.0, 0.0, 500.0):
        on_zero = to_run(left.set_out, to_room(side.set_out, 0.0, y_mm))
        assert on_zero[1] == pytest.approx(left.set_out.void_mm + 560.0, abs=1e-6)
    assert left.zero_mm == pytest.approx(0.0, abs=0.1)


def test_a_wall_that_is_not_read_turns_with_the_one_it_meets_and_keeps_its_void():
    left, side = ell(((0.0, 0.0), (3000.0, 15.0)), None)
    assert left.slope == pytest.approx(15 / 3000)
    assert side.slope == pytest.approx(left.slope) and not side.read
    assert side.least_void.mm == pytest.approx(10.0)
    assert side.greatest_void.mm == pytest.approx(10.0 + 2400 * 15 / 3000)


def test_nothing_read_in_a_corner_leaves_both_as_drawn():
    left, side = ell(None, None, 90.3)
    assert (left.set_out, side.set_out) == (left.run, side.run)


def test_two_rules_that_contradict_each_other_in_a_corner_are_told_and_fix_nothing():
    points = ((0.0, 0.0), (2400.0, 8.0))
    free_left, free_side = ell(points, ((0.0, 0.0), (2400.0, -8.0)))
    clash_left, clash_side = ell(
        points, ((0.0, 0.0), (2400.0, -8.0)), left_rule=parallel(0.0, 2400.0), right_rule=parallel(0.0, 2400.0)
    )
    assert rules(clash_left.findings)[0] == rules(clash_side.findings)[0] == "front_line.rules_clash"
    assert (clash_left.slope, clash_side.slope) == (free_left.slope, free_side.slope)


def test_a_square_run_follows_the_other_and_does_not_pull_it():
    leaning = ((0.0, 0.0), (1200.0, 12.0))
    island = replace(level_run(), front_line=square_to("run-a"))
    lines = lines_of(wall(run(), leaning), runs=[run(), island])
    assert lines["run-a"][0].slope == pytest.approx(0.01)
    assert lines["island"][0].slope == pytest.approx(0.01)
    assert lines["island"][0].set_out.bearing_deg == pytest.approx(math.degrees(math.atan(0.01)))


def test_two_runs_that_are_each_square_to_the_other_are_told():
    one, two = (replace(run(id=id), front_line=square_to(other)) for id, other in (("one", "two"), ("two", "one")))
    two = replace(two, items=units(prefix="two"))
    lines = lines_of(wall(one, STRING), wall(two, STRING))
    assert all("front_line.square_in_a_circle" in rules(line.findings) for line, _ in lines.values())


POINTS = st.lists(st.tuples(st.integers(0, 24), st.integers(-30, 30)), min_size=1, max_size=8).map(
    lambda steps: tuple(sorted({step * 100.0: out / 2 for step, out in steps}.items()))
)


@hold
@given(POINTS, POINTS, st.integers(-20, 20).map(lambda step: 90 + step / 50))
def test_a_mirrored_corner_is_laid_out_mirrored(left_points, right_points, angle_deg):
    def pair(left_points, right_points):
        left = sample.run(*units(4, prefix="left"), id="left", void_mm=10.0)
        right = replace(sample.run(*units(4, prefix="right"), id="right", void_mm=10.0), bearing_deg=90.0, x_mm=2400.0)
        corner = Corner(left, right, angle_deg, None, angle_deg, (), (), None, None, None, "", "", ())
        walls = wall(left, left_points), wall(right, right_points)
        forth = lines_of(*walls, corners=(corner,))
        back = lines_of(*reversed(walls), runs=[right, left], corners=(corner,))
        assert forth["left"][0].slope == pytest.approx(back["left"][0].slope, abs=1e-12)
        return forth["left"][0], forth["right"][0]

    def mirrored(points):
        return tuple((2400.0 - x, y) for x, y in reversed(points))

    left, right = pair(left_points, right_points)
    mirror_left, mirror_right = pair(mirrored(right_points), mirrored(left_points))
    for one, other in ((left, mirror_right), (right, mirror_left)):
        assert other.slope == pytest.approx(-one.slope, abs=1e-9)
        assert other.back_at(2400.0) == pytest.approx(one.back_at(0.0), abs=1e-6)
        assert other.waste.mm == pytest.approx(one.waste.mm, abs=1e-6)
