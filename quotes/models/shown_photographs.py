from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import Index, Q

from shop.constraints import SameShop, append_only
from shop.models import Member, Photograph, StoredFile
from shop.rows import ShopKey, ShopRow


class ShownPhotograph(ShopRow):
    """An advisor's mark that shows a photograph on the customer's link or hides it: the newest mark counts.

    `file` is the small copy that the page shows.
    """

    photograph = ShopKey(Photograph, related_name="marks")
    shown = models.BooleanField()
    file = ShopKey(StoredFile, null=True, blank=True)
    width = models.PositiveIntegerField(null=True, blank=True)  # pixels of the small copy
    height = models.PositiveIntegerField(null=True, blank=True)
    recorded_at = models.DateTimeField()
    recorded_by = ShopKey(Member)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            *(
                SameShop(key, name=f"shown_photograph_{key}_is_of_its_shop")
                for key in ("photograph", "file", "recorded_by")
            ),
            Check(
                condition=Q(shown=False, file__isnull=True, width__isnull=True, height__isnull=True)
                | Q(
                    shown=True, file__isnull=False, width__isnull=False, height__isnull=False, width__gt=0, height__gt=0
                ),
                name="shown_photograph_has_a_small_copy",
            ),
            append_only("shown_photograph_never_changes"),
        ]
        indexes = [
            Index(fields=["shop", "photograph", "-recorded_at"], name="shown_photograph_newest"),
            Index(fields=["shop", "file"], name="shown_photograph_by_file"),
            Index(fields=["shop", "recorded_by"], name="shown_photograph_by_recorder"),
        ]

    def __str__(self) -> str:
        return "shown" if self.shown else "hidden"
