"""Tall and wall units: tops under the ceiling, standing a tall unit up, rail and clear heights, one line of tops."""

import math

import numpy as np
import pytest
from datum_rooms import falling, floor_of, room_of, rules, run_of, surface, unit
from tall_rooms import levels_of, made, overhead

from oddleg.job import Bound, HeightLimit, HeightOf, Legs, Storey, WallUnits, Worktop
from oddleg.plan.tilt_up import diagonal_mm

TALL = unit("tall", height_mm=1970.0, storey=Storey.TALL)
HUNG = unit("hung", height_mm=720.0, depth_mm=330.0, storey=Storey.WALL, legs=None)


def room(*items, **more):
    return room_of(run_of(*(items or (unit(), TALL, HUNG))), **more)


def tall(width_mm=600.0, height_mm=2100.0, depth_mm=580.0, leg_mm=150.0, inset_mm=50.0):
    """A tall unit whose rear legs come out at `leg_mm` over a floor at 0 where the datum is 720 + that."""
    legs = Legs(100, 200, 5, inset_back_mm=inset_mm, inset_side_mm=inset_mm)
    return unit("tall", width_mm, legs, height_mm=height_mm, depth_mm=depth_mm, storey=Storey.TALL), 720.0 + leg_mm


def ways(of):
    (tilt,) = of.tilt_ups
    return {words: needed.mm for words, needed, _ in tilt.ways}


def test_a_tall_unit_is_stood_up_about_its_rear_foot():
    """Trap 17, FP: (2100 + 150)^2 + (580 - 50)^2 = 5062500 + 280900, its root 2311.6, not 2178.6 = root of 2100^2 +
    580^2, which serves where legs are fitted afterwards."""
    item, datum_mm = tall()
    of = made(room(item), datum_mm)
    assert of.tilt_ups[0].diagonal.mm == pytest.approx(math.sqrt(2250**2 + 530**2))
    assert ways(of) == pytest.approx(
        {
            "on its rear feet, legs on": math.sqrt(2250**2 + 530**2),
            "on its rear edge, legs fitted afterwards": math.sqrt(2100**2 + 580**2),
        }
    )
    assert [round(one, 1) for one in ways(of).values()] == [2311.6, 2178.6]


def test_a_narrow_tall_unit_goes_up_sideways_with_less():
    """Trap 17, FP: 400 wide: root of 2250^2 + 350^2 = 2277.1."""
    item, datum_mm = tall(400.0)
    of = made(room(item), datum_mm)
    assert round(ways(of)["sideways, legs on"], 1) == 2277.1
    assert ways(of)["sideways, legs fitted afterwards"] == pytest.approx(math.sqrt(2100**2 + 400**2))


def test_a_unit_as_wide_as_deep_gains_nothing_sideways():
    item, datum_mm = tall(580.0)
    assert not any(words.startswith("sideways") for words in ways(made(room(item), datum_mm)))


def test_the_diagonal_is_never_less_than_height_or_depth():
    assert diagonal_mm(2100.0, 580.0) == pytest.approx(np.linalg.norm([2100.0, 580.0]))


def test_the_lowest_ceiling_on_the_way_decides_and_not_the_one_over_its_place():
    """FP: unit at x 0 to 600; the ceiling over it 2400, 2000 out in front 2300: 11.6 short of 2311.6."""
    item, datum_mm = tall()
    stations = (overhead("over", 300.0, 300.0), overhead("out", 300.0, 2000.0))
    of = made(room(item), datum_mm, stations=stations, levels=levels_of(over=2400.0, out=2300.0))
    (tilt,) = of.tilt_ups
    assert (tilt.goes, tilt.lowest.mm) == (False, 2300.0)
    assert [goes for _, _, goes in tilt.ways] == [False, True]
    (wrong,) = [one for one in of.findings if one.rule == "tall.tilt_up"]
    assert wrong.severity == "warn" and "legs fitted afterwards" in wrong.cure and "two parts" in wrong.cure
    assert wrong.amount.mm == pytest.approx(math.sqrt(2250**2 + 530**2) - 2300)


def test_the_headroom_is_over_the_highest_floor_on_the_way():
    """FP: ceiling 2320; the floor rises to 12 in front: 2308 there, under 2311.6."""
    item, datum_mm = tall()
    floor = floor_of(surface(lambda x, y: 12.0 if y > 1000 else 0.0))
    of = made(room(item), datum_mm, floor, (overhead("c", 300.0, 300.0),), levels_of(c=2320.0))
    assert of.tilt_ups[0].lowest.mm == 2308.0 and of.tilt_ups[0].goes is False


def test_the_leg_is_the_longer_of_the_rear_ones():
    """FP: floor falls 12 over 600: at the right-hand foot, x 550, it is 11 lower: leg 161."""
    item, datum_mm = tall()
    of = made(room(item), datum_mm, floor_of(surface(falling(12, 600))))
    assert of.tilt_ups[0].diagonal.mm == pytest.approx(math.hypot(2100 + 161, 530))


def test_where_no_way_goes_it_is_a_stop():
    item, datum_mm = tall()
    of = made(room(item), datum_mm, stations=(overhead("c", 300.0, 300.0),), levels=levels_of(c=2150.0))
    (wrong,) = [one for one in of.findings if one.rule == "tall.tilt_up"]
    assert wrong.severity == "stop" and "No way" in wrong.cure
    # Trap 17: what is left is a split carcass.
    assert "whether it can come in two parts" in wrong.cure


def test_a_spare_within_the_give_or_take_tells_nothing():
    item, datum_mm = tall()
    of = made(room(item), datum_mm, stations=(overhead("c", 300.0, 300.0),), levels=levels_of(2.0, c=2312.5))
    assert of.tilt_ups[0].goes is True and "tall.tilt_up_close" in rules(of.findings)


def test_without_a_datum_the_longest_leg_is_reckoned_with_and_no_top_has_a_level():
    """FP: legs to 200 less reserve 5."""
    item, _ = tall()
    of = made(room(item), None)
    assert of.tops == () and "tall.no_datum" in rules(of.findings)
    assert of.tilt_ups[0].diagonal.mm == pytest.approx(math.hypot(2100 + 195, 530))
    assert "no datum is decided" in of.tilt_ups[0].diagonal.why


def test_a_ceiling_that_nobody_read_is_asked_for():
    of = made(room())
    (asked,) = [one for one in of.findings if one.rule == "tall.ceiling_unread"]
    assert asked.severity == "warn" and "Unit tall" in asked.wrong and "Unit hung" in asked.wrong
    assert [one.ceiling for one in of.tops] == [None, None] and of.tilt_ups[0].goes is None


def test_tops_stand_under_the_lowest_reading_near_them_and_not_under_a_far_one():
    """FP: top 875 + 1250 = 2125 (chain); readings 2140 and 2135 near, 2100 over 1200 away: 10 clear."""
    stations = (overhead("a", 700.0, 200.0), overhead("b", 1100.0, 200.0), overhead("far", 3000.0, 2500.0))
    of = made(room(), stations=stations, levels=levels_of(a=2140.0, b=2135.0, far=2100.0))
    tops = {one.item: one for one in of.tops}
    assert (tops["tall"].top.mm, tops["tall"].ceiling.mm, tops["tall"].clear.mm) == (2125.0, 2135.0, 10.0)
    assert not {"tall.over_ceiling", "tall.close_to_ceiling"} & set(rules(of.findings))
    assert "b" in tops["tall"].ceiling.why and "give or take 1" in tops["tall"].ceiling.why


def test_a_ceiling_below_the_unit_is_a_stop():
    of = made(room(), stations=(overhead("a", 900.0, 200.0),), levels=levels_of(a=2120.0))
    wrong = [one for one in of.findings if one.rule == "tall.over_ceiling"]
    assert [one.severity for one in wrong] == ["stop", "stop"] and wrong[0].amount.mm == -5.0


def test_a_top_within_the_give_or_take_of_the_ceiling_is_a_warning():
    of = made(room(), stations=(overhead("a", 900.0, 200.0),), levels=levels_of(2.0, a=2126.0))
    assert "tall.close_to_ceiling" in rules(of.findings)


def test_a_limit_that_the_job_gives_is_a_ceiling_too():
    beam = HeightLimit("beam", "beam", HeightOf.TALL_TOP, Bound.AT_MOST, level_mm=2130.0)
    of = made(room(height_limits=(beam,)), stations=(overhead("a", 900.0, 200.0),), levels=levels_of(a=2400.0))
    tops = {one.item: one for one in of.tops}
    assert tops["tall"].clear.mm == 5.0 and "beam" in tops["tall"].ceiling.why
    assert tops["hung"].clear.mm == 275.0


def test_what_is_overhead_below_the_worktop_is_left_out_and_named():
    of = made(room(), stations=(overhead("a", 900.0, 200.0),), levels=levels_of(a=-300.0))
    assert {"tall.overhead_too_low", "tall.ceiling_unread"} <= set(rules(of.findings))
    assert of.tops[0].ceiling is None


def test_a_tall_unit_lower_than_the_worktop_has_its_sizes_swapped():
    lying = unit("tall", height_mm=600.0, depth_mm=1970.0, storey=Storey.TALL)
    of = made(room(unit(), lying))
    assert "tall.lower_than_worktop" in rules(of.findings)


def test_wall_units_hang_from_the_datum_line():
    """Trap 19, FP, over the datum line: tall 1970 - 720 = 1250; wall unit 1250 - 720 = 530; over a 30 top 500; rail 40
    below the top at 1210. With D 875: 2125 and 1405."""
    of = made(room(wall_units=WallUnits(rail_below_top_mm=40.0)))
    (rail,) = of.rails
    assert (rail.underside.mm, rail.rail.mm, rail.top.mm, rail.clear.mm) == (530, 1210, 1250, 500)
    assert of.tops[1].top.mm == 2125 and 875 + rail.underside.mm == 1405
    assert "one line 1250 over the datum" in of.one_line


def test_a_sub_deck_takes_from_the_clear_height_of_units_in_line_and_lifts_those_that_are_not():
    """Trap 18, FP: 18 of build-up: 530 - 30 - 18 = 482; not in line: 48 + 500 = 548 over the datum line."""
    assert made(room(worktop=Worktop(30, 18))).rails[0].clear.mm == 482
    free = made(room(worktop=Worktop(30, 18), wall_units=WallUnits(False, 500.0)))
    assert (free.rails[0].underside.mm, free.rails[0].clear.mm) == (548, 500)


def test_a_rail_that_nobody_measured_has_no_height_and_is_asked_for():
    of = made(room())
    assert of.rails[0].rail is None and "tall.rail_unknown" in rules(of.findings)


def test_a_rail_below_its_units_is_a_stop():
    of = made(room(wall_units=WallUnits(rail_below_top_mm=720.0)))
    assert "tall.rail_under_unit" in rules(of.findings)


def test_a_short_unit_has_a_line_of_its_own():
    """FP: over a hood, 360 high: underside 1250 - 360 = 890."""
    short = unit("short", height_mm=360.0, storey=Storey.WALL, legs=None)
    rails = made(room(unit(), TALL, HUNG, short)).rails
    assert [(one.name, one.underside.mm) for one in rails] == [
        ("Sink run: Unit hung", 530.0),
        ("Sink run: Unit short", 890.0),
    ]


def test_wall_units_that_would_hang_in_the_worktop_are_a_stop():
    """FP: 1250 - 1250 = 0 over the datum, 30 below the worktop's top."""
    of = made(room(unit(), TALL, unit("hung", height_mm=1250.0, storey=Storey.WALL, legs=None)))
    (wrong,) = [one for one in of.findings if one.rule == "tall.under_worktop"]
    assert wrong.severity == "stop" and wrong.amount.mm == -30


def test_tall_units_of_two_heights_are_not_in_one_line():
    lower = unit("low", height_mm=1900.0, storey=Storey.TALL)
    of = made(room(unit(), TALL, lower, HUNG))
    (wrong,) = [one for one in of.findings if one.rule == "tall.tops_not_in_line"]
    assert wrong.amount.mm == 70 and "1250 and 1180" in of.one_line
    free = made(room(unit(), TALL, lower, HUNG, wall_units=WallUnits(False)))
    assert "tall.tops_not_in_line" not in rules(free.findings)


def test_a_room_without_tall_and_wall_units_has_no_such_part():
    assert made(room(unit())) is None


def test_cautions_defer_and_never_call_a_thing_safe():
    of = made(room())
    cautions = [one for one in of.findings if one.caution]
    assert {"tall.lifting", "tall.wall_fixing"} <= set(rules(cautions))
    assert not any("safe" in f"{one.wrong} {one.cure}" for one in of.findings)
