from typing import Any

from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import Index, Q
from django.db.models import UniqueConstraint as Unique

from shop.constraints import Refuse, SameShop
from shop.models.people import Member
from shop.rows import ShopKey, ShopRow


class StoredFile(ShopRow):
    """A file in the storage: a paper, an imported file, a photograph, a calibration. Equal bytes have one row."""

    sha256 = models.CharField(max_length=64)  # lower-case hexadecimal
    size = models.PositiveBigIntegerField()  # bytes
    media_type = models.CharField(max_length=100)
    path = models.CharField(max_length=200)  # in the storage
    stored_at = models.DateTimeField()

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            Unique(fields=["shop", "sha256"], name="stored_file_is_once_in_a_shop"),
            Check(condition=~Q(sha256="") & ~Q(media_type="") & ~Q(path=""), name="stored_file_is_described"),
            Refuse(name="stored_file_never_changes", events=("update",)),
        ]

    def __str__(self) -> str:
        return self.path


class FileState(models.TextChoices):
    READ = "read"
    TAKEN = "taken"


class FileRead(ShopRow):
    """An uploaded file and the result of reading it. Nothing of it is saved until all of it is imported."""

    State = FileState

    kind = models.CharField(max_length=20)
    file_name = models.CharField(max_length=200)
    body = models.BinaryField()
    supplier = models.CharField(max_length=120, blank=True)
    mapping: Any = models.JSONField(default=dict, blank=True)  # {field: heading}
    repairs: Any = models.JSONField(default=list, blank=True)  # steps, as in shop/tables/repairs.py
    result: Any = models.JSONField(default=dict, blank=True)  # what was found, as shown
    lines: Any = models.JSONField(default=list, blank=True)  # the list as it will become, as shown
    state = models.CharField(max_length=8, choices=State, default=State.READ)
    author = ShopKey(Member, null=True, blank=True)
    read_at = models.DateTimeField()
    taken_at = models.DateTimeField(null=True, blank=True)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("author", name="file_read_author_is_of_its_shop"),
            Check(condition=Q(state__in=["read", "taken"]), name="file_read_state_is_known"),
            Check(condition=Q(taken_at__isnull=True) ^ Q(state="taken"), name="file_read_taken_has_a_time"),
        ]
        indexes = [
            Index(fields=["shop", "-read_at"], name="file_read_newest"),
            Index(fields=["shop", "author"], name="file_read_by_author"),
        ]

    def __str__(self) -> str:
        return self.file_name
