from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import Index, Q
from django.db.models import UniqueConstraint as Unique

from shop.constraints import SameShop, append_only
from shop.models.files import StoredFile
from shop.models.jobs import Job
from shop.models.people import Member
from shop.rows import ShopKey, ShopRow


class Photograph(ShopRow):
    """A photograph taken on a job. The row of its subject points to it. It is never changed or deleted."""

    job = ShopKey(Job, related_name="photographs")
    file = ShopKey(StoredFile)
    width = models.PositiveIntegerField()  # pixels
    height = models.PositiveIntegerField()
    recorded_at = models.DateTimeField()
    recorded_by = ShopKey(Member)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            *(SameShop(key, name=f"photograph_{key}_is_of_its_shop") for key in ("job", "file", "recorded_by")),
            Unique(fields=["shop", "job", "id"], name="photograph_is_of_one_job"),
            Check(condition=Q(width__gt=0, height__gt=0), name="photograph_has_pixels"),
            append_only("photograph_never_changes"),
        ]
        indexes = [
            Index(fields=["shop", "job", "recorded_at"], name="photograph_by_job"),
            Index(fields=["shop", "file"], name="photograph_by_file"),
            Index(fields=["shop", "recorded_by"], name="photograph_by_recorder"),
        ]

    def __str__(self) -> str:
        return f"{self.width} × {self.height}"
