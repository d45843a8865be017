"""Jobs come in as documents, are kept as revisions, and go out as they are."""

import copy
import json

import pytest


def put(desk, job, revision, headers=None):
    match = {} if revision is None else {"If-Match": f'"{revision}"'}
    return desk.ask("PUT", f"/jobs/{job['id']}", json=job, headers=match)


def exported(desk, job="hall"):
    return json.loads(desk.ask("GET", f"/jobs/{job}").text)


def ids(value):
    if isinstance(value, dict):
        return ({value["id"]} if "id" in value else set()).union(*(ids(one) for one in value.values()))
    return set().union(*(ids(one) for one in value)) if isinstance(value, list) else set()


def test_an_export_brought_in_again_is_the_same_byte_for_byte(desk):
    first = desk.ask("GET", "/jobs/hall")
    assert (first.headers["ETag"], first.mimetype) == ('"1"', "application/json")
    answer = desk.ask("PUT", "/jobs/hall", data=first.data, headers={"If-Match": first.headers["ETag"]})
    assert (answer.status_code, answer.headers["ETag"]) == (200, '"2"')
    assert answer.data == first.data == desk.ask("GET", "/jobs/hall").data


def test_an_unchanged_job_is_not_sent_twice(desk):
    assert desk.ask("GET", "/jobs/hall", headers={"If-None-Match": '"1"'}).status_code == 304


def test_an_import_accepts_the_proposed_stations(desk):
    (room,) = exported(desk)["rooms"]
    assert len(room["stations"]) >= 4


def test_a_known_job_is_refused_with_both_ways_out(desk, made):
    answer = desk.ask("POST", "/jobs", json=made.hall())
    assert (answer.status_code, answer.mimetype) == (409, "application/problem+json")
    assert "as_copy" in answer.json["detail"]
    assert "If-Match" in answer.json["detail"]
    assert "revision 1" in answer.json["detail"]


def test_a_copy_has_an_id_of_its_own_and_shares_nothing(desk, fitter, made):
    fitter.push(fitter.entry(made.set_up()))
    answer = desk.ask("POST", "/jobs", json=exported(desk), query_string={"as_copy": 1})
    assert answer.status_code == 201
    copied = json.loads(answer.text)
    assert copied["id"] != "hall"
    assert {**copied, "id": "hall"} == exported(desk)
    assert answer.headers["Location"] == f"/api/v1/jobs/{copied['id']}"
    assert desk.log(copied["id"]) == []


def test_a_put_needs_the_revision_it_started_from(desk, made):
    job = exported(desk)
    missing = put(desk, job, None)
    assert (missing.status_code, missing.mimetype) == (428, "application/problem+json")
    assert put(desk, job, 1).headers["ETag"] == '"2"'
    stale = put(desk, job, 1)
    assert (stale.status_code, stale.mimetype) == (412, "application/problem+json")
    assert "latest is 2" in stale.json["detail"]
    for odd in ("*", 'W/"2"', "2", '"two"'):
        assert desk.ask("PUT", "/jobs/hall", json=job, headers={"If-Match": odd}).status_code == 412


def test_a_put_of_another_job_or_of_none_is_refused(desk, made):
    answer = desk.ask("PUT", "/jobs/hall", json=made.hall(id="barn"), headers={"If-Match": '"1"'})
    assert (answer.status_code, list(answer.json["errors"])) == (422, ["id"])
    assert put(desk, made.hall(id="barn"), 1).status_code == 404


def test_a_removed_id_becomes_a_tombstone_and_is_never_used_again(desk):
    job = exported(desk)
    gone = job["rooms"][0]["runs"][0]["items"].pop()
    assert put(desk, job, 1).status_code == 200
    assert gone["id"] in exported(desk)["removed_ids"]
    job = exported(desk)
    again = copy.deepcopy(job)
    again["rooms"][0]["runs"][0]["items"].append(gone)
    assert put(desk, again, 2).status_code == 422
    # leaving the tombstones out of the document does not bring the id back
    answer = put(desk, {**again, "removed_ids": []}, 2)
    assert (answer.status_code, list(answer.json["errors"])) == (422, ["rooms.0.runs.0.items.1.id"])
    assert put(desk, {**job, "removed_ids": []}, 2).status_code == 200
    assert gone["id"] in exported(desk)["removed_ids"]


def test_a_front_taken_out_by_mistake_may_come_back(desk):
    """No entry names it by its id; a ticked hole carries where it was drilled."""
    job = exported(desk)
    item = job["rooms"][0]["runs"][0]["items"][0]
    item["fitting_out"] = {"compartments": [{"id": "all", "name": "all", "stack": {"members": [{"id": "lid", "name": "lid", "front": "fixed"}]}}]}
    assert put(desk, job, 1).status_code == 200
    bare = exported(desk)
    whole, bare["rooms"][0]["runs"][0]["items"][0]["fitting_out"] = copy.deepcopy(bare), None
    assert put(desk, bare, 2).status_code == 200 and exported(desk)["removed_ids"] == []
    assert put(desk, whole, 3).status_code == 200


def test_every_id_that_goes_becomes_a_tombstone(desk, made):
    before = ids(exported(desk))
    job = exported(desk)
    job["rooms"] = [{**job["rooms"][0], "id": "pantry", "runs": [], "walls": [], "bench_marks": [], "stations": []}]
    assert put(desk, job, 1).status_code == 200
    after = exported(desk)
    assert set(after["removed_ids"]) == before - ids({**after, "removed_ids": []})


def test_a_room_that_comes_without_stations_keeps_those_it_had(desk, made):
    before = exported(desk)["rooms"][0]["stations"]
    assert put(desk, made.hall(title="Hall kitchen, again"), 1).status_code == 200
    assert exported(desk)["rooms"][0]["stations"] == before
    assert exported(desk)["removed_ids"] == []


def test_a_station_with_a_reading_neither_moves_nor_changes_its_name(desk, fitter, made):
    job = exported(desk)
    station, other = job["rooms"][0]["stations"][:2]
    fitter.push(fitter.entry(made.set_up()), fitter.entry(made.reading(station["id"])))
    for change in ({"x_mm": station["x_mm"] + 10}, {"name": "elsewhere"}):
        moved = copy.deepcopy(job)
        moved["rooms"][0]["stations"][0].update(change)
        answer = put(desk, moved, 1)
        assert (answer.status_code, list(answer.json["errors"])) == (422, ["rooms.0.stations.0"])
    free = copy.deepcopy(job)
    free["rooms"][0]["stations"][1]["x_mm"] = other["x_mm"] + 10
    assert put(desk, free, 1).status_code == 200


def test_an_id_that_was_given_on_site_is_not_given_again_at_the_desk(desk, fitter, made):
    added = {"name": "high spot", "room": "kitchen", "x_mm": 900, "y_mm": 900, "serves": "", "surface": "floor"}
    station = made.note(target="hump") | {"kind": "station", "data": added}
    line = made.note(target="string-1") | {"kind": "wall_line", "data": {"name": "string", "run": "run", "square_to": None, "stands_off": None}}
    mm = {name: {"raw": raw, "unit": "mm", "value": raw} for name, raw in (("left", "900"), ("right", "1500"))}
    seen = {"run": "run", "name": "window", "what": "window", **mm, "bottom": None, "top": None, "stands_out": None, "above": "datum"}
    feature = made.note(target="window") | {"kind": "feature", "data": seen}
    sent = (made.set_up("set-up-1"), station, line, feature)
    assert fitter.statuses(*(fitter.entry(one) for one in sent)) == ["stored"] * 4
    job = json.loads(desk.ask("GET", "/jobs/hall").text)
    room = job["rooms"][0]
    for id, kind in (("set-up-1", "set-up"), ("hump", "station"), ("string-1", "line"), ("window", "feature")):
        room["runs"][0]["items"][1]["id"] = id
        errors = put(desk, job, 1).json["errors"]
        assert list(errors) == ["rooms.0.runs.0.items.1.id"] and kind in errors["rooms.0.runs.0.items.1.id"][0]
    room["runs"][0]["items"][1]["id"] = "unit-2"
    room["stations"].append({"id": "hump", "name": "high spot", "x_mm": 900, "y_mm": 900})
    room["runs"][0]["features"] = [{"id": "window", "name": "window", "kind": "window", "left_mm": 900, "right_mm": 1500}]
    assert put(desk, job, 1).status_code == 200


BAD = {
    "title": lambda job: job.pop("title"),
    "rooms.0.runs.0.items.0.width_mm": lambda job: job["rooms"][0]["runs"][0]["items"][0].update(width_mm="600"),
    "rooms.0.runs.0.items.0.legs.least_mm": lambda job: job["rooms"][0]["runs"][0]["items"][0].update(
        legs={"least_mm": 180, "greatest_mm": 100}
    ),
    "colour": lambda job: job.update(colour="red"),
    "rooms.0.runs.0.items.1.id": lambda job: job["rooms"][0]["runs"][0]["items"][1].update(id="unit-1"),
    "format": lambda job: job.update(format=99),
    "time_zone": lambda job: job.update(time_zone="Moon/Base"),
}


@pytest.mark.parametrize("path", BAD)
def test_a_bad_job_document_is_refused_by_path(desk, made, path):
    job = made.hall(id="barn")
    BAD[path](job)
    answer = desk.ask("POST", "/jobs", json=job)
    assert (answer.status_code, answer.mimetype) == (422, "application/problem+json")
    assert path in answer.json["errors"]
    assert desk.ask("GET", "/jobs/barn").status_code == 404


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"{",
        b"\xff\xfe",
        b'{"format": 1, "format": 1}',
        b'{"format": NaN}',
        b'{"format": 1e400}',
        b"[" * 100_000,
        b'"\\u0000"',
        b'"\\ud800"',
        b'"' + b"x" * 4_000_001 + b'"',
    ],
)
@pytest.mark.parametrize(("method", "path"), [("POST", "/jobs"), ("PUT", "/jobs/hall")])
def test_a_body_that_cannot_be_read_is_400(desk, method, path, data):
    answer = desk.ask(method, path, data=data, headers={"If-Match": '"1"'})
    assert (answer.status_code, answer.mimetype) == (400, "application/problem+json")
    assert answer.json["errors"]


@pytest.mark.parametrize("data", [b"[]", b"null", b"3", b'"hall"', b"{}"])
def test_what_can_be_read_and_is_no_job_is_422(desk, data):
    answer = desk.ask("POST", "/jobs", data=data)
    assert (answer.status_code, answer.mimetype) == (422, "application/problem+json")
    assert answer.json["errors"]


def test_more_proposals_than_a_job_may_hold_stay_proposals(desk, made):
    """A run of 1.4 km: back and front, every 1200 or closer, 2 x 1168 stations; a room holds 2000."""
    job = made.hall(id="tunnel")
    unit = job["rooms"][0]["runs"][0]["items"][0]
    job["rooms"][0]["runs"][0]["items"] = [{**unit, "id": f"u-{i}", "width_mm": 20_000} for i in range(70)]
    answer = desk.ask("POST", "/jobs", json=job)
    assert answer.status_code == 201, answer.text
    assert answer.json["rooms"][0]["stations"] == []


@pytest.mark.parametrize("units", [0, 500])
def test_a_job_of_no_items_and_one_of_500_come_in_and_get_a_pack(desk, made, units):
    job = made.hall(id="barn")
    unit = job["rooms"][0]["runs"][0]["items"][0]
    job["rooms"][0]["runs"][0]["items"] = [{**unit, "id": f"u-{i}", "width_mm": 100} for i in range(units)]
    answer = desk.ask("POST", "/jobs", json=job)
    assert answer.status_code == 201, answer.text
    assert desk.ask("GET", "/jobs/barn/pack").status_code == 200


def test_the_list_counts_what_waits_for_the_office(desk, fitter, made):
    fitter.push(fitter.entry(made.note(kind="song")))
    (job,) = desk.ask("GET", "/jobs").json["jobs"]
    assert job == {
        "id": "hall", "title": "Hall kitchen", "place": "Upper Wend", "client": "Hall committee",
        "revision": 1, "unsorted": 1,
    }  # fmt: skip


def test_proposed_stations_are_accepted_as_a_new_revision(desk, fitter, made):
    job = exported(desk)
    kept = job["rooms"][0]["stations"]
    taken = kept.pop()
    assert put(desk, {**job, "rooms": [{**job["rooms"][0], "stations": [], "id": "other"}]}, 7).status_code == 412
    # a run made longer wants stations that the job has not
    longer = exported(desk)
    unit = longer["rooms"][0]["runs"][0]["items"][0]
    longer["rooms"][0]["runs"][0]["items"].append({**unit, "id": "unit-3", "width_mm": 1200, "name": "pans"})
    assert put(desk, longer, 1).status_code == 200
    manifest = fitter.ask("GET", "/jobs/hall/pack").json
    (part,) = [one for one in manifest["parts"] if one["name"] == "survey/kitchen"]
    stations = fitter.ask("GET", f"/jobs/hall/pack/{part['sha']}").json["stations"]
    proposed = [one["id"] for one in stations if not one["accepted"]]
    assert proposed
    asked = {"room": "kitchen", "stations": proposed}
    assert fitter.ask("POST", "/jobs/hall/stations", json=asked).status_code == 428
    assert fitter.ask("POST", "/jobs/hall/stations", json=asked, headers={"If-Match": '"1"'}).status_code == 412
    answer = fitter.ask("POST", "/jobs/hall/stations", json=asked, headers={"If-Match": '"2"'})
    assert (answer.status_code, answer.headers["ETag"]) == (200, '"3"')
    now = [one["id"] for one in exported(desk)["rooms"][0]["stations"]]
    assert now == [*(one["id"] for one in kept), taken["id"], *proposed]
    again = fitter.ask("POST", "/jobs/hall/stations", json=asked, headers={"If-Match": '"3"'})
    assert (again.status_code, "stations.0" in again.json["errors"]) == (422, True)
    nowhere = fitter.ask(
        "POST", "/jobs/hall/stations", json={"room": "attic", "stations": ["x"]}, headers={"If-Match": '"3"'}
    )
    assert (nowhere.status_code, list(nowhere.json["errors"])) == (422, ["room"])
