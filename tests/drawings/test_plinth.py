"""Plinth drawings read back from the SVG: what is drawn lies where its figures say."""

import xml.etree.ElementTree as ET
from dataclasses import replace

import pytest
import sample_plan as sample
import sample_plinth as plinths

from oddleg.drawings import part_drawings, plinth_drawings, svg
from oddleg.drawings.lettering import SMALL_MM, text_width_mm

SVG = "{http://www.w3.org/2000/svg}"


def room_with(plinth):
    return replace(sample.room_plan(), plinth=plinth)


def drawn(plinth=None):
    return plinth_drawings(room_with(plinth or plinths.plinth()))


def read(drawing):
    return ET.fromstring(svg(drawing, "d"))


def texts(root):
    return [one.text for one in root.iter(f"{SVG}text")]


def points(one):
    return [tuple(map(float, pair.split(","))) for pair in one.get("points").split()]


def foot_of(drawing):
    """The cut edge of a piece, on paper."""
    return points(next(one for one in read(drawing).iter(f"{SVG}polyline") if one.get("class") == "heavy"))


def test_the_part_of_a_room_carries_its_plan_its_layout_and_a_drawing_for_each_piece():
    found = part_drawings(sample.plan(room_with(plinths.plinth())))["plinth/kitchen"]
    assert list(found) == ["drawing", "layout", "piece-1", "piece-2", "piece-3"]
    assert "plinth/kitchen" not in part_drawings(sample.plan(sample.room_plan(decided=False)))


def test_the_cut_edge_is_drawn_to_the_scale_that_is_stated():
    drawing = drawn()["piece-1"]
    foot = foot_of(drawing)
    (words,) = [one for one in texts(read(drawing)) if one.startswith("Heights drawn")]
    factor = int(words.split()[2])
    scale = (foot[-1][0] - foot[0][0]) / 1950
    # Gaps 148, 151, 146, 145 less 2 of play; lower on the paper where the board is higher.
    for (x_mm, y_mm), (at_mm, height_mm) in zip(foot, ((0, 146), (650, 149), (1300, 144), (1950, 143)), strict=True):
        assert x_mm - foot[0][0] == pytest.approx(at_mm * scale, abs=0.01)
        assert y_mm - foot[0][1] == pytest.approx((height_mm - 146) * scale * factor, abs=0.01)


def test_a_straight_cut_has_two_heights_and_an_uncut_board_nothing_hatched():
    found = drawn()
    assert len(foot_of(found["piece-2"])) == 2
    hatched = [sum(one.get("class") == "hair" for one in read(found[f"piece-{n}"]).iter(f"{SVG}line")) for n in (2, 3)]
    assert hatched[0] > 20 and hatched[1] == 0
    assert "Board 150 goes in uncut; up to 8 stays open above it." in texts(read(found["piece-3"]))
    assert "Rip, 5 off the 150 board at most." in texts(read(found["piece-2"]))


def test_the_left_end_is_on_the_left_of_the_paper():
    root = read(drawn()["piece-1"])
    x_of = {one.text: float(one.get("x")) for one in root.iter(f"{SVG}text") if one.get("class") == "figure"}
    assert x_of["146"] < x_of["143"]


def test_cuts_lie_on_their_board_at_their_places_with_a_kerf_between():
    root = read(drawn()["layout"])
    board = next(one for one in root.iter(f"{SVG}g") if one.get("class") == "board-cut")
    one, two = ([x for x, _ in points(mark)] for mark in board.iter(f"{SVG}polygon") if mark.get("class") == "item")
    whole = [x for x, _ in points(next(mark for mark in board.iter(f"{SVG}polygon") if mark.get("class") == "line"))]
    scale = (max(whole) - min(whole)) / 3000
    assert min(one) == min(whole)
    assert (max(one) - min(one)) / scale == pytest.approx(1950, abs=0.5)
    assert (min(two) - max(one)) / scale == pytest.approx(4, abs=0.5)
    assert (max(whole) - max(two)) / scale == pytest.approx(3000 - 1950 - 4 - 900, abs=0.5)


def test_the_words_carry_every_figure_of_the_layout_and_of_the_pieces():
    found = drawn()
    for words in (
        "2 stock boards of 3000",
        "Board 1: P1 1950, P2 900; left over 142",
        "Waste 1784 mm, 30 % of 2 boards",
    ):
        assert words in found["layout"].alt
    for words in ("1950 long", "146 at 0, 149 at 650, 144 at 1300, 143 at 1950", "dies against the window wall"):
        assert words in found["piece-1"].alt
    assert all(f"P{n}, " in found["drawing"].alt for n in (1, 2, 3))


def test_a_short_piece_on_a_long_board_keeps_its_words_above_it():
    short = plinths.piece(1, 40.0, (148.0, 148.0))
    cut = plinths.PlinthCut("piece-1", 0.0, short.length)
    nested = replace(plinths.nesting(), boards=(plinths.PlinthBoardCut(1, (cut,), plinths.figure(2956.0)),))
    drawing = drawn(replace(plinths.plinth((short,)), nesting=nested))["layout"]
    assert "Board 1: P1 40" in texts(read(drawing))
    assert "P1 40" not in texts(read(drawing))


def test_points_close_together_stand_in_rows_and_not_on_each_other():
    bowed = plinths.piece(1, 2000.0, tuple(148.0 + i % 2 for i in range(25)), bowed=True)
    root = read(drawn(plinths.plinth((bowed,), nested=False))["piece-1"])
    boxes = []
    for one in root.iter(f"{SVG}text"):
        if one.text.startswith("at "):
            half = text_width_mm(one.text, SMALL_MM) / 2
            boxes.append((float(one.get("x")) - half, float(one.get("x")) + half, float(one.get("y"))))
    assert len(boxes) == 25
    for i, (left, right, y) in enumerate(boxes):
        assert all(right < other[0] or other[1] < left for other in boxes[i + 1 :] if other[2] == y)


def test_nothing_to_close_is_said_and_not_left_blank():
    found = drawn(plinths.bare())
    assert list(found) == ["drawing"]
    assert "No plinth piece here." in texts(read(found["drawing"]))


def test_notches_and_grilles_lie_at_their_places_along_the_piece():
    """FP: on a piece 1366 long a notch from 100 to 660 and a grille from 800 to 1200."""
    root = read(drawn(plinths.cut_out())["piece-3"])
    top = next(points(one) for one in root.iter(f"{SVG}polygon") if one.get("class") == "tint")
    left, right = min(x for x, _ in top), max(x for x, _ in top)
    scale = (right - left) / 1366
    notch = next(points(one) for one in root.iter(f"{SVG}polygon") if one.get("class") == "paper")
    grille = next(points(one) for one in root.iter(f"{SVG}polygon") if one.get("class") == "item")
    for found, (start_mm, stop_mm) in ((notch, (100, 660)), (grille, (800, 1200))):
        assert min(x for x, _ in found) - left == pytest.approx(start_mm * scale, abs=0.02)
        assert max(x for x, _ in found) - left == pytest.approx(stop_mm * scale, abs=0.02)
    assert min(y for _, y in notch) <= min(y for _, y in top) < min(y for _, y in grille)


def test_cuts_are_told_in_words_too():
    alt = drawn(plinths.cut_out())["piece-3"].alt
    assert "Notch at the top edge for dishwasher bay, from its sheet: 560 wide, 40 high, at 100." in alt
    assert "Grille in the board for tall fridge, from its sheet: 400 wide, 60 high, at 800, 50 up from the foot." in alt


@pytest.mark.parametrize("of", [plinths.plinth, plinths.cut_out])
def test_no_text_is_too_small_or_runs_off_the_paper(of):
    for drawing in drawn(of()).values():
        for one in read(drawing).iter(f"{SVG}text"):
            size_mm, x_mm, y_mm = (float(one.get(name)) for name in ("font-size", "x", "y"))
            width_mm = text_width_mm(one.text, size_mm, one.get("font-weight") == "700")
            left_mm = x_mm - {"start": 0.0, "middle": width_mm / 2, "end": width_mm}[one.get("text-anchor", "start")]
            assert size_mm >= SMALL_MM
            assert left_mm >= 0 and left_mm + width_mm <= drawing.width_mm, one.text
            assert size_mm * 0.6 <= y_mm <= drawing.height_mm, one.text
