"""The whole way from a job and its entries to a plan and its parts."""

import dataclasses
import json

import demo_hall
import pytest
import sample_room as sample

from oddleg.charts import charts
from oddleg.job import (
    AddedStation,
    BenchMark,
    Blocked,
    DatumDecision,
    Entry,
    GoodEnough,
    Reading,
    SetUp,
    Stage,
    Station,
    Way,
)
from oddleg.plan import plan as plan_of
from oddleg.plan.figure import figure
from oddleg.plan.finding import Finding, Severity
from oddleg.plan.part_values import MARK_SIGNS, finding_part, mark_of
from oddleg.plan.parts import parts

SET_UP = SetUp("one", "set-up one", "room", Stage.STRIPPED, "laser", "rule")


def plan(job, log):
    return plan_of(job, log, charts())


def entry(position, body, replaces=None):
    return Entry(f"uid-{position}", position, "Ned", "2026-11-23T08:40:00Z", body, replaces)


def read(station, value_mm, position, way=Way.DOWN):
    x_mm, y_mm = getattr(station, "x_mm", None), getattr(station, "y_mm", None)
    return entry(position, Reading("one", station.id, way, value_mm, station.name, x_mm, y_mm))


def surveyed(values, *more):
    """One run of two carcasses, its four stations read, the bench mark first and last at 1200."""
    room = sample.room(sample.run(sample.carcass("left"), sample.carcass("right")))
    job = sample.job(room)
    mark = room.bench_marks[0]
    stations = [one.station for one in plan(job, ()).rooms[0].station_list.stations]
    log = [entry(1, SET_UP), read(mark, 1200.0, 2)]
    log += [read(station, value, i) for i, (station, value) in enumerate(zip(stations, values, strict=True), 3)]
    return plan(job, [*log, read(mark, 1200.0, 90), *more])


def all_texts(value):
    if isinstance(value, dict):
        for one in value.values():
            yield from all_texts(one)
    elif isinstance(value, list):
        for one in value:
            yield from all_texts(one)
    elif isinstance(value, str):
        yield value


def rules(found):
    return {row["rule"] for row in parts(found, 1)["findings"]["findings"]}


def test_the_demo_is_level_to_within_its_own_give_or_take_of_the_floor_that_was_made_up():
    room = demo_hall.hall_plan().rooms[0]
    by_id = {one.station.id: one.station for one in room.station_list.stations}
    for one in room.levels.stations:
        station = by_id[one.station]
        if station.surface == "floor":
            fall_mm = 14.0 * (0.75 * station.x_mm / 5400 + 0.25 * station.y_mm / 2900)
            away_sq = (station.x_mm - 2300) ** 2 + (station.y_mm - 2300) ** 2
            made_up_mm = -0.8 - fall_mm - 2.5 * max(0.0, 1 - away_sq / 900**2)
            # Twice the 95 % half-width and the half of the half millimetre it was read to.
            assert abs(one.level_mm - made_up_mm) < 2 * one.half_width_mm + 0.25


def test_the_same_in_gives_the_same_out_and_every_value_can_be_written_as_json():
    once = json.dumps(parts(demo_hall.hall_plan(), 1), allow_nan=False)
    again = json.dumps(parts(plan(demo_hall.job(), demo_hall.entries()), 1), allow_nan=False)
    assert once == again


def test_a_blunder_that_was_read_again_leaves_no_trace_in_the_levels():
    room = demo_hall.hall_plan().rooms[0]
    assert room.levels.misclosure is not None and abs(room.levels.misclosure.mm) <= room.levels.misclosure.limit_mm
    assert not [one for one in room.levels.findings if one.severity != "note"]


def test_legs_of_a_level_floor_all_get_the_preset():
    # Floor 10 below the bench mark, datum 862, carcass 720: legs 862 - 720 + 10 = 152.
    found = surveyed([1210.0] * 4, entry(91, DatumDecision("room", "wanted_height", 862.0, "aaaaaa")))
    for unit in found.rooms[0].units:
        assert unit.preset.text == "152"
        assert {leg.height.text for leg in unit.legs} == {"152"} and {leg.differs.text for leg in unit.legs} == {"0"}


def test_a_job_without_readings_makes_a_plan_that_says_what_to_do_next():
    room = sample.room(sample.run(sample.carcass("only")))
    found = plan(sample.job(room), ())
    texts = list(all_texts(parts(found, 1)))
    assert any("read the nail first" in text for text in texts)
    assert found.rooms[0].units == () and not found.rooms[0].datum.decided


def test_a_covering_of_unknown_thickness_is_told_before_anybody_reads_on_it():
    """In the demo an old vinyl, gone once stripped, is of unknown thickness; a known one is nothing to be told."""
    words = parts(demo_hall.hall_plan(), 1)["survey/kitchen"]["stage_words"]
    assert list(words) == ["as_found"] and "old vinyl sheet" in words["as_found"]
    job = demo_hall.job()
    known = dataclasses.replace(job.rooms[0].old_coverings[0], thickness_mm=2.0)
    thick = dataclasses.replace(job, rooms=(dataclasses.replace(job.rooms[0], old_coverings=(known,)),))
    assert parts(plan(thick, demo_hall.entries()), 1)["survey/kitchen"]["stage_words"] == {}


@pytest.mark.parametrize("count", [0, 1])
def test_a_room_of_no_runs_and_a_run_of_no_items_make_a_plan(count):
    room = sample.room(*[sample.run() for _ in range(count)])
    assert parts(plan(sample.job(room), ()), 1)["survey/room"]["stations"] == []


def test_a_job_of_no_rooms_makes_a_plan():
    assert parts(plan(sample.job(), ()), 1)["job"]["rooms"] == []


def test_one_reading_and_all_readings_at_one_spot_make_a_plan_with_a_finding():
    room = sample.room(sample.run(sample.carcass("only")))
    spot = Station("st-one", "back one", 40.0, 40.0)
    log = [entry(1, SET_UP), read(room.bench_marks[0], 1200.0, 2), read(spot, 1210.0, 3)]
    assert "datum.leg_floor_unknown" in rules(plan(sample.job(room), log))
    same = [entry(1, SET_UP), *(read(spot, 1210.0 + i, i + 2) for i in range(5))]
    assert parts(plan(sample.job(room), same), 1)["findings"]["findings"]


def test_a_bench_mark_that_was_never_read_is_a_stop():
    room = sample.room(sample.run(sample.carcass("only")))
    log = [entry(1, SET_UP), read(Station("st-one", "back one", 40.0, 40.0), 1210.0, 2)]
    rows = parts(plan(sample.job(room), log), 1)["findings"]["findings"]
    assert rows[0]["severity"] == "stop" and "nail was never read" in rows[0]["wrong"]


def test_a_station_that_was_read_keeps_its_place_and_name_when_the_run_is_moved():
    room = sample.room(sample.run(sample.carcass("only")))
    stations = [one.station for one in plan(sample.job(room), ()).rooms[0].station_list.stations]
    log = [entry(1, SET_UP), read(room.bench_marks[0], 1200.0, 2), read(stations[0], 1210.0, 3)]
    moved = sample.room(sample.run(sample.carcass("only"), x_mm=900.0))
    after = {one.station.id: one.station for one in plan(sample.job(moved), log).rooms[0].station_list.stations}
    kept = after[stations[0].id]
    assert (kept.name, kept.x_mm, kept.y_mm) == (stations[0].name, stations[0].x_mm, stations[0].y_mm)
    assert len(after) == 5


def test_the_bench_mark_is_asked_for_at_the_end_only_until_it_was_read_there():
    whole = surveyed([1210.0] * 4)
    assert parts(whole, 1)["survey/room"]["next_words"] == "Every station is read. Choose a datum."
    late = whole.rooms[0].station_list.stations[0].station
    again = surveyed([1210.0] * 4, read(late, 1210.0, 95))
    assert parts(again, 1)["survey/room"]["next_words"] == "Every station is read. Read the nail again and choose a datum."


def test_a_proposed_station_that_was_read_still_says_what_rests_on_it():
    assert {one.station.serves for one in surveyed([1210.0] * 4).rooms[0].station_list.stations} == {
        "back legs, Run A",
        "front legs, Run A",
    }


def test_a_blocked_station_is_shown_as_blocked_until_it_is_read():
    room = sample.room(sample.run(sample.carcass("only")))
    first = plan(sample.job(room), ()).rooms[0].station_list.stations[0].station
    log = [entry(1, SET_UP), read(room.bench_marks[0], 1200.0, 2), entry(3, Blocked(first.id, "boxes"))]

    def states(log):
        return {one.station.id: one.state for one in plan(sample.job(room), log).rooms[0].station_list.stations}

    assert states(log)[first.id] == "blocked"
    assert states([*log, read(first, 1210.0, 4)])[first.id] == "read"


def test_in_betweens_are_asked_for_where_neighbours_differ_until_the_fitter_says_good_enough():
    found = surveyed([1200.0, 1206.0, 1206.0, 1200.0])
    between = [one.station.name for one in found.rooms[0].station_list.stations if one.pass_number == 2]
    assert between == ["back one half", "front two half"]
    enough = surveyed([1200.0, 1206.0, 1206.0, 1200.0], entry(91, GoodEnough("room")))
    assert [one for one in enough.rooms[0].station_list.stations if one.pass_number == 2] == []
    middle = found.rooms[0].floor.under_legs.at(600.0, 40.0), enough.rooms[0].floor.under_legs.at(600.0, 40.0)
    # The job's own figures: ±1 between stations, ±2 where the in-betweens were left out.
    assert middle[1].half_width_mm - middle[0].half_width_mm == pytest.approx(2.0 - 1.0)
    assert any("±2 mm" in text for text in all_texts(parts(enough, 1)["survey/room"]["skipped"]))


def test_a_bench_mark_not_read_at_the_end_is_said_and_blocks_nothing():
    room = sample.room(sample.run(sample.carcass("only")), bench_marks=(BenchMark("mark", "nail"),))
    log = [
        entry(1, SET_UP),
        read(room.bench_marks[0], 1200.0, 2),
        read(Station("s", "back one", 40.0, 40.0), 1210.0, 3),
    ]
    survey = parts(plan(sample.job(room), log), 1)["survey/room"]
    assert any("nail was not read again" in text for text in survey["skipped"])
    assert survey["stations"][0]["level"]["text"] == "−10"


def test_residuals_spread_and_standard_deviation_are_told():
    """A station read 1210 and again 1211: level 10.5 below the nail, each reading 0.5 off, the two 1 apart. FP."""
    room = sample.room(sample.run(sample.carcass("only")))
    spot, mark = Station("s", "back one", 40.0, 40.0), room.bench_marks[0]
    log = [entry(1, SET_UP), read(mark, 1200.0, 2), read(spot, 1210.0, 3), read(spot, 1211.0, 4), read(mark, 1200.0, 5)]
    survey = parts(plan(sample.job(room), log), 1)["survey/room"]
    (level,) = [one["level"] for one in survey["stations"] if one["id"] == "s"]
    assert level["text"] == "−10.5"
    assert "1210 down in set-up one (−0.5 off), 1211 down in set-up one (+0.5 off)" in level["why"]
    assert survey["quality"] == [
        "One reading has a standard deviation of 0.5 mm, as the job states it.",
        "Largest residual −0.5 mm, back one in set-up one (reading less what all readings together make of it).",
        "Repeats differ by 1 mm at most, at back one.",
    ]
    assert parts(plan(sample.job(room), ()), 1)["survey/room"]["quality"] == []


def test_the_phone_compares_with_fixed_numbers_of_the_job():
    limits = parts(plan(sample.job(sample.room()), ()), 1)["survey/room"]["limits"]
    staff = {"least_mm": 50.0, "greatest_mm": 3500.0}
    assert limits == {
        "ways": {"down": staff, "up": staff, "offset": {"least_mm": 0.0, "greatest_mm": 3500.0}},
        "repeat_mm": 2.0,
        "step_mm": 60.0,
    }


def test_a_high_spot_added_on_site_is_a_station_like_any_other():
    """TRAPS 57, 59: found by sweeping, added there, read: it is the room's high spot."""
    room = sample.room(sample.run(sample.carcass("only")))
    added = AddedStation("hump", "high spot", "room", 300.0, 1500.0, "high spot")
    spots = [one.station for one in plan(sample.job(room), ()).rooms[0].station_list.stations]
    log = [entry(1, SET_UP), read(room.bench_marks[0], 1200.0, 2), entry(3, added), read(added, 1195.0, 4)]
    log += [read(spot, 1210.0, i) for i, spot in enumerate(spots, 5)]
    found = plan(sample.job(room), log).rooms[0]
    (hump,) = [one for one in found.station_list.stations if one.station.id == "hump"]
    assert (hump.added, hump.accepted, hump.state, hump.level.text) == (True, False, "read", "+5")
    assert found.floor.as_read.highest.name == "high spot"


def test_a_mark_changes_with_a_shown_text_and_only_then():
    figure = {"mm": 152.2, "text": "152", "why": "so"}
    assert mark_of(figure) == mark_of(figure | {"mm": 152.3}) != mark_of(figure | {"text": "153"})
    assert len(mark_of(figure)) == 6 and set(mark_of(figure)) <= set(MARK_SIGNS)


def test_one_reading_changes_only_the_parts_that_show_something_else():
    """The last station of the demo, read 0.5 lower: it is no tie, so no plane moves, and units away from it stay as they
    are, to the byte."""
    before, entries = parts(demo_hall.hall_plan(), 1), demo_hall.entries()
    last = [one for one in entries if isinstance(one.body, Reading) and one.body.name == "front twelve half"][-1]
    again = Entry(
        "again",
        999,
        "Ned",
        "2026-11-23T12:00:00Z",
        dataclasses.replace(last.body, value_mm=last.body.value_mm + 0.5),
        last.uid,
    )
    after = parts(plan(demo_hall.job(), [*entries, again]), 1)
    changed = {name for name in before if json.dumps(before[name]) != json.dumps(after[name])}
    assert {"survey/kitchen", "unit/counter-left"} <= changed
    assert {name for name in changed if name.startswith("unit/")} == {"unit/counter-left"}


def test_a_note_changes_no_part():
    from oddleg.job import Note

    before = parts(demo_hall.hall_plan(), 1)
    noted = [*demo_hall.entries(), Entry("n", 999, "Ned", "2026-11-23T12:00:00Z", Note("sink", "chipped"))]
    assert {name: one["mark"] for name, one in parts(plan(demo_hall.job(), noted), 1).items()} == {
        name: one["mark"] for name, one in before.items()
    }


def test_every_figure_opens_to_a_sentence():
    found = parts(demo_hall.hall_plan(), 1)

    def figures(value, path=""):
        if isinstance(value, dict):
            if set(value) == {"mm", "text", "why"}:
                yield path, value
            for key, one in value.items():
                yield from figures(one, f"{path}/{key}")
        elif isinstance(value, list):
            for i, one in enumerate(value):
                yield from figures(one, f"{path}/{i}")

    silent = [path for path, one in figures(found) if not one["why"].strip().endswith(".")]
    assert not silent and any("/amount" in path for path, _ in figures(found))


def test_what_a_finding_amounts_to_opens_to_its_rule_or_to_what_is_wrong():
    says = Finding("x.y", Severity.NOTE, "Bench", "It is 2 short.", "Cure.", "the rule of it", figure(2.0))
    assert finding_part(says)["amount"]["why"] == "The rule of it."
    assert finding_part(dataclasses.replace(says, source=""))["amount"]["why"] == "It is 2 short."
    own = dataclasses.replace(says, amount=figure(2.0, why="Read 12, wanted 14."))
    assert finding_part(own)["amount"]["why"] == "Read 12, wanted 14."


def test_a_job_of_500_units_makes_a_plan():
    room = sample.room(sample.run(*(sample.carcass(f"unit-{i}") for i in range(500))))
    found = plan(sample.job(room), ())
    assert len(found.rooms[0].station_list.stations) == 2 * 251


def test_a_layer_still_to_be_laid_reaches_the_plinth_but_not_the_legs():
    job = demo_hall.job()
    bare = dataclasses.replace(job, rooms=(dataclasses.replace(job.rooms[0], layers=()),))
    with_sheet, without = demo_hall.hall_plan().rooms[0], plan(bare, demo_hall.entries()).rooms[0]
    for one, other in zip(with_sheet.units, without.units, strict=True):
        assert [leg.height.text for leg in one.legs] == [leg.height.text for leg in other.legs]
        assert [gap.gap.mm + 3 for gap in one.gaps] == pytest.approx([gap.gap.mm for gap in other.gaps])
