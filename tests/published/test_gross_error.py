"""A book whose close is out by metres, which its own page distributes, wrongly (askfilo.com).

Start 33.550, pairs of back and fore sight 0.174/2.111, 0.738/3.890, 1.603/1.440, 1.505/2.192, stated close 32.139.
"""

import pytest
from level_book import Book
from sample_survey import finding

from oddleg.plan.finding import Severity

BACK = [0.174, 0.738, 1.603, 1.505]
FORE = [2.111, 3.890, 1.440, 2.192]


def row(point, back="", fore=""):
    return {"point": point, "back": back, "intermediate": "", "fore": fore}


ROWS = [row("start", BACK[0]), *(row(f"c{i}", BACK[i], FORE[i - 1]) for i in (1, 2, 3)), row("close", "", FORE[3])]


def test_a_close_out_by_four_metres_is_refused_and_never_distributed():
    """33.550 + 4.020 - 9.633 = 27.937, against 32.139: out by 4.202 m."""
    assert 33.550 + sum(BACK) - sum(FORE) == pytest.approx(27.937)
    levels = Book(ROWS, 33.550, 32.139).levels()
    stop = finding(levels, "levels.misclosure")
    assert (stop.severity, stop.amount.mm) == (Severity.STOP, pytest.approx(4202.0, abs=1e-6))
    assert "4202" in stop.wrong
    assert (levels.stations, levels.planes) == ((), ())
    assert levels.open_stations == ("c1", "c2", "c3")


def test_with_the_close_that_was_carried_the_same_readings_stand():
    levels = Book(ROWS, 33.550, 27.937).levels()
    assert levels.misclosure.mm == pytest.approx(0.0, abs=1e-6)
    assert [one.station for one in levels.stations] == ["c1", "c2", "c3"]
