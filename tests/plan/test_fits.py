"""Whether a run goes in: worst case first, a chance only if sizes vary as stated."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rod_runs import (
    BACK,
    FLOOR,
    FRONT,
    WORKTOP,
    bay,
    between_walls,
    carcass,
    filler,
    job,
    panel,
    rod_of,
    room,
    rules,
    run,
    site_of,
    wall_unit,
)

from oddleg.job import Anchor, AnchorOn, CornerPost, Feature, FeatureKind, Tolerances
from oddleg.plan.finding import Severity
from oddleg.plan.fits import fits, joint_count
from oddleg.plan.hung_ends import HungEnd

NO_PLAY = {"greatest_joint_mm": 0.0, "tape_mm": 0.0}


def fit_of(one, openings=(), unit_widths=(), **tolerances):
    kept = job(room(one), tolerances=Tolerances(**tolerances))
    return fits(kept, site_of(one, openings, unit_widths), rod_of(one, openings, **tolerances))


def twelve(*more, opening_mm):
    return between_walls(*(carcass(f"u{n}", 300.0) for n in range(12)), *more, opening_mm=opening_mm)


def test_twelve_units_by_the_root_of_the_sum_of_squares_and_at_worst():
    """Trap 39: 12 x +-0.5: sqrt(12 x 0.25) = 1.73; at worst 12 x 0.5 = 6."""
    (fit,) = fit_of(twelve(opening_mm=3602.0), **NO_PLAY)
    assert fit.likely.mm == pytest.approx(math.sqrt(12 * 0.5**2)) and fit.likely.text == "1.5"
    assert round(fit.likely.mm, 2) == 1.73
    assert fit.worst.mm == 6 and fit.spare.mm == 2 and not fit.sure
    assert fit.filler_to_be_sure.mm == 4


def test_a_batch_that_runs_fat_shifts_the_whole_row():
    """Trap 39: 12 units of +0.3 are 3.6; from three units measured their mean counts for all, from two it does not."""
    one = twelve(opening_mm=3602.0)
    (fit,) = fit_of(one, unit_widths=[(f"u{n}", 300.3) for n in range(3)], **NO_PLAY)
    assert fit.shift.mm == pytest.approx(12 * 0.3) and fit.shift.text == "+3.5"
    assert fit.filler_to_be_sure.mm == pytest.approx(6 + 3.6 - 2)
    (two,) = fit_of(one, unit_widths=[("u0", 300.3), ("u1", 300.3)], **NO_PLAY)
    assert two.shift is None and two.filler_to_be_sure.mm == 4
    # A shift of 3.6 against 2 to spare, sd 1.73 / 1.96 = 0.88: about 1.8 sd short.
    assert "go in" in fit.chance_words and fit.chance_words.startswith("If sizes vary as stated")
    assert fit.chance_words.endswith("4 of 100 go in.")


def test_joints_never_go_below_nought():
    """Eleven joints of 0 to 0.5: 5.5 at worst; 11 x 0.25 on average, and 0.25 either way of each."""
    (fit,) = fit_of(twelve(opening_mm=3602.0), unit_size_mm=0.0, tape_mm=0.0)
    assert fit.worst.mm == 5.5
    assert fit.likely.mm == pytest.approx(11 * 0.25 + math.sqrt(11 * 0.25**2))


def test_the_words_of_what_is_likely_lead_to_its_figure():
    """12 x +-0.5, 11 joints of 0 to 0.5, tape 1: 2.75 + sqrt(3 + 0.6875 + 1) = 2.75 + 2.165 = 4.915. FP"""
    (fit,) = fit_of(twelve(opening_mm=3602.0))
    assert fit.likely.mm == pytest.approx(4.915, abs=0.001)
    assert fit.likely.why.endswith(
        "11 × 0.25 = 2.75, and sizes, joints and tape either way √(12 × 0.5² + 11 × 0.25² + 1²) = 2.17; together 4.92."
    )
    (bare,) = fit_of(twelve(opening_mm=3602.0), **NO_PLAY)
    assert bare.likely.why == "Sizes and tape either way: √(12 × 0.5²) = 1.73."


def test_the_worst_case_comes_first_and_a_filler_makes_it_certain():
    """Space 3650 less 3600 and a filler of 45 at least: 5 to spare, 6 + 5.5 + 1 = 12.5 at worst: 7.5 short of certain."""
    (fit,) = fit_of(twelve(filler(least_mm=45.0), opening_mm=3650.0))
    assert (fit.spare.text, fit.worst.text, fit.filler_to_be_sure.text) == ("5", "12.5", "7.5")
    assert fit.words == (
        "What stands goes in as drawn, but not for certain: at worst it comes out 12.5 longer, and there are 5 to spare. "
        "Fillers that may be 7.5 narrower make it certain."
    )
    assert fit.chance_words.startswith("If sizes vary as stated")
    (narrower,) = fit_of(twelve(filler(least_mm=45.0 - 7.5), opening_mm=3650.0))
    assert narrower.sure and narrower.filler_to_be_sure.text == "0" and "for certain: 12.5 to spare" in narrower.words
    assert rules(narrower) == [] and rules(fit) == ["fit.not_certain"]


def test_what_does_not_go_in_as_drawn_is_said_first():
    (fit,) = fit_of(between_walls(carcass("a", 3100.0), opening_mm=3000.0))
    assert fit.words == "What stands does not go in: 100 too long as drawn." and not fit.sure


def test_readings_of_one_place_that_differ_by_more_than_the_tape_s_give_or_take_count_in_its_place():
    one = between_walls(carcass("a", 2900.0), filler())
    (alike,) = fit_of(one, [(FLOOR, BACK, 3000.0), (WORKTOP, BACK, 3009.0)], tape_mm=1.0)
    (apart,) = fit_of(one, [(FLOOR, BACK, 3000.0), (FLOOR, BACK, 3004.0)], tape_mm=1.0)
    assert apart.worst.mm - alike.worst.mm == 4 - 1
    assert "differ by 4" in apart.worst.why


def test_joints_are_counted_where_two_things_keep_their_width():
    """A panel's allowance is its joint; a filler takes one up; a bay is a clear width."""
    post = CornerPost("post", "post", 60.0)
    assert joint_count((carcass("a"), carcass("b"), post)) == 2
    assert joint_count((carcass("a"), panel(), carcass("b"))) == 0
    assert joint_count((carcass("a"), panel(allowance_mm=0.0), carcass("b"))) == 2
    assert joint_count((carcass("a"), bay(), carcass("b"), filler(), carcass("c"))) == 0


def test_a_row_that_would_go_in_but_not_with_its_anchor_where_it_is_is_not_certain():
    one = between_walls(
        filler("l"), carcass("a", 1500.0), carcass("sink", 800.0), carcass("b", 620.0), opening_mm=3000.0,
        anchor=Anchor(AnchorOn.FEATURE, "window", item="sink"), features=(Feature("window", "window", FeatureKind.WINDOW, 1400.0, 2600.0),),
    )  # fmt: skip
    (fit,) = fit_of(one)
    assert not fit.sure and fit.words.startswith("Not with the anchor where it is")


def test_wall_units_have_an_answer_of_their_own_and_an_open_run_none():
    both = fit_of(between_walls(carcass("a"), wall_unit("high"), opening_mm=3000.0))
    assert [fit.row for fit in both] == ["base", "wall"]
    assert fit_of(run(carcass("a"), opening_mm=3000.0)) == () == fit_of(between_walls(carcass("a")))
    assert fit_of(between_walls(filler(), opening_mm=50.0)) == ()


def test_a_unit_off_its_size_by_more_than_it_may_be_is_told():
    one = between_walls(carcass("a"), carcass("b"), filler(), opening_mm=1300.0)
    (fit,) = fit_of(one, unit_widths=[("a", 601.2), ("b", 600.4)])
    (found,) = (each for each in fit.findings if each.rule == "fit.unit_size")
    assert found.amount.text == "+1.2" and found.concerns == ("run-a", "a")


def test_a_width_far_off_is_a_misreading_and_makes_nothing_certain():
    """FP: 100 for a drawn 600 in the mean of three would take 2 x 500 off the row; without it the mean is of two."""
    one = between_walls(carcass("a"), carcass("b"), carcass("c"), filler(), opening_mm=1900.0)
    (fit,) = fit_of(one, unit_widths=[("a", 100.0), ("b", 600.2), ("c", 600.2)])
    assert fit.shift is None and not fit.sure
    assert fit.words.startswith("Not certain yet: a was measured 100 and is drawn 600. Taken as drawn: ")
    (found,) = fit.findings
    assert found.rule == "fit.misread" and found.severity is Severity.WARN and found.amount.mm == -500
    assert found.cure == "Measure it again, or put its width right at the desk."
    # 10 x 0.5 is still a size, the least bit more is not.
    assert rules(fit_of(one, unit_widths=[("a", 605.0)])[0]) == ["fit.unit_size"]
    assert rules(fit_of(one, unit_widths=[("a", 605.1)])[0]) == ["fit.misread"]


def test_a_row_that_comes_out_shorter_says_shorter():
    """FP: three units 2 short each are 6 short; 1.5 of sizes, 1 of joints and 1 of tape against it: 2.5 short."""
    one = between_walls(carcass("a"), carcass("b"), carcass("c"), filler(), opening_mm=1900.0)
    (fit,) = fit_of(one, unit_widths=[(name, 598.0) for name in "abc"])
    assert "at worst it comes out 2.5 shorter." in fit.words
    assert "The rod keeps the drawn widths; the fit reckons with what was measured." in fit.words
    assert {one.severity for one in fit.findings} == {Severity.NOTE} and "shorter" in fit.chance_words
    (warned,) = fit_of(one, unit_widths=[("a", 602.1)])[0].findings
    assert warned.severity is Severity.WARN


def test_what_has_a_figure_of_its_own_is_not_held_to_that_of_units():
    """FP: two units of 0.5, one of 2, a panel of 0.3 and a post that may be nothing off: 0.5 + 0.5 + 2 + 0.3 = 3.3; the
    root of 0.25 + 0.25 + 4 + 0.09."""
    one = between_walls(
        carcass("a"), carcass("b"), carcass("odd", width_within_mm=2.0), panel(width_within_mm=0.3),
        CornerPost("post", "post", 60.0), opening_mm=2000.0,
    )  # fmt: skip
    (fit,) = fit_of(one, unit_widths=[("odd", 601.9), ("a", 600.6)], **NO_PLAY)
    assert fit.worst.mm == pytest.approx(3.3)
    assert fit.likely.mm == pytest.approx(math.sqrt(0.25 + 0.25 + 4 + 0.09))
    assert fit.worst.why.startswith("All at once: 2 units of up to 0.5 over, odd of up to 2 over, panel of up to 0.3 over,")
    (off,) = (each for each in fit.findings if each.rule == "fit.unit_size")
    assert off.concerns == ("run-a", "a") and "more than the 0.5 that it may be off" in off.wrong


@settings(derandomize=True, deadline=None, max_examples=15)
@given(st.integers(2, 14), st.integers(0, 8))
def test_the_chance_is_that_of_ten_thousand_rows_built(units, spare_tenths):
    """Oracle: numpy draws sizes (sd = half-width / 1.96) and joints as stated and counts the rows that go in."""
    opening_mm = units * 300.0 + spare_tenths / 2
    one = between_walls(*(carcass(f"u{n}", 300.0) for n in range(units)), opening_mm=opening_mm)
    (fit,) = fit_of(one, tape_mm=1.0)
    chance = np.random.default_rng(units)
    drawn = chance.normal(0, 0.5 / 1.96, (10000, units)).sum(axis=1) + chance.normal(0, 1 / 1.96, 10000)
    drawn += chance.normal(0.25, 0.25 / 1.96, (10000, units - 1)).sum(axis=1)
    of_100 = 100 * float((drawn <= fit.spare.mm).mean())
    said = fit.chance_words.rsplit(" and ", 1)[1]
    stated = {"more than 99 of 100 go in.": 99.5, "fewer than 1 of 100 goes in.": 0.5}
    assert (stated[said] if said in stated else float(said.split()[0])) == pytest.approx(of_100, abs=2.5)


def test_what_shows_of_a_filler_beyond_the_mark_takes_nothing_of_the_opening():
    """FP: the wall lies 10 beyond the end mark along the fronts, so a filler that must show 20 takes 10 between the
    marks: 2990 + 10 is the opening of 3000. The rod sets it out so, and the fit has to say the same."""
    one = between_walls(carcass("a", 2990.0), filler(least_mm=20.0))
    openings = [(FLOOR, BACK, 3000.0), (FLOOR, FRONT, 3010.0)]
    rod = rod_of(one, openings, [("right", FLOOR, BACK, 0.0), ("right", FLOOR, FRONT, 10.0)])
    (strip,) = rod.fillers
    assert (strip.width.mm, strip.narrow.mm) == (3000 - 2990, 20)
    (fit,) = fits(job(room(one)), site_of(one, openings), rod)
    assert (fit.taken.mm, fit.spare.mm) == (2990 + 10, 0)
    assert not fit.words.startswith("What stands does not go in")


def test_a_row_that_hangs_and_ends_before_its_mark_in_a_corner_has_that_much_less_room():
    """FP: 2400 between the marks, plaster 8 in front of the end mark at wall-unit height: 2392 - 2388 = 4 to spare."""
    one = between_walls(carcass("a", 2300.0), wall_unit("high", 2388.0), opening_mm=2400.0)
    rod = replace(rod_of(one), hung_ends=(None, HungEnd(-8.0, other_hangs=False)))
    stands, hangs = fits(job(room(one)), site_of(one), rod)
    assert (stands.space.mm, hangs.space.mm, hangs.spare.mm) == (2400, 2392, 4)
    assert "less 8 that what hangs ends before them" in hangs.space.why
