"""A draft of two kits is short, on a phone and on a desk."""

from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.browser import acts
from tests.browser.aside import begin
from tests.browser.test_how import BRAKES, TURBO, advisor_of, make_saltmarsh

pytestmark = pytest.mark.browser

HEIGHT = "document.documentElement.scrollHeight"
MOST = {390: 3500, 1280: 1800}  # pixels at the width


def heights(page: Page) -> dict[int, int]:
    found = {}
    for width in MOST:
        page.set_viewport_size({"width": width, "height": 844})
        found[width] = page.evaluate(HEIGHT)
    return found


def too_long(found: dict[int, int]) -> dict[int, int]:
    return {width: height for width, height in found.items() if height > MOST[width]}


def test_a_draft_of_two_kits_is_short(page: Page, live_server: Any, transactional_db: None) -> None:
    begin(make_saltmarsh)
    client = advisor_of("saltmarsh")
    kits = [each["id"] for each in client.get("kits").json()["items"] if each["title"] in (TURBO, BRAKES)]
    vehicle = client.get("customers", {"q": "holloway"}).json()["items"][0]["vehicles"][0]["id"]
    draft = client.post("quotes", {"kits": kits, "vehicle": vehicle}).json()
    acts.signed_in(page, live_server.url, "ines@saltmarsh.example", f"/saltmarsh/counter/quote/{draft['id']}")
    expect(page.get_by_text("Margin", exact=True)).to_be_visible()
    page.wait_for_load_state("networkidle")
    assert too_long(heights(page)) == {}
