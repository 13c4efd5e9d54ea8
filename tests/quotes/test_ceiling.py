"""The ceiling of work that needs no consent stands on page, paper and receipt, and every change counts towards it."""

from typing import Any

import pytest

from quotes.models import Decision
from shop.models import Agreement, Job, RuleSet
from tests.quotes.changing import begin, job_of, off, send, text_line
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage
from tests.quotes.test_acceptance_terms import FAIR

pytestmark = pytest.mark.once


@pytest.fixture
def stage_with_ceiling(stage: Stage, request: pytest.FixtureRequest) -> Stage:
    RuleSet.objects.filter(shop=stage.shop, used_at=None).update(rules={**FAIR, "ceiling": request.param})
    return stage


CAPPED = {"kind": "percent_capped", "share": "0.10", "cap": "250.00"}  # 10 % of 3,207.38 is 320.74
ASKED = "This removes something: ask the customer first. 250.00 of 250.00 left"
capped = pytest.mark.parametrize("stage_with_ceiling", [CAPPED], indirect=True)


def unasked(stage: Stage, sent: dict[str, Any]) -> Any:
    quote = sent["quote"]
    body = {"revision": quote["revision"], "digest": quote["digest"]}
    return stage.client.post(f"quotes/{quote['id']}/without-asking", body)


@pytest.mark.parametrize(
    ("stage_with_ceiling", "words"),
    [
        (CAPPED, "never go above 250.00 EUR without your consent: that is 250.00 EUR in all"),
        ({"kind": "banded", "share": "0.10", "floor": "400.00", "cap": "600.00"}, "costs more than 400.00 EUR in all"),
        ({"kind": "maximum", "maximum": "3500.00"}, "costs more than 3,500.00 EUR: that leaves 292.62 EUR"),
        ({"kind": "amount", "amount": "80.00"}, "costs more than 80.00 EUR in all"),
    ],
    indirect=["stage_with_ceiling"],
)
def test_the_page_and_the_receipt_say_how_far_work_may_go(stage_with_ceiling: Stage, words: str) -> None:
    phone = Phone(stage_with_ceiling.sent()["link"]["url"])
    assert words in phone.html
    phone.answer()
    assert words in phone.client.get(f"{phone.page}receipt").content.decode()


@capped
@pytest.mark.parametrize(
    ("price", "left", "status"),
    [
        ("100.00", "150.00", "within"),
        ("200.01", "49.99", "near"),
        ("250.00", "0.00", "near"),
        ("250.01", "0.00", "ask"),
    ],
)
def test_a_change_is_measured_against_what_is_left(
    stage_with_ceiling: Stage, price: str, left: str, status: str
) -> None:
    change = text_line(stage_with_ceiling, begin(stage_with_ceiling, job_of(stage_with_ceiling)), price)["change"]
    assert (change["ceiling"]["left"], change["ceiling"]["status"]) == (left, status)
    assert change["unasked"] is (status != "ask")


@capped
def test_the_workshop_goes_ahead_within_the_ceiling_and_uses_it_up(stage_with_ceiling: Stage) -> None:
    stage = stage_with_ceiling
    job = job_of(stage)
    answer = unasked(stage, send(stage, text_line(stage, begin(stage, job), "200.00")))
    assert answer.status_code == 201 and answer.json()["answer"]["way"] == "ceiling"
    decision = Decision.objects.latest("answered_at")
    assert (decision.recorded_by, decision.record["name"]) == (stage.cast.advisor, "Advisor")
    assert Agreement.objects.get(job=job, number=2).not_before is None  # the customer has agreed to it before
    more = text_line(stage, begin(stage, job), "60.00")
    assert more["change"]["ceiling"]["status"] == "ask" and more["change"]["unasked"] is False
    assert stage.client.get(f"jobs/{job.pk}/changes").json()["ceiling"]["left"] == "50.00"


@capped
def test_what_the_customer_accepts_uses_nothing_of_it_and_an_ended_job_has_none(stage_with_ceiling: Stage) -> None:
    stage = stage_with_ceiling
    job = job_of(stage)
    change = text_line(stage, begin(stage, job), "200.00")
    assert Phone(send(stage, change)["link"]["url"]).answer().status_code == 303
    assert stage.client.get(f"jobs/{job.pk}/changes").json()["ceiling"]["left"] == "250.00"
    assert stage.client.post(f"jobs/{job.pk}/call-off", {"because": "Sold"}).status_code == 200
    assert stage.client.get(f"jobs/{job.pk}/changes").json()["ceiling"] is None
    assert stage.client.get(f"quotes/{change['id']}").json()["change"]["ceiling"] is None


@capped
def test_the_workshop_asks_before_it_goes_beyond_or_takes_something_off(stage_with_ceiling: Stage) -> None:
    stage = stage_with_ceiling
    job = job_of(stage)
    dear = unasked(stage, send(stage, text_line(stage, begin(stage, job), "250.01")))
    taken = off(stage, begin(stage, job), "Towing kit")
    assert taken["change"]["ceiling"]["words"] == ASKED
    sent = send(stage, taken)
    less = unasked(stage, sent)
    codes = {refusal.json()["type"].rpartition("/")[2] for refusal in (dear, less)}
    assert codes == {"ask-first"} and Agreement.objects.count() == 1
    assert Phone(sent["link"]["url"]).answer().status_code == 303
    accepted = stage.client.get(f"quotes/{taken['id']}").json()
    assert accepted["change"]["ceiling"]["words"] == "250.00 of 250.00 left"


def test_a_quote_that_opens_a_job_is_never_accepted_without_asking(stage: Stage) -> None:
    assert unasked(stage, stage.sent()).status_code == 409 and not Job.objects.exists()
