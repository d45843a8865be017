"""Repeats that contradict each other, and a laser that was knocked: found, never averaged, mended by what the stop says."""

import pytest
from sample_survey import Log, finding, level_mm, levels_of, rules

from oddleg.job import Way
from oddleg.plan.finding import Severity

FLOOR = {"a": -2.0, "b": -5.0, "c": -9.0, "d": -12.0}


def knocked_after(last, by_mm=3.0):
    """Nail, a, b, c, d, nail from one laser whose plane rises by `by_mm` after the station `last` was read."""
    log, plane = Log().set_up("one"), 1000.0
    log.read_at("one", "nail", plane)
    for station, level in FLOOR.items():
        log.read_at("one", station, plane - level)
        plane += by_mm if station == last else 0.0
    log.read_at("one", "nail", plane)
    return log, plane


def again(log, plane, *stations):
    return [log.read_at("one", station, plane - FLOOR[station]) for station in stations]


def test_a_knock_stops_the_set_up_and_is_never_averaged():
    """TRAPS 2: 1000 first and 1003 last."""
    log, _ = knocked_after("b")
    levels = levels_of(log)
    stop = finding(levels, "levels.knocked")
    assert (stop.severity, stop.concerns) == (Severity.STOP, ("one", "nail"))
    assert stop.amount.mm == pytest.approx(3.0)
    assert (levels.stations, levels.planes) == ((), ())
    assert levels.open_stations == ("a", "b", "c", "d")
    assert rules(levels, Severity.STOP) == ["levels.knocked"]


@pytest.mark.parametrize(("by_mm", "knocked"), [(1.5, False), (1.6, True), (-1.6, True)])
def test_the_limit_of_a_knock_is_the_jobs(by_mm, knocked):
    log, _ = knocked_after("b", by_mm)
    assert ("levels.knocked" in rules(levels_of(log))) is knocked


def test_it_asks_to_read_the_last_stations_again_newest_first():
    log, _ = knocked_after("b")
    assert "newest first: d, then c, then b, then a;" in finding(levels_of(log), "levels.knocked").cure


def test_each_station_read_again_narrows_the_break_down():
    log, plane = knocked_after("b")
    again(log, plane, "d")
    stop = finding(levels_of(log), "levels.knocked")
    assert "It moved somewhere between nail and d." in stop.wrong
    assert "newest first: c, then b, then a;" in stop.cure


@pytest.mark.parametrize(
    ("last", "between"), [("a", "a and b"), ("b", "b and c"), ("c", "c and d"), ("d", "d and nail")]
)
@pytest.mark.parametrize("by_mm", [3.0, -3.0, 12.0])
def test_the_break_is_named_once_the_stations_read_again_show_it(last, between, by_mm):
    log, plane = knocked_after(last, by_mm)
    newest_first = list(reversed(FLOOR))
    again(log, plane, *newest_first[: newest_first.index(last) + 1])
    assert f"It moved between {between}." in finding(levels_of(log), "levels.knocked").wrong


def test_doing_what_the_stop_says_mends_it():
    log, plane = knocked_after("b")
    again(log, plane, "d", "c", "b")
    cure = finding(levels_of(log), "levels.knocked").cure
    assert cure == (
        "Start a new set-up and read nail, c and d there; undo the 6 readings of one from c on. "
        "What was read before stands."
    )
    mended = log.without(*[entry.uid for entry in log.entries[4:]])
    mended.set_up("two")
    mended.read("two", nail=1200.0, c=1200.0 - FLOOR["c"], d=1200.0 - FLOOR["d"])
    levels = levels_of(mended)
    assert rules(levels, Severity.STOP) == []
    assert {one.station: pytest.approx(one.level_mm) for one in levels.stations} == FLOOR


def test_a_bench_mark_read_in_the_middle_narrows_the_break_too():
    log = Log().set_up("one")
    log.read("one", nail=1000.0, a=1002.0)
    log.read("one", nail=1000.0, b=1008.0)
    log.read_at("one", "nail", 1003.0)
    stop = finding(levels_of(log), "levels.knocked")
    assert "somewhere between nail and nail." in stop.wrong
    assert "newest first: b;" in stop.cure


def test_a_laser_that_moved_twice_is_read_all_over_again():
    log, plane = knocked_after("b")
    again(log, plane, "d")
    again(log, plane + 9.0, "c")
    stop = finding(levels_of(log), "levels.knocked")
    assert "moved more than once" in stop.wrong
    assert "everything again" in stop.cure


def test_a_bench_mark_misread_in_the_middle_only_is_a_repeat_and_no_knock():
    log = Log().set_up("one")
    for value_mm in (1000.0, 1007.0, 1000.0):
        log.read_at("one", "nail", value_mm)
    log.read("one", door=1008.0)
    levels = levels_of(log)
    assert rules(levels, Severity.STOP) == ["levels.repeats_differ", "levels.untied"]
    assert "first mend one" in finding(levels, "levels.untied").cure


def test_repeats_that_differ_make_no_level_until_one_is_undone():
    log = Log().set_up("one")
    log.read("one", nail=1000.0, door=1008.0, hall=1004.0)
    wrong = log.read_at("one", "door", 1010.5)
    levels = levels_of(log)
    stop = finding(levels, "levels.repeats_differ")
    assert (stop.severity, stop.concerns, stop.amount.text) == (Severity.STOP, ("door", "one"), "2.5")
    assert levels.open_stations == ("door",)
    assert level_mm(levels, "door") is None and level_mm(levels, "hall") == pytest.approx(-4.0)
    mended = levels_of(log.without(wrong))
    assert level_mm(mended, "door") == pytest.approx(-8.0)
    assert mended.open_stations == ()


def test_repeats_within_the_tolerance_are_averaged_and_their_spread_is_said():
    log = Log().set_up("one")
    log.read("one", nail=1000.0, door=1008.0)
    log.read_at("one", "door", 1010.0)
    levels = levels_of(log)
    assert level_mm(levels, "door") == pytest.approx(-9.0)
    assert levels.stations[0].spread_mm == pytest.approx(2.0)


def test_repeats_that_differ_leave_the_station_open_though_another_set_up_read_it():
    log = Log().set_up("one").set_up("two")
    log.read("one", nail=1000.0, door=1008.0)
    log.read_at("one", "door", 1018.0)
    log.read("two", nail=1100.0, door=1108.0, hall=1104.0)
    levels = levels_of(log)
    assert levels.open_stations == ("door",)
    assert level_mm(levels, "hall") == pytest.approx(-4.0)
    assert levels.covariance.shape == (1, 1)


def test_one_spot_read_two_ways_in_one_set_up_is_a_repeat():
    log = Log().set_up("one")
    log.read("one", nail=1000.0, sill=150.0)
    log.read("one", Way.OFFSET, sill=-153.0)
    assert finding(levels_of(log), "levels.repeats_differ").amount.mm == pytest.approx(3.0)


def test_a_pencil_line_is_not_knocked():
    log = Log().set_up("line", line_level_mm=850.0, line_give_or_take_mm=0.5)
    log.read("line", Way.OFFSET, nail=-850.0, door=-858.0)
    log.read_at("line", "nail", -853.0, Way.OFFSET)
    assert rules(levels_of(log), Severity.STOP) == ["levels.repeats_differ"]
