"""Holes ticked with no signal, a reload in the middle; one that the office moved since; a service as found."""

import csv
import json
import re
from pathlib import Path

import pytest
from playwright.sync_api import expect

ROOM, ITEM = "store", "ropes"
CHART = Path(__file__).parents[1] / "server" / "oddleg" / "charts" / "hardware" / "runner.csv"
with CHART.open(encoding="utf-8", newline="") as rows:
    (RUNNER,) = (row for row in csv.DictReader(rows) if row["id"] == "runner-500")
# Behind the front edge: the first screw, and the others behind it; over the front's lower edge: the line of screws.
ACROSS = [f"{float(RUNNER['first_mm']) + float(mm):g}" for mm in RUNNER["screws_mm"].split()]
UP_MM = float(RUNNER["up_mm"])


def line(front_foot_mm):
    return f"{front_foot_mm + UP_MM:g}"


@pytest.fixture
def document(office):
    """A job of this test alone: a base with two drawers, a sink base with its waste, a plain one."""
    document = json.loads((Path(__file__).parent / "drilling-job.json").read_text(encoding="utf-8"))
    number = len(office.people)
    document["id"] = f"net-loft-{number}"
    office.add_job(document, f"Ned {number}")
    return document


@pytest.fixture
def job(document):
    return document["id"]


@pytest.fixture
def on_site(phone, office, fitter):
    phone.sign_in(office.code(fitter))
    phone.wait_for_pack("Net loft")
    phone.offline()
    return phone


def in_plan(phone):
    expect(phone.page.get_by_text("Every entry known here is in it.").locator("visible=true")).to_be_visible(
        timeout=60_000
    )


def at_hole(phone, number, across, up):
    """The card shows this hole, large."""
    card = phone.page.locator(".hole-card .one")
    expect(card.get_by_role("heading")).to_contain_text(f"hole {number} ")
    expect(card.locator(".fig.arm").first).to_have_text(across)
    expect(card.locator(".fig.arm").last).to_have_text(up)
    return card


def figure(phone, name, text):
    expect(phone.page.get_by_role("button", name=re.compile(f"^{name} {text}( mm)? *: where"))).to_be_visible()


def type_number(phone, row, raw, side=None):
    phone.page.get_by_role("button", name=re.compile(f"^{row}")).tap()
    dialog = phone.page.get_by_role("dialog")
    keys = dialog.get_by_role("group", name="Number keys")
    for digit in raw:
        keys.get_by_role("button", name=digit, exact=True).tap()
    if side:
        dialog.get_by_role("button", name=side, exact=True).tap()
    keys.get_by_role("button", name="Take it", exact=True).tap()
    expect(dialog).to_have_count(0)


def test_holes_are_ticked_offline_and_one_that_the_office_moved_says_so(on_site, office, document):
    phone = on_site

    # From the job's home to a side of a carcass, with a thumb.
    phone.open(phone.home)
    phone.page.get_by_role("link", name=re.compile("^Drilling")).tap()
    phone.page.get_by_role("link", name=re.compile("ropes base")).tap()
    phone.page.get_by_role("link", name=re.compile("^left side", re.I)).tap()

    # By hand: 720 less 3 at the top is 717 for two fronts and a gap of 3: 357 each, so the upper one's foot is at 360.
    low, high = line(0), line(360)
    card = at_hole(phone, 1, ACROSS[0], low)
    expect(card).to_contain_text("inside face up, front edge on the LEFT")
    figure(phone, "Hole 1: bit", RUNNER["hole_mm"])
    figure(phone, "Hole 1: depth stop", RUNNER["hole_depth_mm"])
    phone.button("Drilled").tap()
    at_hole(phone, 2, ACROSS[1], low)
    phone.button("Drilled").tap()
    at_hole(phone, 3, ACROSS[2], low)
    phone.button(f"4: {ACROSS[0]} / {high}", exact=False).tap()
    at_hole(phone, 4, ACROSS[0], high)

    # A reload loses nothing, and comes back to the first hole that is open.
    phone.page.reload()
    at_hole(phone, 3, ACROSS[2], low)
    phone.has_unsent(2)

    # The list: one more, one taken back, the rest in one go, which is asked first.
    phone.button("List, 2 of 6").tap()
    ticked = phone.page.locator('.tick-box[aria-pressed="true"]')
    third = f"Hole 3, {ACROSS[2]} / {low}"
    phone.button(f"{third}: drilled").tap()
    expect(ticked).to_have_count(3)
    phone.button(f"{third}: drilled; undo it").tap()
    phone.answer("Undo it")
    expect(ticked).to_have_count(2)
    phone.button("Tick all 4").tap()
    phone.answer("All 4 drilled")
    expect(ticked).to_have_count(6)

    # The right side has the same figures and lies the other way round.
    phone.button("One hole").tap()
    phone.page.get_by_role("link", name=re.compile("^All drilled. Next: right side", re.I)).tap()
    card = at_hole(phone, 1, ACROSS[0], low)
    expect(card).to_contain_text("front edge on the RIGHT")

    # Cold, with no signal: a new tab opens the same panel with the same ticks.
    cold = phone.another_tab()
    phone.page.close()
    phone = cold
    phone.open(f"{phone.home}/panels/{ITEM}")
    expect(phone.page.get_by_role("link", name=re.compile("^left side", re.I))).to_contain_text("all 6 drilled")
    assert office.entries(phone.job) == []

    # In signal again the office has them: six holes, one of them undone and drilled again.
    phone.offline(False)
    phone.has_unsent(0)
    in_plan(phone)
    log = office.entries(phone.job)
    assert [(one["kind"], one["data"] is None) for one in log].count(("drilled", False)) == 7
    (left,) = (one for one in office.part(phone.job, f"panels/{ITEM}")["panels"] if one["kind"] == "left_side")
    assert [one["drilled"] for one in left["holes"]] == [{"u": u, "v": v} for v in (low, high) for u in ACROSS]

    # The office leaves 10 free at the foot of the fronts: the lower one's foot goes from 0 to 10.
    (carcass,) = (one for one in document["rooms"][0]["runs"][0]["items"] if one["id"] == ITEM)
    carcass["fitting_out"]["compartments"][0]["stack"]["bottom_mm"] = 10
    office.change_job(document)
    phone.go(phone.home)
    phone.page.reload()
    moved = phone.page.get_by_text("The plan moved 6 holes of ropes base after they were drilled.")
    expect(moved).to_be_visible(timeout=60_000)
    phone.offline()
    phone.page.get_by_role("link", name="See the holes of ropes base").tap()
    row = phone.page.get_by_role("link", name=re.compile("^left side", re.I))
    expect(row).to_contain_text("the plan moved 6 holes that are drilled")
    row.tap()
    card = at_hole(phone, 1, ACROSS[0], line(10))
    expect(card).to_contain_text(f"Drilled at {ACROSS[0]} / {low}, the plan moved it to {ACROSS[0]} / {line(10)}.")
    phone.button(f"Drilled again, at {ACROSS[0]} / {line(10)}").tap()
    card = at_hole(phone, 2, ACROSS[1], line(10))
    expect(card).to_contain_text(f"Drilled at {ACROSS[1]} / {low}, the plan moved it to {ACROSS[1]} / {line(10)}.")
    phone.button("List, 1 of 6").tap()
    expect(phone.page.get_by_text(f"drilled at {ACROSS[2]} / {high}; the plan moved it")).to_be_visible()
    phone.offline(False)
    phone.has_unsent(0)
    in_plan(phone)
    (left,) = (one for one in office.part(phone.job, f"panels/{ITEM}")["panels"] if one["kind"] == "left_side")
    assert [one["moved"] is None for one in left["holes"]] == [True, False, False, False, False, False]


def test_a_service_recorded_offline_moves_the_cut_out_after_sync(on_site, office):
    phone = on_site
    phone.open(f"{phone.home}/services/{ROOM}")
    phone.page.get_by_text("Cautions: electricity, gas, water.").tap()
    expect(phone.page.get_by_text("Water: have it shut off").locator("visible=true")).to_be_visible()
    phone.button("As found: sink waste").tap()
    expect(phone.page.get_by_text("The trade that the local code names moves it.")).to_be_visible()

    # What is missing is said at its field; what is typed outlives a reload and is saved by nobody.
    phone.page.get_by_role("radio", name="the datum line").check(force=True)
    type_number(phone, "Its middle, from the datum line", "410")
    phone.button("Save it").tap()
    middle = re.compile("^Its middle, from the zero that the walls are read from")
    expect(phone.page.get_by_role("button", name=middle)).to_contain_text(
        "This is still missing."
    )
    phone.page.reload()
    phone.button("As found: sink waste").tap()
    expect(phone.page.get_by_text("410 mm below it")).to_be_visible()
    type_number(phone, "Its middle, from the zero that the walls are read from", "950")
    type_number(phone, "Diameter", "50")
    type_number(phone, "Stands out of the wall", "60")
    phone.button("Save it").tap()
    row = phone.page.get_by_role("listitem").filter(has_text="sink waste")
    expect(row).to_contain_text("found there")
    expect(row).to_contain_text("the plan does not have it yet")

    # A socket that nobody has tested counts as live.
    phone.button("Record a service that is there").tap()
    phone.page.get_by_role("radio", name="socket", exact=True).check(force=True)
    expect(phone.page.get_by_text("whatever nobody has tested counts as live")).to_be_visible()
    type_number(phone, "Its middle, from the zero that the walls are read from", "1500")
    type_number(phone, "Width", "80")
    type_number(phone, "Height", "80")
    phone.button("Save it").tap()
    expect(phone.page.get_by_role("listitem").filter(has_text="socket")).to_contain_text("not tested: take it as live")
    phone.has_unsent(2)
    phone.page.reload()
    expect(phone.page.get_by_role("listitem").filter(has_text="sink waste")).to_contain_text("950 mm right of the zero")
    assert office.entries(phone.job) == []

    phone.offline(False)
    phone.has_unsent(0)
    in_plan(phone)
    (waste, socket) = office.entries(phone.job)
    assert (waste["target"], waste["data"]["up"]["value"], waste["data"]["height"]["value"]) == (
        "sink-waste",
        "-410",
        "50",
    )
    assert (socket["data"]["what"], socket["data"]["live"], socket["data"]["up"]) == ("socket", None, None)

    # By hand: 1860 less three units of 600 leaves 30 at either end, so the sink base begins at 630; its back at 648.
    # 950 - 648 = 302 from the left, and as the back is 564 wide 262 from behind. Its top is 18 below the datum:
    # 410 - 18 = 392 down, 684 - 392 = 292 up. The bore holds the waste, 50, and 10 clear all round: 70.
    phone.button("Cuts").tap()
    for name, text in [
        ("for sink waste: diameter", "70"),
        ("for sink waste, from the left", "302"),
        ("for sink waste, from the right", "262"),
        ("for sink waste, from the top", "392"),
        ("for sink waste, from the foot", "292"),
        ("for sink waste, the datum line", "410 below"),
    ]:
        figure(phone, name, text)
    phone.button("From behind").tap()
    figure(phone, "for sink waste, from the left", "262")
    figure(phone, "for sink waste, from the right", "302")
    phone.offline()
    phone.page.get_by_role("link", name="Its panels").tap()
    phone.page.get_by_role("link", name=re.compile("^back [0-9]", re.I)).tap()
    expect(phone.page.get_by_role("heading", name="Cut-outs")).to_be_visible()
    figure(phone, "Diameter", "70")
