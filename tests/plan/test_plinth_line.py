"""Plinth lines and pieces: lengths on the recessed line, what they come to at their ends, heights over the floor."""

import dataclasses

import numpy as np
import pytest
from datum_rooms import all_placed, bay, falling, floor_of, job_of, machine, room_of, rules, run_of, surface, unit
from hypothesis import given, settings
from hypothesis import strategies as st

from oddleg.job import (
    CornerPost,
    EndPanel,
    Filler,
    Gap,
    PlinthBoard,
    Point,
    Run,
    Storey,
    Tolerances,
    Wall,
)
from oddleg.plan.plinth_line import bends, plinth_pieces

LEVEL = floor_of(surface(lambda x, y: 0.0))
BOARD = PlinthBoard(150, 2, 16, 20, length_mm=3000)


def wall(name, x0, y0, x1, y1):
    return Wall(name, f"{name} wall", (Point(x0, y0), Point(x1, y1)))


def made(room, floor=LEVEL, datum_mm=875.0, **job):
    return plinth_pieces(job_of(room, **job), room, all_placed(room), floor, datum_mm, {})


def lengths(room, **more):
    return [piece.length.mm for piece in made(room, **more)[0]]


def ends(room, **more):
    return [(piece.left_end.kind.value, piece.right_end.kind.value) for piece in made(room, **more)[0]]


def between_walls(*items, board=BOARD, **more):
    """A run from wall to wall."""
    width_mm = sum(item.width_mm for item in items if item.storey is not Storey.WALL)
    room = room_of(run_of(*items, **more), board=board)
    walls = (*room.walls, wall("left", 0, 0, 0, 3000), wall("right", width_mm, 0, width_mm, 3000))
    return dataclasses.replace(room, walls=walls)


def fours(prefix, count, width_mm=600.0):
    return [unit(f"{prefix}{i}", width_mm) for i in range(count)]


def inside_corner(turned_round=False):
    """Fronts visible 2400 and 1800 from the corner where the front lines meet, X 2400, Y 560; both ends at walls."""
    long = run_of(*fours("a", 4), name="long")
    short = Run("short", "Short run", 2960.0, 560.0, 90.0, "side", items=tuple(fours("b", 3)))
    room = room_of(*((short, long) if turned_round else (long, short)), board=BOARD)
    walls = (*room.walls, wall("left", 0, 0, 0, 3000), wall("side", 2960, 0, 2960, 2360), wall("end", 2960, 2360, 0, 2360))
    return dataclasses.replace(room, walls=walls)


def test_at_an_inside_corner_lengths_follow_from_the_recessed_lines():
    """Trap 35, FP: visible 2400 and 1800, recess 50, board 16: 2400 + 50 = 2450, and 1800 + 50 + 16 = 1866 behind it."""
    assert lengths(inside_corner()) == pytest.approx([2400 + 50, 1800 + 50 + 16])
    assert ends(inside_corner()) == [("wall", "butts"), ("behind", "wall")]


def test_the_order_of_runs_does_not_choose_which_runs_on_behind():
    assert sorted(lengths(inside_corner(turned_round=True))) == pytest.approx([1866, 2450])


def test_a_blind_corner_unit_ends_its_plinth_at_the_other_face():
    """The last unit runs on into the corner; the plinth does not. FP: as Trap 35."""
    room = inside_corner()
    blind = unit("blind", 1000.0)
    long = dataclasses.replace(room.runs[0], items=(*fours("a", 3), blind))
    assert lengths(dataclasses.replace(room, runs=(long, room.runs[1]))) == pytest.approx([2450, 1866])


def test_at_an_outside_corner_plinths_are_the_recess_shorter():
    """Trap 35, FP: visible 2400 and 1800: 2400 - 50 = 2350 covers the end of 1800 - 50 - 16 = 1734, which closes the
    corner unit's side as well."""
    front = run_of(*fours("a", 4), name="front")
    round_it = Run("round", "Round run", 1840.0, 0.0, 270.0, "side", items=tuple(fours("b", 2, 620.0)))
    room = room_of(front, round_it, board=BOARD)
    walls = (wall("left", 0, 0, 0, 3000), wall("side", 1840, 0, 1840, -1240), wall("end", 1000, -1240, 3000, -1240))
    room = dataclasses.replace(room, walls=walls)
    assert lengths(room) == pytest.approx([2350, 1734])
    assert ends(room) == [("wall", "covers"), ("butts", "wall")]


def test_a_peninsula_ends_at_the_face_of_the_plinth_that_runs_past():
    """FP: from its own front line 50 on to the other's face, no more, along front and back; the other is not cut."""
    past = run_of(*fours("a", 4), name="past")
    out = Run("out", "Peninsula", 1800.0, 560.0, 90.0, None, items=(unit("p"), EndPanel("end", "end panel", 18.0, 560.0)))
    room = room_of(past, out, board=BOARD)
    room = dataclasses.replace(room, walls=(*room.walls, wall("left", 0, 0, 0, 3000), wall("right", 2400, 0, 2400, 3000)))
    assert lengths(room) == pytest.approx([2400, 650, 650])
    assert ends(room) == [("wall", "wall"), ("butts", "panel"), ("panel", "butts")]


def test_a_bay_stops_the_plinth_unless_it_runs_through():
    items = (unit("a"), bay(machine(820.0)), unit("b"))
    assert lengths(between_walls(*items)) == [600, 600]
    assert ends(between_walls(*items)) == [("wall", "bay"), ("bay", "wall")]
    through = (unit("a"), bay(machine(820.0), plinth_runs_through=True), unit("b"))
    assert lengths(between_walls(*through)) == [1800]


def test_fillers_posts_and_short_panels_stand_over_the_plinth_and_those_to_the_floor_stop_it():
    filler, post = Filler("f", "filler", 50.0, 30.0, 80.0), CornerPost("p", "post", 60.0)
    hung = EndPanel("h", "short panel", 18.0, 560.0, to_floor=False)
    assert lengths(between_walls(filler, unit("a"), post, hung, unit("b"))) == [50 + 600 + 60 + 18 + 600]
    stood = EndPanel("s", "panel", 18.0, 560.0, allowance_mm=1.5)
    assert lengths(between_walls(unit("a"), stood, unit("b"))) == [600, 600]
    post = CornerPost("p", "post", 60.0, to_floor=True)
    assert ends(between_walls(unit("a"), post, unit("b"))) == [("wall", "panel"), ("panel", "wall")]


def test_a_visible_end_stops_its_recess_short_and_has_a_return():
    """FP: 600 less 50 at either end; return from the wall to the back of the front board, 560 - 50 - 16 = 494."""
    room = room_of(run_of(unit("a")), board=BOARD)
    assert lengths(room) == [500, 494, 494]
    pieces, findings = made(room)
    assert [one.returns for one in pieces] == [False, True, True]
    assert [(one.left_end.kind.value, one.right_end.kind.value) for one in pieces[1:]] == [("wall", "butts"), ("butts", "wall")]
    assert [(one.x0_mm, one.y0_mm, one.x1_mm, one.y1_mm) for one in pieces[1:]] == [(50, 0, 50, 494), (550, 494, 550, 0)]
    assert findings == ()


def test_a_gap_in_a_run_leaves_two_visible_ends():
    items = (unit("a"), Gap("g", "way through", 900.0), unit("b"))
    assert lengths(between_walls(*items)) == [550, 494, 550, 494]


def test_another_recess_parts_the_line():
    assert lengths(between_walls(unit("a"), unit("b", plinth_recess_mm=80.0))) == [600, 600]


def test_a_plinth_passes_under_the_lowest_edge_while_no_more_than_is_allowed_stays_open():
    items = (unit("a"), unit("b", visible_drop_mm=12.0))
    (piece,), _ = made(between_walls(*items))
    assert piece.least_gap.mm == 875 - 720 - 12
    lower = (unit("a"), unit("b", visible_drop_mm=21.0))
    assert [one.least_gap.mm for one in made(between_walls(*lower))[0]] == [155, 134]


def test_a_run_as_long_as_the_board_is_one_piece_and_a_longer_one_is_joined_where_units_meet():
    assert lengths(between_walls(*fours("a", 5))) == [3000]
    assert lengths(between_walls(*fours("a", 4, 900.0))) == [2700, 900]
    assert ends(between_walls(*fours("a", 4, 900.0))) == [("wall", "joint"), ("joint", "wall")]


def test_a_joint_that_no_units_hide_is_a_finding():
    pieces, findings = made(between_walls(unit("a", 3500.0)))
    assert [one.length.mm for one in pieces] == [3000, 500]
    assert rules(findings) == ["plinth.joint_shows"]


def test_a_board_over_a_high_enough_gap_is_left_uncut_and_what_stays_open_is_said():
    """Trap 10, FP: floor 0 to -14, D 872: gaps 152 to 166 over a board of 150: nothing ripped, 16 open at most."""
    room = between_walls(*fours("a", 5))
    (piece,), findings = made(room, floor_of(surface(falling(14, 3000))), 872.0)
    assert piece.uncut and piece.rip is None and piece.profile == ()
    assert (piece.left.mm, piece.right.mm) == (150, 150)
    assert (piece.least_gap.mm, piece.greatest_gap.mm, piece.open_above.mm) == pytest.approx((152, 166, 16))
    assert findings == ()


def test_more_open_than_wanted_is_a_finding():
    room = between_walls(*fours("a", 5))
    assert rules(made(room, datum_mm=720 + 170.0)[1]) == []
    assert rules(made(room, datum_mm=720 + 170.5)[1]) == ["plinth.open_above"]


def test_a_ripped_board_is_the_gap_less_the_fit_at_both_ends():
    """FP: D 860, carcass 720, floor 0 to -6: 140 - 2 = 138 and 146 - 2 = 144; 150 - 138 = 12 comes off; a floor that
    falls evenly wants no profile."""
    room = between_walls(*fours("a", 5))
    (piece,), findings = made(room, floor_of(surface(falling(6, 3000))), 860.0)
    assert (piece.left.mm, piece.right.mm, piece.rip.mm) == pytest.approx((138, 144, 12))
    assert not piece.uncut and piece.profile == () and findings == ()
    assert piece.open_above.mm == pytest.approx(2)
    assert "less fit 2" in piece.left.why and "Datum 860" in piece.left.why


def hump(height_mm, at_mm=1500.0):
    return lambda x, y: height_mm * (1 - abs(x - at_mm) / at_mm)


def test_a_floor_that_bows_more_than_the_tolerance_gives_a_profile():
    room = between_walls(*fours("a", 5))
    (piece,), findings = made(room, floor_of(surface(hump(5.0))), 860.0)
    assert [point.at.mm for point in piece.profile] == [0, 1500, 3000]
    assert [point.height.mm for point in piece.profile] == pytest.approx([138, 133, 138])
    assert piece.rip.mm == pytest.approx(17)
    assert rules(findings) == ["plinth.profile"]
    hollow = made(room, floor_of(surface(hump(-5.0))), 860.0)[0][0]
    assert [point.height.mm for point in hollow.profile] == pytest.approx([138, 143, 138])
    assert made(room, floor_of(surface(hump(1.0))), 860.0)[0][0].profile == ()


def test_a_hump_that_takes_all_the_play_is_cut_for_whatever_the_tolerance():
    room = between_walls(*fours("a", 5))
    loose = Tolerances(plinth_bow_mm=10.0)
    assert made(room, floor_of(surface(hump(3.0))), 860.0, tolerances=loose)[0][0].profile != ()


def test_a_gap_that_leaves_no_board_is_a_stop():
    _, findings = made(between_walls(unit("a")), datum_mm=722.0)
    assert rules(findings) == ["plinth.no_room"]


def test_a_plinth_without_a_floor_at_its_end_is_named_and_not_guessed():
    pieces, findings = made(between_walls(unit("a")), floor_of(surface(lambda x, y: None if x > 500 else 0.0, ((0, 0),))))
    assert pieces == () and rules(findings) == ["plinth.no_floor"]


def test_plinths_are_measured_from_the_finished_floor():
    """Trap 8, FP: 875 - 720 - 20 = 135."""
    floor = floor_of(surface(lambda x, y: 0.0), surface(lambda x, y: 20.0))
    assert made(between_walls(unit("a")), floor)[0][0].least_gap.mm == 135


def test_a_unit_without_legs_has_no_plinth():
    room = between_walls(unit("a"), dataclasses.replace(unit("b"), legs=None), unit("c"))
    assert ends(room) == [("wall", "unit"), ("unit", "wall")]


def test_turning_the_room_changes_no_length():
    room = inside_corner()
    turned = [
        dataclasses.replace(run, x_mm=-run.y_mm, y_mm=run.x_mm, bearing_deg=run.bearing_deg + 90) for run in room.runs
    ]
    walls = [
        dataclasses.replace(one, points=tuple(Point(-point.y_mm, point.x_mm) for point in one.points)) for one in room.walls
    ]
    assert lengths(dataclasses.replace(room, runs=tuple(turned), walls=tuple(walls))) == pytest.approx([2450, 1866])


@settings(derandomize=True, deadline=None)
@given(st.lists(st.floats(-20, 20), min_size=2, max_size=30), st.floats(0.1, 5))
def test_no_point_is_missed_by_more_than_the_tolerance(heights_mm, tolerance_mm):
    points = [(100.0 * i, height) for i, height in enumerate(heights_mm)]
    kept = bends(points, tolerance_mm)
    assert kept[0] == 0 and kept[-1] == len(points) - 1
    line = np.interp([at for at, _ in points], [points[i][0] for i in kept], [points[i][1] for i in kept])
    assert np.abs(line - heights_mm).max() <= tolerance_mm + 1e-5


@settings(derandomize=True, deadline=None, max_examples=40)
@given(st.lists(st.integers(300, 1200), min_size=1, max_size=12))
def test_a_joined_line_is_as_long_as_its_units_and_no_piece_is_longer_than_the_board(widths_mm):
    room = between_walls(*[unit(f"u{i}", float(width)) for i, width in enumerate(widths_mm)])
    found = lengths(room)
    assert sum(found) == pytest.approx(sum(widths_mm))
    assert max(found) <= 3000
