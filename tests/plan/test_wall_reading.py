"""The wall of a run from distances to a line: what a reading says, what is found wrong with one, and what is not read."""

import itertools
from dataclasses import replace

import pytest
import sample_room as sample
from hypothesis import given, settings
from hypothesis import strategies as st
from sample_wall import (
    BATTEN,
    FLOOR,
    STRING,
    WALL_UNITS,
    WORKTOP,
    all_heights,
    faces,
    found,
    read,
    rules,
    run,
    wall_of,
    walls_of,
)

from oddleg.job import Storey, Tolerances, WallLine
from oddleg.plan.finding import Severity

LOOSE = Tolerances(wall_off_line_mm=50.0)


def spot_at(wall, x_mm, height=BATTEN):
    return next(one for one in wall.spots if one.x_mm == x_mm and one.height is height)


def test_trap_23_a_large_reading_is_a_hollow():
    """FP: string 100 out, readings 100, 92, 104: the wall stands 0, +8, -4."""
    wall = wall_of(run(), all_heights(run(), 100.0, 92.0, 104.0), tolerances=LOOSE)
    assert faces(wall) == {0.0: 100 - 100, 600.0: 100 - 92, 1200.0: 100 - 104}
    assert wall.findings == ()
    out = spot_at(wall, 600.0).out
    assert (out.text, out.why) == ("+8", "Read 92 from string one; string one stands 100 off.")


def test_trap_24_a_wall_that_leans_is_read_at_each_height():
    """FP: the wall 12 further out at the bottom: a distance 12 less there."""
    heights = ((FLOOR, 12.0), (BATTEN, 0.0), (WORKTOP, -1.0))
    wall = wall_of(run(), [read(run(), x, 100.0 - out, height) for x in (0, 600, 1200) for height, out in heights])
    assert set(faces(wall, FLOOR).values()) == {12.0} and set(faces(wall, BATTEN).values()) == {0.0}
    assert wall.findings == ()


def test_a_wall_that_stands_out_beyond_the_line_is_read_with_minus():
    assert faces(wall_of(run(), [read(run(), 0, -4.5)])) == {0.0: 100 - -4.5}


def test_a_line_of_unknown_place_counts_from_its_leftmost_reading():
    unknown = replace(STRING, stands_off_mm=None)
    wall = wall_of(run(), all_heights(run(), 250.0, 242.0, 254.0), (unknown,), tolerances=LOOSE)
    assert faces(wall) == {0.0: 0.0, 600.0: 8.0, 1200.0: -4.0}
    assert spot_at(wall, 600.0).out.why == (
        "Read 242 from string one; 0 is the wall's face at spot 0 at batten height, where string one was read furthest left."
    )


def test_repeats_within_the_tolerance_are_averaged():
    wall = wall_of(run(), [*all_heights(run(), 100.0, 100.0, 100.0), read(run(), 600, 101.0)])
    assert faces(wall)[600.0] == 100 - (100 + 101) / 2
    assert spot_at(wall, 600.0).out.why.startswith("Read 100 and 101 from string one, the mean of them")


def test_repeats_that_differ_leave_the_spot_open_and_the_wall_there_unread():
    wall = wall_of(run(), [*all_heights(run(), 100.0, 100.0, 100.0), read(run(), 600, 103.0)])
    assert [(one.rule, one.severity) for one in wall.findings] == [("wall.repeats_differ", "stop"), ("wall.not_read", "warn")]
    spot = spot_at(wall, 600.0)
    assert (spot.state, spot.wall_mm, len(spot.readings)) == ("open", None, 2)


def test_exactly_at_the_tolerance_is_not_over_it():
    wall = wall_of(run(), [*all_heights(run(), 0.1, 0.1, 0.1), read(run(), 600, 2.1)])
    assert rules(wall) == []


def test_a_reading_off_its_neighbours_asks_for_a_repeat_and_read_twice_alike_it_stands():
    limit = Tolerances(wall_off_line_mm=7.0)
    bodies = all_heights(run(), 100.0, 110.0, 104.0, heights=(BATTEN,))
    wall = wall_of(run(), bodies, tolerances=limit)
    assert found(wall, "wall.off_line").amount.mm == -(110 - (100 + 104) / 2)
    assert "behind the line from spot 0 to spot 1200" in found(wall, "wall.off_line").wrong
    assert "wall.off_line" not in rules(wall_of(run(), [*bodies, read(run(), 600, 110.0)], tolerances=limit))


def test_the_neighbours_of_a_misread_spot_are_not_blamed_for_it():
    wall = wall_of(run(*[600.0] * 4), all_heights(run(), 100.0, 100.0, 140.0, 100.0, 100.0))
    assert {one.place for one in wall.findings} == {"spot 1200, Run A"}
    assert rules(wall) == ["wall.off_line"] * 3


def moved_half_way(shift_mm=6.0, closing=True, of_run=None):
    """Five places at three heights; the string moves by the shift after the third; the first is read again last."""
    of_run = of_run or run(*[600.0] * 4)
    bodies = all_heights(of_run, *[100.0] * 3, *[100.0 + shift_mm] * 2)
    return [*bodies, read(of_run, 0, 100.0 + shift_mm)] if closing else bodies


def test_a_line_that_was_moved_half_way_is_found_by_its_first_place_read_again():
    wall = wall_of(run(*[600.0] * 4), moved_half_way())
    told = found(wall, "wall.line_moved")
    assert (told.severity, told.amount.mm) == (Severity.STOP, 6.0)
    assert "moved between spot 1200 at worktop height and spot 1800 just over the floor" in told.wrong
    assert faces(wall) == {0.0: 0.0, 600.0: 0.0, 1200.0: 0.0}, "nothing is used beyond the jump"
    assert spot_at(wall, 1800.0).state == "open"
    assert "from spot 1200 to spot 2400" in found(wall, "wall.not_read").wrong


def test_where_the_wall_hides_the_jump_only_what_was_read_before_any_doubt_counts():
    """The wall itself comes out by 6 a place, the line moves back by 6 after the third: no step tells where."""
    of_run = run(*[600.0] * 4)
    bodies = [*all_heights(of_run, 100.0, 94.0, 88.0, 88.0, 82.0, heights=(BATTEN,)), read(of_run, 0, 106.0)]
    wall = wall_of(of_run, bodies)
    assert "somewhere after spot 0 at batten height was read" in found(wall, "wall.line_moved").wrong
    assert faces(wall) == {0.0: 0.0}


def test_a_misread_spot_read_again_later_is_no_moved_line():
    """A spot in the middle was misread by 20; asked to, the fitter read it again at the end."""
    of_run = run(*[600.0] * 4)
    bodies = [*all_heights(of_run, 100.0, 100.0, 120.0, 100.0, 100.0), read(of_run, 1200, 100.0)]
    wall = wall_of(of_run, bodies)
    assert "wall.line_moved" not in rules(wall)
    assert "wall.repeats_differ" in rules(wall) and len(faces(wall)) == 4


def test_a_first_place_that_reads_as_before_a_third_time_says_the_line_stands():
    of_run = run(*[600.0] * 4)
    wall = wall_of(of_run, [*all_heights(of_run, *[100.0] * 5), read(of_run, 0, 106.0), read(of_run, 0, 100.0)])
    assert "wall.line_moved" not in rules(wall)
    assert "wall.repeats_differ" in rules(wall) and len(faces(wall)) == 4


def test_two_places_that_changed_alike_say_that_the_line_was_moved():
    of_run = run(*[600.0] * 4)
    bodies = all_heights(of_run, *[100.0] * 3, *[106.0] * 2, heights=(BATTEN,))
    wall = wall_of(of_run, [*bodies, read(of_run, 600, 106.0), read(of_run, 1200, 106.0)])
    assert "wall.line_moved" in rules(wall)
    assert faces(wall) == {0.0: 0.0, 600.0: 0.0, 1200.0: 0.0}


def test_a_jump_that_nothing_explains_is_said_and_settled_by_a_place_read_again():
    """10 between the third and the fourth place: a wall like that, or a line that was moved."""
    of_run = run(*[600.0] * 5)
    bodies = all_heights(of_run, *[100.0] * 3, *[110.0] * 3)
    wall = wall_of(of_run, bodies)
    assert rules(wall) == ["wall.jump"]
    told = found(wall, "wall.jump")
    assert (told.place, told.amount.mm) == ("spot 1200 to spot 1800, Run A", -10.0)
    settled = wall_of(of_run, [*bodies, read(of_run, 1200, 100.0)])
    assert rules(settled) == []


def test_a_step_read_to_and_fro_is_a_step_of_the_wall():
    of_run = run(*[600.0] * 5)
    there = all_heights(of_run, *[100.0] * 3, *[110.0] * 3, heights=(BATTEN,))
    wall = wall_of(of_run, [*there, *there[::-1]])
    assert not {"wall.jump", "wall.off_line"} & set(rules(wall))


SECOND = WallLine("second", "string two", "run-a", stands_off_mm=300.0)


def test_a_second_line_is_joined_by_what_is_read_from_both():
    """FP: the second stands at 300 + 0.005 x, turned by 5 mm a metre; read from both at 1200 and 1800."""
    of_run = run(*[600.0] * 6)
    bodies = all_heights(of_run, 100.0, 92.0, 104.0, 101.0)
    wall_mm = {1200.0: -4.0, 1800.0: -1.0, 2400.0: 3.0, 3000.0: 5.0, 3600.0: -2.0}
    for x, face in wall_mm.items():
        bodies += [read(of_run, x, 300.0 + 0.005 * x - face, height, "second") for height in (FLOOR, BATTEN, WORKTOP)]
    wall = wall_of(of_run, bodies, (STRING, SECOND), tolerances=LOOSE)
    assert wall.findings == ()
    assert faces(wall) == pytest.approx({0.0: 0.0, 600.0: 8.0, **wall_mm})
    assert [(id, count) for id, _, count in wall.lines] == [("string", 12), ("second", 15)]
    assert "Read 104 from string one and 310 from string two, the mean of them" in spot_at(wall, 1200.0).out.why


@pytest.mark.parametrize("common", [(), (1200.0,)])
def test_a_second_line_that_shares_fewer_than_two_places_does_not_count(common):
    of_run = run(*[600.0] * 4)
    bodies = all_heights(of_run, 100.0, 100.0, 100.0)
    bodies += [read(of_run, x, 300.0, height, "second") for x in (*common, 1800.0, 2400.0) for height in (FLOOR, BATTEN, WORKTOP)]
    wall = wall_of(of_run, bodies, (STRING, SECOND))
    assert rules(wall) == ["wall.not_joined", "wall.not_read"]
    assert ("3 spots" if common else "no spot") in wall.findings[0].wrong
    assert set(faces(wall)) == {0.0, 600.0, 1200.0}
    assert spot_at(wall, 1800.0).state == "open"


def test_a_second_line_that_does_not_fit_is_a_stop_and_is_not_used():
    of_run = run(*[600.0] * 4)
    bodies = all_heights(of_run, 100.0, 100.0, 100.0, 100.0, heights=(BATTEN,))
    bodies += [read(of_run, x, value, line="second") for x, value in ((0, 300.0), (600, 300.0), (1200, 300.0), (1800, 309.0), (2400, 309.0))]
    wall = wall_of(of_run, bodies, (STRING, SECOND))
    assert "wall.does_not_fit" in rules(wall) and found(wall, "wall.does_not_fit").severity == "stop"
    assert set(faces(wall)) == {0.0, 600.0, 1200.0, 1800.0}


def test_lines_tied_by_places_near_each_other_say_how_loosely():
    """FP: two places 600 apart, each from both lines to ±1: ±sqrt(2) x sqrt(1/2 + 4500²/(2 x 300²)) 4500 from their middle."""
    of_run = run(*[600.0] * 8)
    bodies = [read(of_run, x, 100.0) for x in (0, 600)]
    bodies += [read(of_run, x, 100.0, line="second") for x in (0, 600, 1200, 4800)]
    told = found(wall_of(of_run, bodies, (STRING, SECOND)), "wall.loosely_joined")
    assert told.amount.mm == pytest.approx(2**0.5 * (1 / 2 + 4500**2 / (300**2 + 300**2)) ** 0.5)


def test_a_station_said_to_be_at_two_places_does_not_count():
    of_run = run()
    wall = wall_of(of_run, [read(of_run, 0, 100.0), read(of_run, 600, 100.0, station="added-1"), read(of_run, 700, 100.0, station="added-1")])
    assert "wall.two_places" in rules(wall)
    assert set(faces(wall)) == {0.0}


def test_a_stretch_that_is_not_read_is_named_and_not_bridged():
    of_run = run(*[600.0] * 6)
    bodies = [read(of_run, x, 100.0, height) for x in (0, 600, 1200, 3000, 3600) for height in (FLOOR, BATTEN, WORKTOP)]
    bodies += [read(of_run, 1800, 100.0, BATTEN), read(of_run, 2400, 100.0, BATTEN)]
    wall = wall_of(of_run, bodies)
    told = found(wall, "wall.not_read")
    assert rules(wall) == ["wall.not_read"]
    assert told.wrong.startswith("The wall is not read just over the floor and at worktop height from spot 1200 to spot 3000 (1200 to 3000")
    assert told.cure.startswith("Read spot 1800 and spot 2400 just over the floor") and told.amount.mm == 3000 - 1200


def test_ends_that_are_not_read_are_named():
    of_run = run(*[600.0] * 4)
    wall = wall_of(of_run, all_heights(of_run, 100.0, 100.0, 100.0, start=600.0))
    assert [one.place for one in wall.findings] == ["A one, Run A", "A five, Run A"]
    assert wall.findings[0].wrong.startswith(
        "The wall is not read just over the floor, at batten height and at worktop height at A one (0 from the zero):"
    )


def test_nothing_read_is_no_finding_of_every_stretch():
    wall = wall_of(run(), [])
    assert wall.findings == () and {one.state for one in wall.spots} == {"unread"}


def test_wall_units_and_tall_units_want_their_height_read():
    """Bases everywhere; a wall unit over the first half only."""
    hung = sample.carcass("hung", 600.0, storey=Storey.WALL, legs=None)
    of_run = sample.run(sample.carcass("u0"), sample.carcass("u1"), sample.carcass("u2"), hung)
    wall = wall_of(of_run, all_heights(of_run, 100.0, 100.0, 100.0, 100.0))
    assert [(one.rule, one.place) for one in wall.findings] == [("wall.not_read", "spot 0 to spot 600, Run A")]
    assert [one.x_mm for one in wall.stations if WALL_UNITS in one.heights] == [0.0, 600.0]


def test_a_run_without_a_wall_has_none_unless_something_was_measured_there():
    island = replace(run(), wall=None)
    assert walls_of((island,), []) == ()
    assert len(walls_of((island,), [STRING])) == 1


# Properties.

OUT = st.floats(-6.0, 6.0).map(lambda mm: round(mm, 1))
OUTS = st.lists(OUT, min_size=3, max_size=8)


@settings(derandomize=True, deadline=None, max_examples=40)
@given(OUTS, st.randoms(use_true_random=False), st.floats(-300, 300).map(round))
def test_neither_order_nor_where_the_line_stands_changes_the_wall(outs, chance, moved_mm):
    of_run = run(*[600.0] * (len(outs) - 1))
    bodies = [read(of_run, 600 * i, 100.0 - out, height) for i, out in enumerate(outs) for height in (FLOOR, BATTEN)]
    shuffled = chance.sample(bodies, len(bodies))
    line = replace(STRING, stands_off_mm=STRING.stands_off_mm + moved_mm)
    elsewhere = [replace(one, value_mm=one.value_mm + moved_mm) for one in shuffled]
    first, then = (wall_of(of_run, one, tolerances=LOOSE) for one in (bodies, shuffled))
    assert faces(first) == faces(then) and rules(first) == rules(then)
    assert faces(wall_of(of_run, elsewhere, (line,), tolerances=LOOSE)) == pytest.approx(faces(first))
    assert faces(wall_of(of_run, [*bodies, *bodies], tolerances=LOOSE)) == pytest.approx(faces(first)), "read twice alike"


@settings(derandomize=True, deadline=None, max_examples=40)
@given(OUTS)
def test_a_mirrored_wall_is_read_mirrored(outs):
    of_run = run(*[600.0] * (len(outs) - 1))
    length_mm = 600.0 * (len(outs) - 1)
    limit = Tolerances(wall_off_line_mm=3.0)
    one, other = (wall_of(of_run, [read(of_run, 600 * i, 100.0 - out) for i, out in enumerate(each)], tolerances=limit) for each in (outs, outs[::-1]))
    assert faces(other) == {length_mm - x: y for x, y in faces(one).items()}
    assert sorted(one.amount.mm for one in one.findings if one.rule == "wall.off_line") == pytest.approx(
        sorted(one.amount.mm for one in other.findings if one.rule == "wall.off_line")
    )


@settings(derandomize=True, deadline=None, max_examples=30)
@given(OUTS, st.floats(-0.01, 0.01), st.floats(-200, 400))
def test_two_lines_give_the_wall_that_one_gives(outs, slope, off_mm):
    """However the second line stands, joined by three places it gives the same wall; an oracle by construction."""
    outs = [*outs, 1.0, -1.0]
    of_run = run(*[600.0] * (len(outs) - 1))
    middle = len(outs) // 2 + 1
    whole = [read(of_run, 600 * i, 100.0 - out) for i, out in enumerate(outs)]
    parts = [*whole[:middle], *(read(of_run, 600 * i, off_mm + slope * 600 * i - outs[i], line="second") for i in range(max(0, middle - 3), len(outs)))]
    assert faces(wall_of(of_run, parts, (STRING, SECOND), tolerances=LOOSE)) == pytest.approx(
        faces(wall_of(of_run, whole, tolerances=LOOSE)), abs=1e-6
    )


def test_any_order_of_a_moved_line_never_raises():
    bodies = moved_half_way()[::3]
    for order in itertools.islice(itertools.permutations(bodies), 200):
        wall_of(run(*[600.0] * 4), order)
