"""A supplier on a phone and on a desk: a manager changes its contact and forgets what its files taught."""

from typing import Any

import pytest
from playwright.sync_api import Browser, expect

from kitting.models import Supplier
from tests.browser import acts
from tests.browser.sizes import look_at_both
from tests.cast import make_cast
from tests.factories import SupplierFactory
from tests.kitting.test_suppliers import ANSWERS, COLUMNS

pytestmark = pytest.mark.browser


def test_a_manager_changes_a_contact_and_forgets_an_answer(
    transactional_db: None, live_server: Any, browser: Browser
) -> None:
    cast = make_cast()
    row = SupplierFactory(shop=cast.shop, name="Brightwater Induction", columns=COLUMNS, answers=ANSWERS)
    context = browser.new_context(
        viewport={"width": 390, "height": 844}, service_workers="block", reduced_motion="reduce"
    )
    page = context.new_page()
    page.set_default_timeout(15_000)
    acts.signed_in(page, live_server.url, "manager@saltmarsh.example", "/saltmarsh/office")
    page.get_by_role("link", name="Suppliers", exact=True).click()
    expect(page.get_by_role("link", name="Brightwater Induction")).to_be_visible()
    assert look_at_both(page, "suppliers") == []
    page.get_by_role("link", name="The list as a file").click()
    expect(page.get_by_role("link", name="Your list as a workbook")).to_be_visible()
    assert look_at_both(page, "the list of suppliers as a file") == []
    page.go_back()
    page.get_by_role("link", name="Brightwater Induction").click()
    page.get_by_label("Contact").fill("Una, 01632 960 410")
    page.get_by_label("Lead days").fill("9")
    page.get_by_role("button", name="Save the supplier").click()
    expect(page.get_by_text("Brightwater Induction saved.")).to_be_visible()
    assert look_at_both(page, "a supplier") == []
    page.get_by_role("button", name="Forget it: “Stk” is read as “pc”").click()
    expect(page.get_by_text("“Stk” is read as “pc”")).to_have_count(0)
    expect(page.get_by_text("“Pr” is read as “pair”")).to_be_visible()
    page.get_by_role("link", name="Copy it").click()
    expect(page.get_by_role("heading", name="New supplier", level=1)).to_be_visible()
    expect(page.get_by_label("Lead days")).to_have_value("9")
    page.get_by_label("Name").fill("Brightwater Ducts")
    page.get_by_role("button", name="Add the supplier").click()
    expect(page.get_by_role("heading", name="Brightwater Ducts", level=1)).to_be_visible()
    page.goto(f"{live_server.url}/saltmarsh/office/supplier/{row.pk}")
    page.get_by_role("button", name="Archive").click()
    expect(page.get_by_text("This supplier is archived")).to_be_visible()
    assert look_at_both(page, "an archived supplier") == []
    page.get_by_role("button", name="Bring it back").click()
    expect(page.get_by_label("Lead days")).to_have_value("9")
    row = Supplier.objects.get(pk=row.pk)
    assert (row.archived, row.lead_days) == (False, 9)
    assert (row.contact, row.answers["kit"]["values"]) == ("Una, 01632 960 410", [["unit", "Pr", "pair"]])
    page.goto(f"{live_server.url}/saltmarsh/office")
    page.get_by_role("link", name="Exchange rates").click()
    page.get_by_label("Currency").fill("nok")
    page.get_by_label("Rate").fill("0.0861")
    page.get_by_role("button", name="Add a rate").click()
    expect(page.get_by_text("1 NOK = 0.0861 EUR")).to_be_visible()
    expect(page.get_by_text("It is in force today.")).to_be_visible()
    assert look_at_both(page, "exchange rates") == []
    acts.signed_in(page, live_server.url, "advisor@saltmarsh.example", f"/saltmarsh/office/supplier/{row.pk}")
    expect(page.get_by_text("Only a manager changes suppliers.")).to_be_visible()
    expect(page.get_by_role("button", name="Forget")).to_have_count(0)
    assert look_at_both(page, "a supplier to read") == []
    context.close()
