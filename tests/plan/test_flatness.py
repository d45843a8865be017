import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial import ConvexHull

from oddleg.job import BreakLine, Flatness, FlatnessClass, Job, Point, Room, Tolerances, Worktop
from oddleg.plan.finding import Severity
from oddleg.plan.flatness import deepest, deepest_hollow, flatness_findings, limit_mm
from oddleg.plan.surfaces import Spot, Surface

SIX = FlatnessClass("six under two metres", "floors", ((2000.0, 6.0),), "invented for this test", "memory")
ROOM = Room("room", "Hall kitchen", "corner", (), Worktop(30), ())


def line(*levels, apart_mm=1000.0, steps=()):
    spots = [Spot(f"s{n}", f"Station {n}", n * apart_mm, 0, level) for n, level in enumerate(levels)]
    ids = [[spot.id for spot in spots]]
    return Surface(spots, np.zeros((len(spots),) * 2), ids, steps, Tolerances())


def findings(surface, name=SIX.name, straightedge_mm=2000.0, rounding_mm=0.5):
    job = Job(
        "job",
        "Job",
        "Hall",
        "client",
        "UTC",
        720,
        (),
        (),
        (ROOM,),
        rounding_mm,
        Tolerances(),
        Flatness(name, straightedge_mm),
    )
    return flatness_findings(job, ROOM, surface, (SIX,))


def test_a_floor_that_falls_evenly_is_flat():
    # Trap: 0, -5, -10, -15 along 4 m: range 15, under a straightedge 0.
    falling = line(0, -5, -10, -15, apart_mm=4000 / 3)
    assert falling.range_mm == 15
    for straightedge_mm in (500.0, 2000.0, 4000.0):
        assert deepest_hollow(falling, straightedge_mm).depth_mm == pytest.approx(0, abs=1e-9)


def test_the_straightedge_rests_on_two_high_points():
    # 0, -4, -6, 0 at 0, 1000, 2000, 3000 and 3 m: rests on both ends, -6 deep at the third.
    hollow = deepest_hollow(line(0, -4, -6, 0), 3000.0)
    assert (hollow.depth_mm, hollow.at.id) == (pytest.approx(6), "s2")
    assert (hollow.rests_from_mm, hollow.rests_to_mm) == (0, 3000)


def test_a_hump_between_carries_the_straightedge():
    # Under 4 m: the hump of 10 in the middle; the valleys beside it lie under chords from 0 to 10 and back: 5 + 2 deep.
    assert deepest_hollow(line(0, -2, 10, -2, 0), 4000.0).depth_mm == pytest.approx((0 + 10) / 2 + 2)


def test_a_hollow_wider_than_the_straightedge_carries_it_on_its_slopes():
    # A valley 10 deep and 4 m wide: 2 m rest on the slopes 1 m either side, 5 up.
    assert deepest([(0, 0), (2000, -10), (4000, 0)], 2000.0)[0] == pytest.approx(5)


def test_a_lopsided_valley_is_deepest_with_the_straightedge_half_on_either_side():
    # Slopes 4 and 12 mm per m: depth (s1 + s2) u (L - u) / L is largest at u = L / 2: 16 x 0.25 x 2 = 8.
    assert deepest([(0, 8), (2000, 0), (4000, 24)], 2000.0)[0] == pytest.approx((4 + 12) * 0.5 * 0.5 * 2)


def test_a_step_is_no_hollow():
    step = BreakLine("step", "step", (Point(1500, -500), Point(1500, 500)))
    assert deepest_hollow(line(0, 0, 12, 12, steps=(step,)), 3000.0) is None
    assert deepest_hollow(line(0, 0, 12, 12), 3000.0).depth_mm > 0


def test_two_stations_say_nothing_of_flatness():
    assert deepest_hollow(line(0, -9), 2000.0) is None
    assert findings(line(0, -9)) == ()


@settings(derandomize=True, deadline=None, max_examples=40)
@given(
    st.lists(st.integers(-15, 15), min_size=3, max_size=8),
    st.lists(st.integers(200, 3000), min_size=8, max_size=8),
    st.sampled_from([1000.0, 2000.0, 3000.0]),
)
def test_the_deepest_hollow_is_that_of_every_position_tried_by_scipys_hull(levels, apart, straightedge_mm):
    """Oracle: scipy ConvexHull over the profile sampled under the straightedge, put down every few millimetres."""
    along = np.concatenate([[0], np.cumsum(apart[: len(levels) - 1])]).astype(float)
    depth_mm = deepest(list(zip(along.tolist(), map(float, levels), strict=True)), straightedge_mm)[0]
    length = min(straightedge_mm, along[-1])
    tried = 0.0
    for start in np.linspace(0, along[-1] - length, 60):
        inside = along[(along > start) & (along < start + length)]
        x = np.concatenate([[start], inside, [start + length]])
        z = np.interp(x, along, levels)
        # Closed from far below, so that the hull's upper side is what the straightedge lies on.
        hull = ConvexHull(np.column_stack([np.append(x, [x[0], x[-1]]), np.append(z, [-1e4, -1e4])]))
        top = sorted({n for n in hull.vertices if n < len(x)}, key=lambda n: x[n])
        tried = max(tried, float((np.interp(x, x[top], z[top]) - z).max()))
    assert tried <= depth_mm + 1e-6
    steepest = float(np.abs(np.diff(levels) / np.diff(along)).max())
    assert depth_mm <= tried + 4 * steepest * (along[-1] - length) / 59 + 1e-6


@settings(derandomize=True, deadline=None, max_examples=40)
@given(st.lists(st.integers(-15, 15), min_size=3, max_size=8), st.integers(-30, 30), st.integers(-9, 9))
def test_neither_a_slope_nor_a_level_nor_the_other_way_round_makes_a_hollow(levels, by, slope):
    profile = [(600.0 * n, float(level)) for n, level in enumerate(levels)]
    depth_mm = deepest(profile, 2000.0)[0]
    tilted = [(x, z + by + slope * x / 1000) for x, z in profile]
    backwards = [(profile[-1][0] - x, z) for x, z in reversed(profile)]
    assert deepest(tilted, 2000.0)[0] == pytest.approx(depth_mm, abs=1e-6)
    assert deepest(backwards, 2000.0)[0] == pytest.approx(depth_mm, abs=1e-6)


def test_a_floor_within_its_class_is_a_note_in_words():
    (said,) = findings(line(0, -6, 0))
    assert (said.rule, said.severity, said.amount.text) == ("floor.flatness", Severity.NOTE, "6")
    assert "flat within 6 mm under a 2 m straightedge, deepest at Station 1" in said.wrong
    assert "six under two metres asks for 6 mm" in said.wrong
    assert "invented for this test" in said.source


def test_a_floor_over_its_class_is_a_warning_by_how_much():
    (said,) = findings(line(0, -8.5, 0))
    assert (said.severity, said.amount.text) == (Severity.WARN, "2.5")
    assert "s1" in said.concerns


def test_nobody_is_warned_of_a_hollow_that_is_shown_as_the_limit():
    assert findings(line(0, -6.2, 0))[0].severity is Severity.NOTE
    assert findings(line(0, -6.25, 0))[0].severity is Severity.WARN


def test_a_class_that_nobody_knows_is_said_with_those_that_are():
    (said,) = findings(line(0, -6, 0), name="as flat as glass")
    assert said.rule == "floor.flatness_class"
    assert SIX.name in said.cure


def test_a_class_without_a_limit_for_this_straightedge_is_said():
    (said,) = findings(line(0, -6, 0), straightedge_mm=10_000.0)
    assert "sets no limit under a 10 m straightedge" in said.wrong
    assert "2 m" in said.cure


@pytest.mark.parametrize("distance_mm", [0.0, -1.0, float("nan"), float("inf")])
def test_a_straightedge_without_length_is_refused(distance_mm):
    with pytest.raises(ValueError, match="straightedge"):
        limit_mm(SIX, distance_mm)
