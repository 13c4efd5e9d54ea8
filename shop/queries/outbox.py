"""The state of a message in the outbox, and the decisions that are open about it."""

from datetime import datetime

from django.db.models import Q, QuerySet

from shop.calc.mailing import AGAIN, ARRIVED, CANCEL
from shop.models import Outbox, Shop

State = Outbox.State


def is_unsure(row: Outbox, now: datetime) -> bool:
    """True if the message was begun and may have been sent or not."""
    return row.state == State.BEGUN and row.due_at <= now


def decisions(row: Outbox, now: datetime) -> tuple[str, ...]:
    """The decisions that a person can take about a message."""
    if is_unsure(row, now):
        return AGAIN, ARRIVED, CANCEL
    return {State.FAILED: (AGAIN, CANCEL), State.WAITING: (CANCEL,)}.get(State(row.state), ())


def waiting_for_a_person(shop: Shop, now: datetime) -> QuerySet[Outbox]:
    """The messages that a person has to decide about, the newest first."""
    open_rows = Outbox.objects.filter(shop=shop, state__in=[State.WAITING, State.BEGUN, State.FAILED])
    return open_rows.filter(Q(state=State.FAILED) | Q(state=State.BEGUN, due_at__lte=now)).order_by("-asked_at")
