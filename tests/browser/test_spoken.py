"""The advisor replies to a question and records an acceptance that the customer gave by phone."""

from typing import Any

import pytest
from django.utils import timezone
from playwright.sync_api import Page, expect

from quotes.models import Decision, Link
from quotes.services.questions import ask
from tests.browser.acts import signed_in
from tests.browser.test_acceptance import picture
from tests.cast import make_cast
from tests.quotes.stage import make_stage

pytestmark = pytest.mark.browser


def test_an_advisor_replies_and_records_an_acceptance(transactional_db: None, live_server: Any, page: Page) -> None:
    stage = make_stage(make_cast())
    sent = stage.sent()["quote"]
    ask(link=Link.objects.get(), text="Can I bring it on Saturday?", site="", now=timezone.now())
    page.set_viewport_size({"width": 1280, "height": 900})
    path = f"/{stage.shop.slug}/counter/quote/{sent['id']}"
    signed_in(page, live_server.url, "advisor@saltmarsh.example", path)
    section = page.locator("section").filter(has_text="Questions from the customer")
    section.get_by_role("button", name="Reply").click()
    expect(section.get_by_label("Your reply")).to_be_focused()
    section.get_by_label("Your reply").fill("Yes, from eight o'clock.")
    picture(page, "question-1280")
    section.get_by_role("button", name="Put the reply on the page").click()
    expect(section.get_by_text("Advisor replied")).to_be_visible()
    page.get_by_role("button", name="Record an answer").click()
    form = page.get_by_role("region", name="The customer answers")
    expect(form.get_by_text("in all, with tax")).to_be_visible()
    picture(page, "spoken-1280")
    page.set_viewport_size({"width": 390, "height": 844})
    picture(page, "spoken-390")
    form.get_by_label("Number called").fill("01632 960 418")
    form.get_by_role("checkbox", name="I have read what this may mean").check()
    page.reload()
    expect(form.get_by_label("Number called")).to_have_value("01632 960 418")
    expect(form.get_by_role("checkbox", checked=True)).to_have_count(0)  # they belong to a conversation that broke off
    form.get_by_role("checkbox", name="I have read what this may mean").check()
    form.get_by_role("button", name="They accept for").click()
    expect(form.get_by_text("Read the words out, then confirm it.")).to_be_visible()
    form.get_by_role("checkbox", name="I read all of this out.").check()
    form.get_by_role("button", name="They accept for").click()
    expect(page.get_by_text("Said by phone, 01632 960 418. Recorded by Advisor.")).to_be_visible()
    picture(page, "spoken-answer-390")
    assert Decision.objects.get().way == "phone"
