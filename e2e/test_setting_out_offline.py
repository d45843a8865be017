"""Walls read with no signal, a reload in the middle; then sync, the rod card ticked offline, and marks that moved."""

import json
import re
from pathlib import Path

import pytest
from playwright.sync_api import expect

ROOM, LOFT, RUN = "store", "loft", "hatch-run"
HEIGHTS = ("just over the floor", "at batten height", "at worktop height")


@pytest.fixture
def job(office):
    """A job of this test alone: one run between two walls, and a loft with two runs that meet in a corner."""
    document = json.loads((Path(__file__).parent / "set-out-job.json").read_text(encoding="utf-8"))
    number = len(office.people)
    document["id"] = f"boat-store-{number}"
    office.add_job(document, f"Ned {number}")
    return document["id"]


@pytest.fixture
def on_site(phone, office, fitter):
    phone.sign_in(office.code(fitter))
    phone.wait_for_pack("Boat store")
    phone.offline()
    return phone


def at_spot(phone, name, under):
    expect(phone.page.get_by_role("heading", level=2, name=f"{name} {under}", exact=True)).to_be_visible()


def read(phone, name, under, raw):
    """Reads the spot that the phone asks for, and sees that it was saved."""
    at_spot(phone, name, under)
    phone.press(raw)
    expect(phone.typed).to_have_text(raw)
    phone.save()
    phone.saved(f"{name}, {under}, {raw} mm")


def begin(phone, stands_off=None):
    if stands_off:
        phone.page.get_by_role("button", name=re.compile("^It stands off by")).tap()
        keys = phone.page.get_by_role("dialog").get_by_role("group", name="Number keys")
        for digit in stands_off:
            keys.get_by_role("button", name=digit, exact=True).tap()
        keys.get_by_role("button", name="Take it", exact=True).tap()
    phone.button("Start reading").tap()


def measure(phone, what, raw):
    phone.button("Sizes").tap()
    phone.page.get_by_role("button", name=re.compile(f"^(Measure|Again): {what}$")).tap()
    phone.press(raw)
    phone.save()
    phone.saved(f"{what}, {raw} mm")


def in_plan(phone):
    expect(phone.page.get_by_text("Every entry known here is in it.").locator("visible=true")).to_be_visible(
        timeout=60_000
    )


def shown_mark(phone):
    return phone.page.locator(".rod-card .one")


def test_walls_read_without_signal_come_back_as_a_rod_that_is_ticked_offline(on_site, office):
    phone = on_site
    phone.open(f"{phone.home}/walls/{ROOM}")
    begin(phone, "100")

    # Up the wall at each spot; a figure half typed outlives a reload and is saved by nobody.
    read(phone, "A one", HEIGHTS[0], "100")
    at_spot(phone, "A one", HEIGHTS[1])
    phone.press("10")
    phone.page.reload()
    at_spot(phone, "A one", HEIGHTS[1])
    expect(phone.typed).to_have_text("10")
    phone.press("0")
    phone.save()
    phone.saved(f"A one, {HEIGHTS[1]}, 100 mm")
    read(phone, "A one", HEIGHTS[2], "100")

    # What jumps is asked about before it is saved; there is no minus key, a button says that the wall stands proud.
    at_spot(phone, "A two", HEIGHTS[0])
    phone.press("4")
    phone.button("stands proud").tap()
    phone.save()
    asked = phone.page.get_by_role("alertdialog")
    expect(asked).to_contain_text("104 away from A one, which read 100 off the same line.")
    asked.get_by_role("button", name="Save 4 mm proud of the line all the same").tap()
    phone.button("Undo last").tap()
    phone.answer("Undo it")
    at_spot(phone, "A two", HEIGHTS[0])

    for name in ("A two", "A three", "A four"):
        for height in HEIGHTS:
            # The wall stands 4 out at one spot: the line is 100 off, so it reads 96 there.
            read(phone, name, height, "96" if (name, height) == ("A three", HEIGHTS[0]) else "100")

    # The laser is moved: two spots again, far apart, join the new line on; it stands 40 nearer to the wall.
    phone.button("New line").tap()
    phone.page.get_by_text("Begin one whenever laser or string was moved.").wait_for()
    begin(phone)
    read(phone, "A four", HEIGHTS[2], "60")
    read(phone, "A one", HEIGHTS[0], "60")
    for name in ("A five", "A six"):
        for height in HEIGHTS:
            read(phone, name, height, "60")
    expect(phone.page.get_by_text("All read.")).to_be_visible()

    # A spot of the fitter's own, then widths; all with the same keys.
    phone.button("Wall").tap()
    phone.button("A spot of my own").tap()
    keys = phone.page.get_by_role("dialog").get_by_role("group", name="Number keys")
    for digit in "900":
        keys.get_by_role("button", name=digit, exact=True).tap()
    keys.get_by_role("button", name="Take it", exact=True).tap()
    read(phone, "at 900", HEIGHTS[2], "60")
    measure(phone, f"opening {HEIGHTS[1]}, along the wall", "1852")
    measure(phone, f"opening {HEIGHTS[0]}, along the wall", "1858")
    phone.button("Sizes").tap()
    phone.page.locator("summary").filter(has_text="End mark, right").tap()
    phone.button(f"Measure: wall beyond the end mark, {HEIGHTS[0]}, along the wall").tap()
    phone.press("5")
    phone.save()
    phone.saved("wall beyond the end mark")
    measure(phone, "unit 1, width", "600.3")

    # A width that lost a digit is asked about, and what was meant is one tap away.
    phone.button("Sizes").tap()
    phone.page.get_by_role("button", name=f"Measure: opening {HEIGHTS[2]}, along the wall").tap()
    phone.press("186")
    phone.save()
    expect(phone.page.get_by_role("alertdialog")).to_contain_text("186 cm (1860 mm) meant?")
    phone.page.get_by_role("alertdialog").get_by_role("button", name="Take 186 cm").tap()
    phone.save()
    phone.saved(f"opening {HEIGHTS[2]}, along the wall, 186 cm")

    # The list shows at once what is on this phone only, and the entries say it in words.
    phone.button("Wall").tap()
    row = phone.page.locator(".spot-row").filter(has_text="96 mm")
    expect(phone.page.get_by_role("radio", name=re.compile("laser line one"))).to_have_count(1)
    phone.page.get_by_role("radio", name=re.compile("laser line one")).check(force=True)
    expect(row).to_contain_text("on this phone")
    phone.open(f"{phone.home}/entries")
    rows = phone.page.get_by_role("listitem")
    expect(rows.filter(has_text=re.compile("on this phone,"))).to_have_count(30)
    expect(rows.filter(has_text="opening at the batten, along the wall: 1852 mm")).to_have_count(1)
    expect(rows.filter(has_text="4 mm proud of the line")).to_have_count(1)
    assert office.entries(phone.job) == []

    # Back in signal: sent, and the plan comes with the rod.
    phone.offline(False)
    phone.has_unsent(0)
    in_plan(phone)
    log = office.entries(phone.job)
    assert [one["kind"] for one in log].count(
        "wall_reading"
    ) == 23  # 18 spots, 2 joints, one of his own, a blunder and its undo
    (proud,) = [one for one in log if one["kind"] == "wall_reading" and one["data"] and one["data"]["side"]]
    assert (proud["raw"], proud["value"]) == ("4", "-4")

    # By hand: the narrowest opening is 1852, the units are 3 x 600, so both fillers show (1852 - 1800) / 2 = 26.
    phone.offline()
    phone.go(f"{phone.home}/run/{RUN}")
    marks = [("zero mark", "0"), ("end mark", "1852"), ("left filler and cups base", "26")]
    for at, (name, left) in enumerate(marks):
        expect(shown_mark(phone).get_by_role("heading")).to_contain_text(name)
        expect(shown_mark(phone).locator(".fig.arm")).to_have_text(left)
        if at == 2:
            expect(shown_mark(phone).get_by_role("button", name=re.compile("from the right 1826 "))).to_be_visible()
            shown_mark(phone).locator(".fig.arm").tap()
            expect(phone.page.get_by_role("dialog")).to_contain_text(re.compile("[a-z]{3}"))
            phone.page.keyboard.press("Escape")
        phone.button("Marked").tap()
    phone.page.get_by_role("button", name=re.compile("^List, 3 of 6")).tap()
    not_in_it = phone.page.get_by_text("3 entries are not in it yet.").locator("visible=true")
    not_in_it.tap()
    expect(phone.page.get_by_text("a mark made at 1852").locator("visible=true")).to_be_visible()
    not_in_it.tap()
    boxes = phone.page.locator(".tick-box")
    expect(phone.page.locator('.tick-box[aria-pressed="true"]')).to_have_count(3)
    boxes.nth(3).tap()
    expect(phone.page.locator('.tick-box[aria-pressed="true"]')).to_have_count(4)
    boxes.nth(3).tap()
    phone.answer("Undo it")
    expect(phone.page.locator('.tick-box[aria-pressed="true"]')).to_have_count(3)
    phone.page.reload()
    expect(shown_mark(phone).get_by_role("heading")).to_contain_text("cups base and sink base")

    # Sent, the ticks are in the plan. A narrower opening found later moves them, and the card says so.
    phone.offline(False)
    phone.has_unsent(0)
    in_plan(phone)
    phone.go(f"{phone.home}/walls/{ROOM}")
    measure(phone, f"opening {HEIGHTS[1]}, along the fronts", "1850")
    phone.has_unsent(0)
    phone.go(f"{phone.home}/run/{RUN}")
    in_plan(phone)
    expect(shown_mark(phone).get_by_role("heading")).to_contain_text("end mark", timeout=60_000)
    expect(shown_mark(phone)).to_contain_text("The plan moved this mark after it was made: 1852 was, 1850 now")
    phone.button("Marked again, at 1850").tap()
    expect(shown_mark(phone)).to_contain_text("26 was, 25 now")


def test_three_sides_of_a_corner_are_kept_while_typed_and_give_its_angle(on_site):
    phone = on_site
    phone.open(f"{phone.home}/walls/{LOFT}")

    def side(label, raw):
        phone.page.get_by_role("button", name=re.compile(f"^{label}")).tap()
        keys = phone.page.get_by_role("dialog").get_by_role("group", name="Number keys")
        for digit in raw:
            keys.get_by_role("button", name=digit, exact=True).tap()
        keys.get_by_role("button", name="Take it", exact=True).tap()

    phone.button("Sizes").tap()
    side("From the corner along Hoist run", "3000")
    side("From the corner along Gable run", "4000")
    phone.page.reload()
    phone.button("Sizes").tap()
    side("Across", "7005")
    phone.button("Save the three sides").tap()
    expect(phone.page.get_by_role("alert").filter(has_text="These three cannot close")).to_be_visible()
    side("Across", "5005")
    phone.button("Save the three sides").tap()
    expect(phone.page.get_by_text("3000 mm · 4000 mm · 5005 mm")).to_be_visible()
    phone.has_unsent(1)

    # By hand, by the rule of cosines: (3000^2 + 4000^2 - 5005^2) / (2 x 3000 x 4000) is the cosine of 90.1194 degrees.
    phone.offline(False)
    phone.has_unsent(0)
    phone.go(f"{phone.home}/corners/{LOFT}")
    in_plan(phone)
    angle = phone.page.get_by_role("button", name=re.compile("^Corner 1: angle 90.12 degrees"))
    expect(angle).to_be_visible(timeout=60_000)


def test_a_rod_opens_cold_with_no_signal(on_site):
    phone = on_site
    phone.page.close()
    cold = phone.another_tab()
    cold.open(f"{cold.home}/run/{RUN}")
    expect(cold.page.locator(".rod-card .fig.arm")).to_have_text("0")
    expect(cold.page.get_by_text("Plan of").locator("visible=true")).to_be_visible()
