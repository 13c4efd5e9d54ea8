from typing import Any

from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import Index, Q
from django.db.models import UniqueConstraint as Unique

from kitting.models.kits import Kit
from shop.constraints import SameShop, append_only
from shop.models import Member
from shop.rows import ShopKey, ShopRow


class FirstCount(ShopRow):
    """A count by hand of a kit that has no list. No row is changed or deleted.

    `series` rises when somebody begins again; `whole`: the count is of the whole kit, not of single lines.
    """

    kit = ShopKey(Kit, related_name="first_counts")
    number = models.PositiveIntegerField()
    series = models.PositiveIntegerField()
    whole = models.BooleanField()
    lines: Any = models.JSONField()  # [{"carton", "bag", "number", "quantity", "unit"}]
    author = ShopKey(Member)
    counted_at = models.DateTimeField()

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("kit", name="first_count_kit_is_of_its_shop"),
            SameShop("author", name="first_count_author_is_of_its_shop"),
            Unique(fields=["shop", "kit", "number"], name="first_count_is_once_of_a_kit"),
            Check(condition=Q(number__gte=1, series__gte=1), name="first_count_numbers_begin_at_one"),
            append_only("first_count_never_changes"),
        ]
        indexes = [Index(fields=["shop", "author"], name="first_count_by_author")]

    def __str__(self) -> str:
        return f"count {self.number}"
