"""A whole survey with no signal, the phone restarted and killed in the middle; then sync, datum, legs and the sheet."""

import os
import re
import signal
from pathlib import Path

import pdfplumber
import phone as phones
import pytest
from playwright.sync_api import expect

# One after the other as the phone asks for them: along the backs, back along the fronts, the bay, its way out.
FLOOR = {
    "back one": "1206",
    "back two": "1208.5",
    "back three": "1211",
    "front one": "1212,5",
    "front two": "1210",
    "front three": "1208",
    "bay one": "1209.5",
}
WAY_OUT = "1211.5"


def processes_over(folder):
    """Ids of the browser's first process over this storage, not of its children."""
    found = []
    for entry in Path("/proc").iterdir():
        if not entry.name.isdigit():
            continue
        try:
            words = (entry / "cmdline").read_bytes().split(b"\0")
        except OSError:
            continue  # it ended while we looked
        if f"--user-data-dir={folder}".encode() in words and not any(word.startswith(b"--type=") for word in words):
            found.append(int(entry.name))
    return found


@pytest.fixture
def restartable(browser_type, browser_type_launch_args, tmp_path, office, job):
    """Starts the browser over the same storage again and again, as a phone does."""
    folder = tmp_path / "phone"
    open_now = []

    def start():
        context = browser_type.launch_persistent_context(
            folder, **browser_type_launch_args, **phones.COMMON, **phones.PHONE
        )
        context.set_default_timeout(20_000)
        open_now.append(context)
        return phones.Phone(context, office.origin, job)

    def kill(phone):
        (process,) = processes_over(folder)
        with phone.context.expect_event("close"):
            os.kill(process, signal.SIGKILL)
        open_now.clear()

    start.kill = kill
    yield start
    for context in open_now:
        context.close()


def begin(phone):
    """Opens the survey and makes the first set-up, its place tapped on the plan."""
    phone.open(phone.survey)
    phone.set_up("stripped", "line laser", "steel rule")
    phone.read("cut in the door sill", "1200")


def type_by_keyboard(phone, raw):
    for sign in raw:
        phone.page.keyboard.press(sign)
    expect(phone.typed).to_have_text(raw)


def test_a_whole_survey_without_signal_reaches_the_sheet(restartable, office, fitter):
    phone = restartable()
    phone.ready_for_site(office.code(fitter))
    phone.offline()
    begin(phone)

    # A 12 is asked about at once, and what was meant is one tap away; it is no refusal.
    phone.at_spot("back one")
    phone.press("12")
    phone.save()
    asked = phone.page.get_by_role("alertdialog")
    expect(asked).to_contain_text("12 is less than anything read here")
    expect(asked.get_by_role("button", name="Save 12 mm all the same")).to_be_visible()
    asked.get_by_role("button", name="Change it").tap()
    phone.button("rub out all").tap()
    phone.read("back one", FLOOR["back one"])
    phone.read("back two", FLOOR["back two"])

    # The last one is taken back by a new entry, and asked for again.
    phone.read("back three", "1221")
    phone.button("Undo last").tap()
    phone.answer("Undo it")
    phone.at_spot("back three")

    # Reload in the middle: still offline, everything there, the same spot is asked for.
    phone.page.reload()
    phone.at_spot("back three")
    phone.read("back three", FLOOR["back three"])

    # A comma typed on a keyboard is a decimal mark like the point on the keys.
    phone.at_spot("front one")
    type_by_keyboard(phone, FLOOR["front one"])
    phone.save()
    phone.saved("front one, 1212,5 mm")
    phone.has_unsent(8)  # set-up, bench mark, four readings, a blunder and what takes it back

    # The browser is closed and opened again, then ended by force; still no signal.
    phone.context.close()
    phone = restartable()
    phone.offline()
    phone.open(phone.survey)
    phone.read("front two", FLOOR["front two"])
    restartable.kill(phone)
    phone = restartable()
    phone.offline()
    phone.open(phone.survey)
    phone.has_unsent(9)
    phone.read("front three", FLOOR["front three"])
    phone.read("bay one", FLOOR["bay one"])

    # Blocked, later: the phone goes on to close on the bench mark, and the spot can be tapped when it is free.
    phone.at_spot("way one")
    phone.button("Blocked, later").tap()
    phone.answer("boxes in the way")
    phone.read("cut in the door sill", "1200")
    phone.listed("way one").tap()
    phone.read("way one", WAY_OUT)

    # A spot read once more counts as a repeat.
    phone.listed("back two").tap()
    phone.read("back two", "1209")
    phone.has_unsent(15)

    # Every entry says where it is, in the office's words for it.
    phone.open(f"{phone.home}/entries")
    expect(phone.page.get_by_text("15 entries are only on this phone")).to_be_visible()
    rows = phone.page.get_by_role("listitem")
    expect(rows).to_have_count(15)
    expect(rows.filter(has_text=re.compile("on this phone,"))).to_have_count(15)
    assert office.entries(phone.job) == []

    # Back in signal: all is delivered by itself, each one once.
    phone.offline(False)
    phone.has_unsent(0)
    expect(rows.filter(has_text=re.compile("in the office,"))).to_have_count(15)
    log = office.entries(phone.job)
    assert len(log) == 15
    replaced = [one["replaces"] for one in log if one["replaces"]]
    raws = [one["raw"] for one in log if one["kind"] == "reading" and one["raw"] is not None]
    assert len(replaced) == 1
    assert raws == [
        *["1200", "1206", "1208.5", "1221", "1211", "1212,5", "1210", "1208", "1209.5", "1200", WAY_OUT, "1209"]
    ]
    assert [one["value"] for one in log if one["raw"] == "1212,5"] == ["1212.5"]

    # The datum choices came with the plan; choosing one is an entry, made with no signal.
    expect(phone.page.get_by_text("Every entry known here is in it.")).to_be_visible(timeout=60_000)
    phone.offline()
    phone.go(f"{phone.home}/datum/{phones.ROOM}")
    choices = phone.page.get_by_role("region", name="Datum choices side by side")
    expect(choices.get_by_role("columnheader")).to_have_count(6)  # what is compared, then the five choices
    datum = phone.choose_first_datum()
    expect(phone.page.get_by_role("heading", name="Chosen on this phone")).to_be_visible()
    expect(phone.page.get_by_text("1 entry is not in it yet.")).to_be_visible()
    phone.offline(False)
    expect(phone.page.get_by_role("heading", name="Decided")).to_be_visible(timeout=60_000)
    expect(phone.page.get_by_role("button", name=f"Datum {datum} mm: where it comes from", exact=True)).to_be_visible()

    # The legs follow: on the bench, upside down, as fitted turned round; any figure opens to its sentence.
    phone.go(f"{phone.home}/unit/cups")
    expect(phone.page.get_by_role("heading", level=1)).to_contain_text("cups base")
    expect(phone.page.get_by_text("Upside down, front edge towards you.")).to_be_visible()
    expect(phone.page.get_by_text("FRONT EDGE, towards you")).to_be_visible()
    legs = leg_heights(phone)
    assert len(legs) == 4
    # By hand, from readings and datum: the bench mark is 0 and reads 1200, so "back one" lies at 1200 - 1206.
    # The carcass is 720 high, so a leg at that spot, as this one is, has datum - 720 + 6; heights are rounded to 0.5.
    assert float(legs["back left"]) == pytest.approx(float(datum) - 720 + 6, abs=0.5)
    phone.page.get_by_role("button", name="back left", exact=False).first.tap()
    expect(phone.page.get_by_role("dialog")).to_contain_text("back one")
    phone.page.keyboard.press("Escape")
    phone.button("As fitted").tap()
    expect(phone.page.get_by_text("Standing, you in front of it.")).to_be_visible()
    assert leg_heights(phone) == legs

    # The sheet on paper has the same heights.
    phone.go(f"{phone.home}/sheets")
    phone.page.get_by_role("button", name=re.compile("[Ll]eg")).first.tap()
    with phone.page.expect_download() as fetched:
        phone.page.get_by_role("dialog").get_by_role("link", name="Keep as a file").tap()
    path = fetched.value.path()
    assert Path(path).read_bytes().startswith(b"%PDF")
    with pdfplumber.open(path) as sheet:
        text = "\n".join(page.extract_text() for page in sheet.pages)
    assert "Ferry hut" in text
    for height in legs.values():
        assert height in text


def leg_heights(phone):
    """Text of each leg's height by the leg's name, as on the unit's screen."""
    found = {}
    for button in phone.page.locator(".legs .fig.huge").all():
        name = button.get_attribute("aria-label")
        height = button.inner_text().strip()
        found[name.split(f" {height}")[0].lower()] = height
    return found


def test_a_tap_on_the_plan_is_that_spot_in_the_room(ready_phone, office):
    phone = ready_phone
    phone.open(phone.survey)
    plan = phone.page.get_by_role("group", name="Plan: tap where the laser stands")
    spot = plan.get_by_role("button", name="way one, not read yet").locator(".spot")
    spot.tap(force=True)
    expect(phone.page.get_by_text("The laser's place is marked.")).to_be_visible()
    phone.set_up("stripped", place=False)
    office.wait_for_entries(phone.job, 1)
    (set_up,) = [one["data"] for one in office.entries(phone.job) if one["kind"] == "set_up"]
    # The bay's middle is at X 30 + 600 + 300; its way out begins in front of void and bay and is as deep as the bay.
    assert set_up["x_mm"] == pytest.approx(930, abs=15)
    assert set_up["y_mm"] == pytest.approx(15 + 560 + 560 / 2, abs=15)
