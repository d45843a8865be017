"""Marking sheets, templates and sticks of one carcass read back from their PDF."""

import io
import re
from dataclasses import replace

import pdfplumber
import pypdfium2
import pytest
import sample_panels as sample
import sample_plan
from hardware_rows import every_row

from oddleg.plan.finding import Finding, Severity
from oddleg.plan.fitted_out import PanelKind
from oddleg.plan.fitting import RoomFitting
from oddleg.plan.panel_views import views
from oddleg.plan.room_services import RoomServices
from oddleg.plan.sticks import sticks
from oddleg.sheets import SheetSource, sheet_names, sheet_pdf

SOURCE = SheetSource(3, "revision 3, entries to 57", "25 November 2026")
# A point is 25.4 / 72 mm.
MM = 25.4 / 72
PAPERS = {"template_a4": (210.0, 297.0), "template_a3": (297.0, 420.0)}
STEPS = {"template_a4": (160.0, 200.0), "template_a3": (240.0, 320.0)}
SIDES = (sample.drawer_side(), sample.drawer_side(PanelKind.RIGHT))
STOP = Finding("hole.runner_meets_shelf", Severity.STOP, "drawers", "A runner meets a shelf.", "Move the shelf.")


def plan(panels=SIDES, findings=()):
    fitted = sample.fitted(panels, findings=findings)
    fitted = replace(fitted, sticks=sticks(sample_plan.job(), fitted.box, panels))
    room = sample_plan.room_plan()
    return sample_plan.plan(replace(room, fitting=RoomFitting((fitted,), RoomServices()), hardware=every_row()))


def pdf_of(kind, panels=SIDES, findings=()):
    return sheet_pdf(plan(panels, findings), f"{kind}-unit-1", SOURCE)


def pages_of(kind, panels=SIDES, findings=()):
    pdf = pypdfium2.PdfDocument(pdf_of(kind, panels, findings))
    try:
        return [" ".join(page.get_textpage().get_text_bounded().split()) for page in pdf]
    finally:
        pdf.close()


def straight(page):
    """Lines of a page: level and upright ones as (from, to, at) in mm, y up the page."""
    level, upright = [], []
    for one in page.lines:
        x0, x1, y0, y1 = (one[key] * MM for key in ("x0", "x1", "y0", "y1"))
        if abs(y1 - y0) < 1e-4:
            level.append((x0, x1, y0))
        elif abs(x1 - x0) < 1e-4:
            upright.append((y0, y1, x0))
    return level, upright


def circles(page):
    """(x, y, diameter) in mm of the circles of a page."""
    return [
        ((one["x0"] + one["x1"]) / 2 * MM, (one["y0"] + one["y1"]) / 2 * MM, one["width"] * MM)
        for one in page.curves
        if abs(one["width"] - one["height"]) < 0.01 and any(step[0] == "c" for step in one["path"])
    ]


def crossed(circle, level, upright):
    """Whether two lines cross in its middle: a hole, and no ring round something else."""
    x, y, _ = circle
    return any(abs(at - y) < 0.02 and a < x < b for a, b, at in level) and any(
        abs(at - x) < 0.02 and a < y < b for a, b, at in upright
    )


def tile(words, level, upright, kind):
    """Left, right and foot of the tile's own lines by its long bars, and its start figures by its words."""
    start = re.search(r"Start lines: ([\d.]+) from the [a-z ]+, ([\d.]+) from the", words)
    across_mm, up_mm = STEPS[kind]
    # The bar is the lowest level line of that length, and the first upright one.
    bar = min((one for one in level if one[1] - one[0] == pytest.approx(across_mm, abs=0.02)), key=lambda one: one[2])
    post = min((one for one in upright if one[1] - one[0] == pytest.approx(up_mm, abs=0.02)), key=lambda one: one[2])
    return bar[0], bar[1], post[0], float(start[1]), float(start[2])


@pytest.mark.parametrize(
    ("kind", "panels"),
    [
        ("template_a4", (SIDES[1], sample.door(), sample.bottom())),
        ("template_a3", (sample.tall_side(), sample.rail(), sample.divider())),
    ],
)
def test_holes_of_a_template_lie_within_two_hundredths_of_the_plan_and_its_bars_measure_100_both_ways(kind, panels):
    """Read from the PDF alone: start figures from the words, start lines from the bars, holes from crosses in circles."""
    faces = [view for panel in panels for view in views(panel)]
    wanted = {
        view.field: {(one.hole.u_mm, one.hole.v_mm, one.hole.diameter_mm) for one in view.holes} for view in faces
    }  # fmt: skip
    found = {field: set() for field in wanted}
    with pdfplumber.open(io.BytesIO(pdf_of(kind, panels))) as pdf:
        for page in pdf.pages[1:]:
            assert (page.width * MM, page.height * MM) == pytest.approx(PAPERS[kind], abs=0.05)
            words = page.extract_text()
            view = next(one for one in faces if f"{one.panel.name}, {one.words}, tile" in words)
            level, upright = straight(page)
            for lines in (level, upright):
                assert any(b - a == pytest.approx(100.0, abs=0.02) for a, b, _ in lines)
            assert "Print at 100 %, not fitted to the page. Measure the bars first: 100 both ways" in words
            left, right, foot, u_mm, v_mm = tile(words, level, upright, kind)
            for circle in circles(page):
                if not crossed(circle, level, upright):
                    continue
                x, y, diameter_mm = circle
                at = (u_mm + (right - x if view.mirrored else x - left), v_mm + y - foot, diameter_mm)
                near = [one for one in wanted[view.field] if at == pytest.approx(one, abs=0.02)]
                assert len(near) == 1, at
                found[view.field].add(near[0])
    assert found == wanted


def test_one_page_a_tile_and_the_first_maps_them_all():
    pages = pages_of("template_a4")
    # Two sides of nine tiles: columns A to C, rows 1 to 3.
    assert len(pages) == 1 + 2 * 9
    assert pages[0].count("9 tiles, 7 with nothing to mark left out") == 2
    assert "On every tile measure the bars first: 100 in both directions." in pages[0]
    assert pages[0].count("from 0 | 0 to 480 | 600 it is 768.4") == 2


def test_figures_of_a_template_are_text():
    text = " ".join(pages_of("template_a4"))
    for words in ("13: Ø5, 13 deep", "37 | 577.5", "Start lines: 320 from the front edge, 400 from the lower edge"):
        assert text.count(words) >= 2, words


def test_left_and_right_say_the_same_and_mirror():
    """Trap 40."""
    left, right = (
        [re.sub(r"^.* side, inside face up, |mark than \w+", "", one) for one in pages_of("template_a4", (side,))[1:]]
        for side in SIDES
    )
    for a, b in zip(left, right, strict=True):
        assert sorted(a.split()) == sorted(b.split())
    tables = pages_of("panels")[1:]
    assert "Left side" in tables[0] and "front edge on the left" in tables[0]
    assert "Right side" in tables[1] and "front edge on the right" in tables[1]
    rows = re.compile(r"\b\d+ (?:37|69|261|389) (?:37\.3|217\.4|397\.4|577\.5)\b")
    numbers = [rows.findall(one) for one in tables]
    assert numbers[0] == numbers[1] and len(numbers[0]) == 16


def test_a_page_a_face_with_table_boxes_face_and_edge():
    pages = pages_of("panels", sample.ALL)
    text = " ".join(pages)
    for words in (
        "Inside face up, front edge on the left. Counted from the front edge and the lower edge.",
        "Underside up, front towards you.", "16 389 577.5", "runner of drawer 4 Bit 5, 13 deep", "Bit 8, right through",
        "Drilled from the other face: 5.", "B: waste and supply, open to the bottom", "220 wide, 180 high, corners 20",
    ):  # fmt: skip
        assert words in text, words
    # One for the carcass, one a face, and one more for the second half of 128 holes.
    assert len(pages) == 1 + sum(len(views(one)) for one in sample.ALL) + 1
    assert "Runner lines" in pages[0] and "Sticks worth making" in pages[0]


def test_every_hole_has_a_box_to_tick():
    with pdfplumber.open(io.BytesIO(pdf_of("panels"))) as pdf:
        boxes = [
            one
            for page in pdf.pages[1:]
            for one in (*page.rects, *page.curves)
            if one["width"] * MM == pytest.approx(4.0, abs=0.3) and one["height"] * MM == pytest.approx(4.0, abs=0.3)
        ]
    assert len(boxes) == 16 + 16


@pytest.mark.parametrize(
    ("kind", "panels"),
    [
        ("panels", sample.ALL), ("template_a4", (sample.door(), sample.rail())), ("template_a3", (sample.wide_back(),)),
        ("stick_a4", SIDES), ("stick_a3", SIDES),
    ],
)  # fmt: skip
def test_nothing_lies_beyond_the_paper_and_no_page_is_empty(kind, panels):
    with pdfplumber.open(io.BytesIO(pdf_of(kind, panels))) as pdf:
        for page in pdf.pages:
            assert all(char["x0"] * MM >= 5 and char["x1"] * MM <= page.width * MM - 5 for char in page.chars)
            body = [char for char in page.chars if 40 < char["top"] * MM < page.height * MM - 14]
            assert len(body) > 20
            assert all(char["bottom"] * MM <= page.height * MM - 6 for char in page.chars)
            fonts = {char["fontname"].split("+")[1] for char in page.chars}
            assert fonts <= {"AtkinsonHyperlegible-Regular", "AtkinsonHyperlegible-Bold"}


@pytest.mark.parametrize(("kind", "step_mm"), [("stick_a4", 250.0), ("stick_a3", 370.0)])
def test_every_mark_of_a_stick_lies_a_hundredth_from_where_its_figure_says(kind, step_mm):
    """Read from the PDF alone, as the rod's strip is; 577.45 and not 577.5."""
    wanted = {37.0, 69.0, 261.0, 389.0, 37.3, 217.4, 397.4, 577.45}
    seen = set()
    with pdfplumber.open(io.BytesIO(pdf_of(kind))) as pdf:
        for page in pdf.pages:
            level, upright = straight(page)
            bars = sorted(
                (one for one in level if one[1] - one[0] == pytest.approx(step_mm, abs=0.01)), key=lambda one: -one[2]
            )
            starts = re.findall(r"Start line of this tile: ([\d.]+) from the stick's foot", page.extract_text())
            assert len(bars) == len(starts) > 0
            for bar, start in zip(bars, starts, strict=True):
                at_mm = [
                    x - bar[0] + float(start) for a, b, x in upright if bar[2] - 70 < b and a < bar[2] and b - a > 8
                ]
                seen |= {one for one in wanted if any(abs(one - each) <= 0.01 for each in at_mm)}
    assert seen == wanted


def test_sticks_say_how_they_are_laid():
    text = " ".join(pages_of("stick_a4"))
    for words in (
        "Print at 100 %, not fitted to the page", "never against the last tile", "Square every mark round the stick",
        "37.3, 217.4, 397.4 and 577.5 up from the lower edge", "The foot goes on the front edge.", "Check bar: 250",
    ):  # fmt: skip
        assert words in text, words


@pytest.mark.parametrize(
    ("kind", "words"),
    [("panels", "Stops: do not drill yet"), ("template_a4", "Do not mark from these tiles yet:"), ("stick_a4", "Do not mark from these sticks yet:")],
)  # fmt: skip
def test_a_stop_stands_before_everything(kind, words):
    first = pages_of(kind, findings=(STOP,))[0]
    assert f"{words} STOP: drawers. A runner meets a shelf." in first
    assert words not in pages_of(kind)[0]


def test_sheets_are_there_only_where_there_is_something_to_mark():
    bare = tuple(replace(one, holes=()) for one in SIDES)
    kinds = {name.split("-")[0] for name, _ in sheet_names(plan(bare)) if name.endswith("-unit-1")}
    assert kinds == {"panels"}
    assert "Nothing in these boards is drilled or cut out." in " ".join(pages_of("panels", bare))
    kinds = {name.split("-")[0] for name, _ in sheet_names(plan((sample.bottom(),))) if name.endswith("-unit-1")}
    assert kinds == {"panels", "template_a4", "template_a3"}
