"""Where plinths come to walls as the run was set out, and corners of a U."""

import dataclasses

import pytest
from datum_rooms import all_placed, floor_of, job_of, room_of, run_of, surface, unit
from tall_rooms import rods_of

from oddleg.job import EndsAt, Filler, OpeningDepth, PlinthBoard, Point, Run, RunEnd, Wall, WallHeight
from oddleg.plan.figure import figure
from oddleg.plan.front_line import FrontLine
from oddleg.plan.plinth_ends import plinth_wall_ends
from oddleg.plan.plinth_line import plinth_pieces
from oddleg.plan.setting_out import RunSetOut
from oddleg.plan.wall import EndWall
from oddleg.plan.wall import Wall as ReadWall

LEVEL = floor_of(surface(lambda x, y: 0.0))
BOARD = PlinthBoard(150, 2, 16, 20, length_mm=6000)
AT_WALLS = {"left_end": RunEnd(EndsAt.WALL), "right_end": RunEnd(EndsAt.WALL)}


def beyond(side, beyond_mm, height=WallHeight.FLOOR, depth=OpeningDepth.FRONT):
    return EndWall(side, height, depth, figure(beyond_mm), f"{side} {height} {depth}")


def set_out(room, *end_walls, **ends_mm):
    """Each run set out with zero and end mark where `ends_mm` says, its side walls read as given."""
    found = []
    for run, rod in zip(room.runs, rods_of(room, **ends_mm), strict=True):
        line = FrontLine(run, None, False, 0.0, 0.0, (), *[figure(0.0)] * 3, None, "", run, ())
        wall = ReadWall(run, (), (), (), (), tuple(end_walls), (), ())
        found.append(RunSetOut(run, wall, line, None, rod, None, (), ()))
    return found


def lengths(room, runs=()):
    ends = plinth_wall_ends(runs)
    pieces, _ = plinth_pieces(job_of(room), room, all_placed(room), LEVEL, 875.0, {}, ends)
    return [piece.length.mm for piece in pieces]


def test_a_plinth_ends_at_the_measured_wall_and_not_at_the_drawn_one():
    """FP: units 1200 from the zero; the end mark 1200, the walls 5 and 8 beyond the marks at the floor: 1213; the drawn
    wall would be at 1190."""
    room = room_of(run_of(unit("a"), unit("b"), **AT_WALLS), board=BOARD)
    room = dataclasses.replace(room, walls=(*room.walls, Wall("r", "right wall", (Point(1190, 0), Point(1190, 3000)))))
    runs = set_out(room, beyond("left", 5.0), beyond("right", 8.0), run=(0.0, 1200.0))
    assert lengths(room, runs) == pytest.approx([1213])


def test_the_wall_is_taken_at_the_floor_and_in_front():
    """FP: 3 beyond at the floor in front counts, not 9 at the batten nor 7 at the back."""
    room = room_of(run_of(unit("a"), **AT_WALLS), board=BOARD)
    read = (
        beyond("right", 9.0, WallHeight.BATTEN),
        beyond("right", 7.0, depth=OpeningDepth.BACK),
        beyond("right", 3.0),
    )
    assert lengths(room, set_out(room, *read, run=(0.0, 600.0))) == pytest.approx([603])


def test_an_end_that_nobody_measured_is_taken_at_its_mark_and_says_so():
    """FP: a filler of 40 fills up to the end mark at 640."""
    room = room_of(run_of(unit("a"), Filler("f", "filler", 40.0, 20.0, 60.0), **AT_WALLS), board=BOARD)
    runs = set_out(room, run=(0.0, 640.0))
    assert lengths(room, runs) == pytest.approx([640])
    assert "measure it there" in plinth_wall_ends(runs)["run", True].words


def test_an_open_end_is_still_visible():
    """FP: 600 from the wall less 50; the return 560 - 50 - 16."""
    room = room_of(run_of(unit("a"), left_end=RunEnd(EndsAt.WALL)), board=BOARD)
    assert lengths(room, set_out(room, run=(0.0, 600.0))) == pytest.approx([550, 494])


def u_of(legs_mm, middle_mm):
    """A U: the middle run along Y 0, a leg down either side, all beginning where the front lines cross. Visible widths
    as given; every outer end at a wall."""
    middle = Run("middle", "Middle", 560.0, 0.0, 0.0, "top", items=(unit("m", middle_mm),))
    wide_mm = 560.0 + middle_mm + 560.0
    left = Run("left", "Left", 0.0, 560.0 + legs_mm[0], 270.0, "lw", items=(unit("l", legs_mm[0]),))
    right = Run("right", "Right", wide_mm, 560.0, 90.0, "rw", items=(unit("r", legs_mm[1]),))
    room = room_of(middle, left, right, board=BOARD)
    ends = [
        Wall("le", "left end", (Point(0, 560 + legs_mm[0]), Point(700, 560 + legs_mm[0]))),
        Wall("re", "right end", (Point(wide_mm - 700, 560 + legs_mm[1]), Point(wide_mm, 560 + legs_mm[1]))),
    ]
    return dataclasses.replace(room, walls=tuple(ends))


def test_in_a_u_a_long_middle_ends_at_both_faces_and_the_legs_run_on_behind_it():
    """Trap 35 at both ends, FP: middle 2400 + 50 + 50; legs 1800 + 50 + 16 and 1200 + 50 + 16."""
    assert lengths(u_of((1800.0, 1200.0), 2400.0)) == pytest.approx([2500, 1866, 1266])


def test_in_a_u_a_short_middle_runs_on_behind_both_legs():
    """FP: middle 900 + 2 x (50 + 16) = 1032; legs 1800 + 50 and 1200 + 50."""
    assert lengths(u_of((1800.0, 1200.0), 900.0)) == pytest.approx([1032, 1850, 1250])


def test_in_a_u_each_corner_goes_by_its_own_two():
    """FP: middle 1500 between a leg of 1800, behind which it runs on (50 + 16), and one of 1200, whose face it ends at
    (50): 1616; the legs 1850 and 1266."""
    assert lengths(u_of((1800.0, 1200.0), 1500.0)) == pytest.approx([1616, 1850, 1266])


def test_the_order_of_runs_in_a_u_changes_no_length():
    room = u_of((1800.0, 1200.0), 1500.0)
    turned = dataclasses.replace(room, runs=tuple(reversed(room.runs)))
    assert sorted(lengths(turned)) == pytest.approx(sorted(lengths(room)))


def test_each_end_goes_by_the_wall_at_its_own_side():
    """FP: 5 beyond the zero and 8 beyond the end mark at 600: from -5 to 608; where only the right one was measured, from
    the zero."""
    room = room_of(run_of(unit("a"), **AT_WALLS), board=BOARD)
    both = plinth_wall_ends(set_out(room, beyond("left", 5.0), beyond("right", 8.0), run=(0.0, 600.0)))
    assert (both["run", False].x_mm, both["run", True].x_mm) == (-5.0, 608.0)
    assert "5 beyond the zero mark" in both["run", False].words and "8 beyond the end mark" in both["run", True].words
    right = plinth_wall_ends(set_out(room, beyond("right", 8.0), run=(0.0, 600.0)))
    assert (right["run", False].x_mm, right["run", True].x_mm) == (0.0, 608.0) and "measure it there" in right["run", False].words
