"""Outside work from the acceptance to its return: recorded at the counter, and what the bay reads of it."""

from typing import Any

import pytest
from playwright.sync_api import Page, expect

from kitting.models import OutsideEvent
from shop.models import Calendar, Job
from tests.browser.acts import signed_in
from tests.browser.sizes import nothing_wrong_at_both
from tests.browser.test_acceptance import picture
from tests.browser.test_account import nothing_wrong
from tests.cast import make_cast
from tests.quotes.dated import OPEN, send
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage, make_stage
from tests.quotes.test_outside import NAME, draft

pytestmark = pytest.mark.browser


def accepted(stage: Stage) -> str:
    """The path of an accepted quote whose calibration starts with the acceptance."""
    Calendar.objects.create(shop=stage.shop, week=dict.fromkeys(("mon", "tue", "wed", "thu", "fri"), OPEN))
    sent = send(stage, draft(stage, starts_after=""))
    assert Phone(sent["link"]["url"]).answer().status_code == 303
    return f"/{stage.shop.slug}/counter/quote/{sent['quote']['id']}"


def test_it_is_sent_asked_for_and_comes_back(transactional_db: None, live_server: Any, page: Page) -> None:
    stage = make_stage(make_cast())
    page.set_viewport_size({"width": 390, "height": 844})
    signed_in(page, live_server.url, "advisor@saltmarsh.example", accepted(stage))
    section = page.locator("section").filter(has=page.get_by_role("heading", name="Work by other firms")).first
    expect(section.get_by_text("They need: original file, build sheet")).to_be_visible()
    page.wait_for_load_state("networkidle")  # the account above has come, and pushes nothing down under the click
    section.get_by_role("button", name="It was sent").click()
    section.get_by_label("Their reference").fill("LL-417")
    picture(page, "sent-out-form-390")
    section.get_by_role("button", name="Record as sent").click()
    expect(section.get_by_text("Their reference: LL-417").first).to_be_visible()
    section.get_by_role("button", name="Asked again").click()
    section.get_by_label("Note").fill("Tess, by telephone")
    section.get_by_role("button", name="Record that we asked").click()
    expect(section.get_by_text("Asked again").first).to_be_visible()
    nothing_wrong_at_both(page, "sent-out")
    bay = f"{live_server.url}/{stage.shop.slug}/bay/job/{Job.objects.get().pk}"
    page.goto(bay)
    page.locator("summary").filter(has_text="3 steps").click()
    page.get_by_role("button", name="Turbocharger fitted").first.click()
    expect(page.get_by_text(f"Waits for: {NAME}, sent").first).to_be_visible()
    picture(page, "sent-out-bay-390")
    page.go_back()
    section.get_by_role("button", name="It has come back").click()
    section.get_by_role("button", name="Record as come back").click()
    expect(section.get_by_text("Came back").first).to_be_visible()
    picture(page, "sent-out-back-390")
    assert list(OutsideEvent.objects.order_by("recorded_at").values_list("kind", flat=True)) == [
        "sent",
        "asked",
        "back",
    ]


@pytest.mark.drill
def test_the_parts_counter_sends_it_with_the_orders(transactional_db: None, live_server: Any, page: Page) -> None:
    stage = make_stage(make_cast())
    accepted(stage)
    lists = stage.client.get("pull-lists").json()["items"]
    page.set_viewport_size({"width": 390, "height": 844})
    signed_in(
        page, live_server.url, "parts@saltmarsh.example", f"/{stage.shop.slug}/parts/list/{lists[0]['id']}/orders"
    )
    page.get_by_role("button", name="It was sent").click()
    page.get_by_role("button", name="Record as sent").click()
    expect(page.get_by_text("due back").first).to_be_visible()
    nothing_wrong(page)
    assert OutsideEvent.objects.get().recorded_by == stage.cast.parts
