"""The plinth gap at both front corners of each carcass, to the lowest visible edge, over the finished floor."""

from datum_rooms import all_placed, bay, falling, floor_of, job_of, machine, room_of, run_of, surface, unit

from oddleg.job import PlinthBoard, Storey
from oddleg.plan.plinth import gap_places, not_reached, rip_mm, ripped, uncut_from_mm


def gaps(room, floor):
    return gap_places(job_of(room), all_placed(room), floor)


def test_gaps_are_taken_on_the_plinth_line_at_both_front_corners():
    """FP: void 20, depth 560, recess 50: y 530; the formula tells x and y back."""
    floor = floor_of(surface(lambda x, y: x + y / 10000))
    places, unknown = gaps(room_of(run_of(unit("a"), unit("b"), void_mm=20.0)), floor)
    assert [(one.placed.item.id, one.side, one.floor.level_mm) for one in places] == [
        ("a", "left", 0 + 0.053),
        ("a", "right", 600 + 0.053),
        ("b", "left", 600 + 0.053),
        ("b", "right", 1200 + 0.053),
    ]
    assert unknown == ()


def test_plinths_meet_the_finished_floor_and_legs_do_not():
    """Trap 8, FP: subfloor 0, boards +20 that stop at the units: legs 155, plinth 135."""
    places, _ = gaps(room_of(run_of(unit())), floor_of(surface(lambda x, y: 0.0), surface(lambda x, y: 20.0)))
    assert places[0].gap_mm(875) == 875 - 720 - 20 == 135


def test_the_gap_ends_at_the_lowest_visible_edge():
    """Trap 15, FP: 155 - 12 = 143."""
    places, _ = gaps(room_of(run_of(unit(visible_drop_mm=12.0))), floor_of(surface(lambda x, y: 0.0)))
    assert places[0].gap_mm(875) == 143
    assert ripped(places, PlinthBoard(150, 2), 875) == ("a",)
    assert places[0].datum_for_gap_mm(143) == 875


def test_the_plinth_runs_through_under_a_tall_unit():
    room = room_of(run_of(unit("a"), unit("tall", height_mm=1970.0, storey=Storey.TALL)))
    places, _ = gaps(room, floor_of(surface(lambda x, y: 0.0)))
    assert {one.gap_mm(870) for one in places} == {150}


def test_a_raised_run_has_its_plinth_raised_with_it():
    places, _ = gaps(room_of(run_of(unit(), datum_offset_mm=100.0)), floor_of(surface(lambda x, y: 0.0)))
    assert places[0].gap_mm(870) == 250


def test_a_board_that_just_goes_in_is_not_ripped():
    places, _ = gaps(room_of(run_of(unit())), floor_of(surface(lambda x, y: 0.0)))
    board = PlinthBoard(150, 2, greatest_open_mm=20)
    assert uncut_from_mm(places, board) == {"a": 872}
    assert ripped(places, board, 872) == () and ripped(places, board, 871.9) == ("a",)
    assert not_reached(places, board, 890) == () and not_reached(places, board, 890.1) == ("a",)


def test_one_corner_is_enough_to_be_ripped():
    places, _ = gaps(room_of(run_of(unit())), floor_of(surface(falling(6, 600))))
    assert ripped(places, PlinthBoard(150, 2), 870) == ("a",)


def test_what_has_no_legs_or_no_known_floor_has_no_gap():
    room = room_of(run_of(unit("a"), bay(machine(865)), unit("b"), unit("wall", storey=Storey.WALL)))
    places, unknown = gaps(room, floor_of(surface(lambda x, y: 0.0 if x < 700 else None, [(0, 0)])))
    assert [one.placed.item.id for one in places] == ["a", "a"]
    assert unknown == ("b",)


def test_what_comes_off_a_board_leaves_it_its_play():
    """FP: 150 board, 2 of play, gap 150.5: 150 + 2 - 150.5 = 1.5 off, though the bare board would just go in; 152 is
    enough. It says so of the same corners as `ripped`."""
    board = PlinthBoard(150, 2)
    assert (rip_mm(150.5, board), rip_mm(152, board), rip_mm(170, board)) == (1.5, 0, 0)
    places, _ = gaps(room_of(run_of(unit())), floor_of(surface(lambda x, y: 0.0)))
    for datum_mm in (870.5, 871.5, 872, 873):
        assert bool(ripped(places, board, datum_mm)) == (rip_mm(datum_mm - 720, board) > 0)
