"""Sheets read back from their PDF: places and fonts by pdfplumber, words alone by PDFium, which is quicker."""

import io
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace

import demo_hall
import pdfplumber
import pypdfium2
import pytest
import sample_plan as sample

from oddleg.sheets import SheetSource, UnknownSheet, sheet_names, sheet_pdf

SOURCE = SheetSource(3, "revision 3, entries to 57", "25 November 2026")
REACHED = replace(SOURCE, origin="https://office.example:8443")
NAMES = ("survey-kitchen", "legs-kitchen", "labels-kitchen", "plinth-kitchen", "rod-window-run")


def opened(name, plan=None, source=SOURCE):
    return pdfplumber.open(io.BytesIO(sheet_pdf(plan or sample.plan(), name, source)))


def pages_of(name, plan=None, source=SOURCE):
    """The words of each page, one space between."""
    pdf = pypdfium2.PdfDocument(sheet_pdf(plan or sample.plan(), name, source))
    try:
        return [" ".join(page.get_textpage().get_text_bounded().split()) for page in pdf]
    finally:
        pdf.close()


def text_of(name, plan=None, source=SOURCE):
    return " ".join(pages_of(name, plan, source))


def room_of(units, decided=True):
    return sample.room_plan(decided, units)


def many_units(count):
    unit = sample.units()[0]
    items = [
        replace(unit.placed, item=replace(unit.placed.item, id=f"unit-{n}", name=f"base number {n}"))
        for n in range(1, count + 1)
    ]
    return tuple(replace(unit, placed=placed, number=n) for n, placed in enumerate(items, 1))


def test_every_room_and_every_run_has_its_sheets():
    names = sheet_names(sample.plan())
    for name, title in (
        ("survey-kitchen", "Survey and datum, Kitchen"),
        ("legs-kitchen", "Legs, Kitchen"),
        ("labels-kitchen", "Labels, Kitchen"),
        ("plinth-kitchen", "Plinth, Kitchen"),
        ("rod-window-run", "Rod, Window run"),
        ("strip_a4-window-run", "Rod at full size, A4, Window run"),
        ("strip_a3-counter", "Rod at full size, A3, Counter"),
    ):
        assert (name, title) in names
    assert len(dict(names)) == len(names)


@pytest.mark.parametrize(
    "name", ["", "survey", "survey-", "survey-cellar", "order-kitchen", "../kitchen", "survey-kitchen.pdf"]
)
def test_a_sheet_that_there_is_not_is_an_error_that_names_it(name):
    with pytest.raises(UnknownSheet) as caught:
        sheet_pdf(sample.plan(), name, SOURCE)
    assert caught.value.args == (name,)


@pytest.mark.parametrize("name", NAMES)
def test_the_same_plan_gives_the_same_bytes_in_any_thread(name):
    first = sheet_pdf(sample.plan(), name, REACHED)
    with ThreadPoolExecutor(2) as pool:
        others = [job.result() for job in [pool.submit(sheet_pdf, sample.plan(), name, REACHED) for _ in range(4)]]
    assert others == [first] * 4


@pytest.mark.parametrize("name", NAMES)
def test_every_page_is_a4_with_its_title_block_and_page_number(name):
    plan = sample.plan(room_of(many_units(13)))
    with opened(name, plan) as pdf:
        for number, page in enumerate(pdf.pages, 1):
            # ISO 216: A4 is 210 x 297 mm; a point is 25.4 / 72 mm.
            assert (page.width * 25.4 / 72, page.height * 25.4 / 72) == pytest.approx((210.0, 297.0), abs=0.05)
            block = page.crop((0, 0, page.width, 36 / 25.4 * 72)).extract_text()
            for words in (
                "Hollow Lane hall, kitchen",
                "Kitchen",
                "revision 3, entries to 57",
                "Printed 25 November 2026",
            ):
                assert words in block
            assert f"Page {number} of {len(pdf.pages)}" in block


@pytest.mark.parametrize("name", NAMES)
def test_there_is_no_font_but_ours_and_no_picture_of_dots(name):
    with opened(name, source=REACHED) as pdf:
        for page in pdf.pages:
            assert {char["fontname"].split("+")[1] for char in page.chars} <= {
                "AtkinsonHyperlegible-Regular",
                "AtkinsonHyperlegible-Bold",
            }
            assert page.images == []
        assert any(page.lines or page.curves or page.rects for page in pdf.pages)


@pytest.mark.parametrize("name", NAMES)
def test_nothing_is_printed_beyond_the_paper(name):
    with opened(name, sample.plan(room_of(many_units(7)), title="W" * 300)) as pdf:
        for page in pdf.pages:
            assert all(char["x0"] >= 0 and char["x1"] <= page.width for char in page.chars)


@pytest.mark.parametrize(
    "title",
    [
        "*bold* #panic(1) $x$ _y_",
        "<script>alert(1)</script>",
        'she said "so" \\ & left',
        '#set page(paper: "a5")',
        "-- - + / = ` ~ @ [x]",
    ],
)
@pytest.mark.parametrize("name", NAMES)
def test_what_users_write_is_shown_letter_by_letter(title, name):
    with opened(name, sample.plan(title=title)) as pdf:
        shown = pdf.pages[0].crop((0, 0, 120 / 25.4 * 72, 36 / 25.4 * 72)).extract_text(x_tolerance=1.5)
        assert title.replace(" ", "") in shown.replace(" ", "").replace("\n", "")
        assert pdf.pages[0].width == pytest.approx(595.28, abs=0.1)


def test_the_survey_sheet_carries_levels_ends_choices_and_who_decided():
    text = text_of("survey-kitchen")
    for words in (
        "871.5", "Chosen by Ned, 23 November 2026, 10:12", "back one", "−3.5", "0.9", "set-up one", "+1204.3", "Misclosure 0.4 mm",
        "At least 863: dishwasher under the top.", "At most 886.5", "Board uncut at the", "Not possible, dishwasher under the top", "worktop top 901.5",
        "readings differ", "STOP: front three", "worktop thickness",
    ):  # fmt: skip
        assert words in text, words


def test_a_sheet_before_a_decision_says_so():
    plan = sample.plan(sample.room_plan(decided=False))
    assert "No datum is decided yet." in text_of("survey-kitchen", plan)
    assert "No datum is decided yet, so no leg has a height." in text_of("legs-kitchen", plan)
    assert "No labels of units on legs yet: no datum is decided" in text_of("labels-kitchen", plan)
    assert "No datum is decided yet, so no plinth has a height." in text_of("plinth-kitchen", plan)


def test_a_room_without_units_says_so():
    plan = sample.plan(room_of(()))
    assert "No unit in this room stands on legs of a known height." in text_of("legs-kitchen", plan)
    assert "No labels of units on legs: none in this room" in text_of("labels-kitchen", plan)


@pytest.mark.parametrize(("name", "a_page"), [("legs-kitchen", None), ("labels-kitchen", 6)])
def test_a_hundred_units_flow_over_the_pages(name, a_page):
    pages = pages_of(name, sample.plan(room_of(many_units(100))))
    assert all(f"base number {n} " in "".join(f"{page} " for page in pages) for n in range(1, 101))
    assert len(pages) > 5
    if a_page:
        assert len(pages) == -(-100 // a_page)


@pytest.mark.parametrize("name", ["legs-kitchen", "labels-kitchen"])
def test_legs_lie_on_the_sheet_as_on_the_bench(name):
    # First principles: upside down with its front towards you, a carcass's right-hand legs are on your left.
    plan = sample.plan(room_of((sample.unit(1, {"BL": 141, "BR": 142, "FL": 143, "FR": 144}, 141),)))
    with opened(name, plan) as pdf:
        words = [one for one in pdf.pages[0].extract_words(extra_attrs=["size"]) if one["size"] > 20]
        place = {one["text"]: (one["x0"], one["top"]) for one in words if one["text"] in ("141", "142", "143", "144")}
    assert place["144"][0] < place["143"][0] and place["142"][0] < place["141"][0]
    assert place["144"][1] > place["142"][1] and place["143"][1] > place["141"][1]


def test_a_label_names_number_place_handing_and_preset():
    text = text_of("labels-kitchen")
    for words in (
        "3",
        "pans",
        "Window run, Kitchen",
        "door hung on the right",
        "preset 161",
        "RIGHT front",
        "LEFT back",
        "set 158: wind out 2",
    ):
        assert words in text


def test_without_an_address_the_mark_is_to_be_typed_and_with_one_there_is_a_code():
    assert "Type this mark" in text_of("survey-kitchen")
    assert "Type this mark" not in text_of("survey-kitchen", source=REACHED)


def test_the_code_leads_to_the_job_and_holds_no_token():
    # segno's own record of what it encoded would be no check; the address is compared before it is drawn.
    seen = []

    def make(address, **_):
        seen.append(address)
        return original(address, error="m", micro=False)

    import segno

    original, segno.make = segno.make, make
    try:
        sheet_pdf(sample.plan(), "survey-kitchen", REACHED)
    finally:
        segno.make = original
    assert seen == ["https://office.example:8443/#/job/hollow-lane/datum/kitchen"]


def test_the_mark_on_the_sheet_changes_with_the_figures_and_not_with_the_day():
    def mark(plan, source):
        with opened("legs-kitchen", plan, source) as pdf:
            words = pdf.pages[0].extract_text().split()
            return words[words.index("than") + 1]

    other = sample.plan(room_of((sample.unit(1, {"BL": 141, "BR": 142, "FL": 143, "FR": 144}, 141),)))
    assert mark(sample.plan(), SOURCE) == mark(sample.plan(), replace(SOURCE, date="1 January 2027"))
    assert mark(sample.plan(), SOURCE) != mark(other, SOURCE)


def test_a_letter_that_the_font_lacks_brings_no_other_font():
    with opened("labels-kitchen", sample.plan(title="厨房 → кухня")) as pdf:
        assert {char["fontname"].split("+")[1][:20] for char in pdf.pages[0].chars} == {"AtkinsonHyperlegible"}


@pytest.mark.parametrize("name", NAMES)
def test_pages_of_the_demos_sheets_are_numbered_from_one_on(name):
    pages = pages_of(name, demo_hall.hall_plan())
    for number, words in enumerate(pages, 1):
        assert f"Page {number} of {len(pages)}" in words
