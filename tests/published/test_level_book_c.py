"""Four set-ups with intermediate sights, NPTEL course on surveying (archive.nptel.ac.in, 105107122, module 4, 58-1).

And the full check of a height-of-plane book (powershow.com, 22a423), with the reason why the plain check is not enough
(civinnovate.com): back less fore sights never touches an intermediate sight.
"""

import copy

import pytest
from level_book import Book, book, levels_m
from sample_survey import rules

BOOK = book("levels_book_c.csv", 100.000)


def test_sums_are_those_of_the_book_and_their_difference_is_last_less_first():
    assert (BOOK.total_m("back"), BOOK.total_m("fore")) == (pytest.approx(9.620), pytest.approx(9.985))
    assert levels_m(BOOK.levels())["9"] - 100.000 == pytest.approx(-0.365)


def test_every_level_is_the_printed_one():
    """To 0.01 mm: nothing closes, so nothing is shared out, and the book prints every mm that it has."""
    found = levels_m(BOOK.levels())
    for row in BOOK.rows[1:]:
        assert found[row["point"]] == pytest.approx(float(row["level"]), abs=1e-5)


def test_every_plane_is_the_printed_one():
    printed = [float(row["plane"]) * 1000 for row in BOOK.rows if row["back"]]
    assert [one.level_mm for one in BOOK.levels().planes] == pytest.approx(printed, abs=0.01)


def test_a_book_that_does_not_close_is_unchecked_and_has_no_misclosure():
    levels = BOOK.levels()
    assert levels.misclosure is None
    assert rules(levels) == ["levels.bench_mark_once"] + ["levels.unchecked"] * 3


def full_check_m(rows, found, planes):
    """Sum of intermediate and fore sights and of levels but the first, less the sum of plane x readings off it: nought."""
    off, left = 0, 0.0
    number = -1
    for row in rows:
        if number >= 0:
            sight = float(row["intermediate"] or row["fore"])
            left += sight + found[row["point"]] - planes[number]
            off += 1
        number += bool(row["back"])
    assert off == len(rows) - 1
    return left


def test_the_full_check_holds():
    levels = BOOK.levels()
    planes = [one.level_mm / 1000 for one in levels.planes]
    assert full_check_m(BOOK.rows, levels_m(levels), planes) == pytest.approx(0.0, abs=1e-9)


def test_the_full_check_sees_a_wrong_intermediate_sight_where_the_plain_one_does_not():
    levels = BOOK.levels()
    planes = [one.level_mm / 1000 for one in levels.planes]
    rows = copy.deepcopy(BOOK.rows)
    rows[1]["intermediate"] = "3.754"
    wrong = Book(rows, 100.000)
    assert wrong.total_m("back") - wrong.total_m("fore") == pytest.approx(-0.365)
    assert full_check_m(rows, levels_m(levels), planes) == pytest.approx(3.754 - 3.745)


def test_the_published_full_check_adds_up():
    """powershow.com, 22a423: 0.251 + 4.892 + 63.103 = 68.246."""
    assert abs(0.251 + 4.892 + 63.103 - 68.246) < 1e-9
