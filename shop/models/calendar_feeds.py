from django.db import models
from django.db.models import Index, Q

from shop.constraints import Refuse, SameShop
from shop.models.people import Member
from shop.rows import ShopKey, ShopRow


class CalendarFeed(ShopRow):
    """A secret address from which a calendar reads the days of the shop's open jobs, until it is revoked.

    The address is shown once; the row holds the SHA-256 of its secret part.
    """

    title = models.CharField(max_length=80)  # whose calendar reads it
    token_hash = models.CharField(max_length=64, unique=True)
    author = ShopKey(Member)
    made_at = models.DateTimeField()
    revoked_at = models.DateTimeField(null=True, blank=True)

    typed = ("title",)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("author", name="calendar_feed_author_is_of_its_shop"),
            Refuse(name="calendar_feed_stays_revoked", events=("update",), when="OLD.revoked_at IS NOT NULL"),
        ]
        indexes = [
            Index(fields=["shop", "author"], name="calendar_feed_by_author"),
            Index(fields=["shop", "-made_at"], condition=Q(revoked_at__isnull=True), name="calendar_feed_in_force"),
        ]

    def __str__(self) -> str:
        return self.title
