"""A manager lets a program in by an access key, a calendar by a secret address, and another be told, and ends them."""

import re
from typing import Any
from urllib.parse import urlsplit

import pytest
from django.test import Client
from playwright.sync_api import Browser, expect

from shop.outbox import webhook_worker
from tests.browser import acts
from tests.browser.sizes import both_sizes, look_at_both
from tests.browser.test_acceptance import picture
from tests.cast import make_cast
from tests.client import CheckedClient
from tests.webhook_receiver import webhook_receiver

pytestmark = pytest.mark.browser


def test_a_key_is_shown_once_opens_what_was_chosen_and_ends(
    transactional_db: None, live_server: Any, browser: Browser, settings: Any
) -> None:
    settings.WEBHOOK_HTTP = settings.WEBHOOK_PRIVATE_TARGETS = True
    make_cast()
    context = browser.new_context(
        viewport={"width": 390, "height": 844}, service_workers="block", reduced_motion="reduce"
    )
    page = context.new_page()
    page.set_default_timeout(15_000)
    acts.signed_in(page, live_server.url, "manager@saltmarsh.example", "/saltmarsh/office")
    page.wait_for_load_state("networkidle")
    page.get_by_role("link", name="Other programs").click()
    expect(page.get_by_role("heading", name="Other programs", level=1)).to_be_visible()
    expect(page.get_by_text("No program has a key")).to_be_visible()
    page.get_by_label("Name of the program").fill("Bookkeeping")
    page.get_by_label("In the name of").select_option(label="Advisor, advisor")
    page.get_by_role("button", name="Make the key").click()
    expect(page.get_by_text("Tick at least one.")).to_be_visible()
    expect(page.get_by_role("button", name="End the key of Bookkeeping")).to_have_count(0)
    page.get_by_label("Quotes, customers and vehicles").check()
    page.reload()
    expect(page.get_by_label("Name of the program")).to_have_value("Bookkeeping")
    expect(page.get_by_label("In the name of").locator("option:checked")).to_have_text("Advisor, advisor")
    expect(page.get_by_label("Quotes, customers and vehicles")).to_be_checked()
    page.get_by_role("button", name="Make the key").click()
    secret = page.get_by_label("Access key of Bookkeeping").input_value()
    expect(page.get_by_text("not used yet")).to_be_visible()
    assert look_at_both(page, "other programs") == []
    for width in both_sizes(page):
        picture(page, f"other-programs-{width}")
    program = CheckedClient()
    program.credentials(HTTP_AUTHORIZATION=f"Bearer {secret}")
    assert [program.get(path).status_code for path in ("quotes", "jobs")] == [200, 403]
    page.reload()
    expect(page.get_by_text("last used")).to_be_visible()
    expect(page.get_by_label("Access key of Bookkeeping")).to_have_count(0)
    page.get_by_role("button", name="End the key of Bookkeeping").click()
    expect(page.get_by_text("The key of Bookkeeping no longer works.")).to_be_visible()
    expect(page.get_by_text("No program has a key")).to_be_visible()
    assert program.get("quotes").status_code == 401
    page.get_by_label("Whose calendar").fill("Screen in the bay")
    page.reload()
    expect(page.get_by_label("Whose calendar")).to_have_value("Screen in the bay")
    page.get_by_role("button", name="Make an address").click()
    url = page.get_by_label("Address for Screen in the bay").input_value()
    expect(page.get_by_label("Whose calendar")).to_have_value("")
    where = urlsplit(url).path
    assert Client().get(where).status_code == 200
    assert look_at_both(page, "calendars") == []
    for width in both_sizes(page):
        picture(page, f"calendars-{width}")
    page.get_by_role("button", name="End the address of Screen in the bay").click()
    expect(page.get_by_text("No calendar reads the jobs")).to_be_visible()
    assert Client().get(where).status_code == 404
    with webhook_receiver() as receiver:
        page.get_by_label("Program that gets the messages").fill("Screen")
        page.get_by_label("Address that takes the messages").fill(receiver.url)
        page.get_by_label("A quote is accepted").check()
        page.get_by_role("button", name="Add the program").click()
        expect(page.get_by_label("Secret of Screen")).to_have_value(re.compile("whsec_.{44}"))
        page.get_by_role("link", name="Screen").click()
        page.get_by_role("button", name="Send a trial message").click()
        expect(page.get_by_text("waits for its first try")).to_be_visible()
        assert webhook_worker.send_next() and len(receiver.posts) == 1
    page.get_by_role("button", name="Look again").click()
    expect(page.get_by_text("answer 200")).to_be_visible()
    assert look_at_both(page, "a program that is told") == []
    for width in both_sizes(page):
        picture(page, f"webhook-{width}")
    page.get_by_role("button", name="Remove the program").click()
    expect(page.get_by_text("No program gets messages")).to_be_visible()
    context.close()
