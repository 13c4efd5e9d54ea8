import uuid
from typing import Any

from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import Index, Q

from shop.constraints import Refuse, SameShop
from shop.models.people import Member
from shop.rows import ShopKey, ShopRow


class WebhookEvent(models.TextChoices):
    QUOTE_SENT = "quote.sent"
    QUOTE_WITHDRAWN = "quote.withdrawn"
    QUOTE_ACCEPTED = "quote.accepted"
    QUOTE_DECLINED = "quote.declined"
    JOB_STATE = "job.state_changed"
    LIST_STATE = "pull_list.state_changed"
    PAYMENT = "payment.recorded"
    TRIAL = "trial"


CHOSEN_EVENTS = [event for event in WebhookEvent if event is not WebhookEvent.TRIAL]
"""The events that a manager chooses from."""


class OffReason(models.TextChoices):
    MANAGER = "manager"
    GONE = "gone"
    LEFT = "left"
    RESTORED = "restored"


class WebhookMessageState(models.TextChoices):
    WAITING = "waiting"
    BEGUN = "begun"
    DONE = "done"
    FAILED = "failed"
    CANCELLED = "cancelled"


class MessageReason(models.TextChoices):
    """The reason why a message has not arrived: no answer, an answer that is no success, or nothing was sent."""

    UNREACHABLE = "unreachable"
    CERTIFICATE = "certificate"
    SILENT = "silent"
    NO_HTTP = "no_http"
    STATUS = "status"
    REDIRECT = "redirect"
    GONE = "gone"
    ADDRESS = "address"
    HTTPS = "https"
    UNKNOWN_HOST = "unknown_host"
    PRIVATE = "private"
    SECRET_LOST = "secret_lost"
    OFF = "off"
    ENDED = "ended"
    RESTORED = "restored"


class Webhook(ShopRow):
    """An address of another program, to which messages about the events go that a manager chose.

    The secret that signs messages is worked out from `key` and the installation's own key, so that the database alone
    does not contain it; `secret_hash` detects another installation key. `old_key` signs beside it until
    `old_key_until`.
    """

    title = models.CharField(max_length=80)  # of the program
    url = models.CharField(max_length=500)
    events: Any = models.JSONField()  # list of WebhookEvent
    key = models.UUIDField(default=uuid.uuid4)
    secret_hash = models.CharField(max_length=64)
    old_key = models.UUIDField(null=True, blank=True)
    old_key_until = models.DateTimeField(null=True, blank=True)
    author = ShopKey(Member)
    made_at = models.DateTimeField()
    off_at = models.DateTimeField(null=True, blank=True)
    off_reason = models.CharField(max_length=8, choices=OffReason, blank=True)
    ended_at = models.DateTimeField(null=True, blank=True)

    typed = ("title", "url")

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("author", name="webhook_author_is_of_its_shop"),
            Check(
                condition=Q(off_at__isnull=True, off_reason="")
                | Q(off_at__isnull=False, off_reason__in=OffReason.values),
                name="webhook_is_off_for_a_reason",
            ),
            Refuse(name="webhook_keeps_its_address", events=("update of shop_id, url, author_id, made_at",)),
            Refuse(name="webhook_stays_ended", events=("update",), when="OLD.ended_at IS NOT NULL"),
        ]
        indexes = [
            Index(fields=["shop", "author"], name="webhook_by_author"),
            Index(fields=["shop", "-made_at"], condition=Q(ended_at__isnull=True), name="webhook_in_force"),
        ]

    def __str__(self) -> str:
        return self.title


class WebhookMessage(ShopRow):
    """An event for one webhook, written in the transaction of the fact. It is sent at least once.

    `body` is the text that is sent and signed at every try, under the same id. `due_at` is the moment of the next try;
    of a message that is begun, the moment from which another process takes it up. `http_status` is that of the last
    answer, `reason` a MessageReason.
    """

    State = WebhookMessageState

    webhook = ShopKey(Webhook)
    event = models.CharField(max_length=30, choices=WebhookEvent)
    number = models.CharField(max_length=30, blank=True)  # of the quote or job
    body = models.TextField()
    happened_at = models.DateTimeField()
    state = models.CharField(max_length=9, choices=WebhookMessageState, default=WebhookMessageState.WAITING)
    due_at = models.DateTimeField()
    tries = models.PositiveSmallIntegerField(default=0)
    http_status = models.PositiveSmallIntegerField(null=True, blank=True)
    reason = models.CharField(max_length=20, blank=True)
    done_at = models.DateTimeField(null=True, blank=True)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("webhook", name="webhook_message_is_of_its_shop"),
            Check(condition=Q(state__in=WebhookMessageState.values), name="webhook_message_state_is_known"),
            Refuse(
                name="webhook_message_keeps_its_text",
                events=("update of shop_id, webhook_id, event, number, body, happened_at",),
            ),
        ]
        indexes = [
            Index(fields=["due_at"], condition=Q(state__in=["waiting", "begun"]), name="webhook_message_open"),
            Index(fields=["shop", "webhook", "-happened_at"], name="webhook_message_by_webhook"),
            Index(fields=["shop", "webhook", "state"], name="webhook_message_by_state"),
            Index(fields=["shop", "happened_at"], name="webhook_message_by_age"),
        ]

    def __str__(self) -> str:
        return self.event
