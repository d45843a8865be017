"""What a network does to entries on their way: none is lost, none is doubled, and the phone says what is wrong."""

import json

import pytest
from playwright.sync_api import expect

PUSH = "**/api/v1/entries"
EVERYTHING = "**/api/v1/**"


def numbers(office, phone):
    return [one["raw"] for one in office.entries(phone.job) if one["kind"] == "reading"]


def test_a_lost_answer_doubles_nothing(at_bench_mark, office):
    phone = at_bench_mark
    lost = []

    def lose(route):
        """The server hears it and answers; the phone never gets the answer."""
        sent = json.loads(route.request.post_data)["entries"]
        route.fetch()
        if sent and len(lost) < 2:
            lost.append(sent)
            route.abort()
        else:
            route.continue_()

    phone.context.route(PUSH, lose)
    phone.read("cut in the door sill", "1200")
    phone.has_unsent(0)  # by itself: every failure arms the timer again
    assert len(lost) == 2
    assert {one["uid"] for one in lost[0]} <= {one["uid"] for one in lost[1]}
    assert numbers(office, phone) == ["1200"]


REFUSALS = {
    "a 500": (
        {"status": 500, "content_type": "text/html", "body": "<h1>Internal Server Error</h1>"},
        "in trouble (500)",
    ),
    "a 401": (
        {
            "status": 401,
            "content_type": "application/problem+json",
            "body": json.dumps({"title": "Not signed in", "detail": "Ask the office for a code."}),
        },
        "Not signed in",
    ),
    "a captive portal's 200": (
        {"status": 200, "content_type": "text/html", "body": "<h1>Welcome! Please sign in</h1>"},
        "Something other than the office's server answered",
    ),
}


@pytest.mark.parametrize("fault", REFUSALS)
def test_entries_outlive(at_bench_mark, office, fault):
    phone = at_bench_mark
    answer, said = REFUSALS[fault]
    phone.context.route(EVERYTHING, lambda route: route.fulfill(**answer))
    phone.read("cut in the door sill", "1200")
    phone.has_unsent(1)
    phone.go(f"{phone.home}/entries")
    expect(phone.page.get_by_text("1 entry is only on this phone")).to_be_visible()
    expect(phone.page.get_by_text(said)).to_be_visible()
    row = phone.page.get_by_role("listitem").filter(has_text="1200 mm")
    expect(row).to_contain_text("on this phone")
    assert numbers(office, phone) == []

    phone.context.unroute(EVERYTHING)
    phone.has_unsent(0)  # delivered by itself
    expect(row).to_contain_text("in the office")
    assert numbers(office, phone) == ["1200"]
    expect(phone.page.get_by_text(said)).to_have_count(0)
