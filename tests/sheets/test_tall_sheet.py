"""The sheet of tall and wall units read back from its PDF."""

import math
from dataclasses import replace

import corner_rooms as here
import demo_hall
import pypdfium2
import pytest

from oddleg.job import Handing
from oddleg.sheets import SheetSource, UnknownSheet, sheet_names, sheet_pdf

SOURCE = SheetSource(3, "revision 3, entries to 57", "25 November 2026")


def read(plan, name="tall-kitchen"):
    pdf = pypdfium2.PdfDocument(sheet_pdf(plan, name, SOURCE))
    try:
        return " ".join(" ".join(page.get_textpage().get_text_bounded().split()) for page in pdf)
    finally:
        pdf.close()


def with_tall(plan, **changed):
    (room,) = plan.rooms
    return replace(plan, rooms=(replace(room, tall_wall=replace(room.tall_wall, **changed)),))


def test_rails_and_clear_heights_are_told_over_the_datum_line():
    """FP: larder of 1970 on the underside of base carcasses of 720: tops 1250; rail 60 below; units of 720 and of 500."""
    text = read(demo_hall.hall_plan())
    top, rail = 1970 - 720, 1970 - 720 - 60
    assert f"Window run {rail} {top - 720} {top} {top - 720 - 30}" in text
    assert f"Side run: hood unit {rail} {top - 500} {top} {top - 500 - 30}" in text
    assert "Tops of tall and wall units lie in one line 1250 over the datum, as the job asks." in text


def test_standing_up_says_what_each_way_needs_and_what_there_is():
    """FP: 1970 and a leg of 168 by 560 less 40; without legs 1970 by 560."""
    text = read(demo_hall.hall_plan())
    assert "Standing up: tall larder, goes" in text and "floor to ceiling 2404" in text
    on_legs, without = (round(2 * math.hypot(*sides)) / 2 for sides in ((1970 + 168, 560 - 40), (1970, 560)))
    assert f"on its rear feet, legs on {on_legs:g} goes" in text
    assert f"legs fitted afterwards {without:g} goes" in text


def test_trims_are_cut_from_it_and_hoods_held_against_their_sheets():
    """FP: all pieces together; what is printed of them are the plan's own texts."""
    plan = demo_hall.hall_plan()
    text, cornice = read(plan), plan.rooms[0].tall_wall.trims[0]
    assert "Cornice, Window run" in text
    assert all(f"{words} {length.text}" in text for words, length in cornice.pieces)
    assert cornice.total.mm == pytest.approx(sum(length.mm for _, length in cornice.pieces))
    assert f"Together {cornice.total.text}, waste not counted." in text
    assert "hood over cooker" in text and "650 wanted by the sheet of the cooker, 720 there: 70 more." in text
    assert "Caution" in text


def test_what_nobody_read_is_said_and_not_guessed():
    plan = demo_hall.hall_plan()
    (tilt,), (top, *_) = plan.rooms[0].tall_wall.tilt_ups, plan.rooms[0].tall_wall.tops
    ways = tuple((words, height, None) for words, height, _ in tilt.ways)
    unread = with_tall(
        plan, tilt_ups=(replace(tilt, lowest=None, goes=None, ways=ways),), tops=(replace(top, ceiling=None, clear=None),)
    )
    text = read(unread)
    assert "tall larder, not known: ceiling or floor on its way is not read" in text and "floor to ceiling –" in text
    assert "left cups unit, Window run +2124 – –" in text


def test_a_room_without_tall_and_wall_units_has_no_such_sheet():
    plan = here.plan_of(here.room(*here.runs([here.unit("a", 600.0, Handing.LEFT)], [here.post(60.0)])))
    assert plan.rooms[0].tall_wall is None
    assert "tall-kitchen" not in dict(sheet_names(plan))
    with pytest.raises(UnknownSheet):
        sheet_pdf(plan, "tall-kitchen", SOURCE)
