"""The chain of heights that hangs from the datum, and the limits (sills, ceilings, door heads) that bind it."""

import pytest
from datum_rooms import datum_of, decision, floor_of, room_of, rules, run_of, surface, unit

from oddleg.job import Bound, HeightLimit, HeightOf, Stage, Storey, WallUnits, Worktop
from oddleg.plan.levels import StationLevel

LEVEL = floor_of(surface(lambda x, y: 0.0))
TALL = unit("tall", height_mm=1970.0, storey=Storey.TALL)
HUNG = unit("hung", height_mm=720.0, depth_mm=330.0, storey=Storey.WALL)
ABOVE = "above the finished floor's highest spot"


def room(*items, **more):
    return room_of(run_of(*(items or (unit(), TALL, HUNG))), **more)


def chain(of):
    return {label: figure.text for label, figure in of.chain.heights}


def limit(height_of, bound, **more):
    return HeightLimit("limit", "the limit", height_of, bound, **more)


def level(station, level_mm):
    return StationLevel(station, Stage.AS_FOUND, level_mm, 0.9, ("r1",), ("setup",))


def test_the_chain_is_fixed_once_the_units_are_ordered():
    """Trap 19, FP: D 875: tall 875 - 720 + 1970 = 2125; wall unit 2125 - 720 = 1405; clear over 905: 500."""
    of = datum_of(room(), LEVEL, [decision(875)])
    heights = chain(of)
    assert heights[f"worktop {ABOVE}"] == "905"
    assert heights[f"top of tall units {ABOVE}"] == "2125"
    assert heights[f"underside of wall units {ABOVE}"] == "1405"
    assert heights["clear over the worktop"] == "500"
    assert "heights.clear_over_top" not in rules(of.findings)


def test_a_sub_deck_enters_the_chain_and_asks_which_may_give():
    """Trap 18, FP: 18 of build-up: worktop 875 + 18 + 30 = 923, clear 1405 - 923 = 482, 18 less than wanted."""
    of = datum_of(room(worktop=Worktop(30, 18)), LEVEL, [decision(875)])
    assert chain(of)[f"worktop {ABOVE}"] == "923"
    assert chain(of)["clear over the worktop"] == "482"
    ask = next(one for one in of.findings if one.rule == "heights.clear_over_top")
    assert ask.severity == "warn" and ask.amount.text == "\N{MINUS SIGN}18" and "which may give" in ask.cure


def test_a_sub_deck_lifts_the_sill_and_hangs_wall_units_higher():
    """Trap 18, FP: 18 of build-up: a sill at 920 leaves D 920 - 30 - 18; without a line of tops wall units hang 450 over
    875 + 18 + 30."""
    sill = limit(HeightOf.WORKTOP_TOP, Bound.AT_MOST, level_mm=920.0)
    assert datum_of(room(unit(), worktop=Worktop(30, 18), height_limits=(sill,)), LEVEL).greatest.datum_mm == 920 - 48
    of = datum_of(room(worktop=Worktop(30, 18), wall_units=WallUnits(False, 450.0)), LEVEL, [decision(875)])
    assert chain(of)[f"underside of wall units {ABOVE}"] == str(875 + 18 + 30 + 450)


def test_the_disagreement_is_told_before_any_datum_is_chosen():
    of = datum_of(room(wall_units=WallUnits(clear_over_top_mm=550.0)), LEVEL)
    assert of.chain is None and "heights.clear_over_top" in rules(of.findings)


def test_a_short_unit_over_a_hood_asks_nothing():
    short = unit("hood", height_mm=360.0, storey=Storey.WALL)
    of = datum_of(room(unit(), TALL, HUNG, short), LEVEL)
    assert "heights.clear_over_top" not in rules(of.findings)


def test_without_a_line_of_tops_wall_units_hang_at_the_wanted_clear_height():
    """FP: 905 + 450 = 1355."""
    of = datum_of(room(wall_units=WallUnits(False, 450.0)), LEVEL, [decision(875)])
    assert chain(of)[f"underside of wall units {ABOVE}"] == "1355"


def test_heights_are_told_above_the_highest_spot_of_the_finished_floor():
    of = datum_of(room(), floor_of(surface(lambda x, y: 0.0), surface(lambda x, y: 12.0)), [decision(875)])
    assert chain(of)["datum above the bench mark"] == "875"
    assert chain(of)[f"worktop {ABOVE}"] == "893"


@pytest.mark.parametrize(
    ("one", "end", "datum_mm"),
    [
        (limit(HeightOf.WORKTOP_TOP, Bound.AT_MOST, level_mm=920.0, clearance_mm=10.0), "greatest", 920 - 10 - 30),
        (limit(HeightOf.WORKTOP_TOP, Bound.AT_LEAST, level_mm=880.0, clearance_mm=5.0), "least", 880 + 5 - 30),
        (limit(HeightOf.TALL_TOP, Bound.AT_MOST, level_mm=2130.0, clearance_mm=20.0), "greatest", 2130 - 20 - 1250),
        (limit(HeightOf.WALL_UNIT_TOP, Bound.AT_MOST, level_mm=2130.0), "greatest", 2130 - 1250),
        (limit(HeightOf.WALL_UNIT_UNDERSIDE, Bound.AT_LEAST, level_mm=1390.0), "least", 1390 - (1250 - 720)),
    ],
)
def test_a_limit_on_a_height_is_a_demand_on_the_datum(one, end, datum_mm):
    """FP: each height is the datum plus a fixed sum: worktop 30, tall 1970 - 720 = 1250, wall unit 1250 - 720."""
    of = datum_of(room(height_limits=(one,)), LEVEL)
    demand = next(demand for demand in of.demands if demand.id == "limit/limit")
    assert (demand.end, demand.datum_mm) == (end, datum_mm)


def test_a_ceiling_is_taken_at_its_lowest_station_and_a_sill_of_least_at_its_highest():
    levels = {"c1": level("c1", 2140.0), "c2": level("c2", 2135.0)}
    for bound, expected in ((Bound.AT_MOST, 2135 - 1250), (Bound.AT_LEAST, 2140 - 1250)):
        ceiling = limit(HeightOf.TALL_TOP, bound, stations=("c1", "c2"))
        of = datum_of(room(height_limits=(ceiling,)), LEVEL, station_levels=levels)
        demand = next(demand for demand in of.demands if demand.id == "limit/limit")
        assert demand.datum_mm == expected
        assert "give or take 1" in demand.datum.why


def test_a_limit_that_nobody_read_asks_nothing_and_is_named():
    ceiling = limit(HeightOf.TALL_TOP, Bound.AT_MOST, stations=("c1",))
    of = datum_of(room(height_limits=(ceiling,)), LEVEL)
    assert not any(demand.id == "limit/limit" for demand in of.demands)
    assert next(one for one in of.findings if one.rule == "datum.limit_without_level").severity == "warn"


def test_a_limit_read_in_part_is_taken_from_the_rest_and_says_so():
    ceiling = limit(HeightOf.TALL_TOP, Bound.AT_MOST, stations=("c1", "c2"))
    of = datum_of(room(height_limits=(ceiling,)), LEVEL, station_levels={"c1": level("c1", 2140.0)})
    assert any(demand.id == "limit/limit" for demand in of.demands)
    assert "taken from the rest" in next(f for f in of.findings if f.rule == "datum.limit_without_level").wrong


def test_a_limit_on_what_is_not_there_is_a_note():
    ceiling = limit(HeightOf.TALL_TOP, Bound.AT_MOST, level_mm=2100.0)
    of = datum_of(room(unit(), height_limits=(ceiling,)), LEVEL)
    assert next(one for one in of.findings if one.rule == "datum.limit_of_nothing").severity == "note"


def test_a_sill_does_not_limit_a_raised_bar_that_stands_free():
    sill = limit(HeightOf.WORKTOP_TOP, Bound.AT_MOST, level_mm=920.0)
    bar = run_of(unit("bar", height_mm=900.0), name="bar", wall=None, datum_offset_mm=150.0, y_mm=2000.0)
    of = datum_of(room_of(run_of(unit()), bar, height_limits=(sill,)), LEVEL)
    assert next(demand for demand in of.demands if demand.id == "limit/limit").datum_mm == 920 - 30


def test_a_raised_run_at_the_wall_binds_the_sill():
    sill = limit(HeightOf.WORKTOP_TOP, Bound.AT_MOST, level_mm=920.0)
    of = datum_of(room_of(run_of(unit(), datum_offset_mm=40.0), height_limits=(sill,)), LEVEL)
    assert of.greatest.datum_mm == 920 - 30 - 40


def test_a_height_to_stay_above_is_asked_by_the_lowest_worktop_at_the_walls():
    """FP: tops at D + 30 and D + 70 above a pipe box at 880: D >= 880 - 30."""
    box = limit(HeightOf.WORKTOP_TOP, Bound.AT_LEAST, level_mm=880.0)
    raised = run_of(unit("b"), name="other", datum_offset_mm=40.0, x_mm=1000.0)
    of = datum_of(room_of(run_of(unit()), raised, height_limits=(box,)), LEVEL)
    assert next(demand for demand in of.demands if demand.id == "limit/limit").datum_mm == 880 - 30


def test_heights_that_differ_are_told_unit_by_unit():
    short = unit("hood", height_mm=360.0, storey=Storey.WALL)
    heights = chain(datum_of(room(unit(), TALL, HUNG, short), LEVEL, [decision(875)]))
    assert heights[f"underside of Unit hung {ABOVE}"] == "1405"
    assert heights[f"underside of Unit hood {ABOVE}"] == "1765"
    assert heights[f"top of wall units {ABOVE}"] == "2125"
