"""Where the fitter is sent to read."""

import dataclasses
import itertools
import math
from pathlib import Path

import pytest
import sample_room as sample

from oddleg.documents import load_job, parse_json
from oddleg.job import Appliance, ApplianceBay, ApplianceSeat, BreakLine, Doorway, Point, Station, Storey
from oddleg.plan.stations import (
    leg_lines,
    proposed_stations,
    said,
    station_id,
    stations_between,
    stations_on,
)

MACHINE = Appliance("machine", "machine", ApplianceSeat.UNDER_TOP, 865.0)


def stations_of(*items, **more):
    room = sample.room(sample.run(*items), **more)
    return proposed_stations(sample.job(room), room)


def test_both_leg_lines_are_read_at_their_ends_and_every_1200_or_closer():
    stations = stations_of(*(sample.carcass(f"unit-{i}") for i in range(6)))
    back = [one for one in stations if one.name.startswith("back")]
    front = [one for one in stations if one.name.startswith("front")]
    assert [one.x_mm for one in back] == [40, 1213, 2387, 3560]
    assert {one.y_mm for one in back} == {40} and {one.y_mm for one in front} == {500}
    assert [one.x_mm for one in front] == [3560, 2387, 1213, 40], "the way back is along the fronts"


def test_an_appliance_bay_and_the_way_out_of_it_and_a_doorway_are_read_too():
    bay = ApplianceBay("bay", "washer", 600.0, 560.0, MACHINE)
    door = Doorway("door", "back door", Point(0, 4000), Point(800, 4000))
    stations = stations_of(sample.carcass("left"), bay, sample.carcass("right"), doorways=(door,))
    spots = {one.name: (one.x_mm, one.y_mm) for one in stations}
    assert spots["bay one"] == (900, 280)
    assert spots["way one"] == (900, 840)
    assert spots["door one"] == (400, 4000)


def test_the_demo_kitchen_asks_for_about_25_shots_and_two_for_each_bay_in_the_first_pass():
    # At most 25 or so: what a fitter takes in one go (common practice). An L, a counter, three bays and a door.
    job = load_job(parse_json((Path(__file__).parents[2] / "demo" / "hall.json").read_bytes()))
    bays = 3
    assert 18 <= len(proposed_stations(job, job.rooms[0])) - 2 * bays <= 25


def test_under_a_tall_unit_and_over_the_whole_footprint_of_an_island_is_read_too():
    tall = sample.carcass("larder", height_mm=1970.0, storey=Storey.TALL)
    island = sample.run(sample.carcass("i1"), sample.carcass("i2"), id="island", x_mm=1500.0, y_mm=2000.0)
    room = sample.room(sample.run(tall), dataclasses.replace(island, wall=None))
    corners = {(one.x_mm, one.y_mm) for one in proposed_stations(sample.job(room), room)}
    assert {(x, y) for x in (40, 560) for y in (40, 500)} <= corners
    assert {(1500 + x, 2000 + y) for x in (40, 1160) for y in (40, 500)} <= corners


def test_names_can_be_said_aloud_and_none_is_given_twice():
    first = sample.run(sample.carcass("a"), sample.carcass("b"))
    second = sample.run(sample.carcass("c"), id="run-b", y_mm=2000.0)
    room = sample.room(first, second)
    names = [one.name for one in proposed_stations(sample.job(room), room)]
    assert names == [
        "back one",
        "back two",
        "front one",
        "front two",
        "back three",
        "back four",
        "front three",
        "front four",
    ]
    assert [said(number) for number in (0, 13, 20, 21, 99)] == [
        "zero",
        "thirteen",
        "twenty",
        "twenty-one",
        "ninety-nine",
    ]


def test_what_already_has_a_station_gets_none_beside_it_and_keeps_its_name():
    room = sample.room(sample.run(sample.carcass("a")))
    there = Station("mine", "back one", 50.0, 50.0)
    names = [one.name for one in proposed_stations(sample.job(room), room, [there])]
    assert names == ["back two", "front one", "front two"]


def test_a_station_on_the_ceiling_does_not_stand_for_the_floor_below_it():
    room = sample.room(sample.run(sample.carcass("left"), sample.carcass("right")))
    spots = proposed_stations(sample.job(room), room)
    above = dataclasses.replace(spots[0], id="above", name="ceiling one", surface="overhead")
    assert proposed_stations(sample.job(room), room, (above,)) == spots


def test_a_moved_run_gets_new_stations_beside_the_old_and_no_id_again():
    old = sample.room(sample.run(sample.carcass("a")))
    stations = proposed_stations(sample.job(old), old)
    moved = sample.room(sample.run(sample.carcass("a"), x_mm=300.0))
    new = proposed_stations(sample.job(moved), moved, stations)
    assert len(new) == 4
    assert not {one.id for one in new} & {one.id for one in stations}
    assert not {one.name for one in new} & {one.name for one in stations}


def test_the_same_spot_always_has_the_same_id():
    room = sample.room()
    assert station_id(room, 1200.2, 40.0) == station_id(room, 1200.4, 40.0) != station_id(room, 1201.0, 40.0)


def test_a_unit_of_another_depth_has_a_front_line_of_its_own():
    run = sample.run(sample.carcass("a"), sample.carcass("b", depth_mm=320.0))
    assert [(line.word, line.depth_mm) for line in leg_lines(run)] == [("back", 40), ("front", 260), ("front", 500)]


def test_in_betweens_are_asked_for_only_where_neighbours_differ_by_more_than_the_limit():
    line = [Station(f"s{i}", f"back {said(i + 1)}", 1200.0 * i, 40.0) for i in range(4)]
    found = stations_between(sample.room(), line, [0.0, -3.0, -6.5, None], 3.0, line)
    assert [(one.name, one.x_mm) for one in found] == [("back two half", 1800.0)]


def test_no_station_is_put_between_two_that_are_close():
    line = [Station("a", "back one", 0.0, 0.0), Station("b", "back two", 390.0, 0.0)]
    assert stations_between(sample.room(), line, [0.0, -9.0], 3.0, line) == ()


def test_nothing_is_read_half_way_across_a_step():
    step = BreakLine("step", "new screed", (Point(600.0, -500.0), Point(600.0, 900.0)))
    line = [Station("a", "back one", 0.0, 0.0), Station("b", "back two", 1200.0, 0.0)]
    room = sample.room(break_lines=(step,))
    assert stations_between(room, line, [0.0, 12.0], 3.0, line) == ()


def test_stations_off_the_line_or_overhead_are_not_on_it():
    room = sample.room(sample.run(sample.carcass("a")))
    stations = proposed_stations(sample.job(room), room)
    back = leg_lines(room.runs[0])[0]
    assert len(stations_on(back, stations, 60.0)) == 2
    aloft = [dataclasses.replace(one, surface="overhead") for one in stations]
    assert stations_on(back, aloft, 60.0) == ()


@pytest.mark.parametrize("count", [0, 1, 500])
def test_a_run_of_any_length_has_its_stations(count):
    stations = stations_of(*(sample.carcass(f"unit-{i}") for i in range(count)))
    if count == 0:
        assert stations == ()
        return
    back = sorted(one.x_mm for one in stations if one.name.startswith("back"))
    assert max(b - a for a, b in itertools.pairwise(back)) <= 1201
    assert math.isclose(back[-1], 600 * count - 40)
