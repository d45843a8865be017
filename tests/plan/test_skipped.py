"""TRAPS 64: what is skipped widens the stated give or take, names what rests on it, and blocks nothing."""

import math
from dataclasses import replace

import pytest
import sample_room as sample
from hypothesis import given, settings
from hypothesis import strategies as st
from sample_survey import Log, level_mm, levels_of

from oddleg.charts import charts
from oddleg.job import BenchMark, Entry, GoodEnough, Laser, Reading, SetUp, Stage, Tolerances, TwoPeg, Way
from oddleg.plan import plan
from oddleg.plan.finding import Severity
from oddleg.plan.instrument import two_peg_result
from oddleg.plan.laser_checks import reckoned_lasers
from oddleg.plan.parts import parts

NOISE_MM = 1.96 * 0.5


def half_width_mm(levels, station):
    return levels.at(station, Stage.STRIPPED).half_width_mm


def one_set_up(closed):
    log = Log().set_up("one")
    log.read("one", nail=1000.0, door=1008.0, hall=1004.0)
    if closed:
        log.read_at("one", "nail", 1000.0)
    return log


def test_a_set_up_without_the_bench_mark_at_its_end_is_less_sure_by_a_knock_that_nobody_saw():
    """Bench mark once and station once, noise root 2, and the job's 1.5 for the knock: added by squares. FP."""
    levels = levels_of(one_set_up(closed=False))
    assert half_width_mm(levels, "door") == pytest.approx(math.hypot(NOISE_MM, NOISE_MM, 1.5))
    # The knock is one for all that came after it, so what lies between two stations is no less sure.
    between = levels.covariance[0, 0] + levels.covariance[1, 1] - 2 * levels.covariance[0, 1]
    assert 1.96 * math.sqrt(between) == pytest.approx(math.hypot(NOISE_MM, NOISE_MM))
    assert [(one.set_up, one.holder, one.resting) for one in levels.unclosed] == [("one", "nail", ("door", "hall"))]


def test_the_bench_mark_read_again_at_the_end_takes_the_knock_away():
    levels = levels_of(one_set_up(closed=True))
    assert levels.unclosed == ()
    assert half_width_mm(levels, "door") == pytest.approx(NOISE_MM * math.sqrt(1 + 1 / 2))


def test_the_bench_mark_read_twice_at_the_start_closes_nothing():
    log = Log().set_up("one")
    log.read_at("one", "nail", 1000.0)
    log.read("one", nail=1000.0, door=1008.0)
    assert [one.set_up for one in levels_of(log).unclosed] == ["one"]


def test_a_closed_way_over_what_a_set_up_hangs_on_closes_it():
    log = Log().set_up("one").set_up("two")
    log.read("one", nail=1000.0, a=1005.0, b=1005.0)
    log.read("two", a=1105.0, b=1105.0, far=1105.0)
    # Two ties hold set-up two. A knock of set-up one right after the nail lifts both alike, so nothing shows it.
    assert [(one.set_up, one.resting) for one in levels_of(log).unclosed] == [("one", ("a", "b", "far"))]
    log.read("two", nail=1100.0)
    assert levels_of(log).unclosed == ()


def test_what_hangs_on_a_set_up_that_nothing_closes_carries_its_knock_too():
    """Nail - one - a - two - far, both open: `a` carries one knock, `far` two. FP."""
    log = Log().set_up("one").set_up("two")
    log.read("one", nail=1000.0, a=1005.0)
    log.read("two", a=1105.0, far=1105.0)
    levels = levels_of(log)
    assert half_width_mm(levels, "a") == pytest.approx(math.hypot(NOISE_MM, NOISE_MM, 1.5))
    assert half_width_mm(levels, "far") == pytest.approx(math.hypot(*[NOISE_MM] * 4, 1.5, 1.5))
    assert [(one.set_up, one.holder, one.resting) for one in levels.unclosed] == [
        ("one", "nail", ("a", "far")),
        ("two", "a", ("far",)),
    ]


def test_a_line_on_a_wall_is_not_knocked():
    log = Log().set_up("line", line_level_mm=850.0, line_give_or_take_mm=0.5)
    log.read("line", Way.OFFSET, door=-858.0)
    assert levels_of(log).unclosed == ()


@st.composite
def hanging_surveys(draw):
    """Set-ups that hang on one another by single ties, with repeats: nothing closes, nothing is redundant but repeats."""
    log, ties = Log(), ["nail"]
    for index in range(draw(st.integers(1, 4))):
        id_, tie = f"s{index}", draw(st.sampled_from(ties))
        log.set_up(id_)
        new = [f"{id_}-{number}" for number in range(draw(st.integers(1, 3)))]
        for station in [tie, *new, *new[: draw(st.integers(0, 1))]]:
            log.read_at(id_, station, 1000.0 + draw(st.integers(-6, 6)) / 10)
        ties += new
    return log


@settings(derandomize=True, deadline=None, max_examples=40)
@given(hanging_surveys())
def test_no_level_moves_by_it_and_no_give_or_take_shrinks(log):
    without, with_it = levels_of(log, unseen_knock_mm=0.0), levels_of(log, unseen_knock_mm=30.0)
    for one in with_it.stations:
        assert one.level_mm == pytest.approx(level_mm(without, one.station), abs=1e-7)
        assert one.half_width_mm > half_width_mm(without, one.station)


LASER = Laser("laser", "laser", 0.3)


def checked(bent_mm, base_m=30.0, axis="along"):
    check = TwoPeg("laser", axis, 1200.0, 1200.0, 1250.0 + bent_mm, 1250.0, base_m + 1.0, 1.0, 0.5)
    return two_peg_result(check, LASER, Tolerances())


@pytest.mark.parametrize(
    ("checks", "slope"),
    [
        ([], 0.3 * 1.5),
        ([checked(0.0)], 0.3),
        ([checked(0.0, base_m=4.0)], 0.3 * 1.5),  # too short a base to tell
        ([checked(-30.0)], 1.0 + (2 + 1.96 * 2) * 0.5 / 30),  # as measured, 30 mm in 30 m, and its half-width
        ([checked(96.0, base_m=300.0)], 0.3 * 1.5),  # 0.32 and 0.01: hardly outside, and no surer than not checked
        ([checked(30.0), checked(0.0)], 0.3),  # adjusted in between
        ([checked(0.0), checked(30.0, axis="across")], 1.0 + (2 + 1.96 * 2) * 0.5 / 30),
    ],
)
def test_a_laser_is_reckoned_with_its_stated_slope_only_where_a_check_found_it_within(checks, slope):
    """The half-width of the check is that of TRAPS 3: half a step and 1.96 x noise on four readings."""
    (reckoned,) = reckoned_lasers(replace(sample.job(), lasers=(LASER,)), checks)
    assert reckoned.slope_mm_per_m == pytest.approx(slope)


def surveyed(*more, closing=True):
    """A laser in the middle of the room, a bench mark beside it, two stations 2 m away."""
    mark = BenchMark("mark", "nail", 0.0, 2000.0, 2000.0)
    room = sample.room(sample.run(sample.carcass("left")), bench_marks=(mark,))
    bodies = [
        SetUp("one", "set-up one", "room", Stage.STRIPPED, "laser", "rule", 2000.0, 2000.0),
        Reading("one", "mark", Way.DOWN, 1200.0, "nail", 2000.0, 2000.0),
        Reading("one", "back-one", Way.DOWN, 1210.0, "back one", 40.0, 40.0),
        Reading("one", "back-two", Way.DOWN, 1210.0, "back two", 560.0, 40.0),
        *([Reading("one", "mark", Way.DOWN, 1200.0, "nail", 2000.0, 2000.0)] if closing else []),
        *more,
    ]
    log = [Entry(f"e{i}", i, "Ned", "2026-11-23T08:40:00Z", body) for i, body in enumerate(bodies, 1)]
    return plan(sample.job(room), log, charts())


def test_a_check_on_site_narrows_the_give_or_take_and_moves_no_level():
    check = TwoPeg("laser", "along", 1200.0, 1200.0, 1250.0, 1250.0, 31.0, 1.0, 0.5)
    without, with_it = surveyed().rooms[0].levels, surveyed(check).rooms[0].levels
    # 1960 mm from the laser both ways: the tilt is that times root 2; noise of the bench mark twice, the station once.
    away_m, noise_mm = math.hypot(1.96, 1.96), NOISE_MM * math.sqrt(1 + 1 / 2)
    assert half_width_mm(without, "back-one") == pytest.approx(math.hypot(noise_mm, 0.45 * away_m))
    assert half_width_mm(with_it, "back-one") == pytest.approx(math.hypot(noise_mm, 0.30 * away_m))
    assert level_mm(without, "back-one") == pytest.approx(level_mm(with_it, "back-one"), abs=1e-9)


def test_what_is_skipped_says_by_how_much_it_widens_the_figures_and_what_rests_on_it():
    found = surveyed(GoodEnough("room"), closing=False)
    texts = parts(found, 1)["datum/room"]["skipped"]
    assert texts == parts(found, 1)["survey/room"]["skipped"]
    knock, laser, between = texts
    assert knock.startswith("set-up one: nail was not read again at the end")
    assert "±1.5 mm" in knock and knock.endswith("back one and back two.")
    assert "0.45 mm/m" in laser and laser.startswith("laser: not checked on site") and "set-up one" in laser
    assert "±2 mm, not ±1" in between


def test_nothing_that_is_skipped_blocks():
    found = surveyed(GoodEnough("room"), closing=False)
    said = [one for one in found.rooms[0].findings if one.rule == "survey.skipped"]
    assert {one.severity for one in said} == {Severity.NOTE} and len(said) == 3
    assert [one.cure.split(",")[0] for one in said] == [
        "Read nail again while set-up one still stands", "Check laser between two pegs or two walls", "Read the stations in between",
    ]  # fmt: skip
    assert not [one for one in found.rooms[0].levels.findings if one.severity is Severity.STOP]
    assert found.rooms[0].datum.least is not None


def test_what_was_not_skipped_is_not_said():
    checks = [TwoPeg("laser", axis, 1200.0, 1200.0, 1250.0, 1250.0, 31.0, 1.0, 0.5) for axis in ("along", "across")]
    assert parts(surveyed(*checks), 1)["survey/room"]["skipped"] == []


def test_a_laser_that_stands_nowhere_on_the_plan_has_its_tilt_in_no_figure_and_that_is_said():
    mark = BenchMark("mark", "nail")
    room = sample.room(sample.run(sample.carcass("left")), bench_marks=(mark,))
    bodies = [
        SetUp("one", "set-up one", "room", Stage.STRIPPED, "laser", "rule"),
        *[Reading("one", id, Way.DOWN, 1200.0, id, 40.0, 40.0) for id in ("mark", "s", "mark")],
    ]
    log = [Entry(f"e{i}", i, "Ned", "2026-11-23T08:40:00Z", body) for i, body in enumerate(bodies, 1)]
    (text,) = parts(plan(sample.job(room), log, charts()), 1)["survey/room"]["skipped"]
    assert text.startswith("set-up one: which laser stood where") and "its tilt is in no give or take" in text
