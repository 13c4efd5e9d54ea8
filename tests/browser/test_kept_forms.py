"""An open form of a draft keeps what is typed and chosen over an interruption, until it is saved."""

import re
from typing import Any

import pytest
from playwright.sync_api import Page, Route, expect

from shop.models import Customer, Vehicle
from tests.browser.acts import signed_in
from tests.browser.test_account import nothing_wrong
from tests.cast import make_cast
from tests.factories import KitFactory
from tests.quotes.stage import Stage, make_stage

pytestmark = pytest.mark.browser


@pytest.fixture
def stage(transactional_db: None) -> Stage:
    return make_stage(make_cast())


@pytest.fixture
def draft(stage: Stage, live_server: Any, page: Page) -> Page:
    """An advisor's draft on a phone."""
    quote = stage.quote(stage.turbo).json()
    page.set_viewport_size({"width": 390, "height": 844})
    signed_in(page, live_server.url, "advisor@saltmarsh.example", f"/{stage.shop.slug}/counter/quote/{quote['id']}")
    page.wait_for_load_state("networkidle")
    return page


def interrupted(page: Page) -> None:
    page.reload()
    page.wait_for_load_state("networkidle")


def press(page: Page, *names: str) -> None:
    for name in names:
        page.get_by_role("button", name=name).first.click()


@pytest.mark.drill
def test_the_kind_of_what_may_happen(draft: Page) -> None:
    press(draft, "Add a kit, part or work", "Only if it happens", "At a price")
    draft.get_by_label("If this happens").fill("A stud breaks")
    draft.get_by_label("Taxed as").select_option("part")
    interrupted(draft)
    expect(draft.get_by_role("button", name="At a price")).to_have_attribute("aria-pressed", "true")
    expect(draft.get_by_label("If this happens")).to_have_value("A stud breaks")
    expect(draft.get_by_label("Taxed as")).to_have_value("part")
    press(draft, "Give a discount")
    draft.get_by_label("Reason").fill("Two kits at once")
    press(draft, "Leave a choice")
    draft.get_by_label("What the customer chooses").fill("Brake pads")
    interrupted(draft)
    expect(draft.get_by_label("Reason")).to_have_value("Two kits at once")
    expect(draft.get_by_label("What the customer chooses")).to_have_value("Brake pads")


@pytest.mark.drill
def test_what_a_form_searches_for(draft: Page) -> None:
    press(draft, "Add a kit, part or work")
    draft.get_by_role("group", name="What to add").get_by_role("button", name="Labour").click()
    draft.get_by_label("An operation from the list").fill("turbo")
    interrupted(draft)
    expect(draft.get_by_label("An operation from the list")).to_have_value("turbo")
    expect(draft.locator(".lines button").filter(has_text="Turbocharger fitted").first).to_be_visible()
    press(draft, "Outside work")
    draft.get_by_label("Firm", exact=True).fill("Lathe")
    interrupted(draft)
    expect(draft.get_by_label("Firm", exact=True)).to_have_value("Lathe")
    draft.get_by_role("group", name="What to add").get_by_role("button", name="A loose part").click()
    draft.get_by_role("searchbox").fill("TB-25")
    interrupted(draft)
    expect(draft.get_by_role("searchbox")).to_have_value("TB-25")


def test_what_a_new_quote_begins_with(stage: Stage, draft: Page) -> None:
    for number in range(8):
        KitFactory(shop=stage.shop, code=f"ROOF-{number}")
    draft.goto(draft.url.rpartition("/quote/")[0] + "/quote/new")
    draft.get_by_label("Find a kit").fill("turbo")
    draft.locator("label").filter(has_text="Turbo").first.click()
    press(draft, "Choose the customer")
    draft.get_by_label("Name or telephone").fill("Oldac")
    interrupted(draft)
    expect(draft.get_by_label("Name or telephone")).to_have_value("Oldac")
    press(draft, "Leave it as it is", "Choose the vehicle")
    draft.get_by_label("Make, plate or VIN").fill("Oskerry")
    interrupted(draft)
    expect(draft.get_by_label("Make, plate or VIN")).to_have_value("Oskerry")
    press(draft, "Leave it as it is")
    expect(draft.get_by_label("Find a kit")).to_have_value("turbo")
    expect(draft.get_by_role("checkbox", checked=True)).to_have_count(1)
    press(draft, "Quote 1 kit")
    expect(draft.get_by_role("button", name=re.compile("Remove: .*Turbo"))).to_be_visible()


@pytest.mark.drill
def test_a_kit_without_contents(draft: Page) -> None:
    press(draft, "Add a kit, part or work", "A kit with only a price and hours")
    draft.get_by_label("What the kit is").fill("Strut brace")
    draft.get_by_label("Hours to fit").fill("0.8")
    interrupted(draft)
    expect(draft.get_by_label("What the kit is")).to_have_value("Strut brace")
    expect(draft.get_by_label("Hours to fit")).to_have_value("0.8")
    nothing_wrong(draft)


@pytest.mark.drill
def test_a_new_customer_until_they_are_saved(draft: Page) -> None:
    draft.get_by_role("button", name="customer", exact=True).click()
    press(draft, "Add a customer")
    draft.get_by_label("Name", exact=True).fill("Anwen Holloway")
    draft.get_by_label("Telephone", exact=True).fill("01632 960 418")
    interrupted(draft)
    expect(draft.get_by_label("Name", exact=True)).to_have_value("Anwen Holloway")
    expect(draft.get_by_label("Telephone", exact=True)).to_have_value("01632 960 418")
    nothing_wrong(draft)
    press(draft, "Add the customer")
    expect(draft.get_by_label("Telephone", exact=True)).to_have_count(0)
    assert Customer.objects.filter(name="Anwen Holloway").count() == 1
    draft.get_by_role("button", name="customer", exact=True).click()
    press(draft, "Add a customer")
    expect(draft.get_by_label("Telephone", exact=True)).to_have_value("")


@pytest.mark.drill
def test_a_new_vehicle_with_what_was_chosen(draft: Page) -> None:
    draft.get_by_role("button", name="vehicle", exact=True).click()
    press(draft, "Add a vehicle")
    draft.get_by_label("Make and model").fill("Oskerry Hauler")
    press(draft, "automatic")
    interrupted(draft)
    expect(draft.get_by_label("Make and model")).to_have_value("Oskerry Hauler")
    expect(draft.get_by_role("button", name="automatic")).to_have_attribute("aria-pressed", "true")
    draft.locator("form").get_by_role("button", name="Leave it as it is").click()
    interrupted(draft)
    expect(draft.get_by_label("Make and model")).to_have_count(0)
    assert not Vehicle.objects.filter(title="Oskerry Hauler").exists()


@pytest.mark.drill
def test_who_the_link_is_for(draft: Page) -> None:
    press(draft, "Lock the quote and create the link")
    draft.get_by_label("Customer’s name").fill("Anwen, by message")
    interrupted(draft)
    expect(draft.get_by_label("Customer’s name")).to_have_value("Anwen, by message")


@pytest.mark.drill
def test_who_another_link_is_for_and_a_refusal_to_withdraw(stage: Stage, draft: Page) -> None:
    quote = stage.sent(stage.turbo)["quote"]
    draft.goto(draft.url.rpartition("/")[0] + f"/{quote['id']}")
    draft.wait_for_load_state("networkidle")
    press(draft, "Another link")
    draft.get_by_label("Customer’s name").fill("Anwen Holloway")
    interrupted(draft)
    expect(draft.get_by_label("Customer’s name")).to_have_value("Anwen Holloway")

    def colleague_first(route: Route) -> None:
        stage.client.post(f"quotes/{quote['id']}/withdraw", {"revision": 1, "digest": quote["digest"]})
        route.continue_()

    draft.route("**/withdraw", colleague_first)
    press(draft, "New version", "Withdraw version 1")
    draft.get_by_role("dialog").get_by_role("button", name="Withdraw the quote").click()
    expect(draft.get_by_role("button", name="Withdraw version 1")).to_have_count(0)
    expect(draft.get_by_role("alert")).to_be_visible()
