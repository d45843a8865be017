"""A stack of parts in a slot as published, worst case and root of the sum of squares.

ficientdesign.com: 2.000 +-0.005, 1.500 +-0.003 and 0.500 +-0.002 in 4.020 +-0.005: gap 0.020, worst +-0.015,
root-sum-square +-0.00794, read. Its figures are taken as metres here: a row in an opening of 4020. The worst case adds up exactly; the root is printed to five places, so it is held to half of the last.
"""

import math

import pytest
from rod_runs import BACK, FLOOR, between_walls, carcass, job, rod_of, room, site_of

from oddleg.job import Tolerances
from oddleg.plan.fits import fits

PARTS = ((2000.0, 5.0), (1500.0, 3.0), (500.0, 2.0))
OPENING = [(FLOOR, BACK, 4020.0)]
LIMITS = {"greatest_joint_mm": 0.0, "tape_mm": 5.0}


def fit_of(parts):
    one = between_walls(*(carcass(f"part-{i}", mm, width_within_mm=within) for i, (mm, within) in enumerate(parts)))
    kept = job(room(one), tolerances=Tolerances(**LIMITS))
    (fit,) = fits(kept, site_of(one, OPENING), rod_of(one, OPENING, **LIMITS))
    return fit


def test_the_gap_is_what_the_slot_is_over_its_parts():
    assert fit_of(PARTS).spare.mm == 20.0


def test_at_worst_all_tolerances_add_up():
    fit = fit_of(PARTS)
    assert fit.worst.mm == 15.0 and fit.sure
    assert fit.words == "What stands goes in for certain: 20 to spare, and at worst it comes out 15 longer."


def test_likely_is_the_root_of_their_squares():
    fit = fit_of(PARTS)
    assert fit.likely.mm / 1000 == pytest.approx(0.00794, abs=0.000005)
    assert fit.likely.mm == pytest.approx(math.sqrt(25 + 9 + 4 + 25))


def test_the_order_of_the_parts_changes_nothing():
    assert fit_of(PARTS[::-1]).worst.mm == 15.0 and fit_of(PARTS[::-1]).likely.mm == pytest.approx(fit_of(PARTS).likely.mm)
