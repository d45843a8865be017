"""Leg places, heights, the bench preset and what is said about legs already set. FP: first principles."""

import pytest
from datum_rooms import all_placed, falling, floor_of, job_of, legs_set, reading, room_of, run_of, surface, unit

from oddleg.job import Legs, Tolerances
from oddleg.plan.legs import leg_places, preset_mm, unit_legs, unit_numbers
from oddleg.plan.rod import placed_items

LEVEL = floor_of(surface(lambda x, y: 0.0))


def units(room, floor, datum_mm, set_entries=(), readings=()):
    return unit_legs(job_of(room), room, all_placed(room), floor, datum_mm, set_entries, readings)


def places(item, **run):
    return leg_places(placed_items(run_of(item, **run))[0], Tolerances())


def test_four_legs_stand_at_the_insets():
    legs = {one.id: (one.x_mm, one.y_mm) for one in places(unit(width_mm=600), void_mm=20.0)}
    assert legs == {
        "BL": (40, 20 + 40),
        "BR": (600 - 40, 20 + 40),
        "FL": (40, 20 + 560 - 60),
        "FR": (600 - 40, 20 + 560 - 60),
    }


def test_six_legs_from_the_width_of_the_job():
    """Trap 16: five legs or more from about 900 wide. Common practice."""
    assert len(places(unit(width_mm=899))) == 4
    wide = {one.id: one.x_mm for one in places(unit(width_mm=900))}
    assert wide["BM"] == wide["FM"] == 450


@pytest.mark.parametrize(
    ("count", "ids"),
    [
        (4, "BL BR FL FR"),
        (5, "BL BR FL FM FR"),
        (6, "BL BM BR FL FM FR"),
        (8, "BL BML BMR BR FL FML FMR FR"),
    ],
)
def test_a_stated_count_rules(count, ids):
    assert [one.id for one in places(unit(width_mm=1200, legs=Legs(100, 180, count=count)))] == ids.split()


def test_a_unit_on_the_side_wall_has_its_legs_in_room_axes():
    """Bearing 90: x of the run goes down the page, y out of the wall goes left. FP."""
    legs = {one.id: (one.spot.x_mm, one.spot.y_mm) for one in places(unit(), x_mm=5000.0, bearing_deg=90.0)}
    assert legs["FL"] == (5000 - 500, 40)


def test_what_hangs_has_no_legs():
    from oddleg.job import Storey

    assert places(unit(storey=Storey.WALL)) == ()


def test_numbers_follow_runs_and_items_on_legs():
    from oddleg.job import EndPanel

    room = room_of(run_of(unit("a"), EndPanel("p", "Panel", 18, 580), unit("b")), run_of(unit("c"), name="other"))
    assert unit_numbers(all_placed(room)) == {"a": 1, "b": 2, "c": 3}


def test_a_leg_card_reads_as_it_lies_on_the_bench():
    """Trap 16, FP: floor falls 6 from left to right leg: L 150, R 156. Upside down, front towards you, the right-hand
    legs are on your left; read from the wrong side it is 2 x 6 = 12 out."""
    floor = floor_of(surface(lambda x, y: -6 * (x - 40) / 520))
    (one,) = units(room_of(run_of(unit())), floor, 870)
    shown = {leg.place.id: leg.height.text for leg in one.legs}
    assert shown == {"BL": "150", "BR": "156", "FL": "150", "FR": "156"}
    bench = {(leg.bench_row, leg.bench_column): leg.place.id for leg in one.legs}
    assert bench == {(0, 0): "FR", (0, 1): "FL", (1, 0): "BR", (1, 1): "BL"}
    left, right = (next(leg.height.mm for leg in one.legs if leg.place.id == id) for id in ("FL", "FR"))
    assert (right - left) - (left - right) == pytest.approx(12)


def test_the_middle_leg_of_five_keeps_its_column():
    (one,) = units(room_of(run_of(unit(width_mm=1000, legs=Legs(100, 180, count=5)))), LEVEL, 870)
    assert {leg.place.id: leg.bench_column for leg in one.legs} == {"BL": 2, "BR": 0, "FL": 2, "FM": 1, "FR": 0}


def test_back_legs_are_preset_exactly():
    (one,) = units(room_of(run_of(unit())), LEVEL, 870)
    assert {leg.place.id for leg in one.legs if leg.exact} == {"BL", "BR"}


def test_heights_are_whole_mm_with_one_preset_and_what_differs():
    floor = floor_of(surface(lambda x, y: -4.0 if x > 300 and y > 300 else 0.3))
    (one,) = units(room_of(run_of(unit())), floor, 870)
    assert one.preset.text == "150"
    assert {leg.place.id: leg.differs.text for leg in one.legs} == {"BL": "0", "BR": "0", "FL": "0", "FR": "+4"}


@pytest.mark.parametrize(
    ("heights", "preset"),
    [
        ([150, 150, 154, 156], 150),
        ([150, 156, 151, 155], 151),
        ([150, 150, 156, 156], 150),
        ([150, 151, 160, 161], 151),
    ],
)
def test_the_preset_is_the_most_common_then_nearest_the_mean_then_the_smaller(heights, preset):
    """Second: mean 153, and 151 and 155 are equally near. Fourth: mean 155.5: 151 (4.5) and 160 (4.5)."""
    assert preset_mm(heights) == preset


def test_no_leg_has_a_height_before_a_datum_is_chosen():
    assert units(room_of(run_of(unit())), LEVEL, None) == ()


def test_underside_datum_and_gaps_are_told_for_each_unit():
    (one,) = units(room_of(run_of(unit(visible_drop_mm=12.0))), LEVEL, 875)
    assert (one.underside.text, one.datum.text, one.number) == ("155", "875", 1)
    assert [(gap.side, gap.gap.text) for gap in one.gaps] == [("left", "143"), ("right", "143")]


def test_a_leg_height_opens_to_its_sum_and_its_stations():
    (one,) = units(room_of(run_of(unit())), LEVEL, 870)
    assert (
        one.legs[0].height.why
        == "Datum 870 less 720 to the underside, less floor 0, read there: back 1, give or take 1."
    )


def test_a_leg_beyond_its_range_is_a_stop_on_its_unit():
    """FP: 905 - 720 = 185 where it goes to 180."""
    (one,) = units(room_of(run_of(unit())), LEVEL, 905)
    stops = [finding for finding in one.findings if finding.rule == "legs.out_of_range"]
    assert len(stops) == 4 and stops[0].amount.text == "5" and stops[0].severity == "stop"


def test_legs_already_set_are_named_with_what_to_wind():
    """Trap 67: 152 was, 154 now: wind out 2."""
    room = room_of(run_of(unit("a"), unit("b"), unit("c"), unit("d")))
    floor = floor_of(surface(lambda x, y: -2.0 if x < 1900 and y > 300 else 0.0))
    readings = [reading("s2", 1200, 5), reading("s2", 1202, 25)]
    set_entry = legs_set("d", FL=152, FR=152, BL=152, BR=152)
    *_, one = units(room, floor, 872, [set_entry], readings)
    (stop,) = [finding for finding in one.findings if finding.rule == "legs.set_moved"]
    assert stop.wrong.startswith("Legs of unit 4: front left 152 was, 154 now, already set: wind out 2.")
    assert "Read since then: back 2 1202." in stop.wrong
    front_left = next(leg for leg in one.legs if leg.place.id == "FL")
    assert (front_left.set_at.text, front_left.wind.text) == ("152", "+2")
    assert next(leg for leg in one.legs if leg.place.id == "FR").wind is None


def test_legs_wound_too_high_are_wound_in():
    (one,) = units(room_of(run_of(unit())), LEVEL, 870, [legs_set("a", FL=153)])
    assert "wind in 3" in one.findings[0].wrong
    assert next(leg for leg in one.legs if leg.place.id == "FL").wind.text == "\N{MINUS SIGN}3"


def test_legs_set_within_the_tolerance_are_left_alone():
    (one,) = units(room_of(run_of(unit())), LEVEL, 870, [legs_set("a", FL=151, BR=149)])
    assert one.findings == ()


def test_legs_ticked_twice_are_named_and_neither_is_used():
    entries = [legs_set("a", FL=150), legs_set("a", "l2", FL=158)]
    (one,) = units(room_of(run_of(unit())), LEVEL, 870, entries)
    (warn,) = one.findings
    assert warn.rule == "legs.set_twice" and "FL 150" in warn.wrong and "FL 158" in warn.wrong
    assert all(leg.set_at is None for leg in one.legs)


def test_a_tick_for_a_leg_that_is_not_there_is_told():
    (one,) = units(room_of(run_of(unit())), LEVEL, 870, [legs_set("a", FM=150)])
    assert one.findings[0].rule == "legs.set_unknown" and "FM" in one.findings[0].wrong


def test_a_leg_without_a_floor_has_no_height_and_is_named():
    part = floor_of(surface(lambda x, y: None if x > 300 and y > 300 else 0.0, [(0, 0)]))
    (one,) = units(room_of(run_of(unit())), part, 870)
    assert [leg.place.id for leg in one.legs] == ["BL", "BR", "FL"]
    assert "front right leg" in one.findings[0].wrong and one.findings[0].severity == "stop"


def test_a_falling_floor_makes_longer_legs_where_it_is_low():
    (one,) = units(room_of(run_of(unit())), floor_of(surface(falling(12, 600))), 870)
    heights = {leg.place.id: leg.height.mm for leg in one.legs}
    assert heights["FR"] - heights["FL"] == pytest.approx(12 * 520 / 600)
