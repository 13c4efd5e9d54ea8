"""The check of a VIN as the advisor reads it, while it is typed and once the vehicle is saved."""

from typing import Any

import pytest
from playwright.sync_api import Page, expect

from shop.models import Member
from shop.services.people import open_shop, set_member
from tests.browser.test_how import expect_step, opened, put_away, show
from tests.cast import PASSWORD
from tests.client import CheckedClient
from tests.demo import saltmarsh_files, take_in

pytestmark = pytest.mark.browser


def test_a_vin_is_warned_of_with_its_sum_and_what_is_left(page: Page, live_server: Any, transactional_db: None) -> None:
    client = advisor_of_an_empty_shop()
    customer = client.post("customers", {"name": "Maren Oldacre", "phone": "01632 960 417"}).json()
    quote = client.post("quotes", {"kits": [], "customer": customer["id"]}).json()
    show(page, live_server, "saltmarsh", "ines@saltmarsh.example", quote)
    page.get_by_role("button", name="Choose the vehicle", exact=True).click()
    page.get_by_label("Make and model").fill("Vell 2.4 coupe")
    page.get_by_label("VIN", exact=True).fill("21111111111111111")
    expect(page.locator(".message")).to_contain_text("The check digit does not match")  # while it is being typed
    page.get_by_role("button", name="How this was worked out: Check of the VIN").click()
    sheet = opened(page, "Check of the VIN")
    expect_step(sheet, "97 divided by 11 leaves", "9")
    expect_step(sheet, "So position 9 should be", "9")
    expect_step(sheet, "Position 9 is", "1")
    expect(sheet).to_contain_text("the VIN is saved as typed")
    put_away(page)
    page.get_by_role("button", name="Save it as typed").click()
    expect(page.get_by_text("Vell 2.4 coupe").first).to_be_visible()
    box = page.locator("dl.boxes > div").filter(has_text="… 111111")
    expect(box).to_contain_text("The check digit does not match. Compare it with the vehicle again.")
    page.get_by_role("button", name="How this was worked out: Check of the VIN").click()
    expect_step(opened(page, "Check of the VIN"), "Position 9 is", "1")


def advisor_of_an_empty_shop() -> CheckedClient:
    shop, _ = open_shop(slug="saltmarsh", name="Saltmarsh", currency="EUR", exponent=2, zone="Europe/Vienna")
    set_member(shop=shop, email="ines@saltmarsh.example", name="Ines Corrow", role="advisor", password=PASSWORD)
    take_in("saltmarsh", saltmarsh_files()[:1])
    client = CheckedClient(shop="saltmarsh")
    client.force_login(Member.objects.get().user)
    return client
