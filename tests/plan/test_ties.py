"""What a single tie hides, what a closed way shows, and that nothing is shared out where it does not close."""

import math
import random

import pytest
from sample_survey import Log, finding, level_mm, levels_of, rules

from oddleg.job import BenchMark, Stage
from oddleg.plan.finding import Severity

MARKS = (BenchMark("nail", "nail"), BenchMark("sill", "sill", 900.0))


def two_set_ups(misread=None, by_mm=0.0, tie=("a",), closing=False, **tolerances):
    """Set-up one at 1000 with the nail first and last, set-up two at 1100, floor at -5; `misread` is read in set-up two."""
    log = Log().set_up("one").set_up("two")
    log.read("one", nail=1000.0, **dict.fromkeys(tie, 1005.0))
    log.read_at("one", "nail", 1000.0)
    log.read("two", **{id_: 1105.0 + (by_mm if id_ == misread else 0.0) for id_ in tie}, far=1105.0)
    if closing:
        log.read_at("two", "nail", 1100.0 + (by_mm if misread == "nail" else 0.0))
        log.read_at("two", "nail", 1100.0 + (by_mm if misread == "nail" else 0.0))
    return levels_of(log, **tolerances)


def test_one_tie_is_unchecked_and_never_a_misclosure_of_nought():
    """TRAPS 1: the tie misread by 10: all of set-up two is 10 out, residuals 0, and nothing but this warning says so."""
    levels = two_set_ups(misread="a", by_mm=10.0)
    assert level_mm(levels, "far") == pytest.approx(-5.0 + 10.0)
    assert [one.residual_mm for one in levels.residuals] == pytest.approx([0.0] * len(levels.residuals), abs=1e-9)
    assert levels.misclosure is None
    unchecked = finding(levels, "levels.unchecked")
    assert (unchecked.severity, unchecked.concerns) == (Severity.WARN, ("two", "a"))


def test_two_ties_are_a_check():
    levels = two_set_ups(tie=("a", "b"))
    assert "levels.unchecked" not in rules(levels)
    assert levels.misclosure.mm == pytest.approx(0.0, abs=1e-9)
    assert levels.misclosure.limit_mm == pytest.approx(math.sqrt(2))
    assert levels.misclosure.set_ups == ("one", "two")


def test_one_tie_and_the_bench_mark_at_the_end_are_a_check():
    assert "levels.unchecked" not in rules(two_set_ups(closing=True))


def test_a_tie_read_twice_is_still_one_tie():
    log = Log().set_up("one").set_up("two")
    log.read("one", nail=1000.0, a=1005.0)
    log.read_at("one", "a", 1005.0)
    log.read_at("one", "nail", 1000.0)
    log.read("two", a=1105.0, far=1105.0)
    log.read_at("two", "a", 1105.0)
    assert finding(levels_of(log), "levels.unchecked").concerns == ("two", "a")


def test_a_bench_mark_read_once_is_said_and_blocks_nothing():
    log = Log().set_up("one")
    log.read("one", nail=1000.0, door=1008.0)
    levels = levels_of(log)
    assert finding(levels, "levels.bench_mark_once").severity is Severity.WARN
    assert level_mm(levels, "door") == pytest.approx(-8.0)
    log.read_at("one", "nail", 1000.0)
    assert "levels.bench_mark_once" not in rules(levels_of(log))


def test_the_weak_tie_of_a_chain_names_all_that_hangs_on_it():
    log = Log().set_up("one").set_up("two").set_up("three")
    log.read("one", nail=1000.0, a=1005.0)
    log.read_at("one", "nail", 1000.0)
    log.read("two", a=1105.0, b=1105.0, c=1105.0)
    log.read("three", b=1205.0, c=1205.0, far=1205.0)
    assert finding(levels_of(log), "levels.unchecked").concerns == ("three", "two", "a")


def test_over_the_limit_nothing_is_shared_out():
    levels = two_set_ups(misread="b", by_mm=2.0, tie=("a", "b", "c"))
    stop = finding(levels, "levels.misclosure")
    assert stop.severity is Severity.STOP
    assert stop.amount.mm == pytest.approx(2.0)
    assert (levels.stations, levels.planes, levels.residuals) == ((), (), ())
    assert levels.open_stations == ("a", "b", "c", "far")
    assert levels.misclosure.mm == pytest.approx(2.0)


@pytest.mark.parametrize(("by_mm", "closes"), [(1.41, True), (1.42, False)])
def test_the_limit_is_one_millimetre_times_the_root_of_the_set_ups(by_mm, closes):
    levels = two_set_ups(misread="b", by_mm=by_mm, tie=("a", "b"))
    assert ("levels.misclosure" not in rules(levels)) is closes


@pytest.mark.parametrize("misread", ["a", "b", "c"])
def test_the_station_that_every_bad_way_goes_over_is_named(misread):
    """Three ties give two independent closed ways whichever is misread, the first tie (both bad) included."""
    stop = finding(two_set_ups(misread=misread, by_mm=8.0, tie=("a", "b", "c")), "levels.misclosure")
    assert f"Every closed way that is out goes over {misread}." in stop.wrong
    assert stop.cure.startswith(f"Read {misread} again from one and two")
    assert stop.concerns == ("one", "two", misread)


def test_a_bench_mark_misread_in_one_set_up_is_named_too():
    stop = finding(two_set_ups(misread="nail", by_mm=8.0, tie=("a", "b", "c"), closing=True), "levels.misclosure")
    assert "goes over nail." in stop.wrong


def test_with_two_ties_either_may_be_wrong_and_neither_is_blamed():
    stop = finding(two_set_ups(misread="a", by_mm=8.0, tie=("a", "b")), "levels.misclosure")
    assert "Every closed way" not in stop.wrong
    assert stop.concerns == ("one", "two", "a", "b")


def test_a_set_up_that_closes_keeps_its_levels_beside_one_that_does_not():
    log = Log().set_up("one").set_up("two").set_up("three").set_up("four")
    log.read("one", nail=1000.0, a=1005.0, b=1005.0)
    log.read("two", a=1105.0, b=1115.0, c=1105.0)
    log.read("three", nail=1200.0, door=1208.0)
    log.read("four", c=1305.0, far=1305.0)
    levels = levels_of(log)
    assert finding(levels, "levels.misclosure").concerns[:2] == ("one", "two")
    assert finding(levels, "levels.untied").concerns == ("four", "c", "far")
    assert [one.station for one in levels.stations] == ["door"]
    assert levels.open_stations == ("a", "b", "c", "far")


def test_two_bench_marks_that_do_not_fit_their_levels_stop_the_set_up():
    log = Log().set_up("one")
    log.read("one", nail=1000.0, sill=103.0, door=1008.0)
    levels = levels_of(log, MARKS)
    assert finding(levels, "levels.misclosure").amount.mm == pytest.approx(3.0)
    assert levels.open_stations == ("door",)


def test_each_set_up_without_a_tie_is_named_and_its_stations_are_open():
    log = Log().set_up("one").set_up("two").set_up("three")
    log.read("one", nail=1000.0, a=1005.0)
    log.read("two", b=1005.0, c=1003.0)
    log.read("three", d=1005.0)
    levels = levels_of(log)
    stops = [one for one in levels.findings if one.rule == "levels.untied"]
    assert [one.concerns for one in stops] == [("three", "d"), ("two", "b", "c")]
    assert levels.open_stations == ("b", "c", "d")
    assert level_mm(levels, "a") == pytest.approx(-5.0)


def test_a_shared_station_at_another_stage_is_no_tie():
    log = Log().set_up("one").set_up("two", Stage.LEVELLED)
    log.read("one", nail=1000.0, a=1005.0)
    log.read("two", a=1105.0)
    assert finding(levels_of(log), "levels.untied").concerns == ("two", "a")


def test_ways_and_findings_do_not_depend_on_the_order_of_entries():
    log = Log().set_up("one").set_up("two").set_up("three")
    for set_up, plane in (("one", 1000.0), ("two", 1100.0), ("three", 1200.0)):
        log.read(set_up, nail=plane, a=plane + 5, b=plane + 4, c=plane + (14 if set_up == "two" else 3))
    first = levels_of(log)
    for seed in range(5):
        entries = list(log.entries)
        random.Random(seed).shuffle(entries)
        again = levels_of(log, entries=entries)
        assert (again.findings, again.misclosure) == (first.findings, first.misclosure)
    assert "goes over c." in finding(first, "levels.misclosure").wrong
