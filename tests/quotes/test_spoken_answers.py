"""An answer by phone or at the counter: recorded by a person, under the same rules as one by the link."""

import html
import json
from datetime import timedelta
from typing import Any

import pytest
from django.db import IntegrityError, transaction
from django.utils import timezone

from quotes.models import Decision, Link, Revision
from quotes.queries.pricing import shop_day
from shop.models import Job
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage
from tests.quotes.test_acceptance_terms import FAIR

pytestmark = pytest.mark.once


@pytest.fixture
def sent(stage: Stage) -> dict[str, Any]:
    return stage.sent()


def spoken(sent: dict[str, Any], **fields: Any) -> dict[str, Any]:
    quote = sent["quote"]
    body = {
        "revision": quote["revision"],
        "digest": quote["digest"],
        "answer": "accepted",
        "way": "phone",
        "phone": "01632 960 417",
        "name": "Maren Oldacre",
        "consents": ["road"],
        "read_out": True,
    }
    return body | fields


def record(stage: Stage, sent: dict[str, Any], **fields: Any) -> Any:
    return stage.client.post(f"quotes/{sent['quote']['id']}/spoken-answer", spoken(sent, **fields))


def test_an_acceptance_by_phone_opens_the_job_and_keeps_who_when_and_what_was_read_out(
    stage: Stage, sent: dict[str, Any]
) -> None:
    form = stage.client.get(f"quotes/{sent['quote']['id']}/spoken-answer").json()
    assert form["digest"] == sent["quote"]["digest"] and [price["gross"] for price in form["prices"]] == ["3207.38"]
    assert "3,207.38" in form["prices"][0]["offer"] and form["consents"][0]["required"]
    answer = record(stage, sent)
    assert answer.status_code == 201, answer.content
    decision, job = Decision.objects.get(), Job.objects.get()
    assert (decision.way, decision.link, decision.recorded_by) == ("phone", None, stage.cast.advisor)
    assert decision.digest == Revision.objects.get().digest and decision.quote.job == job
    details = decision.record
    assert (details["phone"], details["name"]) == ("01632 960 417", "Maren Oldacre")
    assert details["words"] == [form["prices"][0]["offer"], *form["closing"]]
    answer_body = answer.json()["answer"]
    assert (answer_body["way"], answer_body["phone"], answer_body["recorded_by"]) == (
        "phone",
        "01632 960 417",
        "Advisor",
    )
    assert answer.json()["job"]["id"] == str(job.pk) and answer.json()["state"] == "accepted"


def test_the_link_then_shows_the_receipt_of_what_was_said(stage: Stage, sent: dict[str, Any]) -> None:
    phone = Phone(sent["link"]["url"])
    record(stage, sent, way="counter", phone="")
    receipt = html.unescape(phone.client.get(f"{phone.page}receipt").content.decode())
    assert "Maren Oldacre accepted at our counter on" in receipt and "for 3,207.38" in receipt
    assert "Thank you, you accepted" not in receipt


@pytest.mark.parametrize("answer", ["accept", "decline"])
def test_whoever_answers_by_the_link_after_it_is_told(stage: Stage, sent: dict[str, Any], answer: str) -> None:
    phone = Phone(sent["link"]["url"])
    record(stage, sent)
    second = phone.answer(answer)
    assert second.status_code == 409 and "already has an answer" in second.content.decode()
    assert Decision.objects.count() == Job.objects.count() == 1


@pytest.mark.parametrize("answer", ["accepted", "declined"])
def test_whoever_records_it_after_the_link_is_told(stage: Stage, sent: dict[str, Any], answer: str) -> None:
    assert Phone(sent["link"]["url"]).answer().status_code == 303
    second = record(stage, sent, answer=answer)
    assert (second.status_code, second.json()["type"]) == (409, "/problems/answer-given")
    assert Decision.objects.get().way == "link"


@pytest.mark.parametrize(
    ("fields", "pointer"),
    [
        ({"name": " 12 "}, "/name"),
        ({"consents": []}, "/consents"),
        ({"phone": "Maren"}, "/phone"),
        ({"read_out": False}, "/read_out"),
        ({"said_at": "2999-01-01T08:00:00Z"}, "/said_at"),  # a moment that has not come
        ({"said_at": "2026-01-01T08:00:00Z"}, "/said_at"),
    ],
)
def test_an_incomplete_record_is_refused_beside_its_field(
    stage: Stage, sent: dict[str, Any], fields: dict[str, Any], pointer: str
) -> None:
    answer = record(stage, sent, **fields)
    assert answer.status_code == 400 and [error["pointer"] for error in answer.json()["errors"]] == [pointer]
    assert not Decision.objects.exists() and Revision.objects.get().state == "sent"


@pytest.mark.parametrize(("fields", "why"), [({"digest": "0" * 64}, "replaced"), ({"revision": 2}, "replaced")])
def test_another_text_than_was_read_out_is_not_accepted(
    stage: Stage, sent: dict[str, Any], fields: dict[str, Any], why: str
) -> None:
    answer = record(stage, sent, **fields)
    assert (answer.status_code, answer.json()["type"]) == (409, f"/problems/answer-{why}")


def test_a_version_that_was_withdrawn_or_has_expired_is_not_accepted(stage: Stage, sent: dict[str, Any]) -> None:
    quote = sent["quote"]
    other = stage.sent(stage.towing)
    stage.client.post(f"quotes/{quote['id']}/withdraw", {"revision": 1, "digest": quote["digest"]})
    assert record(stage, sent).json()["type"] == "/problems/answer-withdrawn"
    with pytest.MonkeyPatch.context() as patch:
        late = timezone.now() + timedelta(days=15)
        patch.setattr("quotes.views.spoken.timezone.now", lambda: late)
        assert record(stage, other).json()["type"] == "/problems/answer-expired"
    assert not Decision.objects.exists()


def test_the_withdrawal_period_counts_from_the_day_it_was_said(stage: Stage) -> None:
    rules = json.loads(json.dumps(FAIR))
    stage.enact(rules)
    sent = stage.sent()
    later = timezone.now() + timedelta(days=3)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("quotes.views.spoken.timezone.now", lambda: later)
        said_at = later - timedelta(days=2)
        answer = record(stage, sent, said_at=said_at.isoformat())
    assert answer.status_code == 201, answer.content
    assert Decision.objects.get().answered_at == said_at
    assert Job.objects.get().not_before == shop_day(stage.cast.shop, said_at) + timedelta(days=15)


@pytest.mark.parametrize("by_link", [True, False])
def test_a_reason_may_come_with_a_no(stage: Stage, sent: dict[str, Any], by_link: bool) -> None:
    reason = "Sold the\u202e car"
    if by_link:
        assert Phone(sent["link"]["url"]).answer("decline", consent=(), reason=reason).status_code == 303
    else:
        assert record(stage, sent, answer="declined", consents=[], reason=reason).status_code == 201
    assert stage.client.get(f"quotes/{sent['quote']['id']}").json()["answer"]["reason"] == "Sold the car"
    phone = Phone(sent["link"]["url"])
    assert "Your reason: Sold the car" in phone.client.get(f"{phone.page}receipt").content.decode()


@pytest.mark.both
def test_the_database_keeps_an_answer_either_by_a_link_or_by_a_person(stage: Stage, sent: dict[str, Any]) -> None:
    revision = Revision.objects.get()
    facts = {"shop": stage.cast.shop, "quote": revision.quote, "revision": revision, "digest": revision.digest}
    facts |= {"answer": "declined", "answered_at": timezone.now(), "record": {}}
    for wrong in (
        {"way": "phone"},
        {"way": "link"},
        {"way": "phone", "recorded_by": stage.cast.advisor, "link": Link.objects.get()},
    ):
        with pytest.raises(IntegrityError), transaction.atomic():
            Decision.objects.create(**facts, **wrong)
