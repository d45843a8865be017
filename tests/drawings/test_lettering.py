"""Room that words take, against Pillow's reading of the font files."""

import pytest
from PIL import ImageFont

from oddleg.drawings.lettering import FONTS, Area, Page, shortened, text_width_mm, wrapped
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
    areas = page.taken
    assert all(a.shared_mm2(b) == 0 for i, a in enumerate(areas) for b in areas[i + 1 :])
    assert all(any(isinstance(mark, Text) for mark in each) for each in marks)


def test_a_label_that_stands_off_is_led_back_to_its_spot():
    page = Page(90.0, 60.0)
    page.keep_clear([Area(35.0, 25.0, 55.0, 35.0)])
    marks = page.label(45.0, 30.0, 1.7, [("back three", False)], 3.0)
    led = [mark for mark in marks if isinstance(mark, Line)]
    assert [(line.x1_mm, line.y1_mm) for line in led] == [(45.0, 30.0)]
