"""What stands out of the wall behind units further than the void: told with and without a batten, at known heights."""

from dataclasses import replace

import pytest
import sample_room as sample
from set_out_rooms import LEVEL, line_of, rod, run, units, wall, with_batten

from oddleg.job import Feature, FeatureKind, Storey
from oddleg.plan.behind_units import stands_out_findings

# 40 out of the wall from the floor to 500, behind the first unit of 600; the void is 30.
PIER = Feature("pier", "pier", FeatureKind.OTHER, 300.0, 400.0, 0.0, 500.0, 40.0)


def told(*items, feature=PIER, datum_mm=875.0, points=LEVEL, batten=False):
    one = run(*items, void_mm=30.0, features=(feature,))
    of_wall = wall(with_batten(one) if batten else one, points)
    line = line_of(of_wall)
    return list(stands_out_findings(sample.job(sample.room(of_wall.run)), of_wall, line, rod(line), datum_mm))


@pytest.mark.parametrize("batten", [True, False])
def test_what_stands_out_more_than_the_void_behind_a_unit_is_told_whether_or_not_there_is_a_batten(batten):
    (found,) = told(batten=batten)
    assert found.rule == "front_line.stands_out" and found.severity.value == "warn"
    assert found.amount.mm == 40 - 30 and "unit-1" in found.wrong and "unit-2" not in found.wrong


def test_the_void_is_the_one_behind_it_and_not_the_runs_least():
    """FP: the wall is hollow by 12 at 600, so the line touches it at both ends with 30 and leaves 30 + 6 half way to the
    hollow, at 300, the least behind the pier."""
    (found,) = told(points=((0.0, 0.0), (600.0, -12.0), (1200.0, 0.0)))
    assert found.amount.mm == pytest.approx(40 - (30 + 12 * 300 / 600))


@pytest.mark.parametrize(
    "feature", [replace(PIER, stands_out_mm=30.0), replace(PIER, kind=FeatureKind.WINDOW), replace(PIER, left_mm=1300.0, right_mm=1400.0)]
)
def test_what_the_void_takes_a_hole_and_what_lies_beside_the_units_is_not_told(feature):
    assert told(feature=feature) == []


def test_a_socket_over_the_datum_stands_behind_tall_units_only():
    """FP: bottom at 1100, the datum at 875; a tall unit of 2070 on an underside at 875 - 720 = 155 reaches 2225."""
    socket = replace(PIER, bottom_mm=1100.0, top_mm=1180.0)
    assert told(feature=socket) == []
    tall = units(1, prefix="tall", storey=Storey.TALL, height_mm=2070.0)
    assert [one.amount.mm for one in told(*tall, feature=socket)] == [10]
    over = replace(socket, bottom_mm=875.0 - 720.0 + 2070.0, top_mm=2400.0)
    assert told(*tall, feature=over) == [], "what begins at its top is not behind it"


@pytest.mark.parametrize(("feature", "datum_mm"), [(PIER, None), (replace(PIER, bottom_mm=None), 875.0)])
def test_where_heights_are_not_known_it_is_a_note(feature, datum_mm):
    (found,) = told(feature=feature, datum_mm=datum_mm)
    assert found.severity.value == "note" and "not known yet" in found.wrong
