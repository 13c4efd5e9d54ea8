"""The operations on a phone and on a desk: a manager adds, changes and archives one, an advisor reads it."""

from typing import Any

import pytest
from playwright.sync_api import Browser, expect

from shop.models import Operation
from tests.browser import acts
from tests.browser.sizes import look_at_both
from tests.cast import make_cast
from tests.factories import OperationFactory

pytestmark = pytest.mark.browser


def test_a_manager_adds_changes_and_archives_an_operation(
    transactional_db: None, live_server: Any, browser: Browser
) -> None:
    cast = make_cast()
    OperationFactory(shop=cast.shop, code="TURBO", title="Fit the turbocharger")
    context = browser.new_context(
        viewport={"width": 390, "height": 844}, service_workers="block", reduced_motion="reduce"
    )
    page = context.new_page()
    page.set_default_timeout(15_000)
    acts.signed_in(page, live_server.url, "manager@saltmarsh.example", "/saltmarsh/office")
    page.get_by_role("link", name="Operations").click()
    expect(page.get_by_role("link", name="Fit the turbocharger")).to_be_visible()
    assert look_at_both(page, "operations") == []
    page.get_by_role("link", name="Add an operation").click()
    page.get_by_label("Code").fill("SETUP")
    page.get_by_label("Title").fill("Set up the geometry")
    page.get_by_label("Skill").fill("mechanical")
    page.get_by_label("Book hours").fill("1.5")
    page.get_by_label("Includes").fill("GHOST")
    page.get_by_role("button", name="Add the operation").click()
    expect(page.get_by_text("there is no operation GHOST.").first).to_be_visible()
    assert look_at_both(page, "a refused operation") == []
    page.reload()
    expect(page.get_by_label("Code")).to_have_value("SETUP")
    expect(page.get_by_label("Includes")).to_have_value("GHOST")
    page.get_by_label("Includes").fill("TURBO")
    page.get_by_role("button", name="Add the operation").click()
    expect(page.get_by_role("heading", name="SETUP", level=1)).to_be_visible()
    page.get_by_text("Wheels come off").click()
    page.get_by_label("Cautions").fill("Hot parts: let it cool")
    page.reload()
    expect(page.get_by_label("Cautions")).to_have_value("Hot parts: let it cool")
    assert look_at_both(page, "an operation") == []
    page.get_by_role("button", name="Save the operation").click()
    expect(page.get_by_text("SETUP saved.")).to_be_visible()
    row = Operation.objects.get(code="SETUP")
    assert (row.wheels_off, row.version, row.cautions.get().text) == (True, 2, "Hot parts: let it cool")
    page.get_by_role("button", name="Archive it").click()
    expect(page.get_by_role("button", name="Bring it back")).to_be_visible()
    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_role("button", name="Archive it")).to_be_visible()
    assert not Operation.objects.get(code="SETUP").archived
    page.get_by_role("link", name="Copy it").click()
    expect(page.get_by_label("Cautions")).to_have_value("Hot parts: let it cool")
    acts.signed_in(page, live_server.url, "advisor@saltmarsh.example", f"/saltmarsh/office/operation/{row.pk}")
    expect(page.get_by_text("Only a manager changes operations.")).to_be_visible()
    expect(page.get_by_role("button", name="Save the operation")).to_have_count(0)
    assert look_at_both(page, "an operation to read") == []
    context.close()
