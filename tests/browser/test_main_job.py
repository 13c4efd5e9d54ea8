"""The workshop's main job, in one go, as its people do it on a phone."""

import re

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from quotes.models import Decision, Quote, Revision
from shop.services.people import open_shop, set_member
from tests.browser import acts
from tests.cast import PASSWORD
from tests.demo import KITS, saltmarsh_files, take_in

pytestmark = pytest.mark.browser

TURBO = "Turbocharger and charge-cooler kit, Tessark T35"
BRAKES = "Front big-brake kit, 356 mm, six pistons"
TOWING = "Auxiliary transmission cooler and towing kit"
TOTAL = "17,361.36"  # 10,327.86 kits, 6,564.96 labour, and fluids, small parts, supplies, fees; 20 % tax inside


@pytest.fixture
def workshop(transactional_db: None) -> None:
    """A workshop with all demonstration files except the big kit, which the test imports."""
    shop, _ = open_shop(
        slug="saltmarsh",
        name="Saltmarsh Lane Motor Works",
        currency="EUR",
        exponent=2,
        zone="Europe/Vienna",
        phone="01632 960 400",
    )
    set_member(shop=shop, email="ines@saltmarsh.example", name="Ines Corrow", role="advisor", password=PASSWORD)
    take_in("saltmarsh", [*saltmarsh_files(), ("kit", KITS["brakes"]), ("kit", KITS["towing"])])


def test_from_the_suppliers_file_to_the_difference_report(
    workshop: None, live_server, page: Page, another: BrowserContext
) -> None:
    acts.sign_in(page, live_server.url, "ines@saltmarsh.example")
    take_in_the_big_kit(page)
    link = quote_three_kits(page)
    accept(another, link)
    count_the_pull_list(page)
    close_and_read_the_report(page)


def take_in_the_big_kit(page: Page) -> None:
    acts.read_file(page, "Kit contents", KITS["brakes"])  # the wrong one
    page.get_by_role("button", name="Discard this file").click()
    page.get_by_role("dialog").get_by_role("button", name="Discard this file").click()
    expect(page.get_by_text("Discarded: ferrous-vane-FV-BB356.csv")).to_be_visible()
    acts.read_file(page, "Kit contents", KITS["turbo"])
    expect(page.get_by_text("Parts list of 190 lines; cartons: 5, bags: 24")).to_be_visible()
    page.get_by_role("button", name="Import 224 lines").click()
    expect(page.get_by_role("heading", name="Imported", exact=True)).to_be_visible()


def quote_three_kits(page: Page) -> str:
    """The customer's link."""
    acts.begin_quote(page, "holloway")
    for kit in (TURBO, BRAKES, TOWING):
        acts.put_on(page, kit)
    expect(page.locator(".totals-bar")).to_contain_text(TOTAL)
    expect(page.locator(".totals-bar")).to_contain_text("52.8 h")
    acts.unfold(page)
    expect(page.get_by_text("once for three kits: longest is 0.6 h")).to_be_visible()
    page.locator(".totals-bar").get_by_role("button", name="Send").click()
    page.get_by_role("button", name="Lock the quote and create the link").last.click()
    link = page.get_by_label("The customer’s link")
    expect(link).to_have_value(re.compile("/q/"))
    assert str(Revision.objects.get().gross) == "17361.360"
    return link.input_value()


def accept(phone: BrowserContext, link: str) -> None:
    page = phone.new_page()
    page.goto(link)
    assert link.startswith(page.url) and page.url.endswith("/")  # the secret has left the address
    expect(page.get_by_role("row", name=re.compile("Total with tax")).first).to_contain_text(TOTAL)
    for consent in page.get_by_role("checkbox").all():
        consent.check()
    page.get_by_label("Your full name").fill("Anwen Holloway")
    page.get_by_role("button", name=f"Accept for {TOTAL} EUR").click()
    expect(page.get_by_role("heading", name=re.compile("accepted"))).to_be_visible()
    expect(page.get_by_text(f"for {TOTAL} EUR")).to_be_visible()
    assert Decision.objects.get().record["name"] == "Anwen Holloway"
    assert Quote.objects.get().job is not None


def count_the_pull_list(page: Page) -> None:
    acts.go_to(page, "Parts")
    page.get_by_role("link", name=re.compile("Anwen Holloway")).click()
    acts.count(page, "Stud M10 x 45, heat-resisting", 6)
    acts.count(page, "Bolt M8 x 30", 3)
    acts.count(page, "Spark plug, one grade colder", 4, damaged=1)
    page.locator("li").get_by_role("button").filter(has_text="Spark plug, one grade colder").first.click()
    expect(page.locator(".pad").get_by_role("button", name="All here, none damaged: 4")).to_be_visible()
    page.locator(".pad").get_by_role("button", name="Close").click()
    for place in page.locator(".carton button").filter(has_text=re.compile(r"^\s*Carton \d")).all():
        acts.all_here_in(page, place)
    for place in page.locator(".bag button").filter(has_text=re.compile(r"^\s*Bag [A-G], ")).all():
        acts.all_here_in(page, place)
    acts.count_the_rest_in_full(page)


def close_and_read_the_report(page: Page) -> None:
    page.get_by_role("button", name="Close the list").click()
    expect(page.get_by_role("heading", name=re.compile("Differences"))).to_be_visible()
    expect(page.get_by_text("3 differ")).to_be_visible()
    for line, figure, states in [
        ("Stud M10 x 45, heat-resisting", "6 of 8", ["short 2"]),
        ("Bolt M8 x 30", "3 of 4", ["short 1"]),
        ("Spark plug, one grade colder", "4 of 4", ["damaged 1"]),
    ]:
        row = page.locator("li").filter(has_text=line)
        expect(row).to_contain_text(figure)
        expect(row.locator(".stamp")).to_have_text(states)
