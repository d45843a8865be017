"""The plinth sheet read back from its PDF; its figures follow from those of the sample by arithmetic (there)."""

import io
from dataclasses import replace

import pdfplumber
import pypdfium2
import pytest
import sample_plan as sample
import sample_plinth as plinths

from oddleg.plan.finding import Finding, Severity
from oddleg.sheets import SheetSource, sheet_pdf

SOURCE = SheetSource(3, "revision 3, entries to 57", "25 November 2026")


def pdf_of(plinth=None):
    room = replace(sample.room_plan(), plinth=plinth or plinths.plinth())
    return sheet_pdf(sample.plan(room), "plinth-kitchen", SOURCE)


def pages_of(plinth=None):
    pdf = pypdfium2.PdfDocument(pdf_of(plinth))
    try:
        return [" ".join(page.get_textpage().get_text_bounded().split()) for page in pdf]
    finally:
        pdf.close()


def test_the_cutting_list_has_a_box_to_tick_and_both_heights_for_each_piece():
    with pdfplumber.open(io.BytesIO(pdf_of())) as pdf:
        table = pdf.pages[0].extract_text()
        # Boxes of 4 mm: three pieces and one panel; a point is 25.4 / 72 mm.
        side_mm = 4.0
        boxes = [
            one
            for one in (*pdf.pages[0].rects, *pdf.pages[0].curves)
            if one["width"] * 25.4 / 72 == pytest.approx(side_mm, abs=0.3)
            and one["height"] * 25.4 / 72 == pytest.approx(side_mm, abs=0.3)
        ]
    assert len(boxes) == 4
    for row in ("P1 piece 1, Window run 1950 146 143 7", "P2 piece 2, Window run 900 146 145 5"):
        assert row in table
    assert "P3 counter front, Window run 1366 150 150 uncut 8" in table


def test_a_bowed_piece_tells_its_heights_along_it_and_a_straight_one_does_not():
    text = " ".join(pages_of())
    assert "Heights along it: 146 at 0, 149 at 650, 144 at 1300, 143 at 1950." in text
    assert text.count("Heights along it") == 1


def test_boards_waste_and_whether_it_is_proved_are_said():
    text = " ".join(pages_of())
    for words in (
        "150 high, 16 thick", "from 3000 long, saw cut 4", "Board 1: P1 1950, P2 900", "left over 142",
        "Waste 1784 mm, 30 % of 2 boards. No fewer than 2 boards can do.",
    ):  # fmt: skip
        assert words in text, words


def test_only_what_is_ripped_is_drawn():
    text = " ".join(pages_of())
    assert "Rip to the profile, 7 off the 150 board at most." in text and "Rip, 5 off" in text
    assert "goes in uncut" not in text
    whole = (plinths.piece(1, 900.0, (155.0, 158.0)),)
    assert "each that is ripped" not in " ".join(pages_of(plinths.plinth(whole, nested=False)))


def test_panels_to_the_floor_give_their_edges_and_their_scribe():
    assert "end panel, Window run front 878, back 874.5 878 3.5 finished floor" in " ".join(pages_of())


def test_a_stop_stands_before_the_list_and_a_caution_defers():
    stop = Finding("plinth.floor", Severity.STOP, "sink base", "The floor under its plinth is not known.", "Read it.")
    first = pages_of(replace(plinths.plinth(), findings=(plinths.CAUTION, stop)))
    assert first[0].index("STOP: sink base") < first[0].index("Cutting list")
    assert "Caution: sawing" in first[-1] and "local rules" in first[-1]


def test_a_room_with_nothing_to_close_says_so():
    (text,) = pages_of(plinths.bare())
    assert "No plinth piece in this room" in text
    assert "On the stock boards" not in text


def test_forty_pieces_flow_over_the_pages():
    many = tuple(plinths.piece(n, 600.0, (148.0, 147.0)) for n in range(1, 41))
    pages = pages_of(plinths.plinth(many, nested=False))
    assert all(any(f"P{n} piece {n}, " in page for page in pages) for n in range(1, 41))
    assert len(pages) > 3


def test_notches_and_grilles_stand_in_the_list_and_their_piece_is_drawn():
    text = " ".join(pages_of(plinths.cut_out()))
    assert "Grille in the board for tall fridge, from its sheet: 400 wide, 60 high, 800 from the left end, its lower edge 50 up from the foot." in text
    assert "Where each goes, and each that is ripped or cut out" in text
    assert text.count("goes in uncut") == 1
