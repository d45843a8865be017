"""Bad input to setting out, from the job document to the parts: each is a finding that says where, what, by how much and
what to do, or an error at the door; never a number clamped in silence."""

import json

import pytest
from odd_jobs import payload, typed

from oddleg.api.pack import canonical, drawn
from oddleg.charts import charts
from oddleg.documents import load_job
from oddleg.documents.payload import PayloadError, entry_of, read_payload
from oddleg.documents.strict_json import DocumentError
from oddleg.plan import plan
from oddleg.plan.parts import parts
from oddleg.plan.wall_stations import wall_station_id

STANDING = ("floor", "batten", "worktop")
PLACES = (0, 600, 1200, 1800, 2400, 3000)


def unit(id, width_mm, **more):
    return {"made_as": "carcass", "id": id, "name": id, "width_mm": width_mm, "height_mm": 720, "depth_mm": 560, **more}


def hung(id, width_mm):
    return unit(id, width_mm, storey="wall")


def filler(id="strip", least_mm=20, greatest_mm=100):
    return {"made_as": "filler", "id": id, "name": id, "width_mm": 50, "least_mm": least_mm, "greatest_mm": greatest_mm}


def document(*items, other=None, **run):
    """One run between two walls 3000 apart as drawn, along the window wall; perhaps another beside it."""
    walled = {"left_end": {"at": "wall"}, "right_end": {"at": "wall"}, "opening_mm": 3000, "void_mm": 12}
    sink = {"id": "sink-run", "name": "Sink run", "x_mm": 0, "y_mm": 0, "bearing_deg": 0, "wall": "north", "items": list(items)}
    corners = [{"x_mm": x, "y_mm": y} for x, y in ((0, 0), (3000, 0), (3000, 3000))]
    room = {
        "id": "kitchen", "name": "Kitchen", "corner": "left of the window", "worktop": {"thickness_mm": 30}, "bench_marks": [],
        "walls": [{"id": id, "name": f"{id} wall", "points": corners[at : at + 2]} for at, id in enumerate(("north", "east"))],
        "runs": [{**sink, **walled, **run}, *([other] if other else [])],
    }  # fmt: skip
    return {"format": 1, "id": "hall", "title": "Hall kitchen", "place": "", "client": "", "time_zone": "Europe/London",
            "base_carcass_height_mm": 720, "lasers": [], "instruments": [], "rooms": [room]}  # fmt: skip


def shown(of_document, *sent):
    """The parts as a phone gets them, drawings and all."""
    job = load_job(of_document)
    entries = [entry_of(f"e{place:03}", place, "Ned", read_payload(json.dumps(one).encode())) for place, one in enumerate(sent, 1)]
    made = plan(job, entries, charts())
    found = parts(made, 1)
    canonical([found, drawn(made)])
    return found


def findings(of_parts):
    return of_parts["findings"]["findings"]


def rules(of_parts):
    return [one["rule"] for one in findings(of_parts)]


def told(of_parts, rule, severity="stop"):
    """The one finding of this rule: it says where, what is wrong, and what to do."""
    (one,) = [each for each in findings(of_parts) if each["rule"] == rule]
    assert one["severity"] == severity and one["place"] and one["wrong"] and one["cure"] and one["source"]
    return one


def rod(of_parts):
    return of_parts["run/sink-run"]["rod"]


def marks(of_parts, row="base"):
    return [one["from_left"]["text"] for one in rod(of_parts)["marks"] if one["row"] == row]


def refused(of_document):
    with pytest.raises(DocumentError) as error:
        load_job(of_document)
    return error.value.errors


def put_aside(sent):
    with pytest.raises(PayloadError) as error:
        read_payload(json.dumps(sent).encode())
    return str(error.value)


def line(id="string", stands_off_mm=100, run="sink-run"):
    return payload("wall_line", id, {"name": f"{id} one", "run": run, "square_to": None, "stands_off": typed(stands_off_mm)})


def read(x_mm, distance_mm, height="batten", line="string", station=None):
    """The station is that of the place unless it says so."""
    run = load_job(document()).rooms[0].runs[0]
    data = {"line": line, "height": height, "side": None, "name": f"spot {x_mm}", "x_mm": x_mm}
    return payload("wall_reading", station or wall_station_id(run, x_mm), data, distance_mm)


def read_all(distance_mm, places=PLACES, heights=STANDING):
    """`distance_mm`: of a place and a height."""
    return [read(x, distance_mm(x, height), height) for x in places for height in heights]


FIVE = [unit(f"unit-{n}", 600) for n in range(1, 6)]
WITH_BATTEN = document(*FIVE, batten={"thickness_mm": 5})


# What is in the run.


def test_an_empty_run_has_its_two_plumbed_marks_and_says_that_it_is_empty():
    found = shown(document())
    assert told(found, "rod.empty", "note")["place"] == "Sink run"
    assert [(one["name"], one["from_left"]["text"]) for one in rod(found)["marks"]] == [("zero mark", "0"), ("end mark", "3000")]
    assert rod(found)["fillers"] == [] and found["run/sink-run"]["batten"] is None


def test_an_empty_run_that_nobody_measured_has_no_end_mark():
    found = shown(document(opening_mm=None))
    assert told(found, "rod.no_opening", "warn")["cure"].startswith("Measure the opening")
    assert [one["name"] for one in rod(found)["marks"]] == ["zero mark"]


MACHINE = {"id": "machine", "name": "machine", "seat": "under_top", "least_height_mm": 820}
ONE_ITEM = [
    (unit("only", 800), 800),
    ({"made_as": "bay", "id": "only", "name": "only", "width_mm": 600, "depth_mm": 560, "appliance": MACHINE}, 600),
    ({"made_as": "panel", "id": "only", "name": "only", "thickness_mm": 18, "depth_mm": 580, "allowance_mm": 1.5}, 18 + 1.5),
    (filler("only"), 100),
    ({"made_as": "post", "id": "only", "name": "only", "width_mm": 65}, 65),
    ({"made_as": "open_unit", "id": "only", "name": "only", "width_mm": 300, "height_mm": 720, "depth_mm": 560, "frame_thickness_mm": 20, "frame_gap_mm": 2}, 20 + 2 + 300 + 2 + 20),
    ({"made_as": "gap", "id": "only", "name": "only", "width_mm": 45}, 45),
]


@pytest.mark.parametrize(("item", "takes_mm"), ONE_ITEM, ids=lambda one: one["made_as"] if isinstance(one, dict) else "")
def test_one_item_leaves_the_rest_open_and_says_how_much(item, takes_mm):
    """FP: 3000 less what it takes on the rod; the filler takes its greatest."""
    found = shown(document(item))
    one = told(found, "rod.left_over", "warn")
    assert one["amount"]["mm"] == rod(found)["left_over"]["mm"] == pytest.approx(3000 - takes_mm)
    assert f"leaves {one['amount']['text']} open at the end mark" in one["wrong"] and one["amount"]["text"] in one["cure"]


def test_one_item_as_long_as_the_opening_leaves_nothing_to_say():
    assert not [rule for rule in rules(shown(document(unit("only", 3000)))) if rule in ("rod.left_over", "rod.too_long")]


# What it is set out from.


@pytest.mark.parametrize(("x_mm", "out_mm", "where"), [(-40, 40, "40 to the left of the zero mark"), (3400, 400, "400 beyond the end mark")])
@pytest.mark.parametrize(("anchor", "item", "row"), [("anchor", unit("only", 800), "base"), ("wall_anchor", hung("only", 800), "wall")])
def test_an_anchor_outside_the_run_is_a_stop_and_the_row_stays_at_the_zero(anchor, item, row, x_mm, out_mm, where):
    found = shown(document(item, **{anchor: {"on": "mark", "x_mm": x_mm, "item": "only"}}))
    one = told(found, "rod.anchor")
    assert (one["amount"]["mm"], one["place"]) == (out_mm, "Sink run") and where in one["wrong"]
    assert "is set out from the zero mark" in one["wrong"] and "Move the anchor into the run" in one["cure"]
    assert "0" in marks(found, row) + marks(found) and "800" in marks(found, row)
    assert "cannot be used" in rod(found)["anchor_words"]


def test_an_anchor_inside_that_puts_its_item_past_the_end_says_how_far_to_move_it():
    """FP: centre of 800 on 2800: to 3200, 200 past 3000; with the filler there at its least, 20 more."""
    found = shown(document(filler("left", 20, 4000), unit("sink", 800), filler("right", 20, 4000), anchor={"on": "mark", "x_mm": 2800, "item": "sink"}))
    one = told(found, "rod.too_long")
    assert one["amount"]["mm"] == pytest.approx(200) and "220 are missing" in one["wrong"]
    assert one["cure"] == "Move the anchor 220 to the left: the fillers there can give it."


def test_an_anchor_on_a_feature_that_the_run_has_not_is_an_error_at_its_field():
    assert "rooms.0.runs.0.anchor.feature" in refused(document(unit("sink", 800), anchor={"on": "feature", "feature": "window"}))


# What goes in.


def test_items_that_exceed_the_opening_stay_as_wide_as_they_are_and_it_is_said_by_how_much():
    """FP: 1000 + 1000 + 1012.5 - 3000 = 12.5."""
    found = shown(document(unit("a", 1000), unit("b", 1000), unit("c", 1012.5)))
    one = told(found, "rod.too_long")
    assert one["amount"]["text"] == "12.5" and "12.5 longer than the room for it" in one["wrong"] and one["cure"].startswith("Take 12.5 out")
    assert marks(found) == ["0", "1000", "2000", "3000", "3012.5"], "nothing is squeezed"
    assert rod(found)["left_over"]["mm"] == pytest.approx(-12.5)


def test_with_a_filler_in_it_what_is_missing_counts_its_least():
    """FP: 3010 in 3000: 10 too long; the filler wants 20 more."""
    found = shown(document(unit("a", 3010), filler(least_mm=20)))
    one = told(found, "rod.too_long")
    assert one["amount"]["mm"] == 10 and "With its fillers at their least 30 are missing" in one["wrong"] and one["cure"].startswith("Take 30 out")


def test_wall_units_that_exceed_the_opening_are_told_beside_what_stands():
    found = shown(document(unit("a", 3000), hung("b", 3020)))
    assert told(found, "rod.too_long")["wrong"] == "What hangs is 20 longer than the room for it."


def test_the_narrowest_measured_opening_is_what_they_exceed():
    """FP: 3000 of units; measured 3004 just over the floor and 2996 at worktop height."""
    widths = [payload("opening", "sink-run", {"height": height, "depth": "back"}, mm) for height, mm in (("floor", 3004), ("worktop", 2996))]
    assert told(shown(document(*FIVE), *widths), "rod.too_long")["amount"]["mm"] == 3000 - 2996


def test_a_filler_below_its_least_is_shown_as_narrow_as_it_comes():
    """FP: 3000 - 2990 = 10; its least is 20."""
    found = shown(document(unit("a", 1000), unit("b", 1990), filler(least_mm=20)))
    one = told(found, "rod.filler_narrow", "warn")
    assert one["wrong"] == "strip would be 10, its least is 20: 10 missing." and one["amount"]["mm"] == 20 - 10 and one["cure"].startswith("Take 10 out")
    assert rod(found)["fillers"][0]["width"]["text"] == "10"


def test_a_filler_whose_limits_are_swapped_is_an_error_at_its_field():
    assert "rooms.0.runs.0.items.0.least_mm" in refused(document(filler(least_mm=100, greatest_mm=20)))


# What was read at the wall.


def wavy(x_mm, height):
    return 100 + x_mm % 7 - 3 + STANDING.index(height)


def test_readings_out_of_order_give_the_same_plan():
    sent = read_all(wavy)
    one, other = (shown(WITH_BATTEN, line(), *each) for each in (sent, sent[::-1]))
    spots, others = ([spot["out"] for spot in each["walls/kitchen"]["runs"][0]["spots"]] for each in (one, other))
    assert spots == others and None not in spots
    assert one["run/sink-run"] == other["run/sink-run"] and findings(one) == findings(other)


def test_readings_sent_twice_alike_say_nothing_new():
    sent = read_all(wavy)
    assert rules(shown(WITH_BATTEN, line(), *sent, *sent)) == rules(shown(WITH_BATTEN, line(), *sent))


def test_two_readings_of_one_spot_that_differ_leave_it_open():
    """FP: 104 - 100 = 4, more than 2."""
    found = shown(WITH_BATTEN, line(), *read_all(lambda x, height: 100), read(600, 104))
    one = told(found, "wall.repeats_differ")
    assert (one["amount"]["mm"], one["place"]) == (4, "spot 600 at batten height, string one") and "100 and 104" in one["wrong"]
    assert "undo the reading that is wrong" in one["cure"]
    assert told(found, "wall.not_read", "warn")["wrong"].startswith(
        "The wall is not read at batten height at spot 600 (600 from the zero): what it does from 0 to 1200 nobody knows."
    )


def test_one_station_read_at_two_places_counts_at_neither():
    found = shown(WITH_BATTEN, line(), read(0, 100), read(600, 100, station="own"), read(700, 100, station="own"))
    assert "600 and 700: none of them counts" in told(found, "wall.two_places")["wrong"]
    assert [one["station"] for one in found["walls/kitchen"]["runs"][0]["spots"] if one["out"]] == [read(0, 100)["target"]]


def test_a_line_that_nothing_ties_to_the_first_does_not_count():
    sent = [line(), *read_all(lambda x, height: 100, (0, 600)), line("cord", 250), *[read(x, 250, line="cord") for x in (2400, 3000)]]
    found = shown(WITH_BATTEN, *sent)
    assert told(found, "wall.not_joined", "warn")["place"] == "cord one, Sink run"
    assert {one["station"] for one in found["walls/kitchen"]["runs"][0]["spots"] if one["out"]} == {read(x, 1)["target"] for x in (0, 600)}


def test_stations_missing_over_part_of_a_run_leave_that_part_unknown():
    """Read up to 1200 of 3000: no packing beyond half a spacing from there, and each place to read is named."""
    found = shown(WITH_BATTEN, line(), *read_all(lambda x, height: 100, (0, 600, 1200)))
    one = told(found, "wall.not_read", "warn")
    assert one["amount"]["mm"] == 3000 - 1200 and "from spot 1200 to A " in one["wrong"] and one["cure"].startswith("Read A ")
    fixings = found["run/sink-run"]["batten"]["fixings"]
    known = [each["at"]["mm"] for each in fixings if each["packing"] is not None]
    assert known == [each["at"]["mm"] for each in fixings if each["at"]["mm"] <= 1200 + 600 / 2] and len(known) < len(fixings)
    assert "no packing is known there" in told(found, "batten.unread", "warn")["wrong"]


def test_places_read_past_the_end_of_a_run_that_was_shortened_ask_for_nothing_between_them():
    """Once there were units up to 3000; now one of 600 is left, and nothing is to be read between 1200 and 3000."""
    found = shown(document(unit("only", 600), opening_mm=600), line(), *read_all(lambda x, height: 100, (0, 600, 1200, 3000)))
    assert not [rule for rule in rules(found) if rule.startswith("wall.")]


def test_a_line_moved_half_way_stops_and_nothing_beyond_the_jump_is_used():
    """The string moved out by 9 after 1200; the first place, read again at the end, shows it."""
    sent = [line(), *read_all(lambda x, height: 100 + 9 * (x > 1200)), read(0, 109)]
    found = shown(WITH_BATTEN, *sent)
    one = told(found, "wall.line_moved")
    assert one["amount"]["mm"] == 9 and "moved between spot 1200 at worktop height and spot 1800 just over the floor" in one["wrong"]
    assert one["cure"].startswith("Put up a new line")
    assert all(each["packing"] is None for each in found["run/sink-run"]["batten"]["fixings"] if each["at"]["mm"] > 1200 + 300)


def test_a_jump_that_a_moved_line_would_make_is_asked_about_before_it_is_believed():
    found = shown(WITH_BATTEN, line(), *read_all(lambda x, height: 100 + 10 * (x > 1200)))
    one = told(found, "wall.jump", "warn")
    assert (one["amount"]["mm"], one["place"]) == (-10, "spot 1200 to spot 1800, Sink run")
    assert "once more from where the line is now" in one["cure"]


# Corners.


HOB_RUN = {"id": "hob-run", "name": "Hob run", "x_mm": 3000, "y_mm": 572, "bearing_deg": 90, "wall": "east", "void_mm": 12,
           "items": [unit("hob", 600)], "left_end": {"at": "other_fronts", "run": "sink-run"}}  # fmt: skip
CORNER = document(*FIVE[:4], filler(greatest_mm=1000), other=HOB_RUN, right_end={"at": "other_backs", "run": "hob-run"})


def triangle(along_mm, other_along_mm, across_mm):
    sides = {"along": typed(along_mm), "other_along": typed(other_along_mm), "across": typed(across_mm)}
    return payload("corner_triangle", "sink-run", {"other_run": "hob-run", **sides})


@pytest.mark.parametrize(
    ("sides", "side", "reach"),
    [((3000, 4000, 7000), "across the corner", "3000 and 4000 reach 7000"), ((600, 800, 1500), "across the corner", "600 and 800 reach 1400"),
     ((5000, 1000, 1200), "along this wall", "1000 and 1200 reach 2200"), ((1000, 5000, 1200), "along the other wall", "1000 and 1200 reach 2200")],
)  # fmt: skip
def test_three_sides_that_cannot_close_are_refused_at_the_side_that_is_too_long(sides, side, reach):
    words = put_aside(triangle(*sides))
    assert words.startswith("The side ") and side in words.split(":")[0], words
    assert f"{reach} mm together" in words and "Measure all three again" in words


def test_sides_that_close_far_from_the_drawing_are_a_stop_and_the_corner_stays_as_drawn():
    """FP, law of cosines: acos((3000² + 4000² - 6000²) / (2 x 3000 x 4000)) = 117.28 degrees."""
    found = shown(CORNER, triangle(3000, 4000, 6000))
    one = told(found, "corner.unlikely")
    assert "117.28 degrees; drawn is 90" in one["wrong"] and "measure all three again" in one["cure"]
    assert told(found, "corner.guess", "warn")
    assert marks(found)[-1] == "2988", "the side run's void of 12 as drawn: nothing of the triangle is in it"


# Heights.


WINDOW = {"id": "window", "name": "window", "kind": "window", "left_mm": 600, "right_mm": 1800}


@pytest.mark.parametrize(
    ("changed", "path"),
    [
        (document(features=[{**WINDOW, "bottom_mm": 2100, "top_mm": 1000}]), "features.0.bottom_mm"),
        (document(features=[{**WINDOW, "left_mm": 1800, "right_mm": 600}]), "features.0.left_mm"),
        (document(unit("hob", 600, appliances=[{**MACHINE, "least_height_mm": 905, "greatest_height_mm": 820}])), "items.0.appliances.0.least_height_mm"),
        (document(unit("sink", 800, legs={"least_mm": 180, "greatest_mm": 100})), "items.0.legs.least_mm"),
        (document(unit("hood", 600, storey="wall", appliances=[{**MACHINE, "seat": "over_top", "clear_below_mm": -700}])), "items.0.appliances.0.clear_below_mm"),
        (document(unit("hood", 600, storey="wall", appliances=[{**MACHINE, "seat": "over_top", "clear_below_mm": 65000}])), "items.0.appliances.0.clear_below_mm"),
    ],
)
def test_heights_swapped_or_impossible_are_errors_at_their_field(changed, path):
    assert list(refused(changed)) == [f"rooms.0.runs.0.{path}"]


def seen_window(**more):
    values = {"left": typed(600), "right": typed(1800), "bottom": typed(1000), "top": typed(2100), "stands_out": None, **more}
    return payload("feature", "window", {"run": "sink-run", "name": "window", "what": "window", "above": "bench_mark", **values})


def test_a_window_measured_with_its_heights_or_sides_swapped_is_put_aside():
    assert "two heights are swapped" in put_aside(seen_window(bottom=typed(2100), top=typed(1000)))
    assert "left and right are swapped" in put_aside(seen_window(left=typed(1800), right=typed(600)))


def test_a_hood_that_hangs_lower_than_the_sheets_say_is_a_stop():
    """FP: 500 clear over the top; the sheets of hob and hood want 650 and 700: 700 - 500 short."""
    hob = unit("hob-unit", 3000, appliances=[{**MACHINE, "id": "hob", "name": "hob", "seat": "in_top", "least_height_mm": 50, "clear_above_mm": 650}])
    hood = {"id": "hood", "name": "hood", "seat": "over_top", "least_height_mm": 300, "clear_below_mm": 700}
    of_document = document(hob, {**hung("hood-unit", 3000), "appliances": [hood]})
    of_document["rooms"][0]["wall_units"] = {"tops_in_line": False, "clear_over_top_mm": 500}
    found = shown(of_document, payload("decision", "kitchen", {"name": "datum", "choice": "own"}, 870, "a1b2c3"))
    one = told(found, "hood.too_low")
    assert one["amount"]["mm"] == 700 - 500 and "500 are clear over the worktop; 700 are wanted" in one["wrong"]


# Ends.


def test_ends_that_name_a_run_that_does_not_face_them_are_errors_at_their_field():
    both_left = {**HOB_RUN, "left_end": {"at": "other_fronts", "run": "sink-run"}}
    assert "rooms.0.runs.0.left_end.run" in refused(document(other=both_left, left_end={"at": "other_backs", "run": "hob-run"}))
    both_in = {**HOB_RUN, "left_end": {"at": "other_backs", "run": "sink-run"}}
    assert "rooms.0.runs.0.right_end.run" in refused(document(other=both_in, right_end={"at": "other_backs", "run": "hob-run"}))


def test_a_side_wall_in_front_of_its_mark_is_a_stop_that_says_how_far_to_plumb_it_again():
    gap = payload("end_gap", "sink-run", {"side": "left", "height": "floor", "depth": "back"}, -8)
    one = told(shown(document(*FIVE), gap), "rod.mark_not_plumbed")
    assert one["amount"]["mm"] == 8 and "Plumb the zero mark again 8 further right" in one["cure"]


def test_an_opening_hardly_wider_than_a_hand_is_taken_as_measured():
    """FP: 3000 of units in a measured 50."""
    found = shown(document(*FIVE), payload("opening", "sink-run", {"height": "floor", "depth": "back"}, 50))
    assert told(found, "rod.too_long")["amount"]["mm"] == 3000 - 50 and "50" in marks(found)


def test_a_reading_out_by_metres_does_not_turn_the_line_of_backs_but_stops():
    """FP: the last of six places comes out 500 where it is 100: over its chord to the fifth the line would turn by
    400 in 600, but it lies on the highest points: from 0 at 0 to 400 at 3000, 133.3 per metre."""
    found = shown(WITH_BATTEN, line(stands_off_mm=600), *read_all(lambda x, height: 600 - 400 * (x == 3000)))
    one = told(found, "front_line.too_steep")
    assert one["amount"]["text"] == "133.3" and one["place"] == "Sink run" and "left as drawn" in one["wrong"]
    assert "read them again" in one["cure"] and marks(found)[-1] == "3000"
    assert found["run/sink-run"]["lines"][0]["least_void"]["text"] == "12", "the void is kept all the same"


def test_a_wall_that_runs_8_in_a_hundred_off_its_line_is_followed():
    found = shown(WITH_BATTEN, line(stands_off_mm=600), *read_all(lambda x, height: 600 - x / 12.5))
    assert "front_line.too_steep" not in rules(found) and found["run/sink-run"]["lines"][0]["waste"]["text"] == "0"
