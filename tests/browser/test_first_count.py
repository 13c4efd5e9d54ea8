"""Two people count a kit that has no list, each on a phone: where they differ they count again."""

from decimal import Decimal
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from kitting.models import Kit, KitLine
from kitting.services.kits import NewRevision, add_kit
from tests.browser import acts
from tests.browser.sizes import nothing_wrong_at_both
from tests.cast import make_cast

pytestmark = pytest.mark.browser


def phone(browser: Browser, address: str, email: str, path: str) -> Page:
    context = browser.new_context(
        viewport={"width": 390, "height": 844}, service_workers="block", reduced_motion="reduce"
    )
    page = context.new_page()
    page.set_default_timeout(15_000)
    acts.signed_in(page, address, email, path)
    page.wait_for_load_state("networkidle")
    return page


def put_bag(page: Page, bag: str, text: str) -> None:
    page.get_by_label("Bag", exact=True).fill(bag)
    page.get_by_label("Part numbers and quantities").fill(text)
    page.get_by_role("button", name="Next bag").click()


def test_two_people_count_a_kit_and_make_its_list(transactional_db: None, live_server: Any, browser: Browser) -> None:
    cast = make_cast()
    contents = NewRevision(price=Decimal(480), hours=Decimal("3.5"))
    kit = add_kit(actor=cast.acting("manager"), code="QF-K", title="Tow kit", contents=contents).kit
    first = phone(browser, live_server.url, "parts@saltmarsh.example", f"/saltmarsh/office/kit/{kit.pk}")
    first.get_by_role("link", name="Count it by hand").click()
    expect(first.get_by_text("Nobody has counted this kit yet.")).to_be_visible()
    put_bag(first, "A", "QF-101\t4\nQF-102")
    expect(first.get_by_text("Line 2 needs a part number and a quantity.")).to_be_visible()
    put_bag(first, "A", "QF-101\t4\nQF-102\t2")
    first.get_by_label("Bag", exact=True).fill("B")
    first.get_by_label("Part numbers and quantities").fill("HOSE 12  1.5 m")
    nothing_wrong_at_both(first, "a-first-count")
    first.reload()
    expect(first.get_by_text("QF-102: 2")).to_be_visible()
    expect(first.get_by_label("Part numbers and quantities")).to_have_value("HOSE 12  1.5 m")
    first.get_by_role("button", name="Save this count").click()
    expect(first.get_by_text("One count is saved.")).to_be_visible()

    address = f"/saltmarsh/parts/kit/{kit.pk}/first-count"
    second = phone(browser, live_server.url, "manager@saltmarsh.example", address)
    expect(second.get_by_text("Parts counted 3 lines")).to_be_visible()
    expect(second.get_by_text("QF-102")).to_have_count(0)
    put_bag(second, "A", "QF-101 4\nQF-102 3")
    put_bag(second, "B", "HOSE 12 1.5 m")
    second.get_by_role("button", name="Change Bag B").click()
    expect(second.get_by_label("Part numbers and quantities")).to_have_value("HOSE 12\t1.5 m")
    second.get_by_role("button", name="Next bag").click()
    second.get_by_role("button", name="Save this count").click()
    expect(second.get_by_text("The counts differ on 1 line.")).to_be_visible()
    expect(second.get_by_text("Parts: 2; Manager: 3")).to_be_visible()
    nothing_wrong_at_both(second, "counted-differently")

    first.reload()
    first.get_by_label("Bag A, QF-102").fill("3")
    first.get_by_role("button", name="Save these quantities").click()
    expect(first.get_by_role("heading", name="The kit has its list")).to_be_visible()
    nothing_wrong_at_both(first, "a-first-list")
    first.get_by_role("link", name="To the kit").click()
    expect(first.get_by_text("QF-102")).to_be_visible()
    lines = KitLine.objects.filter(revision__kit=Kit.objects.get(), part__isnull=False).select_related("part")
    written = [(line.part.number, line.quantity) for line in lines.order_by("position") if line.part]
    assert written == [("QF-101", Decimal(4)), ("QF-102", Decimal(3)), ("HOSE 12", Decimal("1.5"))]
    for page in (first, second):
        page.context.close()
