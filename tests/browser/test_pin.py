"""Two people on one phone: a change of person by a tap and six digits, with and without signal."""

from typing import Any

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from kitting.models import CountEvent
from shop.models import PhonePin
from tests.browser import acts
from tests.browser.sizes import look_at_both
from tests.browser.two_phones import TITLES, Bag, count, make_bag, row
from tests.cast import PASSWORD

pytestmark = pytest.mark.browser
LINNET, ODA = ("parts@saltmarsh.example", "402913"), ("oda@saltmarsh.example", "771604")


@pytest.fixture
def bag(transactional_db: None) -> Bag:
    return make_bag()


def own_page(page: Page) -> None:
    page.get_by_role("link", name="signing out").click()
    expect(page.get_by_role("heading", name="PIN on this phone")).to_be_visible()


def set_pin(page: Page, pin: str) -> None:
    page.get_by_label("Your password").fill(PASSWORD)
    page.get_by_label("Six digits", exact=True).fill(pin)
    page.get_by_label("The same six digits again").fill(pin)
    page.get_by_role("button", name="Set the PIN").click()


def enrol(page: Page, address: str, email: str, pin: str) -> None:
    acts.sign_in(page, address, email)
    own_page(page)
    page.get_by_role("button", name="Set a PIN on this phone").click()
    set_pin(page, "123456")
    expect(page.get_by_text("This PIN is easy to guess")).to_be_visible()
    assert look_at_both(page, "setting a PIN") == []
    set_pin(page, pin)
    expect(page.get_by_text("The PIN is set.")).to_be_visible()


def tap_in(page: Page, name: str, pin: str) -> None:
    page.get_by_role("button", name=name, exact=True).click()
    for digit in pin:
        page.get_by_role("button", name=digit, exact=True).click()


def test_two_people_share_a_phone(page: Page, context: BrowserContext, live_server: Any, bag: Bag) -> None:
    for email, pin in (LINNET, ODA):
        enrol(page, live_server.url, email, pin)
        page.get_by_role("button", name="Sign out", exact=True).last.click()
        expect(page.get_by_role("heading", name="Sign in", exact=True)).to_be_visible()
    assert look_at_both(page, "names at the sign-in") == []
    with_signal_the_server_changes_the_person(page)
    without_signal_each_has_their_own(page, context, live_server, bag)
    a_pin_that_is_ended_is_gone(page)
    a_pin_that_is_locked_closes_its_pad(page)


def with_signal_the_server_changes_the_person(page: Page) -> None:
    tap_in(page, "Oda", "111222")
    expect(page.get_by_text("4 tries are left")).to_be_visible()
    assert look_at_both(page, "a wrong PIN") == []
    for digit in ODA[1]:
        page.keyboard.press(digit)
    expect(page.get_by_role("link", name="Oda")).to_be_visible()
    own_page(page)
    tap_in(page, "Parts", LINNET[1])
    expect(page.get_by_role("link", name="Parts, parts")).to_be_visible()


def without_signal_each_has_their_own(page: Page, context: BrowserContext, live_server: Any, bag: Bag) -> None:
    """Linnet's counts without signal stay hers, and are sent whoever uses the phone by then."""
    page.goto(f"{live_server.url}/saltmarsh/parts/list/{bag.list.pk}")
    own_page(page)  # loads what the worker, which is blocked here, would have kept for want of signal
    page.get_by_role("button", name="Back").click()
    expect(row(page, TITLES[0])).to_be_visible()
    page.wait_for_load_state("networkidle")
    context.set_offline(True)
    count(page, TITLES[0], 3)
    own_page(page)
    tap_in(page, "Oda", ODA[1])
    expect(page.get_by_role("link", name="Oda")).to_be_visible()
    expect(page.get_by_text("No signal. 1 count")).to_be_visible()
    assert look_at_both(page, "Oda without signal") == []
    context.set_offline(False)
    expect(page.get_by_text("No signal.")).to_have_count(0)
    own_page(page)
    expect(page.get_by_role("heading", name="Signed in as Oda")).to_be_visible()
    expect(page.get_by_text("this device", exact=True).first).to_be_visible()
    with_one_count(page)
    assert [event.author for event in CountEvent.objects.select_related("author")] == [bag.cast.parts]


def with_one_count(page: Page) -> None:
    """Waits until the server has the count."""
    for _ in range(60):
        if CountEvent.objects.exists():
            return
        page.wait_for_timeout(250)


def a_pin_that_is_ended_is_gone(page: Page) -> None:
    tap_in(page, "Parts", LINNET[1])
    expect(page.get_by_role("link", name="Parts, parts")).to_be_visible()
    PhonePin.objects.filter(user__email=ODA[0]).delete()
    own_page(page)
    expect(page.get_by_role("button", name="Oda", exact=True)).to_be_visible()
    tap_in(page, "Oda", ODA[1])
    expect(page.get_by_role("button", name="Oda", exact=True)).to_have_count(0)
    expect(page.get_by_text("This PIN has ended")).to_be_visible()


def a_pin_that_is_locked_closes_its_pad(page: Page) -> None:
    page.get_by_role("button", name="Sign out", exact=True).last.click()
    tap_in(page, "Parts", "111222")
    for n in ("4 tries are left", "3 tries are left", "2 tries are left", "One try is left"):
        expect(page.get_by_text(n)).to_be_visible()
        for digit in "111222":
            page.keyboard.press(digit)
    expect(page.get_by_text("The password is needed")).to_be_visible()
    expect(page.get_by_text("PIN of Parts")).to_have_count(0)
    expect(page.get_by_text("password needed: five wrong tries")).to_be_visible()
    assert look_at_both(page, "a PIN that is locked") == []
