"""What a carcass is fitted out with, services and pinned rows in a job file: what clashes is said at its field."""

import copy

import pytest

from oddleg.documents.job_file import dump_job, load_job
from oddleg.documents.strict_json import DocumentError
from oddleg.job import BackIs, Box, FrontIs, HungOn, Stack, TopIs, VentBy

DOOR = {"id": "door", "name": "door", "hung": "left", "hinge": "hinge-110", "plate": "plate-2"}
DRAWER = {"id": "top", "name": "top drawer", "front": "drawer", "height_mm": 140, "runner": "runner-500"}
INNER = {"id": "tray", "name": "tray", "up_mm": 20, "height_mm": 120, "runner": "runner-500"}
BIN = {"id": "bin", "name": "bin", "pull_out": "bin-300"}
SHELF = {"id": "shelf", "name": "shelf", "up_mm": 350, "pins": "pin-5"}
SOCKET = {"id": "socket", "name": "socket", "kind": "socket", "x_mm": 300, "up_mm": 450, "width_mm": 90, "height_mm": 90}
HOSE = {"id": "hose", "name": "hose", "kind": "waste", "from_item": "base", "to_item": "bay", "diameter_mm": 45, "from_back_mm": 60, "below_top_mm": 300}
MACHINE = {"id": "machine", "name": "dishwasher", "seat": "under_top", "least_height_mm": 820}
BASE = {"made_as": "carcass", "id": "base", "name": "base", "width_mm": 600, "height_mm": 720, "depth_mm": 560}


def document(parts=None, base=None, run=None, job=None, machine=None):
    """One base beside a bay; `parts`: compartments of the base."""
    fitted = {} if parts is None else {"fitting_out": {"compartments": parts}}
    return copy.deepcopy({
        "format": 1, "id": "barn", "title": "Barn", "place": "", "client": "", "time_zone": "Europe/London", "base_carcass_height_mm": 720,
        "lasers": [], "instruments": [], **(job or {}),
        "rooms": [{
            "id": "kitchen", "name": "Kitchen", "corner": "left of the window", "worktop": {"thickness_mm": 30}, "bench_marks": [], "walls": [],
            "runs": [{"id": "run", "name": "Run", "x_mm": 0, "y_mm": 0, "bearing_deg": 0, **(run or {}),
                      "items": [{**BASE, **fitted, **(base or {})},
                                {"made_as": "bay", "id": "bay", "name": "bay", "width_mm": 600, "depth_mm": 560, "appliance": {**MACHINE, **(machine or {})}}]}],
        }],
    })  # fmt: skip


def part(**more):
    return {"id": "inside", "name": "inside", **more}


def stack(*members, **more):
    return [part(stack={"members": list(members), **more})]


def errors_of(*given, **more):
    with pytest.raises(DocumentError) as refused:
        load_job(document(*given, **more))
    return {path: " ".join(texts) for path, texts in refused.value.errors.items()}


def test_what_is_left_out_gets_its_default_and_is_written_out():
    job = load_job(document(stack(DOOR)))
    item = job.rooms[0].runs[0].items[0]
    (compartment,) = item.fitting_out.compartments
    assert item.box == Box(top=TopIs.PANEL, back=BackIs.BETWEEN)
    assert (compartment.stack.gap_mm, compartment.stack.snap) == (Stack().gap_mm, False)
    (door,) = compartment.stack.members
    assert (door.front, door.hung, door.height_mm, door.share) == (FrontIs.DOOR, HungOn.LEFT, None, None)
    written = dump_job(job)
    assert written["hardware"] == [] and written["holes"]["shop_mm"] == 0.1 and written["cut_outs"]["clearance_mm"] == 10
    assert written["rooms"][0]["runs"][0]["items"][0]["fitting_out"]["spacer_strip_mm"] == 50
    assert load_job(written) == job


def test_all_that_a_carcass_is_fitted_out_with_comes_in():
    inner = part(stack={"members": [DRAWER, DOOR]}, inner_drawers=[INNER], pull_outs=[BIN], shelves=[SHELF])
    job = load_job(document(
        [inner], run={"services": [{**SOCKET, "serves": "machine"}], "passages": [HOSE]},
        machine={"vents": [{"by": "duct", "bore_mm": 150, "service": "socket"}], "relief_height_mm": 150, "relief_depth_mm": 60},
        job={"hardware": [{"kind": "runner", "row": "runner-500", "sha": "0123456789abcdef"}]},
    ))  # fmt: skip
    run = job.rooms[0].runs[0]
    (compartment,) = run.items[0].fitting_out.compartments
    assert [len(each) for each in (compartment.stack.members, compartment.inner_drawers, compartment.pull_outs, compartment.shelves)] == [2, 1, 1, 1]
    assert (run.services[0].serves, run.passages[0].to_item, run.items[1].appliance.vents[0].by) == ("machine", "bay", VentBy.DUCT)


def test_a_stack_on_an_open_unit_is_read_since_the_plan_tells_of_it():
    load_job(document(stack(DOOR), base={"made_as": "open_unit"}))


MEMBER = "fitting_out.compartments.0.stack.members.0"
WRONG = [
    (stack({**DRAWER, "share": 1}), f"{MEMBER}.share", "one of the two"),
    (stack({**DRAWER, "height_mm": None, "share": 0}), f"{MEMBER}.share", "out of range"),
    (stack({**DRAWER, "height_mm": None, "share": -1}), f"{MEMBER}.share", "out of range"),
    (stack({**DRAWER, "height_mm": 0}), f"{MEMBER}.height_mm", "out of range"),
    (stack({**DRAWER, "hinge": "hinge-110"}), f"{MEMBER}.hinge", "it takes runner"),
    (stack({**DRAWER, "hung": "left"}), f"{MEMBER}.hung", "Only a door hangs"),
    (stack({**DRAWER, "pull_out": "bin-300"}), f"{MEMBER}.pull_out", "it takes runner"),
    (stack({**DOOR, "runner": "runner-500"}), f"{MEMBER}.runner", "hinge and plate"),
    (stack({**DOOR, "hung": None}), f"{MEMBER}.hung", "left, right or pair"),
    (stack({**DOOR, "plate": None}), f"{MEMBER}.plate", "give both rows, or neither"),
    (stack({**DOOR, "hinge": None}), f"{MEMBER}.hinge", "give both rows, or neither"),
    (stack({**DOOR, "cups_mm": [600, 100]}), f"{MEMBER}.cups_mm", "rise"),
    (stack({**DOOR, "cups_mm": [100, 100]}), f"{MEMBER}.cups_mm", "once"),
    (stack({**DOOR, "front": "fixed"}), f"{MEMBER}.hinge", "no hardware"),
    (stack({**DOOR, "front": "curtain"}), f"{MEMBER}.front", "door, drawer, flap"),
    (stack(DOOR, gap_mm=-1), "fitting_out.compartments.0.stack.gap_mm", "out of range"),
    (stack(*({**DOOR, "id": f"door-{k}"} for k in range(51))), "fitting_out.compartments.0.stack.members", "50"),
    ([part(inner_drawers=[{**INNER, "runner": None}])], "fitting_out.compartments.0.inner_drawers.0.runner", ""),
    ([part(inner_drawers=[{name: INNER[name] for name in INNER if name != "runner"}])], "fitting_out.compartments.0.inner_drawers.0.runner", "missing"),
    ([part(pull_outs=[{"id": "bin", "name": "bin"}])], "fitting_out.compartments.0.pull_outs.0.pull_out", "missing"),
    ([part(shelves=[{**SHELF, "fixed": True}])], "fitting_out.compartments.0.shelves.0.pins", "no pins"),
    ([part(shelves=[{**SHELF, "spare": 1.5}])], "fitting_out.compartments.0.shelves.0.spare", "whole"),
    ([part(shelves=[{**SHELF, "id": f"shelf-{k}"} for k in range(51)])], "fitting_out.compartments.0.shelves", "50"),
    ([{"id": f"part-{k}", "name": "part"} for k in range(21)], "fitting_out.compartments", "20"),
    ([part(shelves=[SHELF, SHELF])], "fitting_out.compartments.0.shelves.1.id", "unique"),
    ([part(shelves=[{**SHELF, "id": "base"}])], "fitting_out.compartments.0.shelves.0.id", "unique"),
    ([part(), part()], "fitting_out.compartments.1.id", "unique"),
    (stack(DOOR, DOOR), "fitting_out.compartments.0.stack.members.1.id", "unique"),
    ([part(inner_drawers=[INNER], pull_outs=[{**BIN, "id": "tray"}])], "fitting_out.compartments.0.pull_outs.0.id", "unique"),
]  # fmt: skip


@pytest.mark.parametrize(("parts", "path", "words"), WRONG)
def test_each_wrong_field_of_what_a_carcass_holds_is_said_where_it_stands(parts, path, words):
    errors = errors_of(parts)
    assert words in errors[f"rooms.0.runs.0.items.0.{path}"]
    assert all(text.endswith(".") for text in errors.values())


WRONG_BOX = [
    ({"back": "groove"}, "groove_mm", "needs the groove's depth"),
    ({"groove_mm": 8}, "groove_mm", "Only a back in a groove"),
    ({"back": "groove", "groove_mm": 18}, "groove_mm", "less than the board, 18"),
    ({"top": "lid"}, "top", "panel, rails"),
    ({"rail_mm": 0}, "rail_mm", "out of range"),
]


@pytest.mark.parametrize(("box", "field", "words"), WRONG_BOX)
def test_each_wrong_field_of_a_box_is_said(box, field, words):
    assert words in errors_of(base={"box": box})[f"rooms.0.runs.0.items.0.box.{field}"]


WRONG_RUN = [
    ({"services": [{**SOCKET, "y_mm": 40}]}, "services.0.y_mm", "out of the wall"),
    ({"services": [{**SOCKET, "comes_from": "floor"}]}, "services.0.up_mm", "out of the floor"),
    ({"services": [{**SOCKET, "round": True, "height_mm": 80}]}, "services.0.height_mm", "its diameter, 90"),
    ({"services": [{**SOCKET, "kind": "steam"}]}, "services.0.kind", "socket, switch"),
    ({"services": [{**SOCKET, "serves": "kettle"}]}, "services.0.serves", "no item or appliance kettle in this room; it has base, bay, machine"),
    ({"services": [SOCKET, SOCKET]}, "services.1.id", "unique"),
    ({"services": [{**SOCKET, "id": f"socket-{k}"} for k in range(201)]}, "services", "200"),
    ({"passages": [{**HOSE, "to_item": "base"}]}, "passages.0.to_item", "itself"),
    ({"passages": [{**HOSE, "to_item": "cellar"}]}, "passages.0.to_item", "no item cellar in this run; it has base, bay"),
    ({"passages": [{**HOSE, "id": "base"}]}, "items.0.id", "unique"),
]


@pytest.mark.parametrize(("run", "path", "words"), WRONG_RUN)
def test_each_wrong_service_or_passage_is_said_where_it_stands(run, path, words):
    assert words in errors_of(run=run)[f"rooms.0.runs.0.{path}"]


WRONG_SHEET = [
    ({"drop_mm": 52}, "drop_mm", "let into the worktop"),
    ({"relief_height_mm": 150}, "relief_depth_mm", "give both"),
    ({"relief_depth_mm": 60}, "relief_height_mm", "give both"),
    ({"vents": [{"by": "grille", "bore_mm": 100}]}, "vents.0.bore_mm", "asked for by area_cm2"),
    ({"vents": [{"by": "chimney", "depth_mm": 40, "service": "socket"}]}, "vents.0.service", "Only a duct"),
    ({"vents": [{"by": "duct", "service": "flue"}]}, "vents.0.service", "no service flue in this room; it has socket"),
]


@pytest.mark.parametrize(("machine", "path", "words"), WRONG_SHEET)
def test_each_wrong_field_of_an_appliances_sheet_is_said(machine, path, words):
    errors = errors_of(machine=machine, run={"services": [SOCKET]})
    assert words in errors[f"rooms.0.runs.0.items.1.appliance.{path}"]


def test_a_row_is_pinned_once_and_by_a_code_of_16():
    pin = {"kind": "runner", "row": "runner-500", "sha": "0123456789abcdef"}
    assert "twice" in errors_of(job={"hardware": [pin, {**pin, "sha": "f" * 16}]})["hardware.1.row"]
    assert "16 digits" in errors_of(job={"hardware": [{**pin, "sha": "0123"}]})["hardware.0.sha"]
    load_job(document(job={"hardware": [pin, {**pin, "kind": "plate"}]}))
