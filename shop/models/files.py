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
    body = models.BinaryField(blank=True)
    supplier = models.CharField(max_length=120, blank=True)
    mapping: Any = models.JSONField(default=dict, blank=True)  # {field: heading}
    repairs: Any = models.JSONField(default=list, blank=True)  # steps, as in shop/tables/repairs.py
    result: Any = models.JSONField(default=dict, blank=True)  # what was found, as shown
    lines: Any = models.JSONField(default=list, blank=True)  # the list as it will become, as shown
    state = models.CharField(max_length=8, choices=State, default=State.READ)
    author = ShopKey(Member, null=True, blank=True)
    read_at = models.DateTimeField()
    taken_at = models.DateTimeField(null=True, blank=True)
    dropped_at = models.DateTimeField(null=True, blank=True)  # when its bytes were removed after the shop's retention

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("author", name="file_read_author_is_of_its_shop"),
            Check(condition=Q(state__in=["read", "taken"]), name="file_read_state_is_known"),
            Check(condition=Q(taken_at__isnull=True) ^ Q(state="taken"), name="file_read_taken_has_a_time"),
            Check(condition=Q(dropped_at__isnull=True) | Q(state="taken"), name="file_read_is_kept_until_taken"),
        ]
        indexes = [
            Index(fields=["shop", "-read_at"], name="file_read_newest"),
            Index(fields=["shop", "author"], name="file_read_by_author"),
        ]

    def __str__(self) -> str:
        return self.file_name


class FileTaskKind(models.TextChoices):
    READ = "read"
    TAKE_IN = "take_in"


class FileTaskState(models.TextChoices):
    WAITING = "waiting"
    BEGUN = "begun"
    FAILED = "failed"


class FileTask(ShopRow):
    """Work on a large file beside the server: reading it, or importing it. A file has one task at a time.

    It is deleted in the transaction of its effect. `due_at` of a begun task is the end of its lease: past it, the
    process that began it has died, and the task begins again. `reason` says in words why a task failed.
    """

    Kind = FileTaskKind
    State = FileTaskState

    file = ShopKey(FileRead, models.CASCADE, related_name="tasks")
    kind = models.CharField(max_length=8, choices=FileTaskKind)
    state = models.CharField(max_length=8, choices=FileTaskState, default=FileTaskState.WAITING)
    author = ShopKey(Member, null=True, blank=True)
    asked_at = models.DateTimeField()
    due_at = models.DateTimeField()
    tries = models.PositiveSmallIntegerField(default=0)
    rows_done = models.PositiveIntegerField(default=0)
    rows_in_all = models.PositiveIntegerField(default=0)  # 0 until they are counted
    reason = models.CharField(max_length=400, blank=True)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("file", name="file_task_file_is_of_its_shop"),
            SameShop("author", name="file_task_author_is_of_its_shop"),
            Unique(fields=["shop", "file"], name="file_has_one_task"),
            Check(condition=Q(kind__in=["read", "take_in"]), name="file_task_kind_is_known"),
            Check(condition=Q(state__in=["waiting", "begun", "failed"]), name="file_task_state_is_known"),
            Check(condition=Q(state="failed") ^ Q(reason=""), name="file_task_that_failed_says_why"),
        ]
        indexes = [
            Index(fields=["due_at"], condition=~Q(state="failed"), name="file_task_due"),
            Index(fields=["shop", "author"], name="file_task_by_author"),
        ]

    def __str__(self) -> str:
        return self.kind
