"""Neither order, mirror, shift nor a last bit may choose a level; scipy's interpolator is the oracle where it can be."""

import numpy as np
import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from scipy.interpolate import LinearNDInterpolator

from oddleg.job import BreakLine, Point, Tolerances
from oddleg.plan.surfaces import Spot, Surface

SAME_MM = 1e-4
# Each example builds several surfaces and asks them at some dozens of places, so a few dozen floors are thousands of checks.
QUICK = settings(derandomize=True, deadline=None, max_examples=30, suppress_health_check=[HealthCheck.filter_too_much])


def surface(points, levels, order=None, lines=(), steps=()):
    order = range(len(points)) if order is None else order
    spots = [Spot(f"s{n:02}", f"s{n:02}", points[n][0], points[n][1], levels[n]) for n in order]
    return Surface(spots, np.eye(len(spots)), lines, steps, Tolerances())


def level(found, x, y):
    held = found.at(x, y)
    return None if held is None else held.level_mm


@st.composite
def floors(draw):
    """Grids and rectangles exactly, some with stations left out, some with more stations at random; lines along rows."""
    columns, rows = draw(st.integers(1, 5)), draw(st.integers(1, 4))
    dx, dy = draw(st.sampled_from([300.0, 600.0, 1200.0])), draw(st.sampled_from([460.0, 600.0, 700.0]))
    points = [(dx * i, dy * j) for j in range(rows) for i in range(columns)]
    keep = draw(st.lists(st.booleans(), min_size=len(points), max_size=len(points)))
    points = [one for one, kept in zip(points, keep, strict=True) if kept or draw(st.booleans())]
    more = draw(st.lists(st.tuples(st.integers(-40, 400), st.integers(-40, 300)), max_size=4))
    points += [(x * 7.5 + 1.25, y * 7.5 + 1.25) for x, y in more]
    assume(points)
    levels = draw(st.lists(st.integers(-200, 200).map(lambda n: n / 10), min_size=len(points), max_size=len(points)))
    lines = []
    if draw(st.booleans()):
        for row in sorted({y for _, y in points}):
            lines.append(
                [f"s{n:02}" for n in sorted(range(len(points)), key=lambda n: points[n]) if points[n][1] == row]
            )
    return points, levels, lines


def places(points):
    """Stations, middles and quarters between any two of them (edges and diagonals among them), and points off them."""
    found = list(points)
    for n, (ax, ay) in enumerate(points):
        for bx, by in points[n + 1 :][:3]:
            found += [((ax + bx) / 2, (ay + by) / 2), (ax * 0.75 + bx * 0.25, ay * 0.75 + by * 0.25)]
    x, y = points[0]
    return [*found, (x - 123.0, y - 77.0), (x + 411.5, y + 333.5)]


@QUICK
@given(floors(), st.randoms(use_true_random=False))
def test_order_and_a_millionth_of_a_millimetre_change_no_level(floor, random):
    points, levels, lines = floor
    found = surface(points, levels, lines=lines)
    order = list(range(len(points)))
    random.shuffle(order)
    moved = [(x + random.uniform(-1e-6, 1e-6), y + random.uniform(-1e-6, 1e-6)) for x, y in points]
    others = [surface(points, levels, order, lines), surface(moved, levels, lines=lines)]
    for x, y in places(points):
        for other in others:
            assert level(other, x, y) == pytest.approx(level(found, x, y), abs=SAME_MM)


CHANGES = {
    "mirrored": lambda x, y: (-x, y),
    "mirrored about the diagonal": lambda x, y: (y, x),
    "shifted": lambda x, y: (x + 12345.678, y - 54321.0),
    "turned": lambda x, y: (0.6 * x - 0.8 * y, 0.8 * x + 0.6 * y),
}


@settings(QUICK, max_examples=40)
@given(floors(), st.sampled_from(sorted(CHANGES)))
def test_mirror_turn_and_shift_change_no_level(floor, name):
    points, levels, lines = floor
    change = CHANGES[name]
    found = surface(points, levels, lines=lines)
    other = surface([change(*one) for one in points], levels, lines=lines)
    for x, y in places(points):
        assert level(other, *change(x, y)) == pytest.approx(level(found, x, y), abs=SAME_MM)


@QUICK
@given(floors())
def test_a_level_stays_among_its_spots_and_its_shares_make_one(floor):
    points, levels, lines = floor
    found = surface(points, levels, lines=lines)
    for x, y in places(points):
        held = found.at(x, y)
        if held is not None:
            assert min(levels) <= held.level_mm <= max(levels)
            assert sum(share for _, share in held.rests_on) == pytest.approx(1)
            assert all(share > 0 for _, share in held.rests_on)
            by_id = {spot.id: spot.level_mm for spot in found.spots}
            assert held.level_mm == pytest.approx(sum(by_id[one] * share for one, share in held.rests_on))


@QUICK
@given(floors(), st.integers(-500, 500))
def test_raising_every_spot_raises_every_level_as_much(floor, by):
    points, levels, lines = floor
    found, raised = surface(points, levels, lines=lines), surface(points, [one + by for one in levels], lines=lines)
    for x, y in places(points):
        if (before := level(found, x, y)) is not None:
            assert level(raised, x, y) == pytest.approx(before + by, abs=1e-9)


@QUICK
@given(floors())
def test_a_station_is_read_there(floor):
    points, levels, lines = floor
    assume(min((np.hypot(a - c, b - d) for n, (a, b) in enumerate(points) for c, d in points[:n]), default=9) > 3)
    found = surface(points, levels, lines=lines)
    for (x, y), one in zip(points, levels, strict=True):
        assert level(found, x, y) == pytest.approx(one, abs=1e-9)


@QUICK
@given(floors(), st.randoms(use_true_random=False))
def test_a_step_from_wall_to_wall_parts_the_floor(floor, random):
    """Oracle: a surface of only those stations that stand on this side."""
    points, levels, _ = floor
    across = 451.3
    step = BreakLine("b", "step", (Point(across, -2000.0), Point(across, 6000.0)))
    found = surface(points, levels, steps=[step])
    for low in (True, False):
        here = [n for n, (x, _) in enumerate(points) if (x < across) is low]
        alone = surface(points, levels, order=here)
        for x, y in places(points):
            if (x < across) is low and x != across:
                assert level(found, x, y) == pytest.approx(level(alone, x, y), abs=1e-9)


@settings(QUICK, max_examples=20)
@given(st.integers(0, 10_000), st.integers(6, 25))
def test_on_staggered_stations_the_surface_is_scipys_linear_interpolator(seed, count):
    """Oracle: scipy LinearNDInterpolator. Staggered: no four stations within 1 mm of one circle, none in one place,
    and no triangle along the outside lower than 1 mm."""
    random = np.random.default_rng(seed)
    points = random.uniform(0, 5000, (count, 2))
    levels = random.uniform(-15, 15, count)
    found = surface(points.tolist(), levels.tolist())
    oracle = LinearNDInterpolator(points, levels)
    met = 0
    for x, y in random.uniform(500, 4500, (40, 2)):
        held, expected = found.at(x, y), float(oracle(x, y))
        if np.isnan(expected) or held.rule == "among the stations round it" or held.rule == "beyond the last station":
            continue
        met += 1
        assert held.level_mm == pytest.approx(expected, abs=1e-7)
    assert met > 5
