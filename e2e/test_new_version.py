"""A new version of the app comes while a form is half filled in: nothing reloads by itself."""

import os
import re
import shutil
from pathlib import Path

import pytest
from office import opened
from playwright.sync_api import expect

BUILT = Path(os.environ.get("ODDLEG_PWA") or Path(__file__).parents[1] / "pwa" / "dist")
READY = "A newer Oddleg is ready."


@pytest.fixture
def served(tmp_path):
    """A built app of this test's own, to be exchanged for a newer one."""
    return shutil.copytree(BUILT, tmp_path / "pwa")


@pytest.fixture
def office(tmp_path, served):
    with opened(tmp_path / "data", served) as office:
        yield office


def publish_a_newer_app(served):
    """The same app with another icon, and a worker that keeps that icon under its new hash."""
    icon = served / "icons" / "icon.svg"
    icon.write_text(icon.read_text(encoding="utf-8") + "<!-- newer -->\n", encoding="utf-8")
    worker = served / "sw.js"
    text = worker.read_text(encoding="utf-8")
    newer, count = re.subn(r'(url:"icons/icon\.svg",revision:")[0-9a-f]+', r"\g<1>" + "0" * 32, text)
    if not count:
        newer, count = re.subn(r'(revision:")[0-9a-f]+(",url:"icons/icon\.svg")', r"\g<1>" + "0" * 32 + r"\g<2>", text)
    assert count == 1
    worker.write_text(newer, encoding="utf-8")


def look_for_it(phone):
    phone.page.evaluate("async () => { await (await navigator.serviceWorker.ready).update(); }")
    phone.page.wait_for_function("async () => (await navigator.serviceWorker.ready).waiting !== null")


def test_a_newer_app_waits_while_a_figure_is_half_typed(at_bench_mark, served):
    phone = at_bench_mark
    phone.press("120")
    phone.page.evaluate("window.same_page = true")
    publish_a_newer_app(served)
    look_for_it(phone)
    expect(phone.typed).to_have_text("120")
    expect(phone.page.get_by_text(READY)).to_have_count(0)
    phone.press("0")
    phone.save()
    phone.saved("cut in the door sill, 1200 mm")

    # Now it says so, and still waits to be told.
    expect(phone.page.get_by_text(READY)).to_be_visible()
    assert phone.page.evaluate("window.same_page") is True
    with phone.page.expect_navigation():
        phone.button("Load it now").tap()
    phone.at_spot("back one")
    assert phone.page.evaluate("window.same_page") is None
    expect(phone.listed("cut in the door sill")).to_contain_text("1200")


def test_a_newer_app_that_is_put_off_asks_no_more_and_comes_with_the_next_start(at_bench_mark, served):
    phone = at_bench_mark
    publish_a_newer_app(served)
    look_for_it(phone)
    phone.button("Later").tap()
    expect(phone.page.get_by_text(READY)).to_have_count(0)
    phone.read("cut in the door sill", "1200")
    expect(phone.page.get_by_text(READY)).to_have_count(0)
