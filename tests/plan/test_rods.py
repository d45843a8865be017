"""Openings, corners, anchors and fillers on the rod, and what a run that does not go in is told."""

import math
from dataclasses import replace

import pytest
from rod_runs import (
    BACK,
    BATTEN,
    FLOOR,
    FRONT,
    WORKTOP,
    bay,
    between_walls,
    carcass,
    edges,
    filler,
    finding,
    line_of,
    mark,
    panel,
    rod_of,
    room_rods,
    rules,
    run,
    spans,
    wall_of,
    wall_unit,
    widths,
)

from oddleg.job import Anchor, AnchorOn, Edge, EndsAt, Feature, FeatureKind, Filler, Gap, LineUp, RunEnd, Storey
from oddleg.plan.finding import Severity

WINDOW = Feature("window", "window", FeatureKind.WINDOW, 1400.0, 2600.0)


def strip(id, least_mm, greatest_mm, width_mm):
    """A filler that hangs."""
    return Filler(id, id, width_mm, least_mm, greatest_mm, storey=Storey.WALL)


def shown(rod, item):
    one = next(each for each in rod.fillers if each.item == item)
    return one.width.text, one.narrow.text, one.wide.text, one.cut_from.text


def test_a_filler_is_cut_from_its_widest_and_the_scribe():
    """Trap 31: 3000 at the bottom, 3008 at the top, units 2950: visible 50 to 58, cut from 58 + 5 = 63 or more."""
    rod = rod_of(between_walls(carcass("a", 2950.0), filler()), [(FLOOR, FRONT, 3000.0), (WORKTOP, FRONT, 3008.0)])
    assert rod.opening.text == "3000" and "the narrowest of 2" in rod.opening_words
    assert shown(rod, "filler") == ("50", "50", "58", "63")
    assert rod.fillers[0].words == (
        "filler: 50 just over the floor, 50 to 58 at worktop height; cut from 63 or more and scribed to the wall. "
        "On the rod it takes 50, up to the mark; the wall lies 0 to 8 beyond it."
    )
    assert rod.left_over.text == "0" and rules(rod) == ["rod.opening_in_one_way"]
    assert "at one depth only, along the fronts" in rod.findings[0].wrong


def test_carcasses_at_the_back_and_the_filler_at_the_front_are_two_checks():
    """Trap 31: a side wall that closes by 1 degree over 580 is 580 tan 1 = 10.1 narrower at the front: the filler shows
    39.9. One that opens by it leaves the carcasses the back, 10.1 less than the front has."""
    closing_mm = 580 * math.tan(math.radians(1))
    assert round(closing_mm, 1) == 10.1
    units = carcass("a", 2950.0)
    closing = rod_of(between_walls(units, filler()), [(FLOOR, BACK, 3000.0), (FLOOR, FRONT, 3000.0 - closing_mm)])
    assert closing.opening.mm == 3000.0 - closing_mm
    assert widths(closing)["filler"] == pytest.approx(50 - closing_mm)
    assert next(one.wide.mm for one in closing.fillers) == pytest.approx(50 - closing_mm)
    short = rod_of(between_walls(units, filler(least_mm=45.0)), [(FLOOR, BACK, 3000.0), (FLOOR, FRONT, 3000.0 - closing_mm)])
    assert finding(short, "rod.filler_narrow").amount.mm == pytest.approx(45 - 50 + closing_mm)
    # Open towards the front and only one side wall: the mark stands at the back, the filler shows the front.
    one_wall = run(units, filler(least_mm=30.0), left_end=RunEnd(EndsAt.OPEN), right_end=RunEnd(EndsAt.WALL))
    opening = rod_of(one_wall, [(FLOOR, BACK, 2960.0), (FLOOR, FRONT, 3000.0)])
    assert opening.right_mm == 2960 and widths(opening)["filler"] == pytest.approx(10)
    assert shown(opening, "filler") == ("10", "50", "50", "55") and "rod.filler_narrow" not in rules(opening)
    # At the back it does not go in, whatever the front has.
    stuck = rod_of(one_wall, [(FLOOR, BACK, 2945.0), (FLOOR, FRONT, 3000.0)])
    assert finding(stuck, "rod.too_long").amount.mm == pytest.approx(5)


def test_which_side_wall_runs_away_is_known_only_from_its_mark():
    """Both ends walls, 8 more at the top: either filler may show all of it until somebody measures."""
    one = between_walls(filler("l"), carcass("a", 2900.0), filler("r"))
    at = [(FLOOR, FRONT, 3000.0), (WORKTOP, FRONT, 3008.0)]
    unknown = rod_of(one, at)
    assert shown(unknown, "l")[1:3] == shown(unknown, "r")[1:3] == ("50", "58")
    known = rod_of(one, at, [("left", WORKTOP, FRONT, 6.0)])
    assert shown(known, "l")[1:3] == ("50", "56") and shown(known, "r")[1:3] == ("50", "52")


def test_what_is_measured_beyond_a_mark_is_no_room_for_units():
    """Measured only at batten height, 3005, where the left wall lies 5 behind the plumbed zero: 3000 between marks."""
    rod = rod_of(between_walls(carcass("a"), filler(greatest_mm=3000.0)), [(BATTEN, BACK, 3005.0)], [("left", BATTEN, BACK, 5.0)])
    assert rod.opening.mm == 3000 and "less 5 to the zero mark at the left" in rod.opening.why


def test_a_tape_from_the_wall_reads_the_mark_and_what_lies_behind_the_zero():
    """Trap 32: wall at batten height 5 behind the zero: the tape from it needs mark + 5."""
    one = between_walls(carcass("a"))
    rod = rod_of(one, gaps=[("left", BATTEN, BACK, 5.0), ("right", BATTEN, BACK, 3.0)])
    assert rod.end_words == (
        "The left wall lies 5 behind the zero at batten height: a tape held on the wall reads the mark + 5.",
        "The right wall lies 3 beyond the end mark at batten height: a tape held on the wall reads the mark + 3.",
    )
    assert "not known: hold the tape on the mark" in rod_of(one).end_words[0]


def test_a_mark_that_stands_behind_the_wall_is_to_be_plumbed_again():
    rod = rod_of(between_walls(carcass("a")), [(FLOOR, BACK, 3000.0)], [("left", FLOOR, BACK, -3.0)])
    found = finding(rod, "rod.mark_not_plumbed")
    assert found.severity is Severity.STOP and found.amount.mm == 3 and "3 further right" in found.cure
    assert rod.opening.mm == 3000


def corner(item, at, other_void_mm, depth_mm=560.0, face=()):
    """Run A along the top, B down the right-hand wall at 4000; A ends at B's backs, or B begins at A's fronts."""
    one = run(item, id="a-run", left_end=RunEnd(EndsAt.WALL), right_end=RunEnd(at, "b-run"), opening_mm=4000.0)
    other = replace(run(carcass("b", depth_mm=depth_mm), id="b-run"), x_mm=4000.0, y_mm=0.0, bearing_deg=90.0)
    lines = {"b-run": (line_of(other, back_mm=other_void_mm), None)}
    return room_rods(one, other, walls=(wall_of(one), wall_of(other, face=face)), lines=lines)[0]


def test_the_other_run_takes_its_void_of_this_one():
    """Trap 25: B's void of 22 takes 22 of A: 4000 - 22 = 3978 from plaster to plaster less that."""
    rod = corner(carcass("a"), EndsAt.OTHER_BACKS, 22.0)
    assert rod.opening.mm == 4000 - 22 and rod.right_mm == 3978
    assert "less 22 to the line of backs of b-run" in rod.opening.why
    assert rod.end_words[1] == "The end mark lies on the line of backs of b-run, 22 from the plaster of its wall at batten height."


def test_the_other_run_takes_void_and_depth_where_this_one_stops_at_its_fronts():
    assert corner(carcass("a"), EndsAt.OTHER_FRONTS, 22.0).opening.mm == 4000 - 22 - 560


def test_a_hollow_in_the_other_wall_takes_more():
    """B's wall stands 6 back in the corner: backs at 22, plaster at -6: 28 from the plaster that was measured to."""
    assert corner(carcass("a"), EndsAt.OTHER_BACKS, 22.0, face=[(0.0, BATTEN, -6.0)]).opening.mm == 4000 - 28


def test_a_corner_with_a_run_that_is_gone_is_taken_as_a_wall():
    one = run(carcass("a"), left_end=RunEnd(EndsAt.WALL), right_end=RunEnd(EndsAt.OTHER_BACKS, "gone"), opening_mm=3000.0)
    rod = rod_of(one)
    assert "rod.other_run" in rules(rod) and rod.opening.mm == 3000


def test_a_feature_as_measured_moves_what_is_anchored_on_it():
    one = between_walls(
        filler("l"), carcass("sink", 800.0), filler("r"), opening_mm=3000.0,
        anchor=Anchor(AnchorOn.FEATURE, "window", item="sink", what="bowl"), features=(WINDOW,),
    )  # fmt: skip
    drawn = rod_of(one)
    measured = rod_of(one, features=(replace(WINDOW, left_mm=1412.0, right_mm=2612.0),))
    assert spans(drawn)["sink"] == (1600, 2400) and spans(measured)["sink"] == (1612, 2412)
    assert measured.anchor_words == "The centre of sink (bowl) lies on the centre of window, 2012 from the zero."


def test_a_feature_keeps_its_place_on_the_wall_where_the_zero_moves():
    """The zero as set out 22 to the right: the window's centre, 2000 from the old one, is 1978 from it."""
    one = run(carcass("sink", 800.0), anchor=Anchor(AnchorOn.FEATURE, "window", item="sink"), features=(WINDOW,))
    rod = rod_of(one, set_out=replace(one, x_mm=22.0))
    assert spans(rod)["sink"] == (1578, 2378)
    assert {placed.run.x_mm for placed in rod.placed} == {22.0}


def test_too_much_says_how_much_and_what_would_cure_it():
    """2950 right of a window at 2000 with 1000 there: 800 / 2 of the sink and 620: 20 too long, and 30 to spare left."""
    one = between_walls(
        filler("l", least_mm=20.0), carcass("a", 1550.0), carcass("sink", 800.0), carcass("b", 620.0),
        opening_mm=3000.0, anchor=Anchor(AnchorOn.FEATURE, "window", item="sink"), features=(WINDOW,),
    )  # fmt: skip
    found = finding(rod_of(one), "rod.too_long")
    assert found.severity is Severity.STOP and found.amount.mm == pytest.approx(20)
    assert found.wrong == "What is right of the anchor is 20 longer than the room for it."
    assert found.cure == "Move the anchor 20 to the left: the fillers there can give it."
    whole = finding(rod_of(between_walls(carcass("a", 3100.0), opening_mm=3000.0)), "rod.too_long")
    assert whole.wrong == "What stands is 100 longer than the room for it."
    assert whole.cure.startswith("Take 100 out")
    assert rod_of(between_walls(carcass("a", 3100.0), opening_mm=3000.0)).left_over.mm == -100


def test_a_filler_below_its_least_is_told_and_not_made_wider():
    rod = rod_of(between_walls(carcass("a", 2988.0), filler(least_mm=20.0), opening_mm=3000.0))
    found = finding(rod, "rod.filler_narrow")
    assert found.severity is Severity.WARN and found.amount.mm == pytest.approx(8)
    assert found.wrong == "filler would be 12, its least is 20: 8 missing."
    assert widths(rod)["filler"] == pytest.approx(12) and rod.left_over.text == "0"


def test_what_no_filler_may_take_stays_open_and_is_told():
    rod = rod_of(between_walls(carcass("a", 2800.0), filler(greatest_mm=100.0), opening_mm=3000.0))
    assert widths(rod)["filler"] == 100 and rod.left_over.mm == 100
    assert finding(rod, "rod.left_over").amount.mm == 100
    without = rod_of(between_walls(carcass("a", 2800.0), opening_mm=3000.0))
    assert "has no filler to take it" in finding(without, "rod.left_over").wrong
    # Where an end is open nothing has to be filled.
    assert rules(rod_of(run(carcass("a", 2800.0), opening_mm=3000.0))) == []


def test_fillers_that_a_limit_makes_unlike_are_told():
    rod = rod_of(between_walls(filler("l", greatest_mm=30.0), carcass("a", 2900.0), filler("r"), opening_mm=3000.0))
    assert finding(rod, "rod.filler_held").wrong == "l stays at 30, its limit; the other fillers on that side take the rest."


def test_an_unscribed_filler_is_cut_to_its_width_and_a_space_behind_another_run_not_at_all():
    plain = Filler("strip", "strip", 50.0, 20.0, 80.0, scribed=False)
    strip = rod_of(between_walls(carcass("a", 2950.0), plain, opening_mm=3000.0)).fillers[0]
    assert (strip.cut_words, strip.cut_from.text) == ("cut to", "50")
    assert strip.words == "strip: cut to 50, not scribed."


def test_a_filler_that_comes_out_wider_at_the_wall_than_it_may_is_told():
    """50 to 58 where 55 is the most."""
    one = run(carcass("a", 2950.0), filler(greatest_mm=55.0), right_end=RunEnd(EndsAt.WALL))
    at = [(FLOOR, FRONT, 3000.0), (WORKTOP, FRONT, 3008.0)]
    is_so = finding(rod_of(one, at), "rod.wide_at_wall")
    assert is_so.severity is Severity.WARN and is_so.amount.mm == pytest.approx(58 - 55)
    assert is_so.cure.startswith("Make filler 58 wide there") and "Close it with a filler" not in is_so.cure
    assert widths(rod_of(one, at))["filler"] == 50
    both = between_walls(carcass("a", 2950.0), filler(greatest_mm=55.0))
    may = finding(rod_of(both, at), "rod.wide_at_wall")
    assert may.severity is Severity.NOTE and may.amount.mm == pytest.approx(3) and "may be up to 58" in may.wrong


def test_a_bay_keeps_to_its_width_whatever_is_left():
    """CP: an appliance bay is exactly 600. Trap 38: it takes up no slack."""
    for opening_mm in (3000.0, 3050.0, 2990.0):
        rod = rod_of(between_walls(bay(), carcass("a", 2350.0), filler(), opening_mm=opening_mm))
        assert widths(rod)["bay"] == 600, opening_mm
    assert mark(rod, "a-left").from_left.text == "600"


@pytest.mark.parametrize(
    ("width_mm", "sheet", "out_mm"),
    [(600.0, {"least_width_mm": 605.0, "greatest_width_mm": 620.0}, 5), (625.0, {"least_width_mm": 605.0, "greatest_width_mm": 620.0}, 5)],
)
def test_a_bay_off_its_sheet_is_a_stop(width_mm, sheet, out_mm):
    """Trap 38: freestanding 605 to 620."""
    found = finding(rod_of(between_walls(bay(width_mm=width_mm, **sheet), opening_mm=width_mm)), "rod.bay_width")
    assert found.severity is Severity.STOP and found.amount.mm == out_mm
    within = rod_of(between_walls(bay(width_mm=610.0, least_width_mm=605.0, greatest_width_mm=620.0), opening_mm=610.0))
    assert within.findings[0].rule == "rod.opening_drawn" and len(within.findings) == 1


def test_a_bay_beside_a_wall_that_runs_away_comes_out_too_wide_there():
    """Trap 38: at top and bottom, front and back; -0/+3 where the sheet says nothing: 600 + 5 is 2 over 603."""
    one = run(carcass("a", 2400.0), bay(), right_end=RunEnd(EndsAt.WALL))
    rod = rod_of(one, [(FLOOR, BACK, 3000.0), (WORKTOP, FRONT, 3005.0)])
    found = finding(rod, "rod.wide_at_wall")
    assert found.amount.mm == pytest.approx(2) and found.severity is Severity.WARN
    assert "rod.wide_at_wall" not in rules(rod_of(one, [(FLOOR, BACK, 3000.0), (WORKTOP, FRONT, 3003.0)]))


def test_a_panel_space_is_the_panel_and_its_allowance():
    """CP: panel + 1.5."""
    assert widths(rod_of(run(panel(), carcass("a"))))["panel"] == 18 + 1.5


@pytest.mark.parametrize(
    ("anchor", "words"),
    [
        (Anchor(AnchorOn.MARK, x_mm=3400.0, item="a"), "400 beyond the end mark"),
        (Anchor(AnchorOn.MARK, x_mm=-50.0, item="a"), "50 to the left of the zero mark"),
        (Anchor(AnchorOn.FEATURE, "no-such", item="a"), "feature that it is anchored on is not known"),
        (Anchor(AnchorOn.MARK, x_mm=10.0, item="gone"), "is not in this row"),
        (Anchor(AnchorOn.MARK), "The anchor has no place"),
    ],
)
def test_an_anchor_that_cannot_be_used_is_a_stop_and_the_row_stands_at_the_zero(anchor, words):
    rod = rod_of(between_walls(carcass("a"), filler(greatest_mm=3000.0), opening_mm=3000.0, anchor=anchor))
    found = finding(rod, "rod.anchor")
    assert found.severity is Severity.STOP and words in found.wrong and "from the zero mark" in found.wrong
    assert spans(rod)["a"] == (0, 600) and "its anchor cannot be used" in rod.anchor_words


def test_a_free_row_that_begins_left_of_its_zero_is_told():
    """Its middle of 600 on a mark at 100: from -200; on one at 300 it begins at the zero."""
    def on(x_mm):
        return rod_of(run(carcass("a"), carcass("b"), anchor=Anchor(AnchorOn.MARK, x_mm=x_mm, item="a")))

    found = finding(on(100.0), "rod.left_of_zero")
    assert found.severity is Severity.WARN and found.amount.text == "200" and "begins 200 left of the zero" in found.wrong
    assert "rod.left_of_zero" not in rules(on(300.0))


def test_an_anchor_that_needs_an_opening_waits_for_one():
    rod = rod_of(run(carcass("a"), right_end=RunEnd(EndsAt.WALL), anchor=Anchor(AnchorOn.RIGHT_END)))
    assert "nobody knows how long the opening is" in finding(rod, "rod.anchor").wrong
    assert "rod.no_opening" in rules(rod)


def test_an_empty_run_has_its_ends_and_a_note():
    rod = rod_of(between_walls(opening_mm=3000.0))
    assert rules(rod) == ["rod.empty", "rod.opening_drawn"] and [one.kind for one in rod.marks] == ["zero", "end"]
    nothing = rod_of(run())
    assert rules(nothing) == ["rod.empty"] and [one.kind for one in nothing.marks] == ["zero"]


def test_the_words_of_an_opening_are_the_sum_that_makes_it():
    """3020 - 2 - 18 = 3000; of two widths that leave the same order it is the narrowest, unless what is taken off turns it."""
    other = run(carcass("s"), id="other", x_mm=3020.0, void_mm=18.0)
    one = run(carcass("a"), left_end=RunEnd(EndsAt.WALL), right_end=RunEnd(EndsAt.OTHER_BACKS, "other"))

    def words(openings, gaps):
        rod = room_rods(one, replace(other, bearing_deg=90.0), walls=(wall_of(one, openings, gaps),))[0]
        return rod.opening.text, rod.opening_words, rod.opening.why

    widths = [(WORKTOP, BACK, 3020.0), (FLOOR, BACK, 3025.0)]
    shown, said, why = words(widths, [("left", WORKTOP, BACK, 2.0)])
    assert (shown, said) == (
        "3000",
        "3020 measured at worktop height along the wall (the narrowest of 2), less 2 to the zero mark at the left, "
        "less 18 to the line of backs of other",
    )
    assert why == f"{said}."
    shown, said, _ = words(widths, [("left", FLOOR, BACK, 9.0)])
    assert shown == "2998" and said.startswith("3025 measured just over the floor along the wall (the one that leaves least of 2), less 9")


def test_an_opening_that_is_only_drawn_says_so_with_its_sum():
    """4000 - 18 - 560 = 3422."""
    other = run(carcass("s"), id="other", x_mm=4000.0, void_mm=18.0)
    one = run(carcass("a"), left_end=RunEnd(EndsAt.WALL), right_end=RunEnd(EndsAt.OTHER_FRONTS, "other"), opening_mm=4000.0)
    rod = room_rods(one, replace(other, bearing_deg=90.0))[0]
    assert rod.opening.mm == 3422
    assert rod.opening_words == "4000 as drawn, nobody has measured it, less 578 to the carcass fronts of other"


def test_one_item_is_a_run():
    rod = rod_of(between_walls(carcass("a"), opening_mm=600.0))
    assert edges(rod) == [0, 600] and rod.left_over.text == "0" and rules(rod) == ["rod.opening_drawn"]


def test_wall_and_base_units_share_the_zero_and_an_offset_is_told():
    line_up = (LineUp("high", Edge.LEFT, "a", Edge.LEFT), LineUp("high", Edge.CENTRE, "window", Edge.CENTRE))
    one = between_walls(
        filler("l"), carcass("a", 2900.0), filler("r"), wall_unit("high", 900.0),
        opening_mm=3000.0, wall_anchor=Anchor(AnchorOn.MARK, x_mm=52.0, item="high", item_edge=Edge.LEFT), line_up=line_up,
        features=(WINDOW,),
    )  # fmt: skip
    rod = rod_of(one)
    assert spans(rod)["high"] == (52, 952)
    assert [each.offset.text for each in rod.offsets] == ["+2", "−1498"]
    assert rod.offsets[0].words == "left edge of high to left edge of a"
    assert finding(rod, "rod.offset").severity is Severity.NOTE
    assert mark(rod, "wall-anchor").from_left.text == "52"


@pytest.mark.parametrize("right_hand", [False, True])
def test_what_hangs_short_of_a_mark_is_free_there_and_its_filler_keeps_what_is_drawn(right_hand):
    """40 + 600 + 1200 + 500 = 2340 of 3600: 1260 stay open, and the strip at the wall is no wider for it."""
    row = [strip("strip", 20.0, 70.0, 40.0), wall_unit("glass"), Gap("window-gap", "window", 1200.0, storey=Storey.WALL), wall_unit("spice", 500.0)]
    anchor = None
    if right_hand:
        row, anchor = row[::-1], Anchor(AnchorOn.RIGHT_END)
    rod = rod_of(between_walls(carcass("a", 3600.0), *row, opening_mm=3600.0, wall_anchor=anchor))
    assert widths(rod)["strip"] == 40 and "rod.left_over" not in rules(rod)
    assert spans(rod)["spice"] == ((3600 - 2340, 3600 - 1840) if right_hand else (1840, 2340))


def test_what_hangs_goes_up_to_a_mark_where_a_filler_ends_it_or_its_fillers_reach_there():
    """A strip at the end says so: 3600 - 600 - 70 at its greatest leaves 2930. Without one 3600 - 3540 = 60 of strip
    bring it there, 80 would be beyond its 70."""
    closed = rod_of(between_walls(carcass("a", 3600.0), wall_unit("high"), strip("strip", 20.0, 70.0, 40.0), opening_mm=3600.0))
    assert widths(closed)["strip"] == 70 and finding(closed, "rod.left_over").amount.mm == 2930
    for unit_mm, strip_mm in ((3540.0, 60.0), (3520.0, 40.0)):
        rod = rod_of(between_walls(carcass("a", 3600.0), strip("strip", 20.0, 70.0, 40.0), wall_unit("high", unit_mm), opening_mm=3600.0))
        assert widths(rod)["strip"] == strip_mm and "rod.left_over" not in rules(rod)


def test_what_hangs_and_does_not_go_in_is_not_free():
    rod = rod_of(between_walls(carcass("a", 600.0), wall_unit("high", 650.0), opening_mm=600.0))
    assert finding(rod, "rod.too_long").amount.mm == 50


def test_what_a_joint_may_open_is_not_left_over():
    """0.5 is what a joint may open and what is rounded to; 1 is more."""
    for over_mm, told in ((0.5, False), (1.0, True)):
        assert ("rod.left_over" in rules(rod_of(between_walls(carcass("a"), opening_mm=600.0 + over_mm)))) is told


def test_what_lines_up_is_no_finding_and_a_stranger_is():
    one = run(carcass("a"), wall_unit("high"), line_up=(LineUp("high", Edge.LEFT, "a", Edge.LEFT), LineUp("high", Edge.LEFT, "gone", Edge.LEFT)))
    rod = rod_of(one)
    assert [each.offset.text for each in rod.offsets] == ["0"] and rules(rod) == ["rod.line_up"]


def test_hanging_units_stand_on_the_line_of_what_hangs():
    one = run(carcass("a"), wall_unit("high"), void_mm=15.0)
    lines = {one.id: (line_of(one, back_mm=18.0), line_of(one, back_mm=12.0))}
    (rod,) = room_rods(one, lines=lines)
    assert {placed.item.id: placed.back_mm for placed in rod.placed} == {"a": 18, "high": 12}
    assert rod.run.void_mm == 18
