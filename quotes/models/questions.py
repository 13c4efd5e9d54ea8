from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import Index, Q

from quotes.models.answers import Link
from quotes.models.quotes import Quote
from shop.constraints import Refuse, SameShop
from shop.models import Member
from shop.rows import ShopKey, ShopRow


class Question(ShopRow):
    """A customer's question from a link, and the workshop's reply. Both are plain text of several lines."""

    quote = ShopKey(Quote, related_name="questions")
    link = ShopKey(Link)
    asked_at = models.DateTimeField()
    text = models.CharField(max_length=1000)
    reply = models.CharField(max_length=1000, blank=True)
    replied_at = models.DateTimeField(null=True, blank=True)
    replied_by = ShopKey(Member, null=True, blank=True)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            *(SameShop(key, name=f"question_{key}_is_of_its_shop") for key in ("quote", "link", "replied_by")),
            Check(condition=~Q(text=""), name="question_has_a_text"),
            Check(
                condition=Q(reply="", replied_at__isnull=True, replied_by__isnull=True)
                | ~Q(reply="") & Q(replied_at__isnull=False, replied_by__isnull=False),
                name="reply_has_its_person_and_time",
            ),
            Refuse(
                name="question_stays_as_asked",
                events=("update of id, shop_id, quote_id, link_id, asked_at, text", "delete"),
            ),
            Refuse(
                name="reply_stays_as_given",
                events=("update of reply, replied_at, replied_by_id",),
                when="OLD.replied_at IS NOT NULL",
            ),
        ]
        indexes = [
            Index(fields=["shop", "quote", "asked_at"], name="question_by_quote"),
            Index(fields=["shop", "link"], name="question_by_link"),
            Index(fields=["shop", "replied_by"], name="question_by_member"),
            Index(fields=["shop", "replied_at", "asked_at"], name="question_open"),
        ]

    def __str__(self) -> str:
        return self.text[:40]
