import math
import random

import numpy as np
import pytest

from oddleg.job import BreakLine, Point, Tolerances
from oddleg.plan.surfaces import AMONG, BEYOND, ON_LINE, ON_PROFILE, READ_THERE, THIS_SIDE, Spot, Surface


def surface(points, lines=(), steps=(), covariance=None):
    """Spots a, b, c, ... at (x, y, level)."""
    spots = [Spot(chr(97 + n), f"Station {chr(97 + n)}", x, y, level) for n, (x, y, level) in enumerate(points)]
    made = [BreakLine(f"step{n}", "step", tuple(Point(*one) for one in step)) for n, step in enumerate(steps)]
    return Surface(spots, np.zeros((len(spots),) * 2) if covariance is None else covariance, lines, made, Tolerances())


def level(found, x, y):
    held = found.at(x, y)
    assert held is not None
    return held.level_mm


def test_no_spots_say_nothing_anywhere():
    empty = surface([])
    assert empty.at(0, 0) is None
    assert empty.worst_slope() is None
    assert empty.profiles() == ()
    with pytest.raises(ValueError, match="empty"):
        _ = empty.highest


def test_a_spot_without_a_number_is_refused():
    with pytest.raises(ValueError, match="no number"):
        surface([(0, 0, math.nan)])
    with pytest.raises(ValueError, match="not a place"):
        surface([(0, 0, 1)]).at(math.inf, 0)
    with pytest.raises(ValueError, match="shape"):
        surface([(0, 0, 1)], covariance=np.zeros((2, 2)))
    with pytest.raises(ValueError, match="same id"):
        Surface([Spot("a", "a", 0, 0, 0)] * 2, np.zeros((2, 2)), (), (), Tolerances())


def test_one_spot_alone_serves_only_its_neighbourhood():
    alone = surface([(1000, 500, 4.0)])
    assert level(alone, 1000, 500) == 4.0
    assert level(alone, 1000 + 299, 500) == 4.0
    assert alone.at(1000 + 301, 500) is None


def test_stations_on_one_line_are_a_profile_and_no_surface_far_from_it():
    profile = surface([(2000, 0, 8.0), (0, 0, 0.0), (1000, 0, 2.0)])
    assert level(profile, 500, 0) == pytest.approx((0 + 2) / 2)
    assert level(profile, 1500, 250) == pytest.approx((2 + 8) / 2)
    assert profile.at(1500, 250).rule == ON_PROFILE
    assert level(profile, 2250, 0) == 8.0
    assert profile.at(2250, 0).rule == BEYOND
    assert profile.at(1500, 301) is None
    assert profile.at(2301, 0) is None


def test_two_stations_make_a_profile():
    assert level(surface([(0, 0, 0.0), (0, 3000, -6.0)]), 0, 1000) == pytest.approx(-2)


def test_a_triangle_is_a_plane():
    # First principles: the plane 2 mm per m in x, -3 mm per m in y.
    found = surface([(0, 0, 0.0), (3000, 0, 6.0), (0, 2000, -6.0)])
    assert level(found, 700, 500) == pytest.approx(0.002 * 700 - 0.003 * 500)


def test_on_a_rectangle_both_diagonals_count_alike():
    # One diagonal says 0 at the middle, the other 10; neither is right.
    found = surface([(0, 0, 0.0), (1000, 0, 10.0), (1000, 800, 0.0), (0, 800, 10.0)])
    assert level(found, 500, 400) == pytest.approx((0 + 10) / 2)
    # At a quarter of the way: 5 in the triangle under one diagonal, 0 on the other diagonal itself.
    assert level(found, 250, 200) == pytest.approx((5 + 0) / 2)
    assert found.at(500, 400).rule == AMONG


def test_on_a_circle_every_triangulation_counts_alike():
    # A regular hexagon with one high corner. Of the 14 triangulations, those where the centre's triangle or diagonal
    # touches corner 0: counted by listing all 14 here, independently of the program's formula.
    corners = [(1000 * math.cos(math.radians(60 * n)), 1000 * math.sin(math.radians(60 * n))) for n in range(6)]
    found = surface([(x, y, 10.0 if n == 0 else 0.0) for n, (x, y) in enumerate(corners)])
    x, y = 130.0, 70.0

    def triangulations(ring):
        if len(ring) < 3:
            return [[]]
        return [
            [*left, (ring[0], ring[k], ring[-1]), *right]
            for k in range(1, len(ring) - 1)
            for left in triangulations(ring[: k + 1])
            for right in triangulations(ring[k:])
        ]

    def at(triangle):
        (ax, ay), (bx, by), (cx, cy) = (corners[n] for n in triangle)
        whole = (bx - ax) * (cy - ay) - (cx - ax) * (by - ay)
        a = ((bx - x) * (cy - y) - (cx - x) * (by - y)) / whole
        b = ((cx - x) * (ay - y) - (ax - x) * (cy - y)) / whole
        shares = dict(zip(triangle, (a, b, 1 - a - b), strict=True))
        return shares.get(0, 0.0) * 10 if min(shares.values()) >= 0 else None

    ways = triangulations(list(range(6)))
    assert len(ways) == 14
    values = [next(v for t in way if (v := at(t)) is not None) for way in ways]
    assert level(found, x, y) == pytest.approx(sum(values) / 14, abs=1e-9)


def test_outside_the_nearest_edge_holds():
    found = surface([(0, 0, 0.0), (1000, 0, 10.0), (1000, 800, 10.0), (0, 800, 0.0)])
    assert level(found, 250, -400) == pytest.approx(2.5)
    assert level(found, 1500, -300) == 10.0
    assert found.at(1500, -300).rule == BEYOND


def test_a_leg_on_a_line_takes_its_neighbours_on_that_line_and_not_a_long_triangle():
    # Line a-b-c; d and e stand so near b that Delaunay joins them and cuts across between a and c.
    points = [(0, 0, 0.0), (2000, 0, 0.0), (1000, 150, 20.0), (1000, -150, 20.0)]
    assert level(surface(points), 1000, 0) == pytest.approx(20)
    assert level(surface(points, lines=[("a", "b")]), 1000, 0) == pytest.approx(0)
    on_line = surface(points, lines=[("a", "b")]).at(500, 0)
    assert on_line.rule == ON_LINE
    assert on_line.rests_on == (("a", 0.75), ("b", 0.25))
    # Within the reach of 60 the line holds; from 120 on the triangulation does.
    assert level(surface(points, lines=[("a", "b")]), 500, 59) == pytest.approx(0)
    assert level(surface(points, lines=[("a", "b")]), 1000, 121) == pytest.approx(level(surface(points), 1000, 121))


def test_a_line_passes_over_stations_that_have_no_level():
    found = surface([(0, 0, 0.0), (2000, 0, 8.0), (0, 500, 3.0)], lines=[("a", "unread", "b")])
    assert level(found, 500, 0) == pytest.approx(2.0)


def test_a_station_beside_a_line_keeps_its_own_level():
    found = surface([(0, 0, 0.0), (2000, 0, 0.0), (1000, 40, 5.0), (1000, 600, 0.0)], lines=[("a", "b")])
    assert level(found, 1000, 40) == pytest.approx(5.0)
    assert found.at(1000, 40).rule == READ_THERE


@pytest.mark.parametrize("way", [(1, 0), (0, 1), (-1, 0), (0, -1), (0.6, 0.8)])
def test_the_surface_has_no_cliff_but_at_a_step(way):
    random.seed(4)
    points = [(600.0 * i, 500.0 * j, random.uniform(-10, 10)) for i in range(5) for j in range(4)]
    points.append((910.0, 520.0, 4.0))
    ids = [chr(97 + n) for n in range(20)]
    found = surface(points, lines=[ids[j::4] for j in range(4)] + [ids[4:8]])
    for _ in range(4):
        x, y = random.uniform(-300, 2700), random.uniform(-300, 1800)
        walk = [level(found, x + s * way[0], y + s * way[1]) for s in np.arange(0, 200, 1.0)]
        # Nothing in this floor is steeper than 20 mm in the 41 mm round the added station.
        assert np.abs(np.diff(walk)).max() < 1.0


def test_two_stations_in_one_place_count_with_their_mean():
    found = surface([(0, 0, 0.0), (1000, 0, 4.0), (1000, 0, 6.0), (0, 1000, 0.0)])
    held = found.at(1000, 0)
    assert held.level_mm == pytest.approx(5.0)
    assert dict(held.rests_on) == pytest.approx({"b": 0.5, "c": 0.5})
    assert level(found, 500, 0) == pytest.approx(2.5)


def test_all_stations_in_one_place_are_one_spot():
    found = surface([(5, 5, 1.0), (5, 5, 2.0), (5, 5, 3.0)])
    assert level(found, 5, 5) == pytest.approx(2.0)
    assert found.at(5, 306) is None


def test_a_step_is_not_a_ramp():
    # Trap: stations 1200: 0 and 1800: +12, step at 1500; interpolated it would be 5 and 7.
    found = surface([(1200, 0, 0.0), (1800, 0, 12.0)], lines=[("a", "b")], steps=[[(1500, 0), (1500, 600)]])
    assert level(found, 1450, 0) == 0
    assert level(found, 1550, 0) == 12
    assert found.at(1450, 0).rule == THIS_SIDE
    without = surface([(1200, 0, 0.0), (1800, 0, 12.0)], lines=[("a", "b")])
    assert (level(without, 1450, 0), level(without, 1550, 0)) == (pytest.approx(5), pytest.approx(7))


def test_along_a_line_each_side_of_a_step_keeps_its_nearest_level_however_far():
    found = surface([(0, 0, 0.0), (3000, 0, 12.0)], lines=[("a", "b")], steps=[[(1500, -10), (1500, 600)]])
    assert level(found, 1490, 0) == 0
    assert level(found, 1510, 0) == 12


def test_off_the_lines_only_stations_on_this_side_of_a_step_count():
    points = [(x, y, 12.0 if x > 1500 else 0.0) for x in (0, 1200, 1800, 3000) for y in (0, 1000, 2000)]
    found = surface(points, steps=[[(1500, 0), (1500, 2000)]])
    for y in (0, 300, 1000, 1999, 2000):
        assert level(found, 1499, y) == 0
        assert level(found, 1501, y) == 12
        assert {one[0] for one in found.at(1499, y).rests_on} <= set("abcdef")


def test_on_the_step_itself_the_higher_side_holds():
    points = [(x, y, 12.0 if x > 1500 else 0.0) for x in (0, 1200, 1800, 3000) for y in (0, 900)]
    assert level(surface(points, steps=[[(1500, 0), (1500, 900)]]), 1500, 450) == 12


def test_a_station_on_the_step_itself_serves_neither_side():
    points = [(1400, 0, 0.0), (1500, 0, 7.0), (1600, 0, 12.0)]
    found = surface(points, lines=[("a", "b", "c")], steps=[[(1500, -500), (1500, 500)]])
    assert [spot.id for spot in found.on_steps] == ["b"]
    assert level(found, 1490, 0) == 0
    assert level(found, 1510, 0) == 12
    assert level(found, 1500, 0) == 7


def test_nothing_is_said_where_no_station_is_seen():
    found = surface([(0, 0, 0.0), (500, 500, 1.0)], steps=[[(1500, -1000), (1500, 2000)]])
    assert found.at(1501, 0) is None


def test_profiles_are_cut_at_a_step():
    found = surface(
        [(0, 0, 0.0), (1200, 0, 0.0), (1800, 0, 12.0), (2400, 0, 12.0)],
        lines=[("a", "b", "c", "d")],
        steps=[[(1500, -100), (1500, 100)]],
    )
    assert [[spot.id for spot in piece] for piece in found.profiles()] == [["a", "b"], ["c", "d"]]


def test_highest_lowest_range_and_worst_slope():
    found = surface([(0, 0, 0.0), (1000, 0, -4.0), (1000, 100, 3.0), (0, 2000, -14.0)])
    assert (found.highest.id, found.lowest.id, found.range_mm) == ("c", "d", 17.0)
    # b to c falls 7 in 100, but that is nearer than 300. c to d: 17 over sqrt(1000^2 + 1900^2).
    slope, upper, lower = found.worst_slope()
    assert (upper.id, lower.id) == ("c", "d")
    assert slope == pytest.approx(17 / math.hypot(1000, 1900) * 1000)


def test_a_step_has_no_slope():
    found = surface([(1200, 0, 0.0), (1800, 0, 12.0)], lines=[("a", "b")], steps=[[(1500, -100), (1500, 100)]])
    assert found.worst_slope() is None


def test_give_or_take_follows_the_covariance_and_adds_unevenness_between_stations():
    # Half of each of two independent levels of standard deviation 1: sqrt(1/4 + 1/4).
    between = surface([(0, 0, 0.0), (1000, 0, 2.0)], covariance=np.eye(2))
    assert between.at(500, 0).half_width_mm == pytest.approx(1.96 * math.sqrt(0.5) + 1.0)
    assert between.at(0.5, 0).half_width_mm == pytest.approx(1.96, rel=1e-3)
    # Levels that share their error do not average it away.
    shared = surface([(0, 0, 0.0), (1000, 0, 2.0)], covariance=np.ones((2, 2)))
    assert shared.at(500, 0).half_width_mm == pytest.approx(1.96 + 1.0)


def test_the_distance_to_the_nearest_station_does_not_look_across_a_step():
    found = surface([(0, 0, 0.0), (1510, 0, 12.0)], lines=[("a", "b")], steps=[[(1500, -100), (1500, 100)]])
    assert found.at(1490, 0).to_station_mm == pytest.approx(1490)
