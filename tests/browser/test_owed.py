"""Owed to us: an advisor reads what is out and what is to pay, and parts read what is out."""

from datetime import timedelta
from typing import Any

import pytest
from django.utils import timezone
from playwright.sync_api import Page, expect

from kitting.models import OutsideEvent
from kitting.queries.outside import job_outside
from kitting.services.outside import record_outside
from shop.models import Job
from tests.browser.acts import signed_in
from tests.browser.sizes import nothing_wrong_at_both
from tests.browser.test_acceptance import picture
from tests.browser.test_account import nothing_wrong
from tests.browser.test_sent_out import accepted
from tests.cast import make_cast
from tests.quotes.changing import job_of
from tests.quotes.stage import Stage, make_stage
from tests.quotes.test_outside import NAME

pytestmark = pytest.mark.browser


def sent_long_ago(stage: Stage) -> None:
    accepted(stage)
    job, now = Job.objects.get(), timezone.now()
    record_outside(
        actor=stage.cast.acting("parts"),
        job=job,
        work=job_outside(job)[0].work.code,
        kind="sent",
        happened_on=(now - timedelta(days=20)).date(),
        expected_on=None,
        reference="LL-417",
        note="",
        now=now,
    )


@pytest.mark.drill
def test_an_advisor_goes_from_the_list_to_the_job(transactional_db: None, live_server: Any, page: Page) -> None:
    stage = make_stage(make_cast())
    sent_long_ago(stage)
    ended = job_of(stage, stage.towing)
    assert stage.client.post(f"jobs/{ended.pk}/call-off", {"because": "Sold the vehicle"}).status_code == 200
    page.set_viewport_size({"width": 390, "height": 844})
    signed_in(page, live_server.url, "advisor@saltmarsh.example", f"/{stage.shop.slug}/counter")
    page.get_by_role("link", name="Owed to us").click()
    expect(page.get_by_text("it was due back")).to_be_visible()
    expect(page.get_by_text("not closed with its account yet")).to_be_visible()
    expect(page.get_by_text("No contact recorded for Lathe & Lambda")).to_be_visible()
    expect(page.get_by_text("01632 960 417")).to_be_visible()
    page.get_by_role("button", name="Asked again").click()
    expect(page.get_by_text(". Asked again")).to_be_visible()
    nothing_wrong_at_both(page, "owed")
    page.get_by_role("status").get_by_role("button", name="Undo").click()
    expect(page.get_by_text(". Asked again")).to_have_count(0)
    assert list(OutsideEvent.objects.order_by("recorded_at").values_list("kind", flat=True)) == [
        *("sent", "asked", "undone")
    ]
    page.get_by_role("link", name=NAME).click()
    expect(page.get_by_role("heading", name="Work by other firms").first).to_be_visible()


@pytest.mark.drill
def test_parts_read_what_is_out_and_an_empty_list_says_so(transactional_db: None, live_server: Any, page: Page) -> None:
    stage = make_stage(make_cast())
    page.set_viewport_size({"width": 390, "height": 844})
    signed_in(page, live_server.url, "parts@saltmarsh.example", f"/{stage.shop.slug}/parts/owed")
    expect(page.get_by_text("Nobody owes us anything")).to_be_visible()
    nothing_wrong(page)
    picture(page, "owed-empty-390")
    sent_long_ago(stage)
    page.reload()
    expect(page.get_by_role("link", name=NAME)).to_be_visible()
    expect(page.get_by_text("To pay on jobs that ended")).to_have_count(0)
