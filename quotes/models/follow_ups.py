from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import Index, Q
from django.db.models import UniqueConstraint as Unique

from quotes.models.answers import Link
from quotes.models.quotes import Quote, Revision
from shop.constraints import SameShop, append_only
from shop.models import Member
from shop.rows import ShopKey, ShopRow


class CallOutcome(models.TextChoices):
    NO_ANSWER = "no_answer"
    THINKING = "thinking"
    WANTS_CHANGE = "wants_change"


class FollowUp(ShopRow):
    """A call to a customer who has not answered a sent quote, and what came of it."""

    Outcome = CallOutcome

    quote = ShopKey(Quote)
    outcome = models.CharField(max_length=12, choices=CallOutcome)
    called_at = models.DateTimeField()
    called_by = ShopKey(Member)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            *(SameShop(key, name=f"follow_up_{key}_is_of_its_shop") for key in ("quote", "called_by")),
            Check(
                condition=Q(outcome__in=["no_answer", "thinking", "wants_change"]), name="follow_up_outcome_is_known"
            ),
            append_only("follow_up_never_changes"),
        ]
        indexes = [
            Index(fields=["shop", "quote", "-called_at"], name="follow_up_newest_of_quote"),
            Index(fields=["shop", "called_by"], name="follow_up_by_member"),
        ]

    def __str__(self) -> str:
        return self.outcome


class LinkOpening(ShopRow):
    """The first time that a link showed a version: a person may have opened it, or a program that looks at mail."""

    link = ShopKey(Link)
    revision = ShopKey(Revision)
    opened_at = models.DateTimeField()

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            *(SameShop(key, name=f"link_opening_{key}_is_of_its_shop") for key in ("link", "revision")),
            Unique(fields=["shop", "link", "revision"], name="link_opening_is_once_a_version"),
            append_only("link_opening_never_changes"),
        ]
        indexes = [Index(fields=["shop", "revision", "opened_at"], name="link_opening_by_revision")]

    def __str__(self) -> str:
        return f"{self.opened_at}"
