"""Outside work that goes with a kit: on the quote with one tap, or changed first; a wrong entry keeps its form."""

from typing import Any

import pytest
from playwright.sync_api import Page, expect

from quotes.models import OutsideWork
from tests.browser.acts import signed_in
from tests.browser.sizes import nothing_wrong_at_both
from tests.browser.test_acceptance import picture
from tests.browser.test_account import nothing_wrong
from tests.cast import make_cast
from tests.quotes.stage import Stage, make_stage
from tests.quotes.test_kits_outside import with_calibration

pytestmark = pytest.mark.browser
NAME = "Calibration by Lathe & Lambda"


def picked(page: Page, address: str, **terms: Any) -> Stage:
    """A draft on the screen of an advisor who picks the turbocharger kit."""
    stage = make_stage(make_cast())
    with_calibration(stage, **terms)
    quote = stage.quote(stage.towing).json()
    page.set_viewport_size({"width": 390, "height": 844})
    signed_in(page, address, "advisor@saltmarsh.example", f"/{stage.shop.slug}/counter/quote/{quote['id']}")
    page.get_by_role("button", name="Add a kit, part or work").click()
    page.locator("label").filter(has_text=stage.turbo.title).first.click()
    page.get_by_role("button", name="Add a kit, part or work").click()
    expect(page.get_by_role("heading", name="Goes with these kits")).to_be_visible()
    return stage


@pytest.mark.drill
def test_one_tap_adds_what_goes_with_the_kit(transactional_db: None, live_server: Any, page: Page) -> None:
    picked(page, live_server.url)
    offer = page.get_by_role("listitem").filter(has_text="goes with kit ")
    expect(offer).to_contain_text("3 working days, after: Set-up, protect, road test")
    expect(offer).to_contain_text("2 rounds")
    expect(offer).not_to_contain_text("623")  # the counter is shared: a cost is not in sight
    nothing_wrong_at_both(page, "kits-outside")
    page.get_by_role("button", name=f"Add to the quote: {NAME}").click()
    expect(page.get_by_role("heading", name="Work by other firms", exact=True)).to_be_visible()
    expect(page.get_by_role("button", name=f"Remove: {NAME}")).to_be_visible()
    expect(page.get_by_role("heading", name="Goes with these kits")).to_be_hidden()
    nothing_wrong(page)
    assert OutsideWork.objects.get().days == 3
    page.get_by_role("button", name=f"Remove: {NAME}").click()
    expect(page.get_by_role("heading", name="Goes with these kits")).to_be_visible()


@pytest.mark.drill
def test_it_is_changed_before_it_is_added(transactional_db: None, live_server: Any, page: Page) -> None:
    picked(page, live_server.url)
    page.get_by_role("button", name=f"Change it first: {NAME}").click()
    expect(page.get_by_label("Firm", exact=True)).to_have_value("Lathe & Lambda")
    page.get_by_label("Their price, before tax").fill("a lot")
    form = page.get_by_role("form", name="Work by other firms")
    form.get_by_role("button").first.click()
    expect(page.get_by_label("Their price, before tax")).to_have_attribute("aria-invalid", "true")
    nothing_wrong(page)
    picture(page, "kits-outside-wrong")
    page.get_by_label("Their price, before tax").fill("700")
    form.get_by_role("button").first.click()
    expect(page.get_by_role("button", name=f"Remove: {NAME}")).to_be_visible()
    assert OutsideWork.objects.get().cost == 700


@pytest.mark.drill
def test_what_cannot_be_added_as_it_stands_opens_its_form(transactional_db: None, live_server: Any, page: Page) -> None:
    picked(page, live_server.url, tax_class="unknown")
    page.get_by_role("button", name=f"Add to the quote: {NAME}").click()
    expect(page.get_by_label("Taxed as")).to_have_attribute("aria-invalid", "true")
    page.get_by_label("Taxed as").select_option("labour")
    page.get_by_role("form", name="Work by other firms").get_by_role("button").first.click()
    expect(page.get_by_role("button", name=f"Remove: {NAME}")).to_be_visible()


def test_without_signal_nothing_is_lost(transactional_db: None, live_server: Any, page: Page) -> None:
    picked(page, live_server.url)
    page.context.set_offline(True)
    page.get_by_role("button", name=f"Add to the quote: {NAME}").click()
    expect(page.get_by_role("alert").first).to_be_visible()
    picture(page, "kits-outside-offline")
    page.context.set_offline(False)
    page.get_by_role("button", name=f"Add to the quote: {NAME}").click()
    expect(page.get_by_role("button", name=f"Remove: {NAME}")).to_be_visible()
