"""The fields that a run is set out from: what clashes is said at its field, and what is left out gets its default."""

import copy

import pytest

from oddleg.documents.job_file import dump_job, load_job
from oddleg.documents.strict_json import DocumentError
from oddleg.job import AnchorOn, Batten, EndsAt, LineIs, RunEnd, Tolerances, Worktop

SINK = {"made_as": "carcass", "id": "sink", "name": "sink base", "width_mm": 800, "height_mm": 720, "depth_mm": 560}
DISHES = {**SINK, "id": "dishes", "name": "dishes", "storey": "wall"}
WINDOW = {"id": "window", "name": "window", "kind": "window", "left_mm": 1400, "right_mm": 2600, "bottom_mm": 1000, "top_mm": 2100}


def document(sink=None, hob=None):
    """A room with an L: the sink run along the first wall, the hob run at its right."""
    return copy.deepcopy({
        "format": 1, "id": "barn", "title": "Barn", "place": "", "client": "", "time_zone": "Europe/London", "base_carcass_height_mm": 720,
        "lasers": [], "instruments": [],
        "rooms": [{
            "id": "kitchen", "name": "Kitchen", "corner": "left of the window", "worktop": {"thickness_mm": 30}, "bench_marks": [],
            "walls": [{"id": "wall", "name": "wall", "points": [{"x_mm": 0, "y_mm": 0}, {"x_mm": 4000, "y_mm": 0}, {"x_mm": 4000, "y_mm": 3000}]}],
            "runs": [
                {"id": "sink-run", "name": "Sink run", "x_mm": 0, "y_mm": 0, "bearing_deg": 0, "wall": "wall", "items": [SINK, DISHES], "features": [WINDOW], **(sink or {})},
                {"id": "hob-run", "name": "Hob run", "x_mm": 4000, "y_mm": 0, "bearing_deg": 90, "wall": "wall", **(hob or {})},
            ],
        }],
    })


def errors_of(sink=None, hob=None):
    with pytest.raises(DocumentError) as refused:
        load_job(document(sink, hob))
    return {path.removeprefix("rooms.0.runs."): " ".join(texts) for path, texts in refused.value.errors.items()}


def test_what_is_left_out_gets_its_default_and_is_written_out():
    job = load_job(document())
    run = job.rooms[0].runs[0]
    assert (run.left_end, run.opening_mm, run.anchor, run.batten) == (RunEnd(EndsAt.OPEN), None, None, None)
    assert (job.tolerances, job.rooms[0].worktop) == (Tolerances(), Worktop(thickness_mm=30))
    written = dump_job(job)
    assert written["packs_mm"] == [1, 2, 3, 5, 6, 10]
    assert written["rooms"][0]["runs"][0]["front_line"] == {"line": "free", "from_x_mm": None, "to_x_mm": None, "run": None, "feature": None}
    assert written["tolerances"]["wall_spacing_mm"] == 600


def test_a_corner_an_anchor_and_a_batten_come_in():
    job = load_job(document(
        {"right_end": {"at": "other_backs", "run": "hob-run"}, "anchor": {"on": "feature", "feature": "window", "item": "sink"}, "batten": {}},
        {"left_end": {"at": "other_fronts", "run": "sink-run"}, "front_line": {"line": "square", "run": "sink-run"}},
    ))
    sink, hob = job.rooms[0].runs
    assert sink.right_end == RunEnd(EndsAt.OTHER_BACKS, "hob-run")
    assert (sink.anchor.on, sink.batten, hob.front_line.line) == (AnchorOn.FEATURE, Batten(), LineIs.SQUARE)


WRONG = [
    ({"left_end": {"at": "other_backs"}}, "0.left_end.run", "names the run"),
    ({"left_end": {"at": "wall", "run": "hob-run"}}, "0.left_end.run", "Only an end in a corner"),
    ({"right_end": {"at": "other_backs", "run": "bar"}}, "0.right_end.run", "no run bar in this room; it has hob-run, sink-run"),
    ({"right_end": {"at": "other_backs", "run": "sink-run"}}, "0.right_end.run", "cannot meet itself"),
    ({"features": [{**WINDOW, "left_mm": 2600, "right_mm": 1400}]}, "0.features.0.left_mm", "wrong way round"),
    ({"features": [{**WINDOW, "bottom_mm": 2100, "top_mm": 1000}]}, "0.features.0.bottom_mm", "wrong way round"),
    ({"features": [{**WINDOW, "kind": "skylight"}]}, "0.features.0.kind", "window, sill, door"),
    ({"features": [{**WINDOW, "id": "sink"}]}, "0.items.0.id", "unique"),
    ({"anchor": {"on": "feature"}}, "0.anchor.feature", "names it"),
    ({"anchor": {"on": "feature", "feature": "door"}}, "0.anchor.feature", "no feature door in this run; it has window"),
    ({"anchor": {"feature": "window"}}, "0.anchor.feature", "Only an anchor on a feature"),
    ({"anchor": {"on": "mark"}}, "0.anchor.x_mm", "where the mark is"),
    ({"anchor": {"x_mm": 1000}}, "0.anchor.x_mm", "Only an anchor on a mark"),
    ({"anchor": {"item": "hob"}}, "0.anchor.item", "no item hob in this run; it has dishes, sink"),
    ({"anchor": {"item": "dishes"}}, "0.anchor.item", "dishes hangs, so it is set out from wall_anchor"),
    ({"wall_anchor": {"item": "sink"}}, "0.wall_anchor.item", "sink base stands, so it is set out from anchor"),
    ({"anchor": {"item_offset_mm": 20}}, "0.anchor.item_offset_mm", "no item is named"),
    ({"line_up": [{"item": "hob", "item_edge": "left", "on": "window", "on_edge": "left"}]}, "0.line_up.0.item", "no item hob"),
    ({"line_up": [{"item": "sink", "item_edge": "left", "on": "door", "on_edge": "left"}]}, "0.line_up.0.on", "no item or feature door"),
    ({"line_up": [{"item": "sink", "item_edge": "left", "on": "sink", "on_edge": "right"}]}, "0.line_up.0.on", "with itself"),
    ({"front_line": {"line": "parallel", "from_x_mm": 0}}, "0.front_line.to_x_mm", "give both"),
    ({"front_line": {"line": "parallel", "from_x_mm": 900, "to_x_mm": 900}}, "0.front_line.to_x_mm", "no direction"),
    ({"front_line": {"from_x_mm": 0}}, "0.front_line.from_x_mm", "Only a parallel line"),
    ({"front_line": {"line": "parallel"}}, "0.front_line.from_x_mm", "needs the feature"),
    ({"front_line": {"line": "parallel", "feature": "window", "to_x_mm": 900}}, "0.front_line.to_x_mm", "that one's edges"),
    ({"front_line": {"line": "parallel", "feature": "door"}}, "0.front_line.feature", "no feature door in this run; it has window"),
    ({"front_line": {"feature": "window"}}, "0.front_line.feature", "Only a parallel line"),
    ({"front_line": {"line": "square"}}, "0.front_line.run", "needs the run"),
    ({"front_line": {"run": "hob-run"}}, "0.front_line.run", "Only a square line"),
    ({"front_line": {"line": "square", "run": "bar"}}, "0.front_line.run", "no run bar"),
    ({"front_line": {"line": "square", "run": "sink-run"}}, "0.front_line.run", "let one of them be free"),
    ({"batten": {"end_mm": 500, "stock_mm": 1000}}, "0.batten.end_mm", "less than half"),
    ({"opening_mm": 2600, "batten": {"supports_mm": [400, 2700]}}, "0.batten", "2700 lies beyond"),
    ({"items": [SINK, {"made_as": "filler", "id": "f", "name": "strip", "width_mm": 20, "least_mm": 30, "greatest_mm": 80}]}, "0.items.1.width_mm", "strip is drawn 20 wide, and may be 30 to 80"),
    ({"batten": {"supports_mm": [400, 800, 400]}}, "0.batten.supports_mm", "twice"),
    ({"batten": {}, "wall": None}, "0.batten", "nothing to fix a batten to"),
    ({"batten": {"lies_in": "wall"}}, "0.batten.lies_in", "void, recess"),
    ({"opening_mm": 0}, "0.opening_mm", "allowed: 1 to 20000"),
    ({"items": [{**SINK, "blind_mm": 800}]}, "0.items.0.blind_mm", "less than its width, 800"),
    ({"items": [{**SINK, "plinth_cuts": [{"kind": "notch", "left_mm": 0, "width_mm": 100, "height_mm": 20, "up_mm": 20}]}]}, "0.items.0.plinth_cuts.0.up_mm", "top edge"),
    ({"items": [{**SINK, "plinth_cuts": [{"kind": "notch", "left_mm": 700, "width_mm": 101, "height_mm": 20}]}]}, "0.items.0.plinth_cuts", "right edge"),
    ({"items": [{**SINK, "front": {"moves": "slides"}}]}, "0.items.0.front.moves", "door, drawer, flap"),
    ({"cornice": {"overhang_mm": -1}}, "0.cornice.overhang_mm", "out of range"),
]


@pytest.mark.parametrize(("sink", "path", "words"), WRONG)
def test_each_wrong_field_is_said_where_it_stands(sink, path, words):
    errors = errors_of(sink)
    assert words in errors[path]
    assert all(text.endswith(".") for text in errors.values())


def test_only_one_run_goes_into_a_corner():
    errors = errors_of({"right_end": {"at": "other_backs", "run": "hob-run"}}, {"left_end": {"at": "other_backs", "run": "sink-run"}})
    assert "Both Sink run and Hob run go into the corner" in errors["0.right_end.run"]


def test_two_right_ends_cannot_meet():
    errors = errors_of({"right_end": {"at": "other_backs", "run": "hob-run"}}, {"right_end": {"at": "other_fronts", "run": "sink-run"}})
    assert "a right end meets a left end" in errors["0.right_end.run"]


def test_lines_square_to_each_other_in_a_ring_are_refused():
    errors = errors_of({"front_line": {"line": "square", "run": "hob-run"}}, {"front_line": {"line": "square", "run": "sink-run"}})
    assert set(errors) == {"0.front_line.run", "1.front_line.run"}
    assert "Sink run, Hob run" in errors["0.front_line.run"]


def test_a_packer_is_named_once_and_one_at_least_is_at_hand():
    for packs in ([], [5, 5]):
        with pytest.raises(DocumentError) as refused:
            load_job({**document(), "packs_mm": packs})
        assert list(refused.value.errors) == ["packs_mm"]


INTO_THE_CORNER = {"right_end": {"at": "other_backs", "run": "hob-run"}}


@pytest.mark.parametrize("bearing_deg", [0, 180, -180, 15, 340, 199])
def test_runs_that_do_not_turn_have_no_corner(bearing_deg):
    errors = errors_of(INTO_THE_CORNER, {"bearing_deg": bearing_deg})
    assert list(errors) == ["0.right_end.run"] and "they have no corner" in errors["0.right_end.run"]


@pytest.mark.parametrize(
    ("hob", "words"),
    [
        ({"x_mm": 1_000_000}, "meet 1000 m from the zero of Sink run"),
        ({"y_mm": -400_000}, "meet 400 m from the zero of Hob run"),
        # FP: it comes down at 30 degrees from 30 m over the line: 30 / tan 30 = 52 m to the right of its zero, at 56 m.
        ({"bearing_deg": 30, "y_mm": -30_000}, "meet 56 m from the zero of Sink run"),
    ],
)
def test_runs_whose_corner_lies_nowhere_near_say_how_far_off(hob, words):
    errors = errors_of(INTO_THE_CORNER, hob)
    assert list(errors) == ["0.right_end.run"] and words in errors["0.right_end.run"]


@pytest.mark.parametrize("hob", [{}, {"bearing_deg": 45}, {"bearing_deg": 21}, {"bearing_deg": -90}, {"x_mm": 49_000}, {"y_mm": 575}])
def test_runs_that_meet_somewhere_in_a_room_come_in(hob):
    load_job(document(INTO_THE_CORNER, hob))


def test_no_place_along_a_run_is_further_off_than_a_run_is_long():
    errors = errors_of({"anchor": {"on": "mark", "x_mm": 50_001}, "features": [{**WINDOW, "right_mm": 1_000_000}]})
    assert set(errors) == {"0.anchor.x_mm", "0.features.0.right_mm"}
