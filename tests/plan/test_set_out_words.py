"""What rod, front line and batten say beside their figures: the right side, the right place, as grave as it is."""

import math
from dataclasses import replace

import pytest
import sample_room as sample
from rod_runs import (
    BACK,
    BATTEN,
    FLOOR,
    FRONT,
    WALL_UNITS,
    WORKTOP,
    bay,
    between_walls,
    carcass,
    filler,
    finding,
    mark,
    rod_of,
    room_rods,
    rules,
    run,
    wall_of,
    wall_unit,
)
from set_out_rooms import LEVEL, lines_of, wall, with_batten
from set_out_rooms import finding as of_findings
from set_out_rooms import line_of as front_line_of
from set_out_rooms import rod as rod_on
from set_out_rooms import run as wall_run
from set_out_rooms import units as wall_units

from oddleg.job import (
    Anchor,
    AnchorOn,
    Box,
    Edge,
    EndPanel,
    EndsAt,
    Feature,
    FeatureKind,
    FrontLineRule,
    Gap,
    LineIs,
    LineUp,
    RunEnd,
    Storey,
    Worktop,
)
from oddleg.plan.battens import batten, panel_scribes
from oddleg.plan.finding import Severity
from oddleg.plan.packs import packed

WINDOW = Feature("window", "kitchen window", FeatureKind.WINDOW, 1400.0, 2600.0)


# What the row is set out from.


@pytest.mark.parametrize(
    ("anchor", "words"),
    [
        (None, "It begins at the zero mark."),
        (Anchor(AnchorOn.LEFT_END), "It begins at the zero mark."),
        (Anchor(AnchorOn.RIGHT_END), "It ends at the end mark."),
        (Anchor(AnchorOn.MIDDLE), "The middle of the row lies on the middle between zero and end mark, 1500 from the zero."),
        (Anchor(AnchorOn.MARK, x_mm=1200.0), "The middle of the row lies on its own mark, 1200 from the zero."),
        (Anchor(AnchorOn.LEFT_END, item="b", item_edge=Edge.RIGHT, item_offset_mm=0.0), "The right edge of b lies on the zero mark, 0 from the zero."),
        (Anchor(AnchorOn.RIGHT_END, item="b", item_edge=Edge.LEFT), "The left edge of b lies on the end mark, 3000 from the zero."),
        (
            Anchor(AnchorOn.FEATURE, "window", Edge.LEFT, item="b", item_offset_mm=30.0, what="bowl"),
            "The place 30 to the right of the centre of b (bowl) lies on the left edge of kitchen window, 1400 from the zero.",
        ),
        (
            Anchor(AnchorOn.FEATURE, "window", Edge.RIGHT, item="b", item_edge=Edge.LEFT, item_offset_mm=-30.0),
            "The place 30 to the left of the left edge of b lies on the right edge of kitchen window, 2600 from the zero.",
        ),
    ],
)
def test_what_lies_on_what_is_said_as_it_is_put_there(anchor, words):
    one = between_walls(filler("l", 0.0, 3000.0), carcass("a"), carcass("b"), filler("r", 0.0, 3000.0), opening_mm=3000.0, anchor=anchor, features=(WINDOW,))
    assert rod_of(one).anchor_words == words


def test_an_offset_to_the_right_of_an_edge_moves_the_unit_left():
    """FP: 30 right of the centre of 600 on 1400: its left edge at 1400 - 300 - 30."""
    anchor = Anchor(AnchorOn.FEATURE, "window", Edge.LEFT, item="b", item_offset_mm=30.0)
    rod = rod_of(between_walls(filler("l", 0.0, 3000.0), carcass("b"), filler("r", 0.0, 3000.0), opening_mm=3000.0, anchor=anchor, features=(WINDOW,)))
    assert mark(rod, "b-left").x_mm == pytest.approx(1400 - 300 - 30)


def test_centres_are_marked_of_what_is_to_line_up_by_its_centre_and_of_nothing_else():
    """The fitter needs b's centre and that of w, not that of a, which lines up by its edge."""
    lines = (LineUp("a", Edge.LEFT, "w", Edge.LEFT), LineUp("w", Edge.CENTRE, "b", Edge.CENTRE))
    one = between_walls(carcass("a"), carcass("b"), wall_unit("w"), opening_mm=1200.0, line_up=lines)
    assert {each.id: each.x_mm for each in rod_of(one).marks if each.kind == "centre"} == {"w-centre": 300.0, "b-centre": 900.0}
    only = replace(one, line_up=(LineUp("a", Edge.LEFT, "w", Edge.CENTRE),))
    assert [each.id for each in rod_of(only).marks if each.kind == "centre"] == ["w-centre"]


# What is left, and where.


@pytest.mark.parametrize(("on", "where"), [(AnchorOn.LEFT_END, "at the end mark"), (AnchorOn.RIGHT_END, "at the zero mark")])
def test_what_stays_open_is_said_at_the_end_where_it_is(on, where):
    told = finding(rod_of(between_walls(carcass("a"), opening_mm=650.0, anchor=Anchor(on))), "rod.left_over")
    assert f"leaves 50 open {where}" in told.wrong and told.amount.mm == 650 - 600


def test_every_filler_that_is_short_is_named_and_nothing_else():
    """FP: 10 for two fillers of 20 at least: 5 each, 30 missing; the third is on the other side of the anchor."""
    one = between_walls(filler("far", 0.0, 3000.0), carcass("a"), filler("l"), filler("r"), opening_mm=2010.0, anchor=Anchor(AnchorOn.MARK, x_mm=2000.0, item="a", item_edge=Edge.RIGHT))
    told = finding(rod_of(one), "rod.filler_narrow")
    assert told.wrong == "l would be 5, its least is 20 and r would be 5, its least is 20: 30 missing."
    assert told.amount.mm == 20 + 20 - 10


def test_of_several_places_where_a_wall_stands_in_front_of_its_mark_the_worst_is_told():
    one = between_walls(carcass("a"), opening_mm=3000.0)
    told = finding(rod_of(one, gaps=[("left", FLOOR, BACK, -3.0), ("left", WORKTOP, BACK, -8.0), ("left", BATTEN, FRONT, -5.0)]), "rod.mark_not_plumbed")
    assert told.amount.mm == 8 and told.severity is Severity.STOP and "at worktop height" in told.wrong


def test_an_opening_as_drawn_is_a_note_and_one_that_nobody_knows_a_warning():
    assert finding(rod_of(between_walls(carcass("a"), opening_mm=600.0)), "rod.opening_drawn").severity is Severity.NOTE
    assert finding(rod_of(between_walls(carcass("a"))), "rod.no_opening").severity is Severity.WARN


def test_a_filler_says_what_it_takes_up_and_what_it_shows():
    def of(*items, openings=(), **more):
        rod = rod_of(between_walls(*items, opening_mm=1000.0, **more), openings)
        return {one.item: (one.width.text, one.width.why, one.narrow.why) for one in rod.fillers}

    beside = "No side wall beside it is measured."
    alone = of(carcass("a"), filler("f", 20.0, 1000.0))
    assert alone["f"] == ("400", "What is left on its side of the anchor, all of it.", beside)
    two = of(filler("l", 20.0, 1000.0), carcass("a"), filler("r", 20.0, 1000.0))
    assert two["l"][:2] == ("200", "Its share of what is left on its side of the anchor, among 2 fillers.")
    held = of(filler("l", 20.0, 100.0), carcass("a"), filler("r", 20.0, 1000.0))
    assert held["l"][:2] == ("100", "Its own limit; what is left goes to the others, or stays open.")
    assert held["r"][0] == "300" and "Its share" in held["r"][1]
    short = of(carcass("a", 990.0), filler("f", 20.0, 100.0))
    assert short["f"][:2] == ("10", "What there is for it, less than its least.")
    keeps = of(carcass("a"), filler("f", 20.0, 100.0, share=0.0))
    assert keeps["f"][:2] == ("50", "As drawn: it takes up nothing, or the row is free on its side, or the end there is not known.")
    measured = of(carcass("a"), filler("f", 20.0, 1000.0), openings=[(FLOOR, FRONT, 1000.0), (WORKTOP, FRONT, 1006.0)])
    assert measured["f"][2].startswith("Over the heights measured it shows 400")


def test_a_limit_of_nought_stays_nought_beside_a_wall_that_runs_away():
    """FP: the wall lies 8 beyond the end mark everywhere, a filler of at least 5 may take nothing between the marks."""
    gaps = [("right", height, depth, 8.0) for height in (FLOOR, BATTEN, WORKTOP) for depth in (BACK, FRONT)]
    one = between_walls(carcass("a", 1000.0), filler("f", 5.0, 100.0), opening_mm=1008.0)
    rod = rod_of(one, gaps=gaps)
    assert [(each.width.mm, each.narrow.mm) for each in rod.fillers] == [(0.0, 8.0)]
    assert "rod.filler_narrow" not in rules(rod)


# Side walls measured more than once.


def test_two_widths_of_one_place_widen_what_is_known_of_the_wall_there():
    """FP: 2000 at the floor is the narrowest; 2003 and 2006 at worktop height say 3 to 6 beyond the end, at one wall."""
    one = between_walls(carcass("a"), filler("f", 20.0, 3000.0), opening_mm=2000.0)
    one = replace(one, left_end=RunEnd(EndsAt.OPEN))
    rod = rod_of(one, [(FLOOR, FRONT, 2000.0), (WORKTOP, FRONT, 2006.0), (WORKTOP, FRONT, 2003.0)])
    assert rod.fillers[0].words.startswith("f: 1400 just over the floor, 1403 to 1406 at worktop height")


def test_two_gaps_of_one_place_the_wider_counts_for_the_opening_and_both_for_what_shows():
    one = between_walls(carcass("a"), filler("f", 20.0, 3000.0), opening_mm=2000.0)
    rod = rod_of(one, [(FLOOR, FRONT, 2000.0)], gaps=[("right", FLOOR, FRONT, 4.0), ("right", FLOOR, FRONT, 7.0)])
    assert rod.opening.mm == 2000 - 7
    assert rod.fillers[0].words.startswith(f"f: {1993 - 600 + 4} to {1993 - 600 + 7} just over the floor")


def test_a_place_that_was_measured_to_the_mark_is_not_reckoned_again():
    """FP: 2010 at worktop height less 4 measured there is 2006; the floor's 2000 is narrower. To the left mark 4 there, and
    the rest, 6, at the right."""
    one = between_walls(filler("l", 20.0, 3000.0), carcass("a"), filler("r", 20.0, 3000.0), opening_mm=2000.0, anchor=Anchor(AnchorOn.MIDDLE))
    rod = rod_of(one, [(FLOOR, FRONT, 2000.0), (WORKTOP, FRONT, 2010.0)], gaps=[("left", WORKTOP, FRONT, 4.0)])
    left, right = rod.fillers
    assert "704 at worktop height" in left.words and "706 at worktop height" in right.words


# The front line.


def test_the_void_says_where_the_backs_lie_and_where_the_wall():
    """FP: the wall stands out 6 at 600; void 10 there: backs at 16, parallel to the ends, which are alike."""
    line = front_line_of(wall(wall_run(), ((0.0, 0.0), (600.0, 6.0), (1200.0, 0.0))))
    assert line.least_void.why == "At 600 from the zero the line of backs lies at 16, the wall at 6 (wall 2, at batten height)."
    assert "the line of backs lies at 16, the wall at 0" in line.greatest_void.why and line.greatest_void.mm == 16


@pytest.mark.parametrize(("out_mm", "words"), [(6.0, "6 further out"), (-6.0, "6 further back"), (0.0, "and on it")])
def test_a_line_of_what_hangs_says_how_far_it_lies_from_that_of_what_stands(out_mm, words):
    hung = sample.carcass("hung", 600.0, depth_mm=320.0, legs=None, storey=Storey.WALL)
    of_wall = wall(wall_run(*wall_units(), hung), LEVEL, wall_units=tuple((x, out_mm) for x, _ in LEVEL))
    assert words in lines_of(of_wall)["run-a"][1].words


def test_a_run_that_stands_free_says_nothing_of_a_wall():
    island = replace(wall_run(*wall_units(prefix="island")), id="island", wall=None)
    line = lines_of(wall(wall_run()), runs=[wall_run(), island])["island"][0]
    assert line.words == "Free-standing: backs lie where they are drawn."
    assert line.least_void.why == "The job's void: the run stands free of walls." and line.findings == ()


def test_a_wall_that_is_not_read_says_whether_its_line_was_turned():
    alone = front_line_of(wall(wall_run()))
    assert alone.words == "The wall is not read: backs lie the job's void from the wall as drawn."
    window = replace(wall_run(*wall_units(prefix="window"), right_end=RunEnd(EndsAt.OTHER_BACKS, "side")), id="window")
    side = replace(wall_run(*wall_units(prefix="side"), left_end=RunEnd(EndsAt.OTHER_FRONTS, "window"), x_mm=1200.0), id="side", bearing_deg=90.0)
    lines = lines_of(wall(window, ((0.0, 0.0), (1200.0, 12.0))), runs=[window, side])
    assert "turned with the runs that it meets" in lines["side"][0].words and lines["side"][0].slope != 0


def test_rules_that_clash_in_a_corner_are_a_warning_that_says_by_how_much_a_metre():
    """FP: one line parallel to a wall that runs 12 in 1200 off, that is 10 a metre; the other to one that runs straight."""
    window = replace(wall_run(*wall_units(prefix="window"), right_end=RunEnd(EndsAt.OTHER_BACKS, "side"), front_line=FrontLineRule(LineIs.PARALLEL, 0.0, 1200.0)), id="window")
    side = replace(
        wall_run(*wall_units(prefix="side"), left_end=RunEnd(EndsAt.OTHER_FRONTS, "window"), x_mm=1200.0, front_line=FrontLineRule(LineIs.PARALLEL, 0.0, 1200.0)),
        id="side", bearing_deg=90.0,
    )  # fmt: skip
    straight = tuple((x, 0.0) for x in (0.0, 600.0, 1200.0))
    lines = lines_of(wall(window, ((0.0, 0.0), (1200.0, 12.0)), worktop=((0.0, 0.0), (1200.0, 12.0))), wall(side, straight, worktop=straight))
    told = [one for pair in lines.values() for one in pair[0].findings if one.rule == "front_line.rules_clash"]
    assert {(one.severity, round(one.amount.mm, 6)) for one in told} == {(Severity.WARN, 10.0)} and len(told) == 2
    assert "10 apart per metre" in told[0].wrong


def test_a_corner_waits_for_the_run_that_one_of_its_runs_is_square_to():
    """The window run is square to one that comes after it in the room, whose wall runs 10 a metre off its line."""
    window = replace(wall_run(*wall_units(prefix="window"), right_end=RunEnd(EndsAt.OTHER_BACKS, "side"), front_line=FrontLineRule(LineIs.SQUARE, run="far")), id="window")
    side = replace(wall_run(*wall_units(prefix="side"), left_end=RunEnd(EndsAt.OTHER_FRONTS, "window"), x_mm=1200.0), id="side", bearing_deg=90.0)
    far = replace(wall_run(*wall_units(prefix="far"), y_mm=3000.0), id="far")
    lines = lines_of(wall(far, ((0.0, 0.0), (1200.0, 12.0))), runs=[window, side, far])
    assert [lines[id][0].slope for id in ("far", "window", "side")] == pytest.approx([0.01] * 3)


def test_an_end_in_a_corner_goes_by_the_nearest_height_at_which_the_other_wall_was_read():
    """FP: the side wall stands back 3 at the batten and 9 at wall-unit height. Measured at worktop height, both are as
    near; the lower one counts: its void of 15 and 3. Measured at wall-unit height: 15 and 9."""
    side = run(carcass("s"), id="side", x_mm=4000.0, void_mm=15.0, left_end=RunEnd(EndsAt.OTHER_FRONTS, "window"))
    side = replace(side, bearing_deg=90.0)
    window = run(carcass("w"), filler("f", 0.0, 4000.0), id="window", void_mm=15.0, left_end=RunEnd(EndsAt.WALL), right_end=RunEnd(EndsAt.OTHER_BACKS, "side"))
    face = [(x, height, y) for height, y in ((BATTEN, -3.0), (WALL_UNITS, -9.0)) for x in (0.0, 1200.0)]
    for height, back_mm in ((WORKTOP, 3.0), (WALL_UNITS, 9.0), (FLOOR, 3.0)):
        walls = (wall_of(window, [(height, BACK, 4000.0)]), wall_of(side, face=face))
        rod, _ = room_rods(window, side, walls=walls)
        assert rod.opening.mm == pytest.approx(4000 - 15 - back_mm), height


@pytest.mark.parametrize("turned_deg", [30.0, 137.0, -90.0])
def test_a_room_drawn_turned_lays_the_same_lines(turned_deg):
    """A corner drawn 1.5 degrees off square, nothing measured of it; then the whole room turned."""
    def slopes(by_deg):
        window = replace(wall_run(*wall_units(prefix="window"), right_end=RunEnd(EndsAt.OTHER_BACKS, "side")), id="window", bearing_deg=by_deg)
        side = replace(wall_run(*wall_units(prefix="side"), left_end=RunEnd(EndsAt.OTHER_FRONTS, "window")), id="side", bearing_deg=by_deg + 91.5)
        lines = lines_of(wall(window, ((0.0, 0.0), (1200.0, 6.0))), runs=[window, side])
        return [lines[id][0].slope for id in ("window", "side")]

    assert slopes(turned_deg) == pytest.approx(slopes(0.0)) and slopes(0.0)[0] == pytest.approx(6 / 1200)
    assert abs(slopes(0.0)[1] - slopes(0.0)[0]) == pytest.approx(math.tan(math.radians(1.5)))


def test_an_end_mark_says_where_it_comes_from():
    measured = mark(rod_of(between_walls(carcass("a"), opening_mm=3000.0), [(FLOOR, FRONT, 2990.0)]), "end")
    assert measured.from_left.why.startswith("2990 measured just over the floor")
    free = replace(between_walls(carcass("a")), right_end=RunEnd(EndsAt.OPEN))
    assert mark(rod_of(free), "end").from_left.why.startswith("The last edge of the run")


# The worktop over it.


def worktop_told(void_mm=50.0, items=None, points=LEVEL, **top):
    of_wall = wall(wall_run(*(items or wall_units()), void_mm=void_mm), worktop=points)
    line = front_line_of(of_wall, worktop=Worktop(30.0, **top))
    return line, [one for one in line.findings if one.rule == "front_line.worktop_depth"]


def test_a_board_exactly_as_deep_as_is_needed_will_do():
    """FP: 50 + 560 + 20 + 20 = 650; a 600 board is 50 short, and one of 650 will do."""
    line, (told,) = worktop_told()
    assert line.depth_needed.mm == 50 + 560 + 20 + 20
    assert told.severity is Severity.WARN and told.amount.mm == 650 - 600 and "take a board of 650 or 900" in told.cure.lower()
    assert worktop_told(depth_mm=650.0)[1] == []


def test_a_worktop_before_a_wall_that_is_not_read_rests_on_the_jobs_void():
    told = [one for one in front_line_of(wall(wall_run(void_mm=50.0)), worktop=Worktop(30.0)).findings if one.rule == "front_line.worktop_depth"]
    assert [one.severity for one in told] == [Severity.NOTE] and "this rests on the job's void" in told[0].wrong
    assert "rests on" not in worktop_told()[1][0].wrong


def test_what_is_short_may_be_taken_off_the_overhang_only_if_there_is_as_much():
    (twenty,), (nineteen,) = (worktop_told(void_mm=void_mm)[1] for void_mm in (20.0, 19.0))
    assert (twenty.amount.mm, nineteen.amount.mm) == (20, 19)
    assert "let it overhang" not in twenty.cure and "let it overhang 1" in nineteen.cure


def test_the_top_covers_the_void_behind_the_base_units_only():
    """FP: the wall falls back 30 behind a tall unit and a gap, where no top comes: void 10 behind the base."""
    tall = sample.carcass("tall", 600.0, height_mm=2000.0, storey=Storey.TALL)
    items = (*wall_units(1), tall, Gap("gap", "gap", 600.0))
    points = ((0.0, 0.0), (600.0, 0.0), (601.0, -30.0), (1800.0, -30.0))
    line, _ = worktop_told(void_mm=10.0, items=items, points=points)
    at_base = max(line.back_at(x) - 0.0 for x in (0.0, 600.0))
    assert line.depth_needed.mm == pytest.approx(at_base + 560 + 20 + 20, abs=1e-6)


def test_bays_alone_carry_a_top_as_deep_as_they_are():
    """FP: void 10 + bay 560 + overhang 20; no front beside it."""
    line, _ = worktop_told(void_mm=10.0, items=(bay(),), points=((0.0, 0.0), (600.0, 0.0)))
    assert line.depth_needed.mm == 10 + 560 + 20


# The batten.


def laid(of_run, points, datum_mm=875.0, **job):
    of_wall = wall(of_run, points)
    line = front_line_of(of_wall)
    room = sample.room(of_run)
    return batten(sample.job(room, **job), room, of_wall, line, rod_on(line), datum_mm)


def test_each_piece_says_what_its_ends_are():
    found = laid(with_batten(wall_run(*wall_units(5), void_mm=20.0), stock_mm=2400.0), ((0.0, 0.0), (3000.0, 0.0)))
    one, other = found.pieces
    assert (one.right.why, other.right.why) == ("A joint between two fixings, one for each end.", "An end of the batten.")
    assert (one.left.why, other.left.why) == ("An end of the batten.", "A joint between two fixings, one for each end.")


def test_a_recess_too_shallow_for_what_lacks_is_no_cure():
    """FP: void 5, batten 20: 15 lack; a recess of 10 does not give them, one of 15 does, and a batten of 5 would."""
    told = {
        recess_mm: of_findings(laid(with_batten(wall_run(*wall_units(box=Box(back_recess_mm=recess_mm)), void_mm=5.0), thickness_mm=20.0), LEVEL).findings, "batten.no_room")
        for recess_mm in (10.0, 15.0)
    }
    assert "recess" not in told[10.0].cure and "set it in the back recess of 15" in told[15.0].cure
    assert "take a batten of 5 or less" in told[10.0].cure


def test_a_batten_thicker_than_all_there_is_is_not_told_to_be_thinner_than_nought():
    """FP: no void, batten 20: 20 lack."""
    told = of_findings(laid(with_batten(wall_run(void_mm=0.0), thickness_mm=20.0), LEVEL).findings, "batten.no_room")
    assert told.amount.mm == -20 and "take a batten" not in told.cure


def test_of_several_bumps_the_worst_is_told_and_each_is_eased():
    """FP: backs parallel to the wall at 12; bumps of 10 and 12 leave 2 and 0 for a batten of 3: -1 and -3."""
    points = ((0.0, 0.0), (200.0, 0.0), (300.0, 10.0), (400.0, 0.0), (800.0, 0.0), (900.0, 12.0), (1000.0, 0.0), (1200.0, 0.0))
    one = with_batten(wall_run(void_mm=0.0, front_line=FrontLineRule(LineIs.PARALLEL, 0.0, 1200.0)), thickness_mm=3.0)
    told = of_findings(laid(one, points).findings, "batten.no_room")
    assert told.amount.mm == pytest.approx(-3.0) and "at 900 from the zero" in told.wrong
    assert "by up to 1, most at 300" in told.cure and "by up to 3, most at 900" in told.cure


def test_within_one_bump_the_worst_place_is_told():
    """FP: backs at 12; 10, 12 and 11 leave 2, 0 and 1 for a batten of 3: worst at 350."""
    points = ((0.0, 0.0), (200.0, 0.0), (300.0, 10.0), (350.0, 12.0), (400.0, 11.0), (500.0, 0.0), (1200.0, 0.0))
    one = with_batten(wall_run(void_mm=0.0, front_line=FrontLineRule(LineIs.PARALLEL, 0.0, 1200.0)), thickness_mm=3.0)
    told = of_findings(laid(one, points).findings, "batten.no_room")
    assert told.amount.mm == pytest.approx(-3.0) and "at 350 from the zero" in told.wrong and "by up to 3, most at 350" in told.cure


def test_studs_at_the_very_ends_and_within_25_of_a_zone_get_no_fixing():
    """Ours: 20 from an end a stud would split the batten; 25 beside a socket's edges are kept clear."""
    socket = Feature("socket", "socket", FeatureKind.ELECTRIC, 480.0, 560.0, 1100.0, 1180.0)
    studs = (10.0, 300.0, 460.0, 580.0, 590.0, 900.0, 1190.0)
    found = laid(with_batten(wall_run(void_mm=30.0, features=(socket,)), supports_mm=studs), LEVEL)
    assert [one.x_mm for one in found.fixings] == [300.0, 590.0, 900.0]
    told = of_findings(found.findings, "batten.support_in_a_zone")
    assert "460" in told.wrong and "580" in told.wrong and "590" not in told.wrong


def test_a_tall_panel_is_scribed_at_wall_unit_height_too_and_a_low_one_is_not():
    tall, low = EndPanel("tall", "tall", 18.0, 580.0, storey=Storey.TALL), EndPanel("low", "low", 18.0, 580.0)
    of_wall = wall(wall_run(tall, *wall_units(), low), LEVEL, wall_units=tuple((x, -7.0) for x, _ in LEVEL))
    line = front_line_of(of_wall)
    scribes = {one.item: one for one in panel_scribes(sample.job(sample.room(of_wall.run)), of_wall, line, rod_on(line))}
    assert [words for words, _ in scribes["tall"].scribe] == ["at batten height", "at wall-unit height"]
    assert [words for words, _ in scribes["low"].scribe] == ["at batten height"]


def test_where_two_things_stand_out_at_one_place_the_one_further_out_counts():
    near, far = (Feature(id, id, FeatureKind.OTHER, 300.0, 400.0, 800.0, 900.0, out_mm) for id, out_mm in (("near", 5.0), ("far", 15.0)))
    found = laid(with_batten(wall_run(void_mm=40.0, features=(near, far)), thickness_mm=20.0), LEVEL)
    assert found.least.mm == 40 - 20 - 15


def test_a_little_less_than_nothing_to_pack_asks_for_no_packer():
    """FP: 0.4 less than nought rounds to nothing; 0.6 less is a stop and asks for no packer either."""
    for void_mm in (19.6, 19.4):
        found = laid(with_batten(wall_run(void_mm=void_mm), thickness_mm=20.0), LEVEL, packs_mm=(5.0,))
        assert not [one for one in found.findings if one.rule == "batten.packers"], void_mm
        assert of_findings(found.findings, "batten.no_room").severity is Severity.STOP


def test_what_is_in_the_battens_way_is_a_warning():
    door = Feature("door", "side door", FeatureKind.DOOR, 600.0, 900.0)
    found = laid(with_batten(wall_run(void_mm=30.0, features=(door,))), LEVEL)
    assert of_findings(found.findings, "batten.opening").severity is Severity.WARN


def test_a_run_lower_than_the_rooms_datum_has_its_batten_as_much_lower():
    """FP: datum 875, the run 40 lower: the batten from 790 to 835; a pier up to 800 comes to it, one from 840 does not."""
    for bottom_mm, top_mm, packing in ((0.0, 800.0, 20 - 5 - 12), (840.0, 900.0, 20 - 5)):
        pier = Feature("pier", "pier", FeatureKind.OTHER, 300.0, 400.0, bottom_mm, top_mm, 12.0)
        found = laid(with_batten(wall_run(void_mm=20.0, features=(pier,), datum_offset_mm=-40.0), thickness_mm=5.0), LEVEL)
        assert found.least.mm == packing


def test_a_wall_not_read_at_all_is_a_note_and_one_read_in_part_a_warning():
    unread = of_findings(laid(with_batten(wall_run()), None).findings, "batten.unread")
    partly = of_findings(laid(with_batten(wall_run(*wall_units(4), void_mm=30.0)), ((0.0, 0.0), (1200.0, 0.0))).findings, "batten.unread")
    assert (unread.severity, partly.severity) == (Severity.NOTE, Severity.WARN)


def test_a_pier_of_unknown_height_is_asked_for_without_a_caution_of_cables():
    pier = Feature("pier", "pier", FeatureKind.OTHER, 300.0, 400.0, stands_out_mm=12.0)
    socket = Feature("socket", "socket", FeatureKind.ELECTRIC, 700.0, 780.0)
    alone = of_findings(laid(with_batten(wall_run(void_mm=30.0, features=(pier,))), LEVEL).findings, "batten.levels_unknown")
    assert not alone.caution and alone.severity is Severity.NOTE and alone.source == ""
    both = of_findings(laid(with_batten(wall_run(void_mm=30.0, features=(pier, socket))), LEVEL).findings, "batten.levels_unknown")
    assert both.caution and "pier and socket" in both.wrong


def test_a_panel_is_scribed_to_a_wall_read_within_half_a_spacing_of_it_and_no_further():
    panel = EndPanel("panel", "panel", 18.0, 580.0)
    of_wall = wall(wall_run(panel, *wall_units()), ((309.0, 0.0), (900.0, 0.0)))
    line, job = front_line_of(of_wall), sample.job(sample.room(of_wall.run))
    assert len(panel_scribes(job, of_wall, line, rod_on(line))) == 1, "9 to 309 is 300"
    further = wall(of_wall.run, ((309.1, 0.0), (900.0, 0.0)))
    assert panel_scribes(job, further, front_line_of(further), rod_on(front_line_of(further))) == ()


def test_packs_in_parts_of_a_mm_and_none_for_nothing():
    """FP: 5 = 2.5 + 2.5; nothing is packed with nothing; 7 of 2.5 is none; 4 of 2 and 3 is 2 + 2, not 3 and less."""
    assert packed(5, (2.5,)) == (2.5, 2.5) and packed(7, (2.5,)) is None
    assert packed(0, (3.0,)) == () and packed(0, ()) == () and packed(4, (2.0, 3.0)) == (2.0, 2.0)
    assert packed(9, (1.0, 3.0, 6.0)) == (6.0, 3.0) and packed(9, (4.0, 5.0, 8.0, 1.0)) == (5.0, 4.0)


def test_a_wall_that_comes_in_past_its_mark_leaves_no_room_for_a_strip_and_none_is_cut():
    """FP: a strip that keeps 10, the wall 25 in front of the mark at worktop height, 4 at the floor."""
    one = between_walls(carcass("a", 990.0), filler("f", 0.0, 100.0, width_mm=10.0, share=0.0), opening_mm=1000.0)
    rod = rod_of(one, gaps=[("right", WORKTOP, FRONT, -25.0), ("right", FLOOR, FRONT, -14.0)])
    (strip,) = rod.fillers
    assert strip.cut_from is None and strip.cut_words == "no room" and strip.words.startswith("f: nothing just over the floor and at worktop height; no room for it")
    assert finding(rod, "rod.mark_not_plumbed").amount.mm == 25
    half = rod_of(one, gaps=[("right", WORKTOP, FRONT, -25.0), ("right", FLOOR, FRONT, 6.0)]).fillers[0]
    assert half.words.startswith("f: 16 just over the floor, nothing at worktop height; cut from 21") and half.cut_from.mm == 10 + 6 + 5
