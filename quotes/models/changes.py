from django.db import models
from django.db.models import Index
from django.db.models import UniqueConstraint as Unique

from quotes.models.lines import SENT
from quotes.models.quotes import Revision
from shop.constraints import SameShop, frozen_with
from shop.rows import ShopKey, ShopRow


class TakenOff(ShopRow):
    """Something agreed that a change takes off the job. `item` is its key in the frozen text of `source`."""

    revision = ShopKey(Revision, models.CASCADE, related_name="taken_off")
    source = ShopKey(Revision, related_name="taken_from")
    item = models.CharField(max_length=120)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("revision", name="taken_off_is_of_its_shop"),
            SameShop("source", name="taken_off_source_is_of_its_shop"),
            Unique(fields=["shop", "revision", "source", "item"], name="item_is_taken_off_once_in_a_change"),
            *frozen_with("taken_off", "revision_id", "quotes_revision", SENT),
        ]
        indexes = [Index(fields=["shop", "source"], name="taken_off_by_source")]

    def __str__(self) -> str:
        return self.item
