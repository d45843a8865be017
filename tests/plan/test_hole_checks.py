"""Checks over all holes of a panel. FP: first principles."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from panel_boxes import (
    BACK,
    BINS,
    HINGE,
    LEFT,
    PLATE,
    RIGHT,
    RUNNER,
    box,
    door,
    drawer,
    drilled,
    findings,
    part,
)

from oddleg.job import BottomFit, Box, FittingOut, FrontIs, HoleLimits, HungOn, Legs, Passage, ServiceKind
from oddleg.plan import hole_checks
from oddleg.plan.finding import Severity
from oddleg.plan.fitted_out import CutOut, Hole, HoleFor, PanelKind
from oddleg.plan.hole_checks import _cut_outs, _webs
from oddleg.plan.hole_distances import from_cut_out_mm, web_mm
from oddleg.plan.panel_axes import panel
from oddleg.plan.room_services import PassageHole


def rules(found):
    return [one.rule for one in found]


def passage(*panels, **more):
    values = {"diameter_mm": 50.0, "from_back_mm": 60.0, "below_top_mm": 250.0, **more}
    what = Passage("waste", "waste", ServiceKind.WASTE, "b60", "other", **values)
    return PassageHole("run-a", what, tuple(("b60", id) for id in panels))


def test_a_carcass_as_it_should_be_has_nothing_to_say():
    drawers = [drawer(f"d{i}", 54.0 + 180 * i) for i in range(4)]
    assert findings(box(), drawers=drawers) == ()
    assert findings(box(), [door(foot_mm=2.0)]) == ()


def test_a_hole_beside_its_panel_is_a_stop():
    """FP: last screw at 37 + 600 in a side of 560."""
    found = findings(box(), drawers=[drawer()], rows=[replace(RUNNER, screws_mm=(0.0, 600.0))])
    assert rules(found) == ["hole.outside"]
    assert found[0].severity is Severity.STOP
    assert found[0].amount.mm == pytest.approx(637 + 2.5 - 560)


def test_a_chart_in_inches_puts_holes_at_the_edge_and_is_one_finding():
    """FP: 37 written as 1.457: rim 1.457 - 2.5 runs over the front edge. Four drawers, two sides: one finding."""
    drawers = [drawer(f"d{i}", 54.0 + 180 * i, first_mm=1.457) for i in range(4)]
    found = [one for one in findings(box(), drawers=drawers) if one.rule == "hole.outside"]
    assert len(found) == 1
    assert found[0].wrong.startswith("Left side and right side, holes 1, 4, 7 and 10 (runner 500")


def test_a_hole_near_the_edge_is_asked_about():
    """FP: rim 5 - 2.5 = 2.5 from the front edge, where 3 is wanted."""
    found = findings(box(), [door(cups_mm=(100.0,))], rows=[replace(PLATE, row_mm=5.0)])
    assert rules(found) == ["hole.near_edge"]
    assert found[0].severity is Severity.WARN and found[0].amount.text == "0.5"


@pytest.mark.parametrize(
    ("depth_mm", "severity"), [(16.0, None), (16.5, Severity.WARN), (18.0, Severity.STOP), (20.0, Severity.STOP)]
)
def test_a_hole_leaves_a_skin_behind_it(depth_mm, severity):
    """FP: a board of 18, a skin of 2."""
    found = findings(box(), drawers=[drawer()], rows=[replace(RUNNER, hole_depth_mm=depth_mm)])
    assert [one.severity for one in found if one.rule == "hole.too_deep"] == ([severity] if severity else [])


def test_a_cup_too_deep_for_its_door_is_told():
    found = findings(box(), [door(thickness_mm=12.0)])
    assert set(rules(found)) == {"hole.too_deep"}


def test_runners_back_to_back_in_a_divider_meet():
    """FP: 12 deep from both faces of 18 is 6 too much; with dividers of 28 there are 4 left between them."""
    parts = part("a"), part("b")
    drawers = [drawer("l", 60.0, "a"), drawer("r", 60.0, "b")]
    found = findings(box(*parts), drawers=drawers)
    assert rules(found) == ["hole.back_to_back"]
    assert found[0].severity is Severity.STOP
    assert found[0].amount.mm == 12 + 12 + 2 - 18
    assert findings(box(*parts, fitting_out=FittingOut(divider_mm=28.0)), drawers=drawers) == ()
    # At other heights each has the board to itself.
    assert findings(box(*parts), drawers=[drawer("l", 60.0, "a"), drawer("r", 76.0, "b")]) == ()


def test_two_drawers_in_one_hole_are_a_stop_and_too_near_is_asked_about():
    found = findings(box(), drawers=[drawer("a", 60.0), drawer("b", 60.0)])
    assert "hole.overlap" in rules(found)
    # FP: 7 apart less 5 of two rims leaves 2, where 3 is wanted.
    found = findings(box(), drawers=[drawer("a", 60.0), drawer("b", 67.0)])
    assert rules(found) == ["hole.web"] and found[0].amount.mm == pytest.approx(1.0)
    assert findings(box(), drawers=[drawer("a", 60.0), drawer("b", 68.0)]) == ()


@settings(derandomize=True, deadline=None, max_examples=60)
@given(st.floats(30, 600), st.floats(30, 600))
def test_two_drawers_never_share_a_hole_or_it_is_told(one_mm, other_mm):
    """FP: 5 of two rims and a web of 3: nearer than 8 is told, and nothing else is."""
    found = rules(findings(box(), drawers=[drawer("a", one_mm), drawer("b", other_mm)]))
    assert bool(found) is (abs(one_mm - other_mm) < 8 - 1e-6)
    assert set(found) <= {"hole.overlap", "hole.web"}


def test_what_a_chart_puts_near_each_other_is_the_charts_affair_but_never_one_in_another():
    near = replace(HINGE, screw_mm=10.0, screws_back_mm=0.0)
    # FP: 22.5 - 17.5 - 5 = 0 left between cup and screw.
    assert findings(box(), [door()], rows=[near]) == ()
    in_it = replace(HINGE, screw_mm=10.0, screws_back_mm=0.0, screws_apart_mm=40.0)
    assert rules(findings(box(), [door()], rows=[in_it])) == ["hole.overlap"]


def test_legs_below_and_a_frame_above_meet_in_the_bottom():
    """FP: 12 from above and 12 from below in a bottom of 18, at one place: a leg's screw at 22 + 16 = 38, 60 + 16."""
    frame = replace(BINS, holes_u_mm=(76.0,), holes_across_mm=(18.0 + 38 - 300,))
    front = door("bins", None, front=FrontIs.PULL_OUT, pull_out="bins", hinge=None, plate=None, cups_mm=())
    found = findings(box(fitting_out=FittingOut(leg="leg-150")), [front], rows=[frame])
    assert "hole.back_to_back" in rules(found)


def test_a_leg_too_near_the_end_of_the_bottom_is_outside_it():
    """FP: inset 40 less half the plate's 16, less the side's 18: 6 in; inset 30 is 4 outside."""
    fitted = FittingOut(leg="leg-150")
    assert findings(box(fitting_out=fitted)) == ()
    assert rules(findings(box(fitting_out=fitted, legs=Legs(100, 180, inset_side_mm=30.0)))) == ["hole.outside"]
    under = Box(bottom=BottomFit.UNDER_SIDES)
    assert findings(box(fitting_out=fitted, legs=Legs(100, 180, inset_side_mm=30.0), box=under)) == ()


def test_a_screw_where_the_bottom_meets_the_side_is_a_stop():
    """FP: the line 12 up lies within the bottom's 18."""
    found = findings(box(), drawers=[drawer("d", 12.0)])
    assert rules(found) == ["hole.under_board"]
    assert "where the bottom meets the board" in found[0].wrong


def test_a_passage_behind_a_runner_or_through_a_drawer_is_a_stop():
    # FP: a side of 720, 470 up, rim of 25: a runner's line at 480 lies in it, and so does its drawer's space.
    found = rules(findings(box(), drawers=[drawer("d", 480.0)], passages=[passage(RIGHT)]))
    assert "hole.passage_behind_runner" in found and "hole.passage_in_drawer" in found
    # A drawer that ends 10 before it: 560 - 60 - 25 - 10.
    clear = drawer("d", 480.0, rear_u_mm=465.0, runner="none")
    assert findings(box(), drawers=[clear], passages=[passage(RIGHT)]) == ()


def test_a_passage_behind_the_back_is_told():
    found = findings(box(box=Box(back_recess_mm=50.0)), passages=[passage(LEFT)])
    assert rules(found) == ["hole.under_board"]


def test_a_hole_in_a_cut_out_has_no_wood():
    cut = CutOut("c", 100.0, 100.0, 200.0, 100.0, 10.0, False, (), (), "socket")
    inside = Hole("h", 150.0, 150.0, 5.0, None, HoleFor.PASSAGE, "x", "x")
    # FP: centre 50 from the nearest edge inside, rim 2.5 nearer to it.
    assert from_cut_out_mm(cut, inside) == -50 - 2.5
    assert from_cut_out_mm(cut, replace(inside, u_mm=90.0)) == 10 - 2.5
    assert from_cut_out_mm(cut, replace(inside, u_mm=97.0, v_mm=96.0)) == 5 - 2.5
    back = drilled(box(), cuts=[cut])[BACK]
    assert back.cut_outs == (cut,)
    for u_mm, rule in ((150.0, "hole.in_cut_out"), (95.0, "hole.near_cut_out"), (94.0, None)):
        found = _cut_outs(replace(back, holes=(replace(inside, u_mm=u_mm),)), HoleLimits())
        assert [one.rule for one in found] == ([rule] if rule else [])


def test_limits_are_the_jobs():
    here = [drawer("a", 60.0), drawer("b", 67.0)]
    assert findings(box(), drawers=here, holes=HoleLimits(least_web_mm=2.0)) == ()


def many_holes(count, spread_mm):
    side = panel(PanelKind.LEFT, "s", "b60", "left side", (spread_mm, spread_mm, 18.0), (18.0, 0.0, 0.0))
    across = round(count**0.5)
    return replace(
        side,
        holes=tuple(
            Hole(f"h{i}", 20.0 + 32 * (i % across), 20.0 + 32 * (i // across), 5.0, 12.0, HoleFor.PIN, f"o{i}", "h")
            for i in range(count)
        ),
    )


def test_twice_the_holes_are_about_twice_the_work(monkeypatch):
    """FP: on a grid every hole has a bounded number of neighbours, so the pairs looked at grow with the holes."""
    looked = []
    for count in (400, 1600):
        pairs = []
        monkeypatch.setattr(hole_checks, "_web", lambda *pair, pairs=pairs: pairs.append(pair))
        assert list(_webs(many_holes(count, 4000.0), HoleLimits())) == []
        looked.append(len(pairs))
    assert looked[1] <= 4 * looked[0] + 100


@settings(derandomize=True, deadline=None, max_examples=60)
@given(st.lists(st.tuples(st.floats(5, 95), st.floats(5, 95), st.sampled_from([3.0, 5.0, 35.0])), min_size=1, max_size=12))
def test_the_squares_miss_no_pair(places):
    """Held against every pair, one with every other."""
    side = panel(PanelKind.LEFT, "s", "b60", "left side", (100.0, 100.0, 18.0), (18.0, 0.0, 0.0))
    holes = tuple(
        Hole(f"h{i}", u, v, d, 12.0, HoleFor.PIN, f"o{i}", "h") for i, (u, v, d) in enumerate(places)
    )
    found = {frozenset(one.id for one in fault.holes) for fault in _webs(replace(side, holes=holes), HoleLimits())}
    near = {
        frozenset((a.id, b.id)) for i, a in enumerate(holes) for b in holes[i + 1 :] if web_mm(a, b) < 3.0 - 1e-6
    }
    assert found == near


@settings(derandomize=True, deadline=None, max_examples=60)
@given(
    st.floats(150, 700), st.floats(200, 900), st.floats(300, 2200), st.floats(0, 300), st.floats(0, 600),
    st.sampled_from(HungOn), st.booleans(),
)  # fmt: skip
def test_every_hole_lies_within_its_panel_or_it_is_told(depth_mm, width_mm, height_mm, line_mm, cup_mm, hung, legs):
    here = box(depth_mm=depth_mm, width_mm=width_mm, height_mm=height_mm, fitting_out=FittingOut(leg="leg-150" if legs else None))
    leaf = [door(hung=hung, width_mm=width_mm - 3, height_mm=height_mm - 3, cups_mm=(cup_mm,))]
    drawers = [drawer("d", line_mm)]
    made = drilled(here, leaf, drawers)
    out = {
        one.id
        for one in made.values()
        for hole in one.holes
        if not hole.diameter_mm / 2 <= hole.u_mm <= one.width_mm - hole.diameter_mm / 2
        or not hole.diameter_mm / 2 <= hole.v_mm <= one.height_mm - hole.diameter_mm / 2
    }
    told = [one for one in findings(here, leaf, drawers) if one.rule == "hole.outside"]
    assert out == {id for one in told for id in one.concerns[1:]}
