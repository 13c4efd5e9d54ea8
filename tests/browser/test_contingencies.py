"""The advisor adds a line that is charged only if something happens; the bay records that it did, with a photograph."""

import io
from typing import Any

import pytest
from PIL import Image
from playwright.sync_api import Page, expect

from quotes.models import Occurrence
from shop.models import Job
from tests.browser.acts import signed_in
from tests.browser.sizes import nothing_wrong_at_both
from tests.browser.test_acceptance import picture
from tests.browser.test_account import nothing_wrong
from tests.cast import make_cast
from tests.quotes.contingent import STUD, sent, with_stud
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage, make_stage

pytestmark = pytest.mark.browser
EVENT = STUD["event"]


def photograph() -> dict[str, Any]:
    file = io.BytesIO()
    Image.effect_noise((3000, 2000), 60).convert("RGB").save(file, "JPEG")
    return {"name": "stud.jpg", "mimeType": "image/jpeg", "buffer": file.getvalue()}


@pytest.fixture
def stage(transactional_db: None) -> Stage:
    return make_stage(make_cast())


@pytest.mark.drill
def test_an_advisor_adds_it_beside_the_total(stage: Stage, live_server: Any, page: Page) -> None:
    quote = stage.quote().json()
    page.set_viewport_size({"width": 390, "height": 844})
    signed_in(page, live_server.url, "advisor@saltmarsh.example", f"/{stage.shop.slug}/counter/quote/{quote['id']}")
    page.get_by_role("button", name="Add a kit, part or work").click()
    page.get_by_role("button", name="Only if it happens").click()
    for label, text in (
        ("If this happens", EVENT),
        ("What is then done or fitted", "Stud drilled out"),
        ("Hours each time", "0.6"),
        ("At most, times", "4"),
    ):
        page.get_by_label(label, exact=False).fill(text)
    picture(page, "contingency-form-390")
    page.get_by_role("button", name="Add to the quote").click()
    section = page.locator("section").filter(has=page.get_by_role("heading", name="Only if it happens")).first
    expect(section.get_by_text(EVENT)).to_be_visible()
    expect(section.get_by_text("not in the total")).to_be_visible()
    now = stage.client.get(f"quotes/{quote['id']}").json()
    assert now["totals"] == quote["totals"] and [line["cap"] for line in now["contingencies"]] == [4]
    nothing_wrong_at_both(page, "contingency")
    section.get_by_text(EVENT).click()
    expect(section.get_by_role("button", name=f"Remove: {EVENT}")).to_be_visible()
    nothing_wrong_at_both(page, "contingency-open")


def test_the_bay_records_it_with_a_photograph(stage: Stage, live_server: Any, page: Page) -> None:
    assert Phone(sent(stage, with_stud(stage))["link"]["url"]).answer().status_code == 303
    job = Job.objects.get()
    page.set_viewport_size({"width": 390, "height": 844})
    signed_in(page, live_server.url, "technician@saltmarsh.example", f"/{stage.shop.slug}/bay/job/{job.pk}")
    page.get_by_role("button", name=f"It happened: {EVENT}").click()
    expect(page.get_by_label("How often")).to_be_focused()
    page.get_by_label("How often").fill("5")
    page.get_by_label("Note").fill("Rusted through")
    page.reload()
    expect(page.get_by_label("How often")).to_have_value("5")
    page.get_by_role("button", name="Record", exact=True).click()
    expect(page.get_by_text("At most 4 were agreed: 1 of these is not charged.")).to_be_visible()
    assert not Occurrence.objects.exists()
    page.get_by_role("button", name="Yes, record 5").click()
    expect(page.get_by_text("Rusted through")).to_be_visible()
    page.locator("input[type=file]").set_input_files(photograph())  # type: ignore[arg-type]
    image = page.get_by_role("img", name=f"Photograph 1: {EVENT}")
    expect(image).to_be_visible()
    image.scroll_into_view_if_needed()
    page.wait_for_function("() => [...document.images].every(image => image.complete && image.naturalWidth > 0)")
    assert image.evaluate("image => Math.max(image.naturalWidth, image.naturalHeight)") == 1600
    nothing_wrong(page)
    picture(page, "occurrence-bay")
    assert "EUR" not in page.locator("main").inner_text()
    page.get_by_role("button", name=f"Undo: {EVENT}").click()
    expect(page.get_by_text("Rusted through")).to_be_hidden()
