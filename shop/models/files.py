from typing import Any

from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import Index, Q

from shop.constraints import SameShop
from shop.models.people import Member
from shop.rows import ShopKey, ShopRow


class FileState(models.TextChoices):
    READ = "read"
    TAKEN = "taken"


class FileRead(ShopRow):
    """A file that was uploaded, as read. Nothing of it is saved until all of it is imported."""

    State = FileState

    kind = models.CharField(max_length=20)
    file_name = models.CharField(max_length=200)
    body = models.BinaryField()
    supplier = models.CharField(max_length=120, blank=True)
    mapping: Any = models.JSONField(default=dict, blank=True)  # {field: heading}
    result: Any = models.JSONField(default=dict, blank=True)  # what was found, as shown
    state = models.CharField(max_length=8, choices=State, default=State.READ)
    by = ShopKey(Member, null=True, blank=True)
    read_at = models.DateTimeField()
    taken_at = models.DateTimeField(null=True, blank=True)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("by", name="file_read_author_is_of_its_shop"),
            Check(condition=Q(state__in=["read", "taken"]), name="file_read_state_is_known"),
            Check(condition=Q(taken_at__isnull=True) ^ Q(state="taken"), name="file_read_taken_has_a_time"),
        ]
        indexes = [
            Index(fields=["shop", "-read_at"], name="file_read_newest"),
            Index(fields=["shop", "by"], name="file_read_by_author"),
        ]

    def __str__(self) -> str:
        return self.file_name
