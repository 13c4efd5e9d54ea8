"""A manager invites a person, who comes in by the link, gets another role, a new password, and leaves."""

from typing import Any

import pytest
from playwright.sync_api import Browser, expect

from shop.models import Member
from shop.outbox import worker
from tests.browser import acts
from tests.browser.sizes import look_at_both
from tests.cast import make_cast

pytestmark = pytest.mark.browser

NEW = "wet slate quarry"


def test_a_person_comes_in_by_a_link_and_is_removed(
    transactional_db: None, live_server: Any, browser: Browser, settings: Any
) -> None:
    make_cast()
    context = browser.new_context(
        viewport={"width": 390, "height": 844}, service_workers="block", reduced_motion="reduce"
    )
    page = context.new_page()
    page.set_default_timeout(15_000)
    acts.signed_in(page, live_server.url, "manager@saltmarsh.example", "/saltmarsh/office")
    page.get_by_role("link", name="People of the workshop").click()
    expect(page.get_by_role("heading", name="People", level=1)).to_be_visible()
    page.get_by_label("E-mail").fill("ines@saltmarsh.example")
    page.get_by_label("Role").select_option("parts")
    expect(page.get_by_text("No mail server is set up")).to_be_visible()
    page.get_by_role("button", name="Make a link to hand over").click()
    url = page.get_by_label("Link for ines@saltmarsh.example").input_value()
    expect(page.get_by_role("button", name="Withdraw the invitation of ines@saltmarsh.example")).to_be_visible()
    assert look_at_both(page, "people") == []
    newcomer = browser.new_context(viewport={"width": 390, "height": 844})
    phone = newcomer.new_page()
    phone.set_default_timeout(15_000)
    phone.goto(url)
    expect(phone.get_by_role("heading", name="Join Saltmarsh Lane Motor Works", level=1)).to_be_visible()
    phone.get_by_label("Your name").fill("Ines Lark")
    phone.get_by_label("Password", exact=True).fill(NEW)
    phone.get_by_label("The same password again").fill(f"{NEW}s")
    phone.get_by_role("button", name="Set and sign in").click()
    expect(phone.get_by_text("The two new passwords differ.")).to_be_visible()
    phone.get_by_label("The same password again").fill(NEW)
    expect(phone.get_by_text("The two new passwords differ.")).to_have_count(0)
    assert look_at_both(phone, "invitation") == []
    phone.get_by_role("button", name="Set and sign in").click()
    expect(phone.get_by_role("navigation", name="Places")).to_be_visible()
    assert "#" not in phone.url
    newcomer.close()
    page.reload()
    page.get_by_role("link", name="Ines Lark").click()
    expect(page.get_by_role("heading", name="Ines Lark", level=1)).to_be_visible()
    page.get_by_role("button", name="Make a password link").click()
    expect(page.get_by_label("Link for ines@saltmarsh.example")).to_be_visible()
    assert look_at_both(page, "a member") == []
    page.get_by_label("Role").select_option("advisor")
    page.get_by_role("button", name="Save the role").click()
    expect(page.get_by_text("Ines Lark: advisor")).to_be_visible()
    page.get_by_role("button", name="Remove from the workshop").click()
    page.get_by_role("dialog").get_by_role("button", name="Remove from the workshop").click()
    expect(page.get_by_role("heading", name="People", level=1)).to_be_visible()
    expect(page.get_by_role("link", name="Ines Lark")).to_have_count(0)
    assert not Member.objects.get(user__email="ines@saltmarsh.example").active
    settings.MAIL_IS_SENT = True
    page.reload()
    page.get_by_label("E-mail").fill("ines@saltmarsh.example")
    page.get_by_role("button", name="Send the invitation by e-mail").click()
    expect(page.get_by_text("E-mail: waiting to be sent")).to_be_visible()
    worker.send_next()
    expect(page.get_by_text("E-mail: sent")).to_be_visible()
    assert look_at_both(page, "people with a mail server") == []
    context.close()
