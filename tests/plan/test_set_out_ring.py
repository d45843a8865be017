"""Four runs round a room: every corner measured, so the four angles must make one turn."""

import math
from dataclasses import replace

import pytest
import sample_room as sample

from oddleg.charts import charts
from oddleg.job import CornerTriangle, EndsAt, Entry, RunEnd
from oddleg.plan import plan
from oddleg.plan.finding import Severity

NAMES = ("north", "east", "south", "west")
CORNERS = ((0.0, 0.0), (4000.0, 0.0), (4000.0, 4000.0), (0.0, 4000.0))
RIGHT = (3000.0, 4000.0, 5000.0)


def ring_told(*across_mm):
    """`across_mm`: of the triangle 3000, 4000 in each corner, the one at the right end of north first."""
    runs = []
    for n, name in enumerate(NAMES):
        before, after = NAMES[n - 1], NAMES[(n + 1) % 4]
        one = sample.run(sample.carcass(f"{name}-unit", 600.0), id=name, x_mm=CORNERS[n][0], y_mm=CORNERS[n][1], void_mm=12.0)
        runs.append(replace(one, bearing_deg=90.0 * n, opening_mm=4000.0, left_end=RunEnd(EndsAt.OTHER_FRONTS, before), right_end=RunEnd(EndsAt.OTHER_BACKS, after)))
    bodies = [CornerTriangle(NAMES[n], NAMES[(n + 1) % 4], 3000.0, 4000.0, mm) for n, mm in enumerate(across_mm)]
    made = plan(sample.job(sample.room(*runs)), [Entry(f"e{n}", n, "Ned", "", one) for n, one in enumerate(bodies, 1)], charts())
    lines = [run.line for run in made.rooms[0].setting_out.runs]
    return [one for line in lines for one in line.findings if one.rule == "front_line.corners_do_not_close"], lines


def test_four_right_angles_close():
    told, lines = ring_told(5000.0, 5000.0, 5000.0, 5000.0)
    assert told == [] and [line.slope for line in lines] == pytest.approx([0.0] * 4, abs=1e-9)


def test_angles_that_make_up_for_each_other_close():
    """FP: one corner opened by as much as the next is closed: 3000² + 4000² ± 24000 across, squared."""
    wide, narrow = math.sqrt(25e6 + 24000.0), math.sqrt(25e6 - 24000.0)
    assert ring_told(wide, narrow, 5000.0, 5000.0)[0] == []


@pytest.mark.parametrize("corner", range(4))
def test_angles_that_do_not_make_one_turn_are_a_warning_that_says_by_how_much(corner):
    """FP, law of cosines: 5008 across opens a corner by asin((5008² - 25e6) / 24e6), 3.34 per metre; nothing takes it back."""
    across = [5000.0] * 4
    across[corner] = 5008.0
    (one,), _ = ring_told(*across)
    assert one.severity is Severity.WARN
    assert one.amount.mm == pytest.approx(1000 * math.tan(math.asin((5008.0**2 - 25e6) / 24e6)), abs=1e-6)
    assert "3.3 per metre out" in one.wrong and all(name in one.place for name in NAMES)
