"""Height-of-plane book with distribution, Universiti Sains Malaysia, course page on levelling
(civil.eng.usm.my, lecture1/FYPGeomatik/JS/Ukur Aras/JSSUAE1.htm).

Start 29.230, known close 29.660, carried close 29.670: out by 10 mm over 5 set-ups, -2 mm each, cumulative.
"""

import math

import pytest
from level_book import book, levels_m
from sample_survey import finding, rules

BOOK = book("levels_book_a.csv", 29.230, 29.660)
# The book shares 10 mm out where our joiner's limit of 1 mm x root 5 would stop: it is held to 5 mm x root 5.
LIMIT_MM = 5.0
HALF_SHARE_M = 0.001  # half of 2 mm


def test_the_sums_are_those_of_the_book():
    assert (BOOK.total_m("back"), BOOK.total_m("fore")) == (pytest.approx(8.133), pytest.approx(7.693))
    assert BOOK.set_ups == 5


def test_the_misclosure_is_10_mm_over_5_set_ups():
    closed = BOOK.levels(misclosure_mm=LIMIT_MM).misclosure
    assert closed.mm == pytest.approx(10.0, abs=1e-6)
    assert closed.limit_mm == pytest.approx(LIMIT_MM * math.sqrt(5))
    assert len(closed.set_ups) == 5


def test_turning_points_are_as_corrected_in_the_book():
    """To 0.1 mm of initial level + correction: equal shares a set-up are the least-squares answer there."""
    found = levels_m(BOOK.levels(misclosure_mm=LIMIT_MM))
    for row in filter(BOOK.is_change_point, BOOK.rows):
        expected = float(row["level_initial"]) + float(row["correction_mm"]) / 1000
        assert found[row["point"]] == pytest.approx(expected, abs=0.0001)


def test_intermediate_points_get_half_a_set_ups_share_less_than_in_the_book():
    """The book corrects them like the fore sight of their set-up; least squares shares a set-up's 2 mm between its back
    and its fore sight, so that a point read in between has half of it."""
    found = levels_m(BOOK.levels(misclosure_mm=LIMIT_MM))
    for row in BOOK.rows:
        if row["intermediate"]:
            corrected = float(row["level_initial"]) + float(row["correction_mm"]) / 1000
            assert found[row["point"]] - corrected == pytest.approx(HALF_SHARE_M, abs=0.0001)


def test_printed_levels_are_met_to_their_print():
    """6.5 mm: the book prints to 10 mm, so 5 mm of rounding, and up to 1.5 mm of half share; 28.935 is printed 28.93."""
    found = levels_m(BOOK.levels(misclosure_mm=LIMIT_MM))
    for row in BOOK.rows[1:-1]:
        assert found[row["point"]] == pytest.approx(float(row["level_adjusted_printed"]), abs=0.0065)


def test_the_joiners_own_limit_refuses_this_book():
    levels = BOOK.levels()
    assert finding(levels, "levels.misclosure").amount.mm == pytest.approx(10.0, abs=1e-6)
    assert levels.stations == ()


def test_nothing_but_the_limit_speaks_against_the_book():
    assert rules(BOOK.levels(misclosure_mm=LIMIT_MM)) == []
