from typing import Any

from django.db import models
from django.db.models import Index

from shop.constraints import SameShop, append_only
from shop.models import Job, Member, Payment
from shop.rows import ShopKey, ShopRow


class Release(ShopRow):
    """A release: the orders and outside work of a job, with the time and the person who released them.

    An acceptance sends nothing. A person releases, or the price rules do with the payment that completed the deposit.
    """

    job = ShopKey(Job, related_name="releases")
    released_at = models.DateTimeField()
    released_by = ShopKey(Member)  # with a payment, the person who recorded it
    payment = ShopKey(Payment, null=True, blank=True)
    content: Any = models.JSONField()  # {"suppliers": [...], "outside": [...]} as it was proposed

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            *(SameShop(key, name=f"release_{key}_is_of_its_shop") for key in ("released_by",)),
            SameShop("job", name="release_is_of_its_shop"),
            SameShop("job", "payment", to_fields=("job", "id"), name="release_payment_is_of_its_job"),
            append_only("release_never_changes"),
        ]
        indexes = [
            Index(fields=["shop", "job", "released_at"], name="release_by_job"),
            Index(fields=["shop", "released_by"], name="release_by_member"),
            Index(fields=["shop", "payment"], name="release_by_payment"),
        ]

    def __str__(self) -> str:
        return f"release of {self.job}"
