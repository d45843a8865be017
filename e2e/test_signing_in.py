"""A phone is paired by a code that works once. Opening its link spends nothing; the button does."""

from playwright.sync_api import expect


def test_opening_a_link_spends_nothing_and_the_button_does(make_phone, office, fitter):
    code = office.code(fitter)
    for _ in range(2):
        looker = make_phone()
        looker.open(f"#/join/{code}")
        expect(looker.page.get_by_label("Code", exact=True)).to_have_value(code)
    make_phone().sign_in(code)


def test_a_code_is_typed_once_and_its_second_use_is_refused_in_words(make_phone, office, fitter):
    code = office.code(fitter)
    make_phone().sign_in(code.lower(), by_link=False)
    late = make_phone()
    late.open("#/join")
    late.page.get_by_label("Code", exact=True).fill(code)
    late.button("Sign in here").tap()
    said = late.page.get_by_role("alert")
    expect(said).to_contain_text("code")
    expect(said).to_contain_text("office")
    expect(late.page.get_by_role("heading", level=1, name="Sign in")).to_be_visible()


def test_a_code_that_cannot_be_one_is_not_even_sent(phone):
    phone.open("#/join")
    sent = []
    phone.page.on("request", lambda request: sent.append(request.url))
    phone.page.get_by_label("Code", exact=True).fill("MREG7")
    phone.button("Sign in here").tap()
    expect(phone.page.get_by_role("alert")).to_contain_text("8")
    assert not [url for url in sent if url.endswith("/claims")]


def test_without_a_pairing_no_screen_but_signing_in_is_shown(phone):
    for address in ("#/jobs", "#/people", phone.home, f"{phone.home}/unit/cups"):
        phone.open(address)
        expect(phone.page.get_by_role("heading", level=1, name="Sign in")).to_be_visible()
