"""A row of a chart as it is kept: it comes back as it was, also where a later program would not take it any more."""

import json

import pytest
import sample_room

from oddleg.charts import shipped_rows
from oddleg.documents.chart_row import chart_row, chart_row_text
from oddleg.documents.rows_named import rows_named_in
from oddleg.job import (
    Compartment,
    FittingOut,
    FrontIs,
    HungOn,
    InnerDrawer,
    InnerPullOut,
    Pin,
    Shelf,
    Stack,
    StackMember,
)
from oddleg.plan.hardware import KIND_OF, rows_named


@pytest.mark.parametrize("row", shipped_rows(), ids=lambda row: row.id)
def test_every_row_comes_back_as_it_was(row):
    assert chart_row(KIND_OF[type(row)], chart_row_text(row)) == row


def test_a_row_kept_by_an_earlier_program_is_read_as_it_stands():
    """Word for word what was kept; its pitch is one that no chart may have today."""
    kept = (
        '{"id": "pin-5", "name": "pin", "hole_mm": 5.0, "hole_depth_mm": 12.0, "row_mm": 37.0, "pitch_mm": 1000.0, '
        '"least_back_mm": 20.0, "load_kg": 30.0, "source": "a sheet", "checked_on": "", "sha": "0123456789abcdef"}'
    )
    assert chart_row("pin", kept) == Pin(
        "pin-5", "pin", 5.0, 12.0, 37.0, 1000.0, 20.0, 30.0, "a sheet", "", "0123456789abcdef"
    )


def fitted():
    door = StackMember("d", "door", FrontIs.DOOR, hung=HungOn.LEFT, hinge="h", plate="p")
    drawer = StackMember("e", "drawer", FrontIs.DRAWER, runner="r")
    pull = StackMember("f", "bin", FrontIs.PULL_OUT, pull_out="o")
    inside = Compartment(
        "c", "inside", stack=Stack((door, drawer, pull)), inner_drawers=(InnerDrawer("i", "inner", 0.0, 100.0, "r-inner"),),
        pull_outs=(InnerPullOut("j", "rack", "o-inner"),), shelves=(Shelf("s", "shelf", 300.0, pins="n"),),
    )  # fmt: skip
    return FittingOut((inside,), leg="l", bracket="b", connector="c")


def test_every_row_that_an_item_names_is_told_by_path_and_none_is_forgotten():
    item = sample_room.carcass("base", fitting_out=fitted())
    job = sample_room.job(sample_room.room(sample_room.run(item)))
    found = list(rows_named_in(job))
    assert sorted((kind, id) for _, kind, id in found) == sorted(rows_named(item))
    assert len(found) == 10
    inside = "rooms.0.runs.0.items.0.fitting_out"
    paths = {path for path, _, _ in found}
    assert {
        f"{inside}.leg",
        f"{inside}.compartments.0.stack.members.0.hinge",
        f"{inside}.compartments.0.shelves.0.pins",
    } <= paths


def test_what_is_kept_is_plain_json():
    for row in shipped_rows():
        assert json.loads(chart_row_text(row))["id"] == row.id
