"""Drawings of panels and of a carcass's front, read back from the SVG; panels made by hand (sample_panels)."""

import xml.etree.ElementTree as ET
from dataclasses import replace
from itertools import combinations

import pytest
import sample_panels as sample
import sample_plan
from text_boxes import text_box

from oddleg.drawings.carcass_front import carcass_drawings, carcass_front
from oddleg.drawings.lettering import SMALL_MM
from oddleg.drawings.panel import panel_drawing
from oddleg.drawings.svg import svg
from oddleg.plan.fitted_out import PanelKind
from oddleg.plan.panel_views import views

SVG = "{http://www.w3.org/2000/svg}"
SIZES = [(90.0, None), (88.0, 205.0), (182.0, 120.0)]
VIEWS = {view.field: view for panel in sample.ALL for view in views(panel)}
VIEWS["tall, right"] = views(sample.tall_side(PanelKind.RIGHT))[0]
TALL = VIEWS["panel-unit-1-left-tall"]


def read(drawing):
    return ET.fromstring(svg(drawing, "p"))


def board(root):
    """Left, top, right, bottom of the board on paper: the first polygon."""
    points = [tuple(map(float, one.split(","))) for one in next(root.iter(f"{SVG}polygon")).get("points").split()]
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def holes(root):
    """{hole id: (x, y)} on paper."""
    found = {}
    for group in root.iter(f"{SVG}g"):
        if group.get("data-hole"):
            circle = group.find(f"{SVG}circle")
            found[group.get("data-hole")] = float(circle.get("cx")), float(circle.get("cy"))
    return found


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", VIEWS)
def test_every_hole_lies_where_its_figures_say(name, size):
    view = VIEWS[name]
    root = read(panel_drawing(view, 0.1, *size))
    left, _, right, bottom = board(root)
    scale = (right - left) / view.panel.width_mm
    # Places in the SVG are good to a thousandth: what that makes of the whole board, read by its width.
    good_mm = 0.002 / scale * (1 + view.panel.height_mm / view.panel.width_mm)
    at = holes(root)
    assert set(at) == {one.hole.id for one in (*view.holes, *view.from_behind)}
    for one in view.holes:
        x, y = at[one.hole.id]
        along = (right - x if view.mirrored else x - left) / scale
        assert along == pytest.approx(one.hole.u_mm, abs=good_mm)
        assert (bottom - y) / scale == pytest.approx(one.hole.v_mm, abs=good_mm)


def test_the_right_side_is_the_mirror_of_the_left():
    """Trap 40."""
    left, right = (
        read(panel_drawing(views(sample.drawer_side(kind))[0], 0.1)) for kind in (PanelKind.LEFT, PanelKind.RIGHT)
    )
    mirrored = {id: (90.0 - x, y) for id, (x, y) in holes(left).items()}
    assert holes(right) == {
        id: (pytest.approx(x, abs=0.01), pytest.approx(y, abs=0.01)) for id, (x, y) in mirrored.items()
    }
    figures = [sorted(one.text for one in root.iter(f"{SVG}text")) for root in (left, right)]
    assert figures[0] == figures[1]


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", VIEWS)
def test_no_text_is_too_small_cut_off_or_on_another(name, size):
    drawing = panel_drawing(VIEWS[name], 0.1, *size)
    boxes = []
    for one in read(drawing).iter(f"{SVG}text"):
        left, top, right, bottom = text_box(one)
        assert float(one.get("font-size")) >= SMALL_MM
        assert left >= 0 and right <= drawing.width_mm and top >= 0 and bottom <= drawing.height_mm, one.text
        boxes.append(((left, top, right, bottom), one.text))
    met = [
        (a[1], b[1])
        for a, b in combinations(boxes, 2)
        if min(a[0][2], b[0][2]) - max(a[0][0], b[0][0]) > 0.05 and min(a[0][3], b[0][3]) - max(a[0][1], b[0][1]) > 0.05
    ]
    assert met == []
    if size[1] is not None:
        assert drawing.height_mm <= size[1] + 0.01


def test_a_hundred_and_twenty_holes_keep_their_figures_readable():
    drawing = panel_drawing(TALL, 0.1, 88.0, 205.0)
    texts = [one.text for one in read(drawing).iter(f"{SVG}text")]
    # Ends of the columns (64 and 64 + 59 * 32), runner lines, and what is between them in words.
    assert {"64", "1952", "40", "230", "37", "485", "0", "2000", "560"} <= set(texts)
    assert any("Lines without a figure are 32 apart." in one for one in texts)


def test_front_edge_face_and_where_figures_count_from_are_named():
    for name, words in (("panel-unit-1-left", "from the front edge"), ("panel-unit-1-back", "from the left edge")):
        view = VIEWS[name]
        texts = [one.text for one in read(panel_drawing(view, 0.1)).iter(f"{SVG}text")]
        assert words in texts
        assert ("front edge" in texts) == (view.front_edge is not None)
        assert view.words in panel_drawing(view, 0.1).title


def test_what_goes_right_through_is_told_apart():
    root = read(panel_drawing(VIEWS["panel-unit-1-divider"], 0.1))
    looks = {
        group.get("data-hole"): group.find(f"{SVG}circle").get("class")
        for group in root.iter(f"{SVG}g")
        if group.get("data-hole")
    }
    assert looks["pass"] == "packing" and looks["d1-1"] == "spot"
    other = read(panel_drawing(VIEWS["panel-unit-1-divider-other"], 0.1))
    assert any("Dashed circles come through" in (one.text or "") for one in other.iter(f"{SVG}text"))


def test_cut_outs_are_dimensioned_from_the_same_origin():
    texts = {one.text for one in read(panel_drawing(VIEWS["panel-unit-1-back"], 0.1, 182.0, 120.0)).iter(f"{SVG}text")}
    # Lefts and rights, feet and tops of the two square cut-outs in the sample; of the round one, 125 across at 950 and 420,
    # its middle, where the hole saw is put on: 950 + 62.5 and 420 + 62.5.
    assert {"100", "260", "500", "720", "1012.5", "300", "390", "180", "482.5"} <= texts
    assert not {"950", "1075", "420", "545"} & texts
    assert {"A", "B", "C", "socket", "160 × 90", "Ø125"} <= texts
    # Where an opening has no room for words its letter stands for them.
    small = {one.text for one in read(panel_drawing(VIEWS["panel-unit-1-back"], 0.1)).iter(f"{SVG}text")}
    assert {"A", "B", "C"} <= small and "socket" not in small


def test_a_bottom_hung_under_is_drawn_as_on_the_bench():
    view = VIEWS["panel-unit-1-bottom"]
    root = read(panel_drawing(view, 0.1))
    left, _, right, bottom = board(root)
    at = holes(root)
    # The left-hand front leg of the carcass lies at the right, near the edge towards you.
    x, y = at["leg-1-0"]
    assert x > (left + right) / 2 and y > bottom - (bottom - board(root)[1]) / 4


def test_the_front_shows_fronts_drawers_and_runner_lines():
    drawing = carcass_front(sample.fitted(), 0.1)
    root = read(drawing)
    texts = {one.text for one in root.iter(f"{SVG}text")}
    # Four equal fronts in 720 with gaps of 3: (720 - 9) / 4 = 177.75, so edges at 177.75, 180.75, 358.5 and so on.
    assert {"597 × 177.8", "177.8", "180.8", "358.5", "361.5", "539.3", "542.3", "drawer 1"} <= texts
    # Runner lines at the foot of each front and 37.3.
    assert {"37.3", "218.1", "398.8", "579.6"} <= texts
    drawers = [one for one in root.iter(f"{SVG}g") if one.get("data-drawer")]
    assert len(drawers) == 4
    assert all(one.find(f"{SVG}polygon").get("class") == "bay" for one in drawers)


@pytest.mark.parametrize("width_mm", [90.0, 88.0, 182.0])
def test_no_text_of_the_front_meets_another(width_mm):
    for fitted in (sample.fitted(), replace(sample.fitted(), fronts=(), drawers=())):
        drawing = carcass_front(fitted, 0.1, width_mm)
        boxes = [text_box(one) for one in read(drawing).iter(f"{SVG}text")]
        assert all(
            left >= 0 and right <= width_mm and top >= 0 and bottom <= drawing.height_mm
            for left, top, right, bottom in boxes
        )
        for a, b in combinations(boxes, 2):
            assert min(a[2], b[2]) - max(a[0], b[0]) <= 0.05 or min(a[3], b[3]) - max(a[1], b[1]) <= 0.05


def test_the_phone_gets_the_front_and_every_face_that_is_worked():
    found = carcass_drawings(sample_plan.job(), sample.fitted())
    assert set(found) == {"front", *(view.field for panel in sample.ALL for view in views(panel))}
