"""An empty installation: every page leads to the one that opens the workshop."""

from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from shop.models import Shop
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


@pytest.mark.parametrize(("width", "paper"), [(390, "light"), (1280, "dark")])
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
    open_workshop(page, live_server.url)
    assert Shop.objects.get().slug == "copper-fell-fitting"
    expect(page).to_have_url(f"{live_server.url}/copper-fell-fitting/office")
    context.close()
