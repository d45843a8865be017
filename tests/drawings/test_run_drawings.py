"""Drawings of a run read back from the SVG: what is drawn lies where its figures say."""

import xml.etree.ElementTree as ET
from dataclasses import replace
from itertools import pairwise

import pytest
import sample_plan as sample
import sample_set_out as runs
from hypothesis import given, settings
from hypothesis import strategies as st
from text_boxes import text_box

from oddleg.drawings.lettering import SMALL_MM
from oddleg.drawings.rod_strip import strip_drawing
from oddleg.drawings.run_elevation import run_elevations
from oddleg.drawings.run_items import item_tags, run_heights
from oddleg.drawings.run_plan import run_plans
from oddleg.drawings.running import kept_apart, stretches
from oddleg.drawings.staircase import staircase
from oddleg.drawings.svg import svg
from oddleg.plan.figure import figure
from oddleg.plan.legs import unit_numbers

SVG = "{http://www.w3.org/2000/svg}"
DATUM = figure(871.5)


def numbers_of(set_out):
    return unit_numbers(set_out.rod.placed)


def elevation(set_out, datum=DATUM, width_mm=90.0, floor_mm=-871.5):
    placed = set_out.rod.placed
    heights = run_heights(sample.job(), sample.room(), placed, placed, floor_mm)
    (drawing,) = run_elevations(set_out, heights, datum, numbers_of(set_out), width_mm)
    return drawing


def plan(set_out, width_mm=90.0):
    (drawing,) = run_plans(set_out, numbers_of(set_out), width_mm)
    return drawing


def strip(set_out, width_mm=90.0):
    return strip_drawing(set_out, numbers_of(set_out), width_mm)


def sample_runs():
    long_name = "Run along the north wall of the old scullery, beyond the copper, as far as the door to the yard"
    named = runs.run()
    names = tuple(
        replace(one, name=f"{one.name} of the washing-up side with a name that is very long") for one in named.items
    )
    bare = runs.run((), features=())
    return {
        "as it is": runs.set_out(),
        "one item": runs.of_widths(600.0),
        "thirty items": runs.of_widths(*[600.0, 300.0, 450.0, 500.0, 900.0] * 6),
        "narrow items": runs.of_widths(*[600.0, 18.0, 20.0, 16.0, 40.0, 500.0] * 5),
        "only narrow items": runs.of_widths(*[12.0] * 40),
        "long names": runs.set_out(replace(named, name=long_name, items=names)),
        "no items": runs.set_out(bare),
        "wall not read": not_read(runs.set_out()),
    }  # fmt: skip


def not_read(set_out):
    """Free-standing: no wall, no batten; the line of backs is the job's own."""
    line = replace(set_out.line, read=False, binding=(), words="The void as the job says, since no wall is read.")
    return replace(set_out, wall=None, batten=None, line=line, hanging_line=None)


def read(drawing):
    return ET.fromstring(svg(drawing, "d"))


def texts(root):
    return [one.text for one in root.iter(f"{SVG}text")]


def points(one):
    return [tuple(map(float, pair.split(","))) for pair in one.get("points").split()]


@pytest.mark.parametrize("drawn", [elevation, plan, strip])
@pytest.mark.parametrize("name", sample_runs())
@pytest.mark.parametrize("width_mm", [90.0, 182.0])
def test_no_text_is_too_small_or_runs_off_the_paper_or_on_another(drawn, name, width_mm):
    drawing = drawn(sample_runs()[name], width_mm=width_mm)
    boxes = []
    for one in read(drawing).iter(f"{SVG}text"):
        left, top, right, bottom = text_box(one)
        assert float(one.get("font-size")) >= SMALL_MM
        assert left >= 0 and right <= drawing.width_mm + 0.01, one.text
        assert top >= 0 and bottom <= drawing.height_mm, one.text
        boxes.append((left, top, right, bottom, one.text))
    met = [
        (a[4], b[4])
        for i, a in enumerate(boxes)
        for b in boxes[i + 1 :]
        if a[0] < b[2] - 0.2 and b[0] < a[2] - 0.2 and a[1] < b[3] - 0.2 and b[1] < a[3] - 0.2
    ]
    assert met == []


def dimension_ticks(root, caption):
    """Where the ticks of a dimension line are, by its caption: the heavy short lines on the line under it."""
    words = next(one for one in root.iter(f"{SVG}text") if one.text == caption)
    y_mm = float(words.get("y")) + 1.0
    return [
        float(one.get("x1"))
        for one in root.iter(f"{SVG}line")
        if one.get("class") == "line" and float(one.get("y1")) == pytest.approx(y_mm - 0.8, abs=0.01)
    ]


def test_marks_lie_on_three_dimension_lines_where_their_figures_say():
    set_out = runs.set_out()
    root = read(elevation(set_out))
    base = [one for one in set_out.rod.marks if one.row == "base"]
    rows = [dimension_ticks(root, f"from the {side}") for side in ("left", "anchor", "right")]
    assert rows[0] == rows[1] == rows[2]
    scale = (rows[0][-1] - rows[0][0]) / 2640.0
    assert [(x - rows[0][0]) / scale for x in rows[0]] == pytest.approx([one.x_mm for one in base], abs=0.1)
    shown = texts(root)
    for one in base:
        for text in (one.from_left.text, one.from_anchor.text, one.from_right.text):
            assert text in shown


def test_the_elevation_is_not_mirrored():
    root = read(elevation(runs.set_out()))
    at = {one.text: text_box(one)[0] for one in root.iter(f"{SVG}text")}
    # As you face the wall: pans (1), sink (2), dishwasher (C), drawers (3); figures grow to the right.
    assert at["1"] < at["2"] < at["C"] < at["3"]
    assert at["670.5"] < at["2570.5"]


def test_heights_hang_from_the_datum_and_the_floor_lies_where_it_is_known():
    set_out = runs.set_out()
    heights = run_heights(sample.job(), sample.room(), set_out.rod.placed, set_out.rod.placed, -871.5)
    assert heights.spans["unit-1"] == (-720.0, 0.0)
    assert heights.spans["bay"] == (-871.5, 0.0)
    # A panel to the floor; a filler as high as the unit beside it; wall units 500 over a top of 30.
    assert heights.spans["panel-left"] == (-871.5, 0.0)
    assert heights.spans["filler-left"] == (-720.0, 0.0)
    assert heights.spans["wall-1"] == (530.0, 530.0 + 720.0)
    assert heights.spans["filler-wall"] == heights.spans["gap"] == heights.spans["wall-1"]
    assert heights.worktop_mm == (0.0, 30.0)
    unknown = run_heights(sample.job(), sample.room(), set_out.rod.placed, set_out.rod.placed, None)
    # A board of 150 and 2 of play below the carcasses.
    assert unknown.floor_mm == -720.0 - 150.0 - 2.0 and not unknown.floor_known


def test_without_a_datum_the_elevation_says_so_and_shows_features_across_only():
    drawing = elevation(runs.set_out(), datum=None)
    assert any(one.startswith("No datum is decided yet") for one in texts(read(drawing)))
    window = next(one for one in read(drawing).iter(f"{SVG}g") if one.get("data-feature") == "window")
    assert len(list(window.iter(f"{SVG}line"))) == 2 and not list(window.iter(f"{SVG}polygon"))


def test_features_lie_over_the_rod_also_where_its_zero_has_moved():
    # In a corner the zero lies 22 to the right: the window's centre, 1070.5 on the wall, is 1048.5 on the rod.
    at = {}
    for zero_mm in (0.0, 22.0):
        set_out = runs.set_out()
        moved = replace(set_out, line=replace(set_out.line, zero_mm=zero_mm))
        root = read(elevation(moved))
        window = next(one for one in root.iter(f"{SVG}g") if one.get("data-feature") == "window")
        ticks = dimension_ticks(root, "from the left")
        scale = (ticks[-1] - ticks[0]) / 2640.0
        xs = [x for x, _ in points(next(window.iter(f"{SVG}polygon")))]
        at[zero_mm] = ((min(xs) + max(xs)) / 2 - ticks[0]) / scale
    assert at[0.0] == pytest.approx(1070.5, abs=0.2)
    assert at[22.0] == pytest.approx(1048.5, abs=0.2)


def wall_line(root, css="line"):
    return points(next(one for one in root.iter(f"{SVG}polyline") if one.get("class") == css))


def test_the_wall_is_drawn_out_of_true_by_the_factor_that_is_stated():
    drawing = plan(replace(runs.set_out(), hanging_line=None))
    root = read(drawing)
    wall = wall_line(root)
    back_mm = next(float(one.get("y1")) for one in root.iter(f"{SVG}line") if one.get("class") == "accent-line")
    words = next(one for one in texts(root) if "times larger" in one)
    factor = int(words.split("drawn ")[1].split()[0])
    scale = (wall[-1][0] - wall[0][0]) / 2640.0
    assert factor > 1
    for (x_mm, y_mm), (at_mm, out_mm) in zip(wall, runs.WALL, strict=True):
        assert (x_mm - wall[0][0]) / scale == pytest.approx(at_mm, abs=0.2)
        assert (back_mm - y_mm) / scale / factor == pytest.approx(18.0 - out_mm, abs=0.05)


def test_packing_is_drawn_from_the_wall_out_and_told_at_each_fixing():
    # Void 10, 22, 16, 13 and a batten of 10: packing 0, 12, 6, 3.
    drawing = plan(replace(runs.set_out(), hanging_line=None))
    root = read(drawing)
    blocks = [one for one in root.iter(f"{SVG}polygon") if one.get("class") == "packing"]
    deep = [max(y for _, y in points(one)) - min(y for _, y in points(one)) for one in blocks]
    assert deep[1] / deep[3] == pytest.approx(12 / 3, rel=0.01) and deep[0] == 0
    for words in (
        "Fixing 2 at 1200: packing 12 (10 + 2).",
        "At 1200 the void is 22.",
        "The wall holds the line at 600.",
    ):
        assert words in drawing.alt
    assert {"0", "12", "6", "3", "10", "22", "16", "13"} <= set(texts(root))


def test_what_holds_the_line_is_marked_on_the_wall():
    root = read(plan(replace(runs.set_out(), hanging_line=None)))
    (held,) = [one for one in root.iter(f"{SVG}circle") if one.get("class") == "spot-read"]
    assert (float(held.get("cx")), float(held.get("cy"))) == pytest.approx(wall_line(root)[1], abs=0.01)


def test_a_wall_that_is_not_read_is_dashed_and_said():
    drawing = plan(not_read(runs.set_out()))
    assert any(one.startswith("Wall not read here") for one in texts(read(drawing)))
    assert not list(read(drawing).iter(f"{SVG}polyline"))


def test_the_strip_is_a_tenth_and_every_mark_is_on_it_in_its_half():
    set_out = runs.set_out()
    root = read(strip(set_out))
    seen = {}
    for group in root.iter(f"{SVG}g"):
        if group.get("class") == "mark":
            seen.setdefault(group.get("data-mark"), []).append(group)
    assert set(seen) == {one.id for one in set_out.rod.marks}
    # Between two marks of one stretch lies a tenth of what their figures say.
    at = {one.id: float(seen[one.id][0].find(f"{SVG}line").get("x1")) for one in set_out.rod.marks}
    zero, second, third = (
        one.id for one in set_out.rod.marks if one.from_left.text in ("0", "51", "70.5") and one.row == "base"
    )
    assert (at[second] - at[zero], at[third] - at[zero]) == pytest.approx((5.1, 7.05), abs=0.001)


def test_the_strip_tells_the_order_of_marking_and_what_is_marked():
    set_out = runs.set_out()
    first = next(one for one in set_out.rod.marks if one.order == 1)
    ticked = tuple(replace(one, marked=one.from_left) if one is first else one for one in set_out.rod.marks)
    drawing = strip(replace(set_out, rod=replace(set_out.rod, marks=ticked)))
    full = [one for one in read(drawing).iter(f"{SVG}circle") if one.get("class") == "spot-read"]
    assert len(full) == 1
    assert "1. anchor: centre of the sink at 1070.5." in drawing.alt
    assert drawing.alt.index("1. ") < drawing.alt.index("2. ") < drawing.alt.index("10. ")


def test_tags_are_units_numbers_or_letters_and_are_listed():
    set_out = runs.set_out()
    tags = item_tags(set_out.rod.placed, numbers_of(set_out))
    assert list(tags.values()) == ["A", "B", "1", "2", "C", "3", "D", "E", "F", "G", "H", "J"]
    many = item_tags(runs.of_widths(*[50.0] * 60).rod.placed, {})
    assert len(set(many.values())) == 60
    assert "2 sink base" in elevation(set_out).alt and "A left filler" in plan(set_out).alt


@settings(derandomize=True, deadline=None, max_examples=60)
@given(st.lists(st.floats(0, 82), min_size=1, max_size=20))
def test_figures_that_are_spread_keep_their_order_and_their_distance(places):
    moved = kept_apart(sorted(places), 3.0, 0.0, 82.0)
    assert all(b - a >= 3.0 - 1e-9 for a, b in pairwise(moved))
    assert moved[0] >= -1e-9 and moved[-1] <= 82.0 + 1e-9


def test_figures_with_room_enough_are_not_moved():
    assert kept_apart([1.0, 10.0, 30.0], 3.0, 0.0, 82.0) == [1.0, 10.0, 30.0]
    # Two that meet share the move: 10 and 10 at 3 apart are 8.5 and 11.5.
    assert kept_apart([10.0, 10.0], 3.0, 0.0, 82.0) == [8.5, 11.5]


@settings(derandomize=True, deadline=None, max_examples=60)
@given(st.lists(st.floats(10, 1200), min_size=1, max_size=40), st.integers(2, 12))
def test_stretches_hold_the_whole_run_and_never_too_many_marks(widths, most):
    edges = [0.0]
    for width in widths:
        edges.append(edges[-1] + width)
    found = stretches((0.0, edges[-1]), edges, [(edges, most)], (4.0, 86.0), (0.012, 0.026))
    assert found[0].from_mm == 0.0 and found[-1].to_mm == edges[-1]
    assert all(a.to_mm == b.from_mm for a, b in pairwise(found))
    assert all(sum(one.holds(x) for x in edges) <= most for one in found)
    assert all(one.right_mm <= 86.0 + 1e-6 for one in found)


@settings(derandomize=True, deadline=None, max_examples=80)
@given(st.lists(st.tuples(st.floats(0, 250), st.floats(5, 40)), min_size=1, max_size=8))
def test_no_leader_runs_through_a_label(found):
    found.sort()
    places, widths = [x for x, _ in found], [wide for _, wide in found]
    steps = staircase(places, widths, 1.0, 0.0, 250.0)
    if steps is None:
        return
    spans = [(x - wide, x) if step.to_left else (x, x + wide) for (x, wide), step in zip(found, steps, strict=True)]
    for i, one in enumerate(steps):
        assert spans[i][0] >= 0 and spans[i][1] <= 250.0
        for k, other in enumerate(steps):
            if i != k and one.row == other.row:
                assert spans[i][1] <= spans[k][0] or spans[k][1] <= spans[i][0]
            if i != k and one.row > other.row:
                # The leader of the one further out passes the rows nearer in.
                assert not spans[k][0] < places[i] < spans[k][1]


def test_no_name_of_a_feature_lies_on_the_line_of_the_anchor():
    root = read(elevation(runs.set_out()))
    lines = [float(one.get("x1")) for one in root.iter(f"{SVG}line") if one.get("class") == "anchor-line"]
    names = [one for group in root.iter(f"{SVG}g") if group.get("class") == "feature" for one in group.iter(f"{SVG}text")]
    boxes = [text_box(one) for one in names]
    assert lines and boxes
    assert not [(x, box) for x in lines for box in boxes if box[0] < x < box[2]]
