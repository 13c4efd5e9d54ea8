from typing import Any

from django.db import models
from django.db.models import Index
from django.db.models import UniqueConstraint as Unique

from quotes.models.quotes import Revision
from shop.constraints import SameShop
from shop.rows import ShopKey, ShopRow


class DraftStep(ShopRow):
    """A change to a draft that can be undone, or was undone and can be made again.

    `state` is what people had chosen before the change; once the step is undone, what they had chosen after it.
    """

    revision = ShopKey(Revision, models.CASCADE)
    number = models.PositiveIntegerField()
    verb = models.CharField(max_length=40)  # the verb of the history
    about = models.CharField(max_length=200, blank=True)  # a title, or the key of a figure
    undone = models.BooleanField(default=False)
    state: Any = models.JSONField()

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("revision", name="draft_step_is_of_its_shop"),
            Unique(fields=["shop", "revision", "number"], name="draft_step_number_is_once"),
        ]
        indexes = [Index(fields=["shop", "revision", "undone", "number"], name="draft_step_in_order")]

    def __str__(self) -> str:
        return f"{self.verb} {self.about}".strip()
