from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import Q
from django.db.models import UniqueConstraint as Unique

from shop.rows import ShopRow


class ChangeKind(models.TextChoices):
    COUNTS = "counts"  # events of any pull list's log
    DRAFTS = "drafts"  # quotes begun or edited
    IMPORTS = "imports"  # files read or imported
    JOBS = "jobs"  # opened, or changed
    PULL_LISTS = "pull-lists"  # opened, closed, opened again, or with other due days
    QUOTES = "quotes"  # sent, answered, withdrawn, or revised


class ChangeNumber(ShopRow):
    """The number of changes of one kind in the shop, raised in the transaction of the change under this row's lock.

    A reader of a number can therefore read the change that raised it, and never sees a lower number afterwards.
    """

    Kind = ChangeKind

    kind = models.CharField(max_length=12, choices=Kind)
    number = models.PositiveIntegerField(default=0)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            Unique(fields=["shop", "kind"], name="change_kind_is_once_in_a_shop"),
            Check(
                condition=Q(kind__in=["counts", "drafts", "imports", "jobs", "pull-lists", "quotes"]),
                name="change_kind_is_known",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.kind} {self.number}"
