"""Messages of webhooks: begun by one process, sent, and settled. Each is sent at least once.

A process that is killed between the receiver's answer and our note of it leaves a message that is begun. It is sent
again under the same id, by which the receiver knows that it has it.
"""

from datetime import datetime, timedelta
from threading import Event

from django.conf import settings
from django.db import transaction

from shop.calc.webhooks import seconds_to_next_try
from shop.errors import RequestError
from shop.models import Webhook, WebhookMessage

State = WebhookMessage.State
OPEN = (State.WAITING, State.BEGUN)
TAKEN_UP_AFTER = timedelta(minutes=2)
"""The longest that a try takes, with the name server's answer. After it the process of the try counts as killed."""
OTHERS_WAIT = timedelta(minutes=1)
"""The time for which a failed try holds back the other messages to the same address: they would fail too."""

written = Event()
"""Set when this process has committed a message."""


def begin_next(now: datetime) -> WebhookMessage | None:
    """The message that is due longest, begun; None where none is due. Call it outside a transaction."""
    while row := _due(now):
        rows = WebhookMessage.objects.filter(shop=row.shop_id, pk=row.pk, state=row.state, tries=row.tries)
        if rows.filter(due_at__lte=now).update(state=State.BEGUN, tries=row.tries + 1, due_at=now + TAKEN_UP_AFTER):
            row.state, row.tries, row.due_at = State.BEGUN, row.tries + 1, now + TAKEN_UP_AFTER
            return row
    return None


def _due(now: datetime) -> WebhookMessage | None:
    rows = WebhookMessage.objects.filter(state__in=OPEN, due_at__lte=now).select_related("webhook", "shop")
    return rows.order_by("due_at", "id").first()


def finish(row: WebhookMessage, *, status: int, now: datetime) -> None:
    """Notes that the receiver has taken a begun message."""
    _settle(row, state=State.DONE, http_status=status, reason="", done_at=now, due_at=now)


def cancel(row: WebhookMessage, *, reason: str, now: datetime) -> None:
    """Notes that a begun message is not sent, because the webhook is off."""
    _settle(row, state=State.CANCELLED, reason=reason, due_at=now)


@transaction.atomic
def fail(
    row: WebhookMessage, *, reason: str, status: int | None, now: datetime, pause: int = 0, lasting: bool = False
) -> None:
    """Notes a failed try. There is a further one, unless it was the last or the failure is `lasting`.

    `pause` are the seconds that the receiver asks for: until then nothing that waits goes to it.
    """
    seconds = None if lasting else seconds_to_next_try(row.tries, settings.WEBHOOK_RETRY_SECONDS, pause)
    state, due_at = (State.FAILED, now) if seconds is None else (State.WAITING, now + timedelta(seconds=seconds))
    _settle(row, state=state, http_status=status, reason=reason, due_at=due_at)
    others = WebhookMessage.objects.filter(shop=row.shop_id, webhook=row.webhook_id, state=State.WAITING)
    free_at = now + max(OTHERS_WAIT, timedelta(seconds=pause))
    others.exclude(pk=row.pk).filter(due_at__lt=free_at).update(due_at=free_at)


def _settle(row: WebhookMessage, **values: object) -> None:
    """Writes the end of a try, unless the message was cancelled or taken up in the meantime."""
    begun = WebhookMessage.objects.filter(shop=row.shop_id, pk=row.pk, state=State.BEGUN, tries=row.tries)
    begun.update(**values)


def cancel_all(*, webhook: Webhook, reason: str, now: datetime) -> None:
    """Cancels the messages of a webhook that wait or are begun. Call it in the transaction that switches it off."""
    rows = WebhookMessage.objects.filter(shop=webhook.shop_id, webhook=webhook, state__in=OPEN)
    rows.update(state=State.CANCELLED, reason=reason, due_at=now)


def write_again(*, old: Webhook, new: Webhook, now: datetime) -> None:
    """Writes the messages that wait for one webhook for another one too. Call it in a transaction."""
    rows = WebhookMessage.objects.filter(shop=old.shop_id, webhook=old, state=State.WAITING)
    WebhookMessage.objects.bulk_create(
        WebhookMessage(
            shop_id=new.shop_id,
            webhook=new,
            event=row.event,
            number=row.number,
            body=row.body,
            happened_at=row.happened_at,
            due_at=now,
        )
        for row in rows.order_by("happened_at", "pk")
    )
    transaction.on_commit(written.set)


def send_again(*, row: WebhookMessage, now: datetime) -> WebhookMessage:
    """Queues a settled message for its first try again. 409 where it is not settled."""
    rows = WebhookMessage.objects.filter(shop=row.shop_id, pk=row.pk).exclude(state__in=OPEN)
    if not rows.update(state=State.WAITING, tries=0, due_at=now, reason="", http_status=None, done_at=None):
        raise RequestError(409, "message-waits")
    transaction.on_commit(written.set)
    row.refresh_from_db()
    return row


def drop_messages(*, before: datetime) -> int:
    """Deletes the settled messages of all shops that are older. Returns their number."""
    return WebhookMessage.objects.filter(happened_at__lt=before).exclude(state__in=OPEN).delete()[0]
