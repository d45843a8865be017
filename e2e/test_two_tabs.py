"""Two tabs of one phone: one outbox, nothing doubled."""

from playwright.sync_api import expect


def test_two_tabs_share_one_outbox_and_double_nothing(at_bench_mark, office):
    first = at_bench_mark
    second = first.another_tab()
    second.open(second.survey)
    second.at_spot("cut in the door sill")
    first.page.bring_to_front()
    first.offline()
    first.read("cut in the door sill", "1200")
    second.page.bring_to_front()
    second.at_spot("cut in the door sill")  # a spot that somebody looks at does not change under the finger
    second.has_unsent(1)
    second.listed("back one").tap()
    second.read("back one", "1206")
    first.page.bring_to_front()
    first.has_unsent(2)
    first.listed("back two").tap()
    first.read("back two", "1208")
    for tab in (first, second):
        tab.go(f"{tab.home}/entries")
        expect(tab.page.get_by_role("listitem").filter(has_text="on this phone")).to_have_count(3)
    first.offline(False)
    for tab in (first, second):
        tab.has_unsent(0)
        expect(tab.page.get_by_role("listitem").filter(has_text="in the office")).to_have_count(4)
    assert [one["raw"] for one in office.entries(first.job) if one["kind"] == "reading"] == ["1200", "1206", "1208"]
