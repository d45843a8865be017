"""What the entries amount to: replaced ones are dead, undone ones too, and arrival order chooses nothing."""

import itertools

import sample_room as sample

from oddleg.job import AddedStation, DatumDecision, Entry, GoodEnough, LegsSet, Reading, SetUp, Stage, TwoWall, Way
from oddleg.plan.site import of_room, site

SET_UP = SetUp("one", "set-up one", "room", Stage.STRIPPED)


def entry(uid, body, replaces=None, position=1):
    return Entry(uid, position, "Ned", "2026-11-23T08:40:00Z", body, replaces)


def reading(uid, value_mm, replaces=None, set_up="one"):
    return entry(uid, Reading(set_up, "back-one", Way.DOWN, value_mm, "back one", 0.0, 0.0), replaces)


def site_of(*entries):
    return site(sample.job(sample.room()), entries)


def values(found):
    return sorted(one.body.value_mm for one in found.readings)


def test_a_reading_that_was_replaced_is_dead_in_whatever_order_the_two_arrived():
    three = (entry("s", SET_UP), reading("a", 1102.0), reading("b", 1202.0, replaces="a"))
    for order in itertools.permutations(three):
        assert values(site_of(*order)) == [1202.0]


def test_an_undo_takes_back_without_bringing_anything_back():
    found = site_of(entry("s", SET_UP), reading("a", 1102.0), reading("b", 1202.0, "a"), entry("u", None, "b"))
    assert values(found) == []


def test_two_entries_that_replace_the_same_one_both_live():
    found = site_of(entry("s", SET_UP), reading("a", 1.0), reading("b", 2.0, "a"), reading("c", 3.0, "a"))
    assert values(found) == [2.0, 3.0]


def test_what_replaces_an_entry_that_is_not_here_yet_waits_with_a_note():
    found = site_of(entry("s", SET_UP), reading("b", 1202.0, replaces="a"))
    assert values(found) == []
    assert [one.rule for one in found.findings] == ["entries.waits"]


def test_a_reading_without_its_set_up_is_left_out_with_a_note():
    found = site_of(reading("a", 1202.0))
    assert values(found) == []
    assert [one.rule for one in found.findings] == ["entries.no_set_up"]


def test_a_set_up_changed_twice_at_once_is_a_stop_and_is_not_used():
    moved = SetUp("one", "set-up one", "room", Stage.STRIPPED, x_mm=1.0, y_mm=1.0)
    found = site_of(entry("s", SET_UP), entry("t", moved, "s"), entry("u", SET_UP, "s"), reading("a", 1202.0))
    assert found.set_ups == () and values(found) == []
    assert found.findings[0].rule == "entries.rival_set_ups" and found.findings[0].severity == "stop"


def test_rival_decisions_are_both_handed_on():
    choices = (
        DatumDecision("room", "lowest_possible", 865.0, "aaaaaa"),
        DatumDecision("room", "wanted_height", 875.0, "aaaaaa"),
    )
    found = site_of(entry("a", choices[0]), entry("b", choices[1]))
    assert len(of_room(found, sample.room()).decisions) == 2


def test_a_room_gets_only_what_was_read_in_it():
    other = SetUp("two", "set-up two", "store", Stage.STRIPPED)
    found = site_of(entry("s", SET_UP), entry("t", other), reading("a", 1.0), reading("b", 2.0, set_up="two"))
    assert values(of_room(found, sample.room())) == [1.0]


def test_what_names_nothing_of_the_job_is_left_out_with_a_note():
    found = site_of(
        entry("a", SetUp("two", "set-up two", "attic", Stage.STRIPPED)),
        entry("b", AddedStation("high", "high spot", "attic", 0.0, 0.0)),
        entry("c", DatumDecision("attic", "wanted_height", 870.0, "aaaaaa")),
        entry("d", GoodEnough("cellar")),
        entry("e", LegsSet("gone", (("FL", 152.0),), "aaaaaa")),
        entry("f", TwoWall("borrowed", "along", 1.0, 5.0, 0.5)),
        entry("g", GoodEnough("room")),
    )
    assert [(one.rule, one.severity, one.wrong) for one in found.findings] == [
        ("entries.not_in_job", "note", f"{text} left out: this job has no {what}.")
        for text, what in (
            ("An entry is", "laser borrowed"),
            ("3 entries are", "room attic"),
            ("An entry is", "room cellar"),
            ("An entry is", "unit gone"),
        )
    ]
