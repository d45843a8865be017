"""The writer of SVG, read back by an XML parser that is not ours (expat)."""

import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import oddleg.drawings as drawings
from oddleg.drawings import Drawing, svg
from oddleg.drawings.looks import ACCENT, ALARM, LOOKS, PAPER
from oddleg.drawings.primitives import Circle, Group, Line, RoomAxes, Text

SVG = "{http://www.w3.org/2000/svg}"


def written(*marks, title="Title", alt="What it shows", **more):
    return ET.fromstring(svg(Drawing(title, alt, 90.0, 60.0, marks, **more), "d"))


@settings(derandomize=True, deadline=None)
@given(st.text(), st.text(), st.text())
def test_any_text_is_shown_as_text_and_never_read_as_markup(title, words, value):
    root = written(Group((Text(1, 2, words, 3.0),), data=(("item", value),)), title=title)
    assert [one.tag for one in root.iter()] == [SVG + name for name in ("svg", "title", "desc", "g", "text")]


def test_angle_brackets_and_quotes_come_back_letter_by_letter():
    hostile = """<script>alert("1")</script> & 'so' on"""
    root = written(Group((Text(1, 2, hostile, 3.0),), data=(("item", hostile),), title=hostile), alt=hostile)
    assert root.find(f"{SVG}desc").text == hostile
    group = root.find(f"{SVG}g")
    assert group.get("data-item") == hostile and group.find(f"{SVG}title").text == hostile
    assert group.find(f"{SVG}text").text == hostile


def test_a_drawing_is_one_image_that_carries_its_words():
    root = written(Line(0, 0, 1, 1, "line"))
    assert root.get("role") == "img"
    assert {one.get("id"): one.text for one in root if one.get("id")} == {"d-title": "Title", "d-alt": "What it shows"}
    assert (root.get("aria-labelledby"), root.get("aria-describedby")) == ("d-title", "d-alt")


def test_a_drawing_to_tap_is_a_group_of_named_buttons():
    root = written(
        Group((Circle(1, 1, 1, "hit"),), "station unread", (("station", "s1"),), "back one, not read yet", True)
    )
    button = root.find(f"{SVG}g")
    assert root.get("role") == "group"
    assert (button.get("role"), button.get("tabindex"), button.get("aria-label")) == (
        "button",
        "0",
        "back one, not read yet",
    )


def test_room_axes_turn_paper_back_into_the_room():
    root = written(room_axes=RoomAxes("kitchen", 6.0, 10.0, 0.02))
    plane = root.find(f"{SVG}g")
    # A point of the room at 1000, 500 lies on paper at 6 + 1000 * 0.02 = 26 and 10 + 500 * 0.02 = 20.
    assert plane.get("data-room") == "kitchen"
    assert plane.get("transform") == "translate(6 10) scale(0.02000000)"


def test_only_one_file_of_the_drawings_writes_angle_brackets():
    folder = Path(drawings.__file__).parent
    writers = {
        one.name for one in folder.glob("*.py") if '"<' in one.read_text("utf-8") or "</" in one.read_text("utf-8")
    }
    assert writers == {"svg.py"}


def contrast(one, other):
    """Contrast ratio by WCAG 2.2, definitions of contrast ratio and relative luminance."""

    def luminance(colour):
        parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
        r, g, b = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
        return 0.2126 * r + 0.7152 * g + 0.0722 * b

    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_contrast_is_reckoned_as_the_standard_does():
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)


@pytest.mark.parametrize("colour", [ACCENT, ALARM])
def test_a_colour_of_text_is_seen_well_on_paper(colour):
    assert contrast(colour, PAPER) >= 7.0


def test_marks_have_no_other_colours_than_ink_paper_accent_and_alarm():
    colours = {colour for look in LOOKS.values() for colour in (look.fill, look.stroke)}
    assert colours <= {"none", "currentColor", PAPER, ACCENT, ALARM}
