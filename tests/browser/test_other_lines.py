"""Loose parts and lines written by hand: a person's own price with its reason, and a core deposit."""

from typing import Any

import pytest
from playwright.sync_api import Page, expect

from quotes.models import Line, Revision
from tests.browser.acts import signed_in
from tests.browser.sizes import nothing_wrong_at_both
from tests.browser.test_acceptance import picture
from tests.browser.test_account import nothing_wrong
from tests.cast import make_cast
from tests.factories import OfferFactory, PartFactory
from tests.quotes.stage import RULES, Stage, make_stage

pytestmark = pytest.mark.browser


def opened(page: Page, address: str) -> Stage:
    """A draft with a loose part on an advisor's screen."""
    stage = make_stage(make_cast())
    part = PartFactory(shop=stage.shop, title="Boost gauge")
    OfferFactory(shop=stage.shop, part=part)
    quote = stage.quote(stage.turbo).json()
    stage.client.post(f"quotes/{quote['id']}/lines", {"kind": "part", "part": str(part.pk)})
    page.set_viewport_size({"width": 390, "height": 844})
    signed_in(page, address, "advisor@saltmarsh.example", f"/{stage.shop.slug}/counter/quote/{quote['id']}")
    return stage


@pytest.mark.drill
def test_a_price_of_ones_own_asks_for_its_reason(transactional_db: None, live_server: Any, page: Page) -> None:
    opened(page, live_server.url)
    page.get_by_role("button", name="Change: Boost gauge").click()
    expect(page.get_by_label("Reason")).to_be_hidden()
    page.get_by_label("Price each").fill("9.50")
    page.get_by_label("Reason").fill("last one, box torn")
    nothing_wrong_at_both(page, "own-price")
    page.get_by_role("button", name="Change the line").click()
    expect(page.get_by_text("Price replaced by hand: last one, box torn")).to_be_visible()
    assert Line.objects.get(kind="part").override_reason == "last one, box torn"
    page.get_by_role("button", name="Change: Boost gauge").click()
    page.get_by_role("button", name="Go back to the calculated price").click()
    expect(page.get_by_text("Price replaced by hand")).to_be_hidden()


@pytest.mark.drill
def test_a_core_deposit_is_written_by_hand(transactional_db: None, live_server: Any, page: Page) -> None:
    opened(page, live_server.url)
    page.get_by_role("button", name="Add a kit, part or work").click()
    page.get_by_role("button", name="Other work or goods").click()
    page.get_by_label("What it is").fill("Core deposit, turbocharger")
    page.get_by_label("Price each").fill("250")
    page.get_by_label("Taxed as").select_option("part")
    page.get_by_label("What this is").select_option("core")
    page.reload()  # an interruption: the form is open as it was left
    expect(page.get_by_label("What it is")).to_have_value("Core deposit, turbocharger")
    expect(page.get_by_label("What this is")).to_have_value("core")
    nothing_wrong(page)
    picture(page, "core-deposit")
    page.get_by_role("button", name="Add to the quote").click()
    expect(page.get_by_text("core deposit: paid back when the old part comes")).to_be_visible()
    assert Line.objects.get(kind="text").core
    page.reload()
    expect(page.get_by_text("core deposit: paid back when the old part comes")).to_be_visible()
    page.get_by_role("button", name="Add a kit, part or work").click()
    page.get_by_role("button", name="Other work or goods").click()
    expect(page.get_by_label("What it is")).to_have_value("")


def test_a_part_that_the_customer_brings_has_no_price_and_names_its_work(
    transactional_db: None, live_server: Any, page: Page
) -> None:
    stage = opened(page, live_server.url)
    stage.enact(RULES | {"supplied_share": "0.15"})
    page.get_by_role("button", name="Add a kit, part or work").click()
    page.get_by_role("button", name="Other work or goods").click()
    page.get_by_label("What it is").fill("Coil springs")
    page.get_by_label("Taxed as").select_option("part")
    page.get_by_label("What this is").select_option("supplied")
    expect(page.get_by_label("Price each")).to_be_hidden()
    page.get_by_label("Fitted by this work").select_option("TURBO")
    nothing_wrong_at_both(page, "supplied")
    page.get_by_role("button", name="Add to the quote").click()
    expect(page.get_by_text("the customer brings it: no price and no warranty")).to_be_visible()
    line = Line.objects.get(kind="text")
    assert line.supplied and line.operation and line.operation.code == "TURBO"


@pytest.mark.drill
def test_the_advisor_chooses_how_a_consumable_is_charged(transactional_db: None, live_server: Any, page: Page) -> None:
    opened(page, live_server.url)
    page.get_by_text("Fluids and small parts").first.click()
    page.get_by_role("button", name="Price of engine oil, 5W-30: 69.00. Enter your figure").click()
    ways = page.get_by_role("group", name="How it is charged")
    expect(ways.get_by_role("button", name="Whole packs")).to_have_attribute("aria-pressed", "true")
    nothing_wrong_at_both(page, "charge")
    ways.get_by_role("button", name="As used").click()
    expect(page.get_by_role("button", name="Price of engine oil, 5W-30: 60.13. Enter your figure")).to_be_focused()
    assert list(Revision.objects.get().charges.values()) == ["used"]
    page.get_by_role("button", name="Price of engine oil, 5W-30: 60.13. Enter your figure").click()
    ways.get_by_role("button", name="Covered by shop supplies").click()
    expect(page.get_by_text("Covered by shop supplies").first).to_be_visible()
    nothing_wrong(page)
