"""The counter is used by the keyboard alone, and "?" lists the keys of a screen."""

from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.browser import acts
from tests.browser.test_counter import client, draft, opened
from tests.browser.test_how import axe_finds
from tests.browser.test_screens import AXE
from tests.client import CheckedClient

__all__ = ["client"]
pytestmark = pytest.mark.browser


def listed(page: Page) -> None:
    """The list of keys, opened and closed again."""
    page.keyboard.press("?")
    box = page.get_by_role("dialog", name="Keys of this screen")
    expect(box).to_be_visible()
    page.evaluate(AXE.read_text("utf-8"))
    assert axe_finds(page) == []
    page.keyboard.press("Escape")
    expect(box).to_be_hidden()


def test_the_counter_by_its_keys(client: CheckedClient, live_server: Any, page: Page) -> None:
    acts.signed_in(page, live_server.url, "ines@saltmarsh.example", "/saltmarsh/counter")
    box = page.get_by_role("searchbox")
    expect(box).to_be_visible()
    listed(page)
    page.keyboard.press("/")
    expect(box).to_be_focused()
    page.keyboard.type("n")  # typed into the box
    expect(box).to_have_value("n")
    page.keyboard.press("Escape")
    page.keyboard.type("nl17")  # as fast as a scanner: no key of the screen
    expect(page.get_by_role("heading", name="Find a customer")).to_be_visible()
    page.keyboard.press("n")
    expect(page.get_by_role("heading", name="New quote")).to_be_visible()
    listed(page)
    page.keyboard.press("c")
    expect(page.get_by_label("Name or telephone")).to_be_focused()
    page.keyboard.type("holloway")
    hit = page.get_by_role("button", name="Anwen Holloway").first
    expect(hit).to_be_visible()
    while not hit.evaluate("button => button === document.activeElement"):
        page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    expect(hit).to_be_hidden()
    page.keyboard.press("q")
    expect(page.get_by_text("draft version 1")).to_be_visible()
    page.keyboard.press("b")
    expect(box).to_be_visible()
    page.keyboard.press("Escape")
    page.keyboard.press("l")
    expect(page.get_by_role("heading", name="Quotes", exact=True)).to_be_visible()
    page.keyboard.press("b")
    expect(box).to_be_visible()


@pytest.mark.drill
def test_a_draft_by_its_keys(client: CheckedClient, live_server: Any, page: Page) -> None:
    opened(page, live_server.url, draft(client))
    listed(page)
    page.keyboard.press("c")
    expect(page.get_by_label("Name or telephone")).to_be_focused()
    page.keyboard.press("Escape")
    page.keyboard.press("b")
    expect(page.get_by_role("searchbox")).to_be_visible()


@pytest.mark.drill
def test_single_keys_can_be_switched_off(client: CheckedClient, live_server: Any, page: Page) -> None:
    opened(page, live_server.url, draft(client))
    page.keyboard.press("?")
    page.get_by_role("button", name="Keys off").click()
    page.get_by_role("button", name="Close").click()
    page.keyboard.press("b")
    page.keyboard.press("c")
    expect(page.get_by_label("Name or telephone")).to_be_hidden()
    page.keyboard.press("?")
    page.get_by_role("button", name="Keys off").click()
    page.get_by_role("button", name="Close").click()
    page.keyboard.press("b")
    expect(page.get_by_role("searchbox")).to_be_visible()
