"""Rows of charts as they are drawn, read back from the SVG: every figure stands there, and holes lie where it says."""

import dataclasses
import re
import xml.etree.ElementTree as ET
from itertools import combinations, pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from text_boxes import text_box

from oddleg.charts import columns, shipped_rows
from oddleg.charts.columns import Holds
from oddleg.drawings.chart_row import chart_row_drawing
from oddleg.drawings.chart_view import mm
from oddleg.drawings.lettering import SMALL_MM
from oddleg.drawings.svg import svg
from oddleg.job import HardwareKind
from oddleg.plan.hardware import KIND_OF

SVG = "{http://www.w3.org/2000/svg}"
ROWS = {row.id: row for row in shipped_rows()}
WIDTHS = (88.0, 110.0, 182.0)


def read(row, width_mm=110.0):
    return ET.fromstring(svg(chart_row_drawing(row, width_mm), "c"))


def circles(root, css="spot"):
    """(x, y, radius) on paper, in the order drawn; the marks where a dimension counts from are left out."""
    found = [
        tuple(float(one.get(name)) for name in ("cx", "cy", "r"))
        for one in root.iter(f"{SVG}circle")
        if one.get("class") == css
    ]
    return [one for one in found if one[2] != 0.9]


def figures_of(row):
    """Every figure of the chart's row as it is shown."""
    for column in columns(KIND_OF[type(row)]):
        value = getattr(row, column.name)
        if column.holds is Holds.NUMBER:
            yield column.name, mm(value)
        elif column.holds is Holds.NUMBERS:
            yield from ((column.name, mm(one)) for one in value)


def drawn_words(root):
    return " ".join(one.text for one in root.iter(f"{SVG}text"))


@pytest.mark.parametrize("id", ROWS)
def test_every_figure_that_was_typed_can_be_read_off_the_drawing(id):
    shown = set(re.findall(r"−?\d+(?:\.\d+)?", drawn_words(read(ROWS[id]))))
    missing = [(name, text) for name, text in figures_of(ROWS[id]) if text not in shown]
    assert missing == []


@pytest.mark.parametrize("width_mm", WIDTHS)
@pytest.mark.parametrize("id", ROWS)
def test_words_lie_on_the_page_and_not_over_each_other(id, width_mm):
    root = read(ROWS[id], width_mm)
    height_mm = float(root.get("viewBox").split()[3])
    boxes = [(one.text, text_box(one)) for one in root.iter(f"{SVG}text")]
    for text, (left, top, right, bottom) in boxes:
        assert left >= 0 and top >= 0 and right <= width_mm and bottom <= height_mm, text
    for (a, one), (b, other) in combinations(boxes, 2):
        across = min(one[2], other[2]) - max(one[0], other[0])
        down = min(one[3], other[3]) - max(one[1], other[1])
        assert across <= 0.05 or down <= 0.05, (a, b)
    assert all(float(one.get("font-size")) >= SMALL_MM for one in root.iter(f"{SVG}text"))


def test_the_screws_of_a_runner_are_drawn_to_scale():
    """First principles: places on paper are to each other as the chart's 0, 160 and 384."""
    row = dataclasses.replace(ROWS["runner-500"], screws_mm=(0.0, 160.0, 384.0))
    screws = circles(read(row))[: len(row.screws_mm)]
    paper = [x for x, _, _ in screws]
    scale = (paper[-1] - paper[0]) / 384
    assert paper[1] - paper[0] == pytest.approx(160 * scale, abs=0.002)
    assert {y for _, y, _ in screws} == {screws[0][1]}


def test_a_slipped_figure_moves_its_hole():
    row = dataclasses.replace(ROWS["runner-500"], screws_mm=(0.0, 160.0, 384.0))
    right, wrong = (
        circles(read(dataclasses.replace(row, screws_mm=screws)))[:3]
        for screws in ((0.0, 160.0, 384.0), (0.0, 16.0, 384.0))
    )
    assert right[0] == wrong[0] and right[2] == wrong[2]
    assert wrong[1][0] - wrong[0][0] == pytest.approx((right[1][0] - right[0][0]) / 10, abs=0.002)


def test_a_cup_is_drawn_by_edge_distance_and_bore():
    """First principles: the cup's middle lies edge distance + 35 / 2 from the door's edge, so the rim lies the edge distance from it."""
    row = dataclasses.replace(
        ROWS["hinge-110"], least_edge_mm=5.0, greatest_edge_mm=5.0, cup_mm=35.0, screws_back_mm=9.5
    )
    (x, _, radius), (screw, above, _), (_, below, _) = circles(read(row))[:3]
    scale = radius / 17.5
    assert screw - x == pytest.approx(9.5 * scale, abs=0.003)
    assert abs(above - below) == pytest.approx(row.screws_apart_mm * scale, abs=0.005)
    edge = next(float(one.get("x1")) for one in read(row).iter(f"{SVG}line") if one.get("class") == "heavy")
    assert (x - edge) / scale == pytest.approx(5 + 17.5, abs=0.01)


@pytest.mark.parametrize(
    ("constant_mm", "where"),
    [
        (13.0, "before it: edge distance 5, plate 0 high: overlay 18"),
        (-7.0, "inside it: edge distance 5, plate 0 high: overlay −2"),
    ],
)
def test_a_hinge_says_its_overlay_and_on_which_side_the_door_then_lies(constant_mm, where):
    """First principles: 13 + 5 - 0 = 18; -7 + 5 - 0 = -2, a door inside with 2 to spare."""
    row = dataclasses.replace(ROWS["hinge-110"], least_edge_mm=3.0, greatest_edge_mm=7.0, constant_mm=constant_mm)
    assert where in chart_row_drawing(row, 110.0).alt


def test_a_rear_row_of_pins_is_a_multiple_of_the_pitch_behind_the_front_row():
    """560 deep, 37 in front, at least 32 behind: (560 - 32 - 37) / 32 = 15.3, so 15 times 32 = 480 and 37 + 480 = 517."""
    row = dataclasses.replace(ROWS["pin-5"], row_mm=37.0, pitch_mm=32.0, least_back_mm=32.0)
    drawing = chart_row_drawing(row, 110.0)
    assert "15 times 32" in drawing.alt and "517 rear row" in drawing.alt
    xs = sorted({x for x, _, _ in circles(read(row))})
    assert len(xs) == 2
    ys = sorted({y for _, y, _ in circles(read(row))})
    assert all(b - a == pytest.approx((xs[1] - xs[0]) / 15, abs=0.003) for a, b in pairwise(ys))


def test_a_hole_deeper_than_its_board_comes_out_below_it():
    row = dataclasses.replace(ROWS["plate-2"], hole_depth_mm=25.0)
    shapes = {
        one.get("class"): [float(pair.split(",")[1]) for pair in one.get("points").split()]
        for one in read(row).iter(f"{SVG}polygon")
    }
    assert max(shapes["line"]) > max(shapes["part"])


FIGURE = st.one_of(st.floats(-5_000, 5_000), st.integers(-10, 10).map(float), st.just(0.0))


@st.composite
def odd_rows(draw):
    """Any figures at all: a row is drawn while it is typed."""
    row = draw(st.sampled_from(list(ROWS.values())))
    values = {}
    for column in columns(KIND_OF[type(row)]):
        if column.holds is Holds.NUMBER:
            values[column.name] = draw(FIGURE)
        elif column.holds is Holds.NUMBERS:
            values[column.name] = tuple(draw(st.lists(FIGURE, max_size=64)))
    changed = draw(st.sets(st.sampled_from(sorted(values))))
    return dataclasses.replace(row, **{name: values[name] for name in changed})


@settings(derandomize=True, deadline=None, max_examples=150)
@given(odd_rows(), st.sampled_from(WIDTHS))
def test_odd_figures_are_drawn_as_they_are_and_stay_on_the_page(row, width_mm):
    root = read(row, width_mm)
    height_mm = float(root.get("viewBox").split()[3])
    assert height_mm < 12 * width_mm
    for one in root.iter():
        for name in ("x1", "x2", "cx"):
            if one.get(name) is not None:
                assert -0.01 <= float(one.get(name)) <= width_mm + 0.01, (one.tag, one.attrib)
        for name in ("y1", "y2", "cy"):
            if one.get(name) is not None:
                assert -0.01 <= float(one.get(name)) <= height_mm + 0.01, (one.tag, one.attrib)


def test_every_kind_has_a_drawing_with_a_title_and_words():
    kinds = {KIND_OF[type(row)] for row in ROWS.values()}
    assert kinds == set(HardwareKind)
    for row in ROWS.values():
        drawing = chart_row_drawing(row, 110.0)
        assert row.name in drawing.title and len(drawing.alt) > len(drawing.title)
