"""Marks of a rod: from three sides, in order of marking, and against what was made on the batten. FP throughout."""

from dataclasses import replace

import pytest
from rod_runs import (
    between_walls,
    carcass,
    edges,
    filler,
    finding,
    mark,
    panel,
    rod_of,
    rules,
    run,
    spans,
    wall_unit,
)

from oddleg.job import Anchor, AnchorOn, Edge, Feature, FeatureKind, Gap, LineUp, Marked, OpenUnit
from oddleg.plan.finding import Severity

WINDOW = Feature("window", "window", FeatureKind.WINDOW, 1400.0, 2600.0)


def sink_run(**more):
    """50 filler, 1550, sink of 800 on the window's centre at 2000, 570 and 30 filler: 3000."""
    values = {"anchor": Anchor(AnchorOn.FEATURE, "window", item="sink"), "features": (WINDOW,), "opening_mm": 3000.0, **more}
    return between_walls(
        filler("l"), carcass("a", 1550.0), carcass("sink", 800.0), carcass("b", 570.0), filler("r"), **values
    )


def test_every_mark_is_told_from_the_left_the_anchor_and_the_right():
    rod = rod_of(sink_run())
    assert [(one.from_left.text, one.from_anchor.text, one.from_right.text) for one in rod.marks] == [
        ("0", "−2000", "3000"),
        ("50", "−1950", "2950"),
        ("1600", "−400", "1400"),
        ("2000", "0", "1000"),
        ("2400", "+400", "600"),
        ("2970", "+970", "30"),
        ("3000", "+1000", "0"),
    ]


def test_marks_are_made_from_the_plumbed_ends_and_the_anchor_outward():
    """Zero and end first, for the length between them is checked; then the anchor, to its right, then to its left."""
    by_order = sorted(rod_of(sink_run()).marks, key=lambda one: one.order)
    assert [one.x_mm for one in by_order] == [0, 3000, 2000, 2400, 2970, 1600, 50]
    assert [one.order for one in by_order] == [1, 2, 3, 4, 5, 6, 7]


def test_what_lies_at_one_place_is_one_mark():
    rod = rod_of(sink_run())
    assert [one.kind for one in rod.marks] == ["zero", "edge", "edge", "anchor", "edge", "edge", "end"]
    assert mark(rod, "zero").name == "zero mark, left edge of l" and mark(rod, "zero").items == ("l",)
    assert mark(rod, "sink-left").name == "between a and sink" and mark(rod, "sink-left").items == ("a", "sink")
    assert mark(rod, "anchor").name == "anchor: the centre of sink on the centre of window"
    assert mark(rod, "end").name == "end mark, right edge of r"


def test_a_mark_says_where_it_comes_from():
    why = mark(rod_of(sink_run()), "r-left").from_left.why
    assert why == (
        "The centre of sink lies on the centre of window, 2000 from the zero. To the right of it up to here: sink 800 and b 570."
    )


def test_centres_are_on_the_rod_and_a_feature_s_own_is_not_marked_again():
    """Trap 30: of features, and of what lines up by its centre."""
    one = between_walls(
        carcass("a", 700.0), filler(greatest_mm=3000.0), wall_unit("high", 900.0), opening_mm=3000.0, features=(WINDOW,),
        line_up=(LineUp("high", Edge.CENTRE, "window", Edge.CENTRE),),
    )  # fmt: skip
    rod = rod_of(one)
    assert (mark(rod, "window-centre").x_mm, mark(rod, "window-centre").order) == (2000, 0)
    assert mark(rod, "high-centre").x_mm == 450 and mark(rod, "high-centre").order > 0


def test_what_has_its_centre_past_an_end_is_no_mark_of_the_rod():
    """A door beside the run, its lining behind the last unit: its centre is 1450, the end 1200. One whose centre is the
    end is a mark."""
    door = Feature("door", "door", FeatureKind.DOOR, 1100.0, 1800.0)
    before = Feature("before", "window before", FeatureKind.WINDOW, -700.0, 100.0)
    on_end = Feature("on-end", "pipe", FeatureKind.PIPE, 1190.0, 1210.0)
    rod = rod_of(run(carcass("a"), carcass("b"), features=(door, before, on_end)))
    assert [one.x_mm for one in rod.marks] == [0, 600, 1200]
    assert all(one.from_left.mm >= 0 and one.from_right.mm >= 0 for one in rod.marks)


def test_the_words_of_both_rows_read_as_sentences():
    rod = rod_of(run(carcass("a"), wall_unit("high", 600.0)))
    assert rod.anchor_words == "What stands: it begins at the zero mark. Wall units: it begins at the zero mark."


def test_an_open_unit_s_own_sides_are_marked_behind_its_frame():
    unit = OpenUnit("open", "open", 600.0, 720.0, 560.0, frame_thickness_mm=22.0, frame_gap_mm=2.0)
    assert edges(rod_of(run(carcass("a"), unit))) == [0, 600, 624, 1224, 1248]


def test_wall_units_have_a_row_of_their_own_from_the_same_zero():
    rod = rod_of(run(carcass("a"), carcass("b"), wall_unit("high", 900.0)))
    assert edges(rod) == [0, 600, 1200] and edges(rod, "wall") == [0, 900]
    assert [one.order for one in rod.marks] == [1, 2, 3, 4, 5]
    assert mark(rod, "high-right").from_right.text == "300"


def test_what_takes_nothing_makes_no_mark_of_its_own():
    rod = rod_of(between_walls(carcass("a"), Gap("gap", "gap", 0.0), carcass("b"), opening_mm=1200.0))
    assert edges(rod) == [0, 600, 1200]
    assert rod.marks[1].items == ("a", "gap", "b")


def test_the_last_edge_is_the_end_mark_of_an_open_run():
    """It is marked like any edge: nothing is plumbed there before."""
    rod = rod_of(run(carcass("a"), panel()))
    assert mark(rod, "end").x_mm == 619.5 and [one.order for one in rod.marks] == [1, 2, 3]
    assert rod.opening is None and rod.left_over is None


def test_nothing_is_rounded_before_it_is_shown():
    """Ten panels of 18 + 1.25: 192.5 and not ten times 19.5; at thirds 100 / 3 from each end sum to the whole."""
    ten = rod_of(run(*(panel(f"p{n}", allowance_mm=1.25) for n in range(10))))
    assert ten.marks[-1].from_left.text == "192.5"
    thirds = rod_of(between_walls(filler("l"), carcass("a", 900.0), filler("m"), carcass("b", 900.0), filler("r"), opening_mm=1900.0))
    assert [one.from_left.text for one in thirds.marks] == ["0", "33.5", "933.5", "966.5", "1866.5", "1900"]
    assert all(one.from_left.mm + one.from_right.mm == pytest.approx(1900, abs=1e-9) for one in thirds.marks)


def test_a_ticked_mark_that_has_not_moved_says_where_it_was_made():
    rod = rod_of(sink_run(), marked=[Marked("run-a", "sink-left", 1600.0, "abc")])
    assert mark(rod, "sink-left").marked.text == "1600" and mark(rod, "sink-left").moved is None
    assert "rod.moved" not in rules(rod)


def test_a_mark_that_moved_by_no_more_than_the_rounding_stays_good():
    """FP: made at 1600.5 and 1600.6 for 1600, rounding 0.5; what is shown may differ by a step where less is between."""
    good = rod_of(sink_run(), marked=[Marked("run-a", "sink-left", 1600.5, "abc")])
    assert mark(good, "sink-left").marked.text == "1600.5" and mark(good, "sink-left").moved is None and "rod.moved" not in rules(good)
    off = rod_of(sink_run(), marked=[Marked("run-a", "sink-left", 1600.6, "abc")])
    assert mark(off, "sink-left").moved.mm == pytest.approx(-0.6) and "rod.moved" in rules(off)


def test_a_mark_that_moved_after_it_was_made_names_both():
    """Trap 67: what was, what now. The window measured 12 further right."""
    moved = replace(WINDOW, left_mm=1412.0, right_mm=2612.0)
    rod = rod_of(sink_run(), features=(moved,), marked=[Marked("run-a", "sink-left", 1600.0, "abc"), Marked("run-a", "l-left", 0.0, "abc")])
    found = finding(rod, "rod.moved")
    assert found.severity is Severity.WARN and found.amount.text == "+12"
    assert found.wrong == "between a and sink: 1600 was, 1612 now, already marked: it has moved 12 to the right."
    assert mark(rod, "sink-left").moved.text == "+12" and mark(rod, "zero").moved is None


def test_a_tick_of_another_run_or_of_a_mark_that_is_gone_moves_nothing():
    rod = rod_of(sink_run(), marked=[Marked("other", "sink-left", 1.0, ""), Marked("run-a", "gone-left", 700.0, "")])
    assert rules(rod).count("rod.marked_unknown") == 1 and "rod.moved" not in rules(rod)
    assert all(one.marked is None for one in rod.marks)


def test_ids_of_marks_stay_where_items_come_in_before_them():
    before = rod_of(run(carcass("a"), carcass("b")))
    after = rod_of(run(carcass("a"), carcass("new"), carcass("b")))
    assert mark(before, "b-left").x_mm == 600 and mark(after, "b-left").x_mm == 1200
    assert spans(after)["b"] == (1200, 1800)
