"""The depth of an appliance against void, bay and front: told of every run at a wall, with a batten or without."""

import pytest
import sample_room as sample
from set_out_rooms import LEVEL, line_of, rod, rules, run, units, wall, with_batten

from oddleg.job import Appliance, ApplianceBay, ApplianceSeat, BattenIn, Box, EndPanel, Front
from oddleg.plan.battens import batten
from oddleg.plan.bay_depths import bay_findings

FLAT = ((0.0, 0.0), (1800.0, 0.0))


def bay(depth_mm, **more):
    sheet = Appliance("machine", "washing machine", ApplianceSeat.UNDER_TOP, 820.0, least_depth_mm=depth_mm)
    return ApplianceBay("bay", "bay", 600.0, 560.0, sheet, **more)


def told_of(of_run, points=FLAT):
    """What is told of the run's bays, and its batten."""
    of_wall = wall(of_run, points)
    line, room = line_of(of_wall), sample.room(of_run)
    job, on = sample.job(room), rod(line)
    return list(bay_findings(job, of_wall, line, on.placed)), batten(job, room, of_wall, line, on, None)


def between(depth_mm, thickness_mm=10.0, **more):
    """A bay between two units with fronts of 20, in a void of 12, behind it a batten (of no thickness: none)."""
    one, two = units(2)
    row = run(one, bay(depth_mm, **more), two, void_mm=12.0)
    return told_of(with_batten(row, thickness_mm=thickness_mm) if thickness_mm else row)


def test_a_machine_with_its_hoses_that_is_deeper_than_void_bay_and_front_stands_proud():
    # Trap 37: 600 + 50 = 650 in 12 + 560 + 20 = 592: 58 proud, and the batten runs through its bay. FP
    (told,), found = between(650.0)
    assert told.rule == "front_line.appliance_proud" and told.severity.value == "warn"
    assert told.amount.text == "58" and "12 + bay 560 + front 20 = 592. The batten is cut out there." in told.wrong
    assert [(left.mm, right.mm) for left, right in found.cut_outs] == [(600.0, 1200.0)]
    assert [(one.left.mm, one.right.mm) for one in found.pieces] == [(0, 600), (1200, 1800)]
    assert not any(600 < one.x_mm < 1200 for one in found.fixings)


def test_it_stands_as_proud_where_there_is_no_batten():
    # Trap 37 again: nothing of it rests on a batten. FP
    (told,), found = between(650.0, thickness_mm=None)
    assert told.amount.text == "58" and "batten" not in told.wrong and found is None


def test_a_depth_that_nobody_has_read_is_asked_for_with_a_batten_and_without():
    for thickness_mm, past in ((10.0, "the batten runs through, and leaves 580 in front of it"), (None, "there is void 12 + bay 560")):
        (told,), _ = between(None, thickness_mm)
        assert told.rule == "front_line.bay_depth_unread" and past in told.wrong
        assert ("batten" in told.wrong) is (thickness_mm is not None)


def test_a_bay_in_a_run_that_stands_free_is_not_held_against_a_wall():
    row = run(bay(2000.0), *units(1))
    line = line_of(wall(row))
    assert list(bay_findings(sample.job(sample.room(row)), None, line, rod(line).placed)) == []


def test_a_machine_that_fits_without_the_batten_has_it_cut_out():
    # In front of the batten, whose face lies on the line of backs: 560 + 20 = 580. FP
    (told,), found = between(585.0)
    assert told.rule == "batten.cut_at_bay" and told.severity.value == "note" and len(found.pieces) == 2
    assert between(585.0, thickness_mm=None)[0] == []


def test_a_machine_that_fits_in_front_of_the_batten_lets_it_run_through():
    told, found = between(580.0)
    assert told == [] and len(found.pieces) == 1 and found.cut_outs == ()


def test_behind_a_front_of_its_own_a_machine_may_not_come_out_as_far():
    (told,), _ = between(580.0, front=Front())
    assert told.rule == "front_line.appliance_proud" and told.amount.mm == 580 - (12 + 560)


@pytest.mark.parametrize(("lies_in", "recess_mm", "cut"), [(BattenIn.VOID, 0.0, False), (BattenIn.RECESS, 25.0, True)])
def test_a_batten_in_the_recess_takes_its_depth_from_a_machine(lies_in, recess_mm, cut):
    """FP: in the recess its face lies 25 in front of the line of backs: 560 + 20 - 25 = 555 in front of it, for 570."""
    row = run(*units(1, box=Box(back_recess_mm=recess_mm)), bay(570.0), void_mm=30.0)
    told, _ = told_of(with_batten(row, thickness_mm=10.0, lies_in=lies_in), LEVEL)
    assert rules(told) == (["batten.cut_at_bay"] if cut else [])
    assert all("there would be 555" in one.wrong for one in told)


def test_a_machine_comes_out_to_the_front_of_a_unit_beside_it_and_of_nothing_else():
    """FP: void 30 + bay 560, and no front beside it: only a panel at its left, nothing at its right."""
    (told,), _ = told_of(run(EndPanel("panel", "panel", 18.0, 580.0), bay(600.0), void_mm=30.0), LEVEL)
    assert told.amount.mm == 600 - (30 + 560)


def test_a_machine_between_two_fronts_comes_out_to_the_further_one():
    """FP: fronts of 20 and 40 beside it: void 30 + bay 560 + 40."""
    row = (*units(1, prefix="thin"), bay(640.0), *units(1, prefix="thick", front=Front(thickness_mm=40.0)))
    (told,), _ = told_of(run(*row, void_mm=30.0))
    assert told.amount.mm == 640 - (30 + 560 + 40)
