"""The state of a message in the outbox, and the decisions that are open about it."""

from datetime import datetime

from django.db.models import Count, Min, Q, QuerySet

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


def numbers(now: datetime) -> dict[str, int]:
    """{"waiting", "failed" or "unsure": how many messages of all shops}."""
    unsure = Q(state=State.BEGUN, due_at__lte=now)
    return Outbox.objects.aggregate(
        waiting=Count("id", filter=Q(state=State.WAITING)),
        failed=Count("id", filter=Q(state=State.FAILED)),
        unsure=Count("id", filter=unsure),
    )


def oldest_waiting(now: datetime) -> int:
    """The age in whole seconds of the message that waits longest; 0 if none waits."""
    asked_at = Outbox.objects.filter(state=State.WAITING).aggregate(first=Min("asked_at"))["first"]
    return max(0, int((now - asked_at).total_seconds())) if asked_at else 0
