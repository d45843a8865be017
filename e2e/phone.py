"""A fitter's phone: what a thumb does on it, by the names that are on the keys."""

from __future__ import annotations

import re

from playwright.sync_api import expect

PHONE = {"viewport": {"width": 390, "height": 844}, "is_mobile": True, "has_touch": True, "device_scale_factor": 2}
DESK = {"viewport": {"width": 1440, "height": 900}}
COMMON = {"locale": "en-GB", "timezone_id": "Europe/London", "reduced_motion": "reduce"}
KEYS = {".": "decimal point"}
ROOM = "hut"


class Phone:
    """`context` is the browser's storage on this phone, `page` the tab in front."""

    def __init__(self, context, origin, job, page=None):
        self.context = context
        self.origin = origin
        self.job = job
        self.page = page or (context.pages[0] if context.pages else context.new_page())

    def open(self, address="#/jobs"):
        """Goes to an address of the app by loading it anew."""
        self.page.goto("about:blank")
        self.page.goto(f"{self.origin}/{address}")
        expect(self.page.get_by_role("heading", level=1)).not_to_have_text("Oddleg")

    def go(self, address):
        """Goes to an address within the app that is open."""
        self.page.evaluate("hash => { location.hash = hash; }", address)

    def another_tab(self):
        return Phone(self.context, self.origin, self.job, self.context.new_page())

    @property
    def home(self):
        return f"#/job/{self.job}"

    @property
    def survey(self):
        return f"{self.home}/survey/{ROOM}"

    def button(self, name, exact=True):
        return self.page.get_by_role("button", name=name, exact=exact)

    def sign_in(self, code, by_link=True):
        """Opens the link, or types the code, and presses the button that spends it."""
        self.open(f"#/join/{code}" if by_link else "#/join")
        if not by_link:
            self.page.get_by_label("Code", exact=True).fill(code)
        self.button("Sign in here").tap()
        expect(self.page.get_by_role("heading", level=1, name="Jobs")).to_be_visible()

    def wait_for_pack(self, title="Ferry hut"):
        """The job is here with its plan, and the app itself is kept for starting without a signal."""
        row = self.page.get_by_role("link", name=re.compile(title))
        expect(row.get_by_text("on this phone")).to_be_visible(timeout=30_000)
        self.page.wait_for_function("navigator.serviceWorker.controller !== null")

    def ready_for_site(self, code):
        self.sign_in(code)
        self.wait_for_pack()
        return self

    def offline(self, yes=True):
        self.context.set_offline(yes)

    @property
    def chip(self):
        """The words at the top of every screen: how many entries are only here."""
        return self.page.get_by_role("link", name=re.compile("^Entries: "))

    def has_unsent(self, count):
        """A screen says how many entries are only on this phone; 0: all in the office."""
        words = f"Entries: {count} on this phone" if count else "Entries: all in the office"
        expect(self.page.get_by_role("link", name=re.compile(f"^{words}"))).to_be_visible(timeout=30_000)

    def at_spot(self, name):
        expect(self.page.get_by_role("heading", level=2, name=name, exact=True)).to_be_visible()

    @property
    def typed(self):
        return self.page.get_by_label("Typed", exact=True)

    def set_up(self, *choices, place=True):
        """A new set-up from choices; `place`: the laser's place is tapped on the plan."""
        for one in choices:
            self.page.get_by_role("radio", name=re.compile(f"^{one}")).check(force=True)
        if place:
            self.page.get_by_role("group", name="Plan: tap where the laser stands").locator("svg").tap()
            expect(self.page.get_by_text("The laser's place is marked.")).to_be_visible()
        self.button("Start reading").tap()

    def press(self, raw):
        keys = self.page.get_by_role("group", name="Number keys")
        for sign in raw:
            keys.get_by_role("button", name=KEYS.get(sign, sign), exact=True).tap()

    def save(self):
        self.page.get_by_role("group", name="Number keys").get_by_role("button", name="Save", exact=True).click()

    def read(self, spot, raw):
        """Reads the spot that the phone asks for, and sees that it was saved."""
        self.at_spot(spot)
        self.press(raw)
        expect(self.typed).to_have_text(raw)
        self.save()
        self.saved(f"{spot}, {raw} mm")

    def saved(self, words):
        expect(self.typed).to_contain_text(f"Saved on this phone: {words}")

    def listed(self, spot):
        """The spot's row in the list of stations, which is opened."""
        self.button("List").tap()
        return self.page.locator(".spot-row").filter(has_text=spot)

    def answer(self, name):
        """Presses a button of the dialog that is open."""
        self.page.get_by_role("dialog").get_by_role("button", name=name, exact=True).tap()

    def choose_first_datum(self):
        """Takes the first choice that can be had; gives its text."""
        choices = self.page.get_by_role("region", name="Datum choices side by side")
        button = choices.get_by_role("button", name=re.compile("^Choose [0-9]")).first
        datum = re.search("Choose ([0-9.]+)", button.inner_text()).group(1)
        button.tap()
        self.answer(f"Yes, {datum}")
        return datum
