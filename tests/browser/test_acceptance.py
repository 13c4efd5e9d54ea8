"""The customer's page without script: consents, every fault beside its field, and the receipt, narrow and wide."""

import os
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from shop.models import Job, RuleSet
from tests.cast import make_cast
from tests.quotes.stage import make_stage
from tests.quotes.test_acceptance_terms import FAIR

pytestmark = pytest.mark.browser


@pytest.fixture
def link(transactional_db: None) -> str:
    stage = make_stage(make_cast())
    shop = stage.cast.shop
    shop.phone, shop.address, shop.registration = "01632 960 400", "4 Saltmarsh Lane", "Register 17"
    shop.save()
    RuleSet.objects.create(shop=shop, number=2, valid_from=date(2026, 1, 2), rules=FAIR)
    return str(stage.sent()["link"]["url"]).removeprefix("http://testserver")


def picture(page: Page, name: str) -> None:
    """Saves a picture if PICTURES names a folder for it."""
    if folder := os.environ.get("PICTURES"):
        page.screenshot(path=Path(folder) / f"{name}.png", full_page=True)


@pytest.mark.parametrize(
    ("width", "scheme"),
    [
        pytest.param(320, "light", marks=pytest.mark.drill),
        (390, "dark"),
        pytest.param(1280, "light", marks=pytest.mark.drill),
    ],
)
def test_a_customer_without_script_answers(
    link: str, live_server: Any, browser: Browser, width: int, scheme: Any
) -> None:
    context = browser.new_context(
        viewport={"width": width, "height": 800}, color_scheme=scheme, java_script_enabled=False
    )
    page = context.new_page()
    page.goto(f"{live_server.url}{link}")
    page.locator("summary").filter(has_text="Ask us").click()
    page.get_by_label("Your question").fill("Can I bring it on Saturday?")
    page.get_by_role("button", name="Send the question").click()
    expect(page.get_by_role("region", name="Your questions")).to_contain_text("Can I bring it on Saturday?")
    page.locator("summary").filter(has_text="Your right to withdraw").click()
    expect(page.get_by_text("The withdrawal period is")).to_be_visible()
    assert page.locator("input:checked").count() == 0
    picture(page, f"page-{width}-{scheme}")
    page.locator("summary").filter(has_text="1 more that you may allow").click()
    page.get_by_role("checkbox", name="optional: You may take photographs.").check()
    page.get_by_role("button", name="Accept for").click()
    faults = page.get_by_role("alert").get_by_role("link")
    expect(faults).to_have_count(2)
    expect(page.get_by_role("checkbox", name="You may take photographs.")).to_be_checked()
    expect(page.get_by_label("Your full name")).to_have_accessible_description("Type your full name, in letters.")
    missing = page.get_by_role("checkbox", name="required: I have read")
    expect(missing).to_have_accessible_description("This has to be ticked before you can accept.")
    picture(page, f"faults-{width}-{scheme}")
    missing.check()
    page.get_by_label("Your full name").fill("Maren Oldacre")
    page.get_by_role("button", name="Accept for").click()
    expect(page.get_by_role("heading", name="What you agreed to")).to_be_visible()
    picture(page, f"receipt-{width}-{scheme}")
    assert Job.objects.get().not_before is not None
    context.close()
