"""A single reading off the line of its neighbours asks for a repeat; a hump read twice is a hump."""

import pytest
from sample_survey import Log, levels_of

from oddleg.job import Point, Stage, Tolerances
from oddleg.plan.finding import Severity
from oddleg.plan.off_line import off_line_findings

LINE = ("a", "b", "c", "d", "e")
PLACES = {id_: Point(600.0 * index, 40.0) for index, id_ in enumerate(LINE)}
NAMES = {id_: id_ for id_ in LINE}


def asked(levels_mm, twice=(), lines=(LINE,), places=PLACES, stage=Stage.STRIPPED):
    log = Log().set_up("one", stage)
    log.read("one", nail=1000.0, **{id_: 1000.0 - level for id_, level in levels_mm.items()})
    for id_ in twice:
        log.read_at("one", id_, 1000.0 - levels_mm[id_])
    return off_line_findings(lines, levels_of(log), places, NAMES, Tolerances())


def floor(**changed):
    return {id_: -2.0 * index for index, id_ in enumerate(LINE)} | changed


def test_a_floor_that_falls_evenly_asks_for_nothing():
    assert asked(floor()) == []


def test_one_reading_off_the_line_is_asked_for_again_and_its_neighbours_are_not_blamed():
    """c lies at -4 + 12; b and d then lie 6 off the line through c, but not off the line without it."""
    (one,) = asked(floor(c=8.0))
    assert (one.rule, one.severity, one.concerns) == ("levels.off_line", Severity.WARN, ("c",))
    assert one.amount.mm == pytest.approx(12.0)
    assert "c lies 12 above the line from b to d" in one.wrong


@pytest.mark.parametrize(("level_mm", "count"), [(-4.0 + 4.0, 0), (-4.0 - 4.0, 0), (-4.0 + 4.1, 1), (-4.0 - 4.1, 1)])
def test_the_limit_is_the_jobs(level_mm, count):
    assert len(asked(floor(c=level_mm))) == count


def test_read_twice_it_is_a_hump():
    assert asked(floor(c=8.0), twice="c") == []


def test_the_line_goes_by_distance_and_not_by_count():
    places = PLACES | {"b": Point(60.0, 40.0)}
    straight = {"a": 0.0, "b": -1.0, "c": -20.0, "d": -30.0, "e": -40.0}
    assert asked(straight, places=places) == []
    assert [one.concerns for one in asked(straight | {"b": -10.0}, places=places)] == [("b",)]


def test_lines_of_two_stations_and_stations_without_level_or_place_ask_for_nothing():
    assert asked({"a": 0.0, "b": 30.0}) == []
    assert asked(floor(c=8.0), lines=(("a", "c"), ("c", "nowhere", "e"))) == []
    assert asked(floor(c=8.0), places=PLACES | {"c": None}) == []


def test_everything_at_one_spot_is_no_crash():
    places = dict.fromkeys(LINE, Point(0.0, 0.0))
    assert [one.concerns for one in asked(floor(c=8.0), places=places)] == [("c",)]


def test_a_station_on_two_lines_is_asked_for_once():
    assert len(asked(floor(c=8.0), lines=(LINE, ("b", "c", "d")))) == 1


def test_each_stage_is_held_against_itself():
    assert [one.concerns for one in asked(floor(c=8.0), stage=Stage.TILED)] == [("c",)]
