"""A person switches a second factor on, signs in with it, and a manager asks everybody for one."""

from typing import Any

import pytest
from playwright.sync_api import Browser, expect

from tests.api.test_second_factor import code_of
from tests.browser import acts
from tests.browser.sizes import look_at_both
from tests.cast import PASSWORD, make_cast

pytestmark = pytest.mark.browser


def test_a_manager_switches_it_on_and_asks_everybody(
    transactional_db: None, live_server: Any, browser: Browser
) -> None:
    cast = make_cast()
    context = browser.new_context(
        viewport={"width": 390, "height": 844}, service_workers="block", reduced_motion="reduce"
    )
    page = context.new_page()
    page.set_default_timeout(15_000)
    acts.signed_in(page, live_server.url, cast.manager.user.email, "/saltmarsh/office/people")
    page.get_by_label("Asked of").select_option("all")
    page.get_by_role("button", name="Save who is asked").click()
    expect(page.get_by_text("Switch on your own first")).to_be_visible()
    page.goto(live_server.url + "/sign-in")
    page.get_by_role("button", name="Switch it on").click()
    page.get_by_label("Your password").fill(PASSWORD)
    page.get_by_role("button", name="Switch it on").click()
    expect(page.get_by_role("img", name="QR code with the key")).to_be_visible()
    assert look_at_both(page, "second factor, the key") == []
    page.get_by_label("Six digits").fill(code_of(cast.manager.user))
    page.get_by_role("button", name="Check the code and switch it on").click()
    codes = page.get_by_role("list", name="Recovery codes").get_by_role("listitem")
    expect(codes).to_have_count(10)
    assert look_at_both(page, "second factor, recovery codes") == []
    page.get_by_role("button", name="I have written them down").click()
    expect(page.get_by_text("10 recovery codes are left")).to_be_visible()
    page.goto(live_server.url + "/saltmarsh/office/people")
    page.get_by_label("Asked of").select_option("all")
    page.get_by_role("button", name="Save who is asked").click()
    expect(page.get_by_text("Saved who is asked for a second factor.")).to_be_visible()
    assert look_at_both(page, "people, second factor") == []
    phone_context = browser.new_context(viewport={"width": 390, "height": 844})
    phone = phone_context.new_page()
    phone.set_default_timeout(15_000)
    phone.goto(live_server.url + "/saltmarsh/counter")
    phone.get_by_label("E-mail").fill(cast.manager.user.email)
    phone.get_by_label("Password").fill(PASSWORD)
    phone.get_by_role("button", name="Sign in").click()
    expect(phone.get_by_label("Code")).to_be_visible()
    assert look_at_both(phone, "sign-in, code") == []
    phone.get_by_label("Code").fill(code_of(cast.manager.user, 1))
    phone.get_by_role("button", name="Sign in").click()
    expect(phone.get_by_role("navigation", name="Places")).to_be_visible()
    acts.signed_in(phone, live_server.url, cast.advisor.user.email, "/saltmarsh/counter")
    expect(phone.get_by_text("Your workshop asks for a second factor.")).to_be_visible()
    assert look_at_both(phone, "second factor asked") == []
    phone.get_by_role("button", name="Switch it on").click()
    phone.get_by_label("Your password").fill(PASSWORD)
    phone.get_by_role("button", name="Switch it on").click()
    expect(phone.get_by_role("img", name="QR code with the key")).to_be_visible()
    phone.get_by_label("Six digits").fill(code_of(cast.advisor.user))
    phone.get_by_role("button", name="Check the code and switch it on").click()
    expect(phone.get_by_role("list", name="Recovery codes").get_by_role("listitem")).to_have_count(10)
    phone.get_by_role("button", name="I have written them down").click()
    expect(phone.get_by_role("navigation", name="Places")).to_be_visible()
    phone_context.close()
    context.close()
