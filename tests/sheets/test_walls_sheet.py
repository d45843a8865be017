"""The sheet of a room's walls read back from its PDF."""

from dataclasses import replace

import corner_rooms as here
import demo_hall
import pypdfium2

from oddleg.job import Handing
from oddleg.sheets import SheetSource, sheet_pdf

SOURCE = SheetSource(3, "revision 3, entries to 57", "25 November 2026")


def read(plan):
    pdf = pypdfium2.PdfDocument(sheet_pdf(plan, "walls-kitchen", SOURCE))
    try:
        return " ".join(" ".join(page.get_textpage().get_text_bounded().split()) for page in pdf)
    finally:
        pdf.close()


def with_spots(change):
    """The demo's plan with the spots of its first place changed."""
    plan = demo_hall.hall_plan()
    (room,) = plan.rooms
    run, *others = room.setting_out.runs
    first = run.wall.stations[0].id
    wall = replace(run.wall, spots=tuple(change(one) if one.station == first else one for one in run.wall.spots))
    out = replace(room.setting_out, runs=(replace(run, wall=wall), *others))
    return replace(plan, rooms=(replace(room, setting_out=out),))


def test_every_place_has_what_was_read_there_at_each_height():
    plan, text = demo_hall.hall_plan(), read(demo_hall.hall_plan())
    wall = plan.rooms[0].setting_out.runs[0].wall
    for station in wall.stations:
        out = [one.out.text for one in wall.spots if one.station == station.id]
        row = f"{station.name} {station.x_mm:.0f} {station.serves} {' '.join(out)}"
        assert row in text, row


def test_openings_gaps_features_and_corners_stand_under_it():
    text = read(demo_hall.hall_plan())
    for words in (
        "opening, at worktop height, along the wall 5409.5", "left wall beyond its mark, at batten height, along the wall 2",
        "window sill 1224 2683 +1020 +1041 +25", "Window run and Side run: along the wall of Window run 4000",
    ):  # fmt: skip
        assert words in text, words


def test_a_place_not_read_is_left_empty_to_write_in_and_one_that_differs_says_so():
    unread = read(with_spots(lambda one: replace(one, state="unread", out=None, wall_mm=None)))
    assert "A one 0 left end A two" in unread
    differs = read(with_spots(lambda one: replace(one, state="open", out=None, wall_mm=None)))
    assert "A one 0 left end differ differ differ" in differs


def test_a_room_that_nobody_has_read_yet_is_a_form_to_read_it_by():
    text = read(here.plan_of(here.room(*here.runs([here.unit("a", 600.0, Handing.LEFT)], [here.post(60.0)]))))
    assert "Put up a laser line or a string along" in text and "A one 0 left end A two" in text and "not measured" in text
