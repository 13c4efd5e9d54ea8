"""A person's own page: the password, and signing out on every device."""

from typing import Any

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from shop.models import User
from tests.browser import acts
from tests.browser.sizes import look_at_both
from tests.browser.test_how import axe_finds
from tests.browser.test_screens import AXE, SMALL, WIDE
from tests.cast import PASSWORD, make_cast

pytestmark = pytest.mark.browser
ADVISOR = "advisor@saltmarsh.example"
NEW = "a longer kettle of bolts"


def own_page(page: Page, live_server: Any) -> None:
    make_cast()
    acts.sign_in(page, live_server.url, ADVISOR)
    page.get_by_role("link", name="signing out").click()
    expect(page.get_by_role("heading", name="Your sign-in")).to_be_visible()
    expect(page.get_by_text("this device", exact=True)).to_be_visible()  # the list that moves the buttons is there


def set_password(page: Page, now: str, new: str, again: str) -> None:
    page.get_by_label("Current password").fill(now)
    page.get_by_label("New password", exact=True).fill(new)
    page.get_by_label("New password again").fill(again)
    page.get_by_role("button", name="Set the new password").click()


@pytest.mark.drill
def test_a_person_changes_the_password_and_hears_why_one_is_refused(page: Page, live_server: Any) -> None:
    own_page(page, live_server)
    page.get_by_role("button", name="Change password").click()
    set_password(page, PASSWORD, " " * 12, " " * 12)
    expect(page.get_by_text("This password is too simple")).to_be_visible()
    set_password(page, "guess", NEW, NEW)
    expect(page.get_by_text("This is not your current password")).to_be_visible()
    set_password(page, PASSWORD, NEW, NEW + " and nuts")
    expect(page.get_by_text("The two new passwords differ")).to_be_visible()
    page.evaluate(AXE.read_text("utf-8"))
    assert axe_finds(page, "body") == [] and page.evaluate(WIDE) == 0 and page.evaluate(SMALL) == []
    set_password(page, PASSWORD, NEW, NEW)
    expect(page.get_by_text("Your password is changed")).to_be_visible()
    page.reload()
    expect(page.get_by_role("heading", name="Your sign-in")).to_be_visible()


def test_one_other_phone_is_signed_out_and_then_every_one(
    page: Page, another: BrowserContext, live_server: Any
) -> None:
    other = another.new_page()
    own_page(page, live_server)
    acts.sign_in(other, live_server.url, ADVISOR)
    page.reload()
    expect(page.get_by_text("this device", exact=True)).to_be_visible()
    page.get_by_role("button", name="Sign out: Computer or tablet, since").click()
    expect(page.get_by_text("Computer or tablet is signed out.")).to_be_visible()
    other.reload()
    expect(other.get_by_role("heading", name="Sign in")).to_be_visible()
    acts.sign_in(other, live_server.url, ADVISOR)
    page.get_by_role("button", name="Sign out on all devices").click()
    page.get_by_role("dialog").get_by_role("button", name="Sign out on all devices").click()
    expect(page.get_by_role("heading", name="Sign in")).to_be_visible()
    other.reload()
    expect(other.get_by_role("heading", name="Sign in")).to_be_visible()


@pytest.mark.drill
def test_a_forgotten_password_is_asked_for_at_the_sign_in(page: Page, live_server: Any, settings: Any) -> None:
    make_cast()
    page.goto(live_server.url)
    page.get_by_role("button", name="Forgotten your password?").click()
    expect(page.get_by_text("Ask a manager of your workshop for a link")).to_be_visible()
    assert look_at_both(page, "forgotten, by hand") == []
    settings.MAIL_IS_SENT = True
    page.reload()
    page.get_by_role("button", name="Forgotten your password?").click()
    page.get_by_label("Your e-mail").fill("nobody@saltmarsh.example")
    page.get_by_role("button", name="Send the link").click()
    expect(page.get_by_text("If nobody@saltmarsh.example is used to sign in here")).to_be_visible()
    assert look_at_both(page, "forgotten") == []


@pytest.mark.drill
def test_a_person_of_no_workshop_is_told_how_to_get_into_one(page: Page, live_server: Any) -> None:
    User.objects.create(email="odd@saltmarsh.example", name="Odd Wainscot")
    acts.signed_in(page, live_server.url, "odd@saltmarsh.example", "/")
    expect(page.get_by_text("You do not belong to a workshop yet")).to_be_visible()
    expect(page.get_by_text("Ask a manager of the workshop for an invitation")).to_be_visible()
