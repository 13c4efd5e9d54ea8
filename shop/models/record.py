from typing import Any

from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import Index, Q

from shop.constraints import Refuse, SameShop, append_only
from shop.models.people import Member
from shop.rows import ShopKey, ShopRow


class History(ShopRow):
    """An entry of the history: actor, verb, row and `changes`, {field: [before, after]}."""

    recorded_at = models.DateTimeField()
    author = ShopKey(Member, null=True, blank=True)
    channel = models.CharField(max_length=12)  # session, link, command
    verb = models.CharField(max_length=40)
    subject = models.CharField(max_length=40)
    subject_id = models.UUIDField()
    changes: Any = models.JSONField(default=dict, blank=True)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("author", name="history_author_is_of_its_shop"),
            append_only("history_never_changes"),
        ]
        indexes = [
            Index(fields=["shop", "subject", "subject_id", "recorded_at"], name="history_by_subject"),
            Index(fields=["shop", "author"], name="history_by_author"),
        ]

    def __str__(self) -> str:
        return f"{self.verb} {self.subject}"


class Command(ShopRow):
    """A client's id with its stored answer, written in the same transaction as the effect (idempotency).

    `manage.py purge` later drops the answer only. The id and the digest stay, so that a late repeat is never executed.
    """

    author = ShopKey(Member, null=True, blank=True)
    name = models.CharField(max_length=80)
    body_digest = models.CharField(max_length=64)
    status = models.PositiveSmallIntegerField()
    result: Any = models.JSONField(null=True, blank=True)
    done_at = models.DateTimeField()
    dropped_at = models.DateTimeField(null=True, blank=True)  # when the answer was dropped

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("author", name="command_author_is_of_its_shop"),
            Refuse(
                name="command_never_changes",
                events=("update of id, shop_id, author_id, name, body_digest, status, done_at", "delete"),
            ),
            Refuse(
                name="command_answer_is_only_dropped",
                events=("update of result, dropped_at",),
                when="NOT (OLD.dropped_at IS NULL AND NEW.dropped_at IS NOT NULL AND NEW.result IS NULL)",
            ),
        ]
        indexes = [
            Index(fields=["shop", "author"], name="command_by_author"),
            Index(fields=["shop", "done_at"], condition=Q(dropped_at__isnull=True), name="command_answer_kept"),
        ]

    def __str__(self) -> str:
        return self.name


class OutboxState(models.TextChoices):
    WAITING = "waiting"
    BEGUN = "begun"
    DONE = "done"
    FAILED = "failed"
    CANCELLED = "cancelled"


class Outbox(ShopRow):
    """A message that leaves after a change is committed. The row is written in the transaction of the change.

    It is begun before its first byte leaves, so that it is sent at most once. One that is begun and past `due_at` may
    have been sent or not: a person decides. `subject_id` is the row whose screen shows it, `due_at` of a waiting row
    the moment of the next try. `reason` is a code, `reply` the words of the mail server.
    """

    State = OutboxState

    kind = models.CharField(max_length=20)
    subject_id = models.UUIDField()
    body: Any = models.JSONField()
    author = ShopKey(Member, null=True, blank=True)  # None: the change itself caused the message
    asked_at = models.DateTimeField()
    state = models.CharField(max_length=9, choices=OutboxState, default=OutboxState.WAITING)
    due_at = models.DateTimeField()
    tries = models.PositiveSmallIntegerField(default=0)
    reason = models.CharField(max_length=20, blank=True)
    reply = models.CharField(max_length=200, blank=True)
    done_at = models.DateTimeField(null=True, blank=True)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("author", name="outbox_author_is_of_its_shop"),
            Check(
                condition=Q(state__in=["waiting", "begun", "done", "failed", "cancelled"]), name="outbox_state_is_known"
            ),
            Check(
                condition=Q(state="done", done_at__isnull=False) | ~Q(state="done") & Q(done_at__isnull=True),
                name="outbox_is_done_at_a_moment",
            ),
            Refuse(
                name="sent_message_stays_sent",
                events=("update of state, kind, subject_id, done_at, shop_id",),
                when="OLD.state IN ('done', 'cancelled')",
            ),
        ]
        indexes = [
            Index(fields=["due_at"], condition=Q(state="waiting"), name="outbox_waiting"),
            Index(fields=["shop", "subject_id", "asked_at"], name="outbox_by_subject"),
            Index(fields=["shop", "state", "-asked_at"], name="outbox_by_state"),
            Index(fields=["shop", "author"], name="outbox_by_author"),
        ]

    def __str__(self) -> str:
        return self.kind
