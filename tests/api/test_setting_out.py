"""Setting out through the real server: a bad job is 422 at its field, and whatever phones send is stored or put aside in
plain words; never our fault, and the plan comes out all the same."""

import copy
import json
import random
import re
from pathlib import Path

import pytest

SENT = json.loads((Path(__file__).parents[1] / "phone_payloads.json").read_text("utf-8"))["schema_1"]
SETTING_OUT = ("wall_line", "wall_reading", "opening", "end_gap", "corner_triangle", "feature", "unit_width", "marked")
WALL_SAMPLES = [one for one in SENT if one["kind"] in SETTING_OUT]

# What a fitter or the office should never read: names of the program's parts and its own values.
PROGRAM = re.compile(r"Traceback|Error\b|Exception|marshmallow|object at|NoneType|\bNone\b|\bdict\b|\bstr\b|\bTrue\b|\bFalse\b|[a-z]_[a-z]+\(|\\u|  ")


def run_of(job, at=0):
    return job["rooms"][0]["runs"][at]


def two_runs(hall, **first):
    """The hall with a second run at the right of its first."""
    job = copy.deepcopy(hall)
    other = {"id": "side", "name": "Side run", "x_mm": 3000, "y_mm": 0, "bearing_deg": 90, "wall": "wall-1", "items": []}
    job["rooms"][0]["runs"].append(other)
    run_of(job).update(first)
    return job


def filler(**more):
    return {"made_as": "filler", "id": "strip", "name": "strip", "width_mm": 50, "least_mm": 20, "greatest_mm": 100, **more}


WINDOW = {"id": "window", "name": "window", "kind": "window", "left_mm": 400, "right_mm": 900, "bottom_mm": 1000, "top_mm": 2000}

BAD = {
    "left_end.run": {"left_end": {"at": "other_backs"}},
    "right_end.run": {"right_end": {"at": "other_backs", "run": "nowhere"}},
    "right_end.at": {"right_end": {"at": "elsewhere"}},
    "opening_mm": {"opening_mm": 0},
    "anchor.item": {"anchor": {"item": "gone"}},
    "anchor.x_mm": {"anchor": {"on": "mark", "x_mm": 1e9}},
    "anchor.feature": {"anchor": {"on": "feature", "feature": "window"}},
    "front_line.to_x_mm": {"front_line": {"line": "parallel", "from_x_mm": 900, "to_x_mm": 900}},
    "front_line.run": {"front_line": {"line": "square", "run": "run"}},
    "batten.end_mm": {"batten": {"stock_mm": 100, "end_mm": 50}},
    "batten.supports_mm": {"batten": {"supports_mm": [400, 400]}},
    "batten.spacing_mm": {"batten": {"spacing_mm": -600}},
    "features.0.bottom_mm": {"features": [{**WINDOW, "bottom_mm": 2000, "top_mm": 1000}]},
    "features.0.left_mm": {"features": [{**WINDOW, "left_mm": 900, "right_mm": 400}]},
    "items.0.least_mm": {"items": [filler(least_mm=100, greatest_mm=20)]},
    "items.0.share": {"items": [filler(share=-1)]},
    "items.0.width_mm": {"items": [filler(width_mm="50")]},
    "line_up.0.on": {"line_up": [{"item": "unit-1", "item_edge": "left", "on": "gone", "on_edge": "left"}]},
    "cornice.overhang_mm": {"cornice": {"overhang_mm": -20}},
    "void_mm": {"void_mm": None},
}


@pytest.mark.parametrize("field", BAD)
def test_a_run_that_cannot_be_set_out_so_is_422_at_its_field(desk, made, field):
    job = two_runs(made.hall(id="barn"), **BAD[field])
    answer = desk.ask("POST", "/jobs", json=job)
    assert (answer.status_code, answer.mimetype) == (422, "application/problem+json")
    assert f"rooms.0.runs.0.{field}" in answer.json["errors"], answer.json["errors"]
    for texts in answer.json["errors"].values():
        assert texts and all(text.strip() and not PROGRAM.search(text) for text in texts), texts
    assert desk.ask("GET", "/jobs/barn").status_code == 404


def test_runs_that_name_each_other_from_where_they_cannot_meet_are_422(desk, made):
    job = two_runs(made.hall(id="barn"), right_end={"at": "other_backs", "run": "side"})
    run_of(job, 1)["left_end"] = {"at": "other_backs", "run": "run"}
    answer = desk.ask("POST", "/jobs", json=job)
    assert answer.status_code == 422
    assert any("go into the corner" in text for texts in answer.json["errors"].values() for text in texts)


def test_the_list_of_bad_input_comes_in_where_it_is_no_error_and_is_told_in_the_plan(desk, made):
    """An empty run, one item, items that exceed the opening, an anchor outside: a plan, and each a finding."""
    runs = [
        {"id": f"r{n}", "name": f"Run {n}", "x_mm": 0, "y_mm": 0, "bearing_deg": 0, "wall": "wall-0", "void_mm": 12,
         "left_end": {"at": "wall"}, "right_end": {"at": "wall"}, "opening_mm": 1000, "items": items, **more}
        for n, (items, more) in enumerate([
            ([], {}),
            ([{**run_of(made.hall())["items"][0], "id": "one"}], {}),
            ([{**run_of(made.hall())["items"][0], "id": f"long-{k}"} for k in range(2)], {}),
            ([{**run_of(made.hall())["items"][0], "id": "far"}], {"anchor": {"on": "mark", "x_mm": 2000, "item": "far"}}),
        ])
    ]  # fmt: skip
    job = made.hall(id="barn")
    job["rooms"][0]["runs"] = runs
    assert desk.ask("POST", "/jobs", json=job).status_code == 201
    manifest = desk.ask("GET", "/jobs/barn/pack").json
    (sha,) = [one["sha"] for one in manifest["parts"] if one["name"] == "findings"]
    told = desk.ask("GET", f"/jobs/barn/pack/{sha}").json["findings"]
    by_run = {run["id"]: {one["rule"] for one in told if run["id"] in one["concerns"]} for run in runs}
    for id, rule in (("r0", "rod.empty"), ("r1", "rod.left_over"), ("r2", "rod.too_long"), ("r3", "rod.anchor")):
        assert rule in by_run[id], (id, by_run[id])


# Entries.


def put_aside(fitter, payload):
    answer = fitter.push(fitter.entry(payload))
    assert answer.status_code == 200
    (result,) = answer.json["results"]
    assert result["status"] == "quarantined" and not PROGRAM.search(result["problem"]), result
    return result["problem"]


def sample(kind, **data):
    found = copy.deepcopy(next(one for one in WALL_SAMPLES if one["kind"] == kind))
    found["data"].update(data)
    return found


def typed(text):
    return {"raw": text, "unit": "mm", "value": text}


@pytest.mark.parametrize(
    ("payload", "words"),
    [
        (sample("corner_triangle", across=typed("7000")), "cannot close"),
        (sample("corner_triangle", other_run="sink-run"), "lies between two runs"),
        (sample("feature", left=typed("2600"), right=typed("1400")), "left and right are swapped"),
        (sample("feature", bottom=typed("2000"), top=typed("1000")), "two heights are swapped"),
        (sample("wall_line", square_to="string-1"), "square to itself"),
        (sample("wall_line", stands_off=typed("1e3")), "stands off"),
        (sample("wall_reading", height="ceiling"), "height"),
        ({**sample("wall_reading"), "raw": "-4.5"}, "number itself has no sign"),
        ({**sample("opening"), "raw": "5", "unit": "mm", "value": "5"}, "out of range"),
        ({**sample("opening"), "value": "3009"}, "reads as 3008.5 mm, not 3009"),
        ({**sample("end_gap"), "raw": None, "unit": None, "value": None}, "must not be null"),
        ({**sample("unit_width"), "raw": "0", "unit": "mm", "value": "0"}, "out of range"),
        (sample("marked", mark=""), "characters"),
    ],
    ids=lambda one: "" if isinstance(one, dict) else one,
)
def test_bad_measurements_at_a_wall_are_put_aside_in_plain_words(desk, fitter, payload, words):
    assert words in put_aside(fitter, payload)
    (case,) = desk.ask("GET", "/quarantine").json["cases"]
    assert case["problem"] and case["cure"]


ODD = [None, True, False, 0, -1, 1e308, 10**30, "", " ", "0", "-0", "1e999", "NaN", "+", "\u2212", "1,2,3", "x" * 5000, "\u0000", "\u202e", "\ud800",
       [], {}, [[]], {"raw": "1"}, {"raw": "5", "unit": "mm", "value": "5"}, ["wall"], "sink-run", "unit-1", "run", "floor", "metres", 0.1 + 0.2]  # fmt: skip


def places(value, at=()):
    yield at
    inside = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, one in inside:
        yield from places(one, (*at, key))


def bent(chance):
    """A sample with one to three things changed: left out, added, swapped, or replaced by something odd."""
    payload = copy.deepcopy(chance.choice(WALL_SAMPLES))
    payload["target"] = chance.choice([payload["target"], "run", "unit-1", "unit-2", "window", "ws-1"])
    for name in ("run", "other_run"):
        if name in payload["data"] and chance.random() < 0.7:
            payload["data"][name] = "run" if name == "run" else "side"
    for _ in range(chance.randint(0, 3)):
        way = [at for at in places(payload) if at]
        at = chance.choice(way)
        holder = payload
        for key in at[:-1]:
            holder = holder[key]
        does = chance.random()
        if does < 0.2:
            del holder[at[-1]]
        elif does < 0.3 and isinstance(holder, dict):
            holder[chance.choice(["colour", "", "id", "x_mm", "side"])] = chance.choice(ODD)
        elif does < 0.4 and isinstance(holder[at[-1]], str):
            text = list(holder[at[-1]] or "0")
            text[chance.randrange(len(text))] = chance.choice("0123456789.,-+ eE\u2212x")
            holder[at[-1]] = "".join(text)
        else:
            holder[at[-1]] = copy.deepcopy(chance.choice(ODD))
    return payload


def test_whatever_is_sent_of_a_wall_is_stored_or_put_aside_and_the_plan_comes_out(site, desk, fitter, made):
    job = two_runs(made.hall(), right_end={"at": "other_backs", "run": "side"}, opening_mm=3000, void_mm=12, batten={}, features=[WINDOW])
    assert desk.ask("PUT", "/jobs/hall", json=job, headers={"If-Match": '"1"'}).status_code == 200
    chance, statuses = random.Random(31), []
    for _ in range(12):
        entries = [fitter.entry(bent(chance)) for _ in range(50)]
        answer = fitter.push(*entries)
        assert answer.status_code == 200, answer.text
        for result in answer.json["results"]:
            statuses.append(result["status"])
            assert result["status"] in ("stored", "quarantined"), result
            if result["status"] == "quarantined":
                assert len(result["problem"]) > 10 and not PROGRAM.search(result["problem"]), result["problem"]
    assert min(statuses.count("stored"), statuses.count("quarantined")) > 60, "both happen, often"
    cases = desk.ask("GET", "/quarantine").json["cases"]
    assert len(cases) == statuses.count("quarantined") and all(case["problem"] and case["cure"] for case in cases)
    manifest = fitter.ask("GET", "/jobs/hall/pack")
    assert manifest.status_code == 200, manifest.text
    for part in manifest.json["parts"]:
        assert fitter.ask("GET", f"/jobs/hall/pack/{part['sha']}").status_code == 200
    for sheet in ("rod-run", "strip_a4-run", "corners-kitchen", "survey-kitchen"):
        answer = fitter.ask("GET", f"/jobs/hall/sheets/{sheet}.pdf")
        assert answer.status_code == 200 and answer.data.startswith(b"%PDF"), sheet
