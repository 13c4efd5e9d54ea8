"""A delivery comes later: the advisor tells the customer with the drafted sentence, and their page says it."""

from datetime import timedelta
from typing import Any

import pytest
from django.utils import timezone
from playwright.sync_api import BrowserContext, Page, expect

from kitting.models import PullLine
from quotes.models import ToldDate
from shop.models import Calendar
from tests.browser.acts import signed_in
from tests.browser.sizes import nothing_wrong_at_both
from tests.browser.test_acceptance import picture
from tests.cast import make_cast
from tests.quotes.dated import OPEN
from tests.quotes.phone import Phone
from tests.quotes.stage import make_stage

pytestmark = pytest.mark.browser


def test_an_advisor_tells_a_date_that_moved(
    transactional_db: None, live_server: Any, page: Page, another: BrowserContext
) -> None:
    stage = make_stage(make_cast())
    Calendar.objects.create(shop=stage.shop, week=dict.fromkeys(("mon", "tue", "wed", "thu", "fri"), OPEN))
    sent = stage.sent()
    phone = Phone(sent["link"]["url"])
    assert phone.answer(ready=phone.field("ready")).status_code == 303
    link = stage.client.post(f"quotes/{sent['quote']['id']}/links", {"recipient": "another"}).json()["url"]
    PullLine.objects.filter(kit="QF-T").update(due_at=timezone.now() + timedelta(days=30))
    page.set_viewport_size({"width": 390, "height": 844})
    signed_in(
        page, live_server.url, "advisor@saltmarsh.example", f"/{stage.shop.slug}/counter/quote/{sent['quote']['id']}"
    )
    expect(page.get_by_text("Now expected:")).to_be_visible()
    page.get_by_role("button", name="Tell the customer another date").click()
    sentence = page.get_by_label("Sentence for the customer").input_value()
    assert "instead of" in sentence and "we are waiting for Towing kit" in sentence
    picture(page, "date-moved-390")
    page.get_by_role("button", name="Told by phone").click()
    expect(page.get_by_text("and that is still expected")).to_be_visible()
    expect(page.get_by_text("Told by phone", exact=False).last).to_be_visible()
    nothing_wrong_at_both(page, "date-told")
    assert ToldDate.objects.get().words == sentence
    customer = another.new_page()
    customer.goto(link.replace("http://testserver", live_server.url))
    expect(customer.get_by_text(sentence)).to_be_visible()
    nothing_wrong_at_both(customer, "date-customer")
