"""One table of axes for every kind of panel: what is mirrored follows from it and from nothing else."""

import pytest

from oddleg.plan.fitted_out import Face, PanelKind
from oddleg.plan.panel_axes import AXES, front_edge_on, mirrored_on, on_panel, panel


def a_panel(kind, origin=(0.0, 0.0, 0.0)):
    return panel(kind, kind.value, "b60", kind.value, (560.0, 720.0, 18.0), origin)


def test_every_kind_of_panel_has_its_axes():
    assert set(AXES) == set(PanelKind)


def test_the_left_sides_inside_has_its_front_edge_on_the_left_and_the_right_sides_on_the_right():
    # FP: standing in front, look at the inside of the left side: its near edge is on your left.
    left, right = a_panel(PanelKind.LEFT), a_panel(PanelKind.RIGHT)
    assert (left.mirrored, left.front_edge) == (False, "left")
    assert (right.mirrored, right.front_edge) == (True, "right")
    assert (mirrored_on(left, Face.OTHER), front_edge_on(left, Face.OTHER)) == (True, "right")
    assert (mirrored_on(right, Face.OTHER), front_edge_on(right, Face.OTHER)) == (False, "left")


def test_the_bottom_upside_down_with_its_front_towards_you_is_mirrored():
    bottom = a_panel(PanelKind.BOTTOM)
    assert (bottom.mirrored, bottom.front_edge) == (False, "bottom")
    assert (mirrored_on(bottom, Face.OTHER), front_edge_on(bottom, Face.OTHER)) == (True, "bottom")


@pytest.mark.parametrize("kind", [PanelKind.BACK, PanelKind.FRONT])
def test_back_and_fronts_are_drawn_as_they_are_looked_at_and_have_no_front_edge(kind):
    assert (a_panel(kind).mirrored, a_panel(kind).front_edge) == (False, None)


def test_a_point_of_the_carcass_comes_out_on_each_panel_as_it_is_measured_there():
    # FP: 37 behind the front edge, 100 up, 250 from the left, in a carcass 600 wide on a bottom of 18.
    at = (250.0, 37.0, 100.0)
    assert on_panel(a_panel(PanelKind.LEFT, (18.0, 0.0, 18.0)), *at) == (37, 100 - 18)
    assert on_panel(a_panel(PanelKind.RIGHT, (582.0, 0.0, 18.0)), *at) == (37, 100 - 18)
    assert on_panel(a_panel(PanelKind.BOTTOM, (18.0, 0.0, 18.0)), *at) == (250 - 18, 37)
    assert on_panel(a_panel(PanelKind.BACK, (18.0, 500.0, 18.0)), *at) == (250 - 18, 100 - 18)
    # A front from 1.5 to 598.5, seen from behind: 598.5 - 250 from its left edge.
    assert on_panel(a_panel(PanelKind.FRONT, (598.5, 0.0, 2.0)), *at) == (598.5 - 250, 100 - 2)
