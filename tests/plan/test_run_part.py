"""The part of a run: what the plan holds, word for word, under the keys that phone and drawings read."""

import json
from dataclasses import replace
from types import SimpleNamespace

import sample_set_out as sample

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


def test_a_run_that_stands_free_has_no_batten():
    out = sample.set_out()
    part = run_part(KITCHEN, replace(out, batten=None, wall=None, hanging_line=None))
    assert part["batten"] is None and len(part["lines"]) == 1
