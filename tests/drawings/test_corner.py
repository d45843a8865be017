"""The corner drawing read back from its SVG: what is drawn lies where its figures say."""

import math
import xml.etree.ElementTree as ET

import corner_rooms as here
import pytest

from oddleg.drawings import svg
from oddleg.drawings.corner import corner_drawing
from oddleg.drawings.lettering import SMALL_MM, text_width_mm
from oddleg.job import EndsAt, Filler, Handing

SVG = "{http://www.w3.org/2000/svg}"


def filler(width_mm):
    return Filler("strip", "corner strip", width_mm, 0.0, 300.0, share=0.0)


def blind():
    return here.unit("blind-base", 1000.0, Handing.LEFT, blind_mm=600.0)


def drawn(left=None, right=None, *bodies, **more):
    room = here.room(*here.runs(left or [blind(), filler(20.0)], right or [here.post(60.0), here.drawers("pans", 600.0)], **more))
    (plan,) = here.plan_of(room, *bodies).rooms
    (corner,) = plan.setting_out.corners
    return corner_drawing(corner, 1, plan)


def read(drawing):
    return ET.fromstring(svg(drawing, "d"))


def texts(drawing):
    return [one.text for one in read(drawing).iter(f"{SVG}text")]


def points(one):
    return [tuple(map(float, pair.split(","))) for pair in one.get("points").split()]


def box(one):
    xs, ys = zip(*points(one), strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def group(drawing, item):
    return next(one for one in read(drawing).iter(f"{SVG}g") if one.get("data-item") == item)


def walls(drawing):
    """The face of each wall in the triangle: the top one, then the right-hand one."""
    lines = [one for one in read(drawing).iter(f"{SVG}line") if one.get("class") == "wall"]
    return [tuple(float(one.get(name)) for name in ("x1", "y1", "x2", "y2")) for one in lines[-2:]]


def test_the_left_run_is_at_the_top_and_the_right_run_at_the_right_hand():
    drawing = drawn()
    left, top, right, bottom = box(next(group(drawing, "blind-base").iter(f"{SVG}polygon")))
    other = box(next(group(drawing, "pans").iter(f"{SVG}polygon")))
    assert right - left > bottom - top and other[1] > bottom and other[2] > right


def test_units_post_and_handle_are_to_one_scale():
    """The blind unit is 1000 wide, 560 deep and stands 20 off the line of backs; the post 60; the handle 35."""
    drawing = drawn()
    blind_box = box(next(group(drawing, "blind-base").iter(f"{SVG}polygon")))
    scale = (blind_box[2] - blind_box[0]) / 1000
    assert (blind_box[3] - blind_box[1]) / scale == pytest.approx(560, abs=0.5)
    strip = box(next(group(drawing, "post").iter(f"{SVG}polygon")))
    assert (strip[3] - strip[1]) / scale == pytest.approx(60, abs=0.5)
    # It begins at the other run's carcass fronts, and the drawers begin where it ends.
    assert strip[1] == pytest.approx(blind_box[3], abs=0.01)
    pans = [box(one) for one in group(drawing, "pans").iter(f"{SVG}polygon")]
    assert pans[0][1] == pytest.approx(strip[3], abs=0.01)
    (handle,) = [box(one) for one in group(drawing, "pans").iter(f"{SVG}polygon") if one.get("class") == "packing"]
    assert (handle[2] - handle[0]) / scale == pytest.approx(35, abs=0.5)
    backs = next(one for one in read(drawing).iter(f"{SVG}line") if one.get("class") == "accent-line")
    assert (float(backs.get("x1")) - blind_box[2]) / scale == pytest.approx(20, abs=0.5)


def test_a_door_swings_by_its_width_about_its_hinge_and_a_drawer_comes_straight_out():
    drawing = drawn()
    arc, drawer = [points(one) for one in read(drawing).iter(f"{SVG}polyline") if one.get("class") == "dashed"]
    scale = (drawer[1][0] - drawer[0][0]) / -560
    # The door is 400 wide and hangs on its left.
    hinge = (arc[-1][0], arc[0][1])
    assert all(math.dist(one, hinge) / scale == pytest.approx(400, abs=0.5) for one in arc)
    assert hinge[0] < arc[0][0] and arc[-1][1] > arc[0][1]


def test_what_does_not_open_is_said_and_not_only_coloured():
    drawing = drawn(None, [here.post(60.0), here.unit("pans", 600.0, Handing.LEFT)])
    said = " ".join(texts(drawing))
    assert "needs 95, has 60:" in said and "not open" in said
    assert any(one.get("class") == "alarm-hair" for one in read(drawing).iter(f"{SVG}polyline"))
    assert "needs 60, has 60" in " ".join(texts(drawn()))


@pytest.mark.parametrize("across_mm", [4990.0, 5001.0, 5005.0])
def test_the_right_hand_wall_is_turned_by_so_many_times_what_it_is_off_square(across_mm):
    drawing = drawn(None, None, here.triangle(3000.0, 4000.0, across_mm))
    (words,) = [one for one in texts(drawing) if one.startswith("Drawn")]
    factor = int(words.split()[1])
    top, right = walls(drawing)
    assert top[1] == top[3] and top[2:] == right[:2]
    off = (across_mm**2 - 25e6) / 24e6
    # An open corner's wall goes away from the room, to the right.
    assert (right[2] - right[0]) / (right[3] - right[1]) == pytest.approx(off * factor, rel=0.01)


def test_a_square_corner_is_drawn_square_and_no_factor_is_stated():
    drawing = drawn(None, None, here.triangle(3000.0, 4000.0, 5000.0))
    _, right = walls(drawing)
    assert right[0] == right[2]


def test_the_triangle_shows_its_sides_its_angle_and_the_far_ends():
    drawing = drawn(None, None, here.triangle(3000.0, 4000.0, 4990.0))
    assert {"3000", "4000", "4990", "89.76°"} <= set(texts(drawing))
    # 4000 and 3000 times 0.0041625.
    said = " ".join(texts(drawing))
    assert "At 4000 along Window run: +16.7," in said and "At 3000 along Side run: +12.5," in said
    for words in ("89.76 degrees", "3000", "4000", "across 4990", "60 or more and is 60", "16.7", "Set it 35 off the wall"):
        assert words in drawing.alt


def test_where_nobody_measured_it_shows_what_to_measure():
    drawing = drawn()
    assert {"1", "2", "3", "Three sides to measure"} <= set(texts(drawing))
    assert "Not measured" in drawing.alt


def test_a_corner_with_nothing_in_it_still_shows_its_triangle():
    drawing = drawn([filler(20.0)], [here.post(60.0)], here.triangle(3000.0, 4000.0, 5000.0))
    assert "5000" in texts(drawing)


CASES = {
    "usual": ((), {}),
    "tight": (([blind(), filler(5.0)], [here.post(40.0), here.unit("pans", 300.0, Handing.LEFT)]), {}),
    "dead": (([here.drawers("d", 800.0), here.post(60.0, "left-post")], [here.post(60.0), here.unit("c", 900.0, Handing.PAIR)]), {"left_at": EndsAt.OTHER_FRONTS}),
    "narrow": (([here.drawers(f"a-drawer-unit-with-a-long-name-{i}", 200.0) for i in range(8)], [here.post(60.0), here.drawers("p", 150.0)]), {}),
}  # fmt: skip


@pytest.mark.parametrize("name", list(CASES))
@pytest.mark.parametrize("measured", [(), (here.triangle(600.0, 5200.0, 5240.0),)])
def test_no_text_is_too_small_runs_off_the_paper_or_stands_on_another(name, measured):
    items, more = CASES[name]
    drawing = drawn(*(items or (None, None)), *measured, **more)
    boxes = []
    for one in read(drawing).iter(f"{SVG}text"):
        size_mm, x_mm, y_mm = (float(one.get(key)) for key in ("font-size", "x", "y"))
        width_mm = text_width_mm(one.text, size_mm, one.get("font-weight") == "700")
        left_mm = x_mm - {"start": 0.0, "middle": width_mm / 2, "end": width_mm}[one.get("text-anchor", "start")]
        assert size_mm >= SMALL_MM
        assert left_mm >= 0 and left_mm + width_mm <= drawing.width_mm, one.text
        assert size_mm * 0.6 <= y_mm <= drawing.height_mm, one.text
        boxes.append((left_mm, y_mm - size_mm * 0.65, left_mm + width_mm, y_mm, one.text))
    for i, one in enumerate(boxes):
        for other in boxes[i + 1 :]:
            assert one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1] or other[3] <= one[1], (one, other)
