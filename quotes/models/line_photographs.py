from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import Index, Q

from quotes.models.lines import SENT, Line
from quotes.models.quotes import Revision
from shop.constraints import SameShop, frozen_with
from shop.models import StoredFile
from shop.rows import ShopKey, ShopRow


class LinePhotograph(ShopRow):
    """A photograph of a line's subject, such as a rusted bracket on the customer's vehicle.

    `small` is the copy that pages show, with its size in pixels. `revision` is repeated, so that the database can
    freeze it.
    """

    revision = ShopKey(Revision, models.CASCADE)
    line = ShopKey(Line, models.CASCADE, related_name="photographs")
    file = ShopKey(StoredFile)
    small = ShopKey(StoredFile)
    width = models.PositiveIntegerField()
    height = models.PositiveIntegerField()
    caption = models.CharField(max_length=120)
    shown = models.BooleanField(default=False)  # the customer sees it on the link

    typed = ("caption",)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            *(
                SameShop(key, name=f"line_photograph_{key}_is_of_its_shop")
                for key in ("revision", "line", "file", "small")
            ),
            Check(condition=Q(width__gt=0, height__gt=0), name="line_photograph_has_pixels"),
            Check(condition=~Q(caption=""), name="line_photograph_has_a_caption"),
            *frozen_with("line_photograph", "revision_id", "quotes_revision", SENT),
        ]
        indexes = [
            Index(fields=["shop", "revision", "id"], name="line_photograph_by_revision"),
            Index(fields=["shop", "line"], name="line_photograph_by_line"),
            Index(fields=["shop", "file"], name="line_photograph_by_file"),
            Index(fields=["shop", "small"], name="line_photograph_by_small"),
        ]

    def __str__(self) -> str:
        return self.caption
