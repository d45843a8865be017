"""What was measured at the walls: readings belong to a line, and of what can be one thing only rivals are not used."""

import itertools

import pytest
import sample_room as sample

from oddleg.job import (
    CornerTriangle,
    EndGap,
    Entry,
    Feature,
    FeatureKind,
    Marked,
    MeasuredFeature,
    OpeningDepth,
    OpeningWidth,
    UnitWidth,
    WallHeight,
    WallLine,
    WallReading,
)
from oddleg.plan.site import of_room, site

LINE = WallLine("string", "string", "run-a")


def entry(uid, body, replaces=None, position=1):
    return Entry(uid, position, "Ned", "2026-11-23T08:40:00Z", body, replaces)


def reading(value_mm, line="string"):
    return WallReading(line, "ws-1", WallHeight.BATTEN, value_mm, "wall one", 0.0)


def job():
    return sample.job(sample.room(sample.run(sample.carcass("sink")), sample.run(id="run-b")))


def site_of(*entries):
    return site(job(), entries)


def rules(found):
    return [one.rule for one in found.findings]


def triangle(across_mm):
    return CornerTriangle("run-a", "run-b", 3000.0, 4000.0, across_mm)


def window(left_mm):
    return MeasuredFeature("run-a", Feature("window", "window", FeatureKind.WINDOW, left_mm, 2600.0))


def test_a_reading_without_its_line_is_left_out_with_a_note():
    found = site_of(entry("a", reading(104.0)))
    assert found.wall_readings == () and rules(found) == ["entries.no_line"]
    assert found.findings[0].wrong == "A reading at wall one is left out: its line is not here."


def test_the_line_may_come_after_its_readings():
    assert [one.uid for one in site_of(entry("a", reading(104.0)), entry("l", LINE)).wall_readings] == ["a"]


def test_a_line_changed_twice_at_once_is_a_stop_and_is_not_used():
    moved = WallLine("string", "string", "run-a", stands_off_mm=100.0)
    found = site_of(entry("l", LINE), entry("m", moved, "l"), entry("n", LINE, "l"), entry("a", reading(104.0)))
    assert (found.wall_lines, found.wall_readings) == ((), ())
    assert rules(found) == ["entries.rival_lines", "entries.no_line"] and found.findings[0].severity == "stop"


RIVALS = [
    ("triangles", triangle(5005.0), triangle(5012.0), "The corner of Run A and run-b"),
    ("features", window(1400.0), window(1410.0), "window"),
    ("unit_widths", UnitWidth("sink", 600.2), UnitWidth("sink", 601.0), "The width of sink"),
    ("marked", Marked("run-a", "edge-3", 600.0, "aaaaaa"), Marked("run-a", "edge-3", 602.0, "aaaaaa"), "A mark of Run A"),
]


@pytest.mark.parametrize(("kind", "one", "other", "words"), RIVALS)
def test_of_what_can_be_one_thing_only_rivals_are_not_used_in_whatever_order_they_come(kind, one, other, words):
    for order in itertools.permutations((entry("a", one), entry("b", other))):
        found = site_of(*order)
        assert getattr(found, kind) == ()
        assert [(each.place, each.severity) for each in found.findings] == [(words, "warn")]


@pytest.mark.parametrize(("kind", "one", "other", "words"), RIVALS)
def test_the_same_thing_entered_twice_alike_is_harmless(kind, one, other, words):
    found = site_of(entry("b", one), entry("a", one))
    assert [each.uid for each in getattr(found, kind)] == ["a"] and found.findings == ()


def test_a_mark_made_again_from_another_plan_at_the_same_place_is_no_rival():
    found = site_of(entry("a", Marked("run-a", "edge-3", 600.0, "aaaaaa")), entry("b", Marked("run-a", "edge-3", 600.0, "bbbbbb")))
    assert len(found.marked) == 1 and found.findings == ()


def test_openings_at_one_height_and_depth_are_all_handed_on():
    """The narrowest counts, which no order of arrival changes."""
    wide, narrow = (OpeningWidth("run-a", WallHeight.FLOOR, OpeningDepth.BACK, mm) for mm in (3008.0, 3000.0))
    assert len(site_of(entry("a", wide), entry("b", narrow)).openings) == 2


def test_a_room_gets_only_what_was_measured_in_it():
    found = site_of(
        entry("l", LINE), entry("a", reading(104.0)), entry("t", triangle(5005.0)), entry("f", window(1400.0)),
        entry("g", EndGap("run-a", "left", WallHeight.BATTEN, OpeningDepth.BACK, 5.0)), entry("u", UnitWidth("sink", 600.2)),
        entry("m", Marked("run-a", "edge-3", 600.0, "aaaaaa")),
        entry("o", OpeningWidth("run-a", WallHeight.FLOOR, OpeningDepth.BACK, 3000.0)),
    )  # fmt: skip
    kinds = ("wall_lines", "wall_readings", "openings", "end_gaps", "triangles", "features", "unit_widths", "marked")
    assert [len(getattr(of_room(found, job().rooms[0]), kind)) for kind in kinds] == [1] * 8
    assert [len(getattr(of_room(found, sample.room()), kind)) for kind in kinds] == [0] * 8


def test_what_names_nothing_of_the_job_is_left_out_with_a_note():
    found = site_of(
        entry("a", WallLine("string", "string", "bar")), entry("b", CornerTriangle("run-a", "bar", 300.0, 400.0, 500.0)),
        entry("c", UnitWidth("hob", 600.0)), entry("d", window(1.0)),
    )  # fmt: skip
    assert [one.wrong for one in found.findings] == [
        "2 entries are left out: this job has no run bar.", "An entry is left out: this job has no unit hob.",
    ]  # fmt: skip
