from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import Index, Q
from django.db.models import UniqueConstraint as Unique

from kitting.models.kits import IN_USE, KitRevision
from kitting.models.parts import Supplier
from shop.constraints import SameShop, frozen_with
from shop.models import Operation
from shop.rows import ExactDecimalField, ShopKey, ShopRow


class KitOutside(ShopRow):
    """Work of another firm that goes with a kit: the terms with which a quote of the kit begins such a line."""

    revision = ShopKey(KitRevision, models.CASCADE, related_name="outside")
    position = models.PositiveIntegerField()
    title = models.CharField(max_length=200)
    firm = ShopKey(Supplier)
    cost = ExactDecimalField(scale=4)  # in the shop's money, without recoverable tax
    markup = ExactDecimalField(scale=4)  # 0.15 is 15 %
    handling = ExactDecimalField(scale=4)
    tax_class = models.CharField(max_length=20)
    days = models.PositiveIntegerField(null=True, blank=True)  # open days; without them the quote has no date
    starts_after = ShopKey(Operation, null=True, blank=True)  # None: acceptance
    needed_by = ShopKey(Operation, null=True, blank=True)  # the step that waits for the result
    they_do = models.CharField(max_length=300, blank=True)
    they_need = models.CharField(max_length=200, blank=True)
    warranty = models.CharField(max_length=200, blank=True)
    we_warrant = models.CharField(max_length=200, blank=True)
    rounds = models.PositiveIntegerField(null=True, blank=True)  # of a loop: log, correct, again
    per_round = models.BooleanField(default=False)  # the cost is that of one round

    typed = ("title", "they_do", "they_need", "warranty", "we_warrant")

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            *(
                SameShop(key, name=f"kit_outside_{key}_is_of_its_shop")
                for key in ("revision", "firm", "starts_after", "needed_by")
            ),
            Unique(fields=["shop", "revision", "position"], name="kit_outside_position_is_once"),
            *(
                Check(condition=Q(**{f"{name}__gte": 0}), name=f"kit_outside_{name}_is_not_negative")
                for name in ("cost", "markup", "handling")
            ),
            Check(
                condition=Q(days__isnull=True) | Q(days__isnull=False, days__gte=1),
                name="kit_outside_takes_a_day_or_more",
            ),
            Check(
                condition=Q(rounds__isnull=True) | Q(rounds__isnull=False, rounds__gte=1),
                name="kit_outside_has_a_round_or_more",
            ),
            Check(condition=Q(per_round=False) | Q(rounds__isnull=False), name="kit_outside_by_the_round_has_rounds"),
            *frozen_with("kit_outside", "revision_id", "kitting_kitrevision", IN_USE),
        ]
        indexes = [
            Index(fields=["shop", "firm"], name="kit_outside_by_firm"),
            Index(fields=["shop", "starts_after"], name="kit_outside_by_start"),
            Index(fields=["shop", "needed_by"], name="kit_outside_by_need"),
        ]

    def __str__(self) -> str:
        return self.title
