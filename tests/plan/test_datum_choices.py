"""Five choices of datum, each case worked by hand. FP: first principles; CP: common practice."""

import pytest
from datum_rooms import bay, choice, datum_of, decision, falling, floor_of, machine, room_of, run_of, surface, unit

from oddleg.job import ApplianceSeat, Legs, PlinthBoard, Worktop
from oddleg.plan.datum import ChoiceName

FALLS_14 = floor_of(surface(falling(14, 2400)))
FOUR = tuple(unit(name) for name in "abcd")


def falls(mm):
    return floor_of(surface(falling(mm, 2400)))


def test_the_board_just_goes_in_at_the_high_spot():
    """Trap 10, CP: floor 0 to -14, carcass 720, board 150, fit 2: D 720 + 150 + 2 = 872, gaps 152 to 166, none ripped."""
    one = choice(datum_of(room_of(run_of(*FOUR)), FALLS_14), ChoiceName.UNCUT)
    assert (one.asked.text, one.feasible) == ("872", True)
    assert [gap.text for gap in one.gaps] == ["152", "166"]
    assert (one.rip, one.reach_not, one.of) == (0, 0, 4)


def test_the_lowest_possible_is_another_choice_and_every_plinth_is_ripped():
    """Trap 10: legs from 100: D 820 (at the left legs, 40 in: the floor is -14 x 40 / 2400 there), ripped by up to 50."""
    level_here = -14 * 40 / 2400
    one = choice(datum_of(room_of(run_of(*FOUR)), FALLS_14, rounding_mm=1.0), ChoiceName.LOWEST)
    assert one.asked.mm == 820 and one.feasible
    assert level_here + 820 <= one.asked.mm
    assert [150 - gap.mm for gap in reversed(one.gaps)] == pytest.approx([150 - 114, 150 - 100])
    assert one.rip == 4


def test_the_lowest_that_the_legs_allow_takes_no_washing_machine():
    """Trap 10, FP: legs alone go down to 820; a machine that wants 865 at the high end lets D go no lower than 865, and
    820 decided all the same is 45 short."""
    room = room_of(run_of(*FOUR), run_of(bay(machine(865)), name="other", x_mm=-600.0))
    floor = floor_of(surface(lambda x, y: 0.0 if x <= 0 else -14 * x / 2400, [(-600, 0), (0, 0), (2400, 0)]))
    assert choice(datum_of(room, floor), ChoiceName.LOWEST).asked.mm == 865
    of = datum_of(room, floor, [decision(820)])
    (stop,) = [one for one in of.findings if one.rule == "datum.outside"]
    assert (stop.severity, stop.amount.text) == ("stop", "45") and "machine under the top" in stop.wrong
    assert of.decided.datum.mm == 820


def test_the_difference_is_split_about_the_board():
    """Trap 11, FP: 720 + 150 - 14 / 2 = 863, gaps 143 to 157."""
    one = choice(datum_of(room_of(run_of(*FOUR)), FALLS_14), ChoiceName.SPLIT)
    assert (one.asked.text, one.feasible) == ("863", True)
    assert [gap.text for gap in one.gaps] == ["143", "157"]


def test_a_machine_at_the_high_end_stops_the_split_and_the_nearest_is_shown():
    """Trap 11: a machine wanting 865 where the floor is 0: nearest 865, gaps 145 to 159. Never a silent clamp."""
    room = room_of(run_of(*FOUR), run_of(bay(machine(865)), name="other", x_mm=-600.0))
    level = surface(lambda x, y: 0.0 if x <= 0 else -14 * x / 2400, [(-600, 0), (0, 0), (2400, 0)])
    one = choice(datum_of(room, floor_of(level)), ChoiceName.SPLIT)
    assert (one.asked.text, one.feasible) == ("863", False)
    assert one.binds.name == "machine under the top"
    assert one.nearest.text == "865"
    assert [gap.text for gap in one.gaps] == ["145", "159"]
    assert one.clearance.text == "0"
    assert "865" in one.why_not and "2 short" in one.why_not


def test_a_machine_at_the_low_end_lets_the_split_be():
    """Trap 11: at the low end it needs -14 + 865 = 851, and 863 leaves 12."""
    room = room_of(run_of(*FOUR), run_of(bay(machine(865)), name="other", x_mm=2400.0))
    level = surface(lambda x, y: max(-14.0, -14 * x / 2400), [(0, 0), (2400, 0), (3000, 0)])
    one = choice(datum_of(room, floor_of(level)), ChoiceName.SPLIT)
    assert one.feasible
    assert one.clearance.text == "12"


def test_a_rail_that_drops_makes_the_gap_less_and_the_board_is_ripped():
    """Trap 15, FP: underside 155 over the floor, rail drops 12: gap 143, a 150 board must be ripped."""
    room = room_of(run_of(unit(visible_drop_mm=12.0)), worktop=Worktop(30, wanted_height_mm=155 + 720 + 30))
    one = choice(datum_of(room, falls(0)), ChoiceName.WANTED)
    assert [gap.text for gap in one.gaps] == ["143", "143"]
    assert one.rip == 1


def test_wanted_height_takes_worktop_and_build_up_off_over_the_highest_spot():
    """Common practice: a datum of about 875 makes a 30 top come to about 905. With an 18 sub-deck 18 lower (trap 18)."""
    of = datum_of(room_of(run_of(*FOUR), worktop=Worktop(30, wanted_height_mm=905.0)), FALLS_14)
    assert choice(of, ChoiceName.WANTED).asked.text == "875"
    assert choice(of, ChoiceName.WANTED).worktop.text == "905"
    built_up = datum_of(room_of(run_of(*FOUR), worktop=Worktop(30, 18, 905.0)), FALLS_14)
    assert choice(built_up, ChoiceName.WANTED).asked.text == "857"


def test_wanted_height_stands_on_the_finished_floor():
    """FP: 20 of boards: 20 + 905 - 30."""
    floor = floor_of(surface(lambda x, y: 0.0), surface(lambda x, y: 20.0))
    of = datum_of(room_of(run_of(*FOUR), worktop=Worktop(30, wanted_height_mm=905.0)), floor)
    assert choice(of, ChoiceName.WANTED).asked.mm == 895


def test_a_height_that_nobody_gave_is_not_made_up():
    one = choice(datum_of(room_of(run_of(*FOUR)), FALLS_14), ChoiceName.WANTED)
    assert (one.asked, one.feasible, one.nearest) == (None, False, None)
    assert one.why_not == "The job gives no wanted height for the worktop."


def test_a_wanted_height_beyond_the_legs_shows_what_binds():
    """FP: legs to 180: 720 + 180 = 900 (level); wanted 940 - 30 = 910: 10 too high."""
    one = choice(
        datum_of(room_of(run_of(*FOUR), worktop=Worktop(30, wanted_height_mm=940.0)), falls(0)), ChoiceName.WANTED
    )
    assert (one.asked.text, one.nearest.text, one.feasible) == ("910", "900", False)
    assert one.binds.name == "back left leg of unit 1 (Unit a) at its longest"
    assert "at most 900: 10 too high" in one.why_not


def test_where_every_board_is_ripped_anyway_least_cutting_is_the_lowest():
    """FP: units fall 3.5 each and go uncut from 872, 868.5, 865, 861.5 on; legs to 144 let D go to 850.2 only, so all
    four are ripped wherever D lies, and the lowest D is as good as any."""
    legs = Legs(100, 144, reserve_mm=0)
    of = datum_of(room_of(run_of(*(unit(name, legs=legs) for name in "abcd"))), FALLS_14)
    greatest_mm = 720 + 144 - 14 * (2400 - 40) / 2400
    assert of.greatest.datum_mm == pytest.approx(greatest_mm)
    one = choice(of, ChoiceName.LEAST_CUTTING)
    assert greatest_mm < 861.5
    assert (one.rip, one.asked.mm) == (4, 820)


def test_least_cutting_leaves_ripped_what_cannot_be_helped():
    """FP: as above with legs to 156: D to 720 + 156 - 13.77 = 862.2: the lowest unit goes uncut from 861.5 on."""
    legs = Legs(100, 156, reserve_mm=0)
    of = datum_of(room_of(run_of(*(unit(name, legs=legs) for name in "abcd"))), FALLS_14)
    one = choice(of, ChoiceName.LEAST_CUTTING)
    assert (one.asked.mm, one.rip, one.feasible) == (861.5, 3, True)


def test_least_cutting_stops_where_nothing_more_is_saved():
    one = choice(datum_of(room_of(run_of(*FOUR)), FALLS_14), ChoiceName.LEAST_CUTTING)
    assert (one.asked.mm, one.rip) == (872, 0)


def test_the_datum_comes_on_the_rounding_grid_upwards_for_an_uncut_board():
    """FP: high spot 0.3: 872.3 goes up to 872.5, never down to 872."""
    one = choice(datum_of(room_of(run_of(*FOUR)), floor_of(surface(lambda x, y: 0.3))), ChoiceName.UNCUT)
    assert one.asked.mm == 872.5 and one.rip == 0


def test_where_no_grid_point_fits_the_datum_is_exact():
    """FP: legs that only ever are 150.2 high: D 870.2 and nothing else, on a grid of 0.5."""
    of = datum_of(room_of(run_of(unit(legs=Legs(150.2, 150.2, reserve_mm=0)))), falls(0))
    assert of.feasible
    assert choice(of, ChoiceName.LOWEST).asked.mm == pytest.approx(870.2)
    split = choice(of, ChoiceName.SPLIT)
    assert not split.feasible and split.nearest.mm == pytest.approx(870.2)


def test_legs_ten_too_high_leave_25_to_30_open_at_the_low_end():
    """Common practice: legs 10 too high at the high spot leave 25 to 30 over the board at the low end of a floor that
    falls 15 to 20."""
    for fall, left_open in ((15, 25), (20, 30)):
        room = room_of(run_of(*FOUR), worktop=Worktop(30, wanted_height_mm=150 + 10 + 720 + 30))
        one = choice(datum_of(room, falls(fall)), ChoiceName.WANTED)
        assert one.gaps[0].mm - 150 == pytest.approx(10)
        assert one.gaps[1].mm - 150 == pytest.approx(left_open)


def test_a_floor_within_three_either_way_is_very_good():
    """Common practice: within +-3 nothing is ripped and nothing gapes. The board goes in at +3 with its play of 2, and at
    -3 the gap is 2 + 6 over the board."""
    floor = floor_of(surface(lambda x, y: 3.0 - 6.0 * x / 2400))
    one = choice(datum_of(room_of(run_of(*FOUR)), floor), ChoiceName.UNCUT)
    assert (one.asked.mm, one.feasible, one.rip, one.reach_not) == (3 + 720 + 150 + 2, True, 0, 0)
    assert [gap.mm - 150 for gap in one.gaps] == pytest.approx([2, 2 + 6])


def test_boards_that_leave_more_open_than_wanted_are_counted():
    """FP: gaps at D 880 on a floor that falls 14 over four units: 160, 163.5, 167, 170.5, 174: over 150 + 20 in two."""
    room = room_of(run_of(*FOUR), worktop=Worktop(30, wanted_height_mm=910.0), board=PlinthBoard(150, 2, 16, 20))
    one = choice(datum_of(room, FALLS_14), ChoiceName.WANTED)
    assert (one.asked.mm, one.reach_not, one.rip) == (880, 2, 0)


def test_each_choice_tells_its_legs_and_clearance():
    room = room_of(run_of(unit(), bay(machine(850))), worktop=Worktop(30, wanted_height_mm=905.0))
    one = choice(datum_of(room, falls(0)), ChoiceName.WANTED)
    assert [leg.text for leg in one.legs] == ["155", "155"]
    assert one.clearance.text == "25"


def test_a_room_without_legs_has_no_plinth_to_go_by():
    of = datum_of(room_of(run_of(bay(machine(865)))), falls(0))
    for name in (ChoiceName.UNCUT, ChoiceName.SPLIT, ChoiceName.LEAST_CUTTING):
        assert choice(of, name).asked is None and "plinth" in choice(of, name).why_not
    assert choice(of, ChoiceName.LOWEST).asked.mm == 865


def test_nothing_below_means_no_lowest():
    cooker = machine(850, ApplianceSeat.BESIDE_TOP, greatest_height_mm=860.0)
    one = choice(datum_of(room_of(run_of(bay(cooker))), falls(0)), ChoiceName.LOWEST)
    assert one.asked is None and one.why_not


def test_the_five_stand_side_by_side_in_a_fixed_order():
    of = datum_of(room_of(run_of(*FOUR)), FALLS_14)
    assert [one.name for one in of.choices] == list(ChoiceName)


def test_rounding_never_puts_a_datum_that_can_be_had_out_of_the_interval():
    """FP: wanted 893.2 - 30 = 863.2; the machine wants 863.1: 863 would be too low, so 863.5 and not 863."""
    room = room_of(run_of(unit(), bay(machine(863.1))), worktop=Worktop(30, wanted_height_mm=893.2))
    one = choice(datum_of(room, falls(0)), ChoiceName.WANTED)
    assert (one.asked.mm, one.feasible) == (863.5, True)
