"""The page of headings on a phone and on a desk: a foreign heading is found, and an example is downloaded."""

from typing import Any

import pytest
from playwright.sync_api import Browser, expect

from tests.browser import acts
from tests.browser.sizes import nothing_wrong_at_both
from tests.cast import make_cast

pytestmark = pytest.mark.browser


@pytest.mark.drill
def test_a_manager_finds_what_a_suppliers_heading_means(
    transactional_db: None, live_server: Any, browser: Browser
) -> None:
    make_cast()
    context = browser.new_context(
        viewport={"width": 390, "height": 844}, service_workers="block", reduced_motion="reduce"
    )
    page = context.new_page()
    page.set_default_timeout(15_000)
    acts.signed_in(page, live_server.url, "manager@saltmarsh.example", "/saltmarsh/office")
    page.wait_for_load_state("networkidle")
    page.get_by_role("link", name="Headings of files").click()
    expect(page.locator("summary", has_text="Price rules")).to_be_visible()
    nothing_wrong_at_both(page, "headings")
    page.get_by_label("Find a heading").fill("menge")
    expect(page.get_by_text("How many are in the bag, for one kit.")).to_be_visible()
    expect(page.locator("summary", has_text="Price rules")).to_have_count(0)
    nothing_wrong_at_both(page, "a-heading-found")
    page.get_by_label("Find a heading").fill("")
    expect(page.locator("summary", has_text="Price rules")).to_be_visible()
    page.locator("summary", has_text="Kit contents").click()
    page.locator("summary", has_text="Above the list").click()
    expect(page.get_by_text("The kit’s number.")).to_be_visible()
    nothing_wrong_at_both(page, "the-headings-of-a-kit")
    with page.expect_download() as download:
        page.get_by_role("link", name="Example file").click()
    assert download.value.suggested_filename == "example-kit.xlsx"
    context.close()
