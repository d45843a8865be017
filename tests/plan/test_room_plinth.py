"""The plinth of a room as a whole, and its part: only once a datum is decided, every figure with its sentence."""

import dataclasses

import demo_hall
import pytest

from oddleg.charts import charts
from oddleg.job import DatumDecision
from oddleg.plan import plan
from oddleg.plan.parts import all_findings, parts


def hall_part():
    return parts(demo_hall.hall_plan(), 1)["plinth/kitchen"]


def figures_in(value):
    if isinstance(value, dict):
        if {"mm", "text", "why"} <= value.keys():
            yield value
        else:
            for inner in value.values():
                yield from figures_in(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from figures_in(inner)


def test_no_plinth_is_told_before_a_datum_is_decided():
    log = [one for one in demo_hall.entries() if not isinstance(one.body, DatumDecision)]
    made = plan(demo_hall.job(), log, charts())
    assert made.rooms[0].plinth is None
    assert "plinth/kitchen" not in parts(made, 1)
    assert not [row for row in all_findings(made) if row["rule"].startswith("plinth.")]


def test_every_figure_of_the_part_says_where_it_came_from():
    part = {name: value for name, value in hall_part().items() if name != "findings"}
    found = list(figures_in(part))
    assert len(found) > 50
    assert [one for one in found if not one["why"].endswith(".")] == []


def test_every_piece_of_the_hall_lies_on_one_board():
    part = hall_part()
    cuts = [(cut["piece"], board["number"]) for board in part["boards"] for cut in board["cuts"]]
    assert sorted(cuts) == sorted((piece["id"], piece["board"]) for piece in part["pieces"])
    assert [piece["number"] for piece in part["pieces"]] == list(range(1, len(part["pieces"]) + 1))


def test_the_halls_corner_is_where_the_two_plinths_meet():
    """FP: the window run's end mark lies on the side run's backs, so that one's plinth has its face 560 - 50 = 510 short
    of it, and the board begins at the right of the panel at the washing machine. The mark comes from the opening, the
    line from a laser: each is good to 1. The side run's runs from the face of the window run's (50 behind the fronts
    that its zero lies on) less 16 to the cooker bay at 65 + 600: 731."""
    lengths = {piece["number"]: piece["length"] for piece in hall_part()["pieces"]}
    window = next(one for one in demo_hall.hall_plan().rooms[0].setting_out.runs if one.run.id == "window-run")
    panel_mm = next(one.right_mm for one in window.rod.placed if one.item.id == "laundry-panel")
    assert lengths[2]["mm"] == pytest.approx(window.rod.right_mm - 510 - panel_mm, abs=2.0)
    assert lengths[3]["text"] == "731"


def test_a_room_with_nothing_on_legs_has_nothing_to_cut():
    job = demo_hall.job()
    bare = dataclasses.replace(
        job.rooms[0], runs=tuple(dataclasses.replace(run, items=()) for run in job.rooms[0].runs)
    )
    made = plan(dataclasses.replace(job, rooms=(bare,)), demo_hall.entries(), charts())
    plinth = made.rooms[0].plinth
    assert plinth is not None
    assert (plinth.pieces, plinth.nesting, plinth.panels, plinth.findings) == ((), None, (), ())
    part = parts(made, 1)["plinth/kitchen"]
    assert part["boards"] == [] and part["nesting_words"] == "Nothing to cut."
