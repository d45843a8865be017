"""The rod at full size read back from the SVG: a mark lies where its figure says, on the tile that its own figure names."""

import xml.etree.ElementTree as ET
from dataclasses import replace

import pytest
import sample_set_out as runs
from text_boxes import text_box

from oddleg.drawings.lettering import SMALL_MM
from oddleg.drawings.strip_tiles import PAPERS, strip_tiles, tile_start
from oddleg.drawings.svg import svg

SVG = "{http://www.w3.org/2000/svg}"
# ISO 216, laid across; what no office printer prints on (common practice) is 5 at every edge.
SHEETS = {"a4": (297.0, 210.0), "a3": (420.0, 297.0)}


def read(drawing):
    return ET.fromstring(svg(drawing, "t"))


def texts(root):
    return [one.text for one in root.iter(f"{SVG}text")]


def start_mm(drawing):
    """The tile's start figure as it is printed."""
    words = next(one for one in texts(read(drawing)) if one.startswith("Start line"))
    return float(words.removeprefix("Start line of this tile: ").removesuffix(" on the tape"))


def start_line_mm(drawing):
    """Where the start line lies from the tile's left side: the first line as high as the tile."""
    return next(
        float(one.get("x1"))
        for one in read(drawing).iter(f"{SVG}line")
        if float(one.get("y1")) == 0 and float(one.get("y2")) == pytest.approx(drawing.height_mm, abs=0.001)
    )


def marks_on(drawing):
    """{title: x on paper} of the marks; their lines begin at an edge of the tile."""
    found = {}
    for group in read(drawing).iter(f"{SVG}g"):
        if group.get("class") == "mark":
            found[group.find(f"{SVG}title").text] = float(group.find(f"{SVG}line").get("x1"))
    return found


@pytest.mark.parametrize("paper", PAPERS)
def test_every_mark_lies_where_its_figure_says_from_its_tiles_own_start(paper):
    set_out = runs.set_out()
    seen = set()
    for drawing in strip_tiles(set_out, paper):
        zero_mm = start_line_mm(drawing) - start_mm(drawing)
        for title, x_mm in marks_on(drawing).items():
            name, _, figure = title.rpartition(", ")
            at_mm = float(figure.split()[-1])
            assert x_mm - zero_mm == pytest.approx(at_mm, abs=0.01)
            seen.add((name, at_mm))
    assert seen >= {(one.name, one.from_left.mm) for one in set_out.rod.marks}
    assert seen >= {(f"fixing {one.number}", one.x_mm) for one in set_out.batten.fixings}


def test_a_mark_that_is_no_round_figure_lies_at_its_exact_place():
    # Thirds: 1000 / 3 = 333.333..., shown as 333.5; a rounded place would be a sixth out.
    set_out = runs.of_widths(1000 / 3, 1000 / 3, 1000 / 3)
    (mark,) = [one for one in set_out.rod.marks if one.from_left.text == "333.5"]
    at = {}
    for drawing in strip_tiles(set_out, "a4"):
        for title, x_mm in marks_on(drawing).items():
            at[title] = x_mm - start_line_mm(drawing) + start_mm(drawing)
    assert at[f"{mark.name}, 333.5"] == pytest.approx(1000 / 3, abs=0.01)


def test_tiles_are_not_chained():
    # Trap 33. A bar of 100 read to 0.25 is 10 out over 4000: 0.25 * 40. Laid by its own start figure, no mark of a tile
    # is further out than the printer's error over that tile alone.
    per_mm = 0.25 / 100
    assert per_mm * 4000 == 10
    set_out = runs.of_widths(*[500.0] * 8)
    for drawing in strip_tiles(set_out, "a4"):
        line_mm = start_line_mm(drawing)
        for x_mm in marks_on(drawing).values():
            assert abs(x_mm - line_mm) * per_mm < 0.65
    starts = [start_mm(one) for one in strip_tiles(set_out, "a4")]
    # Marks every 500, fixings every 600; the end mark, 4000, lies at the end line of the last.
    assert starts == [0, 500, 1000, 1500, 1750, 2000, 2250, 2500, 3000, 3500, 3750]


@pytest.mark.parametrize("paper", PAPERS)
def test_a_tile_fits_its_paper_and_its_bar_is_as_long_as_the_tile_holds(paper):
    wide_mm, high_mm = SHEETS[paper]
    for set_out in (runs.set_out(), runs.of_widths(*[12.0] * 40), runs.of_widths(*[600.0, 18.0, 20.0, 16.0] * 4)):
        for drawing in strip_tiles(set_out, paper):
            assert drawing.width_mm <= wide_mm - 2 * 14 + 0.001
            # Title block and foot of a sheet take 40 and 14.
            assert drawing.height_mm <= high_mm - 54
            bar = next(one for one in read(drawing).iter(f"{SVG}g") if one.get("class") == "check-bar")
            length_mm = float(bar.find(f"{SVG}line").get("x2")) - float(bar.find(f"{SVG}line").get("x1"))
            assert length_mm == pytest.approx(PAPERS[paper].step_mm, abs=0.001)
            assert length_mm > 0.9 * drawing.width_mm
            assert any(one.startswith(f"Check bar: {length_mm:g} from line to line") for one in texts(read(drawing)))


def test_the_whole_length_is_on_every_tile():
    for drawing in strip_tiles(runs.set_out(), "a4"):
        assert any("Whole rod: zero to end mark 2640 on the tape." in one for one in texts(read(drawing)))


def test_neighbours_overlap_and_show_alike_what_lies_in_both():
    set_out = runs.of_widths(252.0, 600.0)
    first, second = strip_tiles(set_out, "a4")[:2]
    shared = [title for title in marks_on(first) if title in marks_on(second)]
    assert shared == ["right of base 1, left of base 2, 252"]


def test_both_rows_are_told_apart_and_lie_at_their_own_edge():
    (drawing,) = [one for one in strip_tiles(runs.set_out(), "a4") if start_mm(one) == 500]
    looks = {}
    for group in read(drawing).iter(f"{SVG}g"):
        if group.get("class") == "mark":
            line = group.find(f"{SVG}line")
            looks[group.find(f"{SVG}title").text] = (line.get("class"), float(line.get("y1")))
    assert looks["right of plates, left of window gap, 670.5"] == ("dashed", 0.0)
    assert looks["right of pans, left of sink base, 670.5"] == ("line", pytest.approx(drawing.height_mm, abs=0.001))
    assert looks["fixing 1, F1 600"][0] == "dotted"


def test_a_fixing_tells_its_packing_and_a_cable_zone():
    shown = [text for one in strip_tiles(runs.set_out(), "a4") for text in texts(read(one))]
    assert {"F2 1200", "packing 12 (10 + 2)"} <= set(shown)
    assert any("Over the socket" in one for one in shown)


def test_tape_figures_stand_at_their_ticks():
    drawing = next(one for one in strip_tiles(runs.set_out(), "a3") if start_mm(one) == 740)
    at = {}
    for one in read(drawing).iter(f"{SVG}text"):
        if one.get("text-anchor") == "middle" and one.get("font-size") == "3" and not one.get("transform"):
            at[float(one.text)] = float(one.get("x"))
    # 740 is no multiple of 50: the first figure is 750, 10 to the right of the start line.
    assert at[750.0] - start_line_mm(drawing) == pytest.approx(10.0, abs=0.001)
    assert at[1000.0] - at[950.0] == pytest.approx(50.0, abs=0.001)


def test_a_tile_without_a_mark_is_left_out():
    starts = [start_mm(one) for one in strip_tiles(runs.of_widths(2400.0), "a4")]
    # Fixings every 600, zero and end; nothing from 250 to 500, 750 to 1000 and so on.
    assert 250 not in starts and 0 in starts and 2250 in starts


def test_nothing_to_mark_gives_no_tile():
    empty = runs.set_out()
    assert strip_tiles(replace(empty, rod=replace(empty.rod, marks=()), batten=None), "a4") == ()


def test_what_lies_left_of_the_zero_is_said_so():
    assert tile_start(-250.0) == "Start line: 250 to the left of the zero"
    assert tile_start(1000.0) == "Start line of this tile: 1000 on the tape"


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("widths", [[600.0], [12.0] * 40, [600.0, 18.0, 20.0, 16.0, 40.0, 500.0] * 3, [3.0] * 30])
def test_no_text_of_a_tile_is_too_small_clipped_or_on_another(paper, widths):
    for drawing in strip_tiles(runs.of_widths(*widths, name="Run of the old scullery " * 12), paper):
        labels = [
            text
            for group in read(drawing).iter(f"{SVG}g")
            if group.get("class") == "mark"
            for text in group.iter(f"{SVG}text")
        ]
        boxes = []
        for one in read(drawing).iter(f"{SVG}text"):
            left, top, right, bottom = text_box(one)
            assert float(one.get("font-size")) >= SMALL_MM
            assert left >= 0 and right <= drawing.width_mm, one.text
            assert top >= -0.01 and bottom <= drawing.height_mm + 0.01, one.text
        boxes = [(*text_box(one), one.text) for one in labels]
        met = [
            (a[4], b[4])
            for i, a in enumerate(boxes)
            for b in boxes[i + 1 :]
            if a[0] < b[2] - 0.2 and b[0] < a[2] - 0.2 and a[1] < b[3] - 0.2 and b[1] < a[3] - 0.2
        ]
        assert met == []


def test_a_tile_ends_in_a_line_of_its_own_look_and_no_mark_strikes_a_figure_of_the_scale_through():
    for tile in strip_tiles(runs.set_out(), "a4"):
        root = read(tile)
        (end,) = [one for one in root.iter() if one.get("class") == "tile-end"]
        assert end.get("x1") == end.get("x2") and float(end.get("x1")) == pytest.approx(PAPERS["a4"].start_mm + PAPERS["a4"].step_mm)
        assert "end of tile" in texts(root)
        order = list(root.iter())
        marks = [n for n, one in enumerate(order) if one.get("class") == "mark"]
        scale = [n for n, one in enumerate(order) if one.get("class") == "ink halo" and one.get("text-anchor") == "middle"]
        assert scale and max(marks) < min(scale)
