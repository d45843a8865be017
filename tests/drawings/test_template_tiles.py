"""Templates at full size read back from the SVG: places by the tile's own start lines, bars, laps, what is left out."""

import math
import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from itertools import combinations

import pytest
import sample_panels as sample
from hypothesis import given, settings
from hypothesis import strategies as st
from text_boxes import text_box

from oddleg.drawings.lettering import SMALL_MM
from oddleg.drawings.svg import svg
from oddleg.drawings.template_paper import LAP_MM, TEMPLATE_PAPERS, tiling
from oddleg.drawings.template_tiles import template_key, template_tiles
from oddleg.plan.fitted_out import PanelKind
from oddleg.plan.panel_views import letters, views

SVG = "{http://www.w3.org/2000/svg}"
# ISO 216 upright, less 14 at each side, and 40 and 14 for title block and foot of a sheet.
BODIES = {"a4": (210.0 - 28.0, 297.0 - 54.0), "a3": (297.0 - 28.0, 420.0 - 54.0)}
VIEWS = {view.field: view for panel in sample.ALL for view in views(panel)}


def read(drawing):
    return ET.fromstring(svg(drawing, "t"))


def groups(root, css):
    return [one for one in root.iter(f"{SVG}g") if one.get("class") == css]


def line(one):
    return tuple(float(one.get(name)) for name in ("x1", "y1", "x2", "y2"))


def tile_bars(root):
    """Left, right, top, bottom of the tile's own lines, by its two long bars."""
    across, up = groups(root, "tile-bar")
    left, _, right, _ = line(across.find(f"{SVG}line"))
    _, bottom, _, top = line(up.find(f"{SVG}line"))
    return left, right, top, bottom


def start(root):
    words = next(one.text for one in root.iter(f"{SVG}text") if one.text.startswith("Start lines: "))
    return tuple(map(float, re.fullmatch(r"Start lines: ([\d.]+) from the .*, ([\d.]+) from the .*", words).groups()))


def marked(root, mirrored):
    """{hole id: (u, v)} by its cross, from the tile's start lines."""
    left, right, _, bottom = tile_bars(root)
    u_mm, v_mm = start(root)
    found = {}
    for group in groups(root, "hole"):
        lines = [line(one) for one in group.iter(f"{SVG}line")]
        level = next(one for one in lines if one[1] == one[3])
        upright = next(one for one in lines if one[0] == one[2])
        x, y = upright[0], level[1]
        found[group.get("data-hole")] = u_mm + (right - x if mirrored else x - left), v_mm + bottom - y
    return found


@pytest.mark.parametrize("paper", TEMPLATE_PAPERS)
@pytest.mark.parametrize("name", VIEWS)
def test_every_hole_lies_at_its_exact_place_by_its_tiles_own_start_lines(name, paper):
    view = VIEWS[name]
    wanted = {one.hole.id: (one.hole.u_mm, one.hole.v_mm) for one in view.holes}
    seen = {}
    for drawing in template_tiles(view, paper, 0.1):
        for id, at in marked(read(drawing), view.mirrored).items():
            assert at == pytest.approx(wanted[id], abs=0.0021)
            seen[id] = at
    assert set(seen) == set(wanted)


def test_a_hole_that_is_no_round_figure_lies_at_its_exact_place():
    # 577.45 is shown as 577.5: a rounded place would be 0.05 out.
    view = VIEWS["panel-unit-1-left"]
    at = {id: place for one in template_tiles(view, "a4", 0.1) for id, place in marked(read(one), False).items()}
    assert at["d4-1"][1] == pytest.approx(577.45, abs=0.0021)
    texts = {one.text for drawing in template_tiles(view, "a4", 0.1) for one in read(drawing).iter(f"{SVG}text")}
    assert "37 | 577.5" in texts and "13: Ø5, 13 deep" in texts


@pytest.mark.parametrize("paper", TEMPLATE_PAPERS)
def test_each_tile_has_bars_of_100_and_as_long_as_itself_both_ways(paper):
    """Trap 33: a bar of 100 read to 0.25 is 0.5 in 200; a bar as long as the tile shows that."""
    of = TEMPLATE_PAPERS[paper]
    for view in VIEWS.values():
        for drawing in template_tiles(view, paper, 0.1):
            root = read(drawing)
            lengths = []
            for css in ("check-bar", "tile-bar"):
                for group in groups(root, css):
                    x1, y1, x2, y2 = line(group.find(f"{SVG}line"))
                    lengths.append((css, abs(x2 - x1), abs(y2 - y1)))
            assert lengths == [
                ("check-bar", pytest.approx(100.0), 0.0), ("check-bar", 0.0, pytest.approx(100.0)),
                ("tile-bar", pytest.approx(of.across_mm), 0.0), ("tile-bar", 0.0, pytest.approx(of.up_mm)),
            ]  # fmt: skip
            texts = [one.text for one in root.iter(f"{SVG}text")]
            assert any(
                one.startswith("Print at 100 %, not fitted to the page. Measure the bars first: 100") for one in texts
            )


def test_tiles_are_placed_from_the_edges_and_never_chained():
    """Trap 33: an error of the printer stays within a tile, here of a quarter in 100."""
    per_mm = 0.25 / 100
    view = VIEWS["panel-unit-1-left-tall"]
    assert per_mm * view.panel.height_mm == 5.0
    for drawing in template_tiles(view, "a4", 0.1):
        root = read(drawing)
        _, _, _, bottom = tile_bars(root)
        assert start(root)[1] % 200.0 == 0.0
        for _, v_mm in marked(root, view.mirrored).values():
            assert abs(v_mm - start(root)[1]) * per_mm < 0.52
        assert bottom > 0


def test_the_control_length_lies_between_printed_ends_and_is_marked_on_their_tiles():
    """Trap 33: one overall length. Sides of 560 by 720 on A4: tiles to C3, so crosses from 0, 0 to 480, 600."""
    view = VIEWS["panel-unit-1-left"]
    laid = tiling(view, TEMPLATE_PAPERS["a4"])
    assert set(laid.control) == {(0.0, 0.0), (480.0, 600.0)}
    assert laid.control_mm == pytest.approx(math.hypot(480.0, 600.0))
    diamonds = 0
    for drawing in template_tiles(view, "a4", 0.1):
        root = read(drawing)
        diamonds += len(groups(root, "control"))
        assert any("from 0 | 0 to 480 | 600 it is 768.4" in one.text for one in root.iter(f"{SVG}text"))
    assert diamonds >= 2


def test_left_and_right_have_equal_tiles_that_mirror():
    """Trap 40."""
    left, right = VIEWS["panel-unit-1-left"], VIEWS["panel-unit-1-right"]
    one, other = template_tiles(left, "a4", 0.1), template_tiles(right, "a4", 0.1)
    assert [each.title.split(", tile ")[1] for each in one] == [each.title.split(", tile ")[1] for each in other]
    for a, b in zip(map(read, one), map(read, other), strict=True):
        assert start(a) == start(b)
        assert marked(a, False) == {id: pytest.approx(at, abs=0.0021) for id, at in marked(b, True).items()}


def test_tiles_with_nothing_to_mark_are_left_out_and_counted():
    # A back of 1200 by 684 takes 8 by 4 tiles of 160 by 200 (1200 / 160 = 7.5, 684 / 200 = 3.4).
    laid = tiling(VIEWS["panel-unit-1-back"], TEMPLATE_PAPERS["a4"])
    assert (laid.columns, laid.rows) == (8, 4)
    assert len(laid.tiles) + laid.left_out == 32
    # The round one, 950 to 1075 by 420 to 545, lies in columns F (to 960) and G, row 3.
    assert [one.name for one in laid.tiles][-2:] == ["F3", "G3"]


def test_a_saw_line_that_is_the_boards_own_edge_needs_no_tile():
    back = VIEWS["panel-unit-1-back"]
    (waste,) = [one for one in back.cut_outs if one.open_to]
    wide = replace(waste, left_mm=10.0, width_mm=1180.0, height_mm=430.0)
    laid = tiling(replace(back, cut_outs=(wide,)), TEMPLATE_PAPERS["a4"])
    # Inner tiles of the lowest row only have the board's edge to offer.
    assert "D1" not in [one.name for one in laid.tiles] and "D3" in [one.name for one in laid.tiles]


def test_a_hole_within_a_lap_is_on_both_tiles_and_one_just_past_the_last_on_that():
    view = views(sample.side(holes=(sample.hole("lap", 163.0, 100.0),), width_mm=162.0))[0]
    assert tiling(view, TEMPLATE_PAPERS["a4"]).columns == 1
    two = views(sample.side(holes=(sample.hole("lap", 162.0, 100.0), sample.hole("b", 40.0, 100.0))))[0]
    drawn = [marked(read(one), False) for one in template_tiles(two, "a4", 0.1)]
    assert [sorted(one) for one in drawn] == [["b", "lap"], ["lap"]]
    assert drawn[0]["lap"] == pytest.approx(drawn[1]["lap"], abs=0.0021)
    assert LAP_MM > 2.0


@pytest.mark.parametrize("paper", TEMPLATE_PAPERS)
@pytest.mark.parametrize("name", VIEWS)
def test_a_tile_fits_its_page_and_its_words_are_whole(name, paper):
    wide_mm, high_mm = BODIES[paper]
    for drawing in template_tiles(VIEWS[name], paper, 0.1):
        assert drawing.width_mm <= wide_mm and drawing.height_mm <= high_mm
        boxes = []
        for one in read(drawing).iter(f"{SVG}text"):
            left, top, right, bottom = text_box(one)
            assert float(one.get("font-size")) >= SMALL_MM
            assert left >= 0 and right <= drawing.width_mm and top >= 0 and bottom <= drawing.height_mm, one.text
            boxes.append(((left, top, right, bottom), one.text))
        met = [
            (a[1], b[1])
            for a, b in combinations(boxes, 2)
            if min(a[0][2], b[0][2]) - max(a[0][0], b[0][0]) > 0.1
            and min(a[0][3], b[0][3]) - max(a[0][1], b[0][1]) > 0.1
        ]
        assert met == [], drawing.title


def test_nothing_is_drawn_beyond_the_lap():
    """A cup of 35 across a tile's end is cut off there."""
    cup = sample.hole("cup", 155.0, 195.0, 35.0, 12.5)
    view = views(sample.side(holes=(cup,)))[0]
    (drawing,) = template_tiles(view, "a4", 0.1)
    root = read(drawing)
    left, right, top, bottom = tile_bars(root)
    (group,) = groups(root, "hole")
    places = [
        tuple(map(float, pair.split(","))) for one in group.iter(f"{SVG}polyline") for pair in one.get("points").split()
    ]
    assert places and group.find(f"{SVG}circle") is None
    for x, y in places:
        assert (
            left - LAP_MM - 0.001 <= x <= right + LAP_MM + 0.001
            and top - LAP_MM - 0.001 <= y <= bottom + LAP_MM + 0.001
        )
        # From its middle, 155 and 195, half of 35.
        assert math.dist((x - left, bottom - y), (155.0, 195.0)) == pytest.approx(17.5, abs=0.01)


def test_the_map_shows_which_tile_goes_where():
    drawing = template_key(VIEWS["panel-unit-1-back"], "a4", 56.0, 70.0)
    assert {one.text for one in read(drawing).iter(f"{SVG}text")} == {"D1", "E1", "A2", "B2", "F3", "G3"}
    assert "26 left out" in drawing.alt
    assert drawing.width_mm <= 56.0 and drawing.height_mm <= 70.0


def test_letters_go_on_past_z():
    assert [letters(one) for one in (0, 25, 26, 27, 51, 52)] == ["A", "Z", "AA", "AB", "AZ", "BA"]


@settings(derandomize=True, deadline=None, max_examples=40)
@given(
    st.floats(120.0, 1400.0), st.floats(100.0, 2300.0), st.sampled_from(list(TEMPLATE_PAPERS)),
    st.lists(st.tuples(st.floats(0.02, 0.98), st.floats(0.02, 0.98)), min_size=1, max_size=12),
    st.sampled_from([PanelKind.LEFT, PanelKind.RIGHT]),
)  # fmt: skip
def test_every_hole_of_any_side_is_on_a_tile_at_its_place(width_mm, height_mm, paper, shares, kind):
    holes = tuple(sample.hole(f"h{n}", u * width_mm, v * height_mm) for n, (u, v) in enumerate(shares))
    (view,) = views(sample.side(kind, width_mm, height_mm, holes))
    seen = {}
    for drawing in template_tiles(view, paper, 0.1):
        seen |= marked(read(drawing), view.mirrored)
    assert seen == {one.id: pytest.approx((one.u_mm, one.v_mm), abs=0.0021) for one in holes}
