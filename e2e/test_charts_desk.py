"""The office types a maker's sheet in, brings a chart in as a file, and takes a newer row, seeing what it moves."""

import copy
import json
import re
from pathlib import Path

import audit
import phone as phones
import pytest
from playwright.sync_api import expect

HERE = Path(__file__).parent
OUT = HERE / "out"
SMALL = json.loads((HERE / "small-job.json").read_text(encoding="utf-8"))
DESK = {"viewport": {"width": 1280, "height": 900}}
RUNNER = "runner-500"


@pytest.fixture
def desk(make_phone, office):
    return signed_in(make_phone(DESK), office)


def signed_in(device, office):
    device.open(f"#/join/{office.code('Office')}")
    device.button("Sign in here").click()
    expect(device.page.get_by_role("heading", level=1, name="Jobs")).to_be_visible()
    return device


def fitted(id, runner):
    """The small job with two drawers on this runner in its first unit."""
    job = copy.deepcopy(SMALL) | {"id": id, "title": f"Drawers {id}"}
    drawer = {"front": "drawer", "share": 1, "runner": runner}
    members = [{**drawer, "id": "cups-upper", "name": "upper"}, {**drawer, "id": "cups-lower", "name": "lower"}]
    compartments = [{"id": "cups-inside", "name": "inside", "stack": {"members": members}}]
    job["rooms"][0]["runs"][0]["items"][0]["fitting_out"] = {"compartments": compartments}
    return job


def row_of(office, id, kind="runner"):
    kinds = office.ask("/charts")["kinds"]
    rows = next(one["rows"] for one in kinds if one["kind"] == kind)
    return next((one for one in rows if one["id"] == id), None)


def column(desk, name):
    return desk.page.locator(f"#column-{name}")


def drawing(desk):
    return desk.page.locator(".draw-side svg").first


def right(desk):
    expect(desk.page.get_by_text("All figures can be used.")).to_be_visible()


def test_a_sheet_is_typed_in_drawn_as_it_is_typed_kept_over_a_reload_and_saved(desk, office, job):
    desk.go("#/charts")
    desk.page.get_by_role("link", name=re.compile("^Runner")).click()
    desk.page.get_by_role("link", name=re.compile(f"^{RUNNER} ")).click()
    expect(drawing(desk)).to_be_visible()
    desk.button("A new row like this one").click()
    expect(desk.page.get_by_role("heading", level=1, name="Runner: a new row")).to_be_visible()
    column(desk, "id").fill(f"own-{job}")
    column(desk, "name").fill("our own runner")
    right(desk)
    before = drawing(desk).inner_html()
    column(desk, "first_mm").fill("1.457")
    expect(desk.page.locator("#column-first_mm-wrong")).to_contain_text("37")
    expect(desk.button("Save")).to_be_disabled()
    column(desk, "first_mm").fill("43")
    right(desk)
    assert drawing(desk).inner_html() != before
    desk.page.reload()
    expect(column(desk, "first_mm")).to_have_value("43")
    expect(column(desk, "id")).to_have_value(f"own-{job}")
    assert row_of(office, f"own-{job}") is None
    right(desk)
    desk.button("Save").click()
    expect(desk.page.get_by_role("link", name=re.compile(f"^own-{job} "))).to_be_visible()
    assert row_of(office, f"own-{job}")["texts"]["first_mm"] == "43"
    desk.go("#/charts/runner/new")
    expect(column(desk, "id")).to_have_value("")


def test_a_late_answer_never_stands_over_what_was_typed_since(desk):
    """The office answers the first question last; the drawing and the words are those of the second."""
    desk.open(f"#/charts/runner/row/{RUNNER}")
    expect(desk.page.get_by_text("As it is saved.")).to_be_visible()
    held = []

    def slowly(route):
        if json.loads(route.request.post_data)["row"]["first_mm"] == "9999":
            held.append(route)
        else:
            route.continue_()

    desk.page.route("**/charts/drawing", slowly)
    with desk.page.expect_request("**/charts/drawing"):
        column(desk, "first_mm").fill("9999")
    column(desk, "first_mm").fill("40")
    right(desk)
    with desk.page.expect_response("**/charts/drawing"):
        held[0].continue_()
    right(desk)
    expect(desk.page.locator("#column-first_mm-wrong")).to_have_count(0)


def test_with_no_signal_it_is_said_and_what_is_typed_stays(desk):
    desk.open(f"#/charts/runner/row/{RUNNER}")
    expect(desk.page.get_by_text("As it is saved.")).to_be_visible()
    desk.offline()
    column(desk, "first_mm").fill("40")
    expect(desk.page.get_by_text("No signal")).to_be_visible()
    expect(column(desk, "first_mm")).to_have_value("40")
    expect(desk.page.get_by_role("button", name=re.compile("^Save"))).to_be_disabled()
    desk.offline(False)
    desk.button("Ask again").click()
    right(desk)


def bring_in(desk, tmp_path, data, name="runners.csv"):
    path = tmp_path / name
    path.write_bytes(data)
    desk.page.get_by_label("A chart of this kind").set_input_files(path)
    desk.button("Look it through").click()


def test_a_file_is_looked_through_first_and_saved_only_when_all_of_it_is_right(desk, office, job, tmp_path):
    texts = row_of(office, RUNNER)["texts"] | {"source": "a maker's sheet"}
    good = texts | {"id": f"good-{job}"}
    wrong = texts | {"id": f"wrong-{job}", "up_mm": "-3"}

    def file(*rows):
        lines = [";".join(one) for one in (texts, *(row.values() for row in rows))]
        return ("\ufeff" + "\r\n".join(lines)).encode()

    desk.go("#/charts/runner/file")
    bring_in(desk, tmp_path, file(good, wrong))
    said = desk.page.get_by_role("listitem").filter(has_text="line 3")
    expect(said).to_contain_text("up_mm")
    expect(desk.page.get_by_text(f"good-{job}")).to_be_visible()
    expect(desk.page.get_by_role("button", name=re.compile("^Save"))).to_have_count(0)
    assert row_of(office, f"good-{job}") is None
    bring_in(desk, tmp_path, file(good, wrong | {"up_mm": "45,5"}))
    desk.button("Save these rows as ours").click()
    expect(desk.page.get_by_role("link", name=re.compile(f"^good-{job} "))).to_be_visible()
    assert row_of(office, f"wrong-{job}")["texts"]["up_mm"] == "45.5"
    with desk.page.expect_download() as kept:
        desk.button("Keep this chart as a file").click()
    assert f"good-{job}" in Path(kept.value.path()).read_text(encoding="utf-8")


def test_a_row_of_ours_is_withdrawn_and_offered_no_more(desk, office, job):
    id = f"mine-{job}"
    office.ask("/charts/runner", "POST", {"rows": [row_of(office, RUNNER)["texts"] | {"id": id}]})
    desk.go(f"#/charts/runner/row/{id}")
    desk.button("Withdraw it").click()
    desk.page.get_by_role("dialog").get_by_role("button", name="Withdraw it", exact=True).click()
    expect(desk.page.get_by_role("heading", level=1, name="Charts: runner")).to_be_visible()
    expect(desk.page.get_by_role("link", name=re.compile(f"^{id} "))).to_have_count(0)
    assert row_of(office, id) is None


def test_a_job_takes_a_newer_row_once_the_desk_has_seen_what_moves(desk, office, job):
    """First screw from 37 to 38: every screw of two drawers on two sides goes back by 1 (FP), and by nothing before."""
    id = f"row-{job}"
    texts = row_of(office, RUNNER)["texts"] | {"id": id, "first_mm": "37"}
    office.ask("/charts/runner", "POST", {"rows": [texts]})
    here = f"drawers-{job}"
    office.ask("/jobs", "POST", fitted(here, id))
    first = office.ask(f"/jobs/{here}")["hardware"][0]["sha"]
    office.ask("/charts/runner", "POST", {"rows": [texts | {"first_mm": "38"}]})
    desk.open(f"#/job/{here}/hardware")
    card = desk.page.get_by_role("listitem").filter(has=desk.page.get_by_role("heading", level=2, name=id))
    expect(card).to_contain_text("The charts have a newer one.")
    expect(card).to_contain_text("37 → 38")
    assert office.ask(f"/jobs/{here}")["hardware"][0]["sha"] == first
    expect(desk.button("Take the new row")).to_have_count(0)
    desk.button("See what moves").click()
    holes = 2 * 2 * len(texts["screws_mm"].split())
    expect(card).to_contain_text(f"{holes} holes change.")
    desk.button("Take the new row").click()
    desk.page.get_by_role("dialog").get_by_role("button", name="Take it", exact=True).click()
    expect(card).to_contain_text("The charts have no newer one.")
    assert office.ask(f"/jobs/{here}")["hardware"][0]["sha"] != first


def test_a_fitter_sees_the_hardware_of_the_job_and_no_charts(ready_phone):
    ready_phone.go("#/charts")
    expect(ready_phone.page.get_by_text("Charts are the office's.")).to_be_visible()
    ready_phone.go(f"{ready_phone.home}/hardware")
    expect(ready_phone.page.get_by_text("No unit of this job names a row")).to_be_visible()


@pytest.mark.parametrize("size", ["desk", "phone"])
def test_nothing_is_amiss_with_the_screens_of_charts(make_phone, office, job, tmp_path, size):
    id = f"seen-{job}"
    texts = row_of(office, RUNNER)["texts"] | {"id": id}
    office.ask("/charts/runner", "POST", {"rows": [texts]})
    here = f"seen-{job}"
    office.ask("/jobs", "POST", fitted(here, id))
    office.ask("/charts/runner", "POST", {"rows": [texts | {"first_mm": "38", "base_less_mm": "30"}]})
    one = signed_in(make_phone(DESK if size == "desk" else phones.PHONE), office)
    page = one.page

    def seen(name):
        page.evaluate("document.fonts.ready")
        page.screenshot(path=OUT / f"charts-{name}-{size}.png", full_page=True)
        assert audit.faults(page) == [], name

    one.go("#/charts")
    expect(page.get_by_role("link", name=re.compile("^Hinge"))).to_be_visible()
    seen("kinds")
    one.go("#/charts/runner")
    expect(page.get_by_role("heading", name="Ours")).to_be_visible()
    seen("rows")
    one.go(f"#/charts/runner/row/{id}")
    expect(page.get_by_text("As it is saved.")).to_be_visible()
    seen("row")
    column(one, "up_mm").fill("1.772")
    column(one, "base_edges").fill("left under")
    expect(page.get_by_text("things to put right")).to_be_visible()
    page.screenshot(path=OUT / f"charts-wrong-top-{size}.png")
    seen("wrong")
    column(one, "up_mm").scroll_into_view_if_needed()
    page.screenshot(path=OUT / f"charts-wrong-{size}.png")
    one.go("#/charts/runner/file")
    bring_in(one, tmp_path, f"{','.join(texts)}\n{','.join(texts.values())}\n{id}".encode())
    expect(page.get_by_text("to put right")).to_be_visible()
    seen("file")
    one.open(f"#/job/{here}/hardware")
    one.button("See what moves").click()
    expect(page.get_by_text("holes change.")).to_be_visible()
    seen("hardware")
