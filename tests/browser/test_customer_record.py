"""Two records of a customer are put together, and a vehicle gets another owner, by the keyboard alone."""

from typing import Any

import pytest
from playwright.sync_api import Locator, Page, expect

from tests.browser import acts
from tests.browser.sizes import look_at_both
from tests.browser.test_counter import client
from tests.client import CheckedClient

__all__ = ["client"]
pytestmark = pytest.mark.browser


def press(page: Page, button: Locator) -> None:
    """Goes on by Tab as far as the button, and presses it."""
    expect(button).to_be_visible()
    while not button.evaluate("button => button === document.activeElement"):
        page.keyboard.press("Tab")
    page.keyboard.press("Enter")


def test_a_record_by_the_keyboard(client: CheckedClient, live_server: Any, page: Page) -> None:
    anwen, kester = (client.get(f"customers?q={name}").json()["items"][0] for name in ("Holloway", "Kester"))
    acts.signed_in(page, live_server.url, "ines@saltmarsh.example", f"/saltmarsh/counter/customer/{anwen['id']}")
    search = page.get_by_label("Name or telephone of the other record")
    search.focus()
    page.keyboard.type("Kester")
    press(page, page.get_by_role("button", name="Kester Vole"))
    expect(page.get_by_role("radio", name="Anwen Holloway")).to_be_focused()
    press(page, page.get_by_role("button", name="Leave it as it is"))
    expect(search).to_be_focused()
    page.keyboard.type("Kester")
    press(page, page.get_by_role("button", name="Kester Vole"))
    page.keyboard.press("ArrowDown")
    expect(page.get_by_text("Kester Vole gets 1 vehicle of Anwen Holloway.")).to_be_visible()
    assert look_at_both(page, "two records") == []
    client.patch(f"customers/{kester['id']}", {"phone": "01632 960 555"}, HTTP_IF_MATCH=f'"{kester["version"]}"')
    press(page, page.get_by_role("button", name="Merge the records"))
    expect(page.get_by_text("One of the two customers was changed")).to_be_visible()
    expect(page.get_by_text("The telephone number stays 01632 960 555")).to_be_visible()
    press(page, page.get_by_role("button", name="Merge the records"))
    expect(page.get_by_role("heading", name="Kester Vole", level=1)).to_be_visible()
    assert client.get(f"customers/{anwen['id']}").json()["id"] == kester["id"]
    opener = page.get_by_role("button", name="Another owner").first
    press(page, opener)
    press(page, page.get_by_role("button", name="Leave it as it is"))
    expect(opener).to_be_focused()
    page.keyboard.press("Enter")
    expect(page.get_by_label("Name or telephone", exact=True)).to_be_focused()
    page.keyboard.type("Joon")
    press(page, page.get_by_role("button", name="Joon Abara"))
    expect(page.get_by_label("Theirs since")).to_be_focused()
    press(page, page.get_by_role("button", name="Record the new owner"))
    expect(page.get_by_text("belongs to Joon Abara now.")).to_be_visible()
