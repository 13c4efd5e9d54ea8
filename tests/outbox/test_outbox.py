"""A message of the outbox leaves at most once; what may have left waits for a person."""

import uuid
from collections.abc import Iterator
from typing import Any

import pytest
from django.core.mail import EmailMessage
from django.db import DatabaseError, connection, transaction
from django.utils import timezone

from shop.errors import RequestError
from shop.models import Outbox
from shop.outbox import worker
from shop.queries.outbox import is_unsure, waiting_for_a_person
from shop.services import outbox
from shop.services.outbox_kinds import KINDS, Kind, NotWantedError
from shop.worker import Worker
from tests.at_once import at_once
from tests.cast import Cast, make_cast
from tests.smtp_server import SmtpServer


def write(row: Outbox, now: Any) -> EmailMessage:
    if row.body.get("unwanted"):
        raise NotWantedError("withdrawn")
    if row.body.get("broken"):
        raise ValueError("this is a fault of the tool")
    return EmailMessage("Hello", "Hello", "quotes@workshop.example", [row.body["to"]])


@pytest.fixture
def changes() -> Iterator[list[tuple[str, str]]]:
    """A kind of message, and the states that its rows went through."""
    seen: list[tuple[str, str]] = []
    KINDS["test"] = Kind(write, lambda row, before: seen.append((before, row.state)))
    yield seen
    del KINDS["test"]


def put(cast: Cast, **body: Any) -> Outbox:
    row = outbox.put(
        actor=cast.acting("advisor"),
        kind="test",
        subject_id=uuid.uuid4(),
        body={"to": "maren@mail.example", **body},
        now=timezone.now(),
    )
    return row


def state(row: Outbox) -> str:
    row.refresh_from_db()
    return row.state


def test_a_message_is_sent_once(cast: Cast, server: SmtpServer, changes: list[Any]) -> None:
    row = put(cast)
    assert worker.send_next() and not worker.send_next()
    assert (state(row), row.tries, len(server.delivered)) == ("done", 1, 1)
    assert row.done_at is not None and changes == [("begun", "done")]


def test_what_was_sent_stays_sent(cast: Cast, server: SmtpServer, changes: list[Any]) -> None:
    row = put(cast)
    worker.send_next()
    with pytest.raises(DatabaseError), transaction.atomic():
        Outbox.objects.filter(pk=row.pk).update(state="waiting", done_at=None)
    assert state(row) == "done"


def test_messages_leave_in_the_order_they_are_due(cast: Cast, server: SmtpServer, changes: list[Any]) -> None:
    for name in ("first", "second", "third"):
        put(cast, to=f"{name}@mail.example")
    while worker.send_next():
        pass
    assert [mail.to.partition("@")[0] for mail in server.delivered] == ["first", "second", "third"]


@pytest.mark.django_db(transaction=True)
def test_a_message_is_begun_by_one_process_alone(changes: list[Any]) -> None:
    row = put(make_cast())
    begun = at_once(*[lambda: outbox.begin_next(timezone.now())] * 4)
    assert [entry for entry in begun if isinstance(entry, Exception)] == []
    assert [entry.pk for entry in begun if entry] == [row.pk]
    assert (state(row), row.tries) == ("begun", 1)


def test_what_is_begun_and_not_settled_waits_for_a_person(cast: Cast, changes: list[Any], later: Any) -> None:
    row = put(cast)
    assert outbox.begin_next(timezone.now())
    later(minutes=4)
    row.refresh_from_db()
    assert not is_unsure(row, timezone.now()) and not waiting_for_a_person(cast.shop, timezone.now())
    later(minutes=6)
    assert is_unsure(row, timezone.now()) and list(waiting_for_a_person(cast.shop, timezone.now())) == [row]
    assert not waiting_for_a_person(cast.elsewhere, timezone.now())
    assert not worker.send_next()


def test_what_breaks_off_in_the_middle_waits_for_a_person_at_once(
    cast: Cast, server: SmtpServer, changes: list[Any]
) -> None:
    server.replies["TEXT"] = ""
    row = put(cast)
    worker.send_next()
    row.refresh_from_db()
    assert is_unsure(row, timezone.now()) and not worker.send_next()
    assert len(server.delivered) == 1


def test_a_failing_server_is_tried_again_after_longer_and_longer(
    cast: Cast, server: SmtpServer, changes: list[Any], later: Any, settings: Any
) -> None:
    settings.MAIL_RETRY_MINUTES = [1, 5]
    server.replies["MAIL"] = "451 later"
    row, tried = put(cast), []
    for minutes in range(12):
        later(minutes=minutes, seconds=1)
        if worker.send_next():
            tried.append(minutes)
    assert tried == [0, 1, 6]
    assert (state(row), row.tries, row.reason, row.reply) == ("failed", 3, "refused", "later")
    assert list(waiting_for_a_person(cast.shop, timezone.now())) == [row]
    assert server.delivered == []


def test_a_mailbox_that_does_not_exist_is_not_tried_again(cast: Cast, server: SmtpServer, changes: list[Any]) -> None:
    server.replies["RCPT"] = "550 no such mailbox"
    row = put(cast)
    worker.send_next()
    assert (state(row), row.reason) == ("failed", "recipient")


def test_one_that_cannot_be_written_does_not_hold_up_the_next(
    cast: Cast, server: SmtpServer, changes: list[Any], caplog: pytest.LogCaptureFixture
) -> None:
    broken, sound = put(cast, broken=True), put(cast)
    assert worker.send_next() and worker.send_next()
    assert (state(broken), broken.reason, state(sound)) == ("failed", "not_written", "done")
    assert "maren@mail.example" not in caplog.text


def test_one_that_is_not_wanted_any_more_is_not_sent(cast: Cast, server: SmtpServer, changes: list[Any]) -> None:
    row = put(cast, unwanted=True)
    worker.send_next()
    assert (state(row), row.reason, server.delivered) == ("cancelled", "withdrawn", [])


def test_without_a_mail_server_it_says_that_nothing_was_sent(cast: Cast, changes: list[Any], mailoutbox: Any) -> None:
    row = put(cast)
    worker.send_next()
    assert (state(row), row.reason, len(mailoutbox)) == ("done", "console", 1)


def begun_long_ago(cast: Cast, later: Any) -> Outbox:
    row = put(cast)
    outbox.begin_next(timezone.now())
    later(minutes=6)
    return row


@pytest.mark.parametrize(("decision", "after"), [("again", "waiting"), ("arrived", "done"), ("cancel", "cancelled")])
def test_a_person_decides_about_what_may_have_left(
    cast: Cast, changes: list[Any], later: Any, decision: str, after: str
) -> None:
    row = begun_long_ago(cast, later)
    outbox.decide(row=row, decision=decision, now=timezone.now())
    assert state(row) == after and changes == [("begun", after)]


def test_one_that_is_being_sent_is_not_decided_about(cast: Cast, changes: list[Any]) -> None:
    row = put(cast)
    outbox.begin_next(timezone.now())
    for decision in ("again", "arrived", "cancel"):
        with pytest.raises(RequestError, match="mail-moved"):
            outbox.decide(row=row, decision=decision, now=timezone.now())
    assert state(row) == "begun" and changes == []


def test_a_decision_holds_against_a_try_that_ends_late(cast: Cast, changes: list[Any], later: Any) -> None:
    row = put(cast)
    begun = outbox.begin_next(timezone.now())
    assert begun is not None
    later(minutes=6)
    outbox.decide(row=row, decision="cancel", now=timezone.now())
    outbox.finish(begun, now=timezone.now())
    assert state(row) == "cancelled" and changes == [("begun", "cancelled")]


def test_one_that_waits_is_cancelled_before_it_leaves(cast: Cast, server: SmtpServer, changes: list[Any]) -> None:
    row = put(cast)
    outbox.decide(row=row, decision="cancel", now=timezone.now())
    assert not worker.send_next() and server.delivered == []


@pytest.mark.django_db(transaction=True)
def test_a_change_that_is_undone_sends_nothing(changes: list[Any]) -> None:
    cast = make_cast()
    outbox.written.clear()
    with pytest.raises(ValueError, match="undone"), transaction.atomic():
        put(cast)
        raise ValueError("undone")
    assert not Outbox.objects.exists() and not outbox.written.is_set()
    put(cast)
    assert outbox.written.is_set()


@pytest.mark.django_db(transaction=True)
def test_the_thread_sends_what_is_committed_and_ends_when_asked(server: SmtpServer, changes: list[Any]) -> None:
    thread = Worker("outbox", worker.work_next, outbox.written)
    thread.start()
    try:
        row = put(make_cast())
        server.wait_for_mail()
    finally:
        thread.stop()
    assert state(row) == "done" and len(server.delivered) == 1
    connection.close()
