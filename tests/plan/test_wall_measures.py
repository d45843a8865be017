"""Openings, side walls beyond their marks, and what the wall carries."""

import pytest
from sample_wall import BATTEN, FLOOR, STRING, WORKTOP, all_heights, found, rules, run, wall_of

from oddleg.job import EndGap, EndsAt, Feature, FeatureKind, MeasuredFeature, OpeningDepth, OpeningWidth, RunEnd

BACK, FRONT = OpeningDepth
WINDOW = Feature("window", "window", FeatureKind.WINDOW, 1400.0, 2600.0, 1000.0, 2100.0, -90.0)
READ = all_heights(run(), 100.0, 100.0, 100.0)


def opening(mm, height=FLOOR, depth=BACK):
    return OpeningWidth("run-a", height, depth, mm)


def gap(mm, side="left", height=BATTEN, depth=BACK):
    return EndGap("run-a", side, height, depth, mm)


def window(above_datum=False, run_id="run-a", **more):
    values = {"left_mm": 1403.0, "right_mm": 2604.0, "bottom_mm": 130.0, "top_mm": None, **more}
    return MeasuredFeature(run_id, Feature("window", "window", FeatureKind.WINDOW, **values), above_datum)


def test_trap_31_the_narrowest_opening_counts():
    """FP: 3000 at the bottom, 3008 at the top."""
    wall = wall_of(run(), [*READ, opening(3008.0, WORKTOP), opening(3000.0)])
    assert [one.width.mm for one in wall.openings] == [3000.0, 3008.0]
    assert (wall.narrowest().width.mm, wall.narrowest().height) == (3000.0, FLOOR)
    assert wall.findings == ()
    assert wall.narrowest().width.why == "Measured from wall to wall just over the floor, along the wall, by Ned."


def test_trap_31_back_and_front_are_two_openings():
    """FP: a side wall that closes by 1 degree over 580 is 580 x tan 1 = 10.1 narrower at the front."""
    wall = wall_of(run(), [*READ, opening(3000.0), opening(2989.9, depth=FRONT)])
    assert (wall.narrowest(BACK).width.mm, wall.narrowest(FRONT).width.mm) == (3000.0, 2989.9)


def test_openings_at_one_place_that_differ_ask_for_another_and_the_least_counts():
    wall = wall_of(run(), [*READ, opening(3008.0), opening(3000.0)])
    assert rules(wall) == ["wall.openings_differ"] and wall.narrowest().width.mm == 3000.0
    assert "3000 and 3008: 8 apart, more than 2" in found(wall, "wall.openings_differ").wrong
    assert rules(wall_of(run(), [*READ, opening(3002.0), opening(3000.0)])) == []


def test_trap_32_a_side_wall_lies_behind_its_mark():
    """FP: wall at batten height 5 behind the zero; the tape from it needs mark + 5, which the rod says."""
    wall = wall_of(run(), [*READ, gap(5.0), gap(0.0, height=FLOOR)])
    assert [(one.side, one.height, one.beyond.mm) for one in wall.end_walls] == [("left", FLOOR, 0.0), ("left", BATTEN, 5.0)]
    assert wall.findings == ()


def test_in_a_corner_a_gap_to_the_wall_counts_for_nothing_and_that_is_said():
    """The mark lies on the other run's line there; at the other end the gap counts as ever."""
    one = run(right_end=RunEnd(EndsAt.OTHER_BACKS, "run-b"))
    wall = wall_of(one, [*READ, gap(-4.0, "right"), gap(1.0, "left")])
    assert rules(wall) == ["wall.end_gap_in_corner"]
    assert found(wall, "wall.end_gap_in_corner").wrong.startswith("What was measured from the end mark to the wall does not count")


def test_gaps_at_one_place_that_differ_ask_for_another():
    wall = wall_of(run(), [*READ, gap(5.0), gap(8.0)])
    assert rules(wall) == ["wall.end_gaps_differ"]
    assert "the one counts that leaves less room" in found(wall, "wall.end_gaps_differ").wrong


def test_a_feature_measured_on_site_takes_the_place_of_the_drawn_one():
    wall = wall_of(run(features=(WINDOW,)), [*READ, window()])
    assert [(one.id, one.left_mm, one.bottom_mm) for one in wall.features] == [("window", 1403.0, 130.0)]


def test_a_feature_found_on_site_is_carried_beside_the_drawn_ones():
    pipe = MeasuredFeature("run-a", Feature("pipe", "pipe", FeatureKind.PIPE, 300.0, 330.0))
    assert [one.id for one in wall_of(run(features=(WINDOW,)), [*READ, pipe]).features] == ["window", "pipe"]


def test_a_feature_measured_at_another_run_is_not_this_runs():
    wall = wall_of(run(features=(WINDOW,)), [*READ, window(run_id="elsewhere")])
    assert [one.id for one in wall.features] == ["window"], "a run that the job has not says nothing of this one"


@pytest.mark.parametrize(("datum_mm", "bottom_mm"), [(875.0, 875 + 25 + 130.0), (None, None)])
def test_heights_from_the_datum_line_follow_it(datum_mm, bottom_mm):
    """The run's own line lies 25 over the room's datum; the sill was 130 above it."""
    wall = wall_of(run(features=(WINDOW,), datum_offset_mm=25.0), [*READ, window(above_datum=True)], datum_mm=datum_mm)
    assert wall.features[0].bottom_mm == bottom_mm
    assert rules(wall) == ([] if datum_mm else ["wall.heights_wait"])


def test_what_is_said_of_a_wall_names_its_run():
    wall = wall_of(run(), [opening(3000.0), opening(3010.0)], lines=(STRING,))
    assert all("run-a" in one.concerns for one in wall.findings)
