"""The feasible interval, the decided datum, and what is said when nothing can be had. FP: first principles."""

import math

import pytest
from datum_rooms import (
    NOTHING_READ,
    all_placed,
    bay,
    choice,
    datum_of,
    decision,
    falling,
    floor_of,
    job_of,
    legs_set,
    machine,
    reading,
    room_of,
    rules,
    run_of,
    surface,
    unit,
)

from oddleg.job import ApplianceSeat, Bound, HeightLimit, HeightOf, Legs, PlinthBoard, Worktop
from oddleg.plan.datum import ChoiceName, End, Subject

LEVEL = floor_of(surface(lambda x, y: 0.0))


def at(demand):
    return pytest.approx(demand.datum_mm, abs=1e-9)


def demand(of, id):
    return next(one for one in of.demands if one.id == id)


def finding(of, rule):
    return next(one for one in of.findings if one.rule == rule)


def test_every_leg_asks_from_its_shortest_to_its_longest_less_the_reserve():
    """Trap 14: legs 150 to 180 with a reserve of 5 act as 155 to 175. Common practice."""
    of = datum_of(room_of(run_of(unit(legs=Legs(150, 180, reserve_mm=5)))), LEVEL)
    assert (of.least.datum_mm, of.greatest.datum_mm) == (155 + 720, 175 + 720)
    assert of.least.name == "back left leg of unit 1 (Unit a) at its shortest"


def test_legs_stand_on_what_is_there_when_they_are_set_and_not_on_the_finished_floor():
    under, finished = surface(lambda x, y: 0.0), surface(lambda x, y: 20.0)
    of = datum_of(room_of(run_of(unit())), floor_of(under, finished))
    assert of.least.datum_mm == 0 + 100 + 720


def test_a_tall_unit_hangs_at_the_base_carcass_height_so_that_plinths_run_through():
    from oddleg.job import Storey

    of = datum_of(room_of(run_of(unit(height_mm=1970.0, storey=Storey.TALL))), LEVEL)
    assert of.least.datum_mm == 100 + 720


def test_a_run_with_a_raised_top_asks_the_less_of_the_datum():
    of = datum_of(room_of(run_of(unit(height_mm=900.0), datum_offset_mm=150.0)), LEVEL)
    assert of.least.datum_mm == 100 + 900 - 150


def test_a_machine_with_the_opening_it_wants_has_its_slack():
    """Trap 13: the 865 is the opening, clearance included. D 875: slack 10. Common practice."""
    of = datum_of(room_of(run_of(unit(), bay(machine(865)))), LEVEL, [decision(875)])
    slack = next(one for one in of.slacks if one.demand.id == "appliance/bay/least")
    assert slack.slack.text == "10"
    assert "datum.outside" not in rules(of.findings)


def test_twenty_of_flooring_brought_in_afterwards_leaves_too_little():
    """Trap 13 and the issue's common practice: 875 - 20 - 865 = -10, and the program says so."""
    floor = floor_of(surface(lambda x, y: 0.0), surface(lambda x, y: 20.0))
    of = datum_of(room_of(run_of(unit(), bay(machine(865)))), floor, [decision(875)])
    stop = finding(of, "datum.outside")
    assert (stop.severity, stop.amount.text) == ("stop", "10")
    assert "machine under the top" in stop.wrong and "10 too low" in stop.wrong
    assert of.decided.datum.mm == 875


def test_a_machine_that_went_in_before_the_boards_never_comes_out_over_them():
    """Trap 8, FP: bay not boarded (0), room boarded (+22), machine 820, D 840: 840 - 22 - 820 = -2."""
    floor = floor_of(surface(lambda x, y: 0.0), surface(lambda x, y: 22.0), bay=surface(lambda x, y: 0.0))
    of = datum_of(room_of(run_of(unit(), bay(machine(820)))), floor, [decision(840)])
    assert demand(of, "appliance/bay/least").datum_mm == 22 + 820
    assert finding(of, "datum.outside").amount.text == "2"


@pytest.mark.parametrize(("at_y_mm", "counts"), [(560 + 540, True), (560 + 640, False)])
def test_the_way_out_reaches_as_far_as_any_of_the_machine_is_under_the_top(at_y_mm, counts):
    """A machine 600 deep: 600 out of the front line at 560 it has cleared the top."""
    finished = surface(
        lambda x, y: 7.0 if abs(y - at_y_mm) < 30 and abs(x - 300) < 30 else 0.0, [(0, 0), (300, at_y_mm)]
    )
    floor = floor_of(surface(lambda x, y: 0.0), finished)
    of = datum_of(room_of(run_of(bay(machine(820, greatest_depth_mm=600.0)))), floor)
    assert demand(of, "appliance/bay/least").datum_mm == (827 if counts else 820)


def test_the_job_may_say_how_far_out_the_floor_counts():
    finished = surface(lambda x, y: 7.0 if y > 1000 else 0.0)
    floor = floor_of(surface(lambda x, y: 0.0), finished)
    of = datum_of(room_of(run_of(bay(machine(820, greatest_depth_mm=600.0), way_out_mm=300.0))), floor)
    assert demand(of, "appliance/bay/least").datum_mm == 820


def test_a_machine_built_in_cannot_be_raised_beyond_its_height_and_brackets():
    """Trap 12, FP: -6 + 870 = 864, against 875: 11 short."""
    appliance = machine(820, greatest_height_mm=865.0, bracket_reach_mm=5.0, built_in=True)
    of = datum_of(room_of(run_of(bay(appliance))), floor_of(surface(lambda x, y: -6.0)), [decision(875)])
    assert of.greatest.datum_mm == -6 + 865 + 5
    assert finding(of, "datum.outside").amount.text == "11"


def test_a_cooker_beside_the_top_keeps_the_worktop_down_to_it():
    """Trap 12, FP: floor -8, cooker 905, top 30: D <= -8 + 905 - 30 = 867."""
    cooker = machine(890, ApplianceSeat.BESIDE_TOP, greatest_height_mm=905.0)
    of = datum_of(room_of(run_of(bay(cooker))), floor_of(surface(lambda x, y: -8.0)))
    assert of.greatest.datum_mm == 867
    assert of.least is None


def test_what_lies_between_carcass_and_slab_lowers_the_datum_beside_a_cooker():
    """Trap 18, FP: an 18 sub-deck: 867 - 18."""
    cooker = machine(890, ApplianceSeat.BESIDE_TOP, greatest_height_mm=905.0)
    room = room_of(run_of(bay(cooker)), worktop=Worktop(30, 18))
    assert datum_of(room, floor_of(surface(lambda x, y: -8.0))).greatest.datum_mm == 867 - 18


def test_an_appliance_in_a_carcass_asks_nothing():
    oven = machine(590, ApplianceSeat.IN_CARCASS, greatest_height_mm=600.0)
    assert datum_of(room_of(run_of(bay(oven))), LEVEL).demands == ()


def test_a_machine_and_a_cooker_that_fit_no_datum_are_named_with_the_mm_and_what_would_cure_it():
    """FP: the machine wants 865, the cooker's worktop leaves 860 - 30 = 830: 35 are missing."""
    cooker = machine(850, ApplianceSeat.BESIDE_TOP, greatest_height_mm=860.0)
    of = datum_of(room_of(run_of(bay(machine(865), "wash"), bay(cooker, "cook"))), LEVEL)
    assert (of.clash_mm, of.feasible) == (35, False)
    stop = finding(of, "datum.clash")
    assert stop.severity == "stop" and stop.amount.text == "35"
    assert "machine under the top" in stop.wrong and "machine beside the top" in stop.wrong
    assert "lower machine" in stop.cure and "thinner worktop" in stop.cure
    assert all(not one.feasible and one.nearest is None for one in of.choices)
    lowest = choice(of, ChoiceName.LOWEST)
    assert "clash by 35" in lowest.why_not


@pytest.mark.parametrize("legs", [Legs(180, 100, reserve_mm=0), Legs(150, 158, reserve_mm=5)])
def test_a_leg_without_a_range_is_a_stop_and_no_crash(legs):
    of = datum_of(room_of(run_of(unit(legs=legs))), LEVEL)
    assert not of.feasible
    assert {"datum.leg_range", "datum.clash"} <= set(rules(of.findings))


def test_without_a_floor_the_choices_say_why_not():
    room = room_of(run_of(unit(), bay(machine(865))), worktop=Worktop(30, wanted_height_mm=905.0))
    of = datum_of(room, floor_of(NOTHING_READ))
    assert (of.demands, of.least, of.greatest, of.chain) == ((), None, None, None)
    assert all(one.asked is None and one.why_not and not one.feasible for one in of.choices)
    assert finding(of, "datum.no_floor").severity == "stop"


def test_an_empty_room_asks_for_nothing():
    of = datum_of(room_of(), LEVEL)
    assert of.demands == ()
    assert "datum.nothing_here" in rules(of.findings)


def test_legs_without_a_known_floor_are_named_and_the_rest_makes_the_datum():
    part = surface(lambda x, y: 0.0 if x < 600 else None, [(0, 0)])
    of = datum_of(room_of(run_of(unit("a"), unit("b"))), floor_of(part))
    missing = finding(of, "datum.leg_floor_unknown")
    assert missing.place == "unit 2 (Unit b)" and "back left, back right, front left and front right" in missing.wrong
    assert of.least.datum_mm == 820
    assert any("unit 2 (Unit b)" in text for text in of.guesses)


def test_a_leg_far_from_every_station_is_named_with_how_far():
    of = datum_of(room_of(run_of(unit())), floor_of(surface(lambda x, y: 0.0, [(3000, 0)])))
    far = finding(of, "datum.leg_far_from_station")
    assert "further than 900" in far.wrong
    assert far.amount.mm == pytest.approx(math.hypot(3000 - 40, 500))


def test_one_decision_stands_and_never_moves():
    of = datum_of(room_of(run_of(unit())), LEVEL, [decision(860)])
    assert (of.decided.datum.text, of.decided.entry, of.decided.person) == ("860", "d1", "Nell")
    assert "datum.undecided" not in rules(of.findings)


def test_an_undone_decision_leaves_none():
    of = datum_of(room_of(run_of(unit())), LEVEL, [])
    assert of.decided is None
    assert finding(of, "datum.undecided").cure == "Choose a datum first."


def test_of_two_decisions_that_both_stand_neither_is_used():
    of = datum_of(room_of(run_of(unit())), LEVEL, [decision(860), decision(865, "d2")])
    assert of.decided is None and of.rivals == ("d1", "d2")
    stop = finding(of, "datum.rivals")
    assert stop.severity == "stop" and "860" in stop.wrong and "865" in stop.wrong
    assert {"d1", "d2"} <= set(stop.concerns)


def test_a_later_reading_that_puts_the_datum_out_is_named_with_its_mm():
    """Decided 820 on a level floor; back 1 is read again, 3 higher: 3 + 820 - 820 = 3 too low. FP."""
    readings = [reading("s1", 1200, 5), reading("s2", 1200, 6), reading("s1", 1197, 30)]
    of = datum_of(
        room_of(run_of(unit())),
        floor_of(surface(lambda x, y: 3.0 if x < 300 else 0.0)),
        [decision(820, position=10)],
        readings=readings,
    )
    stop = finding(of, "datum.outside")
    assert stop.amount.text == "3"
    assert "It rests on back 1. Read since then: back 1 1197." in stop.wrong
    assert "s1" in stop.concerns and of.decided.datum.mm == 820


def test_a_datum_too_high_and_too_low_at_once_is_told_at_both_ends():
    cooker = machine(850, ApplianceSeat.BESIDE_TOP, greatest_height_mm=860.0)
    of = datum_of(room_of(run_of(bay(machine(865), "wash"), bay(cooker, "cook"))), LEVEL, [decision(840)])
    assert [one.amount.text for one in of.findings if one.rule == "datum.outside"] == ["25", "10"]


def test_slack_counts_from_the_ends_that_bind_until_a_datum_is_chosen():
    of = datum_of(room_of(run_of(unit(), bay(machine(865)))), LEVEL)
    slacks = {one.demand.id: one.slack.mm for one in of.slacks}
    assert slacks["appliance/bay/least"] == 0
    assert slacks["leg/a/FL/least"] == 865 - 820
    assert slacks["leg/a/FL/greatest"] == 0


def test_legs_set_without_a_datum_are_named():
    of = datum_of(room_of(run_of(unit())), LEVEL, legs_set=[legs_set("a", FL=152)])
    assert "unit 1 (Unit a)" in finding(of, "datum.legs_set_without").wrong


def test_unconfirmed_figures_are_told_with_what_rests_on_them():
    """Trap 56."""
    room = room_of(
        run_of(unit(), bay(machine(865, assumed=("least_height_mm",)))),
        worktop=Worktop(30, assumed=("thickness_mm",)),
        board=PlinthBoard(assumed=("height_mm",)),
    )
    of = datum_of(room, LEVEL)
    assert [text.split(".")[0] for text in of.guesses] == [
        "Nobody has confirmed the thickness of the worktop 30",
        "Nobody has confirmed the height of the plinth board 150",
        "Nobody has confirmed the least height of machine 865",
    ]
    assert of.guesses[2].endswith("It sets an end of what the datum may be.")
    assert rules(of.findings).count("datum.guess") == 3


def test_every_demand_opens_to_its_sum_and_its_readings():
    of = datum_of(room_of(run_of(unit())), floor_of(surface(falling(14, 520))))
    why = demand(of, "leg/a/BR/least").datum.why
    assert "Shortest leg 100 plus reserve 0 plus 720" in why
    assert "back 1" in why and "give or take 1" in why


def test_five_hundred_units_make_a_plan():
    room = room_of(run_of(*(unit(f"u{i}") for i in range(500))))
    of = datum_of(room, floor_of(surface(lambda x, y: 0.0)))
    assert len(of.demands) == 500 * 4 * 2
    assert len(all_placed(room)) == 500 and job_of(room).rooms == (room,)


def test_ends_are_told_by_name():
    of = datum_of(room_of(run_of(unit())), LEVEL)
    assert (of.least.end, of.greatest.end) == (End.LEAST, End.GREATEST)


def test_a_machine_under_a_raised_top_has_the_offset_to_spare():
    of = datum_of(room_of(run_of(bay(machine(865)), datum_offset_mm=100.0)), LEVEL)
    assert of.least.datum_mm == 865 - 100


def test_of_hundreds_of_legs_the_tightest_twelve_of_each_end_are_told_and_every_appliance_and_limit():
    """Twelve units of four legs ask 48 times at each end; machine (twice) and cooker ask for far less than legs."""
    units = [unit(f"u{number}") for number in range(12)]
    loose = machine(500, greatest_height_mm=2000.0, built_in=True), machine(850, ApplianceSeat.BESIDE_TOP, greatest_height_mm=2000.0)
    sill = HeightLimit("sill", "sill", HeightOf.WORKTOP_TOP, Bound.AT_MOST, 0.0, 3000.0)
    room = room_of(run_of(*units, bay(loose[0], "wash"), bay(loose[1], "cook")), height_limits=(sill,))
    of = datum_of(room, floor_of(surface(lambda x, y: -0.002 * x)))
    told = of.told_slacks
    legs = [one for one in told if one.demand.subject is Subject.LEG]
    for end in End:
        of_end = sorted(one.slack.mm for one in of.slacks if one.demand.end is end and one.demand.subject is Subject.LEG)
        assert [one.slack.mm for one in legs if one.demand.end is end] == of_end[:12]
    others = [one.demand.id for one in told if one.demand.subject is not Subject.LEG]
    assert sorted(others) == ["appliance/cook/greatest", "appliance/wash/least", "limit/sill"]
    assert [one.slack.mm for one in told] == sorted(one.slack.mm for one in told)
