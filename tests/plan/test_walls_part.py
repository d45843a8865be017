"""What the screen of wall readings shows, and what it says to do next."""

import json
from types import SimpleNamespace

import pytest
import sample_room as sample
from sample_wall import BATTEN, STRING, all_heights, read, room_of, run, wall_of

from oddleg.job import EndsAt, OpeningDepth, OpeningWidth, RunEnd, Tolerances, WallHeight
from oddleg.plan.walls_part import next_words, wall_part, walls_part

WALL = RunEnd(EndsAt.WALL)


def between_walls():
    return run(left_end=WALL, right_end=WALL)


def test_stations_and_spots_are_shown_with_their_texts():
    part = wall_part(wall_of(run(), [read(run(), 600, 92.0)]), 0.5)
    assert [(one["name"], one["x"]["text"], one["heights"]) for one in part["stations"]] == [
        ("A one", "0", ["floor", "batten", "worktop"]), ("spot 600", "600", ["floor", "batten", "worktop"]), ("A three", "1200", ["floor", "batten", "worktop"]),
    ]  # fmt: skip
    shown = [one for one in part["spots"] if one["state"] == "read"]
    assert [(one["height"], one["out"]["text"], one["readings"]) for one in shown] == [("batten", "+8", 1)]
    assert part["lines"] == [{"id": "string", "name": "string one", "readings": 1}]
    assert json.loads(json.dumps(part)) == part


READ = all_heights(run(), 100.0, 100.0, 100.0)
OPENINGS = [OpeningWidth("run-a", height, OpeningDepth.BACK, 1200.0) for height in list(WallHeight)[:3]]


@pytest.mark.parametrize(
    ("bodies", "words"),
    [
        ([], "Put up a laser line or a string along Run A, from end to end, and read the distance to the wall at each place."),
        ([STRING], "Still to read: all places just over the floor; all places at batten height; all places at worktop height."),
        ([STRING, *READ[:-1]], "Still to read: spot 1200 at worktop height."),
        ([STRING, *READ, read(run(), 600, 110.0, BATTEN)], "Put right what is open: spot 600 at batten height."),
        ([STRING, *READ], "Measure the opening from wall to wall: along the wall, just over the floor, at batten height and at worktop height; along the fronts, at one height or more."),
        ([STRING, *READ, *OPENINGS], "Measure the opening from wall to wall: along the fronts, at one height or more."),
        ([STRING, *READ, *OPENINGS, OpeningWidth("run-a", BATTEN, OpeningDepth.FRONT, 1200.0)], "All of Run A is read."),
    ],
)
def test_what_comes_next_is_said(bodies, words):
    assert next_words(wall_of(between_walls(), bodies, lines=())) == words


def test_a_run_with_an_open_end_has_no_opening_to_measure():
    assert next_words(wall_of(run(left_end=WALL), READ)) == "All of Run A is read."


def test_a_run_with_nothing_drawn_says_so():
    assert next_words(wall_of(sample.run(), [])).startswith("Nothing is drawn along Run A yet")


def test_the_part_holds_every_wall_of_the_room_and_their_findings():
    wall = wall_of(run(), [*READ, read(run(), 600, 110.0, BATTEN)])
    set_out = SimpleNamespace(runs=(SimpleNamespace(wall=wall), SimpleNamespace(wall=None)), corners=())
    job = sample.job(room_of(run()), tolerances=Tolerances(wall_off_line_mm=7))
    part = walls_part(job, SimpleNamespace(room=room_of(run()), setting_out=set_out))
    assert [one["run"] for one in part["runs"]] == ["run-a"]
    assert part["heights"]["wall_units"] == "at wall-unit height" and part["depths"]["front"] == "along the fronts"
    assert part["limits"] == {"greatest_mm": 3500.0, "repeat_mm": 2.0, "jump_mm": 7}
    assert [one["rule"] for one in part["findings"]] == ["wall.repeats_differ", "wall.not_read"]
