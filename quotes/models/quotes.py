from datetime import datetime
from typing import Any

from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import Index, Q
from django.db.models import UniqueConstraint as Unique

from shop.constraints import Refuse, SameShop
from shop.models import Customer, Job, Member, RuleSet, StoredFile, Vehicle
from shop.rows import ExactDecimalField, ShopKey, ShopRow

EXPIRED = "expired"  # a sent revision past its validity; worked out, never stored


class Quote(ShopRow):
    """An offer to a customer, over all its revisions. Every write to a quote begins with the lock of this row.

    It gets its number with its first kit, part or line. One that was never sent can be discarded; its rows stay.
    """

    number = models.PositiveIntegerField(null=True, blank=True)
    customer = ShopKey(Customer, null=True, blank=True, related_name="quotes")
    vehicle = ShopKey(Vehicle, null=True, blank=True, related_name="quotes")
    job = ShopKey(Job, null=True, blank=True, related_name="quotes")  # opened by the acceptance, or changed by it
    additional = models.BooleanField(default=False)  # a change to a job that is open already
    note = models.CharField(max_length=200, blank=True)  # the workshop's own; no customer reads it
    discarded_at = models.DateTimeField(null=True, blank=True)
    advisor = ShopKey(Member)
    created_at = models.DateTimeField()

    typed = ("note",)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            *(SameShop(key, name=f"quote_{key}_is_of_its_shop") for key in ("customer", "vehicle", "job", "advisor")),
            Unique(fields=["shop", "number"], name="quote_number_is_once_in_a_shop"),
            Unique(fields=["shop", "job"], condition=Q(additional=False), name="job_is_opened_by_one_quote"),
            Check(condition=Q(additional=False) | Q(job__isnull=False), name="change_is_of_a_job"),
        ]
        indexes = [
            Index(fields=["shop", "-number"], name="quote_newest"),
            Index(fields=["shop", "customer"], name="quote_by_customer"),
            Index(fields=["shop", "vehicle"], name="quote_by_vehicle"),
            Index(fields=["shop", "job"], name="quote_by_job"),
            Index(fields=["shop", "advisor"], name="quote_by_advisor"),
        ]

    def __str__(self) -> str:
        return f"Q-{self.number}" if self.number is not None else ""

    @property
    def languages(self) -> tuple[str, str]:
        """The languages in which the customer can read the quote, the preferred one first."""
        return self.customer.language if self.customer else "", self.shop.language


class Revision(ShopRow):
    """One revision of a quote. A draft holds only choices; sending writes lines and the snapshot and freezes both.

    `net`, `tax`, `gross` and `gross_high` of a draft are those of its last change, for lists: what it costs today is
    worked out.

    `expired` is not stored: it is sent and past `valid_until`.
    """

    class State(models.TextChoices):
        DRAFT = "draft"
        SENT = "sent"
        REPLACED = "replaced"
        ACCEPTED = "accepted"
        DECLINED = "declined"
        WITHDRAWN = "withdrawn"

    FILE_DIGESTS = (("paper", "pdf_sha256"),)  # read by an import of a shop's archive

    quote = ShopKey(Quote, related_name="revisions")
    number = models.PositiveIntegerField()
    state = models.CharField(max_length=10, choices=State, default=State.DRAFT)
    rules = ShopKey(RuleSet)
    rules_before = models.PositiveIntegerField(null=True, blank=True)  # number of the set that `rules` replaced
    rules_declined = models.PositiveIntegerField(null=True, blank=True)  # number of a newer set that a person declined
    condition = models.CharField(max_length=20, default="none")  # of exposed fasteners: a key of the rules' factors
    here = models.BooleanField(default=False)  # the vehicle stands in the workshop already
    here_from = models.DateField(null=True, blank=True)  # the day on which the vehicle comes, if known
    discount_percent = ExactDecimalField(scale=4, null=True, blank=True)
    discount_amount = ExactDecimalField(scale=3, null=True, blank=True)
    discount_reason = models.CharField(max_length=200, blank=True)  # the customer reads it
    charges: Any = models.JSONField(default=dict, blank=True)  # {item of a need: how the advisor charges it}
    customer_note = models.CharField(max_length=400, blank=True)  # the customer reads it on page and paper
    version = models.PositiveIntegerField(default=1)  # of the whole draft, lines included
    changed_at = models.DateTimeField()
    changed_by = ShopKey(Member)
    sent_at = models.DateTimeField(null=True, blank=True)
    valid_until = models.DateTimeField(null=True, blank=True)
    net = ExactDecimalField(scale=3, null=True, blank=True)
    tax = ExactDecimalField(scale=3, null=True, blank=True)
    gross = ExactDecimalField(scale=3, null=True, blank=True)
    gross_high = ExactDecimalField(scale=3, null=True, blank=True)  # the highest of several prices, `gross` the lowest
    snapshot = models.TextField(blank=True)  # the canonical bytes themselves
    digest = models.CharField(max_length=64, blank=True)
    bought: Any = models.JSONField(default=dict, blank=True)  # what bought things cost when it was sent: no customer's
    pdf_sha256 = models.CharField(max_length=64, blank=True)
    paper = ShopKey(StoredFile, null=True, blank=True)  # none of a version whose file was gone when files got rows
    combination = models.PositiveSmallIntegerField(null=True, blank=True)  # the price accepted, of several frozen ones
    agreed = ExactDecimalField(scale=3, null=True, blank=True)  # its total, where it is not `gross`

    begun: Any = models.JSONField(default=dict, blank=True)  # total and lines as it was begun from the version before

    worked_out: Any = None  # the figures after the change that was just made, for the answer to it
    state_before: Any = None  # what people had chosen before the change that is being made
    typed = ("discount_reason", "customer_note")

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("quote", name="revision_is_of_its_shop"),
            SameShop("rules", name="revision_rules_are_of_its_shop"),
            SameShop("changed_by", name="revision_author_is_of_its_shop"),
            SameShop("paper", name="revision_paper_is_of_its_shop"),
            Unique(fields=["shop", "quote", "id"], name="revision_is_of_one_quote"),
            Unique(fields=["shop", "quote", "number"], name="revision_number_is_once_in_a_quote"),
            Unique(
                fields=["shop", "quote"],
                condition=Q(state__in=["sent", "accepted"]),
                name="quote_has_one_live_revision",
            ),
            Check(
                condition=Q(state__in=["draft", "sent", "replaced", "accepted", "declined", "withdrawn"]),
                name="revision_state_is_known",
            ),
            Check(
                condition=Q(state="draft")
                | Q(sent_at__isnull=False, valid_until__isnull=False, gross__isnull=False)
                & ~Q(snapshot="")
                & ~Q(digest="")
                & ~Q(pdf_sha256=""),
                name="sent_revision_has_a_snapshot",
            ),
            Check(condition=Q(here=False) | Q(here_from__isnull=True), name="vehicle_is_here_or_comes_on_a_day"),
            Check(
                condition=Q(gross__isnull=True) | Q(gross=models.F("net") + models.F("tax")),
                name="revision_gross_is_net_and_tax",
            ),
            Check(
                condition=Q(discount_percent__isnull=True, discount_amount__isnull=True, discount_reason="")
                | ~Q(discount_reason="")
                & (
                    Q(discount_percent__isnull=False, discount_amount__isnull=True, discount_percent__gt=0)
                    | Q(discount_percent__isnull=True, discount_amount__isnull=False, discount_amount__gt=0)
                ),
                name="discount_is_percent_or_amount_with_a_reason",
            ),
            Refuse(
                name="sent_revision_never_changes",
                events=(
                    "update of quote_id, number, rules_id, condition, here, here_from, discount_percent, "
                    "discount_amount, discount_reason, charges, customer_note, valid_until, sent_at, net, "
                    "tax, gross, gross_high, snapshot, digest, bought, begun, pdf_sha256, shop_id",
                    "delete",
                ),
                when="OLD.state <> 'draft'",
            ),
            Refuse(
                name="sent_revision_keeps_its_paper",
                events=("update of paper_id",),
                when="OLD.state <> 'draft' AND OLD.paper_id IS NOT NULL",
            ),
            Refuse(
                name="agreed_price_never_changes",
                events=("update of combination, agreed",),
                when="OLD.state NOT IN ('draft', 'sent')",
            ),
            Refuse(
                name="revision_never_returns_to_draft",
                events=("update of state",),
                when="OLD.state <> 'draft' AND NEW.state = 'draft' "
                "OR OLD.state NOT IN ('draft', 'sent') AND NEW.state <> OLD.state",
            ),
        ]
        indexes = [
            Index(fields=["shop", "state", "-changed_at", "-id"], name="revision_changed_in_state"),
            Index(fields=["shop", "state", "-valid_until", "-id"], name="revision_by_last_day"),
            Index(fields=["shop", "-changed_at", "-id"], name="revision_last_changed"),
            Index(fields=["shop", "quote", "state"], name="revision_state_in_quote"),
            Index(fields=["shop", "rules"], name="revision_by_rules"),
            Index(fields=["shop", "paper"], name="revision_by_paper"),
            Index(fields=["shop", "changed_by"], name="revision_by_author"),
        ]

    def __str__(self) -> str:
        return f"version {self.number}"

    def state_at(self, now: datetime) -> str:
        """The stored state, or `expired`: sent and past its validity."""
        past = self.valid_until is not None and self.valid_until < now
        return EXPIRED if self.state == self.State.SENT and past else self.state
