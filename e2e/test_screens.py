"""Every screen at phone and desk size: nothing for axe to find, targets that a thumb hits; pictures in e2e/out."""

import json
import re
from pathlib import Path

import audit
import phone as phones
import pytest
from office import opened
from playwright.sync_api import expect

HERE = Path(__file__).parent
DEMO = HERE.parent / "demo"
OUT = HERE / "out"
SIZES = {
    "phone": {**phones.PHONE, "color_scheme": "light"},
    "phone-dark": {**phones.PHONE, "color_scheme": "dark"},
    "desk": {**phones.DESK, "color_scheme": "light"},
}
JOB = "hollowmere-hall"


def dialog(phone):
    expect(phone.page.get_by_role("dialog")).to_be_visible()


def list_tab(phone):
    if phone.page.viewport_size["width"] < 1024:
        phone.button("List").click()
    expect(phone.page.get_by_role("listitem").first).to_be_visible()


def plan_tab(phone):
    if phone.page.viewport_size["width"] < 1024:
        phone.button("Plan").click()
    expect(phone.page.get_by_role("group", name="Plan: tap a station to read it")).to_be_visible()


def question(phone):
    phone.page.keyboard.press("1")
    phone.page.keyboard.press("2")
    phone.save()
    expect(phone.page.get_by_role("alertdialog")).to_be_visible()


def typed(phone):
    for sign in "1207.5":
        phone.page.keyboard.press(sign)
    expect(phone.typed).to_have_text("1207.5")


def more(phone):
    phone.button("More").click()
    dialog(phone)


def new_set_up(phone):
    more(phone)
    phone.page.get_by_role("dialog").get_by_role("button", name="New set-up").click()
    expect(phone.page.get_by_role("heading", name="New set-up")).to_be_visible()


def change_set_up(phone):
    more(phone)
    phone.page.get_by_role("dialog").get_by_role("button", name="Change this set-up").click()
    expect(phone.page.get_by_role("button", name="Save the change")).to_be_visible()


def check_question(phone):
    for group in ("Which laser", "Read with"):
        phone.page.get_by_role("group", name=group).get_by_role("radio").first.check(force=True)
    phone.page.get_by_role("button", name=re.compile("^Reading at A")).first.click()
    dialog(phone)
    phone.page.keyboard.press("1")
    phone.page.keyboard.press("2")
    phone.page.get_by_role("dialog").get_by_role("button", name="Take it").click()
    expect(phone.page.get_by_role("alertdialog")).to_contain_text("12 is less than anything read here")


def line_level(phone):
    new_set_up(phone)
    phone.page.get_by_role("radio", name=re.compile("^a line on the wall")).check(force=True)
    phone.page.get_by_role("button", name=re.compile("^Level of the line")).click()
    dialog(phone)


def blocked(phone):
    phone.button("Blocked, later").click()
    dialog(phone)


def note(phone):
    phone.button("Note").click()
    dialog(phone)


def first_figure(phone):
    phone.page.get_by_role("button", name=re.compile("where it comes from$")).first.click()
    dialog(phone)


def are_you_sure(phone):
    phone.page.get_by_role("button", name=re.compile("^Choose")).first.click()
    dialog(phone)


def as_fitted(phone):
    phone.button("As fitted").click()
    expect(phone.page.get_by_text("Standing, you in front of it.")).to_be_visible()


def code_for_a_phone(phone):
    phone.page.locator("summary").filter(has_text="Ned Carrow").click()
    phone.button("Make a code for a phone").click()
    expect(phone.page.get_by_role("heading", name="Code for Ned Carrow")).to_be_visible()


def last_piece(phone):
    row = phone.page.locator(".rows button").last
    number = row.locator(".number").inner_text()
    row.click()
    expect(phone.page.locator(".piece h2")).to_contain_text(number)


def wall_tool(phone):
    """What walls are read with, asked once on each phone."""
    asked = phone.page.get_by_role("group", name="Read with")
    expect(asked.or_(phone.page.get_by_role("group", name="Number keys"))).to_be_visible()
    if asked.is_visible():
        asked.get_by_role("radio", name=re.compile("rule")).first.click(force=True)  # chosen, it goes


def wall_pad(phone):
    wall_tool(phone)
    expect(phone.page.get_by_role("group", name="Number keys")).to_be_visible()


def tab(words):
    def do(phone):
        wall_tool(phone)
        if phone.page.viewport_size["width"] < 1024:
            phone.button(words).click()

    return do


def wall_question(phone):
    wall_pad(phone)
    for sign in "950":
        phone.page.keyboard.press(sign)
    phone.save()
    expect(phone.page.get_by_role("alertdialog")).to_be_visible()


def wall_more(phone):
    wall_tool(phone)
    more(phone)


def new_line(phone):
    wall_tool(phone)
    phone.button("New line").first.click()
    expect(phone.page.get_by_role("heading", name=re.compile("a new line$"))).to_be_visible()


def feature(phone):
    tab("Sizes")(phone)
    phone.button("Add one").click()
    phone.page.get_by_role("radio", name="pipe").check(force=True)
    expect(phone.page.get_by_text("Caution.")).to_be_visible()


def corner_side(phone):
    tab("Sizes")(phone)
    phone.page.get_by_role("button", name=re.compile("^From the corner along")).first.click()
    dialog(phone)


def rod_list(phone):
    if phone.page.viewport_size["width"] < 1024:
        phone.page.get_by_role("button", name=re.compile("^List, ")).click()
    expect(phone.page.locator(".tick-box").first).to_be_visible()


def rod_page(words):
    def do(phone):
        if phone.page.viewport_size["width"] < 1024:
            phone.button(words).click()

    return do


def rod_figure(phone):
    phone.page.locator(".fig.arm").click()
    dialog(phone)


def first_panel(phone):
    phone.page.locator(".tall-row").first.click()
    expect(phone.page.locator(".hole-card .fig.arm").first).to_be_visible()


def hole_page(words):
    def do(phone):
        first_panel(phone)
        if phone.page.viewport_size["width"] < 1024:
            phone.page.get_by_role("button", name=re.compile(f"^{words}")).click()

    return do


def all_ticked(phone):
    hole_page("List")(phone)
    phone.page.get_by_role("button", name=re.compile("^Tick all")).first.click()
    dialog(phone)


def found_service(phone):
    phone.button("Record a service that is there").click()
    phone.page.get_by_role("radio", name="gas").check(force=True)
    phone.button("Save it").click()
    expect(phone.page.get_by_text(re.compile("Choose the run|This is still missing")).first).to_be_visible()


def nothing(phone):
    """The screen as it opens."""


# Address within the job unless it begins with a hash; title; what is done there first.
SCREENS = {
    "jobs": ("#/jobs", "Jobs", nothing),
    "this-phone": ("#/phone", "This phone", nothing),
    "people": ("#/people", "People and phones", nothing),
    "people-code": ("#/people", "People and phones", code_for_a_phone),
    "nowhere": ("#/cellar", "Not found", nothing),
    "job": ("", "Hollowmere village hall, kitchen", nothing),
    "survey": ("/survey/kitchen", "Survey, Kitchen", nothing),
    "survey-typed": ("/survey/kitchen", "Survey, Kitchen", typed),
    "survey-question": ("/survey/kitchen", "Survey, Kitchen", question),
    "survey-plan": ("/survey/kitchen", "Survey, Kitchen", plan_tab),
    "survey-list": ("/survey/kitchen", "Survey, Kitchen", list_tab),
    "survey-more": ("/survey/kitchen", "Survey, Kitchen", more),
    "survey-blocked": ("/survey/kitchen", "Survey, Kitchen", blocked),
    "survey-note": ("/survey/kitchen", "Survey, Kitchen", note),
    "new-set-up": ("/survey/kitchen", "Survey, Kitchen", new_set_up),
    "change-set-up": ("/survey/kitchen", "Survey, Kitchen", change_set_up),
    "line-level": ("/survey/kitchen", "Survey, Kitchen", line_level),
    "floor": ("/floor/kitchen", "Floor, Kitchen", nothing),
    "floor-figure": ("/floor/kitchen", "Floor, Kitchen", first_figure),
    "datum": ("/datum/kitchen", "Datum, Kitchen", nothing),
    "datum-sure": ("/datum/kitchen", "Datum, Kitchen", are_you_sure),
    "plinth": ("/plinth/kitchen", "Plinth, Kitchen", nothing),
    "plinth-last": ("/plinth/kitchen", "Plinth, Kitchen", last_piece),
    "walls": ("/walls/kitchen", "Walls, Kitchen", nothing),
    "walls-keys": ("/walls/kitchen", "Walls, Kitchen", wall_pad),
    "walls-question": ("/walls/kitchen", "Walls, Kitchen", wall_question),
    "walls-list": ("/walls/kitchen", "Walls, Kitchen", tab("Wall")),
    "walls-sizes": ("/walls/kitchen", "Walls, Kitchen", tab("Sizes")),
    "walls-more": ("/walls/kitchen", "Walls, Kitchen", wall_more),
    "walls-line": ("/walls/kitchen", "Walls, Kitchen", new_line),
    "walls-feature": ("/walls/kitchen", "Walls, Kitchen", feature),
    "walls-corner": ("/walls/kitchen", "Walls, Kitchen", corner_side),
    "rod": ("/run/window-run", "Rod, Window run", nothing),
    "rod-list": ("/run/window-run", "Rod, Window run", rod_list),
    "rod-batten": ("/run/window-run", "Rod, Window run", rod_page("Batten")),
    "rod-fit": ("/run/window-run", "Rod, Window run", rod_page("Fit")),
    "rod-drawings": ("/run/window-run", "Rod, Window run", rod_page("Drawings")),
    "rod-figure": ("/run/side-run", "Rod, Side run", rod_figure),
    "rod-counter": ("/run/counter", "Rod, Counter", nothing),
    "corners": ("/corners/kitchen", "Corners, Kitchen", nothing),
    "tall": ("/tall/kitchen", "Tall and wall units, Kitchen", nothing),
    "drilling": ("/drilling/kitchen", "Drilling, Kitchen", nothing),
    "drilling-bits": ("/drilling/kitchen", "Drilling, Kitchen", rod_page("Bits and screws")),
    "panels": ("/panels/sink", "sink base", nothing),
    "panels-fronts": ("/panels/drawers-one", "four-drawer base", rod_page("Fronts")),
    "panels-sticks": ("/panels/drawers-one", "four-drawer base", rod_page("Sticks")),
    "panels-drawing": ("/panels/drawers-one", "four-drawer base", rod_page("Drawing")),
    "panel": ("/panels/larder", re.compile("larder"), first_panel),
    "panel-list": ("/panels/larder", re.compile("larder"), hole_page("List")),
    "panel-drawing": ("/panels/larder", re.compile("larder"), hole_page("Drawing")),
    "panel-all": ("/panels/larder", re.compile("larder"), all_ticked),
    "drawers": ("/drawers/kitchen", "Drawer parts, Kitchen", nothing),
    "drawers-one": ("/drawers/kitchen", "Drawer parts, Kitchen", rod_page("By drawer")),
    "drawers-rebates": ("/drawers/kitchen", "Drawer parts, Kitchen", rod_page("Rebates")),
    "services": ("/services/kitchen", "Services, Kitchen", nothing),
    "services-cuts": ("/services/kitchen", "Services, Kitchen", rod_page("Cuts")),
    "services-first-fix": ("/services/kitchen", "Services, Kitchen", rod_page("First fix")),
    "services-more": ("/services/kitchen", "Services, Kitchen", rod_page("More")),
    "services-found": ("/services/kitchen", "Services, Kitchen", found_service),
    "checks": ("/checks", "Check the laser", nothing),
    "check-question": ("/checks", "Check the laser", check_question),
    "units": ("/units", "Units and legs", nothing),
    "unit-bench": ("/unit/corner", re.compile("corner base"), nothing),
    "unit-fitted": ("/unit/corner", re.compile("corner base"), as_fitted),
    "findings": ("/findings", "Findings", nothing),
    "sheets": ("/sheets", "Sheets", nothing),
    "entries": ("/entries", "Entries", nothing),
}


@pytest.fixture(scope="module")
def hall(tmp_path_factory):
    """The office of the demo: its job is in, surveyed."""
    with opened(tmp_path_factory.mktemp("hall") / "data") as office:
        office.add_job(json.loads((DEMO / "hall.json").read_text(encoding="utf-8")), "Ned Carrow")
        office.program("entries", "load", DEMO / "hall-entries.json", "--person", office.people["Ned Carrow"])
        yield office


@pytest.fixture(scope="module", params=SIZES)
def signed_in(request, browser, hall):
    """One browser of the office for all screens of a size, with one note of its own that is not sent yet."""
    context = browser.new_context(**{**phones.COMMON, **SIZES[request.param]})
    context.set_default_timeout(20_000)
    phone = phones.Phone(context, hall.origin, JOB)
    phone.size = request.param
    phone.open(f"#/join/{hall.code('Office')}")
    phone.button("Sign in here").click()
    phone.wait_for_pack("Hollowmere")
    yield phone
    context.close()


def held(phone, name):
    """Takes the picture and says what is wrong with the screen."""
    phone.page.screenshot(
        path=OUT / phone.size / f"{name}.png", full_page=phone.page.locator("dialog[open]").count() == 0
    )
    return audit.faults(phone.page, colours_alone=phone.size == "phone-dark")


@pytest.mark.parametrize("name", SCREENS)
def test_nothing_is_wrong_with_screen(signed_in, name):
    address, title, do = SCREENS[name]
    signed_in.open(address if address.startswith("#") else signed_in.home + address)
    expect(signed_in.page.get_by_role("heading", level=1)).to_contain_text(title)
    do(signed_in)
    assert held(signed_in, name) == []


@pytest.mark.parametrize("size", SIZES)
def test_nothing_is_wrong_with_signing_in(size, new_context, hall):
    context = new_context(**{**phones.COMMON, **SIZES[size]})
    phone = phones.Phone(context, hall.origin, JOB)
    phone.size = size
    phone.open("#/join")
    phone.page.get_by_label("Code", exact=True).fill("MREG7")
    phone.button("Sign in here").click()
    expect(phone.page.get_by_role("alert")).not_to_be_empty()
    assert held(phone, "sign-in") == []


def test_the_audit_finds_what_is_wrong(page):
    """The control: pale words, a small target, a key under its size, a page wider than the screen."""
    page.set_content(
        """<!doctype html><html lang="en-GB"><title>t</title><main><h1>h</h1>
        <p style="color: #666; background: #fff">5.7 to 1: enough for the usual rule and not for ours</p>
        <button style="width: 40px; height: 40px">a</button>
        <div class="keys"><button style="width: 60px; height: 60px">1</button></div>
        <div style="width: 5000px">wide</div></main></html>"""
    )
    found = "\n".join(audit.faults(page))
    for words in (
        "color-contrast-enhanced",
        '"a" is 40.0 by 40.0, not 48',
        '"1" is 60.0 by 60.0, not 64',
        "the page is 50",
    ):
        assert words in found
