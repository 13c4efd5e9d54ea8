from typing import Any

from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import Index, Q
from django.db.models import UniqueConstraint as Unique
from django.utils import timezone

from shop.constraints import Refuse, append_only
from shop.rows import ExactDecimalField, ShopRow


class RuleSet(ShopRow):
    """The price rules from a day on. `shop.calc.rules.Rules` is the only reader of `rules`."""

    number = models.PositiveIntegerField()
    valid_from = models.DateField()
    rules: Any = models.JSONField()
    used_at = models.DateTimeField(null=True, blank=True)  # the first quote begun with it

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            Unique(fields=["shop", "number"], name="rule_set_number_is_once_in_a_shop"),
            Refuse(
                name="rule_set_in_use_never_changes",
                events=("update of rules, valid_from, number, shop_id, used_at", "delete"),
                when="OLD.used_at IS NOT NULL",
            ),
        ]
        indexes = [Index(fields=["shop", "-valid_from"], name="rule_set_by_date")]

    def __str__(self) -> str:
        return f"rules {self.number}"


class Calendar(ShopRow):
    """Opening hours from a day on, `{"mon": [["08:00", "12:00"], ...]}` in the shop's zone.

    A shop's first row applies to the days before it too.
    """

    valid_from = models.DateField(default=timezone.localdate)
    week: Any = models.JSONField(default=dict, blank=True)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            Unique(fields=["shop", "valid_from"], name="calendar_is_once_a_day"),
        ]

    def __str__(self) -> str:
        return f"opening hours {self.valid_from}"


class ClosedDay(ShopRow):
    date = models.DateField()
    reason = models.CharField(max_length=120, blank=True)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            Unique(fields=["shop", "date"], name="closed_day_is_once_in_a_shop"),
        ]

    def __str__(self) -> str:
        return str(self.date)


class Rate(ShopRow):
    """An exchange rate from a day on: one unit of a foreign currency in the shop's own."""

    currency = models.CharField(max_length=3)
    valid_from = models.DateField()
    rate = ExactDecimalField(scale=6)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            Unique(fields=["shop", "currency", "valid_from"], name="rate_is_once_a_day"),
            Check(condition=Q(rate__gt=0), name="rate_is_positive"),
            append_only("rate_never_changes"),
        ]

    def __str__(self) -> str:
        return f"{self.currency} {self.valid_from}"
