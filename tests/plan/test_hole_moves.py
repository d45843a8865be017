"""What a newer row of a chart would move in a job, told hole by hole and board by board before it is taken."""

import dataclasses
from types import SimpleNamespace

import pytest
import sample_room

from oddleg.job import HoleLimits, RebateFace
from oddleg.plan.finding import Finding, Severity
from oddleg.plan.fitted_out import DrawerBox, DrawerPart, Face, Hole, HoleFor, Panel, PanelKind, PartIs, Rebate
from oddleg.plan.hole_moves import changes


def hole(id="runner-a-1", u_mm=37.0, v_mm=64.0, depth_mm=12.0, **more):
    return Hole(id, u_mm, v_mm, 5.0, depth_mm, HoleFor.RUNNER, "a", "runner of drawer a", **more)


def panel(id, *holes, kind=PanelKind.LEFT):
    return Panel(
        id, "base", kind, f"{id} side", 560.0, 720.0, 18.0, 0.0, 0.0, 0.0, False, "left", "inside up", "outside up",
        "front bottom corner", holes,
    )  # fmt: skip


def board(width_mm=490.0, rebate=None):
    return DrawerPart("a", PartIs.BASE, 540.0, width_mm, 18.0, 1, rebate, "inside less what the chart takes")


def made(*panels, boards=(), findings=(), of_services=()):
    drawer = DrawerBox("a", "top drawer", "only", "r", "f", 18.0, 582.0, 64.0, 37.0, 2.0, 502.0, 40.0, 200.0)
    unit = SimpleNamespace(
        item="base", name="four drawers", panels=panels, drawer_parts=boards, drawers=(drawer,), findings=findings
    )
    room = SimpleNamespace(fitting=SimpleNamespace(units=(unit,), services=SimpleNamespace(findings=of_services)))
    return SimpleNamespace(job=sample_room.job(), rooms=(room,), hardware_findings=())


def test_the_same_plan_moves_nothing():
    one = made(panel("left", hole()), boards=(board(),))
    found = changes(one, one)
    assert (found.holes, found.boards, found.findings) == ((), (), ())


def test_a_hole_that_moves_is_told_with_where_it_was_and_where_it_goes():
    found = changes(
        made(panel("left", hole(), hole("pin-1", 101.0))), made(panel("left", hole(u_mm=38.0), hole("pin-1", 101.0)))
    )
    (move,) = found.holes
    assert (move.item_name, move.panel_name, move.hole) == ("four drawers", "left side", "runner-a-1")
    assert (move.before.u.text, move.after.u.text, move.after.v.text) == ("37", "38", "64")


@pytest.mark.parametrize(
    "change", [{"u_mm": 37.5}, {"v_mm": 64.1}, {"diameter_mm": 4.0}, {"depth_mm": None}, {"face": Face.OTHER}]
)
def test_each_of_place_bit_depth_and_face_counts(change):
    later = dataclasses.replace(hole(), **change)
    assert len(changes(made(panel("left", hole())), made(panel("left", later))).holes) == 1


def test_a_hole_through_the_board_has_no_depth():
    found = changes(made(panel("left", hole())), made(panel("left", hole(depth_mm=None))))
    assert found.holes[0].before.depth.text == "12"
    assert found.holes[0].after.depth is None


def test_a_hole_that_comes_and_one_that_goes_are_told():
    found = changes(made(panel("left", hole("old"))), made(panel("left", hole("new"))))
    assert [(one.hole, one.before is None, one.after is None) for one in found.holes] == [
        ("old", False, True),
        ("new", True, False),
    ]


def test_figures_are_shown_as_the_workshop_holds_them():
    """Shop work holds 0.1 (common practice): 37.04 shows as 37.0, though it is another place than 37."""
    found = changes(made(panel("left", hole())), made(panel("left", hole(u_mm=37.04))))
    assert sample_room.job().holes == HoleLimits()
    assert (found.holes[0].after.u.mm, found.holes[0].after.u.text) == (37.04, "37")


def test_a_board_cut_differently_is_told_with_its_drawer():
    rebate = Rebate(2.0, 12.0, ("left", "right"), RebateFace.BELOW, "rebate 2 deep, 12 wide")
    found = changes(made(boards=(board(),)), made(boards=(board(488.0, rebate),)))
    (change,) = found.boards
    assert change.board == "top drawer, base"
    assert (change.before.width.text, change.after.width.text) == ("490", "488")
    assert (change.before.rebate, change.after.rebate) == ("", "rebate 2 deep, 12 wide")


def test_only_findings_that_come_are_told():
    clash = Finding("hole.near", Severity.WARN, "four drawers, left side", "two holes meet", "move one")
    stays = dataclasses.replace(clash, wrong="too near the edge")
    found = changes(made(findings=(stays,)), made(findings=(stays, clash)))
    assert found.findings == (clash,)


def test_a_drawer_that_reaches_a_service_with_the_new_row_is_told_too():
    clash = Finding("service.in_drawer", Severity.STOP, "four drawers", "the waste is in its way", "a shorter runner")
    assert changes(made(), made(of_services=(clash,))).findings == (clash,)
    assert changes(made(of_services=(clash,)), made(of_services=(clash,))).findings == ()
