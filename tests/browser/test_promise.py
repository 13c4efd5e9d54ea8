"""The promise date, on a phone: it moves as the advisor chooses, and the customer reads it and accepts."""

import re
from datetime import timedelta

import pytest
from django.utils import timezone
from playwright.sync_api import BrowserContext, Page, expect

from quotes.models import Decision
from shop.models import Job
from shop.services.people import open_shop, set_member
from tests.browser import acts
from tests.cast import PASSWORD
from tests.demo import KITS, saltmarsh_files, take_in

pytestmark = pytest.mark.browser

TURBO = "Turbocharger and charge-cooler kit, Tessark T35"
BRAKES = "Front big-brake kit, 356 mm, six pistons"
HEADLINE = re.compile(
    r"^Expected ready (\w{3} \d+ \w{3}(?: \d{4})?, (?:morning|afternoon))(; \d+ parts? ha(s|ve) no delivery date yet)?$"
)
BRING = re.compile(r"Please bring the vehicle on \w{3} \d+ \w{3}( \d{4})? by \d\d:\d\d, when we open\.")


@pytest.fixture
def workshop(transactional_db: None) -> None:
    shop, _ = open_shop(
        slug="saltmarsh", name="Saltmarsh Lane Motor Works", currency="EUR", exponent=2, zone="Europe/Vienna"
    )
    set_member(shop=shop, email="ines@saltmarsh.example", name="Ines Corrow", role="advisor", password=PASSWORD)
    take_in("saltmarsh", [*saltmarsh_files(), *(("kit", KITS[name]) for name in ("turbo", "brakes"))])


def test_from_the_choice_of_kits_to_the_receipt(
    workshop: None, live_server, page: Page, another: BrowserContext
) -> None:
    acts.signed_in(page, live_server.url, "ines@saltmarsh.example")
    acts.begin_quote(page, "holloway")
    acts.put_on(page, TURBO)
    acts.put_on(page, BRAKES)
    both = half_day(page)
    acts.unfold(page)
    sooner = take_off_the_turbo(page, both)
    vehicle_comes_later(page, sooner)
    open_how_it_is_computed(page)
    customer_says_yes(another, send(page), sooner)


def half_day(page: Page) -> str:
    """The half day of the headline, as sentences say it."""
    when = page.locator(".ready .headline")
    expect(when).to_have_text(HEADLINE)
    match = HEADLINE.match(when.inner_text())
    assert match is not None
    return match[1].replace(", ", ", in the ")


def other_than(page: Page, was: str) -> str:
    """The half day once it is another one."""
    expect(page.locator(".ready .headline")).not_to_contain_text(was.replace("in the ", ""))
    return half_day(page)


def take_off_the_turbo(page: Page, both: str) -> str:
    picture = page.locator(".ready").get_by_role("img")
    expect(picture).to_have_accessible_name(re.compile(f"ready {both}\\. .*{TURBO[:12]}"))
    page.get_by_role("button", name=f"Remove: {TURBO}").click()
    sooner = other_than(page, both)
    expect(page.get_by_text(f"Was {both}. Removed: {TURBO}")).to_be_visible()
    expect(picture).not_to_have_accessible_name(re.compile(TURBO[:12]))
    expect(page.locator(".totals-bar")).to_contain_text(f"ready {sooner.partition(',')[0]}")
    return sooner


def vehicle_comes_later(page: Page, sooner: str) -> None:
    """Sets the vehicle's day months ahead, and back by the button beside it."""
    day = timezone.now().date() + timedelta(days=120)
    field, tick = page.get_by_label("The customer brings it on"), page.get_by_label("It is here already")
    expect(page.get_by_text("Leave empty and we propose a day: ")).to_be_visible()  # nothing: the day we propose
    field.fill(day.isoformat())
    later = other_than(page, sooner)
    expect(page.locator(".ready .chain li").first).to_contain_text("work starts when the vehicle arrives")
    slides = page.locator(".ready .slides")
    assert slides.evaluate("box => box.scrollLeft > 0")  # more days than fit: only the picture slides, from its end
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    tick.check()  # the tick takes the day back
    other_than(page, later)
    expect(field).to_have_value("")
    expect(page.locator(".ready .chain li").first).not_to_contain_text("when the vehicle arrives")
    tick.uncheck()
    expect(page.get_by_text("Leave empty and we propose a day: ")).to_be_visible()
    assert half_day(page) == sooner


def open_how_it_is_computed(page: Page) -> None:
    page.locator(".ready").get_by_role("button", name=re.compile("How this was worked out")).click()
    sheet = page.get_by_role("dialog")
    expect(sheet).to_contain_text("A wait runs on by the clock")
    expect(sheet).to_contain_text("08:00 to 12:00 and 13:00 to 17:30")
    assert sheet.locator("table").evaluate("table => table.getBoundingClientRect().right <= innerWidth")
    sheet.get_by_role("button", name="Close").click()


def send(page: Page) -> str:
    page.locator(".totals-bar").get_by_role("button", name="Send").click()
    page.get_by_role("button", name="Lock the quote and create the link").last.click()
    link = page.get_by_label("The customer’s link")
    link.wait_for()
    expect(link).to_have_value(re.compile("/q/"))
    return link.input_value()


def customer_says_yes(phone: BrowserContext, link: str, day: str) -> None:
    page = phone.new_page()
    page.goto(link)
    headline = f"Expected ready {day.replace('in the ', '')}"
    expect(page.get_by_role("heading", name=headline)).to_be_visible()
    expect(page.locator("#accept")).to_contain_text(headline)
    expect(page.locator("#accept")).to_contain_text(BRING)
    expect(page.locator(".chain li").first).to_contain_text("You accept")
    page.evaluate("document.getElementsByName('ready')[0].value = '2026-01-05 morning'")  # as if opened long ago
    for consent in page.get_by_role("checkbox").all():
        consent.check()
    page.get_by_label("Your full name").fill("Anwen Holloway")
    page.get_by_role("button", name=re.compile("^Accept for")).click()
    expect(page.get_by_role("heading", name="The date has changed")).to_be_visible()
    expect(page.locator(".boxes")).to_contain_text("Mon 5 Jan, in the morning")
    expect(page.locator(".boxes")).to_contain_text(day)
    assert page.evaluate("document.documentElement.scrollWidth <= 390")
    assert not Decision.objects.exists()
    page.get_by_role("button", name=re.compile("^Accept for")).click()
    expect(page.get_by_role("heading", name=re.compile("accepted"))).to_be_visible()
    expect(page.get_by_role("heading", name=headline)).to_be_visible()
    expect(page.get_by_text(BRING)).to_be_visible()
    assert Decision.objects.get().record["promise"]["told"]["ready"]["words"] == day and Job.objects.exists()
