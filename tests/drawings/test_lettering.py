"""Room that words take, against Pillow's reading of the font files."""

import pytest
from PIL import ImageFont

from oddleg.drawings.lettering import COVERS, CROSSES, FONTS, Area, Page, shortened, text_width_mm, wrapped
from oddleg.drawings.primitives import Line, Text


@pytest.mark.parametrize(("file", "bold"), [("Regular", False), ("Bold", True)])
@pytest.mark.parametrize("words", ["back twenty-one", "−12.5 ± 0.5", "Größe, façade, Łódź", "872", "“tight” · 90° × 3"])
def test_words_are_as_wide_as_the_font_says(file, bold, words):
    font = ImageFont.truetype(
        str(FONTS / f"AtkinsonHyperlegible-{file}.ttf"), 1000, layout_engine=ImageFont.Layout.BASIC
    )
    assert text_width_mm(words, 1000.0, bold) == pytest.approx(
        sum(font.getlength(letter) for letter in words), abs=2 * len(words)
    )


@pytest.mark.parametrize("letter", "−±°·×½…“”‘’–éßŁő+0123456789")
def test_the_font_has_the_letters_that_are_shown(letter):
    for file in ("Regular", "Bold"):
        font = ImageFont.truetype(str(FONTS / f"AtkinsonHyperlegible-{file}.ttf"), 100)
        missing = font.getmask("\U0001f600")
        assert bytes(font.getmask(letter)) != bytes(missing)


def test_lines_keep_within_the_width_and_lose_no_word():
    words = "front right leg of unit 3 at its longest, and a-word-that-is-longer-than-a-whole-line-can-ever-be"
    lines = wrapped(words, 30.0, 3.0)
    assert all(text_width_mm(line, 3.0) <= 30.0 for line in lines)
    assert "".join(lines).replace(" ", "") == words.replace(" ", "")


def test_what_does_not_fit_ends_in_an_ellipsis():
    short = shortened("dishwasher", 10.0, 3.0)
    assert short.endswith("…") and text_width_mm(short, 3.0) <= 10.0
    assert shortened("hob", 10.0, 3.0) == "hob"


def test_two_labels_of_neighbours_do_not_lie_on_each_other():
    page = Page(90.0, 60.0)
    marks = [page.label(40.0 + i * 3, 30.0, 1.7, [("back three", False)], 3.0) for i in range(4)]
    areas = [area for area, cost in page.taken if cost == COVERS]
    assert all(a.shared_mm2(b) == 0 for i, a in enumerate(areas) for b in areas[i + 1 :])
    assert all(any(isinstance(mark, Text) for mark in each) for each in marks)


def test_a_label_that_stands_off_is_led_back_to_its_spot():
    page = Page(90.0, 60.0)
    page.keep_clear([Area(35.0, 25.0, 55.0, 35.0)])
    marks = page.label(45.0, 30.0, 1.7, [("back three", False)], 3.0)
    led = [mark for mark in marks if isinstance(mark, Line)]
    assert [(line.x1_mm, line.y1_mm) for line in led] == [(45.0, 30.0)]


def test_a_label_goes_further_out_rather_than_across_an_edge():
    def where(page):
        return next(mark for mark in page.label(45.0, 30.0, 1.7, [("back three", False)], 3.0) if isinstance(mark, Text))

    edge = Area(30.0, 25.8, 60.0, 26.4)  # through the place that is best when nothing is there
    page = Page(90.0, 60.0)
    assert edge.top_mm < where(page).y_mm < edge.bottom_mm + 3.0
    page = Page(90.0, 60.0)
    page.keep_clear([edge], CROSSES)
    label = where(page)
    assert label.y_mm < edge.top_mm or label.y_mm - 3.0 > edge.bottom_mm
    assert page.is_free(edge)
    page.keep_clear([edge])
    assert not page.is_free(edge)


def test_a_leader_is_not_drawn_through_words_where_another_way_is_as_short():
    page = Page(90.0, 60.0)
    page.keep_clear([Area(30.0, 25.0, 60.0, 35.0)], CROSSES)  # so that no label stands close by
    page.keep_clear([Area(44.0, 26.0, 46.0, 28.0)])  # words just above the spot
    (leader,) = [mark for mark in page.label(45.0, 30.0, 1.7, [("back", False)], 3.0) if isinstance(mark, Line)]
    assert leader.y2_mm > 30.0
