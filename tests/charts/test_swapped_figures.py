"""Figures of a chart that stand in each other's columns."""

import pytest

from oddleg.charts import shipped_rows
from oddleg.charts.chart_rows import row_texts
from oddleg.charts.reader import read_rows
from oddleg.job import HardwareKind

BORES = [
    (HardwareKind.RUNNER, "hole_mm", "hole_depth_mm"),
    (HardwareKind.PLATE, "hole_mm", "hole_depth_mm"),
    (HardwareKind.PIN, "hole_mm", "hole_depth_mm"),
    (HardwareKind.HINGE, "screw_mm", "screw_depth_mm"),
]


@pytest.mark.parametrize(("kind", "bore", "depth"), BORES)
def test_a_bore_that_changed_places_with_its_depth_is_told(kind, bore, depth):
    """Common practice: these screws and pins go in further than they are wide; 12 across and 5 deep is no screw hole."""
    cells = next(row_texts(one) for one in shipped_rows() if type(one).__name__.lower() == kind)
    cells[bore], cells[depth] = cells[depth], cells[bore]
    found = read_rows(kind, [cells])
    assert [(one.line, one.column) for one in found.problems] == [(1, bore)] and "swapped" in found.problems[0].wrong
    assert found.rows == ()


def test_what_ships_has_none_of_that():
    assert all(getattr(one, "hole_mm", 0) <= getattr(one, "hole_depth_mm", 100) for one in shipped_rows())
