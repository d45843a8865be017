"""The wall of a run from distances to a line: what a reading says, and what is found wrong with one."""

from sample_wall import BATTEN, FLOOR, WORKTOP, faces, found, read, rules, run, wall_of

from oddleg.job import Tolerances

LOOSE = Tolerances(wall_off_line_mm=50.0)
HEIGHTS = (FLOOR, BATTEN, WORKTOP)


def all_heights(of_run, *distances, height=None, start=0.0, step=600.0, line="string"):
    """The same distance at every height, station after station as a careful fitter reads."""
    heights = (height,) if height else HEIGHTS
    return [read(of_run, start + i * step, value, each, line) for i, value in enumerate(distances) for each in heights]


def test_trap_23_a_large_reading_is_a_hollow():
    """FP: string 100 out, readings 100, 92, 104: the wall stands 0, +8, -4."""
    wall = wall_of(run(), all_heights(run(), 100.0, 92.0, 104.0), tolerances=LOOSE)
    assert faces(wall) == {0.0: 100 - 100, 600.0: 100 - 92, 1200.0: 100 - 104}
    assert wall.findings == ()
    spot = next(one for one in wall.spots if one.x_mm == 600.0 and one.height is BATTEN)
    assert (spot.out.text, spot.out.why) == ("+8", "Read 92 from string one; string one stands 100 off.")


def test_trap_24_a_wall_that_leans_is_read_at_each_height():
    """FP: the wall 12 further out at the bottom: a distance 12 less there."""
    bodies = [read(run(), x, 100.0 - out, height) for x in (0, 600, 1200) for height, out in ((FLOOR, 12.0), (BATTEN, 0.0), (WORKTOP, -1.0))]
    wall = wall_of(run(), bodies)
    assert set(faces(wall, FLOOR).values()) == {12.0} and set(faces(wall, BATTEN).values()) == {0.0}
    assert wall.findings == ()


def test_a_line_that_stands_nowhere_said_counts_from_its_leftmost_reading():
    from dataclasses import replace

    from sample_wall import STRING

    wall = wall_of(run(), all_heights(run(), 250.0, 242.0, 254.0), (replace(STRING, stands_off_mm=None),), tolerances=LOOSE)
    assert faces(wall) == {0.0: 0.0, 600.0: 8.0, 1200.0: -4.0}
    assert "counts as 0 at spot 0 at batten height" in wall.spots[0].out.why


def test_a_reading_off_its_neighbours_asks_for_a_repeat_and_read_twice_alike_it_stands():
    bodies = all_heights(run(), 100.0, 110.0, 104.0, height=BATTEN)
    wall = wall_of(run(), bodies, tolerances=Tolerances(wall_off_line_mm=7.0))
    assert "wall.off_line" in rules(wall)
    assert found(wall, "wall.off_line").amount.mm == -(110.0 - (100.0 + 104.0) / 2)
    again = wall_of(run(), [*bodies, read(run(), 600, 110.0)], tolerances=Tolerances(wall_off_line_mm=7.0))
    assert "wall.off_line" not in rules(again)


def test_repeats_that_differ_leave_the_spot_open():
    wall = wall_of(run(), [*all_heights(run(), 100.0, 100.0, 100.0), read(run(), 600, 103.0)])
    assert rules(wall) == ["wall.repeats_differ"] and wall.findings[0].severity == "stop"
    spot = next(one for one in wall.spots if one.x_mm == 600.0 and one.height is BATTEN)
    assert (spot.state, spot.wall_mm, len(spot.readings)) == ("open", None, 2)
