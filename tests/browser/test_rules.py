"""The price rules on a phone and on a desk: every figure for a manager, to change, and nothing for anybody else."""

from datetime import date
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from shop.models import RuleSet
from shop.services.rules import add_rules
from tests.browser import acts
from tests.browser.sizes import look_at_both
from tests.cast import make_cast
from tests.quotes.stage import RULES

pytestmark = pytest.mark.browser


def test_a_manager_reads_and_changes_figures_and_reads_every_earlier_set(
    transactional_db: None, live_server: Any, browser: Browser
) -> None:
    cast = make_cast()
    actor = cast.acting("manager")
    add_rules(actor=actor, rules=RULES, valid_from=date(2026, 1, 1))
    add_rules(actor=actor, rules=RULES | {"validity_days": 21}, valid_from=date(2026, 9, 1))
    context = browser.new_context(viewport={"width": 390, "height": 844}, service_workers="block")
    page = context.new_page()
    page.set_default_timeout(15_000)
    refused: list[str] = []
    page.on("response", lambda answer: refused.append(answer.url) if answer.status == 409 else None)
    acts.signed_in(page, live_server.url, "manager@saltmarsh.example", "/saltmarsh/office")
    page.get_by_role("link", name="See the price rules in force").click()
    expect(page.get_by_role("heading", name="Price rules 2", level=1)).to_be_visible()
    expect(page.locator("li").filter(has_text="Minimum charge")).to_contain_text("0 h")
    expect(page.get_by_text("A quote can be accepted for: 14 days \u2192 21 days")).to_be_visible()
    assert look_at_both(page, "rules") == []
    page.get_by_role("link", name="The quote and its words", exact=True).click()
    expect(page.get_by_role("heading", name="The quote and its words")).to_be_in_viewport()
    page.get_by_role("link", name="Change The quote and its words").click()
    days = page.get_by_label("A quote can be accepted for")
    days.fill("soon")
    page.get_by_role("button", name="Save as the next set").click()
    expect(page.get_by_text("Enter a whole number.").first).to_be_visible()
    assert look_at_both(page, "a section changed") == []
    days.fill("30")
    page.reload()
    expect(days).to_have_value("30")
    page.get_by_role("link", name="Leave without saving").click()
    page.get_by_role("link", name="Change The quote and its words").click()
    expect(days).to_have_value("21")
    days.fill("30")
    page.get_by_role("button", name="Save as the next set").click()
    expect(page.get_by_role("heading", name="Price rules 3", level=1)).to_be_visible()
    assert RuleSet.objects.get(number=3).rules == RULES | {"validity_days": 30}
    page.wait_for_load_state("networkidle")
    assert refused == []  # after saving, no example is asked for with the number of the earlier set
    a_set_that_begins_later_is_changed(page)
    page.get_by_role("link", name="Price rules 1").click()
    expect(page.get_by_role("heading", name="Price rules 1", level=1)).to_be_visible()
    assert look_at_both(page, "first rules") == []
    a_rate_is_typed_with_a_comma(page, live_server.url)
    acts.signed_in(page, live_server.url, "advisor@saltmarsh.example", "/saltmarsh/office/rules")
    expect(page.get_by_text("Only a manager sees the price rules.")).to_be_visible()
    context.close()


def a_set_that_begins_later_is_changed(page: Page) -> None:
    """Sets of one day replace each other; a change before that day says that the later sets keep their own figures."""
    for number, days in ((4, "40"), (5, "45")):
        page.get_by_role("link", name="Change The quote and its words").click()
        page.get_by_label("A quote can be accepted for").fill(days)
        if number == 4:
            page.get_by_label("First day").fill("2099-01-05")
        expect(page.get_by_label("First day")).to_have_value("2099-01-05")
        page.get_by_role("button", name="Save as the next set").click()
        page.get_by_role("link", name=f"Price rules {number}").click()
        expect(page.get_by_role("heading", name=f"Price rules {number}", level=1)).to_be_visible()
    assert RuleSet.objects.get(number=5).rules["validity_days"] == 45
    page.go_back()
    page.get_by_role("link", name="Change The quote and its words").click()
    expect(page.get_by_text("Price rules 5 begin on Mon 5 Jan 2099")).to_be_visible()
    page.go_back()


def a_rate_is_typed_with_a_comma(page: Page, address: str) -> None:
    """The example waits until there is a quote; the rate is added as it was meant, and the field is empty again."""
    page.goto(f"{address}/saltmarsh/office/rates")
    page.get_by_label("Currency").fill("usd")
    page.get_by_label("Rate", exact=True).fill("0,91")
    expect(page.get_by_text("it shows here what another rate does to it")).to_be_visible()
    page.get_by_role("button", name="Add a rate").click()
    expect(page.get_by_text("1 USD = 0.91 EUR")).to_be_visible()
    expect(page.get_by_label("Rate", exact=True)).to_have_value("")
