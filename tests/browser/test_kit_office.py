"""A kit on its screen in the Office: its cost, which managers change and advisors read, and the order of its work."""

from decimal import Decimal
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from kitting.models import KitRevision
from shop.models import LabourTemplate
from tests.browser import acts
from tests.browser.sizes import look_at_both
from tests.cast import make_cast

pytestmark = pytest.mark.browser
BARE = {"code": "OIL", "title": "Oil cooler kit", "price": "900", "hours": "2", "cost": "512.50"}


@pytest.fixture
def page(transactional_db: None, browser: Browser) -> Any:
    context = browser.new_context(
        viewport={"width": 390, "height": 844}, service_workers="block", reduced_motion="reduce"
    )
    page = context.new_page()
    page.set_default_timeout(15_000)
    yield page
    context.close()


def test_a_manager_changes_the_cost_of_a_kit(page: Page, live_server: Any) -> None:
    kit = make_cast().signed_in("manager").post("kits", BARE).json()
    where = f"/saltmarsh/office/kit/{kit['id']}"
    acts.signed_in(page, live_server.url, "manager@saltmarsh.example", where)
    cost = page.get_by_label("Cost before tax")
    expect(cost).to_have_value("512.50")
    cost.fill("530.00")
    assert look_at_both(page, "the cost of a kit") == []
    page.reload()
    expect(cost).to_have_value("530.00")
    page.get_by_role("button", name="Save the cost").click()
    expect(page.get_by_text("OIL saved.")).to_be_visible()
    page.get_by_text("What changed").click()
    expect(page.get_by_text("Its own cost was changed.")).to_be_visible()
    assert KitRevision.objects.get(number=2).cost == Decimal(530)
    acts.signed_in(page, live_server.url, "advisor@saltmarsh.example", where)
    expect(page.get_by_text("530.00")).to_be_visible()
    expect(page.get_by_role("button", name="Save the cost")).to_have_count(0)
    assert look_at_both(page, "the cost of a kit to read") == []
    acts.signed_in(page, live_server.url, "parts@saltmarsh.example", where)
    expect(page.get_by_role("heading", name="Oil cooler kit")).to_be_visible()
    expect(page.get_by_role("heading", name="Cost")).to_have_count(0)


def test_a_manager_chooses_the_order_of_the_work(page: Page, live_server: Any) -> None:
    cast = make_cast()
    LabourTemplate.objects.create(shop=cast.shop, code="OIL-FIT", number=2)
    kit = cast.signed_in("manager").post("kits", BARE).json()
    acts.signed_in(page, live_server.url, "manager@saltmarsh.example", f"/saltmarsh/office/kit/{kit['id']}")
    page.get_by_text("Change this kit").click()
    order = page.get_by_label("Order of the work")
    expect(order).to_have_value("")
    order.select_option("OIL-FIT, version 2")
    assert look_at_both(page, "the order of the work of a kit") == []
    page.reload()
    page.get_by_text("Change this kit").click()
    expect(order.locator("option:checked")).to_have_text("OIL-FIT, version 2")
    page.get_by_role("button", name="Save the kit").click()
    expect(page.get_by_text("OIL saved as version 2.")).to_be_visible()
    assert KitRevision.objects.get(number=2).labour == LabourTemplate.objects.get()
