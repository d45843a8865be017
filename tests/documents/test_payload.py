"""Entry payloads: what can be used becomes a body, what cannot gets a reason, and nothing else ever happens."""

import contextlib
import copy
import dataclasses
import json
import re
import typing

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from oddleg import job as job_package
from oddleg.documents.called import CALLED
from oddleg.documents.entry_kinds import KINDS
from oddleg.documents.payload import (
    GREATEST_PAYLOAD_BYTES,
    PayloadError,
    parsed_entry,
    payload_bytes,
    payload_sha,
    read_payload,
)
from oddleg.job import (
    AddedStation,
    Blocked,
    Body,
    DatumDecision,
    GoodEnough,
    LegsSet,
    Note,
    Reading,
    SetUp,
    Stage,
    TwoPeg,
    TwoWall,
    Way,
)

UID = "0192f0aa-1111-7000-8000-000000000001"
READING = {"set_up": "s-1", "way": "down", "side": None, "name": "back three", "x_mm": 1200, "y_mm": 40.5}


def typed(raw, unit, value):
    return {"raw": raw, "unit": unit, "value": value}


def payload(kind="reading", target="back-3", data=READING, raw=None, unit=None, value=None, **more):
    return {
        "schema": 1, "job": "barn", "kind": kind, "target": target,
        "at": {"utc": "2026-11-23T08:40:00.000Z", "offset_minutes": 0, "server_offset_ms": None, "measured_at": None},
        "raw": raw, "unit": unit, "value": value, "shown": {"expected": None, "part_mark": None}, "replaces": None,
        "data": data, **more,
    }


def reading(raw="1204,5", unit="mm", value="1204.5", **data):
    return payload(data={**READING, **data}, raw=raw, unit=unit, value=value)


def read(found):
    return read_payload(json.dumps(found).encode())


def refused(found):
    with pytest.raises(PayloadError) as error:
        read(found) if isinstance(found, dict) else read_payload(found)
    return error.value


PEGS = {"middle_a": typed("1283", "mm", "1283"), "middle_b": typed("860", "mm", "860"), "end_a": typed("1.612", "m", "1612"), "end_b": typed("121,9", "cm", "1219")}
SAMPLES = {
    "set_up": (
        payload("set_up", "s-1", {"name": "one", "room": "kitchen", "stage": "stripped", "laser": "laser", "instrument": None, "x_mm": None, "y_mm": None, "line": {"level": typed("1000", "mm", "1000"), "give_or_take": typed("0,5", "mm", "0.5")}}),
        SetUp("s-1", "one", "kitchen", Stage.STRIPPED, "laser", None, None, None, 1000.0, 0.5),
    ),
    "reading": (reading(), Reading("s-1", "back-3", Way.DOWN, 1204.5, "back three", 1200.0, 40.5)),
    "station": (
        payload("station", "added-1", {"name": "added one", "room": "kitchen", "x_mm": 1, "y_mm": 2, "serves": "", "surface": "floor"}),
        AddedStation("added-1", "added one", "kitchen", 1.0, 2.0),
    ),
    "two_peg": (
        payload("two_peg", "laser", {"axis": "along", **PEGS, "end_to_a": typed("55", "m", "55000"), "end_to_b": typed("5", "m", "5000"), "resolution_mm": 0.5}),
        TwoPeg("laser", "along", 1283.0, 860.0, 1612.0, 1219.0, 55.0, 5.0, 0.5),
    ),
    "two_wall": (
        payload("two_wall", "laser", {"axis": "across", "offset": typed("-3", "mm", "-3"), "walls_apart": typed("5", "m", "5000"), "resolution_mm": 0.5}),
        TwoWall("laser", "across", -3.0, 5.0, 0.5),
    ),
    "decision": (
        payload("decision", "kitchen", {"name": "datum", "choice": "board_uncut"}, "872", "mm", "872", shown={"expected": None, "part_mark": "a1b2c3"}),
        DatumDecision("kitchen", "board_uncut", 872.0, "a1b2c3"),
    ),
    "legs_set": (
        payload("legs_set", "sink", {"heights": {"FL": "152", "BL": "150,5"}}, shown={"expected": None, "part_mark": "a1b2c3"}),
        LegsSet("sink", (("BL", 150.5), ("FL", 152.0)), "a1b2c3"),
    ),
    "blocked": (payload("blocked", "back-3", {"reason": "boxes,\nlater"}), Blocked("back-3", "boxes,\nlater")),
    "good_enough": (payload("good_enough", "kitchen", {}), GoodEnough("kitchen")),
    "note": (payload("note", "barn", {"text": "Key under the mat. \N{HAMMER}"}), Note("barn", "Key under the mat. \N{HAMMER}")),
}


@pytest.mark.parametrize("kind", KINDS)
def test_each_kind_becomes_its_body(kind):
    found, body = SAMPLES[kind]
    assert read(found).body == body
    assert read(found).kind == kind


def test_every_body_has_a_kind():
    assert {type(body) for _, body in SAMPLES.values()} == set(typing.get_args(Body))
    assert set(SAMPLES) == set(KINDS)
    assert all(dataclasses.is_dataclass(getattr(job_package, type(body).__name__)) for _, body in SAMPLES.values())


@pytest.mark.parametrize("kind", KINDS)
def test_a_field_too_many_or_too_few_puts_an_entry_aside(kind):
    found, _ = SAMPLES[kind]
    assert "extra" in str(refused({**found, "data": {**found["data"], "extra": 1}}))
    assert "extra" in str(refused({**found, "extra": 1}))
    for name in found["data"]:
        less = {other: value for other, value in found["data"].items() if other != name}
        assert CALLED[name].lower() in str(refused({**found, "data": less})).lower()
    for name in found:
        assert refused({other: value for other, value in found.items() if other != name}).reason in ("form", "schema", "kind")


@pytest.mark.parametrize("kind", KINDS)
def test_an_undo_takes_back_an_entry_of_any_kind(kind):
    found, _ = SAMPLES[kind]
    undo = {**found, "data": None, "raw": None, "unit": None, "value": None, "replaces": UID}
    assert read(undo).body is None
    assert read(undo).replaces == UID
    assert refused({**undo, "replaces": None}).reason == "form"
    assert refused({**undo, "raw": "1", "unit": "mm", "value": "1"}).reason == "form"


@pytest.mark.parametrize(
    ("raw", "side", "value_mm"),
    [("12,5", "above", 12.5), ("12,5", "below", -12.5), ("0", "below", 0.0), ("-12,5", None, -12.5), ("12.5", None, 12.5)],
)
def test_the_side_of_the_line_gives_the_sign_of_an_offset(raw, side, value_mm):
    text = f"{value_mm:g}"
    found = read(reading(raw, "mm", text, way="offset", side=side))
    assert found.body.value_mm == value_mm
    assert str(found.value) == text or found.value == value_mm


@pytest.mark.parametrize(
    ("changed", "word"),
    [
        (reading("1204,5", "mm", "1204"), "1204.5"), (reading("1.2045", "m", "1.2045"), "1204.5"),
        (reading("120,45", "cm", "120.45"), "1204.5"), (reading("1204,5", "mm", "1204.50"), "1204.5"),
        (reading("12", "mm", "12", way="offset", side="below"), "-12"), (reading("-12", "mm", "-12", way="offset", side="below"), "sign"),
        (reading("12", "mm", "12", side="above"), "Only an offset"), (reading("12", "mm", "12", way="offset", side="left"), "above, below"),
        (reading("-12", "mm", "-12"), "range"), (reading("9999999", "mm", "9999999"), "range"), (reading(None), "null"),
        (reading("12", None), "null"), (reading("12", "mm", None), "null"), (reading(12), "quotes"), (reading("12", "mm", 12), "quotes"),
        (reading("12", "inch", "12"), "mm, cm, m"), (reading(way="sideways"), "down, up, offset"), (reading(set_up="S 1"), "id"),
        (reading(x_mm=None), "both an X and a Y"), (reading(x_mm=1e300), "range"), (reading(name=""), "characters"), (reading(name="a\0"), "NUL"),
        (reading(name="\ud800"), "surrogate"), ({**reading(), "job": "No Such"}, "id"), ({**reading(), "replaces": "first"}, "uid"),
        ({**reading(), "at": None}, "null"), ({**reading(), "shown": {}}, "missing"), ({**reading(), "data": []}, "object"),
        ({**reading(), "at": {**reading()["at"], "utc": "2026-02-30T00:00:00Z"}}, "UTC"), ({**reading(), "at": {**reading()["at"], "utc": "yesterday"}}, "UTC"),
        (payload("note", "barn", {"text": "x"}, "1", "mm", "1"), "null"), (payload("legs_set", "sink", {"heights": {"XX": "1"}}), "leg"),
        (payload("legs_set", "sink", {"heights": {}}), "height"), (payload("legs_set", "sink", {"heights": {"FL": 152}}), "typed"),
        (payload("legs_set", "sink", {"heights": {"FL": "tall"}}), "digits"), (payload("decision", "kitchen", {"name": "colour", "choice": "x"}, "1", "mm", "1"), "datum"),
    ],
)
def test_what_is_wrong_is_said_in_words(changed, word):
    error = refused(changed)
    assert word in str(error)
    assert error.reason in ("form", "number", "json")


def refusals(found, path=()):
    """Every refusal that one field of this entry draws when it holds what does not belong there."""
    for place in paths(found):
        for value in (None, -1, "", "12..5", 10**9, {}, typed("900000", "mm", "900000")) if place else ():
            changed = copy.deepcopy(found)
            inner = changed
            for step in place[:-1]:
                inner = inner[step]
            inner[place[-1]] = value
            with contextlib.suppress(PayloadError):
                read(changed)
                continue
            yield place, str(refused(changed))


@pytest.mark.parametrize("kind", KINDS)
def test_a_fitter_reads_no_machine_path_in_a_refusal(kind):
    for place, words in refusals(SAMPLES[kind][0]):
        assert not re.search(r"data\.|\w_\w+( |:|$)", words.partition(": ")[0]), (place, words)


def test_a_peg_too_far_away_is_called_by_its_name():
    found, _ = SAMPLES["two_peg"]
    far = {**found, "data": {**found["data"], "end_to_b": typed("300", "m", "300000")}}
    assert str(refused(far)) == (
        "The distance from the laser to peg B: 300000 mm is out of range; allowed: 0 to 200000 mm."
    )
    misread = {**found, "data": {**found["data"], "end_to_b": typed("5", "m", "500")}}
    assert str(refused(misread)) == "The distance from the laser to peg B: 5 m reads as 5000 mm."


def test_a_leg_is_called_by_its_letters():
    found, _ = SAMPLES["legs_set"]
    assert str(refused({**found, "data": {"heights": {"FL": "2000"}}})).startswith("The height of leg FL: 2000 mm")


@pytest.mark.parametrize("raw", ["12..5", "", "NaN", "1e3", "twelve", "1 204", "-", "12.345"])
def test_what_was_typed_is_read_again_by_the_grammar(raw):
    error = refused(reading(raw))
    assert (error.reason, error.job) == ("number", "barn")


@pytest.mark.parametrize("schema", [0, 2, 99, "1", None, True, 1.5, [], {}])
def test_an_entry_of_another_schema_is_kept_for_later(schema):
    assert refused({**reading(), "schema": schema}).reason == "schema"


@pytest.mark.parametrize("kind", ["", "photo", None, 1, [], {}])
def test_an_unknown_kind_is_put_aside(kind):
    assert refused({**reading(), "kind": kind}).reason == "kind"


@pytest.mark.parametrize(
    "data",
    [b"", b"{", b"null", b"[]", b"7", b'"text"', b"\xff", b'{"job": "a", "job": "b"}', b'{"schema": NaN}', b"[" * 60000, b"{}", b'{"\\ud800": 1}', b"\0"],
)
def test_what_is_no_entry_at_all_is_put_aside(data):
    assert refused(data).reason in ("json", "form", "schema")


def test_an_entry_over_64_kb_is_put_aside():
    note = payload("note", "barn", {"text": "x"})
    room = GREATEST_PAYLOAD_BYTES - len(json.dumps(note).encode())
    assert refused((json.dumps(note) + " " * (room + 1)).encode()).reason == "json"
    assert read_payload((json.dumps(note) + " " * room).encode()).body == Note("barn", "x")


def test_an_entry_as_a_phone_sends_it_becomes_an_entry_of_the_job():
    text = json.dumps(reading())
    sent = {"uid": UID, "seq": 1, "sha": payload_sha(payload_bytes(text)), "payload": text}
    entry = parsed_entry(sent, 7, "Ned")
    assert (entry.uid, entry.position, entry.person, entry.at_utc) == (UID, 7, "Ned", "2026-11-23T08:40:00.000Z")
    with pytest.raises(PayloadError):
        parsed_entry({**sent, "payload": text + " "}, 7, "Ned")


def test_half_a_surrogate_pair_is_hashed_and_put_aside():
    data = payload_bytes('{"job": "\ud800"}')
    assert len(payload_sha(data)) == 64
    assert refused(data).reason == "json"


VALUES = st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=6) | st.sampled_from([[], {}, [{}], {"a": []}, 10**30])


def paths(value, before=()):
    yield before
    for step, inner in value.items() if isinstance(value, dict) else ():
        yield from paths(inner, (*before, step))


PLACES = [(kind, path) for kind in KINDS for path in paths(SAMPLES[kind][0]) if path]


@settings(derandomize=True, deadline=None, max_examples=400)
@given(st.sampled_from(PLACES), VALUES)
def test_nothing_in_any_field_of_any_kind_raises_anything_else(place, value):
    kind, path = place
    found = copy.deepcopy(SAMPLES[kind][0])
    inner = found
    for step in path[:-1]:
        inner = inner[step]
    inner[path[-1]] = value
    with contextlib.suppress(PayloadError):
        read_payload(json.dumps(found).encode("utf-8", "surrogatepass"))
