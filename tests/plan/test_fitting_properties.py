"""What holds for whatever a joiner fits a carcass out with, from the job to the drawing. FP: first principles.

Rows are those that ship with the program; sizes and fronts are drawn so that some go together and some do not.
"""

import xml.etree.ElementTree as ET
from dataclasses import replace
from itertools import combinations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sample_room import carcass, job, room, run

from oddleg.charts import charts, pinned, shipped_rows
from oddleg.drawings import svg
from oddleg.drawings.panel import panel_drawing
from oddleg.job import (
    BottomFit,
    Box,
    Compartment,
    Filler,
    FittingOut,
    Front,
    FrontFit,
    FrontIs,
    HungOn,
    InnerDrawer,
    Shelf,
    Stack,
    StackMember,
)
from oddleg.plan import plan
from oddleg.plan.fitted_out import Face, HoleFor
from oddleg.plan.panel_views import views

# What lies on both sides alike; hinges' plates lie where the door hangs.
ON_BOTH = (HoleFor.RUNNER, HoleFor.PIN, HoleFor.PULL_OUT, HoleFor.BRACKET)
RUNNERS = ("runner-270", "runner-400", "runner-500", "runner-500-high")
ROWS = {
    FrontIs.DOOR: {"hinge": "hinge-110", "plate": "plate-2"},
    FrontIs.DRAWER: {"runner": "runner-500"},
    FrontIs.PULL_OUT: {"pull_out": "bin-600"},
    FrontIs.FIXED: {},
}
EXACT_MM = 1e-6


def sizes(least_mm, greatest_mm):
    return st.integers(least_mm * 4, greatest_mm * 4).map(lambda quarters: quarters / 4)


@st.composite
def members(draw, id):
    front = draw(st.sampled_from((FrontIs.DRAWER, FrontIs.DRAWER, FrontIs.DOOR, FrontIs.PULL_OUT, FrontIs.FIXED)))
    rows = ROWS[front] | ({"runner": draw(st.sampled_from(RUNNERS))} if front is FrontIs.DRAWER else {})
    high = draw(st.sampled_from((None, None, "height_mm", "share")))
    size = {} if high is None else {high: draw(sizes(100, 400) if high == "height_mm" else st.sampled_from((1.0, 2.0)))}
    hung = draw(st.sampled_from(HungOn)) if front is FrontIs.DOOR else None
    return StackMember(id, id, front, hung=hung, **rows, **size)


@st.composite
def fitted(draw):
    """A carcass fitted out: one compartment, since then both its sides look into the same one."""
    stack = Stack(
        tuple(draw(members(f"front-{k}")) for k in range(draw(st.integers(1, 5)))),
        gap_mm=draw(st.sampled_from((2.0, 3.0, 4.0))), top_mm=draw(st.sampled_from((0.0, 3.0))), snap=draw(st.booleans()),
    )  # fmt: skip
    drawers = [
        InnerDrawer(f"inner-{k}", f"inner {k}", draw(sizes(0, 500)), 160.0, "runner-400", draw(st.sampled_from((0.0, 25.0))))
        for k in range(draw(st.integers(0, 2)))
    ]
    shelves = [Shelf(f"shelf-{k}", f"shelf {k}", draw(sizes(40, 600)), pins="pin-5") for k in range(draw(st.integers(0, 2)))]
    inside = Compartment("inside", "inside", None, stack, tuple(drawers), (), tuple(shelves))
    front = Front(fit=draw(st.sampled_from((FrontFit.OVERLAY, FrontFit.OVERLAY, FrontFit.INSET))))
    board_mm = draw(st.sampled_from((16.0, 18.0, 19.0, 25.0)))
    box = Box(board_mm=board_mm, back_recess_mm=draw(st.sampled_from((0.0, 50.0))), bottom=draw(st.sampled_from(BottomFit)))
    return carcass(
        "unit", draw(sizes(350, 1100)), height_mm=draw(sizes(500, 2100)), depth_mm=draw(sizes(300, 650)), box=box, front=front,
        fitting_out=FittingOut((inside,), leg="leg-150", grid_first_mm=draw(st.sampled_from((None, 64.0)))),
    )  # fmt: skip


def planned(*items):
    """The plan of a room with these items in a run, pinned to the rows that ship."""
    made = pinned(job(room(run(*items))), shipped_rows())
    return plan(made, (), charts()).rooms[0].fitting


def only(fitting):
    return next(one for one in fitting.units if one.item == "unit")


def rules(unit):
    return {finding.rule for finding in unit.findings}


def table(panel, *what):
    return sorted(
        (one.u_mm, one.v_mm, one.diameter_mm, one.depth_mm or 0.0) for one in panel.holes if one.hole_for in what
    )


def side(unit, id):
    return next(one for one in unit.panels if one.id == id)


few = settings(derandomize=True, deadline=None, max_examples=25, suppress_health_check=list(HealthCheck))


@few
@given(fitted())
def test_left_and_right_tables_are_equal_and_every_hole_lies_in_its_panel_or_is_told(item):
    """FP: both are counted from the front edge and from the lower edge; a hole's middle lies on its board."""
    unit = only(planned(item))
    left, right = side(unit, "left_side"), side(unit, "right_side")
    assert (left.width_mm, left.height_mm) == (right.width_mm, right.height_mm)
    assert table(left, *ON_BOTH) == table(right, *ON_BOTH)
    outside = [
        hole.id
        for panel in unit.panels
        for hole in panel.holes
        if not (0 <= hole.u_mm <= panel.width_mm and 0 <= hole.v_mm <= panel.height_mm)
    ]
    assert not outside or "hole.outside" in rules(unit), outside


@few
@given(fitted())
def test_a_stack_fills_its_opening_to_a_tenth_or_says_by_how_much_not(item):
    """FP: fronts and the gaps between them, the ends' reveals taken off, come to the outside height of an overlay stack,
    to the inside height of an inset one."""
    unit = only(planned(item))
    stack = item.fitting_out.compartments[0].stack
    (found,) = unit.stacks
    inside_mm = item.height_mm - 2 * item.box.board_mm
    overlay = item.front.fit is FrontFit.OVERLAY
    assert found.opening_mm == pytest.approx((item.height_mm if overlay else inside_mm) - stack.top_mm - stack.bottom_mm)
    if abs(found.sum_mm - found.opening_mm) > 0.1:
        assert rules(unit) & {"stack.does_not_fill", "stack.nothing_left", "stack.no_height"}
        return
    leaves = {one.member: one.height_mm for one in unit.fronts}
    if len(leaves) == len(stack.members):
        gaps = len(leaves) - 1 if overlay else len(leaves) + 1
        assert sum(leaves.values()) + gaps * stack.gap_mm == pytest.approx(found.opening_mm, abs=0.1)


@few
@given(fitted())
def test_two_drawers_never_share_a_hole_unless_it_is_told(item):
    unit = only(planned(item))
    for id in ("left_side", "right_side"):
        holes = [one for one in side(unit, id).holes if one.hole_for is HoleFor.RUNNER]
        shared = [
            (one.id, other.id)
            for one, other in combinations(holes, 2)
            if one.of != other.of and abs(one.u_mm - other.u_mm) < one.diameter_mm and abs(one.v_mm - other.v_mm) < one.diameter_mm
        ]
        assert not shared or rules(unit) & {"hole.overlap", "hole.web", "drawer.meets_drawer"}, shared


@few
@given(fitted(), st.sampled_from((20.0, 137.5, 480.0)))
def test_shifting_the_carcass_in_its_run_shifts_nothing_in_panel_axes(item, by_mm):
    beside = Filler("filler", "filler", by_mm, 0.0, 600.0)
    before, after = only(planned(item)), only(planned(beside, item))
    assert after.panels == before.panels
    assert after.drawers == before.drawers and after.fronts == before.fronts
    assert after.drawer_parts == before.drawer_parts and after.sticks == before.sticks


def drawn(view):
    """Hole by id: the middle of its circle on the drawing, mm; and how wide the drawing is."""
    drawing = panel_drawing(view, 0.1)
    found = {}
    for group in ET.fromstring(svg(drawing, "d")).iter():
        if group.get("data-hole"):
            circle = next(one for one in group if one.tag.endswith("circle"))
            found[group.get("data-hole")] = (float(circle.get("cx")), float(circle.get("cy")))
    return found, drawing.width_mm


@settings(few, max_examples=12)
@given(fitted())
def test_the_drawings_of_left_and_right_mirror(item):
    """FP: a hole u behind the front edge lies u to the right of the left edge on the left side's drawing and u to the left
    of the right edge on the right side's."""
    unit = only(planned(item))
    sides = []
    for id in ("left_side", "right_side"):
        board = side(unit, id)
        alike = tuple(one for one in board.holes if one.hole_for in ON_BOTH)
        shown = [one for one in views(replace(board, holes=alike, cut_outs=())) if one.face is Face.SHOWN]
        sides.append(drawn(shown[0]) if shown else ({}, 0.0))
    (left, wide_mm), (right, also_mm) = sides
    assert set(left) == set(right) and wide_mm == also_mm
    for id, (x_mm, y_mm) in left.items():
        assert right[id] == (pytest.approx(wide_mm - x_mm, abs=0.02), pytest.approx(y_mm, abs=0.02))
