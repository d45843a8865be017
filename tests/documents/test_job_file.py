"""The job file: what comes in is checked whole and by path; what goes out comes in again byte for byte."""

import copy
import dataclasses
import json
import math
import types
import typing
from pathlib import Path

import jsonschema
import pytest

from oddleg import job as job_package
from oddleg.documents.fields import Choice, Listing, OneOf, Part, Record
from oddleg.documents.job_file import FORMAT, RAISING, JobRecord, dump_job, job_text, load_job
from oddleg.documents.job_schema import gather, job_schema
from oddleg.documents.strict_json import DocumentError, parse_json
from oddleg.job import Job

KEPT = Path(__file__).parent / "kept"
LEGS = {"least_mm": 120, "greatest_mm": 180}
CARCASS = {"made_as": "carcass", "id": "sink", "name": "sink base", "width_mm": 800, "height_mm": 720, "depth_mm": 560, "legs": LEGS, "front": {}, "plinth_cuts": [{"kind": "grille", "left_mm": 100, "width_mm": 400, "height_mm": 60}]}
PINNED = [{"kind": "runner", "row": "runner-500", "sha": "0123456789abcdef"}]
SERVICES = {
    "services": [{"id": "socket", "name": "socket", "kind": "socket", "x_mm": 300, "up_mm": 450, "width_mm": 90, "height_mm": 90, "serves": "sink"}],
    "passages": [{"id": "hose", "name": "hose", "kind": "waste", "from_item": "sink", "to_item": "bay", "diameter_mm": 45, "from_back_mm": 60, "below_top_mm": 300}],
}
HANGS = {"made_as": "carcass", "id": "dishes", "name": "dishes", "width_mm": 800, "height_mm": 720, "depth_mm": 320, "storey": "wall"}
FITTED_OUT = {"connector": "connector-5", "compartments": [{
    "id": "sink-all", "name": "all", "stack": {"members": [{"id": "sink-door", "name": "door", "hung": "left", "hinge": "hinge-110", "plate": "plate-2"}]},
    "inner_drawers": [{"id": "sink-inner", "name": "inner", "up_mm": 20, "height_mm": 150, "runner": "runner-500"}],
    "pull_outs": [{"id": "sink-bin", "name": "bin", "pull_out": "bin-300"}], "shelves": [{"id": "sink-shelf", "name": "shelf", "up_mm": 350, "pins": "pin-5"}]}]}
HANGS |= {"fitting_out": FITTED_OUT}
SET_OUT = {
    "left_end": {"at": "wall"}, "opening_mm": 2600, "batten": {"supports_mm": [100, 700, 1300]}, "cornice": {},
    "features": [{"id": "window", "name": "window", "kind": "window", "left_mm": 100, "right_mm": 700, "bottom_mm": 1000, "top_mm": 2100}],
    "anchor": {"on": "feature", "feature": "window", "item": "sink", "what": "bowl"}, "wall_anchor": {"on": "mark", "x_mm": 400, "item": "dishes"},
    "line_up": [{"item": "dishes", "item_edge": "centre", "on": "window", "on_edge": "centre"}],
    **SERVICES,
}
OVEN = {"id": "oven", "name": "oven", "seat": "in_carcass", "least_height_mm": 590}
WASHER = {"id": "washer", "name": "washing machine", "seat": "under_top", "least_height_mm": 865, "vents": [{"by": "grille", "area_cm2": 200}]}
SIX_OTHERS = [
    {"made_as": "bay", "id": "bay", "name": "bay", "width_mm": 600, "depth_mm": 560, "appliance": WASHER},
    {"made_as": "panel", "id": "panel", "name": "panel", "thickness_mm": 18, "depth_mm": 580},
    {"made_as": "filler", "id": "filler", "name": "filler", "width_mm": 50, "least_mm": 30, "greatest_mm": 80},
    {"made_as": "post", "id": "post", "name": "post", "width_mm": 60},
    {"made_as": "open_unit", "id": "shelf", "name": "open unit", "width_mm": 300, "height_mm": 720, "depth_mm": 560},
    {"made_as": "gap", "id": "gap", "name": "gap", "width_mm": 10},
]


def document():
    """A job with one of everything in it."""
    return copy.deepcopy({
        "format": 1, "id": "barn", "title": "Barn", "place": "", "client": "", "time_zone": "Europe/London",
        "base_carcass_height_mm": 720, "hardware": PINNED,
        "lasers": [{"id": "laser", "name": "laser"}],
        "instruments": [{"id": "rule", "name": "rule"}],
        "rooms": [{
            "id": "kitchen", "name": "Kitchen", "corner": "left of the window",
            "walls": [{"id": "wall", "name": "wall", "points": [{"x_mm": 0, "y_mm": 0}, {"x_mm": 4000, "y_mm": 0}]}],
            "worktop": {"thickness_mm": 30, "assumed": ["thickness_mm"]},
            "bench_marks": [{"id": "mark", "name": "mark"}],
            "layers": [
                {"id": "tiles", "name": "tiles", "manner": "follows", "thickness_mm": 10, "laid_at": "tiled", "bays": ["bay"]},
            ],
            "old_coverings": [{"id": "vinyl", "name": "vinyl", "thickness_mm": None}],
            "break_lines": [{"id": "step", "name": "step", "points": [{"x_mm": 0, "y_mm": 9}, {"x_mm": 4, "y_mm": 9}]}],
            "doorways": [
                {"id": "door", "name": "door", "from_point": {"x_mm": 0, "y_mm": 1000}, "to_point": {"x_mm": 0, "y_mm": 1800}},
            ],
            "height_limits": [
                {"id": "sill", "name": "sill", "height_of": "worktop_top", "bound": "at_most", "stations": ["spot"]},
            ],
            "runs": [
                {"id": "run", "name": "run", "x_mm": 0, "y_mm": 0, "bearing_deg": 0, "wall": "wall", "items": [CARCASS, *SIX_OTHERS, HANGS], **SET_OUT},
            ],
            "stations": [{"id": "spot", "name": "spot", "x_mm": 1, "y_mm": 2}],
        }],
    })


def with_items(items):
    """A job whose run has these items and nothing that is set out from others."""
    changed = document()
    run = changed["rooms"][0]["runs"][0]
    for name in ("anchor", "wall_anchor", "line_up", "services", "passages"):
        del run[name]
    run["items"] = items
    return changed


def put(target, path, value):
    *steps, last = [int(step) if step.isdigit() else step for step in path.split(".")]
    for step in steps:
        target = target[step]
    target[last] = value


def errors_of(changed):
    with pytest.raises(DocumentError) as refused:
        load_job(changed)
    return refused.value.errors


def wrong(path, value):
    changed = document()
    put(changed, path, value)
    return errors_of(changed)


def as_text(job):
    return job_text(job).encode()


def test_a_job_with_one_of_everything_comes_in_as_its_dataclasses():
    job = load_job(document())
    kinds = [type(item).__name__ for item in job.rooms[0].runs[0].items]
    assert kinds == ["Carcass", "ApplianceBay", "EndPanel", "Filler", "CornerPost", "OpenUnit", "Gap", "Carcass"]
    assert job.rooms[0].runs[0].items[0].legs.reserve_mm == 5.0
    assert hash(job) == hash(load_job(document()))


def test_after_the_first_round_the_file_is_the_same_byte_for_byte():
    once = as_text(load_job(document()))
    again = as_text(load_job(parse_json(once)))
    assert again == once
    assert load_job(parse_json(once)) == load_job(document())


@pytest.mark.parametrize("name", ["hall.json"])
def test_the_demo_job_comes_in_and_goes_out(name):
    text = (Path(__file__).parents[2] / "demo" / name).read_bytes()
    once = as_text(load_job(parse_json(text)))
    assert as_text(load_job(parse_json(once))) == once


def test_the_order_of_fields_in_the_file_changes_nothing():
    def turned(value):
        if isinstance(value, dict):
            return {name: turned(value[name]) for name in reversed(value)}
        return [turned(each) for each in value] if isinstance(value, list) else value

    assert as_text(load_job(turned(document()))) == as_text(load_job(document()))


def test_every_field_is_written_out():
    def fields_in(value):
        if isinstance(value, dict):
            yield set(value)
            for inner in value.values():
                yield from fields_in(inner)
        if isinstance(value, list):
            for inner in value:
                yield from fields_in(inner)

    dumped = dump_job(load_job(document()))
    assert set(dumped) == {"format"} | {field.name for field in dataclasses.fields(Job)}
    written = [fields - {"format"} for fields in fields_in(dumped)]
    for name, kind in records().items():
        assert {field.name for field in dataclasses.fields(kind.makes)} in written, name


def records():
    kinds: dict[str, type[Record]] = {"Job": JobRecord}
    gather(JobRecord, kinds)
    return kinds


def dataclasses_in(hint):
    """Every dataclass that a value of this type may hold."""
    if dataclasses.is_dataclass(hint):
        yield hint
        for inner in typing.get_type_hints(hint).values():
            yield from dataclasses_in(inner)
    for inner in typing.get_args(hint):
        yield from dataclasses_in(inner)


def test_records_and_dataclasses_have_the_same_fields_both_ways():
    assert {kind.makes for kind in records().values()} == set(dataclasses_in(Job))
    for name, kind in records().items():
        ours = kind().fields
        theirs = {field.name: field for field in dataclasses.fields(kind.makes)}
        assert set(ours) == set(theirs), name
        hints = typing.get_type_hints(kind.makes)
        for field_name, field in ours.items():
            kinds_of_value = typing.get_args(hints[field_name]) or (hints[field_name],)
            assert field.allow_none == (type(None) in kinds_of_value), f"{name}.{field_name}"
            assert field.required == (theirs[field_name].default is dataclasses.MISSING), f"{name}.{field_name}"
            plain = next(each for each in kinds_of_value if each is not type(None))
            is_tuple = typing.get_origin(hints[field_name]) is tuple or typing.get_origin(plain) is tuple
            assert isinstance(field, Listing) == is_tuple, f"{name}.{field_name}"
            if isinstance(field, Part):
                assert field.nested.makes in kinds_of_value
            if isinstance(field, Choice) and not isinstance(plain, types.GenericAlias) and plain is not str:
                assert list(field.members.values()) == list(plain)


@pytest.mark.parametrize("number", range(1, FORMAT + 1))
def test_a_kept_sample_of_every_format_still_comes_in(number):
    kept = parse_json((KEPT / f"format_{number}.json").read_bytes())
    assert kept["format"] == number
    assert as_text(load_job(kept)) == as_text(load_job(dump_job(load_job(kept))))
    assert set(RAISING) == set(range(1, FORMAT))


def test_a_format_that_is_not_known_is_named():
    for value in (0, 2, "1", None, True, 1.5):
        assert set(errors_of({**document(), "format": value})) == {"format"}
    without = document()
    del without["format"]
    assert set(errors_of(without)) == {"format"}
    assert set(errors_of([])) == {"document"}


def test_a_field_too_many_is_named_with_those_allowed():
    errors = wrong("rooms.0.runs.0.items.0.witdh_mm", 800)
    assert list(errors) == ["rooms.0.runs.0.items.0.witdh_mm"]
    assert "width_mm" in errors["rooms.0.runs.0.items.0.witdh_mm"][0]


@pytest.mark.parametrize("path", ["title", "rooms.0.worktop.thickness_mm", "rooms.0.runs.0.items.0.width_mm", "rooms.0.runs.0.items.1.made_as"])
def test_a_missing_field_is_named(path):
    copied = document()
    *steps, last = [int(step) if step.isdigit() else step for step in path.split(".")]
    inner = copied
    for step in steps:
        inner = inner[step]
    del inner[last]
    assert errors_of(copied)[path][0].startswith("This field is missing")


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf, 1e300, -1e300, 10**400, "800", "", True, None, [], {}, 0, -800])
def test_what_is_no_width_is_refused_with_what_is_allowed(value):
    errors = wrong("rooms.0.runs.0.items.0.width_mm", value)
    assert list(errors) == ["rooms.0.runs.0.items.0.width_mm"]
    assert value is None or "allowed: 1 to 20000 mm" in errors["rooms.0.runs.0.items.0.width_mm"][0]


WRONG = {
    "id": ["", "Barn", "-barn", "a b", "a" * 65, 7, None, "barn\n", "bärn"],
    "title": ["", "   ", "a\0b", "\ud800", "a" * 201, "two\nlines", 7, None],
    "time_zone": ["Mars/Olympus", "", None, 1, "../etc", "europe/london"],
    "flatness": [{"name": "as flat as can be"}, {"straightedge_mm": 1}, "DIN 18202 row 3"],
    "lasers": [None, {}, "laser", [None], [{}]],
    "rounding_mm": [0, -1],
    "rooms": [None, {}, [1], [[]]],
    "rooms.0.worktop": [None, [], "oak", {}],
    "rooms.0.worktop.assumed": [["colour"], ["assumed"], "thickness_mm", [1]],
    "rooms.0.walls.0.points": [[], [{"x_mm": 0, "y_mm": 0}], [{"x_mm": 0, "y_mm": 0}] * 2],
    "rooms.0.layers.0.laid_at": ["polished", None, 3, ["tiled"]],
    "rooms.0.layers.0.bays": [["no-such-bay"], ["sink"], "bay"],
    "rooms.0.layers.0.under_units": ["false", 0, None],
    "rooms.0.runs.0.wall": ["no-such-wall", "kitchen", 1],
    "rooms.0.runs.0.items.0.made_as": ["cupboard", None, 1, []],
    "rooms.0.runs.0.items.0.legs": [{"least_mm": 180, "greatest_mm": 120}, {"least_mm": 100, "greatest_mm": 180, "reserve_mm": 50}],
    "rooms.0.runs.0.items.0.legs.count": [3, 7, 9, 4.5, "4"],
    "rooms.0.runs.0.items.0.handing": ["up", None],
    "rooms.0.runs.0.items.3.least_mm": [90],
    "rooms.0.runs.0.items.1.appliance.greatest_height_mm": [800],
    "rooms.0.height_limits.0.stations": [["no-such-spot"], []],
    "rooms.0.height_limits.0.level_mm": [1000],
    "rooms.0.bench_marks.0.x_mm": [5],
    "rooms.0.doorways.0.to_point": [{"x_mm": 0, "y_mm": 1000}],
    "instruments.0": [{"id": "rule", "name": "rule", "unit": "mm", "decimals": 3}, {"id": "rule", "name": "rule", "unit": "inch"}],
}


@pytest.mark.parametrize(("path", "value"), [(path, value) for path, values in WRONG.items() for value in values])
def test_each_wrong_value_is_refused_where_it_stands(path, value):
    errors = wrong(path, value)
    near = path.rsplit(".", 1)[0] if "." in path else path
    assert errors and all(place.startswith(near) for place in errors), errors
    assert all(text.endswith(".") and (text[0].isupper() or text[0] in "-0123456789") for texts in errors.values() for text in texts)
    assert json.dumps(errors)


def test_an_id_is_given_once_over_all_kinds():
    assert "lasers.0.id" in wrong("rooms.0.runs.0.items.0.id", "laser")["rooms.0.runs.0.items.0.id"][0]
    assert list(wrong("rooms.0.id", "barn")) == ["rooms.0.id"]
    assert list(wrong("rooms.0.runs.0.items.1.appliance.id", "bay")) == ["rooms.0.runs.0.items.1.appliance.id"]
    changed = with_items([{**CARCASS, "appliances": [OVEN, OVEN]}, *SIX_OTHERS])
    assert list(errors_of(changed)) == ["rooms.0.runs.0.items.0.appliances.1.id"]


def test_a_removed_id_is_never_used_again():
    assert list(wrong("removed_ids", ["sink"])) == ["rooms.0.runs.0.items.0.id"]
    assert load_job({**document(), "removed_ids": ["old-sink"]}).removed_ids == ("old-sink",)


def test_layers_are_listed_from_below_upwards():
    changed = document()
    late = changed["rooms"][0]["layers"][0]
    changed["rooms"][0]["layers"] = [late, {**late, "id": "screed", "name": "screed", "laid_at": "levelled"}]
    assert list(errors_of(changed)) == ["rooms.0.layers"]


def test_legs_on_a_wall_unit_are_refused():
    assert list(wrong("rooms.0.runs.0.items.0.storey", "wall")) == ["rooms.0.runs.0.items.0.legs"]


def test_all_that_is_wrong_is_said_at_once():
    changed = document()
    put(changed, "title", "")
    put(changed, "rooms.0.worktop.thickness_mm", "30")
    put(changed, "rooms.0.runs.0.x_mm", None)
    assert set(errors_of(changed)) == {"title", "rooms.0.worktop.thickness_mm", "rooms.0.runs.0.x_mm"}


@pytest.mark.parametrize("count", [None, 4, 5, 6, 8])
def test_a_unit_may_stand_on_four_five_six_or_eight_legs(count):
    changed = document()
    put(changed, "rooms.0.runs.0.items.0.legs.count", count)
    assert load_job(changed).rooms[0].runs[0].items[0].legs.count == count


@pytest.mark.parametrize("count", [0, 1, 500])
def test_a_job_of_none_or_of_500_items_comes_in(count):
    changed = with_items([{**CARCASS, "id": f"unit-{place}"} for place in range(count)])
    changed["rooms"][0]["layers"] = []
    job = load_job(changed)
    assert len(job.rooms[0].runs[0].items) == count
    assert load_job(parse_json(as_text(job))) == job


def test_more_items_than_can_be_worked_with_are_refused():
    changed = with_items([{**CARCASS, "id": f"unit-{place}"} for place in range(1500)])
    run = changed["rooms"][0]["runs"][0]
    changed["rooms"][0]["runs"].append({**run, "id": "other", "features": [], "items": [{**CARCASS, "id": f"more-{place}"} for place in range(1500)]})
    changed["rooms"][0]["layers"] = []
    assert list(errors_of(changed)) == ["rooms"]


def test_a_job_without_rooms_or_a_room_without_runs_comes_in():
    assert load_job({**document(), "rooms": []}).rooms == ()
    changed = document()
    changed["rooms"][0] |= {"runs": [], "layers": []}
    assert load_job(changed).rooms[0].runs == ()


def test_whole_numbers_are_written_without_a_point_and_nought_without_a_sign():
    changed = document()
    put(changed, "rooms.0.runs.0.x_mm", -0.0)
    put(changed, "rooms.0.runs.0.y_mm", 595.0)
    put(changed, "rooms.0.runs.0.void_mm", 12.5)
    run = dump_job(load_job(changed))["rooms"][0]["runs"][0]
    assert [repr(run[name]) for name in ("x_mm", "y_mm", "void_mm")] == ["0", "595", "12.5"]


def test_the_published_schema_is_sound_and_takes_what_goes_out():
    schema = job_schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    oracle = jsonschema.Draft202012Validator(schema)
    oracle.validate(dump_job(load_job(document())))
    oracle.validate(document())


@pytest.mark.parametrize(
    ("path", "value"),
    [
        ("rooms.0.runs.0.items.0.width_mm", "800"), ("rooms.0.runs.0.items.0.width_mm", 0), ("id", "Barn"), ("format", 2),
        ("rooms.0.runs.0.items.0.witdh_mm", 1), ("rooms.0.layers.0.laid_at", "polished"), ("title", None),
    ],
)
def test_the_published_schema_refuses_what_the_program_refuses(path, value):
    changed = document()
    put(changed, path, value)
    assert not jsonschema.Draft202012Validator(job_schema()).is_valid(changed)
    assert errors_of(changed)


def test_every_kind_of_item_is_one_of_the_items():
    kinds = JobRecord().fields["rooms"].inner.nested().fields["runs"].inner.nested().fields["items"].inner
    assert isinstance(kinds, OneOf)
    assert {kind.makes for kind in kinds.kinds.values()} == set(typing.get_args(job_package.Item))
    assert all(dataclasses.fields(kind.makes)[-1].default == word for word, kind in kinds.kinds.items())
