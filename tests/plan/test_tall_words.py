"""What tall and wall units, trims and what hangs over a hob say: as grave as it is, with the right leg, way and spot."""

import dataclasses
import math

import pytest
from datum_rooms import bay, floor_of, machine, room_of, run_of, surface, unit
from tall_rooms import levels_of, made, overhead

from oddleg.job import (
    Appliance,
    ApplianceSeat,
    Bound,
    EndsAt,
    Front,
    Gap,
    HeightLimit,
    HeightOf,
    Legs,
    RunEnd,
    Storey,
    Trim,
    WallUnits,
    Worktop,
)
from oddleg.plan.finding import Severity

FREE = WallUnits(tops_in_line=False, clear_over_top_mm=600.0)
LEGS = Legs(100, 200, 5, inset_back_mm=50.0, inset_side_mm=30.0)


def tall(name="tall", width_mm=600.0, height_mm=2100.0, depth_mm=580.0, legs=LEGS, **more):
    return unit(name, width_mm, legs, height_mm=height_mm, depth_mm=depth_mm, storey=Storey.TALL, **more)


def hung(name="hung", width_mm=600.0, depth_mm=320.0, height_mm=720.0, **more):
    return dataclasses.replace(unit(name, width_mm, height_mm=height_mm, depth_mm=depth_mm, storey=Storey.WALL, **more), legs=None)


def room(*items, **more):
    return room_of(run_of(*items), **more)


def told(of, rule):
    (one,) = [each for each in of.findings if each.rule == rule]
    return one


# Standing up.


def test_the_leg_is_told_where_there_is_one():
    """FP: datum 870, underside 720 below it, floor at 0: legs of 150."""
    with_legs, without = made(room(tall()), 870.0), made(room(dataclasses.replace(tall(), legs=None)), 870.0)
    assert (with_legs.tilt_ups[0].leg.mm, with_legs.tilt_ups[0].leg.why) == (150.0, "The longer of its rear ones at the datum.")
    assert without.tilt_ups[0].leg is None
    assert without.tilt_ups[0].diagonal.mm == pytest.approx(math.hypot(2100, 580))


def test_the_rear_legs_are_where_they_stand():
    """FP: the floor falls 10 over 100 out of the wall, behind the front: at the rear leg, 50 in from the unit's back, by 5;
    at its right, 30 in from the side of 600, by another 57 for 1 over 10 along the run. Legs of 150, and 5 + 57."""
    floor = floor_of(surface(lambda x, y: -y / 10 - x / 10))
    assert made(room(tall()), 870.0, floor).tilt_ups[0].leg.mm == pytest.approx(150 + 5 + 57)


def test_a_unit_that_goes_up_another_way_is_a_warning_that_names_it():
    """FP: root of 2250² + 530² = 2311.6, sideways root of 2250² + (400 - 30)² = 2280.2; there are 2300."""
    of = made(room(tall(width_mm=400.0)), 870.0, stations=(overhead("c", 200.0, 300.0),), levels=levels_of(c=2300.0))
    one = told(of, "tall.tilt_up")
    assert one.severity is Severity.WARN and "sideways, legs on (2280" in one.cure
    assert one.amount.mm == pytest.approx(math.hypot(2250, 530) - 2300)


def test_where_it_cannot_be_told_another_way_that_goes_is_named_too():
    """FP: 0.4 to spare, give or take 2."""
    near = {"stations": (overhead("c", 200.0, 300.0),), "levels": levels_of(2.0, c=math.hypot(2250, 530) + 0.4)}
    narrow = told(made(room(tall(width_mm=400.0)), 870.0, **near), "tall.tilt_up_close")
    assert narrow.severity is Severity.WARN and "; or stand it up sideways, legs on" in narrow.cure
    assert narrow.amount.mm == pytest.approx(0.4)


# Tops.


def over(level_mm, give_mm=0.9, **more):
    return made(room(tall(height_mm=1970.0), **more), 875.0, stations=(overhead("c", 300.0, 300.0),), levels=levels_of(give_mm, c=level_mm))


def test_a_top_at_the_ceiling_is_not_above_it_and_cannot_be_told():
    """FP: 875 - 720 + 1970 = 2125."""
    assert {one.rule for one in over(2125.0).findings} >= {"tall.close_to_ceiling"} and "tall.over_ceiling" not in {one.rule for one in over(2125.0).findings}
    assert told(over(2124.0), "tall.over_ceiling").amount.mm == -1
    one = told(over(2125.5), "tall.close_to_ceiling")
    assert one.severity is Severity.WARN and one.concerns == ("tall", "c")


def test_a_limit_of_the_job_concerns_no_station():
    beam = HeightLimit("beam", "beam", HeightOf.TALL_TOP, Bound.AT_MOST, level_mm=2100.0)
    assert told(over(2400.0, height_limits=(beam,)), "tall.over_ceiling").concerns == ("tall",)


def test_no_datum_is_said_only_where_there_is_none():
    of_tall = room(tall())
    assert "tall.no_datum" not in [one.rule for one in made(of_tall, 870.0).findings]
    assert told(made(of_tall, None), "tall.no_datum").severity is Severity.NOTE


def test_a_tall_unit_as_high_as_the_worktop_is_no_tall_unit():
    """FP: datum, 30 of top: a unit of 720 + 30 ends at the worktop's top, one of 1 more above it."""
    assert told(made(room(tall(height_mm=750.0)), 870.0), "tall.lower_than_worktop").severity is Severity.STOP
    assert "tall.lower_than_worktop" not in [one.rule for one in made(room(tall(height_mm=751.0)), 870.0).findings]


def test_what_is_left_out_overhead_is_a_warning():
    one = told(over(400.0), "tall.overhead_too_low")
    assert one.severity is Severity.WARN and one.concerns == ("c",) and "+400" in one.wrong


def test_a_ceiling_not_read_over_wall_units_alone_is_a_note():
    assert told(made(room(unit("a"), hung()), 875.0), "tall.ceiling_unread").severity is Severity.NOTE
    assert told(made(room(tall()), 875.0), "tall.ceiling_unread").severity is Severity.WARN


def test_of_several_worktops_the_highest_is_what_a_ceiling_must_be_over():
    """FP: one run's top 300 over the datum's: 875 + 300 + 30; a reading of 1100 is no ceiling."""
    low, high = run_of(unit("a"), name="low"), run_of(unit("b"), name="high", datum_offset_mm=300.0)
    third = run_of(tall(), name="third")
    of = made(room_of(low, high, third), 875.0, stations=(overhead("c", 300.0, 300.0),), levels=levels_of(c=1100.0))
    assert "not above the worktop at +1205" in told(of, "tall.overhead_too_low").wrong


# Rails and one line.


def test_a_rail_that_nobody_knows_is_a_warning_and_one_that_is_known_is_where_the_sheet_has_it():
    """FP: units 600 over a top of 30, 720 high: top 1350 over the datum, rail 40 lower."""
    unknown = made(room(unit("a"), hung(), wall_units=FREE))
    assert told(unknown, "tall.rail_unknown").severity is Severity.WARN
    known = made(room(unit("a"), hung(), wall_units=dataclasses.replace(FREE, rail_below_top_mm=40.0)))
    assert [one.rail.mm for one in known.rails] == [30 + 600 + 720 - 40]
    assert [one.rule for one in known.findings if one.rule == "tall.rail_unknown"] == []


def test_tops_of_one_height_and_of_two_are_told_apart():
    assert made(room(hung("a"), hung("b"), wall_units=FREE)).one_line == "The top of wall units is 1350 over the datum line everywhere."
    two = made(room(hung("a"), hung("b", height_mm=900.0), wall_units=FREE)).one_line
    assert two == "The top of wall units is at 1530 and 1350 over the datum line."


# Trims.


def corner(second_mm=720.0, bearing_deg=90.0, first_mm=900.0):
    """A run to a corner at 900, its unit going in; another that leaves it, its units as high or not."""
    front = Front(thickness_mm=20.0)
    first = run_of(hung("a", first_mm, front=front), cornice=Trim(30.0), name="first", right_end=RunEnd(EndsAt.OTHER_BACKS, "second"))
    second = run_of(Gap("g", "g", 340.0, storey=Storey.WALL), hung("b", height_mm=second_mm, front=front), cornice=Trim(30.0), name="second", x_mm=900.0, bearing_deg=bearing_deg)
    of = made(room_of(first, second, wall_units=FREE), ends_mm={"first": (0.0, 900.0)})
    return {one.run: [round(length.mm, 6) for _, length in one.pieces] for one in of.trims}


def test_trims_meet_in_a_corner_only_where_they_are_at_one_height_and_cross():
    """FP: to the other's front faces, 900 less its depth 320 and front 20, plus 30 at the free end; else free at both."""
    assert corner()["first"][0] == 900 - 320 - 20 + 30
    assert corner(second_mm=800.0)["first"][0] == 900 + 30 + 30
    assert corner(bearing_deg=0.0)["first"][0] == 900 + 30 + 30


# Over a hob.


def hob(above_mm=None):
    return Appliance("hob", "hob", ApplianceSeat.IN_TOP, 60.0, clear_above_mm=above_mm)


def hood(below_mm=None):
    return Appliance("hood", "hood", ApplianceSeat.OVER_TOP, 200.0, clear_below_mm=below_mm)


def test_each_sheet_is_asked_for_what_it_says():
    of = made(room(unit("a", appliances=(hob(),)), hung(appliances=(hood(),)), wall_units=FREE))
    asked = {one.concerns[0]: one.wrong for one in of.findings if one.rule == "hood.ask"}
    assert asked["hob"].endswith("how much must be clear above the worktop.")
    assert asked["hood"].endswith("how much must be clear between the worktop and itself.")


def test_short_and_more_are_said_without_a_sign():
    """FP: 600 there; 650 and 590 wanted."""
    short, more = (made(room(unit("a", appliances=(hob(mm),)), hung(), wall_units=FREE)).over_hobs[0].words for mm in (650.0, 590.0))
    assert short == "650 wanted by the sheet of the hob, 600 there: 50 short."
    assert more == "590 wanted by the sheet of the hob, 600 there: 10 more."


def test_a_hood_in_a_bay_and_one_over_no_hob_are_warnings():
    in_a_bay = made(room(unit("a"), bay(dataclasses.replace(hood(), id="m"), storey=Storey.WALL), wall_units=FREE))
    assert told(in_a_bay, "hood.no_height").severity is Severity.WARN
    over_none = made(room(unit("a"), hung(appliances=(hood(),)), wall_units=FREE))
    assert told(over_none, "hood.no_hob").severity is Severity.WARN


def test_a_worktop_with_a_build_up_leaves_less_clear():
    """FP: 30 of top on 12: wall units 600 over 42."""
    of = made(room(unit("a", appliances=(hob(650.0),)), hung(), wall_units=FREE, worktop=Worktop(30.0, 12.0)))
    assert of.over_hobs[0].has.mm == 600 and of.rails[0].underside.mm == 42 + 600


def test_a_cooker_that_stands_beside_the_top_is_held_to_its_sheet():
    cooker = machine(900.0, ApplianceSeat.BESIDE_TOP, clear_above_mm=700.0)
    assert told(made(room(bay(cooker), hung(), wall_units=FREE)), "hood.too_low").amount.mm == 700 - 600


def test_a_high_spot_of_the_floor_in_the_middle_of_the_way_counts():
    """FP: a station 30 up at 350, 900, off every corner and middle of the way; the ceiling at 2400 there leaves 2370."""
    bump = surface(lambda x, y: 30.0 if (x, y) == (350, 900) else 0.0, places=((0, 0), (3000, 0), (350, 900)))
    of = made(room(tall()), 870.0, floor_of(bump), stations=(overhead("c", 300.0, 300.0),), levels=levels_of(c=2400.0))
    assert of.tilt_ups[0].lowest.mm == 2400 - 30
    off_it = surface(lambda x, y: 30.0 if (x, y) == (2500, 900) else 0.0, places=((0, 0), (3000, 0), (2500, 900)))
    away = made(room(tall()), 870.0, floor_of(off_it), stations=(overhead("c", 300.0, 300.0),), levels=levels_of(c=2400.0))
    assert away.tilt_ups[0].lowest.mm == 2400
