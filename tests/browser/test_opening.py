"""An empty installation: every page leads to the one that opens the workshop."""

from dataclasses import dataclass
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from quotes.models import Revision
from shop.models import ClosedDay, Shop
from shop.services.opening import new_opening_code
from tests.browser.test_screens import look

pytestmark = pytest.mark.browser

TYPED = {
    "Name": "Copper Fell Fitting",
    "Address": "2 Ropewalk",
    "Telephone": "01632 960 417",
    "Currency": "EUR",
    "Your name": "Maude Calder",
    "Your e-mail": "maude@copperfell.example",
    "Password": "wet slate quarry",
    "The same password again": "wet slate quarry",
}


def open_workshop(page: Page, address: str) -> None:
    """Fills in the page that opens the first workshop, with the right code."""
    code = new_opening_code() or ""
    page.goto(address)
    for label, text in {"Code from the server": code, **TYPED}.items():
        page.get_by_label(label, exact=True).fill(text)
    page.get_by_role("button", name="Open the workshop").click()
    expect(page.get_by_role("navigation", name="Places")).to_be_visible()


@dataclass
class Effort:
    """The taps and the typed characters of a walk through the app."""

    page: Page
    taps: int = 0
    characters: int = 0

    def tap(self, name: str, role: Any = "button", *, exact: bool = True) -> None:
        self.page.get_by_role(role, name=name, exact=exact).first.click()
        self.taps += 1

    def fill(self, label: str, text: str) -> None:
        self.page.get_by_label(label, exact=True).first.fill(text)
        self.taps += 1
        self.characters += len(text)

    def heading(self, name: str, level: int | None = 1) -> None:
        expect(self.page.get_by_role("heading", name=name, level=level)).to_be_visible()

    def done(self, steps: int) -> None:
        """Waits until the list knows it: a step that is done is shorter, and what is below it moves up."""
        expect(self.page.get_by_text(f"{steps} done.")).to_be_visible()


def guided(walk: Effort) -> None:
    """Enters hours, a rate and a tax by the steps of the guided start, and leaves two steps for later."""
    walk.heading("Your first quote, in 7 steps", 2)
    walk.heading("Office")  # it comes with what stands in its rows
    assert look(walk.page, "guided start") == []
    walk.tap("Enter the hours", "link")
    expect(walk.page.get_by_label("Monday")).to_have_value("08:00-12:00, 12:45-17:30")
    walk.tap("Save the hours")
    expect(walk.page.get_by_text("Opening hours saved. The holidays of your country are below.")).to_be_visible()
    walk.page.get_by_text("Public holidays of a country").click()
    expect(walk.page.get_by_label("Country")).to_have_value("AT")
    walk.page.get_by_label("Year").select_option(index=1)
    leave = walk.page.get_by_role("checkbox", name="Saint Stephen's Day")
    leave.uncheck()
    expect(walk.page.get_by_text("its date shows here what a closed day does to it.")).to_be_visible()
    assert look(walk.page, "opening hours") == []
    walk.page.get_by_role("button", name="Close on these").click()
    expect(walk.page.get_by_text("No further day is ticked.")).to_be_visible()
    expect(walk.page.get_by_role("button", name="Remove")).to_have_count(ClosedDay.objects.count())
    walk.tap("Back to the office", "link")
    walk.done(1)
    walk.tap("Enter the rates", "link")
    walk.fill("Rate", "99")
    walk.tap("Save as the next set")
    walk.done(2)
    walk.tap("Enter the taxes", "link")
    walk.fill("Rate", "20")
    walk.tap("Save as the next set")
    walk.done(3)
    walk.page.get_by_role("link", name="Add an operation").click()
    expect(walk.page.get_by_label("Skill")).to_have_value("workshop")
    walk.page.go_back()
    walk.done(3)
    walk.tap("Leave for later: People")
    walk.tap("Leave for later: First labour")


def kit(walk: Effort, title: str, number: str, price: str, hours: str) -> None:
    for label, text in {"What the kit is": title, "Number": number, "Price": price, "Hours to fit": hours}.items():
        walk.fill(label, text)
    walk.tap("Add the kit")


def sent(walk: Effort) -> None:
    """Begins a quote with two kits of a price and hours, adds the customer, and makes the link."""
    walk.tap("Add a kit", "link")
    walk.heading("New quote")
    walk.tap("Choose the customer")
    walk.tap("Add a customer")
    walk.fill("Name", "Ada Quill")
    walk.fill("Telephone", "01632 960 401")
    walk.tap("Add the customer")
    expect(walk.page.get_by_text("Ada Quill").first).to_be_visible()
    walk.tap("Choose the vehicle")
    walk.fill("Make and model", "Vell 2.4 coupe")
    walk.tap("Add the vehicle")
    walk.tap("A kit with only a price and hours")
    kit(walk, "Front brake kit", "B-1", "1240", "5.2")
    expect(walk.page.get_by_role("checkbox", name="Front brake kit")).to_be_checked()
    walk.tap("A kit with only a price and hours")
    kit(walk, "Tow bar", "T-1", "610", "3.5")
    walk.tap("Quote 2 kits")
    walk.heading("Quote Q-1", 1)
    walk.tap("Send")
    walk.tap("Lock the quote and create the link")
    expect(walk.page.get_by_text("sent", exact=True).first).to_be_visible()


@pytest.mark.parametrize(("width", "paper"), [(390, "light"), pytest.param(1280, "dark", marks=pytest.mark.drill)])
def test_an_empty_installation_is_opened_from_any_page(
    transactional_db: None, live_server: Any, browser: Browser, width: int, paper: Any
) -> None:
    context = browser.new_context(
        viewport={"width": width, "height": 844},
        color_scheme=paper,
        locale="en-GB",
        timezone_id="Europe/Vienna",
        service_workers="block",
    )
    page = context.new_page()
    page.set_default_timeout(15_000)
    new_opening_code()
    page.goto(f"{live_server.url}/saltmarsh/counter")
    expect(page.get_by_role("heading", name="Open your workshop", level=1)).to_be_visible()
    page.get_by_label("Code from the server").fill("4KTM-9XWD-PQ2F")
    for label, text in TYPED.items():
        page.get_by_label(label, exact=True).fill(text)
    page.get_by_role("button", name="Open the workshop").click()
    expect(page.get_by_text("This is not the code of the running server.")).to_be_visible()
    expect(page.get_by_label("Code from the server")).to_be_focused()
    assert look(page, "opening") == []
    page.reload()
    for label, text in TYPED.items():
        expect(page.get_by_label(label, exact=True)).to_have_value("" if "assword" in label else text)
    open_workshop(page, live_server.url)
    assert Shop.objects.get().slug == "copper-fell-fitting"
    expect(page).to_have_url(f"{live_server.url}/copper-fell-fitting/office")
    walk = Effort(page)
    guided(walk)
    if width == 390:
        sent(walk)
        assert Revision.objects.filter(sent_at__isnull=False).count() == 1
        assert walk.taps <= 40 and walk.characters <= 100, walk
        page.goto(f"{live_server.url}/copper-fell-fitting/office")
        expect(page.get_by_role("heading", name="Left for later", level=2)).to_be_visible()
        expect(page.get_by_text("First labour")).to_be_visible()
        expect(page.get_by_text("Rates by skill")).to_have_count(0)
    context.close()
