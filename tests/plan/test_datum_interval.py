"""The interval of the datum held against a general linear programme, and what must hold in every room."""

from dataclasses import dataclass, replace

import numpy as np
import pytest
from datum_rooms import all_placed, bay, datum_of, floor_of, job_of, machine, room_of, run_of, surface, unit
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from oddleg.job import ApplianceSeat, Bound, HeightLimit, HeightOf, Legs, Storey, Tolerances, Worktop
from oddleg.plan.bay_floor import bay_floor
from oddleg.plan.demands import interval
from oddleg.plan.legs import standing_legs
from oddleg.plan.rod import placed_items
from oddleg.plan.surfaces import Spot, Surface

SEATS = (ApplianceSeat.UNDER_TOP, ApplianceSeat.BESIDE_TOP, ApplianceSeat.IN_CARCASS)


@dataclass(frozen=True)
class Case:
    """A room on a plane floor z = a + b x + c y with a layer of constant thickness in front, all in plain numbers."""

    items: tuple
    offset_mm: float
    plane: tuple[float, float, float]
    layer_mm: float
    worktop: Worktop
    sill_mm: float | None

    @property
    def width_mm(self):
        return sum(item.width_mm for item in self.items)

    def under(self, x, y):
        a, b, c = self.plane
        return a + b * x + c * y

    def room(self):
        limits = ()
        if self.sill_mm is not None:
            limits = (HeightLimit("sill", "sill", HeightOf.WORKTOP_TOP, Bound.AT_MOST, 10.0, self.sill_mm),)
        run = run_of(*self.items, datum_offset_mm=self.offset_mm)
        return room_of(run, worktop=self.worktop, height_limits=limits)

    def floor(self):
        return floor_of(surface(self.under), surface(lambda x, y: self.under(x, y) + self.layer_mm))

    def datum(self):
        return datum_of(self.room(), self.floor())

    def mirrored(self):
        a, b, c = self.plane
        return replace(self, items=self.items[::-1], plane=(a + b * self.width_mm, -b, c))

    def raised(self, by_mm):
        a, b, c = self.plane
        sill_mm = None if self.sill_mm is None else self.sill_mm + by_mm
        return replace(self, plane=(a + by_mm, b, c), sill_mm=sill_mm)


def random_case(random):
    items = []
    for i in range(random.integers(1, 6)):
        width_mm = float(random.choice([300, 450, 600, 1000]))
        if random.random() < 0.3:
            least_mm = float(random.uniform(780, 900))
            seat = SEATS[random.integers(3)]
            appliance = machine(
                least_mm,
                seat,
                greatest_height_mm=least_mm + float(random.uniform(5, 90)),
                built_in=bool(random.random() < 0.5),
                bracket_reach_mm=float(random.uniform(0, 15)),
            )
            items.append(bay(appliance, f"i{i}", width_mm, way_out_mm=float(random.uniform(0, 700))))
        else:
            least_mm = float(random.uniform(80, 150))
            legs = Legs(least_mm, least_mm + float(random.uniform(20, 90)), reserve_mm=float(random.uniform(0, 8)))
            tall = random.random() < 0.2
            items.append(
                unit(
                    f"i{i}",
                    width_mm,
                    legs,
                    height_mm=1970.0 if tall else float(random.choice([720, 780])),
                    storey=Storey.TALL if tall else Storey.BASE,
                )
            )
    return Case(
        tuple(items),
        float(random.choice([0, 0, 100])),
        (float(random.uniform(-20, 20)), float(random.uniform(-0.008, 0.008)), float(random.uniform(-0.008, 0.008))),
        float(random.uniform(0, 25)),
        Worktop(float(random.uniform(20, 40)), float(random.choice([0, 18]))),
        float(random.uniform(880, 1050)) if random.random() < 0.4 else None,
    )


def constraints(case):
    """(at least, at most) by hand: on a plane, a rectangle is highest and lowest at its corners."""
    low, high = [], []
    left_mm = 0.0
    top_mm = case.offset_mm + case.worktop.build_up_mm + case.worktop.thickness_mm
    base = False
    for item in case.items:
        right_mm = left_mm + item.width_mm
        base = base or item.storey is Storey.BASE
        if hasattr(item, "legs"):
            hangs_mm = (720 if item.storey is Storey.TALL else item.height_mm) - case.offset_mm
            middles = [(left_mm + right_mm) / 2] if item.width_mm >= 900 else []
            for x in [left_mm + 40, right_mm - 40, *middles]:
                for y in (40, 560 - 60):
                    z = case.under(x, y)
                    low.append(z + item.legs.least_mm + item.legs.reserve_mm + hangs_mm)
                    high.append(z + item.legs.greatest_mm - item.legs.reserve_mm + hangs_mm)
        else:
            fits = item.appliance
            inside = [case.under(x, y) + case.layer_mm for x in (left_mm, right_mm) for y in (0, 560)]
            before = [case.under(x, 560 + item.way_out_mm) + case.layer_mm for x in (left_mm, right_mm)]
            if fits.seat is ApplianceSeat.UNDER_TOP:
                low.append(max(inside + before) + fits.least_height_mm - case.offset_mm)
                if fits.built_in:
                    high.append(min(inside) + fits.greatest_height_mm + fits.bracket_reach_mm - case.offset_mm)
            if fits.seat is ApplianceSeat.BESIDE_TOP:
                high.append(min(inside) + fits.greatest_height_mm - top_mm)
        left_mm = right_mm
    if case.sill_mm is not None and base:
        high.append(case.sill_mm - 10.0 - top_mm)
    return low, high


FAR_MM = 1e6
"""Further than any demand: where the programme ends there, nothing binds."""


def test_the_interval_is_that_of_a_linear_programme_in_a_thousand_rooms():
    """scipy's linprog as oracle: least and greatest D under the constraints written out by hand from raw numbers.

    Both at once, as two unknowns that do not meet: least D less greatest D is made least.
    """
    random = np.random.default_rng(20260302)
    clashed = 0
    for number in range(1000):
        case = random_case(random)
        low, high = constraints(case)
        of = case.datum()
        if not low + high:
            assert of.demands == (), number
            continue
        rows = [[-1.0, 0.0], [0.0, -1.0]] * len(low) + [[1.0, 0.0], [0.0, 1.0]] * len(high)
        limits = np.repeat([-mm for mm in low] + high, 2)
        solved = linprog([1.0, -1.0], A_ub=rows, b_ub=limits, bounds=[(-FAR_MM, FAR_MM)] * 2, method="highs")
        if solved.status == 2:
            clashed += 1
            assert of.clash_mm == pytest.approx(max(low) - min(high), abs=1e-6), number
            assert "datum.clash" in [finding.rule for finding in of.findings], number
            continue
        assert of.feasible, number
        for end_mm, demand in zip(solved.x, (of.least, of.greatest), strict=True):
            if abs(end_mm) == FAR_MM:
                assert demand is None, number
            else:
                assert demand.datum_mm == pytest.approx(end_mm, abs=1e-6), number
    assert 100 < clashed < 900


cases = st.integers(0, 10**6).map(lambda seed: random_case(np.random.default_rng(seed)))
hold = settings(derandomize=True, deadline=None, max_examples=60)


def ends(of):
    return [None if one is None else one.datum_mm for one in (of.least, of.greatest)]


@hold
@given(cases)
def test_mirroring_a_room_changes_no_interval(case):
    for here, there in zip(ends(case.datum()), ends(case.mirrored().datum()), strict=True):
        assert there == (None if here is None else pytest.approx(here, abs=1e-9))


@hold
@given(cases, st.floats(-200, 200))
def test_raising_every_level_raises_the_interval_by_as_much(case, by_mm):
    for here, there in zip(ends(case.datum()), ends(case.raised(by_mm).datum()), strict=True):
        assert there == (None if here is None else pytest.approx(here + by_mm, abs=1e-9))


@hold
@given(cases, cases)
def test_the_interval_only_shrinks_when_a_demand_is_added(case, other):
    demands = case.datum().demands
    for more in other.datum().demands:
        before, after = interval(demands), interval((*demands, more))
        for was, now in ((before.least, after.least), (before.greatest, after.greatest)):
            assert was is None or (now is not None and now.slack_mm(was.datum_mm) <= 0)


@hold
@given(cases, st.floats(0, 1))
def test_inside_every_leg_is_within_its_range_and_just_outside_some_demand_is_broken(case, share):
    of = case.datum()
    if not of.feasible or of.least is None or of.greatest is None:
        return
    inside_mm = of.least.datum_mm + share * (of.greatest.datum_mm - of.least.datum_mm)
    legs = standing_legs(job_of(case.room()), all_placed(case.room()), case.floor())
    for leg in legs:
        assert leg.least_mm - 1e-9 <= leg.height_mm(inside_mm) <= leg.greatest_mm + 1e-9
    assert all(one.slack_mm(inside_mm) >= -1e-9 for one in of.demands)
    for outside_mm in (of.least.datum_mm - 0.01, of.greatest.datum_mm + 0.01):
        assert any(one.slack_mm(outside_mm) < 0 for one in of.demands)


@hold
@given(cases)
def test_no_choice_is_called_feasible_that_breaks_a_demand_and_every_nearest_can_be_had(case):
    of = case.datum()
    for one in of.choices:
        used = one.asked if one.feasible else one.nearest
        if used is not None:
            assert all(demand.slack_mm(used.mm) >= -1e-6 for demand in of.demands)
        if one.asked is not None and not one.feasible:
            assert one.binds is not None and one.why_not


def test_the_highest_floor_in_a_bay_is_found_on_the_real_surface():
    """Against a grid of 20 mm over bay and way out: never lower than the grid by more than 25 mm of the steepest slope."""
    random = np.random.default_rng(7)
    places = [(float(x), float(y)) for x in range(-200, 1400, 400) for y in range(-100, 1600, 350)]
    for _ in range(5):
        spots = [
            Spot(f"s{i}", f"spot {i}", x + random.uniform(-60, 60), y + random.uniform(-60, 60), random.uniform(-8, 8))
            for i, (x, y) in enumerate(places)
        ]
        real = Surface(spots, np.eye(len(spots)), (), (), Tolerances())
        item = bay(machine(865, greatest_depth_mm=600.0))
        found = bay_floor(placed_items(run_of(item))[0], item, floor_of(real))
        grid = [(x, y, real.at(x, y).level_mm) for x in np.arange(0, 601, 20.0) for y in np.arange(0, 1161, 20.0)]
        steepest = 16 / 200
        assert found.highest.level_mm >= max(z for _, _, z in grid) - 25 * steepest
        assert found.lowest.level_mm <= min(z for _, y, z in grid if y <= 560) + 25 * steepest
        assert found.whole
