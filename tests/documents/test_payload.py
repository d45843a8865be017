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
    CornerTriangle,
    DatumDecision,
    Drilled,
    EndGap,
    Feature,
    FeatureKind,
    GoodEnough,
    LegsSet,
    Marked,
    MeasuredFeature,
    MeasuredService,
    Note,
    OpeningDepth,
    OpeningWidth,
    Reading,
    Service,
    ServiceKind,
    SetUp,
    Stage,
    TwoPeg,
    TwoWall,
    UnitWidth,
    WallHeight,
    WallLine,
    WallReading,
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
    "wall_line": (
        payload("wall_line", "string-1", {"name": "string one", "run": "sink-run", "square_to": None, "stands_off": typed("10", "cm", "100")}),
        WallLine("string-1", "string one", "sink-run", None, 100.0),
    ),
    "wall_reading": (
        payload("wall_reading", "ws-1", {"line": "string-1", "height": "batten", "side": None, "name": "wall one", "x_mm": 600}, "104", "mm", "104"),
        WallReading("string-1", "ws-1", WallHeight.BATTEN, 104.0, "wall one", 600.0),
    ),
    "opening": (
        payload("opening", "sink-run", {"height": "floor", "depth": "front"}, "3.0085", "m", "3008.5"),
        OpeningWidth("sink-run", WallHeight.FLOOR, OpeningDepth.FRONT, 3008.5),
    ),
    "end_gap": (
        payload("end_gap", "sink-run", {"side": "left", "height": "batten", "depth": "back"}, "5", "mm", "5"),
        EndGap("sink-run", "left", WallHeight.BATTEN, OpeningDepth.BACK, 5.0),
    ),
    "corner_triangle": (
        payload("corner_triangle", "sink-run", {"other_run": "hob-run", "along": typed("3", "m", "3000"), "other_along": typed("4", "m", "4000"), "across": typed("5005", "mm", "5005")}),
        CornerTriangle("sink-run", "hob-run", 3000.0, 4000.0, 5005.0),
    ),
    "feature": (
        payload("feature", "window", {"run": "sink-run", "name": "window", "what": "window", "left": typed("1400", "mm", "1400"), "right": typed("2600", "mm", "2600"), "bottom": typed("130", "mm", "130"), "top": None, "stands_out": typed("-90", "mm", "-90"), "above": "datum"}),
        MeasuredFeature("sink-run", Feature("window", "window", FeatureKind.WINDOW, 1400.0, 2600.0, 130.0, None, -90.0), above_datum=True),
    ),
    "unit_width": (payload("unit_width", "sink", {}, "800,3", "mm", "800.3"), UnitWidth("sink", 800.3)),
    "marked": (
        payload("marked", "sink-run", {"mark": "edge-3"}, "1204.5", "mm", "1204.5", shown={"expected": None, "part_mark": "a1b2c3"}),
        Marked("sink-run", "edge-3", 1204.5, "a1b2c3"),
    ),
    "service": (
        payload("service", "sink-socket", {"run": "sink-run", "name": "socket", "what": "socket", "comes_from": "wall", "x": typed("1.45", "m", "1450"), "width": typed("86", "mm", "86"), "height": typed("86", "mm", "86"), "up": typed("450", "mm", "450"), "y": None, "stands_out": typed("9", "mm", "9"), "up_from": "finished_floor", "round": False, "live": None, "reach": True}),
        MeasuredService("sink-run", Service("sink-socket", "socket", ServiceKind.SOCKET, 1450.0, 450.0, 86.0, 86.0, stands_out_mm=9.0, found=True)),
    ),
    "drilled": (
        payload("drilled", "sink", {"panel": "left", "hole": "runner-top-1", "u": "37", "v": "102.5"}, shown={"expected": None, "part_mark": "a1b2c3"}),
        Drilled("sink", "left", "runner-top-1", 37.0, 102.5, "a1b2c3"),
    ),
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


def sample(kind, **data):
    """The sample of a kind with some of its data changed; an outer field where the kind has it there."""
    found = copy.deepcopy(SAMPLES[kind][0])
    for name, value in data.items():
        (found if name in ("raw", "unit", "value", "target") else found["data"])[name] = value
    return found


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        (sample("corner_triangle", across=typed("7000", "mm", "7000")), "The side across the corner: These three cannot close: 3000 and 4000 reach 7000 mm together"),
        (sample("corner_triangle", along=typed("3", "m", "3000"), other_along=typed("9005.5", "mm", "9005.5")), "The side along the other wall: These three cannot close: 3000 and 5005 reach 8005 mm"),
        (sample("corner_triangle", along=typed("0", "mm", "0")), "The side along this wall: 0 mm is out of range"),
        (sample("corner_triangle", other_run="sink-run"), "The other run: A corner lies between two runs"),
        (sample("feature", left=typed("2700", "mm", "2700")), "The left edge: It lies to the right of the right edge; left and right are swapped."),
        (sample("feature", top=typed("120", "mm", "120")), "The bottom edge: It lies above the top; the two heights are swapped."),
        (sample("feature", what="skylight"), "What kind of thing it is"),
        (sample("feature", above="floor"), "bench_mark, datum"),
        (sample("wall_line", square_to="string-1"), "The line that it is square to: A line cannot be square to itself"),
        (sample("wall_line", stands_off=typed("about 100", "mm", "100")), "How far the line stands off: Use digits"),
        (sample("wall_reading", raw="-4", value="-4"), "The figure as typed: Where the wall stands out beyond the line, say so"),
        (sample("wall_reading", raw="+4", value="4", side="proud"), "the number itself has no sign"),
        (sample("wall_reading", raw="4", value="4", side="proud"), "4 mm reads as -4 mm, not 4"),
        (sample("wall_reading", height="ceiling"), "At which height: This is not one of the words allowed here: floor, batten, worktop, wall_units."),
        (sample("wall_reading", raw="30", unit="m", value="30000"), "The figure: 30000 mm is out of range"),
        (sample("opening", depth="middle"), "Back or front: This is not one of the words allowed here: back, front."),
        (sample("opening", raw="3", unit="mm", value="3"), "The figure: 3 mm is out of range; allowed: 50 to 50000 mm."),
        (sample("end_gap", side="above"), "left, right"),
        (sample("unit_width", raw="0", value="0"), "The figure: 0 mm is out of range"),
        (sample("marked", mark=""), "The mark on the rod: This text has 0 characters"),
    ],
)
def test_what_is_wrong_at_a_wall_is_said_as_a_fitter_calls_it(changed, words):
    error = refused(changed)
    assert words in str(error)
    assert error.reason in ("form", "number")


def test_the_side_of_a_side_wall_is_no_sign():
    """An end gap names left or right; only above, below and proud are about a sign."""
    assert read(sample("end_gap", raw="-5", value="-5")).body.value_mm == -5.0


def test_a_wall_that_stands_out_beyond_the_line_is_minus():
    assert read(sample("wall_reading", raw="4,5", value="-4.5", side="proud")).body.value_mm == -4.5
    assert read(sample("wall_reading", raw="0", value="0", side="proud")).body.value_mm == 0.0


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


@pytest.mark.parametrize("part", ["at", "shown", "data"])
def test_a_part_that_is_missing_or_null_is_said_in_our_words(part):
    whole = reading()
    for changed in ({name: value for name, value in whole.items() if name != part}, {**whole, part: None}):
        words = str(refused(changed))
        assert "required field" not in words and "Field may" not in words and words.endswith(".")


def test_several_wrongs_are_one_text_with_one_stop_at_its_end():
    words = str(refused({**reading(), "job": "", "target": "", "replaces": ""}))
    assert ".;" not in words and words.endswith(".") and words.count("; ") >= 2
