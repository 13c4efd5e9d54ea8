from collections.abc import Mapping
from datetime import datetime

from shop.answers.base import utc, utc_or_none
from shop.answers.webhooks import WebhookMessageOut, WebhookOut
from shop.models import Webhook, WebhookMessage
from shop.models.webhooks import MessageReason, OffReason, WebhookEvent, WebhookMessageState

State = WebhookMessageState


def webhook_answer(row: Webhook, counts: Mapping[tuple[object, str], int], now: datetime) -> WebhookOut:
    """`counts` is {(webhook, state): the number of its messages}."""
    old_signs = row.old_key_until is not None and row.old_key_until > now
    return WebhookOut(
        id=row.pk,
        title=row.title,
        url=row.url,
        events=[WebhookEvent(event) for event in row.events],
        by=row.author.user.name,
        made_at=utc(row.made_at),
        off=OffReason(row.off_reason) if row.off_reason else None,
        off_at=utc_or_none(row.off_at),
        old_secret_until=utc_or_none(row.old_key_until) if old_signs else None,
        waiting=counts.get((row.pk, State.WAITING), 0) + counts.get((row.pk, State.BEGUN), 0),
        failed=counts.get((row.pk, State.FAILED), 0),
    )


def message_answer(row: WebhookMessage) -> WebhookMessageOut:
    return WebhookMessageOut(
        id=row.pk,
        event=WebhookEvent(row.event),
        number=row.number,
        happened_at=utc(row.happened_at),
        state=State(row.state),
        tries=row.tries,
        http_status=row.http_status,
        reason=MessageReason(row.reason) if row.reason else None,
        next_try_at=utc(row.due_at) if row.state == State.WAITING else None,
        done_at=utc_or_none(row.done_at),
    )
