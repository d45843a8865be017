"""Where the fitter is told to read a wall: ends, fixings, in between; what was read stays."""

from dataclasses import replace
from itertools import pairwise

import pytest
import sample_room as sample
from hypothesis import given, settings
from hypothesis import strategies as st
from sample_wall import BATTEN, FLOOR, WALL_UNITS, WORKTOP, read, run

from oddleg.job import Batten, EndsAt, Feature, FeatureKind, FrontLineRule, LineIs, RunEnd, Storey, Tolerances
from oddleg.plan.wall_stations import wall_span, wall_stations

STANDING = (FLOOR, BATTEN, WORKTOP)


def stations(*runs, of=0, readings=(), **more):
    room = sample.room(*runs)
    return wall_stations(sample.job(room, **more), room, room.runs[of], readings)


def places(found):
    return [one.x_mm for one in found]


def test_ends_and_every_600_or_closer():
    """1500 in three steps of 500."""
    found = stations(run(900.0, 600.0))
    assert places(found) == [0, 500, 1000, 1500]
    assert [one.serves for one in found] == ["left end", "in between", "in between", "right end"]
    assert {one.heights for one in found} == {STANDING}


def test_names_are_called_by_run_and_number():
    runs = (run(600.0), run(600.0, id="run-b"))
    assert [one.name for one in stations(*runs)] == ["A one", "A two"]
    assert [one.name for one in stations(*runs, of=1)] == ["B one", "B two"]


def test_the_drawn_opening_gives_the_ends():
    assert places(stations(run(600.0, opening_mm=1000.0))) == [0, 500, 1000]


def test_named_supports_are_each_a_place_and_what_lies_between_is_filled():
    batten = Batten(supports_mm=(110.0, 510.0, 1610.0))
    found = stations(run(*[600.0] * 3, batten=batten))
    # 510 to 1610 are 1100: one place half way.
    assert places(found) == [0, 110, 510, 1060, 1610, 1800]
    assert [one.serves for one in found][1:3] == ["batten fixing", "batten fixing"]


def test_fixings_at_a_spacing_are_places_and_the_end_serves_the_one_beside_it():
    """Batten 50 from both ends of 1900: 1800 in three steps of 600: 50, 650, 1250, 1850; the outer ones are served."""
    found = stations(run(*[475.0] * 4, batten=Batten(spacing_mm=600.0, end_mm=50.0)))
    assert [x for x in places(found) if x not in (325, 1575)] == [0, 650, 1250, 1900]
    assert [one.serves for one in found if one.x_mm in (650, 1250)] == ["batten fixing", "batten fixing"]


def test_fixings_closer_than_need_be_are_places_all_the_same():
    """1200 with 150 kept at both ends: 900 in three steps of 300."""
    assert places(stations(run(batten=Batten(spacing_mm=300.0, end_mm=150.0)))) == [0, 150, 450, 750, 1050, 1200]


def test_what_stands_out_and_the_points_of_a_parallel_line_are_read():
    lining = Feature("lining", "lining", FeatureKind.LINING, 810.0, 850.0, stands_out_mm=15.0)
    window = Feature("window", "window", FeatureKind.WINDOW, 310.0, 990.0, stands_out_mm=-90.0)
    rule = FrontLineRule(LineIs.PARALLEL, from_x_mm=300.0, to_x_mm=900.0)
    found = stations(run(features=(lining, window), front_line=rule))
    assert [(one.x_mm, one.serves) for one in found][1:4] == [
        (300, "the line is parallel to the wall here"),
        (810, "left edge, lining"),
        (900, "the line is parallel to the wall here"),
    ]
    at_window = stations(run(features=(window,), front_line=FrontLineRule(LineIs.PARALLEL, feature="window")))
    assert [one.x_mm for one in at_window if "parallel" in one.serves] == [310, 990]


def test_in_a_corner_the_wall_is_read_on_to_the_other_wall():
    """The side run begins 575 out of the corner, beside the other's carcasses; its wall goes on to 0 - 575."""
    window = run(600.0, 600.0, right_end=RunEnd(EndsAt.OTHER_BACKS, "run-b"), opening_mm=1200.0)
    side = replace(run(600.0, id="run-b", x_mm=1200.0, y_mm=575.0), bearing_deg=90.0, left_end=RunEnd(EndsAt.OTHER_FRONTS, "run-a"))
    room = sample.room(window, side)
    assert wall_span(room, window) == (0.0, 1200.0)
    assert wall_span(room, side) == pytest.approx((-575.0, 600.0))
    # -575 to 600 are 1175: two steps of 587.5.
    assert places(stations(window, side, of=1)) == [-575, 12, 600]


def test_a_run_with_nothing_drawn_has_no_stations():
    assert stations(sample.run()) == ()
    assert places(stations(sample.run(opening_mm=600.0))) == [0, 600]


def test_heights_follow_what_stands_and_hangs_there():
    hung = sample.carcass("hung", 600.0, storey=Storey.WALL, legs=None)
    tall = sample.carcass("tall", 600.0, storey=Storey.TALL)
    of_run = sample.run(sample.carcass("u0"), sample.carcass("u1"), tall, hung)
    assert {one.x_mm: WALL_UNITS in one.heights for one in stations(of_run)} == {0: True, 600: True, 1200: True, 1800: True}
    only = stations(sample.run(hung))
    assert {one.heights for one in only} == {(WALL_UNITS,)}


def test_a_place_that_was_read_stays_with_its_name_when_the_run_is_changed():
    before = stations(run(900.0, 600.0))
    readings = [read(run(), one.x_mm, 100.0, name=one.name, station=one.id) for one in before]
    after = stations(run(900.0, 620.0), readings=readings)
    assert [(one.id, one.name) for one in after if one.x_mm < 1500] == [(one.id, one.name) for one in before if one.x_mm < 1500]
    assert next(one for one in after if one.x_mm == 1500.0).serves in ("in between", "right end", "read before the run was changed")
    assert len({one.name for one in after}) == len(after)
    assert not any(one.added for one in after)


def test_old_readings_serve_for_what_is_only_in_between():
    old = [read(run(), x, 100.0, name=f"old {x}") for x in (0, 500, 1000, 1500)]
    after = stations(run(900.0, 620.0), readings=old)
    assert places(after) == [0, 500, 1000, 1500]


def test_a_place_of_the_fitters_own_is_added_and_serves_what_lies_beside_it():
    own = read(run(), 640, 100.0, name="hump", station="own-1")
    found = stations(run(), readings=[own])
    assert [(one.x_mm, one.name, one.added) for one in found] == [(0, "A one", False), (640, "hump", True), (1200, "A three", False)]
    assert found[1].heights == STANDING


def test_reading_one_place_renames_no_other():
    of_run = run(*[600.0] * 4)
    own = [read(of_run, 640, 100.0, name="hump", station="own-1"), read(of_run, 1200, 100.0, name="A three")]
    assert [one.name for one in stations(of_run, readings=own)] == ["A one", "hump", "A three", "A four", "A five"]


WIDTHS = st.lists(st.integers(150, 1200).map(float), min_size=1, max_size=8)


@settings(derandomize=True, deadline=None, max_examples=60)
@given(WIDTHS, st.none() | st.builds(Batten, spacing_mm=st.sampled_from([400.0, 600.0]), end_mm=st.sampled_from([0.0, 50.0])), st.integers(300, 600))
def test_no_two_places_lie_further_apart_than_the_job_says_and_ids_are_each_their_own(widths, batten, spacing):
    of_run = run(*widths, batten=batten)
    found = stations(of_run, tolerances=Tolerances(wall_spacing_mm=float(spacing)))
    assert (found[0].x_mm, found[-1].x_mm) == (0, sum(widths))
    assert max(b.x_mm - a.x_mm for a, b in pairwise(found)) <= spacing
    assert len({one.id for one in found}) == len({one.name for one in found}) == len(found)
    assert stations(of_run, tolerances=Tolerances(wall_spacing_mm=float(spacing))) == found
    moved = stations(replace(of_run, x_mm=777.0, y_mm=-30.0), tolerances=Tolerances(wall_spacing_mm=float(spacing)))
    assert places(moved) == places(found), "moving the run's zero in the room moves every place alike"
