"""Computation 1: one adjustment of all set-ups. Values by first principles where no other source stands beside them."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sample_survey import Log, finding, level_mm, levels_of, rules
from scipy.stats import norm

from oddleg.job import BenchMark, Laser, Point, Stage, Way
from oddleg.plan.adjustment import COVERAGE_95, solved
from oddleg.plan.finding import Severity

EXAMPLES = settings(derandomize=True, deadline=None, max_examples=25)


def one_set_up(**values_mm):
    log = Log().set_up("one")
    log.read("one", nail=1000.0, **values_mm)
    log.read_at("one", "nail", 1000.0)
    return log


def test_a_bigger_down_reading_is_lower():
    levels = levels_of(one_set_up(door=1008.5))
    assert level_mm(levels, "door") == pytest.approx(1000.0 - 1008.5, abs=1e-9)


def test_a_bigger_reading_of_a_hanging_staff_is_higher_and_an_offset_counts_from_the_beam():
    log = one_set_up()
    log.read("one", Way.UP, ceiling=1400.0)
    log.read("one", Way.OFFSET, sill=-85.0)
    levels = levels_of(log)
    assert level_mm(levels, "ceiling") == pytest.approx(1000.0 + 1400.0)
    assert level_mm(levels, "sill") == pytest.approx(1000.0 - 85.0)


@pytest.mark.parametrize("worn_mm", [1.5, -0.7])
def test_a_worn_staff_cancels_on_floors_and_doubles_on_ceilings(worn_mm):
    """TRAPS 2: a foot worn by 1.5 reads 1.5 too much both ways up: ceilings come out 3.0 too high."""
    log = Log().set_up("one")
    log.read("one", nail=1000.0 + worn_mm, door=1008.0 + worn_mm)
    log.read("one", Way.UP, ceiling=1400.0 + worn_mm)
    levels = levels_of(log)
    assert level_mm(levels, "door") == pytest.approx(-8.0)
    assert level_mm(levels, "ceiling") == pytest.approx(2400.0 + 2 * worn_mm)


def test_readings_of_two_stages_are_neither_repeats_nor_a_tie():
    """TRAPS 4: read on screed, tiled with 20, read again on tile: two levels, no contradiction, nothing averaged."""
    log = Log().set_up("screed", Stage.STRIPPED).set_up("tile", Stage.TILED)
    log.read("screed", nail=1000.0, door=1010.0)
    log.read("tile", nail=1100.0, door=1090.0)
    levels = levels_of(log)
    assert level_mm(levels, "door", Stage.STRIPPED) == pytest.approx(-10.0)
    assert level_mm(levels, "door", Stage.TILED) == pytest.approx(10.0)
    assert rules(levels, Severity.STOP) == []
    untied = levels_of(log.without("e0005"))
    assert finding(untied, "levels.untied").concerns == ("tile", "door")
    assert untied.open_stations == ("door",)


def test_a_line_on_a_wall_is_a_set_up_with_its_own_level():
    """TRAPS 9: the line at 850 +-0.5, readings from it as offsets, checked once against the bench mark."""
    log = Log().set_up("line", line_level_mm=850.0, line_give_or_take_mm=0.5)
    log.read("line", Way.OFFSET, door=-858.0)
    levels = levels_of(log)
    door = levels.at("door", Stage.STRIPPED)
    assert door.level_mm == pytest.approx(-8.0)
    assert door.half_width_mm == pytest.approx(math.hypot(0.5, 1.96 * 0.5))
    assert levels.planes[0].half_width_mm == pytest.approx(0.5)
    assert finding(levels, "levels.line_unchecked").severity is Severity.WARN
    assert levels.misclosure is None

    log.read_at("line", "nail", -850.4, Way.OFFSET)
    checked = levels_of(log)
    assert "levels.line_unchecked" not in rules(checked)
    assert checked.misclosure.mm == pytest.approx(0.4)
    assert 850.0 < checked.planes[0].level_mm < 850.4


def test_a_line_that_its_bench_mark_contradicts_gives_no_level():
    log = Log().set_up("line", line_level_mm=850.0, line_give_or_take_mm=0.5)
    log.read("line", Way.OFFSET, door=-858.0, nail=-857.0)
    levels = levels_of(log)
    assert finding(levels, "levels.misclosure").amount.mm == pytest.approx(7.0)
    assert (levels.stations, levels.planes, levels.open_stations) == ((), (), ("door",))


def test_a_line_without_give_or_take_says_so():
    log = Log().set_up("line", line_level_mm=850.0)
    log.read("line", Way.OFFSET, door=-858.0)
    levels = levels_of(log)
    assert levels.planes[0].half_width_mm == pytest.approx(1.96 * 0.5)
    assert finding(levels, "levels.line_without_give_or_take").severity is Severity.WARN


def test_give_or_take_is_the_95_percent_half_width_of_bench_mark_and_station():
    levels = levels_of(one_set_up(door=1008.0))
    # bench mark read twice: noise^2 / 2; station once: noise^2
    assert levels.at("door", Stage.STRIPPED).half_width_mm == pytest.approx(1.96 * 0.5 * math.sqrt(1 + 1 / 2))


def test_the_lasers_tilt_grows_with_the_distance_and_is_shared():
    """Laser at 0,0; nail at the laser, door 4 m off, hall beside the door: level of the door good to noise and 4 m of
    tilt, the difference of door and hall to noise only. Stated accuracy is the 95 % half-width: 0.3 x 4 = 1.2 mm."""
    log = Log().set_up("one", laser="laser", x_mm=0.0, y_mm=0.0)
    log.read("one", nail=1000.0, door=1008.0, hall=1008.0)
    places = {"nail": Point(0.0, 0.0), "door": Point(4000.0, 0.0), "hall": Point(4000.0, 0.0)}
    levels = levels_of(log, places=places, unseen_knock_mm=0.0)
    door = levels.at("door", Stage.STRIPPED)
    assert door.half_width_mm == pytest.approx(math.hypot(1.96 * 0.5 * math.sqrt(2), 0.3 * 4))
    covariance = levels.covariance
    assert covariance[0, 0] + covariance[1, 1] - 2 * covariance[0, 1] == pytest.approx(2 * 0.5**2)
    alike = levels_of(log, unseen_knock_mm=0.0)
    assert alike.at("door", Stage.STRIPPED).half_width_mm == pytest.approx(1.96 * 0.5 * math.sqrt(2))


def test_equal_sights_cancel_the_beams_climb_and_a_spot_near_the_middle_is_best():
    """TRAPS 58: nail at one end, station 4 m from it at the other. Half of the tilt's variance is a lean, which the place
    of the laser does not change: 0.3 x 4 over root 2. The other half climbs alike on every side: nothing from the middle,
    0.3 x 4 over root 2 from either end. First principles."""
    places = {"nail": Point(0.0, 0.0), "far": Point(4000.0, 0.0)}

    def tilt_mm(laser_x_mm):
        log = Log().set_up("one", laser="laser", x_mm=laser_x_mm, y_mm=0.0)
        log.read("one", nail=1000.0, far=1008.0)
        half_width_mm = levels_of(log, places=places, unseen_knock_mm=0.0).stations[0].half_width_mm
        return math.sqrt(half_width_mm**2 - 2 * (1.96 * 0.5) ** 2)

    lean_mm = 0.3 * 4 / math.sqrt(2)
    assert tilt_mm(2000.0) == pytest.approx(lean_mm)
    assert tilt_mm(0.0) == tilt_mm(4000.0) == pytest.approx(math.hypot(lean_mm, 0.3 * 4 / math.sqrt(2)))
    assert tilt_mm(1000.0) == pytest.approx(math.hypot(lean_mm, 0.3 * (3 - 1) / math.sqrt(2)))


def test_tilt_has_the_other_sign_for_a_hanging_staff():
    """Floor and ceiling at one spot, plane - r and plane + r: a tilted plane lifts both, so that the height between them
    has the noise of two readings and no tilt, though it is 9 m from the laser."""
    log = Log().set_up("one", laser="laser", x_mm=0.0, y_mm=0.0)
    log.read("one", nail=1000.0, floor=1008.0)
    log.read("one", Way.UP, over=1400.0)
    places = {"nail": Point(0.0, 0.0), "floor": Point(9000.0, 0.0), "over": Point(9000.0, 0.0)}
    covariance = levels_of(log, places=places).covariance
    assert covariance[0, 0] + covariance[1, 1] - 2 * covariance[0, 1] == pytest.approx(2 * 0.5**2)


def test_noise_is_pooled_from_repeats_once_six_differences_exist():
    log = Log().set_up("one")
    for value_mm in (1000.0, 1000.5, 1000.0):
        log.read_at("one", "nail", value_mm)
    for value_mm in (1008.0, 1009.0):
        log.read_at("one", "door", value_mm)
    for value_mm in (1003.0, 1003.0, 1004.0):
        log.read_at("one", "hall", value_mm)
    five = levels_of(log)
    assert (five.noise_mm, five.noise_pooled) == (0.5, False)
    log.read_at("one", "hall", 1004.0)
    six = levels_of(log)
    squares = (0.5**2 * 2 / 3) + 2 * 0.5**2 + 4 * 0.5**2
    assert six.noise_pooled
    assert six.noise_mm == pytest.approx(math.sqrt(squares / 6))
    assert six.at("hall", Stage.STRIPPED).spread_mm == pytest.approx(1.0)


def test_repeats_that_agree_to_the_last_step_do_not_make_a_rule_without_noise():
    log = Log().set_up("one")
    for _ in range(7):
        log.read_at("one", "nail", 1000.0)
    log.read("one", door=1008.0)
    assert levels_of(log).noise_mm == pytest.approx(0.5 / math.sqrt(12))


def test_residuals_name_their_readings_and_sum_to_nought_at_a_repeated_station():
    log = one_set_up()
    first, second = log.read_at("one", "door", 1008.0), log.read_at("one", "door", 1009.0)
    levels = levels_of(log)
    residual = {one.reading: one.residual_mm for one in levels.residuals}
    assert residual[first] == pytest.approx(-0.5)
    assert residual[second] == pytest.approx(+0.5)
    door = levels.at("door", Stage.STRIPPED)
    assert (door.readings, door.set_ups, door.spread_mm) == ((first, second), ("one",), 1.0)


def test_several_bench_marks_are_all_held():
    marks = (BenchMark("nail", "nail"), BenchMark("sill", "sill", 900.0))
    log = Log().set_up("one")
    log.read("one", nail=1000.0, sill=100.5, door=1008.0)
    levels = levels_of(log, marks)
    assert levels.planes[0].level_mm == pytest.approx((1000.0 + 1000.5) / 2)
    assert levels.misclosure.mm == pytest.approx(0.5)
    assert (levels.misclosure.limit_mm, levels.misclosure.set_ups) == (1.0, ("one",))


# --- an oracle that solves it another way: tilts as unknowns of their own, weights by rows, numpy's lstsq ---

STATIONS = ["a", "b", "c", "d", "e", "f"]
SPOT = st.floats(-6000, 6000).map(lambda value: round(value, 1))
NOISE = st.floats(-0.05, 0.05)


@st.composite
def surveys(draw):
    """Three set-ups with the bench mark and some shared stations in each; readings true but for a little noise."""
    level = {station: draw(st.floats(-15, 15)) for station in STATIONS} | {"nail": 0.0}
    places = {station: Point(draw(SPOT), draw(SPOT)) for station in [*STATIONS, "nail"]}
    log = Log()
    for index in range(3):
        id_, plane = f"s{index}", draw(st.floats(900, 1200))
        log.set_up(id_, laser="laser", x_mm=draw(SPOT), y_mm=draw(SPOT))
        shared = draw(st.lists(st.sampled_from(STATIONS), min_size=2, unique=True))
        for station in ["nail", *shared]:
            way = draw(st.sampled_from(list(Way))) if station != "nail" else Way.DOWN
            down = plane - level[station] + draw(NOISE)
            log.read_at(id_, station, down if way is Way.DOWN else -down, way)
    return log, places


def lstsq_levels(log, places, noise_mm, slope_sd):
    """Unknown: planes, levels, and three tilts a set-up (lean in X, lean in Y, climb), each with an observation 0 of its
    own and half the laser's variance."""
    set_ups = {entry.body.id: entry.body for entry in log.entries if hasattr(entry.body, "stage")}
    readings = [entry.body for entry in log.entries if hasattr(entry.body, "way")]
    stations = sorted({one.station for one in readings} - {"nail"})
    column = {key: index for index, key in enumerate([*set_ups, *stations])}
    tilt = {id_: len(column) + 3 * index for index, id_ in enumerate(set_ups)}
    width = len(column) + 3 * len(set_ups)
    rows, right = [], []
    for one in readings:
        row = np.zeros(width)
        row[column[one.set_up]] = 1
        if one.station != "nail":
            row[column[one.station]] = -1
        laser = set_ups[one.set_up]
        away_m = ((places[one.station].x_mm - laser.x_mm) / 1000, (places[one.station].y_mm - laser.y_mm) / 1000)
        row[tilt[one.set_up] :][:3] = *away_m, math.hypot(*away_m)
        rows.append(row / noise_mm)
        right.append((one.value_mm if one.way is Way.DOWN else -one.value_mm) / noise_mm)
    for index in range(len(column), width):
        rows.append(np.eye(width)[index] / (slope_sd / math.sqrt(2)))
        right.append(0.0)
    matrix = np.array(rows)
    found = np.linalg.lstsq(matrix, np.array(right), rcond=None)[0]
    covariance = np.linalg.inv(matrix.T @ matrix)
    return {one: (found[column[one]], 1.96 * math.sqrt(covariance[column[one], column[one]])) for one in stations}


@EXAMPLES
@given(surveys())
def test_levels_and_half_widths_are_those_of_lstsq(made):
    log, places = made
    levels = levels_of(log, places=places, misclosure_mm=100.0, unseen_knock_mm=0.0)
    expected = lstsq_levels(log, places, 0.5, 0.3 / 1.96)
    assert {one.station for one in levels.stations} == set(expected)
    for one in levels.stations:
        assert (one.level_mm, one.half_width_mm) == pytest.approx(expected[one.station], abs=1e-6)


@EXAMPLES
@given(surveys(), st.randoms(use_true_random=False))
def test_the_order_of_entries_changes_no_level(made, random):
    log, places = made
    entries = list(log.entries)
    random.shuffle(entries)
    before = levels_of(log, places=places, misclosure_mm=100.0)
    after = levels_of(log, places=places, misclosure_mm=100.0, entries=entries)
    assert [one.level_mm for one in after.stations] == pytest.approx(
        [one.level_mm for one in before.stations], abs=1e-4
    )
    assert (before.findings, before.misclosure) == (after.findings, after.misclosure)


@EXAMPLES
@given(surveys(), st.randoms(use_true_random=False))
def test_taking_the_readings_in_another_order_changes_no_level(made, random):
    """Positions shuffled, uids too: what was read is the same."""
    log, places = made
    other = Log()
    set_ups = [entry.body for entry in log.entries if hasattr(entry.body, "stage")]
    readings = [entry.body for entry in log.entries if hasattr(entry.body, "way")]
    random.shuffle(readings)
    for body in [*set_ups, *readings]:
        other._add(body)
    before = levels_of(log, places=places, misclosure_mm=100.0)
    after = levels_of(other, places=places, misclosure_mm=100.0)
    assert [one.level_mm for one in after.stations] == pytest.approx(
        [one.level_mm for one in before.stations], abs=1e-4
    )


@EXAMPLES
@given(surveys())
def test_moving_every_station_by_a_millionth_changes_no_level(made):
    log, places = made
    moved = {id_: Point(place.x_mm + 1e-6, place.y_mm - 1e-6) for id_, place in places.items()}
    before = levels_of(log, places=places, misclosure_mm=100.0)
    after = levels_of(log, places=moved, misclosure_mm=100.0)
    assert [one.level_mm for one in after.stations] == pytest.approx(
        [one.level_mm for one in before.stations], abs=1e-4
    )


@EXAMPLES
@given(surveys(), st.floats(-40, 40))
def test_raising_every_reading_but_the_bench_marks_by_c_lowers_every_level_by_c(made, c_mm):
    """Raising the bench mark's too would cancel: it only lifts the planes (a worn staff). "Raising" is by the way of the
    reading: a `down` reading grows, the other two shrink, for one and the same lower floor."""
    log, places = made
    raised = Log()
    for entry in log.entries:
        body = entry.body
        if hasattr(body, "way") and body.station != "nail":
            value_mm = body.value_mm + (c_mm if body.way is Way.DOWN else -c_mm)
            raised.read_at(body.set_up, body.station, value_mm, body.way)
        else:
            raised._add(body)
    before = levels_of(log, places=places, misclosure_mm=100.0)
    after = levels_of(raised, places=places, misclosure_mm=100.0)
    lowered = [one.level_mm - c_mm for one in before.stations]
    assert [one.level_mm for one in after.stations] == pytest.approx(lowered, abs=1e-6)


@EXAMPLES
@given(st.integers(2, 6), st.integers(0, 4), st.integers(0, 2**31))
def test_the_solver_is_lstsq_on_whitened_rows(unknowns, more, seed):
    """Whitened here by the eigenvectors of the covariance, where the solver takes its Cholesky factor."""
    random = np.random.default_rng(seed)
    count = unknowns + more
    design, observed = random.normal(size=(count, unknowns)), random.normal(size=count)
    root = random.normal(size=(count, count))
    covariance = root @ root.T + np.eye(count)
    values, vectors = np.linalg.eigh(covariance)
    white = (vectors / np.sqrt(values)).T
    expected = np.linalg.lstsq(white @ design, white @ observed, rcond=None)[0]
    found = solved(design, observed, covariance)
    assert found.unknowns == pytest.approx(expected, rel=1e-6, abs=1e-6)
    inverse = np.linalg.inv(design.T @ np.linalg.inv(covariance) @ design)
    assert found.covariance == pytest.approx(inverse, rel=1e-5, abs=1e-8)
    assert found.residuals == pytest.approx(observed - design @ expected, abs=1e-6)


def test_the_solver_refuses_what_is_not_determined_and_what_is_no_covariance():
    with pytest.raises(ValueError, match="determine"):
        solved(np.array([[1.0, -1.0], [1.0, -1.0]]), np.zeros(2), np.eye(2))
    with pytest.raises(ValueError, match="positive definite"):
        solved(np.eye(2), np.zeros(2), np.zeros((2, 2)))


def test_coverage_is_that_of_the_normal_distribution():
    assert abs(COVERAGE_95 - norm.ppf(0.975)) < 5e-5


# --- bad input ---


def test_no_readings_is_a_stop_and_no_crash():
    levels = levels_of(Log())
    assert rules(levels, Severity.STOP) == ["levels.no_readings"]
    assert levels.stations == () and levels.covariance.shape == (0, 0)


def test_a_bench_mark_never_read_is_one_stop_in_plain_words():
    log = Log().set_up("one")
    log.read("one", door=1008.0, hall=1004.0)
    levels = levels_of(log)
    (stop,) = [one for one in levels.findings if one.severity is Severity.STOP]
    assert stop.wrong == "nail was never read, so nothing has a level."
    assert levels.open_stations == ("door", "hall")
    assert finding(levels_of(log, ()), "levels.bench_mark_never_read").wrong.startswith("The room has no bench mark")


def test_only_the_bench_mark_read_gives_a_plane_and_no_station():
    log = Log().set_up("one")
    log.read("one", nail=1000.0)
    levels = levels_of(log)
    assert levels.stations == () and levels.planes[0].level_mm == pytest.approx(1000.0)


def test_everything_at_one_spot_has_levels():
    log = Log().set_up("one", laser="laser", x_mm=0.0, y_mm=0.0)
    log.read("one", nail=1000.0, a=1001.0, b=1002.0)
    places = dict.fromkeys(["nail", "a", "b"], Point(0.0, 0.0))
    assert level_mm(levels_of(log, places=places), "b") == pytest.approx(-2.0)


def test_a_twelve_for_twelve_hundred_counts_and_is_asked_about():
    levels = levels_of(one_set_up(door=12.0))
    assert "12" in finding(levels, "levels.reading_unlikely").wrong
    assert level_mm(levels, "door") == pytest.approx(988.0)


def test_an_offset_may_lie_below_the_beam_without_being_asked_about():
    log = one_set_up()
    log.read("one", Way.OFFSET, door=-900.0)
    assert "levels.reading_unlikely" not in rules(levels_of(log))


@pytest.mark.parametrize("value_mm", [1e300, -1e300, 1.1e6])
def test_a_reading_beyond_a_kilometre_leaves_its_station_open_and_the_others_alone(value_mm):
    levels = levels_of(one_set_up(door=1008.0, hall=value_mm))
    assert finding(levels, "levels.beyond_measure").severity is Severity.STOP
    assert levels.open_stations == ("hall",)
    assert level_mm(levels, "door") == pytest.approx(-8.0)


def test_the_steepest_laser_and_the_largest_length_still_solve():
    log = Log().set_up("one", laser="laser", x_mm=-1e6, y_mm=1e6)
    log.read("one", nail=1e6, door=-1e6)
    places = {"nail": Point(1e6, -1e6), "door": Point(0.0, 0.0)}
    levels = levels_of(log, places=places, lasers=(Laser("laser", "laser", 1000.0),))
    assert math.isfinite(level_mm(levels, "door"))


def test_two_readings_that_replace_the_same_one_are_a_repeat_with_a_finding():
    log = one_set_up()
    log.read_at("one", "door", 1008.0, replaces="gone")
    log.read_at("one", "door", 1009.0, replaces="gone")
    levels = levels_of(log)
    assert finding(levels, "levels.rival_readings").severity is Severity.WARN
    assert level_mm(levels, "door") == pytest.approx(-8.5)
