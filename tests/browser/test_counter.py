"""Entries at the counter are checked before they are saved, and nothing typed is lost; on a phone."""

import re
from datetime import date, timedelta
from typing import Any

import pytest
from django.utils import timezone
from playwright.sync_api import Page, expect

from shop.models import Member, Vehicle
from shop.services.people import open_shop, set_member
from tests.browser import acts
from tests.browser.aside import begin
from tests.browser.test_how import axe_finds
from tests.browser.test_screens import AXE, COLOURS, accept
from tests.cast import PASSWORD
from tests.client import CheckedClient
from tests.demo import KITS, saltmarsh_files, take_in

pytestmark = pytest.mark.browser

BAD, GOOD = "OTB1MZW00A7YW24HU", "0TB1MZW00A7YW24HU"  # the letter O for a zero


def make_counter() -> None:
    """A workshop that sells one kit, and its advisor."""
    shop, _ = open_shop(
        slug="saltmarsh", name="Saltmarsh Lane Motor Works", currency="EUR", exponent=2, zone="Europe/Vienna"
    )
    set_member(shop=shop, email="ines@saltmarsh.example", name="Ines Corrow", role="advisor", password=PASSWORD)
    take_in("saltmarsh", [*saltmarsh_files(), ("kit", KITS["brakes"])])


@pytest.fixture
def client(transactional_db: None) -> CheckedClient:
    begin(make_counter)
    client = CheckedClient()
    client.force_login(Member.objects.get().user)
    return client


def draft(client: CheckedClient, **vehicle_id: Any) -> dict[str, Any]:
    kits = [item["id"] for item in client.get("kits").json()["items"]]
    quote: dict[str, Any] = client.post("quotes", {"kits": kits, **vehicle_id}).json()
    return quote


def holloways(client: CheckedClient) -> str:
    vehicle_id: str = client.get("customers", {"q": "holloway"}).json()["items"][0]["vehicles"][0]["id"]
    return vehicle_id


def opened(page: Page, address: str, quote: dict[str, Any]) -> None:
    acts.signed_in(page, address, "ines@saltmarsh.example", f"/saltmarsh/counter/quote/{quote['id']}")
    expect(page.get_by_role("heading", name="Quote Q-")).to_be_visible()


@pytest.mark.drill
def test_two_vehicles_of_one_model_are_told_apart_by_their_plates(
    client: CheckedClient, live_server: Any, page: Page
) -> None:
    first = Vehicle.objects.get(pk=holloways(client))
    client.post("vehicles", {"customer": str(first.customer_id), "title": first.title, "plate": "QQ 900 ZZ"})
    acts.signed_in(page, live_server.url, "ines@saltmarsh.example", "/saltmarsh/counter?q=holloway")
    for plate in (first.plate, "QQ 900 ZZ"):
        expect(page.get_by_role("button", name=f"{first.title}, {plate}")).to_be_visible()


@pytest.mark.drill
def test_a_vin_is_looked_at_before_the_vehicle_is_kept(client: CheckedClient, live_server: Any, page: Page) -> None:
    vehicles = Vehicle.objects.count()
    opened(page, live_server.url, draft(client))
    page.get_by_role("button", name="Choose the vehicle", exact=True).click()
    page.get_by_role("button", name="Add a vehicle").click()
    page.get_by_label("Make and model").fill("Tessark T35 estate")
    page.get_by_role("textbox", name="VIN").fill(BAD)
    use = page.get_by_role("button", name=f"Use {GOOD}")
    expect(use).to_be_visible()
    page.get_by_role("textbox", name="VIN").fill(GOOD)
    expect(use).to_have_count(0)
    escape_in_another_editor(page)
    expect(page.get_by_role("textbox", name="VIN")).to_have_value(GOOD)
    page.get_by_role("textbox", name="VIN").fill(BAD)
    expect(use).to_be_visible()
    assert Vehicle.objects.count() == vehicles
    choose_attributes(page)
    page.get_by_role("button", name="Add the vehicle", exact=True).click()
    expect(page.locator(".boxes")).to_contain_text("Tessark T35 estate")
    expect(page.locator(".boxes")).to_contain_text(f"Did you mean {GOOD}?")
    expect(page.locator(".boxes .mark")).to_be_visible()
    assert Vehicle.objects.count() == vehicles + 1
    change = page.get_by_role("group", name="Change").get_by_role("button", name="vehicle")
    expect(change).to_be_focused()
    expect(change).to_be_in_viewport()
    assert Vehicle.objects.get(vin=BAD).attributes == {"model": "T35"}
    a_fact_that_is_recorded_can_be_undone(page)


def a_fact_that_is_recorded_can_be_undone(page: Page) -> None:
    record = page.get_by_role("button", name=re.compile("^Set: without wear sensor"))
    record.first.click()
    expect(record).to_have_count(0)
    expect(page.locator("main :focus")).to_have_count(1)
    page.get_by_role("button", name="Undo", exact=True).click()
    expect(record.first).to_be_visible()


def choose_attributes(page: Page) -> None:
    """A value that a kit depends on is a button; pressed again it is not recorded. The title has chosen the model."""
    model = page.get_by_role("group", name="Model").get_by_role("button", name="T35")
    expect(model).to_have_attribute("aria-pressed", "true")
    model.click()  # as somebody who has not seen that it is chosen
    expect(model).to_have_attribute("aria-pressed", "true")
    page.evaluate(AXE.read_text("utf-8"))
    assert axe_finds(page, "main form", COLOURS) == []
    page.get_by_role("button", name="Specs and capacities").click()
    sensor = page.get_by_role("group", name="Wear sensor").get_by_role("button", name="yes")
    sensor.click()
    expect(sensor).to_have_attribute("aria-pressed", "true")
    sensor.click()


def escape_in_another_editor(page: Page) -> None:
    """Escape closes that editor alone, and the focus returns to its figure."""
    acts.unfold(page)
    figure = page.get_by_role("button", name=re.compile("^Hours of .* Enter your figure")).first
    figure.click()
    expect(page.get_by_label("Your hours")).to_be_focused()
    page.keyboard.press("Escape")
    expect(page.get_by_label("Your hours")).to_have_count(0)
    expect(figure).to_be_focused()


def test_the_date_is_at_hand_and_the_margin_is_not(client: CheckedClient, live_server: Any, page: Page) -> None:
    opened(page, live_server.url, draft(client, vehicle=holloways(client)))
    bar = page.locator(".totals-bar")
    expect(page.locator(".slip")).to_contain_text("Margin")
    expect(bar).to_contain_text(re.compile(r"ready \w{3} \d+ \w{3}"))
    expect(bar).not_to_contain_text(re.compile("margin", re.I))
    expect(bar.get_by_role("button", name="Send")).to_be_visible()
    bar.get_by_role("button", name="Show the timeline").click()
    heading = page.get_by_role("heading", name="Ready", exact=True)
    expect(heading).to_be_focused()
    expect(heading).to_be_in_viewport()
    headings = page.locator("main h2").all_inner_texts()
    assert headings.index("Kits") < headings.index("Ready") < headings.index("Labour")
    the_day_the_vehicle_comes(page)
    work_of_another_firm(page)


def the_day_the_vehicle_comes(page: Page) -> None:
    field, ready = page.get_by_label("The customer brings it on"), page.locator(".ready")
    ready.get_by_text("When the vehicle comes").click()
    field.fill("9999-12-31")
    expect(ready.locator(".err")).to_contain_text("more than")
    field.fill("2024-01-01")
    expect(ready.locator(".note")).to_contain_text("The vehicle was to come on Mon 1 Jan 2024")
    expect(ready.locator(".err")).to_have_count(0)
    sunday = next_sunday(timezone.now().date() + timedelta(days=7))
    field.fill(sunday.isoformat())
    expect(ready.locator(".note")).to_contain_text(re.compile(r"^\s*Closed on Sun .* can come on Mon "))


def work_of_another_firm(page: Page) -> None:
    """Work of another firm, whose turnaround is typed as a number."""
    page.get_by_role("button", name="Add a kit, part or work").click()
    page.get_by_role("button", name="Outside work").click()
    form = page.get_by_role("form", name="Work by other firms")
    form.get_by_label("What they do").fill("Four-wheel alignment")
    form.get_by_label("Firm").fill("Straightline Alignment")
    form.get_by_label("Turnaround, working days").fill("2")
    form.get_by_label("Their price, before tax").fill("140")
    form.get_by_role("button", name="Add to the quote").click()
    expect(form).to_have_count(0)
    expect(page.get_by_role("listitem").filter(has_text="Four-wheel alignment")).to_contain_text("2 working days")


def next_sunday(day: date) -> date:
    return day + timedelta(days=6 - day.weekday())


@pytest.mark.drill
def test_a_draft_says_that_the_version_before_it_can_be_accepted(
    client: CheckedClient, live_server: Any, page: Page
) -> None:
    quote = draft(client, vehicle=holloways(client))
    path = f"quotes/{quote['id']}"
    link = client.post(f"{path}/send", {"version": quote["version"], "recipient": "01632 960 417"}).json()["link"]
    client.post(f"{path}/revise")
    opened(page, live_server.url, quote)
    expect(page.get_by_text("Version 1 is with the customer and can still be accepted.")).to_be_visible()
    expect(page.get_by_role("button", name="Withdraw version 1")).to_be_visible()
    accept(link["url"])
    page.get_by_role("button", name="light", exact=True).click()
    expect(page.get_by_text("Anwen Holloway accepted version 1 while you worked on version 2")).to_be_visible()
    expect(page.get_by_text("Version 1 is with the customer")).to_have_count(0)
    expect(page.locator("header .stamp")).to_contain_text("accepted")


@pytest.mark.drill
def test_a_version_is_taken_back_from_under_its_draft(client: CheckedClient, live_server: Any, page: Page) -> None:
    quote = draft(client, vehicle=holloways(client))
    path = f"quotes/{quote['id']}"
    client.post(f"{path}/send", {"version": quote["version"], "recipient": "01632 960 417"})
    client.post(f"{path}/revise")
    opened(page, live_server.url, quote)
    page.get_by_role("button", name="Withdraw version 1").click()
    page.get_by_role("dialog").get_by_role("button", name="Withdraw the quote").click()
    expect(page.get_by_text("Version 1 is with the customer")).to_have_count(0)
    page.get_by_role("button", name="light", exact=True).click()
    expect(page.get_by_role("button", name="light", exact=True)).to_have_attribute("aria-pressed", "true")
    assert client.get(path).json()["out"] is None


@pytest.mark.drill
def test_the_keyboard_follows_what_is_pressed(client: CheckedClient, live_server: Any, page: Page) -> None:
    """Focus goes to a new quote's heading, the form of sending and back, what was sent, and a new version's heading."""
    new = f"/saltmarsh/counter/quote/new?vehicle={holloways(client)}"
    acts.signed_in(page, live_server.url, "ines@saltmarsh.example", new)
    page.locator("label").filter(has_text="big-brake").click()
    page.get_by_role("button", name="Quote 1 kit").click()
    head = page.get_by_role("heading", name="Quote Q-")
    expect(head).to_be_focused()
    lock = page.locator("#send").get_by_role("button", name="Lock the quote and create the link")
    lock.click()
    recipient = page.get_by_label("Customer’s name")
    expect(recipient).to_be_focused()
    page.locator("#send").get_by_role("button", name="Cancel").click()
    expect(lock).to_be_focused()
    lock.click()
    recipient.press("Enter")
    expect(page.get_by_text("Created for Anwen Holloway. Version 1 can no longer change.")).to_be_focused()
    page.get_by_role("button", name="New version").click()
    expect(head).to_be_focused()


COVERED = """() => {
  const bar = document.querySelector('.foot').getBoundingClientRect()
  const over = [...document.querySelectorAll('form .field, form fieldset')].filter((field) => {
    field.querySelector('input, select, textarea, button').focus()
    const box = field.getBoundingClientRect()
    return box.bottom > bar.top && box.top < bar.bottom
  })
  return over.map((field) => field.innerText)
}"""


@pytest.mark.drill
def test_no_bar_covers_the_fields_of_a_new_quote(client: CheckedClient, live_server: Any, page: Page) -> None:
    new = f"/saltmarsh/counter/quote/new?vehicle={holloways(client)}"
    acts.signed_in(page, live_server.url, "ines@saltmarsh.example", new)
    page.locator("label").filter(has_text="big-brake").click()
    page.get_by_role("button", name="A kit with only a price and hours").click()
    page.get_by_role("button", name="Add the kit").click()  # with nothing entered: every field has its error
    expect(page.locator("form .err").first).to_be_visible()
    assert page.evaluate(COVERED) == []
    page.get_by_role("button", name="Leave it as it is").click()
    page.get_by_role("button", name="vehicle", exact=True).click()
    page.get_by_role("button", name="Add a vehicle").click()
    expect(page.locator("form .field").first).to_be_visible()
    assert page.evaluate(COVERED) == []
    assert page.locator(".foot").evaluate("bar => getComputedStyle(bar).position") != "sticky"


@pytest.mark.drill
def test_a_name_that_is_not_found_is_one_tap_from_a_new_customer(
    client: CheckedClient, live_server: Any, page: Page
) -> None:
    acts.signed_in(page, live_server.url, "ines@saltmarsh.example", "/saltmarsh/counter")
    page.get_by_role("searchbox").fill("Wilmot & Daughter")
    page.get_by_role("button", name="New customer: Wilmot & Daughter").click()
    expect(page.get_by_role("heading", name="New quote", level=1)).to_be_visible()
    expect(page.get_by_label("Name", exact=True)).to_have_value("Wilmot & Daughter")
    page.evaluate(AXE.read_text("utf-8"))
    assert axe_finds(page, "main") == []


TAPS = "(() => { window.taps = 0; addEventListener('click', () => window.taps++, true) })()"


@pytest.mark.drill
def test_a_caller_hears_a_range_within_four_taps(client: CheckedClient, live_server: Any, page: Page) -> None:
    """From the counter: into the field, and the kit's hit says it; two more, and the draft for nobody says it too."""
    page.add_init_script(TAPS)
    acts.signed_in(page, live_server.url, "ines@saltmarsh.example", "/saltmarsh/counter")
    page.get_by_role("searchbox").click()
    page.keyboard.type("brake")
    kit = client.get("kits").json()["items"][0]
    words = client.get(f"kits/{kit['id']}/price-range").json()["range"]["words"]
    expect(page.get_by_text(words)).to_be_visible()
    assert page.evaluate("taps") == 1
    page.get_by_role("button", name="Quote this kit").click()
    expect(page.get_by_role("heading", name="Quote Q-")).to_be_visible()
    expect(page.get_by_text(words).first).to_be_visible()
    assert page.evaluate("taps") <= 4
