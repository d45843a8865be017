"""A row set out from its anchor, and what fillers take up between them. FP throughout."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rod_runs import between_walls, carcass, filler, panel, run, wall_unit
from scipy.optimize import brentq

from oddleg.job import Anchor, AnchorOn, Edge, EndsAt, Feature, FeatureKind, OpenUnit, RunEnd, Tolerances
from oddleg.plan.filler_shares import Strip, shared_mm
from oddleg.plan.legs import leg_places
from oddleg.plan.rod import placed_items

WINDOW = Feature("window", "window", FeatureKind.WINDOW, 1400.0, 2600.0)


def spans(one):
    return {placed.item.id: (placed.left_mm, placed.right_mm) for placed in placed_items(one)}


def test_items_follow_one_another_from_the_zero_where_the_job_says_no_more():
    placed = spans(run(filler(), carcass("a"), wall_unit("high"), carcass("b", 800.0)))
    assert placed == {"filler": (0, 50), "a": (50, 650), "high": (0, 600), "b": (650, 1450)}


def test_a_sink_is_centred_on_the_window_and_its_panel_stands_beside_it():
    """Trap 30: window centre 2000, sink unit 800, panel 18 + 1.5 at its left: 2000 - 400 = 1600; 1600 - 19.5 = 1580.5."""
    anchor = Anchor(AnchorOn.FEATURE, "window", item="sink")
    placed = spans(run(panel(), carcass("sink", 800.0), anchor=anchor, features=(WINDOW,)))
    assert placed == {"panel": (1580.5, 1600.0), "sink": (1600.0, 2400.0)}
    # The block of panel and unit centred: its middle is half of 19.5 off the unit's.
    block = spans(run(panel(), carcass("sink", 800.0), anchor=Anchor(AnchorOn.FEATURE, "window"), features=(WINDOW,)))
    assert block["sink"][0] - placed["sink"][0] == 19.5 / 2 == 9.75


def test_what_is_centred_may_be_a_part_of_the_item():
    """A bowl 120 right of the unit's left edge, on the window's right edge at 2600: 2600 - 120 = 2480."""
    anchor = Anchor(AnchorOn.FEATURE, "window", Edge.RIGHT, item="sink", item_edge=Edge.LEFT, item_offset_mm=120.0)
    assert spans(run(carcass("a"), carcass("sink", 800.0), anchor=anchor, features=(WINDOW,))) == {
        "a": (1880, 2480),
        "sink": (2480, 3280),
    }


@pytest.mark.parametrize(
    ("anchor", "left_mm"),
    [
        (None, 0),
        (Anchor(AnchorOn.LEFT_END), 0),
        (Anchor(AnchorOn.RIGHT_END), 3000 - 1400),
        (Anchor(AnchorOn.MIDDLE), (3000 - 1400) / 2),
        (Anchor(AnchorOn.MARK, x_mm=1000.0), 1000 - 1400 / 2),
        (Anchor(AnchorOn.MARK, x_mm=1000.0, item="b", item_edge=Edge.RIGHT), 1000 - 1400),
    ],
)
def test_a_row_is_put_on_an_end_the_middle_or_a_mark(anchor, left_mm):
    placed = spans(run(carcass("a"), carcass("b", 800.0), opening_mm=3000.0, anchor=anchor))
    assert placed == {"a": (left_mm, left_mm + 600), "b": (left_mm + 600, left_mm + 1400)}


def test_one_filler_takes_all_two_share_alike_or_in_their_ratio():
    """3000 - 2950 = 50 left; 3000 - 2900 = 100 in halves, and 1 to 3."""
    one = spans(between_walls(carcass("a", 2950.0), filler(), opening_mm=3000.0))
    assert one["filler"] == (2950, 3000)
    units = carcass("a", 2900.0)
    alike = spans(between_walls(filler("l"), units, filler("r"), opening_mm=3000.0))
    assert (alike["l"], alike["r"]) == ((0, 50), (2950, 3000))
    ratio = spans(between_walls(filler("l", share=1.0), units, filler("r", share=3.0), opening_mm=3000.0))
    assert (ratio["l"], ratio["r"]) == ((0, 25), (2925, 3000))
    all_of_it = spans(between_walls(filler("l", width_mm=30.0, share=0.0), units, filler("r"), opening_mm=3000.0))
    assert (all_of_it["l"], all_of_it["r"]) == ((0, 30), (2930, 3000))


def test_fillers_take_up_what_is_left_on_their_own_side_of_the_anchor():
    """Window at 2000, sink 800: 1600 at its left holds 1550 of units, 600 at its right of 3000 holds 570."""
    one = between_walls(
        filler("l"), carcass("a", 1550.0), carcass("sink", 800.0), carcass("b", 570.0), filler("r"),
        opening_mm=3000.0, anchor=Anchor(AnchorOn.FEATURE, "window", item="sink"), features=(WINDOW,),
    )  # fmt: skip
    placed = spans(one)
    assert placed["l"] == (0, 50) and placed["r"] == (2970, 3000) and placed["sink"] == (1600, 2400)


def test_what_one_filler_may_not_take_the_other_takes():
    """100 left, one may take 30 at most: the other takes 70."""
    placed = spans(
        between_walls(filler("l", greatest_mm=30.0), carcass("a", 2900.0), filler("r"), opening_mm=3000.0)
    )
    assert placed["l"] == (0, 30) and placed["r"] == (2930, 3000)


def test_where_an_end_is_open_fillers_keep_what_is_drawn():
    assert spans(run(filler(), carcass("a"), right_end=RunEnd(EndsAt.WALL)))["a"] == (50, 650)


def test_an_open_unit_takes_its_frame_and_gap_on_either_side():
    """600 + 2 x (22 + 2) = 648; its own sides stand 24 in, and so do its legs."""
    unit = OpenUnit("open", "open", 600.0, 720.0, 560.0, frame_thickness_mm=22.0, frame_gap_mm=2.0, legs=carcass("a").legs)
    one = run(carcass("a"), unit, carcass("b"))
    assert spans(one) == {"a": (0, 600), "open": (600, 1248), "b": (1248, 1848)}
    placed = placed_items(one)[1]
    assert placed.body_mm == (624, 1224)
    assert {leg.x_mm for leg in leg_places(placed, Tolerances())} == {624 + 40, 1224 - 40}


def test_a_run_beside_another_s_fronts_leaves_it_its_depth():
    """Drawn 3000 from plaster to plaster, its own void 15 and depth 560 standing for the other's: 3000 - 575 = 2425."""
    at_fronts = {"left_end": RunEnd(EndsAt.OTHER_FRONTS, "other"), "right_end": RunEnd(EndsAt.WALL)}
    one = run(carcass("a"), opening_mm=3000.0, void_mm=15.0, anchor=Anchor(AnchorOn.RIGHT_END), **at_fronts)
    assert spans(one)["a"] == (2425 - 600, 2425)


def test_an_anchor_that_cannot_be_used_leaves_the_row_at_the_zero():
    for anchor in (
        Anchor(AnchorOn.FEATURE, "no-such"),
        Anchor(AnchorOn.MARK, x_mm=100.0, item="no-such"),
        Anchor(AnchorOn.MARK),
        Anchor(AnchorOn.RIGHT_END),
    ):
        assert spans(run(carcass("a"), anchor=anchor))["a"] == (0, 600), anchor


lengths = st.integers(0, 2000).map(lambda n: n / 10)
strips = st.lists(
    st.tuples(st.sampled_from([0.5, 1.0, 2.0, 3.0]), lengths, lengths).map(
        lambda one: Strip(one[0], min(one[1:]), max(one[1:]))
    ),
    min_size=1,
    max_size=6,
)


@settings(derandomize=True, deadline=None, max_examples=300)
@given(strips, st.integers(0, 12000).map(lambda n: n / 10))
def test_shares_are_those_of_one_measure_for_all(some, total_mm):
    """Oracle: the measure by which each share is multiplied, found by scipy's brentq on the sum."""
    found = shared_mm(total_mm, some)
    least, greatest = sum(one.least_mm for one in some), sum(one.greatest_mm for one in some)
    if total_mm <= least or total_mm >= greatest:
        expected = [one.least_mm if total_mm <= least else one.greatest_mm for one in some]
    else:
        measure = brentq(lambda mm: sum(one.at(mm) for one in some) - total_mm, 0.0, 5000.0, xtol=1e-12)
        expected = [one.at(measure) for one in some]
        assert sum(found) == pytest.approx(total_mm, abs=1e-9)
    assert found == pytest.approx(expected, abs=1e-6)
