"""What hangs over a hob: asked of the sheets, compared with them, never against a figure of the program's own."""

import dataclasses

import pytest
from datum_rooms import bay, datum_of, floor_of, machine, room_of, rules, run_of, surface, unit
from tall_rooms import LEVEL, made

from oddleg.job import Appliance, ApplianceSeat, Storey, WallUnits

FREE = WallUnits(tops_in_line=False, clear_over_top_mm=600.0)


def hob(above_mm=None, **more):
    return Appliance("hob", "hob", ApplianceSeat.IN_TOP, 60.0, clear_above_mm=above_mm, **more)


def hood(below_mm=None, **more):
    return Appliance("hood", "hood", ApplianceSeat.OVER_TOP, 200.0, clear_below_mm=below_mm, **more)


def over(*appliances, name="over", width_mm=600.0):
    hung = unit(name, width_mm, depth_mm=320.0, storey=Storey.WALL, appliances=appliances)
    return dataclasses.replace(hung, legs=None)


def of_hobs(*items, wall_units=FREE):
    return made(room_of(run_of(*items), wall_units=wall_units))


def severities(of, rule):
    return [one.severity.value for one in of.findings if one.rule == rule]


def test_values_that_nobody_read_are_asked_for_and_nothing_is_said_of_them():
    of = of_hobs(unit("a", appliances=(hob(),)), over(hood()))
    (one,) = of.over_hobs
    assert (one.hob, one.hood, one.wants, one.has.mm) == ("hob", "hood", None, 600.0)
    assert severities(of, "hood.ask") == ["warn", "warn"]
    assert "hood.too_low" not in rules(of.findings)


@pytest.mark.parametrize(("above_mm", "below_mm"), [(650.0, 500.0), (500.0, 650.0)])
def test_the_greater_of_the_two_sheets_counts(above_mm, below_mm):
    """FP: 650 wanted, 600 there: 50 short."""
    of = of_hobs(unit("a", appliances=(hob(above_mm),)), over(hood(below_mm)))
    (one,) = of.over_hobs
    assert one.wants.mm == 650
    (wrong,) = [one for one in of.findings if one.rule == "hood.too_low"]
    assert (wrong.severity, wrong.amount.mm) == ("stop", 50)


def test_exactly_what_is_wanted_is_enough():
    of = of_hobs(unit("a", appliances=(hob(600.0),)), over(hood(600.0)))
    assert "hood.too_low" not in rules(of.findings) and "0 more" in of.over_hobs[0].words


def test_one_sheet_read_is_checked_and_the_other_asked_for():
    of = of_hobs(unit("a", appliances=(hob(650.0),)), over(hood()))
    assert severities(of, "hood.ask") == ["warn"] and severities(of, "hood.too_low") == ["stop"]
    assert "still to be read" in of.over_hobs[0].words


def test_a_cupboard_over_a_hob_is_held_against_the_hobs_sheet():
    of = of_hobs(unit("a", appliances=(hob(750.0),)), over())
    assert of.over_hobs[0].hood == "Unit over" and severities(of, "hood.too_low") == ["stop"]


def test_a_unit_over_part_of_the_hob_counts_and_one_beside_it_does_not():
    """FP: hob in the unit from 0 to 600: units from 0 to 500 and 500 to 1100 both hang over it, that from 1100 not."""
    items = (unit("a", appliances=(hob(500.0),)), over(name="p", width_mm=500.0), over(name="q"), over(name="r"))
    assert [one.hood for one in of_hobs(*items).over_hobs] == ["Unit p", "Unit q"]


def test_a_cooker_beside_the_top_is_asked_like_a_hob():
    cooker = dataclasses.replace(machine(890.0, ApplianceSeat.BESIDE_TOP), clear_above_mm=650.0)
    of = of_hobs(bay(cooker), over())
    assert severities(of, "hood.too_low") == ["stop"]


def test_a_hood_over_no_hob_and_one_without_a_unit_are_named():
    assert "hood.no_hob" in rules(of_hobs(unit("a"), over(hood())).findings)
    hanging = dataclasses.replace(bay(hood(), "hung"), storey=Storey.WALL)
    assert "hood.no_height" in rules(of_hobs(unit("a", appliances=(hob(),)), hanging).findings)


def test_a_hob_under_nothing_is_a_note_once_its_sheet_wants_something():
    """The only wall unit hangs from 0 to 600, the hob's base stands from 600 to 1200."""
    aside = of_hobs(unit("b"), unit("a", appliances=(hob(650.0),)), over(name="p"))
    assert aside.over_hobs == () and severities(aside, "hood.none_over") == ["note"]
    assert severities(of_hobs(unit("b"), unit("a", appliances=(hob(),)), over()), "hood.none_over") == []


def test_a_guessed_value_is_called_one():
    of = of_hobs(unit("a", appliances=(hob(550.0, assumed=("clear_above_mm",)),)), over(hood(500.0)))
    assert "guess" in of.over_hobs[0].words


def test_makers_code_and_licensed_trade_decide_and_nothing_is_called_safe():
    of = of_hobs(unit("a", appliances=(hob(500.0),)), over(hood(500.0)))
    (caution,) = [one for one in of.findings if one.rule == "hood.caution"]
    assert caution.caution and "local code" in caution.cure and "licensed" in caution.cure
    assert not any("safe" in f"{one.wrong} {one.cure}" for one in of.findings)


def test_a_hob_and_a_hood_ask_nothing_of_the_datum():
    """They go with the top: the interval is that of the legs alone."""
    bare = datum_of(room_of(run_of(unit("a"))), LEVEL)
    items = (unit("a", appliances=(hob(650.0),)), over(hood(650.0)))
    fitted = datum_of(room_of(run_of(*items)), LEVEL)
    assert (bare.least.datum_mm, bare.greatest.datum_mm) == (fitted.least.datum_mm, fitted.greatest.datum_mm)
    let_in = bay(hob(), "let-in")
    odd = datum_of(
        room_of(run_of(unit("a"), let_in)), floor_of(surface(lambda x, y: None if x > 600 else 0.0, ((0, 0),)))
    )
    assert "datum.bay_floor_unknown" not in rules(odd.findings)
