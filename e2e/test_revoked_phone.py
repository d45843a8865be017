"""A phone that the office has signed out still hands its entries over; they are put aside for the office to look at."""

import phone as phones
from playwright.sync_api import expect


def test_a_revoked_phone_hands_over_and_the_office_sees_it(at_bench_mark, make_phone, office, fitter):
    phone = at_bench_mark
    phone.offline()
    phone.read("cut in the door sill", "1200")
    (pairing,) = [one["id"] for one in office.ask("/pairings")["pairings"] if one["person"]["name"] == fitter]
    office.ask(f"/pairings/{pairing}", "DELETE")

    phone.offline(False)
    expect(phone.page.get_by_text("The office has signed this phone out.")).to_be_visible()
    phone.has_unsent(0)
    phone.go(f"{phone.home}/entries")
    row = phone.page.get_by_role("listitem").filter(has_text="1200 mm")
    expect(row).to_contain_text("needs attention")
    assert "reading" not in [one["kind"] for one in office.entries(phone.job)]

    desk = make_phone(phones.DESK)
    desk.page.goto(f"{desk.origin}/#/join/{office.code('Office')}")
    desk.button("Sign in here").click()
    expect(desk.page.get_by_role("heading", level=1, name="Jobs")).to_be_visible()
    desk.go("#/people")
    case = desk.page.get_by_role("listitem").filter(has_text=fitter).filter(has_text=phone.job)
    expect(case).to_be_visible()
    case.get_by_role("button", name="Take it into the job").click()
    expect(desk.page.get_by_text("Taken into the job")).to_be_visible()
    expect(case).to_have_count(0)
    assert [one["raw"] for one in office.entries(phone.job) if one["kind"] == "reading"] == ["1200"]
