from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import F, Index, Q
from django.db.models import UniqueConstraint as Unique

from shop.constraints import SameShop, append_only
from shop.models import Job, Member, StoredFile
from shop.rows import ExactDecimalField, ShopKey, ShopRow


class ClosingAccount(ShopRow):
    """The account with which a job was closed: its text, frozen like a quote's, and its paper.

    Payments may still come; everything else of the account is final.
    """

    job = ShopKey(Job, related_name="closing_accounts")
    closed_at = models.DateTimeField()
    closed_by = ShopKey(Member)
    total = ExactDecimalField(scale=3)
    tax = ExactDecimalField(scale=3)  # inside the total
    received = ExactDecimalField(scale=3)
    due = ExactDecimalField(scale=3)
    snapshot = models.TextField()  # the canonical bytes themselves
    digest = models.CharField(max_length=64)
    paper = ShopKey(StoredFile)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            *(SameShop(key, name=f"closing_account_{key}_is_of_its_shop") for key in ("job", "closed_by", "paper")),
            Unique(fields=["shop", "job"], name="job_is_closed_once"),
            Check(condition=Q(due=F("total") - F("received")), name="closing_account_due_is_total_less_received"),
            Check(condition=~Q(snapshot="") & ~Q(digest=""), name="closing_account_has_a_text"),
            append_only("closing_account_never_changes"),
        ]
        indexes = [
            Index(fields=["shop", "closed_at", "id"], name="closing_account_by_day"),
            Index(fields=["shop", "closed_by"], name="closing_account_by_member"),
            Index(fields=["shop", "paper"], name="closing_account_by_paper"),
        ]

    def __str__(self) -> str:
        return f"closing account of {self.job}"
