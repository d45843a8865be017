"""Plinths of free-standing runs: along the back, round free ends, where the back does not show."""

import dataclasses

import pytest
from datum_rooms import all_placed, bay, falling, floor_of, job_of, machine, room_of, run_of, surface, unit

from oddleg.job import EndPanel, PlinthBoard, Point, Run, Wall
from oddleg.plan.plinth_line import plinth_pieces

LEVEL = floor_of(surface(lambda x, y: 0.0))
BOARD = PlinthBoard(150, 2, 16, 20, length_mm=3000)


def made(room, floor=LEVEL, datum_mm=875.0):
    return plinth_pieces(job_of(room), room, all_placed(room), floor, datum_mm, {})[0]


def lengths(room, **more):
    return [round(piece.length.mm, 6) for piece in made(room, **more)]


def ends(room):
    return [(piece.left_end.kind.value, piece.right_end.kind.value) for piece in made(room)]


def island(*items, x_mm=1500.0, y_mm=2000.0, bearing_deg=0.0, name="island"):
    return Run(name, "Island", x_mm, y_mm, bearing_deg, None, items=items)


def room_with(*runs):
    return room_of(*runs, board=BOARD)


def test_an_island_is_closed_all_round():
    """FP: 2 x 600, recess 50 all round: front and back 1200 - 100 = 1100; ends between their boards: 560 - 2 x 50 - 2 x
    16 = 428."""
    room = room_with(island(unit("a"), unit("b")))
    assert lengths(room) == [1100, 428, 428, 1100]
    assert ends(room) == [("return", "return"), ("butts", "butts"), ("butts", "butts"), ("return", "return")]


def test_the_back_piece_faces_away_from_the_front_one():
    """Facing the back its left end is at the run's right. FP: X 1500 + 1150 and 1500 + 50, Y 2000 + 50."""
    back = made(room_with(island(unit("a"), unit("b"))))[-1]
    assert (back.x0_mm, back.y0_mm, back.x1_mm, back.y1_mm) == pytest.approx((2650, 2050, 1550, 2050))
    assert back.name == "Island, back, under Unit b to Unit a"
    assert back.length.why.startswith("From 1150 from the zero of Island") and "to 50 from" in back.length.why


def test_the_back_has_heights_of_its_own():
    """FP: the floor falls 10 over X 0 to 1000, so 1 over 100: at X 2650 26.5 down, at X 1550 15.5 down: gaps 875 - 720 +
    that; the stock board goes in uncut."""
    back = made(room_with(island(unit("a"), unit("b"))), floor=floor_of(surface(falling(10, 1000))))[-1]
    assert (back.greatest_gap.mm, back.least_gap.mm) == pytest.approx((155 + 26.5, 155 + 15.5))


def test_units_of_two_depths_have_one_line_of_backs():
    """FP: the front is parted where one is 600 and one 500 deep; the back is 1100 in one piece."""
    room = room_with(island(unit("a", depth_mm=600.0), unit("b", depth_mm=500.0)))
    assert [piece.length.mm for piece in made(room) if "back" in piece.name] == pytest.approx([1100])


def test_what_drops_below_the_front_does_not_at_the_back():
    room = room_with(island(unit("a", visible_drop_mm=12.0)))
    front, *_, back = made(room)
    assert (front.least_gap.mm, back.least_gap.mm) == (155 - 12, 155)


def test_a_bay_between_two_units_is_closed_at_its_back_and_one_at_an_end_is_not():
    """FP: back 1800 - 100 = 1700; with the bay at the right end flush with the unit beside it: 1200 - 50."""
    between = room_with(island(unit("a"), bay(machine(820.0)), unit("b")))
    assert [piece.length.mm for piece in made(between) if "back" in piece.name] == pytest.approx([1700])
    last = room_with(island(unit("a"), unit("b"), bay(machine(820.0))))
    assert [piece.length.mm for piece in made(last) if "back" in piece.name] == pytest.approx([1150])


def test_panels_to_the_floor_close_the_ends():
    """FP: between two panels front and back are as wide as the units, and there is no return."""
    panels = [EndPanel(name, name, 18.0, 560.0) for name in ("l", "r")]
    room = room_with(island(panels[0], unit("a"), unit("b"), panels[1]))
    assert lengths(room) == [1200, 1200]
    assert ends(room) == [("panel", "panel"), ("panel", "panel")]


def test_islands_back_to_back_have_no_plinth_between_them():
    """The second is turned round and stands 40 behind the first."""
    one = island(unit("a"), unit("b"))
    other = island(unit("c"), unit("d"), x_mm=2700.0, y_mm=1960.0, bearing_deg=180.0, name="other")
    assert not any("back" in piece.name for piece in made(room_with(one, other)))


def test_an_island_half_covered_from_behind_has_a_plinth_along_the_other_half():
    one = island(unit("a"), unit("b"))
    other = island(unit("c"), x_mm=2100.0, y_mm=1960.0, bearing_deg=180.0, name="other")
    backs = [piece for piece in made(room_with(one, other)) if "Island, back" in piece.name]
    assert [piece.units for piece in backs] == [("Unit b",)]


def test_a_run_called_free_that_stands_at_a_wall_has_no_back_plinth():
    assert not any("back" in piece.name for piece in made(room_with(island(unit("a"), y_mm=100.0))))


def peninsula(wall_run):
    """Comes out of the wall run's right-hand end; faces the room to the left, its back to the right, at X 2400."""
    out = Run(
        "out", "Peninsula", 2400.0, 560.0, 90.0, None, items=(unit("p"), EndPanel("end", "end panel", 18.0, 560.0))
    )
    room = room_with(wall_run, out)
    walls = (*room.walls, Wall("left", "left wall", (Point(0, 0), Point(0, 3000))))
    return dataclasses.replace(room, walls=walls)


def test_a_peninsulas_back_plinth_closes_the_side_of_the_corner_unit_up_to_the_wall():
    """FP: face at X 2400 - 50; from the panel at Y 560 + 600 along to the wall at Y 0: 1160."""
    room = peninsula(run_of(*[unit(f"a{i}") for i in range(4)], name="past"))
    back = made(room)[-1]
    assert back.length.mm == pytest.approx(1160)
    assert (back.x0_mm, back.x1_mm) == pytest.approx((2350, 2350))
    assert {back.left_end.kind.value, back.right_end.kind.value} == {"wall", "panel"}


def test_turning_the_room_changes_no_length():
    room = room_with(island(unit("a"), bay(machine(820.0)), unit("b", depth_mm=500.0)))
    turned = [
        dataclasses.replace(run, x_mm=-run.y_mm, y_mm=run.x_mm, bearing_deg=run.bearing_deg + 90) for run in room.runs
    ]
    assert lengths(dataclasses.replace(room, runs=tuple(turned))) == pytest.approx(lengths(room))


def test_a_return_longer_than_the_board_is_joined_from_the_front_on_and_that_is_said():
    """FP: 7500 deep, recess 50 in front and at the back, both boards 16: 7500 - 2 x 66 = 7368 = 3000 + 3000 + 1368."""
    room = room_with(island(unit("a", depth_mm=7500.0)))
    pieces, findings = plinth_pieces(job_of(room), room, all_placed(room), LEVEL, 875.0, {})
    right, left = ([one for one in pieces if f"return at the {side}" in one.name] for side in ("right", "left"))
    assert [round(one.length.mm, 6) for one in right] == [3000, 3000, 1368]
    assert [round(one.length.mm, 6) for one in left] == [1368, 3000, 3000], "facing it, its front is on the right"
    assert [(one.left_end.kind.value, one.right_end.kind.value) for one in right] == [("butts", "joint"), ("joint", "joint"), ("joint", "butts")]
    told = [one for one in findings if one.rule == "plinth.joint_shows"]
    assert [one.wrong for one in told] == ["It is 7368 long and the board 3000: it needs a joint that nothing hides."] * 2
