from typing import Any

from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import Index, Q
from django.db.models import UniqueConstraint as Unique

from quotes.models.quotes import Quote, Revision
from shop.constraints import Refuse, SameShop, append_only
from shop.models import Agreement, Member
from shop.rows import ShopKey, ShopRow


class Link(ShopRow):
    """One recipient's access to a quote. Only the hash of its secret is stored."""

    quote = ShopKey(Quote, related_name="links")
    token_hash = models.CharField(max_length=64, unique=True)  # over all shops: the shop is not yet known
    recipient = models.CharField(max_length=120)
    made_at = models.DateTimeField()
    expires_at = models.DateTimeField()
    revoked_at = models.DateTimeField(null=True, blank=True)

    typed = ("recipient",)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("quote", name="link_is_of_its_shop"),
            Refuse(
                name="link_never_changes",
                events=("update of id, shop_id, quote_id, token_hash, recipient, made_at", "delete"),
            ),
            Refuse(name="link_stays_revoked", events=("update of revoked_at",), when="OLD.revoked_at IS NOT NULL"),
        ]
        indexes = [Index(fields=["shop", "quote"], name="link_by_quote")]

    def __str__(self) -> str:
        return self.recipient


class DecisionAnswer(models.TextChoices):
    ACCEPTED = "accepted"
    DECLINED = "declined"


class AnswerWay(models.TextChoices):
    LINK = "link"
    PHONE = "phone"
    COUNTER = "counter"
    CEILING = "ceiling"  # the workshop itself, for work within what may be done without asking


class Decision(ShopRow):
    """The customer's answer, with the digest of what was shown. `record`: name, address, agent, words.

    It comes by a link, or was given in speech and recorded by a person.
    """

    Answer = DecisionAnswer
    Way = AnswerWay

    quote = ShopKey(Quote, related_name="decisions")
    revision = ShopKey(Revision)
    link = ShopKey(Link, null=True, blank=True)
    way = models.CharField(max_length=8, choices=AnswerWay, default=AnswerWay.LINK)
    recorded_by = ShopKey(Member, null=True, blank=True)
    agreement = ShopKey(Agreement, null=True, blank=True)  # what the acceptance agreed to for the job
    answer = models.CharField(max_length=8, choices=Answer)
    answered_at = models.DateTimeField()
    digest = models.CharField(max_length=64)
    record: Any = models.JSONField()

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("quote", name="decision_is_of_its_shop"),
            SameShop("link", name="decision_link_is_of_its_shop"),
            SameShop("recorded_by", name="decision_recorder_is_of_its_shop"),
            SameShop("agreement", name="decision_agreement_is_of_its_shop"),
            Unique(fields=["shop", "agreement"], name="agreement_comes_of_one_decision"),
            Check(
                condition=Q(answer="accepted", agreement__isnull=False) | Q(answer="declined", agreement__isnull=True),
                name="acceptance_is_an_agreement",
            ),
            SameShop("quote", "revision", to_fields=("quote", "id"), name="decision_revision_is_of_its_quote"),
            Unique(fields=["shop", "quote"], condition=Q(answer="accepted"), name="quote_has_one_acceptance"),
            Unique(fields=["shop", "revision"], name="revision_has_one_answer"),
            Check(condition=Q(answer__in=["accepted", "declined"]), name="decision_answer_is_known"),
            Check(
                condition=Q(way="link", link__isnull=False, recorded_by__isnull=True)
                | Q(way__in=["phone", "counter", "ceiling"], link__isnull=True, recorded_by__isnull=False),
                name="answer_comes_by_a_link_or_is_recorded",
            ),
            append_only("decision_never_changes"),
        ]
        indexes = [
            Index(fields=["shop", "-answered_at"], name="decision_newest"),
            Index(fields=["shop", "quote", "-answered_at"], name="decision_by_quote"),
            Index(fields=["shop", "link"], name="decision_by_link"),
            Index(fields=["shop", "recorded_by"], name="decision_by_recorder"),
        ]

    def __str__(self) -> str:
        return self.answer
