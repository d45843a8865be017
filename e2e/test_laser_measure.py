"""A laser measure that types like a keyboard: a burst of digits that ends in Enter."""

from playwright.sync_api import expect


def test_a_burst_stands_to_be_seen_and_is_saved_by_the_key(at_bench_mark, office):
    phone = at_bench_mark
    phone.page.keyboard.type("1200.5\n")
    expect(phone.typed).to_have_text("1200.5")  # its Enter belongs to the number: nothing is saved yet
    phone.has_unsent(0)
    phone.save()
    phone.saved("cut in the door sill, 1200.5 mm")
    phone.has_unsent(0)
    assert [one["raw"] for one in office.entries(phone.job) if one["kind"] == "reading"] == ["1200.5"]


def test_a_burst_replaces_what_was_half_typed(at_bench_mark):
    phone = at_bench_mark
    phone.press("12")
    phone.page.keyboard.type("1207,5\n")
    expect(phone.typed).to_have_text("1207,5")


def test_a_burst_that_is_no_number_is_said_and_not_taken(at_bench_mark):
    phone = at_bench_mark
    phone.page.keyboard.type("Err255\n")
    expect(phone.page.get_by_role("alert")).to_contain_text("no number")
    expect(phone.typed).to_have_text("–")
