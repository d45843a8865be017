"""A unit's legs as on the bench and as fitted. The turn is first principles: a carcass on its top with its front
towards you shows its right-hand side on your left."""

import xml.etree.ElementTree as ET

import pytest
import sample_plan as sample
import sample_room as room_sample

from oddleg.charts import charts
from oddleg.drawings import bench_drawing, fitted_drawing, svg
from oddleg.job import DatumDecision, Entry, Legs, Reading, SetUp, Stage, Way
from oddleg.plan import plan
from oddleg.sheets import SheetSource, sheet_pdf

SVG = "{http://www.w3.org/2000/svg}"


def legs_of(drawing):
    """Leg id to (x, y, texts) of its height on the paper."""
    found = {}
    for group in ET.fromstring(svg(drawing, "d")).iter(f"{SVG}g"):
        if group.get("class") == "leg":
            words = [one.text for one in group.iter(f"{SVG}text")]
            figure = next(one for one in group.iter(f"{SVG}text") if one.get("class") == "figure")
            found[group.get("data-leg")] = (float(figure.get("x")), float(figure.get("y")), words)
    return found


def test_on_the_bench_right_legs_are_on_your_left_and_the_front_is_nearest():
    legs = legs_of(bench_drawing(sample.unit(1, {"BL": 153, "BR": 155, "FL": 153, "FR": 156}, 153)))
    assert legs["FR"][0] < legs["FL"][0] and legs["BR"][0] < legs["BL"][0]
    assert legs["FR"][1] > legs["BR"][1]
    assert legs["FR"][2] == ["RIGHT front", "156", "preset +3"]
    assert legs["BL"][2] == ["LEFT back", "153", "preset"]


def test_as_fitted_left_is_left_and_the_wall_is_at_the_top():
    legs = legs_of(fitted_drawing(sample.unit(1, {"BL": 153, "BR": 155, "FL": 153, "FR": 156}, 153)))
    assert legs["FL"][0] < legs["FR"][0] and legs["BL"][0] < legs["BR"][0]
    assert legs["BL"][1] < legs["FL"][1]


def test_the_two_views_are_the_same_box_turned_over_left_to_right():
    unit = sample.units()[1]
    bench, fitted = legs_of(bench_drawing(unit)), legs_of(fitted_drawing(unit))
    assert len(bench) == 6
    for id, (x_mm, y_mm, words) in bench.items():
        assert fitted[id] == (pytest.approx(90.0 - x_mm), pytest.approx(y_mm), words)


def test_the_front_edge_is_the_thick_one_at_the_bottom():
    root = ET.fromstring(svg(bench_drawing(sample.units()[0]), "d"))
    edge = next(one for one in root.iter(f"{SVG}line") if one.get("class") == "front-edge")
    assert float(edge.get("y1")) > max(y for _, y, _ in legs_of(bench_drawing(sample.units()[0])).values())


def test_figures_can_be_read_at_arms_length():
    # Letters of 1/200 of the distance read with ease (from memory, a rule for signs): 700 / 200 = 3.5 mm capitals.
    for unit in sample.units():
        for drawing in (bench_drawing(unit), fitted_drawing(unit)):
            root = ET.fromstring(svg(drawing, "d"))
            sizes = [float(one.get("font-size")) for one in root.iter(f"{SVG}text") if one.get("class") == "figure"]
            assert all(size * 0.668 >= 3.5 for size in sizes)


def test_a_leg_already_set_says_what_to_wind():
    legs = legs_of(bench_drawing(sample.units()[2]))
    assert legs["FL"][2][2] == "set 158: wind out 2"


def test_the_words_give_every_leg_in_the_order_of_the_drawing():
    drawing = bench_drawing(sample.units()[0])
    assert drawing.alt.endswith("RIGHT back 155; LEFT back 153; RIGHT front 155; LEFT front 153. Preset 153 mm.")


@pytest.mark.parametrize(
    ("count", "across"), [(5, ["RIGHT", "MIDDLE", "LEFT"]), (8, ["RIGHT", "MID RIGHT", "MID LEFT", "LEFT"])]
)
def test_five_and_eight_legs_are_drawn_and_printed_each_with_its_own_height(count, across):
    """A floor that falls 3 mm over each 100 to the right: no two legs of a row are alike."""
    unit = room_sample.carcass("wide", 1200.0, legs=Legs(100.0, 180.0, count=count))
    room = room_sample.room(room_sample.run(unit))
    bodies = [SetUp("one", "one", "room", Stage.STRIPPED), Reading("one", "mark", Way.DOWN, 1200.0, "nail", None, None)]
    bodies += [
        Reading("one", f"s{x_mm}-{y_mm}", Way.DOWN, 1200.0 + 0.03 * x_mm, f"s{x_mm}", float(x_mm), float(y_mm))
        for x_mm in (40, 1160)
        for y_mm in (40, 500)
    ]
    bodies.append(DatumDecision("room", "wanted_height", 850.0, "aaaaaa"))
    log = [Entry(f"e{i}", i, "Ned", "2026-11-23T08:40:00Z", body) for i, body in enumerate(bodies)]
    made = plan(room_sample.job(room), log, charts())
    (legs,) = made.rooms[0].units
    drawn = legs_of(bench_drawing(legs))
    assert len(drawn) == count
    front = sorted((drawn[id] for id in drawn if id.startswith("F")), key=lambda one: one[0])
    assert [words[0] for _, _, words in front] == [f"{side} front" for side in across]
    # The leg nearest the right-hand side of the unit stands lowest, so it is the longest and on your left.
    heights = [int(words[1]) for _, _, words in front]
    assert heights == sorted(heights, reverse=True) and len(set(heights)) == len(heights)
    assert sheet_pdf(made, "legs-room", SheetSource(1, "revision 1", "25 November 2026")).startswith(b"%PDF")
