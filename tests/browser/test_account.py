"""The advisor records the deposit, reverses a mistake, and closes the job; the parts counter releases the orders."""

import re
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from quotes.models import ClosingAccount, Release
from shop.models import Payment
from tests.browser.acts import signed_in
from tests.browser.test_acceptance import picture
from tests.browser.test_how import axe_finds
from tests.browser.test_screens import AXE, SMALL, WIDE
from tests.cast import make_cast
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage, make_stage
from tests.quotes.test_deposit import ask

pytestmark = pytest.mark.browser


def nothing_wrong(page: Page) -> None:
    page.evaluate(AXE.read_text("utf-8"))
    assert axe_finds(page, "main") == [] and page.evaluate(WIDE) == 0 and page.evaluate(SMALL) == []


def accepted(stage: Stage, **deposit: object) -> str:
    """The path of an accepted quote with a deposit."""
    ask(stage, **({"deposit": deposit} if deposit else {}))
    sent = stage.sent()
    assert Phone(sent["link"]["url"]).answer().status_code == 303
    return f"/{stage.shop.slug}/counter/quote/{sent['quote']['id']}"


@pytest.mark.parametrize("width", [390, pytest.param(1280, marks=pytest.mark.drill)])
def test_an_advisor_takes_money_and_closes_the_job(
    transactional_db: None, live_server: Any, page: Page, width: int
) -> None:
    stage = make_stage(make_cast())
    page.set_viewport_size({"width": width, "height": 900})
    signed_in(page, live_server.url, "advisor@saltmarsh.example", accepted(stage))
    expect(page.get_by_text("not received yet")).to_have_count(2)  # beside the total and in the account
    page.wait_for_load_state("networkidle")  # panels above the account move it as they come
    page.locator("summary").filter(has_text="Record a payment").click()
    page.get_by_label("Amount, EUR").fill("812,50")
    page.get_by_label("Reference").fill("slip 000417")
    page.reload()
    page.wait_for_load_state("networkidle")
    expect(page.get_by_label("Amount, EUR")).to_have_value("812,50")
    picture(page, f"account-{width}")
    page.get_by_role("button", name="Record the payment").click()
    payments = page.locator("summary").filter(has_text="Payments")
    expect(payments).to_contain_text("812.50")
    payments.click()
    expect(page.get_by_text("reference slip 000417")).to_be_visible()
    page.get_by_role("button", name="Reverse the payment of 812.50").click()
    page.get_by_label("Reason").fill("Typed twice")
    page.get_by_role("button", name="Record the reversal").click()
    expect(page.get_by_text("reversed")).to_be_visible()
    page.get_by_role("button", name="Close the job").click()
    page.get_by_role("button", name="Close with").click()
    expect(page.get_by_role("link", name="Closing account (PDF)")).to_be_visible()
    picture(page, f"account-closed-{width}")
    nothing_wrong(page)
    assert Payment.objects.count() == 2 and ClosingAccount.objects.count() == 1


def test_a_deposit_that_releases_the_orders_says_so(transactional_db: None, live_server: Any, page: Page) -> None:
    stage = make_stage(make_cast())
    page.set_viewport_size({"width": 390, "height": 844})
    signed_in(page, live_server.url, "advisor@saltmarsh.example", accepted(stage, releases=True))
    page.wait_for_load_state("networkidle")
    page.locator("summary").filter(has_text="Record a payment").click()
    page.get_by_label("Amount, EUR").fill("9000")
    page.get_by_role("button", name="Record the payment").click()
    expect(page.get_by_text("The deposit is complete, so the orders are released.")).to_be_visible()
    page.locator("summary").filter(has_text="Payments").click()
    expect(page.get_by_text("With it, the orders to")).to_be_visible()
    picture(page, "account-released-390")
    page.set_viewport_size({"width": 1280, "height": 900})
    picture(page, "account-released-1280")
    nothing_wrong(page)


@pytest.mark.drill
def test_the_parts_counter_releases_the_orders(transactional_db: None, live_server: Any, page: Page) -> None:
    stage = make_stage(make_cast())
    accepted(stage)
    lists = stage.client.get("pull-lists").json()["items"]
    page.set_viewport_size({"width": 390, "height": 844})
    signed_in(
        page, live_server.url, "parts@saltmarsh.example", f"/{stage.shop.slug}/parts/list/{lists[0]['id']}/orders"
    )
    expect(page.get_by_text("The deposit has not been received yet.")).to_be_visible()
    page.evaluate("window.print = () => { document.body.dataset.printed = 'yes' }")
    page.get_by_role("button", name="Print").click()
    expect(page.locator("body[data-printed]")).to_be_attached()
    page.emulate_media(media="print", color_scheme="dark")
    paper = page.locator("body").inner_text()
    assert re.search(rf"Proposed orders, J-1\s+{stage.shop.name}, \w+ \d+ \w+ \d{{4}}\s", paper)
    assert "Brightwater Induction 0\n1 line\n1\nTurbocharger kit\nfor kit BI-T\nBI-T\n1\n" in paper
    assert not any(words in paper for words in ("Counter", "Release", "Print", "Suggestions", "To the list"))
    assert page.evaluate("getComputedStyle(document.querySelector('h1')).color") == "rgb(0, 0, 0)"
    page.emulate_media(media="screen", color_scheme="light")
    page.get_by_role("button", name="Release these orders").click()
    expect(page.get_by_text("All that is proposed was released before.")).to_be_visible()
    picture(page, "release-390")
    nothing_wrong(page)
    assert Release.objects.get().released_by == stage.cast.parts
