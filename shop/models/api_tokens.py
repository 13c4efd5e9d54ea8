from typing import Any

from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import F, Index, Q

from shop.constraints import Refuse, SameShop
from shop.models.people import Member
from shop.rows import ShopKey, ShopRow


class TokenArea(models.TextChoices):
    QUOTES = "quotes"
    JOBS = "jobs"
    PARTS = "parts"
    STOCK = "stock"


class ApiToken(ShopRow):
    """A secret by which another program acts in the name of a member, with that member's role and within some areas.

    The secret is shown once; the row holds its SHA-256. `areas` is a list of TokenArea. It works until `expires_at`.
    """

    Area = TokenArea

    title = models.CharField(max_length=80)  # of the program
    token_hash = models.CharField(max_length=64, unique=True)
    member = ShopKey(Member)
    author = ShopKey(Member)  # the manager who made it
    areas: Any = models.JSONField()
    may_write = models.BooleanField(default=False)
    made_at = models.DateTimeField()
    expires_at = models.DateTimeField()
    used_at = models.DateTimeField(null=True, blank=True)  # the last use, noted at most once a minute
    revoked_at = models.DateTimeField(null=True, blank=True)

    typed = ("title",)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("member", name="api_token_member_is_of_its_shop"),
            SameShop("author", name="api_token_author_is_of_its_shop"),
            Check(condition=Q(expires_at__gt=F("made_at")), name="api_token_expires_after_it_was_made"),
            Refuse(
                name="api_token_keeps_its_reach",
                events=("update of shop_id, token_hash, member_id, author_id, areas, may_write, made_at, expires_at",),
            ),
            Refuse(name="api_token_stays_revoked", events=("update",), when="OLD.revoked_at IS NOT NULL"),
        ]
        indexes = [
            Index(fields=["shop", "member"], name="api_token_by_member"),
            Index(fields=["shop", "author"], name="api_token_by_author"),
            Index(fields=["shop", "-made_at"], condition=Q(revoked_at__isnull=True), name="api_token_in_force"),
        ]

    def __str__(self) -> str:
        return self.title
