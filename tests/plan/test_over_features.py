"""Wall and tall units before windows, doors and sills. FP: at a datum of 875 a worktop of 30 and 450 clear over it put
the underside of wall units at 1355, and one 720 high ends at 2075; a tall unit of 1970 on 720 ends at 2125."""

from dataclasses import replace

import pytest
from datum_rooms import job_of, room_of, run_of, unit
from rod_runs import line_of, rod_of

from oddleg.job import Anchor, AnchorOn, Edge, Feature, FeatureKind, Gap, Storey, WallUnits, Worktop
from oddleg.plan.finding import Severity
from oddleg.plan.heights import heights
from oddleg.plan.over_features import over_feature_findings

WINDOW = Feature("window", "window", FeatureKind.WINDOW, 1400.0, 2600.0, 1060.0, 2000.0)


def hung(name, width_mm=600.0):
    return unit(name, width_mm, height_mm=720.0, depth_mm=320.0, storey=Storey.WALL)


def tall(name, width_mm=600.0):
    return unit(name, width_mm, height_mm=1970.0, storey=Storey.TALL)


def told(*items, feature=WINDOW, datum_mm=875.0, **run):
    one = run_of(*items, features=(feature,), **run)
    room = room_of(one, worktop=Worktop(30.0), wall_units=WallUnits(clear_over_top_mm=450.0, tops_in_line=False))
    job, rod = job_of(room), rod_of(one)
    return list(over_feature_findings(job, None, line_of(one), rod, heights(job, room, rod.placed), datum_mm))


@pytest.mark.parametrize("right_hand", [False, True])
def test_a_wall_unit_over_a_window_is_a_warning_of_how_much_it_covers(right_hand):
    """1400 + 120 reaches 120 over a window that begins at 1400; at the other hand it begins 120 before its end at 2600.
    In height from 1355 to 2000: 645."""
    row = (hung("a", 1520.0),)
    if right_hand:
        row = (Gap("g", "gap", 2480.0, storey=Storey.WALL), hung("a"))
    (found,) = told(*row)
    assert (found.rule, found.severity, found.amount.mm) == ("rod.over_feature", Severity.WARN, 120)
    assert "covers 120 of window" in found.wrong and "over 645 of its height" in found.wrong
    assert "clear by 120" in found.cure and found.concerns == ("run", "a", "window")


@pytest.mark.parametrize(
    ("bottom_mm", "top_mm", "high"), [(0.0, 1355.0, None), (0.0, 1400.0, 45), (2075.0, 2300.0, None), (2000.0, 2300.0, 75)]
)
def test_what_lies_wholly_under_or_over_the_unit_is_not_covered(bottom_mm, top_mm, high):
    found = told(hung("a", 2000.0), feature=Feature("w", "sill", FeatureKind.SILL, 1400.0, 2600.0, bottom_mm, top_mm))
    assert [f"over {high} of" in one.wrong for one in found] == ([] if high is None else [True])


def test_a_tall_unit_stands_before_a_door_from_the_floor():
    door = Feature("door", "door", FeatureKind.DOOR, 500.0, 1400.0, 0.0, 2000.0)
    (found,) = told(tall("t"), feature=door)
    assert found.severity is Severity.WARN and found.amount.mm == 100 and "over 2000 of" in found.wrong


@pytest.mark.parametrize(("more", "datum_mm"), [({}, None), ({"top_mm": None}, 875.0)])
def test_where_a_height_is_not_known_it_is_a_note(more, datum_mm):
    (found,) = told(hung("a", 2000.0), feature=replace(WINDOW, **more), datum_mm=datum_mm)
    assert found.severity is Severity.NOTE and "not known yet" in found.wrong and "datum" in found.cure


def test_what_ends_at_its_edge_what_stands_low_and_what_is_no_opening_is_not_told():
    assert told(hung("a", 1400.4)) == []
    assert told(unit("a", 2000.0)) == []
    socket = Feature("s", "socket", FeatureKind.ELECTRIC, 100.0, 186.0, 1400.0, 1486.0)
    assert told(hung("a"), feature=socket) == []


def test_it_is_held_against_where_the_rod_puts_the_unit():
    """Put with its right edge on the window's left edge it covers nothing; 50 further right it covers 50."""
    for offset_mm, covered in ((0.0, []), (-50.0, [50])):
        anchor = Anchor(AnchorOn.MARK, x_mm=1400.0, item="a", item_edge=Edge.RIGHT, item_offset_mm=offset_mm)
        assert [one.amount.mm for one in told(hung("a"), wall_anchor=anchor)] == covered
