"""What a corner says beside its angle: which way its walls go, what its joint may open, what its post is made of, and
what a line set square and a triangle make of each other."""

import math
from dataclasses import replace

import corner_rooms as here
import pytest

from oddleg.job import CornerPost, EndPanel, Entry, Handing, Storey, WallHeight, WallLine
from oddleg.plan.corner_angle import corners
from oddleg.plan.finding import Severity
from oddleg.plan.triangle import measured_angle

LEFT, RIGHT = here.runs([here.unit("blind-base", 1000.0, Handing.LEFT)], [here.post(60.0), here.drawers("pans", 600.0)])
ROOM = here.room(LEFT, RIGHT)
SQUARE = here.triangle(3000.0, 4000.0, 5000.0)


def corner_of(*bodies, room=ROOM, walls=(), lines=(), **tolerances):
    entries = tuple(Entry(line.id, i, "ned", "2026-11-23T10:00:00.000Z", line) for i, line in enumerate(lines))
    (found,) = corners(here.job(room, **tolerances), room, here.site(*bodies, wall_lines=entries), walls)
    return found


def told(corner, rule):
    (one,) = [each for each in corner.findings if each.rule == rule]
    return one


# Angle and far ends.


@pytest.mark.parametrize(
    ("across_mm", "kind", "way"), [(5005.0, "open by", "behind square"), (4990.0, "closed by", "out into the room"), (5000.0, "square", "at square")]
)
def test_open_walls_fall_back_and_closed_ones_come_out(across_mm, kind, way):
    words = corner_of(here.triangle(3000.0, 4000.0, across_mm)).words
    assert kind in words and words.count(f"its wall is {way}" if way == "at square" else way) == 2


def test_how_sure_a_corner_is_in_degrees():
    """FP: each side good to 1: d cos = root of (1/4000)² + (1/3000)² + (5000/12e6)², in degrees at square."""
    give = math.hypot(1 / 4000, 1 / 3000, 5000 / 12e6)
    assert f"±{math.degrees(give):.2f}" in corner_of(SQUARE).words


def test_in_a_corner_off_square_a_degree_is_worth_more_than_its_cosine():
    """FP: at 80 degrees d angle = d cos / sin 80."""
    angle = measured_angle(here.triangle(3000.0, 4000.0, math.sqrt(25e6 - 24e6 * math.cos(math.radians(80)))), 1.0)
    assert angle.deg == pytest.approx(80.0)
    assert angle.give_or_take_deg == pytest.approx(math.degrees(angle.give_or_take) / math.sin(math.radians(80)))


def test_sides_that_cannot_close_or_lie_far_from_the_drawing_stop():
    assert told(corner_of(here.triangle(3000.0, 4000.0, 7000.0)), "corner.sides").severity is Severity.STOP
    assert told(corner_of(here.triangle(3000.0, 4000.0, 6000.0)), "corner.unlikely").severity is Severity.STOP


# The worktop joint.


def test_a_short_triangle_says_what_a_mm_in_the_diagonal_does_to_a_metre():
    """FP: 1000 / (600 x 800) a mm is 2.08 on a metre; ±1 each side over 600 of top."""
    one = told(corner_of(here.triangle(600.0, 800.0, 1000.0)), "corner.short_triangle")
    assert "1 in the diagonal is 2.08 on every metre" in one.wrong
    assert one.amount.mm == pytest.approx(600 * math.hypot(1 / 800, 1 / 600, 1000 / 480_000))


def test_where_no_joint_may_open_at_all_no_longer_sides_are_asked_for():
    """FP: no triangle is surer than nothing; the job allows a joint of 0."""
    one = told(corner_of(SQUARE, greatest_joint_mm=0.0), "corner.short_triangle")
    assert "let it open by some mm" in one.cure and "Measure again" not in one.cure
    assert corner_of(SQUARE, greatest_joint_mm=0.0).cut_joint is None


def test_a_top_runs_through_only_where_both_runs_have_base_units():
    """One base unit in each is enough; a tall run on one side takes the joint away."""
    tall = replace(LEFT.items[0], id="tall", storey=Storey.TALL)
    with_both = here.room(replace(LEFT, items=(*LEFT.items, tall)), RIGHT)
    assert corner_of(SQUARE, room=with_both).cut_joint is False and "square joint does" in corner_of(SQUARE, room=with_both).joint_words
    only_tall = here.room(replace(LEFT, items=(tall,)), RIGHT)
    assert corner_of(SQUARE, room=only_tall).joint_words == "No worktop runs through this corner."


# The post.


def with_post(*items):
    return here.room(LEFT, replace(RIGHT, items=items))


def test_the_post_says_what_it_is_made_of():
    assert corner_of(SQUARE).post_has.why == "post, as drawn."
    two = corner_of(SQUARE, room=with_post(here.post(20.0, "one"), here.post(40.0, "two"), here.drawers("pans", 600.0)))
    assert (two.post_has.mm, two.post_has.why) == (60.0, "one and two, as drawn.")
    none = corner_of(SQUARE, room=with_post(here.drawers("pans", 600.0)))
    assert (none.post_has.mm, none.post_has.why) == (0.0, "Nothing is drawn there.")


def test_a_front_without_a_handle_asks_for_none():
    """FP: front 20 + play 5; with a handle of 35 60."""
    bare = replace(here.DOOR, handle_projection_mm=0.0)
    plain = here.room(replace(LEFT, items=(here.unit("blind-base", 1000.0, Handing.LEFT, front=bare),)), RIGHT)
    assert corner_of(SQUARE, room=plain).post_least.mm == 20 + 5 and "handle" not in corner_of(SQUARE, room=plain).post_least.why
    assert corner_of(SQUARE).post_least.mm == 20 + 35 + 5 and "its handle 35" in corner_of(SQUARE).post_least.why


def test_an_end_panel_in_the_corner_takes_part_of_it_and_a_plain_unit_ends_it():
    panel = EndPanel("cheek", "cheek", 18.0, 580.0)
    short = corner_of(SQUARE, room=with_post(panel, here.drawers("pans", 600.0)))
    assert short.post_has.mm == 18 and told(short, "corner.post").amount.mm == 60 - 18
    plain = here.unit("plain", 300.0, front=None)
    assert corner_of(SQUARE, room=with_post(plain, here.drawers("pans", 600.0))).post_least is None


def test_a_post_too_narrow_is_a_warning_that_makes_it_wider():
    """FP: 60 wanted, 40 there."""
    one = told(corner_of(SQUARE, room=with_post(CornerPost("post", "post", 40.0), here.drawers("pans", 600.0))), "corner.post")
    assert one.severity is Severity.WARN and one.amount.mm == 20 and "Make post 60 wide or more instead of 40" in one.cure


# The lines that the walls were read from.


LINES = (WallLine("line-a", "laser line of Window run", "window"), WallLine("line-b", "laser line of Side run", "side", square_to="line-a"))


def walls_of(left=((500.0, 0.0), (4000.0, 0.0)), right=((-575.0, 0.0), (3000.0, 0.0))):
    return (here.wall(LEFT, left, line="line-a"), here.wall(RIGHT, right, line="line-b"))


def test_a_line_set_square_and_a_triangle_that_says_otherwise_is_a_warning_with_figures():
    """FP: 5040 across: cos = -(5040² - 25e6) / 24e6 = -0.016733, over the longer leg, 4000: 66.9. Give or take: that of the
    triangle, and root 2 for the chord of either wall over the leg that is read, 3000 and all 3575 of the other."""
    corner = corner_of(here.triangle(3000.0, 4000.0, 5040.0), walls=walls_of(), lines=LINES)
    one = told(corner, "corner.square_or_not")
    assert one.severity is Severity.WARN and one.amount.mm == pytest.approx(4000 * (5040.0**2 - 25e6) / 24e6, rel=1e-3)
    cos = (25e6 - 5040.0**2) / 24e6
    sides = math.hypot(1 / 4000 - cos / 3000, 1 / 3000 - cos / 4000, 5040 / 12e6)
    unsure = math.hypot(sides, math.sqrt(2) / 3000, math.sqrt(2) / 3575)
    assert f"give or take {4000 * unsure:.1f}" in one.wrong and corner.line_angle_deg == 90.0


@pytest.mark.parametrize(("missing", "name"), [(0, "Window run"), (1, "Side run")])
def test_a_leg_whose_wall_is_read_along_less_than_half_of_it_is_a_warning(missing, name):
    """FP: half of 3000 is 1500 before the corner at 4000; half of 4000 more than 1400 after it."""
    short = (((2600.0, 0.0), (4000.0, 0.0)), ((-575.0, 0.0), (1000.0, 0.0)))
    given = [((500.0, 0.0), (4000.0, 0.0)), ((-575.0, 0.0), (3000.0, 0.0))]
    given[missing] = short[missing]
    one = told(corner_of(SQUARE, walls=walls_of(*given)), "corner.leg_not_read")
    assert one.severity is Severity.WARN and name in one.wrong


def test_of_two_heights_the_batten_tells_how_a_wall_runs():
    """FP: 12 over 3000 out into the room at batten height, towards the corner: the line and the wall are 4 in 1000 apart."""
    left, right = walls_of(left=((1000.0, 0.0), (4000.0, 12.0)))
    high = here.wall(LEFT, ((1000.0, 0.0), (4000.0, 90.0)), line="line-a", height=WallHeight.WORKTOP)
    both = replace(left, spots=(*high.spots, *left.spots))
    corner = corner_of(SQUARE, walls=(both, right))
    assert corner.line_angle_deg == pytest.approx(90 - math.degrees(math.atan(12 / 3000)))


def test_a_line_set_square_to_a_line_that_nothing_was_read_from_is_no_square():
    unread = replace(walls_of()[0], lines=(("line-a", "laser line of Window run", 0),))
    corner = corner_of(walls=(unread, walls_of()[1]), lines=LINES)
    assert "corner.guess" in [one.rule for one in corner.findings]
