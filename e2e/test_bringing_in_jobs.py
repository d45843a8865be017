"""The office brings in job files on its screen: what is wrong is said by its path, and what was chosen is kept."""

import json
from pathlib import Path

import phone as phones
import pytest
from playwright.sync_api import expect

SMALL = json.loads((Path(__file__).parent / "small-job.json").read_text(encoding="utf-8"))


@pytest.fixture
def desk(make_phone, office):
    desk = make_phone(phones.DESK)
    desk.open(f"#/join/{office.code('Office')}")
    desk.button("Sign in here").click()
    expect(desk.page.get_by_role("heading", level=1, name="Jobs")).to_be_visible()
    desk.go("#/people")
    return desk


def bring_in(desk, tmp_path, text, name="job.json"):
    path = tmp_path / name
    path.write_text(text, encoding="utf-8")
    desk.page.get_by_label("Bring in a job file").set_input_files(path)
    desk.button("Bring in").click()


def changed(id, **more):
    return json.dumps({**SMALL, "id": id, **more})


def kept_choice(desk):
    return desk.page.get_by_label("Bring in a job file").evaluate("input => input.files[0].name")


@pytest.mark.parametrize("text", ["{", "", '{"id": 1} trailing', "NaN"])
def test_a_file_that_is_no_json_is_said_to_be_none(desk, tmp_path, text):
    bring_in(desk, tmp_path, text)
    said = desk.page.get_by_role("alert")
    expect(said).to_contain_text("job.json")
    expect(said).to_contain_text("no JSON")
    assert kept_choice(desk) == "job.json"


def test_what_is_wrong_in_a_job_file_is_said_by_its_path_and_the_choice_is_kept(desk, tmp_path, office):
    before = {one["id"] for one in office.ask("/jobs")["jobs"]}
    rooms = json.loads(json.dumps(SMALL["rooms"]))
    rooms[0]["colour"] = "white"
    rooms[0]["runs"][0]["items"][0]["width_mm"] = "wide"
    del rooms[0]["corner"]
    rooms[0]["runs"][0]["items"][0]["legs"] = {"least_mm": 180, "greatest_mm": 120}
    bring_in(desk, tmp_path, changed("wrong", rooms=rooms))
    said = desk.page.get_by_role("alert")
    for path in ("colour", "corner", "width_mm"):
        expect(said).to_contain_text(path)
    assert kept_choice(desk) == "job.json"
    assert {one["id"] for one in office.ask("/jobs")["jobs"]} == before


def test_legs_with_their_range_reversed_are_refused_by_path(desk, tmp_path):
    rooms = json.loads(json.dumps(SMALL["rooms"]))
    rooms[0]["runs"][0]["items"][0]["legs"] = {"least_mm": 180, "greatest_mm": 120}
    bring_in(desk, tmp_path, changed("reversed", rooms=rooms))
    expect(desk.page.get_by_role("alert")).to_contain_text("legs")


def test_a_good_file_is_in_and_the_same_once_more_names_both_ways_out(desk, tmp_path, office, job):
    new = changed(f"{job}-new", title="Ferry hut, made new")
    bring_in(desk, tmp_path, new)
    expect(desk.page.get_by_text("job.json is in.")).to_be_visible()
    assert f"{job}-new" in {one["id"] for one in office.ask("/jobs")["jobs"]}
    bring_in(desk, tmp_path, new)
    said = desk.page.get_by_role("alert")
    expect(said).to_contain_text("is here already")
    expect(said.get_by_role("button", name="Replace what is here")).to_be_visible()
    said.get_by_role("button", name="Bring it in as a copy").click()
    expect(desk.page.get_by_text("job.json is in, as a copy.")).to_be_visible()
    assert sum(one["title"] == "Ferry hut, made new" for one in office.ask("/jobs")["jobs"]) == 2
