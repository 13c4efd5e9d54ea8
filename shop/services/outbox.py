"""Rows of the outbox: written with the change, begun by one process, and settled.

A row is begun by compare-and-set, committed before the first byte leaves, so that however many processes send it is
sent at most once. SMTP knows no more: between the server's reply and our note of it lies a gap. A row that was begun
and is not settled in UNSURE_AFTER may have been sent, and a person decides.
"""

from datetime import datetime, timedelta
from threading import Event
from typing import Any
from uuid import UUID

from django.conf import settings
from django.db import transaction

from shop.access import Actor
from shop.calc.mailing import AGAIN, ARRIVED, CANCEL, Failure, after_failure
from shop.errors import RequestError
from shop.models import Outbox
from shop.queries.outbox import decisions
from shop.services.outbox_kinds import KINDS

UNSURE_AFTER = timedelta(minutes=5)
State = Outbox.State

written = Event()
"""Set when this process has committed a row."""


def put(
    *, actor: Actor, kind: str, subject_id: UUID, body: dict[str, Any], now: datetime, id: UUID | None = None
) -> Outbox:
    """Writes a message in the transaction of the change."""
    row = Outbox(
        shop=actor.shop, kind=kind, subject_id=subject_id, body=body, author=actor.member, asked_at=now, due_at=now
    )
    row.id = id or row.id
    row.clean_fields(exclude={"shop", "author"})
    row.save(force_insert=True)
    transaction.on_commit(written.set)
    return row


def begin_next(now: datetime) -> Outbox | None:
    """The message that is due longest, begun; None where none is due. Call it outside a transaction."""
    while row := _due(now):
        waiting = Outbox.objects.filter(shop=row.shop_id, pk=row.pk, state=State.WAITING, tries=row.tries)
        if waiting.update(state=State.BEGUN, tries=row.tries + 1, due_at=now + UNSURE_AFTER):
            row.state, row.tries, row.due_at = State.BEGUN, row.tries + 1, now + UNSURE_AFTER
            return row
    return None


def _due(now: datetime) -> Outbox | None:
    rows = Outbox.objects.filter(state=State.WAITING, due_at__lte=now).select_related("shop")
    return rows.order_by("due_at", "id").first()


def finish(row: Outbox, *, now: datetime, reason: str = "") -> None:
    """Notes that the mail server has taken a begun message. `reason` says how, where it was no mail server."""
    _settle(row, state=State.DONE, done_at=now, due_at=now, reason=reason, reply="")


def drop(row: Outbox, *, now: datetime, reason: str) -> None:
    """Notes that a begun message is not sent, because it is not wanted any more."""
    _settle(row, state=State.CANCELLED, due_at=now, reason=reason, reply="")


def fail(row: Outbox, failure: Failure, *, now: datetime) -> None:
    """Notes a failed try. What may have left becomes unsure at once."""
    step = after_failure(failure, row.tries, settings.MAIL_RETRY_MINUTES)
    due_at = now + timedelta(minutes=step.minutes)
    _settle(row, state=State(step.state), due_at=due_at, reason=failure.code, reply=failure.reply)


@transaction.atomic
def _settle(row: Outbox, **values: Any) -> None:
    """Writes the end of a try, unless a person has decided in the meantime."""
    begun = Outbox.objects.filter(shop=row.shop_id, pk=row.pk, state=State.BEGUN, tries=row.tries)
    if begun.update(**values):
        _changed(row, values)


@transaction.atomic
def decide(*, row: Outbox, decision: str, now: datetime) -> Outbox:
    """A person's decision: send it again, record that it arrived, or cancel it.

    409 where the message has moved since and the decision no longer fits.
    """
    seen = Outbox.objects.select_for_update().get(shop=row.shop_id, pk=row.pk)
    if decision not in decisions(seen, now):
        raise RequestError(409, "mail-moved")
    effects: dict[str, dict[str, Any]] = {
        AGAIN: {"state": State.WAITING, "tries": 0, "reason": "", "reply": ""},
        ARRIVED: {"state": State.DONE, "done_at": now, "reason": "person"},
        CANCEL: {"state": State.CANCELLED, "reason": "person"},
    }
    values = {"due_at": now, **effects[decision]}
    Outbox.objects.filter(shop=seen.shop_id, pk=seen.pk).update(**values)
    _changed(seen, values)
    transaction.on_commit(written.set)
    return seen


def _changed(row: Outbox, values: dict[str, Any]) -> None:
    before = row.state
    for name, value in values.items():
        setattr(row, name, value)
    KINDS[row.kind].changed(row, before)
