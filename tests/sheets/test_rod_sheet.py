"""The sheets of a run read back from their PDF; its figures follow from those of the sample by arithmetic (there)."""

import io
import re
from dataclasses import replace

import demo_hall
import pdfplumber
import pypdfium2
import pytest
import sample_plan as sample
import sample_set_out as runs

from oddleg.plan.finding import Finding, Severity
from oddleg.sheets import SheetSource, sheet_names, sheet_pdf

SOURCE = SheetSource(3, "revision 3, entries to 57", "25 November 2026")
# A point is 25.4 / 72 mm.
MM = 25.4 / 72


def pdf_of(kind, set_out, source=SOURCE):
    room = replace(sample.room(), runs=(set_out.run,))
    plan = sample.plan(sample.room_plan(of_room=room, with_units=(), set_outs=(set_out,)))
    return sheet_pdf(plan, f"{kind}-{set_out.run.id}", source)


def pages_of(kind, set_out):
    pdf = pypdfium2.PdfDocument(pdf_of(kind, set_out))
    try:
        return [" ".join(page.get_textpage().get_text_bounded().split()) for page in pdf]
    finally:
        pdf.close()


def text_of(kind, set_out):
    return " ".join(pages_of(kind, set_out))


def with_marks(set_out, change):
    return replace(set_out, rod=replace(set_out.rod, marks=tuple(map(change, set_out.rod.marks))))


def tick_boxes(pdf):
    """Boxes of 4 mm."""
    return [
        one
        for page in pdf.pages
        for one in (*page.rects, *page.curves)
        if one["width"] * MM == pytest.approx(4.0, abs=0.3) and one["height"] * MM == pytest.approx(4.0, abs=0.3)
    ]


def test_marks_stand_in_order_of_marking_each_with_a_box_and_three_figures():
    set_out = runs.set_out()
    text = text_of("rod", set_out)
    rows = [
        f"{one.order} {one.name}{', on the wall' if one.row == 'wall' else ''} {one.from_left.text} {one.from_anchor.text} {one.from_right.text}"
        for one in sorted(set_out.rod.marks, key=lambda one: one.order)
    ]
    places = [text.index(row) for row in rows]
    assert places == sorted(places)
    with pdfplumber.open(io.BytesIO(pdf_of("rod", set_out))) as pdf:
        # 15 marks, 3 fillers, 2 lengths of batten, 4 fixings, 2 panels.
        assert len(tick_boxes(pdf)) == 15 + 3 + 2 + 4 + 2


def test_what_is_on_the_wall_already_has_no_box():
    first = runs.set_out().rod.marks[0].id
    seen = with_marks(runs.set_out(), lambda one: replace(one, order=0) if one.id == first else one)
    with pdfplumber.open(io.BytesIO(pdf_of("rod", seen))) as pdf:
        assert len(tick_boxes(pdf)) == 25
    assert "Marks without a box are on the wall already." in text_of("rod", seen)


def test_a_mark_that_was_made_and_has_moved_says_from_where_to_where():
    made = runs.figure(668.0)
    at = {"left": None}

    def change(one):
        if one.from_left.text == "670.5" and one.row == "base":
            at["left"] = one.id
            return replace(one, marked=made, moved=runs.figure(2.5, signed=True))
        return one

    text = text_of("rod", with_marks(runs.set_out(), change))
    assert at["left"] and "marked at 668, now +2.5" in text


def test_the_sheet_says_anchor_opening_ends_and_what_is_left():
    text = text_of("rod", runs.set_out())
    for words in (
        "The centre of the sink stands on the centre of the window.", "Zero to end mark 2640", "measured, narrowest at the floor",
        "The left wall lies 5 behind the zero", "The right wall stands at the end mark.",
        "Never measure from the last mark",
    ):  # fmt: skip
        assert words in text, words
    assert "Left over" not in text
    over = runs.set_out()
    over = replace(over, rod=replace(over.rod, left_over=runs.figure(-3.0)))
    assert "Left over that no filler takes: −3." in text_of("rod", over)


def test_fillers_batten_fixings_panels_and_fit_are_listed():
    text = text_of("rod", runs.set_out())
    for words in (
        "On the rod Shows", "left filler 51 50 to 54 from 59 scribed to the wall", "Batten 10 × 45", "1 0 1800 1800", "2 1800 2640 840",
        "Cut out from the zero: 1470.5 to 2070.5.", "Least packing 0, at 600 from the zero.",
        "F2 1200 22 12 10 + 2 spacing", "left end panel 612 floor 3, batten 0", "left of plates to left of pans: 0",
        "It goes in: 41 to spare", "If sizes vary as stated", "Worktop depth needed: 622.",
    ):  # fmt: skip
        assert words in text, words


def test_cables_are_a_caution_before_the_fixings_and_at_the_one_that_lies_in_a_zone():
    for kind in ("rod", "strip_a4"):
        assert "Caution: Cables and pipes may run anywhere behind this wall" in text_of(kind, runs.set_out())
    text = text_of("rod", runs.set_out())
    assert text.index("Caution: Cables") < text.index("F1 600")
    assert "F4 2400 13 3 3 spacing Caution: Over the socket: a cable may run here." in text


def test_a_stop_stands_before_the_marks_and_on_the_tiles():
    stop = Finding("rod.over", Severity.STOP, "Sink run", "It is 12 too long.", "Choose a narrower unit.")
    set_out = runs.set_out()
    stopped = replace(set_out, rod=replace(set_out.rod, findings=(runs.NOTE, stop)))
    text = text_of("rod", stopped)
    box = text[: text.index("Marks, in order of marking")]
    assert "STOP It is 12 too long." in box and "Choose a narrower unit." not in box and "Note" not in box
    assert text.index("STOP: Sink run") < text.index("Note: Sink run") and "Choose a narrower unit." in text
    tiles = text_of("strip_a4", stopped)
    assert "Do not mark from these tiles yet: STOP: Sink run" in tiles and "Note:" not in tiles


def test_a_run_that_stands_free_has_its_anchor_only_and_its_drawings_on_one_page():
    plan = demo_hall.hall_plan()
    pdf = pypdfium2.PdfDocument(sheet_pdf(plan, "rod-counter", SOURCE))
    pages = [" ".join(page.get_textpage().get_text_bounded().split()) for page in pdf]
    pdf.close()
    box = pages[0][: pages[0].index("Marks, in order")]
    assert box.endswith("It begins at the zero mark. ")
    text = " ".join(pages)
    assert "not read" not in text and "neither measured" not in text
    assert any("Plan, Counter" in page and "Elevation, Counter" in page for page in pages)


def test_a_run_without_items_says_so():
    bare = runs.set_out(runs.run((), features=()))
    bare = replace(bare, rod=replace(bare.rod, marks=()), batten=None)
    assert "No mark yet: nothing is set out in this run." in text_of("rod", bare)
    assert "No mark yet: nothing is set out in this run." in text_of("strip_a4", bare)


@pytest.mark.parametrize("kind", ["rod", "strip_a4", "strip_a3"])
def test_many_items_flow_over_the_pages_and_nothing_lies_beyond_the_paper(kind):
    long = runs.of_widths(*[600.0, 300.0, 450.0, 500.0, 900.0] * (6 if kind == "rod" else 2))
    with pdfplumber.open(io.BytesIO(pdf_of(kind, long))) as pdf:
        assert len(pdf.pages) > 2
        for page in pdf.pages:
            assert all(char["x0"] >= 0 and char["x1"] <= page.width for char in page.chars)
            body = [char for char in page.chars if char["top"] * MM > 40]
            assert all(char["bottom"] * MM <= page.height * MM - 6 for char in body)
            assert {char["fontname"].split("+")[1] for char in page.chars} <= {
                "AtkinsonHyperlegible-Regular", "AtkinsonHyperlegible-Bold",
            }  # fmt: skip
    if kind == "rod":
        text = text_of(kind, long)
        assert "Elevation, Long run" in text and "Plan, Long run" in text


@pytest.mark.parametrize(
    ("kind", "paper_mm", "step_mm"), [("strip_a4", (297, 210), 250), ("strip_a3", (420, 297), 370)]
)
def test_on_paper_every_mark_lies_a_hundredth_from_where_its_figure_says(kind, paper_mm, step_mm):
    """Read from the PDF alone: the start figure from the words, the start line and marks from the lines drawn."""
    set_out = runs.set_out()
    wanted = {(one.from_left.text, one.x_mm) for one in set_out.rod.marks}
    found = set()
    with pdfplumber.open(io.BytesIO(pdf_of(kind, set_out))) as pdf:
        for page in pdf.pages:
            # ISO 216, laid across.
            assert (page.width * MM, page.height * MM) == pytest.approx(paper_mm, abs=0.05)
            lines = [one for one in (*page.lines, *page.curves) if one["y0"] != one["y1"] or one["x0"] != one["x1"]]
            upright = [one for one in lines if abs(one["x1"] - one["x0"]) < 1e-3]
            level = [one for one in lines if abs(one["y1"] - one["y0"]) < 1e-3]
            bars = [one for one in level if (one["x1"] - one["x0"]) * MM == pytest.approx(step_mm, abs=0.05)]
            words = page.extract_words(keep_blank_chars=True)
            starts = [one for one in words if one["text"].startswith("Start line of this tile")]
            assert len(bars) == len(starts) > 0
            for start, bar in zip(
                sorted(starts, key=lambda one: one["top"]), sorted(bars, key=lambda one: one["top"]), strict=True
            ):
                assert (bar["x1"] - bar["x0"]) * MM == pytest.approx(step_mm, abs=0.01)
                figure_mm = float(re.search(r": ([\d.]+) on the tape", start["text"])[1])
                # Marks of this tile begin at its edges, above or below its bar.
                at_mm = {
                    round((one["x0"] - bar["x0"]) * MM + figure_mm, 2)
                    for one in upright
                    if abs(one["top"] - bar["top"]) * MM < 60
                }
                for text, x_mm in wanted:
                    if figure_mm <= x_mm <= figure_mm + step_mm:
                        assert any(abs(place - x_mm) <= 0.01 for place in at_mm), (text, figure_mm)
                        found.add((text, x_mm))
    assert found == wanted


def test_the_strip_says_how_it_is_printed_and_laid():
    text = text_of("strip_a4", runs.set_out())
    for words in (
        "Print at 100 %",
        "Never lay a tile against the last one",
        "steel tape",
        "Tiles that have no mark are left out.",
    ):
        assert words in text


def test_the_code_leads_to_the_runs_rod(monkeypatch):
    seen = []
    whole = SheetSource.code_svg

    def code(self, *place):
        seen.append(place)
        return whole(self, *place)

    monkeypatch.setattr(SheetSource, "code_svg", code)
    for kind in ("rod", "strip_a4", "strip_a3"):
        pdf_of(kind, runs.set_out())
    assert seen == [("hollow-lane", "run", "sink-run")] * 3


def test_every_run_of_the_demo_prints():
    plan = demo_hall.hall_plan()
    names = [name for name, _ in sheet_names(plan) if name.startswith(("rod-", "strip_"))]
    assert len(names) == 3 * sum(len(room.room.runs) for room in plan.rooms)
    for name in names:
        assert sheet_pdf(plan, name, SOURCE).startswith(b"%PDF")
