"""Tall and wall units as drawn: heights to one scale over the datum line, and the arc on which a tall unit is stood up."""

import math
import xml.etree.ElementTree as ET
from dataclasses import replace

import demo_hall
import pytest
import sample_plan as sample
from datum_rooms import job_of, room_of, run_of, unit
from tall_rooms import made

from oddleg.drawings import part_drawings, svg, tall_drawings
from oddleg.drawings.lettering import SMALL_MM, text_width_mm
from oddleg.job import Legs, Storey, WallUnits
from oddleg.plan.rod import placed_items

SVG = "{http://www.w3.org/2000/svg}"
TALL = unit("tall", 600.0, Legs(100, 200, 5, inset_back_mm=50.0), height_mm=1970.0, storey=Storey.TALL)
HUNG = replace(unit("hung", height_mm=720.0, depth_mm=330.0, storey=Storey.WALL), legs=None)


def room_plan(*items, decided=True):
    """A room of these items at D 871.5, as the sample has it."""
    room = room_of(run_of(*items), wall_units=WallUnits(rail_below_top_mm=40.0))
    placed = tuple(one for run in room.runs for one in placed_items(run))
    found = made(room, 871.5 if decided else None)
    return replace(sample.room_plan(decided=decided), room=room, placed=placed, tall_wall=found)


def drawn(*items, decided=True, **job):
    plan = room_plan(*(items or (unit("a"), HUNG, TALL)), decided=decided)
    return tall_drawings(job_of(plan.room, **job), plan)


def read(drawing):
    return ET.fromstring(svg(drawing, "d"))


def points(one):
    return [tuple(map(float, pair.split(","))) for pair in one.get("points").split()]


def shown(drawing):
    """All its texts, in order, as one line."""
    return " ".join(one.text for one in read(drawing).iter(f"{SVG}text"))


def boxes(root):
    """(top, bottom) of each box, on paper."""
    found = [points(one) for one in root.iter(f"{SVG}polygon") if one.get("class") == "item"]
    return [(min(y for _, y in one), max(y for _, y in one)) for one in found]


def test_boxes_stand_to_one_scale_over_the_datum_line():
    """FP: base 0 to -720, wall unit 530 to 1250, tall unit -720 to 1250."""
    root = read(drawn()["drawing"])
    (zero,) = [float(one.get("y1")) for one in root.iter(f"{SVG}line") if one.get("class") == "accent-heavy"]
    base, hung, tall = boxes(root)
    scale = (base[1] - base[0]) / 720
    for (top, bottom), (top_mm, bottom_mm) in ((base, (0, -720)), (hung, (1250, 530)), (tall, (1250, -720))):
        assert (zero - top) / scale == pytest.approx(top_mm, abs=0.5)
        assert (zero - bottom) / scale == pytest.approx(bottom_mm, abs=0.5)


def test_the_words_carry_every_height():
    alt = drawn()["drawing"].alt
    for words in (
        "Top of Unit tall 1250, top of wall units 1250.",
        "Top edge of the rail 1210.",
        "underside 530",
        "Worktop 30",
    ):
        assert words in alt, words


def test_before_a_datum_neither_floor_nor_ceiling_is_drawn_and_that_is_said():
    found = drawn(decided=False)["drawing"]
    assert "floor" not in found.alt
    assert "No datum is decided" in shown(found)


def test_the_arc_has_the_radius_of_the_diagonal_about_the_foot():
    """FP: height 1970, leg 151.5 (D 871.5 - 720 over a floor at 0), depth 560 less inset 50."""
    root = read(drawn()["tilt-1"])
    (arc,) = [points(one) for one in root.iter(f"{SVG}polyline") if one.get("class") == "accent-line"]
    upright = next(points(one) for one in root.iter(f"{SVG}polyline") if one.get("class") == "dashed")
    scale = (max(x for x, _ in upright) - min(x for x, _ in upright)) / 560
    foot_x = min(x for x, _ in upright) + 50 * scale
    (floor,) = [float(one.get("y1")) for one in root.iter(f"{SVG}line") if one.get("class") == "heavy"]
    for x, y in arc:
        assert math.hypot(x - foot_x, y - floor) / scale == pytest.approx(math.hypot(1970 + 151.5, 510), abs=1.0)
    assert min(y for _, y in arc) == pytest.approx(floor - math.hypot(1970 + 151.5, 510) * scale, abs=0.05)


def test_each_tall_unit_has_its_drawing():
    other = replace(TALL, id="other", name="Unit other")
    assert list(drawn(TALL, other)) == ["drawing", "tilt-1", "tilt-2"]


def test_more_heights_than_fit_are_counted_and_told_in_words():
    hung = [replace(HUNG, id=f"h{i}", name=f"Unit h{i}", height_mm=400.0 + 50 * i) for i in range(6)]
    found = drawn(TALL, *hung)["drawing"]
    assert "3 more heights" in shown(found)
    assert all(f"underside {850 - 50 * i}" in found.alt for i in range(6))


def test_a_room_without_tall_and_wall_units_has_no_drawing():
    assert drawn(unit("a")) == {}


def test_the_hall_has_them_too():
    found = part_drawings(demo_hall.hall_plan())["tall/kitchen"]
    assert {"drawing", "tilt-1"} <= set(found)


@pytest.mark.parametrize("decided", [True, False])
def test_no_text_is_too_small_or_runs_off_the_paper(decided):
    hall = part_drawings(demo_hall.hall_plan())["tall/kitchen"]
    for drawing in (*drawn(decided=decided).values(), *hall.values()):
        for one in read(drawing).iter(f"{SVG}text"):
            size_mm, x_mm, y_mm = (float(one.get(name)) for name in ("font-size", "x", "y"))
            width_mm = text_width_mm(one.text, size_mm, one.get("font-weight") == "700")
            assert size_mm >= SMALL_MM
            assert x_mm >= 0 and x_mm + width_mm <= drawing.width_mm, one.text
            assert size_mm * 0.6 <= y_mm <= drawing.height_mm, one.text
