"""A job names each row of a chart by id and content: editing a chart moves no hole until the job takes the new row."""

import json

import pytest

from oddleg.charts import row_texts, shipped, shipped_rows
from oddleg.store import charts as store

ROWS = {row.id: row for row in shipped_rows()}
RUNNER, OTHER = "runner-500", "runner-450"


def fitted_hall(hall, runner=RUNNER, **more):
    """The hall's second unit with two drawers of one runner."""
    job = hall(**more)
    drawer = {"name": "drawer", "front": "drawer", "share": 1, "runner": runner}
    members = [{**drawer, "id": "upper"}, {**drawer, "id": "lower"}]
    job["rooms"][0]["runs"][0]["items"][1]["fitting_out"] = {
        "compartments": [{"id": "all", "name": "all", "stack": {"members": members}}]
    }
    return job


@pytest.fixture
def fitted(desk, made):
    answer = desk.ask("PUT", "/jobs/hall", json=fitted_hall(made.hall), headers={"If-Match": '"1"'})
    assert answer.status_code == 200, answer.text
    return desk


def newer(desk, **figures):
    answer = desk.ask("POST", "/charts/runner", json={"rows": [{**row_texts(ROWS[RUNNER]), **figures}]})
    assert answer.status_code == 200, answer.text
    return answer.json["rows"][0]["sha"]


def pins(desk, job="hall"):
    return desk.ask("GET", f"/jobs/{job}").json["hardware"]


def hardware(desk):
    return desk.ask("GET", "/jobs/hall/hardware").json


def take(desk, sha, revision, row=RUNNER):
    body = {"kind": "runner", "row": row, "sha": sha}
    return desk.ask("PUT", "/jobs/hall/hardware", json=body, headers={"If-Match": f'"{revision}"'})


def preview(desk, sha, row=RUNNER):
    return desk.ask("POST", "/jobs/hall/hardware/preview", json={"kind": "runner", "row": row, "sha": sha})


def pack_source(desk):
    return desk.ask("GET", "/jobs/hall/pack").json["source"]["text"]


def test_a_job_is_pinned_to_the_rows_that_its_items_name_when_it_comes_in(fitted):
    assert pins(fitted) == [{"kind": "runner", "row": RUNNER, "sha": ROWS[RUNNER].sha}]
    told = hardware(fitted)
    (pin,) = told["pins"]
    assert told["revision"] == 2
    assert (pin["newer"], pin["current"], pin["items"], pin["changed"]) == (False, ROWS[RUNNER].sha, ["drawers"], [])


def test_editing_a_chart_changes_no_job_until_the_row_is_taken_there(fitted):
    before = pack_source(fitted)
    sha = newer(fitted, first_mm="38")
    assert pins(fitted)[0]["sha"] == ROWS[RUNNER].sha
    assert pack_source(fitted) == before
    (pin,) = hardware(fitted)["pins"]
    assert (pin["newer"], pin["current"]) == (True, sha)
    assert [(one["column"], one["from"], one["to"]) for one in pin["changed"]] == [("first_mm", "37", "38")]
    answer = take(fitted, sha, 2)
    assert answer.status_code == 200, answer.text
    assert answer.headers["ETag"] == '"3"'
    assert pins(fitted)[0]["sha"] == sha
    assert pack_source(fitted) != before
    assert hardware(fitted)["pins"][0]["newer"] is False


def test_a_preview_tells_which_holes_move_and_changes_nothing(fitted):
    """The chart's first screw goes from 37 to 38, so each screw of both drawers on both sides goes back by 1 (FP)."""
    sha = newer(fitted, first_mm="38")
    told = preview(fitted, sha).json
    screws = len(ROWS[RUNNER].screws_mm)
    assert len(told["holes"]) == 2 * 2 * screws
    assert {round(one["to"]["u"]["mm"] - one["from"]["u"]["mm"], 6) for one in told["holes"]} == {1.0}
    assert {one["item_name"] for one in told["holes"]} == {"drawers"}
    assert {one["from"]["v"]["text"] == one["to"]["v"]["text"] for one in told["holes"]} == {True}
    assert pins(fitted)[0]["sha"] == ROWS[RUNNER].sha
    assert told["revision"] == 2


def test_a_preview_of_the_row_that_is_used_moves_nothing(fitted):
    told = preview(fitted, ROWS[RUNNER].sha).json
    assert (told["holes"], told["boards"], told["findings"]) == ([], [], [])


def test_a_preview_tells_which_boards_are_cut_differently(fitted):
    """4 mm more off the base's width across: inside width less the chart's figure (FP)."""
    less = float(row_texts(ROWS[RUNNER])["base_less_mm"])
    told = preview(fitted, newer(fitted, base_less_mm=f"{less + 4:g}")).json
    assert told["holes"] == []
    assert [round(one["to"]["length"]["mm"] - one["from"]["length"]["mm"], 6) for one in told["boards"]] == [-4.0, -4.0]


def test_taking_a_row_needs_the_revision_that_it_was_looked_at_in(fitted):
    sha = newer(fitted, first_mm="38")
    assert (
        fitted.ask("PUT", "/jobs/hall/hardware", json={"kind": "runner", "row": RUNNER, "sha": sha}).status_code == 428
    )
    assert take(fitted, sha, 1).status_code == 412
    assert pins(fitted)[0]["sha"] == ROWS[RUNNER].sha


def test_a_job_can_go_back_to_the_row_it_had(fitted):
    sha = newer(fitted, first_mm="38")
    take(fitted, sha, 2)
    assert take(fitted, ROWS[RUNNER].sha, 3).status_code == 200
    assert pins(fitted)[0]["sha"] == ROWS[RUNNER].sha


def test_a_withdrawn_row_stays_with_the_job_that_uses_it(fitted, made):
    newer(fitted, id="ours")
    job = fitted_hall(made.hall, "ours", id="barn")
    assert fitted.ask("POST", "/jobs", json=job).status_code == 201
    assert fitted.ask("DELETE", "/charts/runner/ours").status_code == 204
    again = fitted.ask("GET", "/jobs/barn").json
    assert fitted.ask("PUT", "/jobs/barn", json=again, headers={"If-Match": '"1"'}).status_code == 200
    (pin,) = fitted.ask("GET", "/jobs/barn/hardware").json["pins"]
    assert (pin["current"], pin["newer"]) == (None, False)
    other = fitted.ask("POST", "/jobs", json=fitted_hall(made.hall, "ours", id="shed"))
    assert other.status_code == 422  # offered no more


def test_a_job_sent_without_pins_keeps_those_it_had(fitted, made):
    newer(fitted, first_mm="38")
    answer = fitted.ask("PUT", "/jobs/hall", json=fitted_hall(made.hall), headers={"If-Match": '"2"'})
    assert answer.status_code == 200, answer.text
    assert pins(fitted)[0]["sha"] == ROWS[RUNNER].sha


def test_a_new_job_takes_the_current_row(fitted, made):
    sha = newer(fitted, first_mm="38")
    assert fitted.ask("POST", "/jobs", json=fitted_hall(made.hall, id="barn")).status_code == 201
    assert pins(fitted, "barn")[0]["sha"] == sha


def test_a_row_that_no_item_names_any_more_is_not_pinned_any_more(fitted, made):
    sent = fitted_hall(made.hall, OTHER) | {"hardware": pins(fitted)}
    assert fitted.ask("PUT", "/jobs/hall", json=sent, headers={"If-Match": '"2"'}).status_code == 200
    assert [one["row"] for one in pins(fitted)] == [OTHER]


def test_a_row_in_no_chart_is_refused_where_it_stands_with_what_is_allowed(desk, made):
    answer = desk.ask("PUT", "/jobs/hall", json=fitted_hall(made.hall, "runner-501"), headers={"If-Match": '"1"'})
    assert answer.status_code == 422
    paths = [f"rooms.0.runs.0.items.1.fitting_out.compartments.0.stack.members.{place}.runner" for place in range(2)]
    assert list(answer.json["errors"]) == paths
    assert "runner-500" in answer.json["errors"][paths[0]][0]


def test_a_version_that_was_never_here_is_refused_and_says_which_chart_is_missing(desk, made):
    for row, known in ((RUNNER, ROWS[RUNNER].sha), ("theirs", "bring its chart in first")):
        sent = fitted_hall(made.hall, row) | {"hardware": [{"kind": "runner", "row": row, "sha": "0123456789abcdef"}]}
        answer = desk.ask("PUT", "/jobs/hall", json=sent, headers={"If-Match": '"1"'})
        assert answer.status_code == 422
        (text,) = answer.json["errors"]["hardware.0.sha"]
        assert row in text and known in text


def test_a_job_goes_to_another_server_once_its_chart_is_there(fitted, made, tmp_path):
    sha = newer(fitted, id="ours", name="ours")
    fitted.ask("POST", "/jobs", json=fitted_hall(made.hall, "ours", id="barn"))
    exported, chart = fitted.ask("GET", "/jobs/barn").json, fitted.ask("GET", "/charts/runner.csv").data
    site = made.Site(tmp_path / "elsewhere")
    other = site.phone(site.office(), "desk")
    assert other.ask("POST", "/jobs", json=exported).status_code == 422
    lines = chart.decode().splitlines()
    ours = "\n".join([lines[0], *(line for line in lines if ",ours," in line)])
    assert other.ask("POST", "/charts/runner", data=ours.encode(), content_type="text/csv").status_code == 200
    assert other.ask("POST", "/jobs", json=exported).status_code == 201
    assert pins(other, "barn")[0]["sha"] == sha


def test_a_later_program_with_another_chart_leaves_a_job_its_row(fitted, site, monkeypatch):
    """The row that ships is another one after an upgrade; the job's holes stay."""
    later = tuple(row for row in shipped_rows() if row.id != RUNNER)
    for module in (shipped, store.tables):
        monkeypatch.setattr(module, "shipped_rows", lambda: later)
    (pin,) = hardware(fitted)["pins"]
    assert (pin["name"], pin["current"]) == (ROWS[RUNNER].name, None)
    with site.app.app_context():
        assert store.version("runner", RUNNER, ROWS[RUNNER].sha) == ROWS[RUNNER]


@pytest.mark.parametrize(
    "body", [{}, {"kind": "lamp", "row": RUNNER, "sha": "0" * 16}, {"kind": "runner", "row": OTHER, "sha": "0" * 16},
             {"kind": "runner", "row": RUNNER, "sha": "0" * 16}, {"kind": "runner", "row": RUNNER, "sha": "x"},
             {"kind": "runner", "row": "a\0b", "sha": "0" * 16}, {"kind": 7, "row": None, "sha": []}, [], "x"],
)  # fmt: skip
def test_a_row_that_cannot_be_taken_is_refused_in_words(fitted, body):
    data = json.dumps(body)
    for method, path in (("POST", "/jobs/hall/hardware/preview"), ("PUT", "/jobs/hall/hardware")):
        headers = {"If-Match": '"2"', "Content-Type": "application/json"}
        answer = fitted.ask(method, path, data=data, headers=headers)
        assert answer.status_code in (400, 422), answer.text
        assert answer.json["errors"]


def test_a_fitter_on_the_job_sees_its_hardware_and_changes_none(fitted, fitter):
    assert fitter.ask("GET", "/jobs/hall/hardware").json["pins"]
    sha = newer(fitted, first_mm="38")
    assert preview(fitter, sha).status_code == 403
    assert take(fitter, sha, 2).status_code == 403
    assert fitter.ask("GET", "/jobs/barn/hardware").status_code == 403
