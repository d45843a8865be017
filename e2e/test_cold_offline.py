"""With the server gone, app and data open from cold, also through a link into the middle of a job."""

import signal

import phone as phones
import pytest
from office import opened
from playwright.sync_api import Error, expect


@pytest.fixture
def office(tmp_path):
    """A server of this test's own: it is ended."""
    with opened(tmp_path / "data") as office:
        yield office


def test_app_and_data_open_through_a_deep_link_when_the_server_is_dead(ready_phone, office):
    phone = ready_phone
    phone.open(phone.survey)
    phone.set_up("stripped", place=False)
    phone.read("cut in the door sill", "1200")
    for spot in ("back one", "back two", "back three", "front one", "front two", "front three", "bay one", "way one"):
        phone.read(spot, "1206")
    phone.go(phone.home)
    expect(phone.page.get_by_text("Every entry known here is in it.")).to_be_visible(timeout=60_000)
    phone.go(f"{phone.home}/datum/{phones.ROOM}")
    phone.choose_first_datum()
    expect(phone.page.get_by_role("heading", name="Decided")).to_be_visible(timeout=60_000)
    phone.page.close()

    office.stop(signal.SIGKILL)
    cold = phone.another_tab()
    cold.open(f"{cold.home}/unit/urn")
    expect(cold.page.get_by_role("heading", level=1)).to_contain_text("urn base")
    expect(cold.page.locator(".legs .fig.huge")).to_have_count(4)
    cold.open(f"{cold.home}/plinth/{phones.ROOM}")
    expect(cold.page.get_by_role("heading", level=2).first).to_contain_text("P1: ")
    expect(cold.page.locator(".piece .fig.huge")).to_have_count(3)
    cold.page.locator(".piece .fig.huge").last.click()
    expect(cold.page.get_by_role("dialog")).to_contain_text("finished floor")
    cold.page.keyboard.press("Escape")
    cold.open(cold.survey)
    expect(cold.listed("way one")).to_contain_text("1206")


def test_without_its_worker_the_app_cannot_open_offline(make_phone, office, fitter):
    """The control: were this to pass, the tests above would prove nothing."""
    phone = make_phone(service_workers="block")
    phone.sign_in(office.code(fitter))
    phone.offline()
    with pytest.raises(Error, match="ERR_INTERNET_DISCONNECTED"):
        phone.open(phone.home)
