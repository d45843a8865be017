"""Where services land, and what is wrong with it. FP throughout: datum 875, floor -14, void 20, units of 600 x 720."""

from __future__ import annotations

from dataclasses import replace

import pytest
import sample_room as sample
from hypothesis import given, settings
from hypothesis import strategies as st
from service_rooms import (
    BARE,
    bay,
    finding,
    level_floor,
    one_unit,
    passage,
    pipe,
    rules,
    run,
    services,
    socket,
    unit,
    wall_unit,
)

from oddleg.job import (
    Appliance,
    ApplianceSeat,
    Batten,
    ComesFrom,
    EndPanel,
    EndsAt,
    Entry,
    Feature,
    FeatureKind,
    Filler,
    Gap,
    MeasuredService,
    RunEnd,
    Service,
    ServiceKind,
    Storey,
    UpFrom,
)
from oddleg.plan.room_services import cut_outs_of
from oddleg.plan.service_places import spot_of
from oddleg.plan.services import room_services
from oddleg.plan.setting_out import setting_out
from oddleg.plan.site import Site

FLOOR = UpFrom.FLOOR


def landing(found):
    (one,) = found.landings
    return one


def test_a_height_over_the_floor_counts_from_the_finished_floor_there():
    """FP: floor -14 + 464 = 450 over the bench mark, 875 - 450 = 425 below the datum."""
    one = landing(one_unit(socket(up_mm=464.0, up_from=FLOOR)))
    assert (one.low_mm, one.high_mm, one.below_datum.text) == (450 - 45, 450 + 45, "425")


def test_a_height_from_the_datum_needs_neither_floor_nor_decision():
    found = one_unit(socket(up_mm=-425.0, up_from=UpFrom.DATUM), datum_mm=None, floor_mm=None)
    assert landing(found).below_datum.text == "425" and landing(found).low_mm is None
    assert found.cuts[0].below_datum.text == "380"


def test_a_runs_own_offset_moves_its_datum_line():
    found = services(run(unit(), services=(socket(up_mm=-425.0, up_from=UpFrom.DATUM),), datum_offset_mm=100.0))
    assert landing(found).below_datum.text == "425" and landing(found).low_mm == 875 + 100 - 425 - 45


@pytest.mark.parametrize(
    ("point", "known"),
    [(socket(), {"datum_mm": None}), (socket(up_from=FLOOR), {"floor_mm": None}), (socket(up_mm=None), {})],
)
def test_without_a_height_nothing_is_cut_and_a_note_says_so(point, known):
    found = one_unit(point, **known)
    assert found.cuts == () and finding(found, "service.height_unknown").severity.value == "note"
    assert cut_outs_of(found, "sink") == "not known yet"


@pytest.mark.parametrize(
    ("up_mm", "item"),
    [(450.0, "sink"), (100.0, "sink"), (1100.0, None), (1500.0, "glasses"), (2300.0, None)],
)
def test_low_ones_land_behind_base_units_high_ones_behind_wall_units_and_between_is_open_wall(up_mm, item):
    """FP: worktop 30, clear 500: a wall unit of 720 hangs from 875 + 30 + 500 = 1405 to 2125."""
    one = landing(services(run(unit(), wall_unit("glasses"), services=(socket(up_mm=up_mm),))))
    assert one.item == item and (one.reached == "on the open wall") == (item is None)


def test_a_tall_unit_takes_all_up_to_its_top():
    """FP: underside 875 - 720 = 155, of 1970: up to 2125."""
    tall = unit("oven", storey=Storey.TALL, height_mm=1970.0)
    cut = services(run(tall, services=(socket(up_mm=1500.0),))).cuts[0]
    assert cut.item == "oven" and cut.from_foot.mm == 1500 - 45 - 155 - 18 and cut.below_datum.mm == 875 - 1545


def test_across_a_joint_both_backs_are_cut_and_it_is_told():
    """FP: 555 to 645 over the joint at 600: the back of the left ends at 582, that of the right starts at 618."""
    found = services(run(unit("a"), unit("b"), services=(socket(x_mm=600.0),)))
    assert [(cut.item, cut.cut.width_mm, cut.cut.open_to) for cut in found.cuts] == [
        ("a", 582 - 555, ("right",)),
        ("b", 645 - 618, ("left",)),
    ]
    assert finding(found, "service.at_joint").severity.value == "warn"
    assert landing(found).also == ("b",) and landing(found).item == "a"


def test_what_need_not_be_reached_and_goes_into_the_void_needs_no_cut_out():
    found = one_unit(socket(reach=False, stands_out_mm=20.0))
    assert found.cuts == () and "covered" in landing(found).words and landing(found).reached is None
    assert rules(found) == []
    assert len(one_unit(socket(reach=False, stands_out_mm=20.5)).cuts) == 1


def test_the_recess_of_the_back_is_free_too():
    deep = unit(box=replace(unit().box, back_recess_mm=30.0))
    point = socket(reach=False, stands_out_mm=50.0)
    assert services(run(deep, services=(point,))).cuts == ()
    assert len(services(run(deep, services=(replace(point, stands_out_mm=51.0),))).cuts) == 1


def test_a_cable_wants_a_hole_and_so_does_what_serves_the_unit():
    assert len(one_unit(pipe(kind=ServiceKind.CABLE, reach=False)).cuts) == 1
    assert len(one_unit(pipe(reach=False, serves="sink")).cuts) == 1
    assert one_unit(pipe(reach=False)).cuts == ()


def test_in_the_leg_space_it_is_reached_with_the_plinth_off():
    """FP: upper edge at 100 + 45 = 145, underside at 155."""
    one = landing(one_unit(socket(up_mm=100.0)))
    assert one.reached == "with the plinth off" and one.cut_out is None and "leg space" in one.words


@pytest.mark.parametrize("item", [EndPanel("panel", "panel", 100.0, 560.0), Filler("filler", "filler", 100.0, 20.0, 200.0)])
def test_behind_what_never_comes_off_a_socket_is_covered(item):
    found = services(run(item, unit(), services=(socket(x_mm=50.0, width_mm=50.0),)))
    assert landing(found).reached is None and "service.covered" in rules(found)


def test_in_a_gap_the_wall_is_open():
    assert landing(services(run(unit(), Gap("gap", "gap", 400.0), services=(socket(x_mm=800.0),)))).item is None


def test_at_the_worktops_edge_it_is_told():
    """FP: the edge from 875 to 905; a socket of 90 at 900 reaches from 855: 30 of it."""
    assert finding(one_unit(socket(up_mm=900.0)), "service.at_worktop").amount.mm == 30


def test_level_with_the_batten_it_is_a_caution():
    """FP: a batten of 45 from 830 to 875; the socket's upper edge at 829 is clear of it."""
    one = run(unit(), unit("b"), services=(socket(up_mm=800.0),), batten=Batten(thickness_mm=20.0, height_mm=45.0))
    told = finding(services(one), "service.at_batten")
    assert told.caution
    assert "service.at_batten" not in rules(services(replace(one, services=(socket(up_mm=784.0),))))


def test_what_is_for_another_unit_needs_a_passage_there():
    one = run(unit("sink"), bay("bay"), services=(socket(serves="bay-machine"),))
    assert "bay" in finding(services(one), "service.no_passage").wrong
    assert "service.no_passage" not in rules(services(replace(one, passages=(passage("bay", "sink"),))))


def test_pipes_of_the_wall_that_stand_out_are_cut_for_like_services():
    """FP: 40 out in a void of 20."""
    feature = Feature("riser", "riser", FeatureKind.PIPE, 200.0, 260.0, 300.0, 600.0, 40.0)
    found = services(run(unit(), features=(feature,)))
    assert [cut.cut.services for cut in found.cuts] == [("riser",)] and found.landings == ()
    assert services(run(unit(), features=(replace(feature, stands_out_mm=20.0),))).cuts == ()


def test_the_label_says_how_many_cut_outs_there_are():
    """Trap 68."""
    found = services(run(unit("a"), unit("b"), services=(socket("x", x_mm=150.0), socket("y", x_mm=400.0))))
    assert cut_outs_of(found, "a") == "yes (2)" and cut_outs_of(found, "b") == "none"


def test_out_of_the_floor_it_comes_through_the_bottom_where_it_is_higher_than_the_legs():
    """FP: the floor at -14, the underside at 155: 169 of leg. 200 high comes 31 through; 300 off the wall is 280 out of
    the line of backs."""
    stub = pipe(comes_from=ComesFrom.FLOOR, up_mm=None, y_mm=300.0, stands_out_mm=200.0, x_mm=250.0)
    found = one_unit(stub)
    told = finding(found, "service.through_bottom")
    assert told.amount.mm == 31 and "250 from the unit's left" in told.wrong and "280 from its back" in told.wrong
    assert landing(found).item == "sink" and found.cuts == ()
    low = one_unit(replace(stub, stands_out_mm=169.0))
    assert rules(low) == [] and landing(low).reached == "with the plinth off"


@pytest.mark.parametrize(("y_mm", "item"), [(700.0, None), (300.0, "sink"), (10.0, None)])
def test_out_of_the_floor_in_front_of_the_units_it_is_open(y_mm, item):
    """FP: the line of backs at 20, fronts at 580: 10 lies in the void behind, 700 before the fronts."""
    one = landing(one_unit(pipe(across_mm=10.0, comes_from=ComesFrom.FLOOR, up_mm=None, y_mm=y_mm, stands_out_mm=50.0)))
    assert one.item == item


def test_a_leg_does_not_stand_on_a_pipe():
    """FP: legs 40 in from the sides and 40 from the back: at x 40, y 20 + 40 = 60."""
    stub = pipe(comes_from=ComesFrom.FLOOR, up_mm=None, y_mm=60.0, x_mm=90.0, stands_out_mm=50.0)
    assert "service.at_leg" in rules(one_unit(stub))
    assert "service.at_leg" not in rules(one_unit(replace(stub, x_mm=300.0)))


def test_live_and_untested_points_and_gas_are_cautions_that_defer():
    found = one_unit(
        socket("tested", x_mm=120.0, found=True, live=False),
        socket("open", x_mm=300.0, found=True),
        pipe("gas", x_mm=480.0, kind=ServiceKind.GAS, found=True),
    )
    assert finding(found, "service.not_tested").concerns == ("room", "open")
    assert finding(found, "service.gas").caution
    assert any("licensed electrician" in words for words in found.cautions)
    assert any("licensed gas trade" in words for words in found.cautions)
    said = " ".join((*found.cautions, *(f"{one.wrong} {one.cure}" for one in found.findings)))
    assert " safe" not in said


def test_first_fix_is_from_the_wall_and_the_finished_floor():
    """Trap 48. FP: 450 over the bench mark is 464 over a floor at -14; wanted 464 over the floor stays 464 whatever it
    is found at."""
    ends = {"left_end": RunEnd(EndsAt.WALL)}
    (wish,) = services(run(unit(), services=(socket(),), **ends)).wanted
    assert (wish.from_left.text, wish.over_floor.text, wish.below_datum.text) == ("300", "464", "425")
    assert wish.from_left_words == "from the finished wall at the left"
    (wish,) = services(run(unit(), services=(socket(up_mm=464.0, up_from=FLOOR),)), datum_mm=None, floor_mm=None).wanted
    assert wish.over_floor.text == "464" and wish.below_datum is None
    assert "zero mark" in wish.from_left_words


def test_what_is_there_is_not_asked_for():
    assert one_unit(socket(found=True)).wanted == ()


def test_a_socket_beside_a_sink_is_held_to_guidance_that_says_it_is_none_of_the_regulations():
    """300 sideways: guidance (diynot.com), not a regulation."""
    bowl = Appliance("bowl", "bowl", ApplianceSeat.IN_TOP, 1.0, greatest_width_mm=400.0)
    one = run(unit(appliances=(bowl,)), unit("b"), services=(socket(x_mm=500 + 299 + 45, up_mm=1100.0),))
    told = finding(services(one), "service.near_sink")
    assert told.amount.mm == 299 and "not a regulation" in told.source and told.caution
    clear = replace(one, services=(socket(x_mm=500 + 300 + 45, up_mm=1100.0),))
    assert "service.near_sink" not in rules(services(clear))


MM = st.integers(-3000, 6000).map(float)
SIZE = st.integers(1, 3000).map(float)


@st.composite
def points(draw, number):
    return Service(
        f"s{number}",
        f"s{number}",
        draw(st.sampled_from(list(ServiceKind))),
        draw(MM),
        draw(st.one_of(st.none(), MM)),
        draw(SIZE),
        draw(SIZE),
        draw(st.sampled_from(list(UpFrom))),
        draw(st.sampled_from(list(ComesFrom))),
        draw(st.one_of(st.none(), MM)),
        draw(st.booleans()),
        draw(st.sampled_from((0.0, 15.0, 60.0, 900.0))),
        draw(st.sampled_from((None, True, False))),
        draw(st.sampled_from((None, "sink", "bay-machine", "nobody"))),
        draw(st.booleans()),
        draw(st.booleans()),
    )


@settings(derandomize=True, deadline=None, max_examples=40)
@given(
    st.lists(st.integers(), max_size=5).flatmap(lambda of: st.tuples(*(points(i) for i in range(len(of))))),
    st.sampled_from((None, 875.0)),
    st.sampled_from((None, -14.0)),
)
def test_any_service_anywhere_gets_a_place_and_never_breaks_the_plan(of_run, datum_mm, floor_mm):
    one = run(
        Filler("filler", "filler", 40.0, 20.0, 60.0), unit("sink"), bay("bay"), unit("oven", storey=Storey.TALL, height_mm=1970.0),
        wall_unit("glasses"), EndPanel("panel", "panel", 18.0, 560.0), services=of_run, passages=(passage("sink", "oven"),),
        batten=Batten(),
    )  # fmt: skip
    found = services(one, datum_mm=datum_mm, floor_mm=floor_mm, rule=BARE)
    assert [each.service.id for each in found.landings] == [each.id for each in of_run]
    assert {each.service.id for each in found.wanted} == {each.id for each in of_run if not each.found}
    for cut in found.cuts:
        width_mm = {"sink": 564.0, "oven": 564.0, "glasses": 564.0}[cut.item]
        assert cut.from_left.mm + cut.width.mm + cut.from_behind.mm == pytest.approx(width_mm)
    for each in found.landings:
        assert each.cut_out is None or each.item in {cut.item for cut in found.cuts}
        assert each.words


def found_at(*points, run_id="run-a"):
    return Site(services=tuple(Entry(f"e{i}", i, "Ned", "2026-11-23T08:40:00Z", MeasuredService(run_id, one)) for i, one in enumerate(points)))


def test_a_service_is_where_it_was_found_and_stays_what_it_was_wanted_for():
    """FP: found 30 further right and 10 lower; it still serves the sink, and is still asked for where it was wanted."""
    wanted = socket(reach=False, serves="sink")
    there = replace(wanted, x_mm=330.0, up_mm=440.0, serves=None)
    found = services(run(unit(), services=(wanted,)), here=found_at(there))
    one = landing(found)
    assert one.service.found and one.service.serves == "sink" and one.below_datum.text == "435"
    assert (one.left_mm, one.right_mm) == (285, 375) and "found 30 right of where it was wanted" in one.words
    assert found.wanted[0].from_left.text == "300" and found.cuts[0].from_left.mm == 285 - 18


def test_what_nobody_asked_for_is_there_all_the_same():
    found = services(run(unit()), here=found_at(socket("stray", found=False)))
    assert landing(found).service.found and found.wanted == () and len(found.cuts) == 1


def test_a_service_counts_in_the_axes_that_the_wall_was_read_in_and_the_rod_has_its_own_zero():
    """FP: in a corner the zero moved by 40: 340 from the corner is 300 on the rod."""
    room = sample.room(run(unit(), services=(socket(x_mm=340.0),)))
    job = sample.job(room)
    (one,) = setting_out(job, room, Site(), 875.0).runs
    moved = replace(one, line=replace(one.line, zero_mm=40.0))
    spot = spot_of(moved, level_floor(job), 875.0, room.runs[0].services[0])
    assert (spot.left_mm, spot.right_mm) == (255, 345)


def test_no_batten_fixing_lies_straight_above_or_below_a_service():
    """From memory of BS 7671, group 522.6; 25 beside it is ours: 255 - 25 to 345 + 25 stays clear."""
    one = run(unit(), services=(socket(x_mm=300.0),), batten=Batten(spacing_mm=250.0, end_mm=50.0))

    def fixings(of_run, here=Site()):  # noqa: B008
        room = sample.room(of_run)
        (out,) = setting_out(sample.job(room), room, here, 875.0).runs
        return [each.x_mm for each in out.batten.fixings]

    assert any(230 < x < 370 for x in fixings(replace(one, services=())))
    assert not any(230 < x < 370 for x in fixings(one))
    assert any(230 < x < 370 for x in fixings(one, found_at(socket(x_mm=100.0)))), "where it was found rules"


def test_a_services_middle_is_told_as_it_is_measured_where_the_rods_zero_has_moved():
    """FP: measured 300 from the zero that the wall was read from; a rod whose zero moved by 3 has its middle at 297."""
    room = sample.room(run(unit(), services=(socket(x_mm=300.0, width_mm=90.0),)))
    job = sample.job(room)
    out = setting_out(job, room, Site(), 875.0)
    moved = replace(out, runs=tuple(replace(one, line=replace(one.line, zero_mm=3.0)) for one in out.runs))
    (landing,) = room_services(job, room, Site(), moved, level_floor(job), 875.0).landings
    assert landing.middle.mm == 300.0
    assert (landing.left.mm + landing.right.mm) / 2 == 297.0
