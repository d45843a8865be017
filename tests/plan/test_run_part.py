"""The part of a run: what the plan holds, word for word, under the keys that phone and drawings read."""

import json
from dataclasses import replace
from types import SimpleNamespace

import sample_set_out as sample

from oddleg.plan.figure import figure
from oddleg.plan.part_values import mark_of
from oddleg.plan.run_part import run_part

KITCHEN = SimpleNamespace(room=SimpleNamespace(id="kitchen", name="Kitchen"))


def made(**of):
    return run_part(KITCHEN, sample.set_out(**of))


def test_every_mark_filler_fixing_and_fit_is_in_it():
    out = sample.set_out()
    part = made()
    assert (part["run"], part["name"], part["room"]) == ("sink-run", "Sink run", "kitchen")
    assert [one["from_left"]["text"] for one in part["rod"]["marks"]] == [one.from_left.text for one in out.rod.marks]
    assert [one["order"] for one in part["rod"]["marks"]] == [one.order for one in out.rod.marks]
    assert [one["cut_from"]["text"] for one in part["rod"]["fillers"]] == [one.cut_from.text for one in out.rod.fillers]
    assert [one["packs"] for one in part["batten"]["fixings"]] == [one.packs for one in out.batten.fixings]
    assert part["batten"]["cut_outs"][0]["left"]["text"] == "1470.5"
    assert [one["storey"] for one in part["lines"]] == ["base", "wall"]
    assert part["fits"][0]["chance_words"].startswith("If sizes vary as stated")
    assert part["scribes"][0]["scribe"][0] == {"label": "floor", "figure": {"mm": 3.0, "text": "3", "why": ""}}
    assert part["rod"]["end_words"] and part["rod"]["offsets"][0]["offset"]["text"] == "0"


def test_it_is_plain_json_and_its_mark_stands_for_what_is_shown():
    part = made()
    assert json.loads(json.dumps(part)) == part
    assert mark_of(part) == mark_of(made())


def with_mark(**more):
    """The sample's part with its fourth mark ticked, or moved."""
    out = sample.set_out()
    marks = [replace(one, **more) if i == 3 else one for i, one in enumerate(out.rod.marks)]
    return run_part(KITCHEN, replace(out, rod=replace(out.rod, marks=tuple(marks))))


def test_a_ticked_mark_leaves_a_printed_rod_current_and_one_that_has_moved_since_does_not():
    at = figure(600.0)
    ticked, moved = with_mark(marked=at), with_mark(marked=at, moved=figure(2.0, signed=True))
    assert ticked["rod"]["marks"][3]["marked"]["text"] == "600"
    assert mark_of(ticked) == mark_of(made()) != mark_of(moved)


def test_a_run_that_stands_free_has_no_batten():
    out = sample.set_out()
    part = run_part(KITCHEN, replace(out, batten=None, wall=None, hanging_line=None))
    assert part["batten"] is None and len(part["lines"]) == 1
