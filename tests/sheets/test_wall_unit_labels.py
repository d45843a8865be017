"""Labels of what hangs (trap 68: one a carcass), read back from the PDF."""

import io
from dataclasses import replace

import demo_hall
import pdfplumber

from oddleg.plan.parts import parts
from oddleg.sheets import SheetSource, sheet_pdf

SOURCE = SheetSource(3, "revision 3, entries to 57", "25 November 2026")
HANGS = {"left cups unit", "right cups unit", "plates unit", "open shelves", "hood unit", "spices unit"}


def words_of(plan):
    with pdfplumber.open(io.BytesIO(sheet_pdf(plan, "labels-kitchen", SOURCE))) as pdf:
        return " ".join(page.extract_text() for page in pdf.pages)


def test_every_carcass_of_the_demo_has_a_label_wall_units_too():
    text = words_of(demo_hall.hall_plan())
    units = demo_hall.hall_plan().rooms[0].fitting.units
    assert {unit.name for unit in units if unit.number is None} == HANGS
    assert all(unit.name in text for unit in units)
    # Ten on legs and six that hang, each with its mark.
    assert text.count("cut-outs: ") == 16 and text.count(" mark ") >= 16


def test_the_label_of_a_wall_unit_says_its_cut_outs_and_its_fronts():
    """The hood's duct comes through the back of its unit; two leaves on 1000: 1000 / 2 less 1.5 on each side."""
    found = parts(demo_hall.hall_plan(), 3)
    assert found["panels/hood-unit"]["cut_outs"] == "cut-outs: yes (1)"
    text = words_of(demo_hall.hall_plan())
    assert text.count("cut-outs: yes (1)") == 2 and "497 × 720" in text


def test_before_a_datum_is_decided_only_what_hangs_has_a_label():
    plan = demo_hall.hall_plan()
    room = replace(plan.rooms[0], units=(), datum=replace(plan.rooms[0].datum, decided=None))
    text = words_of(replace(plan, rooms=(room,)))
    assert "No labels of units on legs yet" in text and "hood unit" in text and "four-drawer base" not in text
