"""Signing out on a shared phone, with and without signal."""

from typing import Any

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from tests.browser import acts
from tests.browser.test_how import axe_finds
from tests.browser.test_screens import AXE, SMALL, WIDE
from tests.cast import make_cast

pytestmark = pytest.mark.browser
SESSION = "/api/v1/session"


def sign_out(page: Page) -> None:
    page.get_by_role("link", name="signing out").click()
    page.get_by_role("button", name="Sign out", exact=True).click()
    expect(page.get_by_role("heading", name="Sign in")).to_be_visible()


def test_signing_out_without_signal_is_honoured_before_anything_is_shown(
    page: Page, context: BrowserContext, live_server: Any
) -> None:
    make_cast()
    acts.sign_in(page, live_server.url, "technician@saltmarsh.example")
    assert page.request.get(live_server.url + SESSION).json()["signed_in"]
    context.set_offline(True)
    sign_out(page)
    expect(page.get_by_role("status")).to_contain_text("You will be signed out when there is signal")
    page.evaluate(AXE.read_text("utf-8"))
    assert axe_finds(page, "body") == [] and page.evaluate(WIDE) == 0 and page.evaluate(SMALL) == []
    context.set_offline(False)
    page.reload()
    expect(page.get_by_role("heading", name="Sign in")).to_be_visible()
    expect(page.get_by_text("You will be signed out when there is signal")).to_have_count(0)
    assert not page.request.get(live_server.url + SESSION).json()["signed_in"]
    page.reload()
    expect(page.get_by_role("heading", name="Sign in")).to_be_visible()
