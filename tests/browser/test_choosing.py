"""A customer chooses, sees the total and accepts it without script; the page stays short with choices."""

import re
from decimal import Decimal
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.aside import begin
from tests.browser.test_how import advisor_of, axe_finds, make_saltmarsh
from tests.browser.test_lengths import HEIGHT, draft_of_two
from tests.browser.test_screens import AXE, SMALL, WIDE
from tests.client import CheckedClient

pytestmark = pytest.mark.browser

PADS = {"Road pads": "0.00", "Fast-road pads": "84.00", "Endurance pads": "148.80"}
EXTRAS = {"Heat coating on the manifold": "264.00", "Cavity wax, front subframe": "94.80"}
STUD = {"event": "An exhaust stud breaks", "title": "Drill it out and fit a new one", "quantity": "0.6", "cap": 4}
MOST = {390: 5000, 1280: 2500}  # pixels at the width


def with_choices(client: CheckedClient, address: str) -> str:
    """The link of a quote of two kits with a choice of pads, two extras, and what is charged only if it happens."""
    draft = draft_of_two(client)
    path = f"quotes/{draft['id']}"
    for title, take, prices in (("Brake pads", "one", PADS), ("Extras", "any", EXTRAS)):
        options = []
        for name, price in prices.items():
            line = {"kind": "text", "title": name, "unit_price": price, "tax_class": "part"}
            extras = client.post(f"{path}/lines", line).json()["extras"]
            options.append({"title": name, "lines": [extras[-1]["line"]]})
        choice = {"title": title, "take": take, "options": options}
        assert client.post(f"{path}/choices", choice).status_code == 201
    skill = draft["rules"]["skills"][0]
    draft = client.post(f"{path}/contingencies", STUD | {"skill": skill}).json()
    body = {"version": draft["version"], "recipient": "01632 960 417", "below_floor": True}
    link: str = client.post(f"{path}/send", body).json()["link"]["url"]
    return link.replace("http://testserver", address)


def total(page: Page) -> str:
    return page.locator(".grand .money").first.inner_text().split()[0]


def height(page: Page) -> float:
    box = page.locator("html").bounding_box()
    assert box is not None
    return box["height"]


@pytest.mark.parametrize("width", MOST)
def test_a_customer_chooses_and_accepts_without_script(
    browser: Browser, live_server: Any, transactional_db: None, width: int
) -> None:
    begin(make_saltmarsh)
    link = with_choices(advisor_of("saltmarsh"), live_server.url)
    page = browser.new_page(viewport={"width": width, "height": 844}, java_script_enabled=False)
    page.goto(link)
    assert height(page) <= MOST[width]
    before = total(page)
    page.get_by_label("Fast-road pads").check()
    page.get_by_label("Cavity wax, front subframe").check()
    page.get_by_role("button", name="Show total").click()
    after = total(page)
    assert Decimal(after.replace(",", "")) - Decimal(before.replace(",", "")) == Decimal("178.80")
    expect(page.get_by_label("Fast-road pads")).to_be_checked()
    assert height(page) <= MOST[width]
    for consent in page.locator("input[name=consent]").all():
        if consent.is_visible():
            consent.check()
    page.get_by_label("Your full name").fill("Anwen Holloway")
    page.get_by_role("button", name=re.compile(f"^Accept for {re.escape(after)} ")).click()
    expect(page.get_by_text("Brake pads: Fast-road pads")).to_be_visible()
    assert total(page) == after
    expect(page.get_by_role("heading", name="Only if it happens")).to_be_visible()
    page.close()


@pytest.mark.drill
def test_everybody_can_use_the_page_with_choices(page: Page, live_server: Any, transactional_db: None) -> None:
    begin(make_saltmarsh)
    page.goto(with_choices(advisor_of("saltmarsh"), live_server.url))
    page.evaluate(AXE.read_text("utf-8"))
    for width, most in MOST.items():
        page.set_viewport_size({"width": width, "height": 844})
        assert axe_finds(page, "body") == [] and page.evaluate(WIDE) == 0 and page.evaluate(SMALL) == []
        assert page.evaluate(HEIGHT) <= most
