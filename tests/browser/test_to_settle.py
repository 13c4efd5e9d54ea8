"""Send leads an advisor to the first thing that keeps a draft from being sent, on a phone."""

from typing import Any

import pytest
from playwright.sync_api import Page, Route, expect

from tests.browser.test_counter import client, draft, holloways, opened
from tests.client import CheckedClient

__all__ = ["client"]
pytestmark = pytest.mark.browser


def send(page: Page) -> None:
    page.get_by_role("button", name="Send", exact=True).click(force=True)  # marked as disabled, and still pressed


def blocked(page: Page, quote: dict[str, Any], place: str) -> None:
    """The server's answer with one thing to settle at this place."""
    words = f"Settle it at {place}."

    settle = {"to_settle": [{"place": place, "words": words, "stops": True}], "stops": [words]}

    def answer(route: Route) -> None:
        route.fulfill(json=quote | settle, headers={"ETag": f'"{quote["version"]}"'})

    page.unroute_all()
    page.route(f"**/quotes/{quote['id']}", answer)
    page.reload()
    expect(page.get_by_role("button", name=words)).to_be_visible()


def test_send_leads_to_the_customer_who_is_missing(client: CheckedClient, live_server: Any, page: Page) -> None:
    opened(page, live_server.url, draft(client))
    send(page)
    expect(page.locator(".toasts")).to_contain_text("Choose the customer.")
    expect(page.get_by_label("Name or telephone")).to_be_focused()


@pytest.mark.drill
def test_send_opens_the_place_that_is_folded(client: CheckedClient, live_server: Any, page: Page) -> None:
    quote = draft(client, vehicle=holloways(client))
    discount = {"amount": "50.00", "because": "Loyalty"}
    quote = client.put(f"quotes/{quote['id']}/discount", discount, seen=f'"{quote["version"]}"').json()
    opened(page, live_server.url, quote)
    blocked(page, quote, "fluids")
    fold = page.locator("details#needs")
    expect(fold).not_to_have_attribute("open", "")
    send(page)
    expect(fold).to_have_attribute("open", "")
    expect(fold.locator("summary")).to_be_focused()
    expect(fold).to_be_in_viewport()

    blocked(page, quote, "discount")
    page.get_by_role("button", name="Settle it at discount.").click()
    expect(page.locator("#discount")).to_be_focused()
    expect(page.locator("#discount")).to_be_in_viewport()


@pytest.mark.drill
def test_send_leads_to_the_capacity_that_is_not_recorded(client: CheckedClient, live_server: Any, page: Page) -> None:
    customer = client.get("customers", {"q": "holloway"}).json()["items"][0]["id"]
    car = {"customer": customer, "title": "Tessark T35 estate", "capacities": {"engine oil": "5.4"}}
    quote = draft(client, vehicle=client.post("vehicles", car).json()["id"])
    opened(page, live_server.url, quote)
    blocked(page, quote, "vehicle_facts")
    send(page)
    field = page.locator("form .capacities input:focus")
    expect(field).to_be_in_viewport()
    expect(field).to_have_value("")
