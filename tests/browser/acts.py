"""Actions of people in the app, in their words, so that a browser test reads like an instruction."""

import re
from pathlib import Path

from django.conf import settings
from django.test import Client
from playwright.sync_api import Locator, Page, expect

from shop.models import User
from tests.cast import PASSWORD


def signed_in(page: Page, address: str, email: str, path: str = "") -> None:
    """Opens the app as somebody who signed in on this phone before."""
    client = Client()
    client.force_login(User.objects.get(email=email))
    name = settings.SESSION_COOKIE_NAME
    page.context.add_cookies([{"name": name, "value": client.cookies[name].value, "url": address}])
    page.goto(address + path)


def sign_in(page: Page, address: str, email: str) -> None:
    page.goto(address)
    page.get_by_label("E-mail").fill(email)
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Sign in").click()
    expect(page.get_by_role("navigation", name="Places")).to_be_visible()


def go_to(page: Page, place: str) -> None:
    page.get_by_role("navigation", name="Places").get_by_role("link", name=place).click()


def read_file(page: Page, kind: str, file: Path) -> None:
    """Goes as far as "Nothing saved yet"."""
    go_to(page, "Office")
    page.get_by_role("link", name=kind).first.click()
    page.locator("input[type=file]").set_input_files(str(file))
    page.get_by_role("button", name="Read the file").click()
    expect(page.get_by_role("heading", name="Nothing saved yet")).to_be_visible()


def begin_quote(page: Page, customer: str) -> None:
    go_to(page, "Counter")
    page.get_by_role("searchbox").fill(customer)
    section = page.locator("section, .sheet").filter(has_text=f"Found for “{customer}”")
    section.get_by_role("button", name="New quote").click()
    expect(page.get_by_role("heading", name="New quote", level=1)).to_be_visible()


def put_on(page: Page, kit: str) -> None:
    page.locator("label").filter(has_text=kit).first.click()
    expect(page.get_by_role("button", name=f"Remove: {kit}")).to_be_visible()


def unfold(page: Page) -> None:
    """Opens every folded row; those of a folded row too."""
    closed = page.locator("details.fold:not([open]) > summary")
    while closed.count():
        closed.first.click()


def count(page: Page, line: str, pieces: int, damaged: int = 0) -> None:
    """Choose the line, type how many, and how many of them are damaged."""
    page.locator("li").get_by_role("button").filter(has_text=line).first.click()
    pad = page.locator(".pad")
    expect(pad).to_contain_text(line)
    pad.get_by_role("button", name=str(pieces), exact=True).click()
    if damaged:
        pad.get_by_role("button", name="Damaged", exact=True).click()
        pad.get_by_role("button", name=str(damaged), exact=True).click()
        pad.get_by_role("button", name=f"Save {pieces}, {damaged} damaged").click()
    else:
        pad.get_by_role("button", name=f"Save {pieces}", exact=True).click()
    pad.get_by_role("button", name="Close").click()


def all_here_in(page: Page, place: Locator) -> None:
    """Everything of that carton or bag that nobody has counted is there in full."""
    place.click()
    pad = page.locator(".pad")
    pad.get_by_role("button", name="All here").click()
    expect(pad).to_be_hidden()
    wait_out_a_double_tap(page)


def wait_out_a_double_tap(page: Page) -> None:
    """Until the list takes a tap again: one within 300 ms of the press that closed the pad would be its second half."""
    page.wait_for_function("closed => performance.now() > closed + 300", arg=page.evaluate("performance.now()"))


def count_the_rest_in_full(page: Page) -> None:
    """One tap a line: the pad goes on to the next line that nobody has counted."""
    page.get_by_role("group", name="Show").get_by_role("button", name="Not counted").click()
    progress = page.locator(".row > b", has_text="lines counted").first  # to search all the text is slow on a long list
    done, lines = map(int, re.findall(r"\d+", progress.inner_text()))
    assert 0 < lines - done < 60, f"{done} of {lines} counted"
    page.locator(".pull li").get_by_role("button").first.click()
    for n in range(done + 1, lines + 1):
        expect(page.locator(".pad")).not_to_have_attribute("aria-busy", "true")  # it has just moved on
        page.locator(".pad").get_by_role("button", name="All here").click()
        expect(progress).to_have_text(f"{n} of {lines} lines counted")
    wait_out_a_double_tap(page)
