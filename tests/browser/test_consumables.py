"""The consumables on a phone and on a desk: a manager adds one, changes and archives a pack; an advisor reads it."""

from decimal import Decimal
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from kitting.models import Offer, Part
from tests.browser import acts
from tests.browser.sizes import look_at_both
from tests.cast import make_cast
from tests.factories import PackFactory

pytestmark = pytest.mark.browser


def test_a_manager_adds_a_consumable_and_changes_its_pack(
    transactional_db: None, live_server: Any, browser: Browser
) -> None:
    cast = make_cast()
    PackFactory(shop=cast.shop, consumable__shop=cast.shop, consumable__specification="5W-30", number="EO-5")
    context = browser.new_context(
        viewport={"width": 390, "height": 844}, service_workers="block", reduced_motion="reduce"
    )
    page = context.new_page()
    page.set_default_timeout(15_000)
    acts.signed_in(page, live_server.url, "manager@saltmarsh.example", "/saltmarsh/office")
    page.get_by_role("link", name="Consumables").last.click()
    expect(page.get_by_text("Pack of 5 L")).to_be_visible()
    assert look_at_both(page, "consumables") == []
    page.get_by_role("link", name="Add a consumable").click()
    page.get_by_label("Family").fill("gear oil")
    page.get_by_label("Specification").fill("75W-90")
    page.get_by_label("Unit").fill("barrel")
    page.get_by_label("Number").fill("GO-1")
    page.get_by_label("Size").fill("1")
    page.get_by_label("Supplier").fill("Quillfen Supply")
    page.get_by_label("Price", exact=True).fill("8.50")
    page.get_by_role("button", name="Add the consumable").click()
    expect(page.get_by_label("Unit")).to_have_attribute("aria-invalid", "true")
    assert look_at_both(page, "a refused consumable") == []
    page.get_by_label("Unit").fill("L")
    page.get_by_role("button", name="Add the consumable").click()
    expect(page.get_by_role("heading", name="gear oil, 75W-90", level=1)).to_be_visible()
    assert look_at_both(page, "a consumable") == []
    page.get_by_role("link", name="GO-1").click()
    expect(page.get_by_label("Price", exact=True)).to_have_value("8.5")
    page.get_by_label("Selling price").fill("14.90")
    assert look_at_both(page, "a pack") == []
    page.get_by_role("button", name="Save the pack").click()
    expect(page.get_by_text("14.90")).to_be_visible()
    pack = Part.objects.get(number="GO-1")
    assert (pack.selling_price, Offer.objects.get(part=pack).unit_cost) == (Decimal("14.9"), Decimal("8.5"))
    page.get_by_role("link", name="GO-1").click()
    page.get_by_role("button", name="Archive it").click()
    expect(page.get_by_role("button", name="Bring it back")).to_be_visible()
    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_role("button", name="Archive it")).to_be_visible()
    assert not Part.objects.get(number="GO-1").archived
    page.get_by_role("link", name="To its consumable").click()
    archived_it_takes_no_pack(page)
    page.get_by_role("link", name="Copy it").click()
    expect(page.get_by_label("Specification")).to_have_value("75W-90")
    where = f"/saltmarsh/office/consumable/{pack.consumable_id}"
    acts.signed_in(page, live_server.url, "advisor@saltmarsh.example", where)
    expect(page.get_by_text("Only a manager changes consumables.")).to_be_visible()
    expect(page.get_by_role("button", name="Save the consumable")).to_have_count(0)
    assert look_at_both(page, "a consumable to read") == []
    context.close()


def archived_it_takes_no_pack(page: Page) -> None:
    expect(page.get_by_role("link", name="Add a pack")).to_be_visible()
    page.get_by_role("button", name="Archive it").click()
    expect(page.get_by_role("button", name="Bring it back")).to_be_visible()
    expect(page.get_by_role("link", name="Add a pack")).to_have_count(0)
    where = page.url
    page.goto(f"{where}/pack/new")
    expect(page.get_by_text("Bring it back before you add a pack.")).to_be_visible()
    expect(page.get_by_role("button", name="Add the pack")).to_have_count(0)
    assert look_at_both(page, "no pack while archived") == []
    page.get_by_role("link", name="To its consumable").click()
    page.get_by_role("button", name="Bring it back").click()
    expect(page.get_by_role("link", name="Add a pack")).to_be_visible()
