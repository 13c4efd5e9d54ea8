"""Messages about events go to other programs: signed, at least once, to public addresses, until a manager ends it."""

import base64
import hashlib
import hmac
import json
from collections.abc import Iterator, Mapping
from datetime import datetime
from typing import Any

import pytest
from django.db import DatabaseError, transaction
from django.utils import timezone

from shop import posting
from shop.models import History, Job, Member, Webhook, WebhookMessage
from shop.models.webhooks import CHOSEN_EVENTS
from shop.outbox import webhook_worker
from shop.posting import NoAnswerError, PostAnswer
from shop.services import members, webhook_messages
from shop.services.job_states import hand_over, take_into_bay
from tests.at_once import at_once
from tests.cast import Cast, make_cast, make_member
from tests.quotes.phone import Phone
from tests.quotes.stage import make_stage
from tests.webhook_receiver import Receiver, webhook_receiver

EVENTS = [event.value for event in CHOSEN_EVENTS]


@pytest.fixture
def receiver(settings: Any) -> Iterator[Receiver]:
    settings.WEBHOOK_HTTP = settings.WEBHOOK_PRIVATE_TARGETS = True
    with webhook_receiver() as running:
        yield running


class Poster:
    """Takes the place of the network: notes each post, and answers with `status` or raises it."""

    def __init__(self) -> None:
        self.status: int | BaseException = 200
        self.posts: list[tuple[str, Mapping[str, str], bytes]] = []

    def __call__(self, url: str, headers: Mapping[str, str], body: bytes) -> PostAnswer:
        self.posts.append((url, headers, body))
        if isinstance(self.status, BaseException):
            raise self.status
        return PostAnswer(self.status)


@pytest.fixture
def poster() -> Poster:
    return Poster()


@pytest.fixture(autouse=True)
def public_names(monkeypatch: pytest.MonkeyPatch) -> dict[str, list[str]]:
    """{name: its addresses}. All others are at an address of the public Internet, numbers where they say."""
    names: dict[str, list[str]] = {}
    monkeypatch.setattr(
        posting, "resolve", lambda host, port: names.get(host, [host if host[:1].isdigit() else "11.0.0.1"])
    )
    return names


def new_webhook(cast: Cast, url: str = "https://books.example/hook", events: Any = EVENTS) -> tuple[Webhook, str]:
    """(webhook, its secret)"""
    body = {"title": "Bookkeeping", "url": url, "events": events}
    answer = cast.signed_in("manager").post("webhooks", body)
    assert answer.status_code == 201, answer.content
    return Webhook.objects.get(pk=answer.json()["webhook"]["id"]), answer.json()["secret"]


def trial(cast: Cast, webhook: Webhook) -> WebhookMessage:
    answer = cast.signed_in("manager").post(f"webhooks/{webhook.pk}/trial")
    assert answer.status_code == 201, answer.content
    return WebhookMessage.objects.get(pk=answer.json()["id"])


def newest(cast: Cast, webhook: Webhook) -> dict[str, Any]:
    """The first line of the log that a manager reads."""
    line: dict[str, Any] = cast.signed_in("manager").get(f"webhooks/{webhook.pk}/messages").json()["items"][0]
    return line


def is_signed(headers: Mapping[str, str], body: bytes, secret: str) -> bool:
    """The check of a receiver that has the secret."""
    text = f"{headers['webhook-id']}.{headers['webhook-timestamp']}.".encode() + body
    digest = hmac.new(base64.b64decode(secret.removeprefix("whsec_")), text, hashlib.sha256).digest()
    return f"v1,{base64.b64encode(digest).decode()}" in headers["webhook-signature"].split()


def test_a_message_is_signed_retried_never_redirected_and_ends_with_gone(
    cast: Cast, receiver: Receiver, later: Any, settings: Any, caplog: pytest.LogCaptureFixture
) -> None:
    settings.WEBHOOK_RETRY_SECONDS = [5, 300]
    webhook, secret = new_webhook(cast, receiver.url)
    row, manager = trial(cast, webhook), cast.signed_in("manager")
    receiver.status, receiver.retry_after = 503, "600"
    assert webhook_worker.send_next() and not webhook_worker.send_next()
    line = newest(cast, webhook)
    assert (line["state"], line["tries"], line["http_status"], line["reason"]) == ("waiting", 1, 503, "status")
    assert line["next_try_at"] and not line["done_at"]
    receiver.status, receiver.location, receiver.retry_after = 302, receiver.url, ""
    later(minutes=9)
    assert not webhook_worker.send_next(), "it asked for ten minutes"
    later(minutes=11)
    assert webhook_worker.send_next()
    assert (newest(cast, webhook)["reason"], newest(cast, webhook)["http_status"]) == ("redirect", 302)
    receiver.status, receiver.location, receiver.endless = 200, "", True
    later(minutes=18)
    assert webhook_worker.send_next() and not webhook_worker.send_next()
    line = newest(cast, webhook)
    assert (line["state"], line["tries"], line["http_status"], line["reason"]) == ("done", 3, 200, None)
    assert line["done_at"] and line["next_try_at"] is None
    assert len(receiver.posts) == 3, "the redirect was not followed"
    (path, headers, body), *_ = receiver.posts
    assert path == "/hook" and headers["content-type"] == "application/json"
    assert len({post[1]["webhook-id"] for post in receiver.posts}) == len({post[2] for post in receiver.posts}) == 1
    assert all(is_signed(post[1], post[2], secret) for post in receiver.posts)
    assert not is_signed(headers, body, "whsec_" + base64.b64encode(bytes(32)).decode())
    assert json.loads(body)["type"] == "trial" and json.loads(body)["timestamp"].endswith("Z")
    again = manager.post(f"webhooks/{webhook.pk}/messages/{row.pk}/again")
    assert again.status_code == 201 and manager.post(f"webhooks/{webhook.pk}/messages/{row.pk}/again").json()[
        "type"
    ].endswith("message-waits")
    trial(cast, webhook)
    receiver.status, receiver.endless = 410, False
    assert webhook_worker.send_next() and not webhook_worker.send_next()
    assert receiver.posts[3][1]["webhook-id"] == headers["webhook-id"]
    (listed,) = manager.get("webhooks").json()["items"]
    assert (listed["off"], listed["waiting"], listed["failed"]) == ("gone", 0, 1)
    assert manager.post(f"webhooks/{webhook.pk}/trial").status_code == 409
    assert receiver.url not in caplog.text and secret not in caplog.text


def test_each_fact_is_told_by_ids_number_and_state_alone(cast: Cast, poster: Poster) -> None:
    stage = make_stage(cast)
    new_webhook(cast)
    new_webhook(cast, events=["quote.declined"])
    quote = stage.accepted()["quote"]
    job, declined, withdrawn = Job.objects.get(), stage.sent(), stage.sent()["quote"]
    Phone(declined["link"]["url"]).answer("decline")
    gone = {"revision": 1, "digest": withdrawn["digest"]}
    assert stage.client.post(f"quotes/{withdrawn['id']}/withdraw", gone).status_code == 200
    paid = {"amount": "417.00", "received_on": str(job.opened_at.date()), "means": "card", "reference": "x"}
    payment = stage.client.post(f"jobs/{job.pk}/payments", paid).json()["payments"][0]["id"]
    manager, today = cast.acting("manager"), job.opened_at.date()
    take_into_bay(actor=manager, job=job, day=today, odometer=None, today=today)
    hand_over(actor=manager, job=job, day=today, odometer=None, today=today)
    while webhook_worker.send_next(poster):
        pass
    bodies = [json.loads(body) for _, _, body in poster.posts]
    number, facts = {"number": f"J-{job.number}"}, {"quote": quote["id"], "version": 1}
    assert [(body["type"], body["data"].get("state")) for body in bodies] == [
        ("quote.sent", "sent"),
        ("quote.accepted", "accepted"),
        ("quote.sent", "sent"),
        ("quote.sent", "sent"),
        *[("quote.declined", "declined")] * 2,
        ("quote.withdrawn", "withdrawn"),
        ("payment.recorded", "recorded"),
        ("job.state_changed", "in_bay"),
        ("job.state_changed", "handed_over"),
    ]
    assert bodies[1]["data"] == facts | {"job": str(job.pk), "number": quote["number"], "state": "accepted"}
    assert bodies[7]["data"] == number | {"payment": payment, "job": str(job.pk), "state": "recorded"}
    text = b"".join(body for _, _, body in poster.posts).decode()
    for secret in (stage.customer.name, stage.vehicle.plate or "SL", "417.00", "EUR", "gross"):
        assert secret not in text
    assert WebhookMessage.objects.exclude(state="done").count() == 0


def test_a_try_that_was_killed_is_repeated_under_the_same_id(cast: Cast, poster: Poster, later: Any) -> None:
    webhook, _ = new_webhook(cast)
    trial(cast, webhook)
    poster.status = KeyboardInterrupt()  # after the receiver has it, before our note
    with pytest.raises(KeyboardInterrupt):
        webhook_worker.send_next(poster)
    assert not webhook_worker.send_next(poster) and newest(cast, webhook)["state"] == "begun"
    later(minutes=3)
    poster.status = 200
    assert webhook_worker.send_next(poster)
    assert newest(cast, webhook)["state"] == "done"
    (_, first, body), (_, second, repeated) = poster.posts
    assert (first["webhook-id"], body) == (second["webhook-id"], repeated)


def test_after_the_last_failure_a_manager_sees_it_and_sends_it_again(
    cast: Cast, poster: Poster, later: Any, settings: Any
) -> None:
    settings.WEBHOOK_RETRY_SECONDS = [60]
    webhook, _ = new_webhook(cast)
    row, manager = trial(cast, webhook), cast.signed_in("manager")
    other = trial(cast, webhook)
    poster.status = NoAnswerError("unreachable")
    assert webhook_worker.send_next(poster)
    assert not webhook_worker.send_next(poster), "the other message to the same address waits too"
    for minutes in (2, 4, 6):
        later(minutes=minutes)
        webhook_worker.send_next(poster)
        webhook_worker.send_next(poster)
    (listed,) = manager.get("webhooks").json()["items"]
    assert (listed["failed"], listed["waiting"], listed["off"]) == (2, 0, None)
    assert manager.post(f"webhooks/{webhook.pk}/messages/{row.pk}/again").status_code == 201
    poster.status = 200
    assert webhook_worker.send_next(poster) and not webhook_worker.send_next(poster)
    row.refresh_from_db()
    other.refresh_from_db()
    assert (row.state, row.reason, other.state, other.reason) == ("done", "", "failed", "unreachable")
    webhook_messages.drop_messages(before=timezone.now())
    assert not WebhookMessage.objects.exists()


def test_private_addresses_are_refused_as_they_are_typed_and_as_messages_are_sent(
    cast: Cast, settings: Any, public_names: dict[str, list[str]]
) -> None:
    public_names["inside.example"] = ["11.0.0.1", "10.0.0.7"]
    manager = cast.signed_in("manager")
    for url, said_why in {
        "https://127.0.0.1/": "private",
        "https://inside.example/": "private",
        "http://books.example/": "begin with https",
        "books": "Enter an address",
    }.items():
        answer = manager.post("webhooks", {"title": "x", "url": url, "events": EVENTS})
        assert answer.status_code == 400 and answer.json()["errors"][0]["pointer"] == "/url"
        assert said_why in answer.json()["errors"][0]["detail"], url
    webhook, _ = new_webhook(cast, "https://first.example/")
    address = f"webhooks/{webhook.pk}/address"
    refused = manager.post(address, {"url": "https://inside.example/"})
    assert refused.status_code == 400 and "private network" in refused.json()["errors"][0]["detail"]
    waiting = trial(cast, webhook)
    answer = manager.post(address, {"url": "https://moved.example/"})
    moved = Webhook.objects.get(pk=answer.json()["id"])
    assert (answer.status_code, answer.json()["waiting"], moved.url) == (201, 1, "https://moved.example/")
    assert (moved.key, moved.secret_hash) == (webhook.key, webhook.secret_hash), "the secret stays"
    assert [row["id"] for row in manager.get("webhooks").json()["items"]] == [str(moved.pk)]
    waiting.refresh_from_db()
    assert (waiting.state, waiting.reason) == ("cancelled", "ended")
    copy = WebhookMessage.objects.get(webhook=moved)
    assert (copy.body, copy.event) == (waiting.body, "trial")
    assert manager.post(address, {"url": "https://other.example/"}).status_code == 409
    change = History.objects.get(shop=cast.shop, verb="webhook moved").changes
    assert change == {"url": ["https://first.example/", "https://moved.example/"]}
    public_names["moved.example"] = ["::ffff:127.0.0.1"]
    assert webhook_worker.send_next()
    assert (newest(cast, moved)["reason"], newest(cast, moved)["http_status"]) == ("private", None)


def test_a_renewed_secret_signs_beside_the_old_one_for_a_day(
    cast: Cast, poster: Poster, later: Any, settings: Any
) -> None:
    webhook, old = new_webhook(cast)
    manager = cast.signed_in("manager")
    new = manager.post(f"webhooks/{webhook.pk}/secret").json()["secret"]
    assert new != old and base64.b64decode(old[6:]) not in str(Webhook.objects.values()).encode()
    for hours, signs in ((1, True), (25, False)):
        trial(cast, webhook)
        later(hours=hours)
        assert webhook_worker.send_next(poster)
        _, headers, body = poster.posts[-1]
        assert (is_signed(headers, body, new), is_signed(headers, body, old)) == (True, signs)
    trial(cast, webhook)
    settings.SECRET_KEY = "of another installation"
    assert webhook_worker.send_next(poster) and newest(cast, webhook)["reason"] == "secret_lost"
    assert len(poster.posts) == 2


def test_it_is_switched_off_and_ended_with_what_waits(cast: Cast, poster: Poster) -> None:
    webhook, _ = new_webhook(cast)
    manager, address = cast.signed_in("manager"), f"webhooks/{webhook.pk}"
    trial(cast, webhook)
    assert manager.put(f"{address}/state", {"on": False}).json()["off"] == "manager"
    assert not webhook_worker.send_next(poster) and newest(cast, webhook)["state"] == "cancelled"
    make_stage(cast).sent()
    assert WebhookMessage.objects.count() == 1, "nothing is written while it is off"
    assert manager.put(f"{address}/state", {"on": True}).json()["off"] is None
    trial(cast, webhook)
    begun = webhook_messages.begin_next(timezone.now())
    assert begun is not None and manager.delete(address).status_code == 204
    webhook_messages.finish(begun, status=200, now=timezone.now())
    begun.refresh_from_db()
    assert (begun.state, begun.reason) == ("cancelled", "ended")
    assert manager.get("webhooks").json()["items"] == []
    assert manager.post(f"{address}/secret").status_code == 409
    verbs = History.objects.filter(subject="webhook").order_by("recorded_at").values_list("verb", flat=True)
    assert [*verbs] == ["webhook made", "webhook off", "webhook on", "webhook ended"]
    with pytest.raises(DatabaseError), transaction.atomic():
        Webhook.objects.filter(pk=webhook.pk).update(ended_at=None)
    with pytest.raises(DatabaseError), transaction.atomic():
        WebhookMessage.objects.update(body="{}")


def test_a_leaving_manager_takes_no_news_along(cast: Cast) -> None:
    webhook, _ = new_webhook(cast)
    other: Member = make_member(cast.shop, "manager", "second")
    members.remove(actor=cast.acting("manager"), member=cast.manager, now=timezone.now())
    webhook.refresh_from_db()
    assert (webhook.off_reason, other.active) == ("left", True)


@pytest.mark.django_db(transaction=True)
def test_a_message_is_begun_by_one_process_alone_and_written_with_its_fact(settings: Any) -> None:
    cast = make_cast()
    webhook, _ = new_webhook(cast)
    webhook_messages.written.clear()
    with pytest.raises(ValueError, match="undone"), transaction.atomic():
        trial(cast, webhook)
        raise ValueError("undone")
    assert not WebhookMessage.objects.exists() and not webhook_messages.written.is_set()
    row = trial(cast, webhook)
    assert webhook_messages.written.is_set()
    begun = at_once(*[lambda: webhook_messages.begin_next(timezone.now())] * 4)
    assert [entry.pk for entry in begun if entry] == [row.pk]


def test_a_message_that_another_process_begins_after_the_look_is_left_to_it(
    cast: Cast, monkeypatch: pytest.MonkeyPatch
) -> None:
    trial(cast, new_webhook(cast)[0])
    look, others = webhook_messages._due, []

    def look_and_be_late(now: datetime) -> WebhookMessage | None:
        row = look(now)
        if not others:
            others.append(row)
            others.append(webhook_messages.begin_next(now))
        return row

    monkeypatch.setattr(webhook_messages, "_due", look_and_be_late)
    assert webhook_messages.begin_next(timezone.now()) is None
    assert others[0] == others[1] is not None
