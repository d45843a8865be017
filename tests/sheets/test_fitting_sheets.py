"""Drawers, drilling, services and first fix read back from their PDFs."""

from dataclasses import replace

import demo_hall
import pypdfium2
import pytest

from oddleg.plan.fitting import NOTHING_FITTED
from oddleg.plan.parts import parts
from oddleg.sheets import SheetSource, UnknownSheet, sheet_names, sheet_pdf

SOURCE = SheetSource(3, "revision 3, entries to 57", "25 November 2026")
KINDS = ("drawers", "drilling", "services", "first_fix")


def read(name, plan=None):
    pdf = pypdfium2.PdfDocument(sheet_pdf(plan or demo_hall.hall_plan(), name, SOURCE))
    try:
        return " ".join(" ".join(page.get_textpage().get_text_bounded().split()) for page in pdf)
    finally:
        pdf.close()


def part(name):
    return parts(demo_hall.hall_plan(), 1)[name]


def test_boards_are_listed_by_size_with_their_rebate_and_the_drawers_they_are_for():
    text, rows = read("drawers-kitchen"), part("drawers/kitchen")["list"]
    assert rows
    for one in rows:
        assert f"{one['count']} {one['part']} {one['length']['text']} {one['width']['text']} {one['thickness']['text']}" in text
        assert one["rebate_words"] in text
    assert "in section" in text and "Length runs along the grain" in text


def test_the_list_counts_every_board_of_every_drawer_once():
    made = part("drawers/kitchen")
    assert sum(one["count"] for one in made["list"]) == sum(one["count"] for one in made["parts"])
    (room,) = demo_hall.hall_plan().rooms
    drawers = [drawer for unit in room.fitting.units for drawer in unit.drawers]
    spaced = [drawer for drawer in drawers if drawer.spacer_mm > 0]
    assert sum(one["count"] for one in made["list"]) == 2 * len(drawers) + 2 * len(spaced)
    assert sum(one["count"] for one in made["runners"]) == len(drawers)


def test_drilling_sums_up_every_hole_by_bit_and_depth_stop():
    text, made = read("drilling-kitchen"), part("drilling/kitchen")
    (room,) = demo_hall.hall_plan().rooms
    holes = [hole for unit in room.fitting.units for panel in unit.panels for hole in panel.holes]
    assert sum(one["holes"] for one in made["bits"]) == len(holes) == sum(one["holes"] for one in made["units"])
    for one in made["bits"]:
        stop = one["stop"]["text"] if one["stop"] else "right through"
        assert f"{one['diameter']['text']} {stop} {one['holes']}" in text
    assert "depth stop" in text.lower() and "extraction" in text


def test_a_connecting_screw_goes_through_two_holes():
    (room,) = demo_hall.hall_plan().rooms
    holes = [hole for unit in room.fitting.units for panel in unit.panels for hole in panel.holes if hole.hole_for == "connector"]
    told = [one for one in part("drilling/kitchen")["screws"] if one["words"].startswith("Connecting")]
    assert sum(one["count"] for one in told) == len(holes) / 2


def test_cut_outs_are_told_from_the_panel_s_edges_and_the_datum_and_never_from_the_floor():
    text, made = read("services-kitchen"), part("services/kitchen")
    assert made["cuts"] and "Never measured from the floor" in text
    for one in made["cuts"]:
        size = f"{one['width']['text']} bore" if one["round"] else f"{one['width']['text']} × {one['height']['text']}"
        assert f"{one['from_left']['text']} {one['from_right']['text']} {one['from_top']['text']} {one['from_datum']} {size}" in text


def test_cautions_stand_first_and_say_that_nothing_tested_counts_as_live():
    for name in ("services-kitchen", "first_fix-kitchen"):
        text = read(name)
        assert "Caution." in text and "counts as live" in text and "local code" in text
        assert " safe" not in text.lower()


def test_first_fix_is_for_the_trades_before_plaster():
    text, made = read("first_fix-kitchen"), part("services/kitchen")
    assert "before plaster" in text
    for one in made["wanted"]:
        over = one["over_floor"]["text"] if one["over_floor"] else "–"
        assert f"{one['from_left']['text']} {over}" in text


@pytest.mark.parametrize("kind", KINDS)
def test_a_room_with_nothing_fitted_out_has_no_such_sheet(kind):
    plan = demo_hall.hall_plan()
    (room,) = plan.rooms
    bare = replace(plan, rooms=(replace(room, fitting=NOTHING_FITTED),))
    assert f"{kind}-kitchen" not in dict(sheet_names(bare)) and f"{kind}-kitchen" in dict(sheet_names(plan))
    with pytest.raises(UnknownSheet):
        sheet_pdf(bare, f"{kind}-kitchen", SOURCE)


def test_a_room_that_wants_no_service_before_plaster_has_no_first_fix():
    plan = demo_hall.hall_plan()
    (room,) = plan.rooms
    services = replace(room.fitting.services, wanted=())
    found = replace(plan, rooms=(replace(room, fitting=replace(room.fitting, services=services)),))
    names = dict(sheet_names(found))
    assert "services-kitchen" in names and "first_fix-kitchen" not in names
