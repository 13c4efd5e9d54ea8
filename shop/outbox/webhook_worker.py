"""The thread that sends the messages of webhooks, beside the server and apart from the e-mails."""

import logging
from datetime import datetime

from django.utils import timezone

from shop.calc.targets import TargetError
from shop.calc.webhooks import answered, seconds_asked_for, signatures
from shop.models import WebhookMessage
from shop.posting import NoAnswerError, Post, post
from shop.services import webhook_messages
from shop.services.webhook_secrets import secrets_in_force
from shop.services.webhooks import switch_off_gone
from shop.worker import Worker

log = logging.getLogger(__name__)


def send_next(post: Post = post) -> bool:
    """Sends the message that is due longest; False where none is due."""
    now = timezone.now()
    row = webhook_messages.begin_next(now)
    if row is None:
        return False
    if row.webhook.off_at is not None or row.webhook.ended_at is not None:
        webhook_messages.cancel(row, reason="off", now=now)
        return True
    secrets = secrets_in_force(row.webhook, now)
    if not secrets:
        _failed(row, "secret_lost", lasting=True)
        return True
    body = row.body.encode()
    try:
        answer = post(row.webhook.url, _headers(row, secrets, body, now), body)
    except (TargetError, NoAnswerError) as error:
        _failed(row, error.code)
        return True
    status, reason = answer.status, answered(answer.status)
    if not reason:
        webhook_messages.finish(row, status=status, now=timezone.now())
        return True
    pause = seconds_asked_for(status, answer.retry_after, timezone.now())
    _failed(row, reason, status=status, pause=pause, lasting=reason == "gone")
    if reason == "gone":
        switch_off_gone(webhook=row.webhook, now=timezone.now())
    return True


def _headers(row: WebhookMessage, secrets: list[str], body: bytes, now: datetime) -> dict[str, str]:
    id, timestamp = f"msg_{row.pk}", int(now.timestamp())
    return {
        "Content-Type": "application/json",
        "User-Agent": "Kitwright",
        "Connection": "close",
        "webhook-id": id,
        "webhook-timestamp": str(timestamp),
        "webhook-signature": signatures(secrets, id=id, timestamp=timestamp, body=body),
    }


def _failed(
    row: WebhookMessage, reason: str, *, status: int | None = None, pause: int = 0, lasting: bool = False
) -> None:
    log.warning("webhook message %s was not taken: %s %s", row.pk, reason, status or "")  # no address, no words
    webhook_messages.fail(row, reason=reason, status=status, now=timezone.now(), pause=pause, lasting=lasting)


worker = Worker("webhooks", send_next, webhook_messages.written)
