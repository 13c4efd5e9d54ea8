"""Webhooks: a manager makes, tries, switches off and ends them.

A message is written in the transaction of its event.
"""

import json
from collections.abc import Mapping, Sequence
from datetime import UTC, datetime
from uuid import uuid4

from django.db import transaction
from django.utils import timezone

from shop.access import Actor
from shop.calc.targets import TargetError
from shop.calc.webhooks import OLD_SECRET_LASTS
from shop.errors import RequestError, field_error
from shop.models import Job, Member, Webhook, WebhookMessage
from shop.models.webhooks import OffReason, WebhookEvent
from shop.posting import checked
from shop.services import webhook_messages
from shop.services.entry_links import hash_of
from shop.services.history import record
from shop.services.webhook_secrets import secret_of

Event = WebhookEvent
Facts = Mapping[str, str | int | None]
MOST = 20
FIELD_KEYS = {
    "address": "webhook_address",
    "https": "webhook_https",
    "unknown_host": "webhook_unknown_host",
    "private": "webhook_private",
}


def check_address(url: str) -> None:
    """Refuses an address that may not be used. It asks a name server: call it outside a transaction."""
    try:
        checked(url)
    except TargetError as error:
        raise field_error("/url", FIELD_KEYS[error.code]) from None


@transaction.atomic
def make_webhook(*, actor: Actor, title: str, url: str, events: Sequence[str], now: datetime) -> tuple[Webhook, str]:
    """Makes a webhook for an address that was checked; (webhook, its secret)."""
    if Webhook.objects.filter(shop=actor.shop, ended_at__isnull=True).count() >= MOST:
        raise RequestError(409, "too-many-webhooks", n=MOST)
    row = Webhook(shop=actor.shop, title=title, url=url, events=sorted(set(events)), author=actor.member, made_at=now)
    secret = secret_of(row.key)
    row.secret_hash = hash_of(secret)
    row.clean_fields()
    row.save(force_insert=True)
    record(actor=actor, verb="webhook made", row=row, changes={"title": ["", row.title], "url": ["", row.url]})
    return row, secret


@transaction.atomic
def move_webhook(*, actor: Actor, webhook: Webhook, url: str, now: datetime) -> Webhook:
    """Replaces the webhook by one of the same program and secret for another address, which was checked.

    A row keeps its address, so that its log stays true. What waits is written again for the new one, under new ids.
    """
    old = _locked(actor, webhook)
    if url == old.url:
        return old
    row = Webhook(shop=actor.shop, url=url, author=actor.member, made_at=now)
    for name in ("title", "events", "key", "secret_hash", "old_key", "old_key_until", "off_at", "off_reason"):
        setattr(row, name, getattr(old, name))
    row.clean_fields()
    row.save(force_insert=True)
    webhook_messages.write_again(old=old, new=row, now=now)
    end_webhook(actor=actor, webhook=old, now=now)
    record(actor=actor, verb="webhook moved", row=row, changes={"url": [old.url, row.url]})
    return row


@transaction.atomic
def renew_secret(*, actor: Actor, webhook: Webhook, now: datetime) -> tuple[Webhook, str]:
    """Gives the webhook a new secret; (webhook, the secret). The old one signs too for 24 hours."""
    row = _locked(actor, webhook)
    row.old_key, row.old_key_until = row.key, now + OLD_SECRET_LASTS
    row.key = uuid4()
    secret = secret_of(row.key)
    row.secret_hash = hash_of(secret)
    row.save(update_fields=["key", "secret_hash", "old_key", "old_key_until"])
    record(actor=actor, verb="webhook secret renewed", row=row)
    return row, secret


@transaction.atomic
def switch_webhook(*, actor: Actor, webhook: Webhook, on: bool, now: datetime) -> Webhook:
    """Switches the webhook on or off. Messages that wait when it is switched off are not sent any more."""
    row = _locked(actor, webhook)
    if on == (row.off_at is None):
        return row
    if on:
        row.off_at, row.off_reason = None, ""
        row.save(update_fields=["off_at", "off_reason"])
    else:
        _switch_off(row, OffReason.MANAGER, now)
    record(actor=actor, verb="webhook on" if on else "webhook off", row=row)
    return row


@transaction.atomic
def end_webhook(*, actor: Actor, webhook: Webhook, now: datetime) -> None:
    """Ends the webhook for good; one that was ended before stays as it is."""
    rows = Webhook.objects.filter(shop=actor.shop, pk=webhook.pk, ended_at__isnull=True)
    if rows.update(ended_at=now):
        webhook_messages.cancel_all(webhook=webhook, reason="ended", now=now)
        record(actor=actor, verb="webhook ended", row=webhook, changes={"title": [webhook.title, ""]})


def switch_off_around(*, actor: Actor, member: Member, now: datetime) -> None:
    """Switches off the webhooks that a leaving member made: the address may be their own."""
    rows = Webhook.objects.select_for_update().filter(
        shop=actor.shop, author=member, ended_at__isnull=True, off_at__isnull=True
    )
    for row in rows:
        _switch_off(row, OffReason.LEFT, now)
        record(actor=actor, verb="webhook off", row=row)


@transaction.atomic
def switch_off_gone(*, webhook: Webhook, now: datetime) -> None:
    """Switches off a webhook whose receiver answered that it is gone."""
    rows = Webhook.objects.filter(shop=webhook.shop_id, pk=webhook.pk, off_at__isnull=True, ended_at__isnull=True)
    if rows.exists():
        _switch_off(webhook, OffReason.GONE, now)
        record(actor=Actor(shop=webhook.shop, member=None, channel="outbox"), verb="webhook off", row=webhook)


@transaction.atomic
def send_trial(*, actor: Actor, webhook: Webhook, now: datetime) -> WebhookMessage:
    """Sends a message of the event "trial". 409 while the webhook is off."""
    row = _locked(actor, webhook)
    _refuse_off(row)
    (message,) = _write([row], Event.TRIAL, {"number": "", "state": "trial"}, now)
    return message


@transaction.atomic
def send_again(*, actor: Actor, message: WebhookMessage, now: datetime) -> WebhookMessage:
    """Sends a settled message again, under the same id. 409 while it waits or the webhook is off."""
    _refuse_off(_locked(actor, message.webhook))
    return webhook_messages.send_again(row=message, now=now)


def announce(*, actor: Actor, event: WebhookEvent, data: Facts) -> None:
    """Writes a message for each webhook of the shop that takes the event, in the transaction of the event.

    `data` holds ids, a number and a state: no person and no amount.
    """
    rows = Webhook.objects.filter(shop=actor.shop, ended_at__isnull=True, off_at__isnull=True)
    _write([row for row in rows if event in row.events], event, data, timezone.now())


def announce_job(*, actor: Actor, job: Job) -> None:
    """Announces the present state of a job."""
    announce(actor=actor, event=Event.JOB_STATE, data={"job": str(job.pk), "number": str(job), "state": str(job.state)})


def _write(webhooks: Sequence[Webhook], event: WebhookEvent, data: Facts, now: datetime) -> list[WebhookMessage]:
    moment = now.astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")
    body = json.dumps({"type": str(event), "timestamp": moment, "data": dict(data)}, separators=(",", ":"))
    messages = [
        WebhookMessage(
            shop_id=row.shop_id,
            webhook=row,
            event=event,
            number=str(data["number"] or ""),
            body=body,
            happened_at=now,
            due_at=now,
        )
        for row in webhooks
    ]
    if messages:
        WebhookMessage.objects.bulk_create(messages)
        transaction.on_commit(webhook_messages.written.set)
    return messages


def _switch_off(row: Webhook, reason: OffReason, now: datetime) -> None:
    row.off_at, row.off_reason = now, reason
    row.save(update_fields=["off_at", "off_reason"])
    webhook_messages.cancel_all(webhook=row, reason="off", now=now)


def _locked(actor: Actor, webhook: Webhook) -> Webhook:
    """The webhook under its row's lock. 409 once it has ended."""
    row = Webhook.objects.select_for_update().get(shop=actor.shop, pk=webhook.pk)
    if row.ended_at is not None:
        raise RequestError(409, "webhook-ended")
    return row


def _refuse_off(row: Webhook) -> None:
    if row.off_at is not None:
        raise RequestError(409, "webhook-off")
