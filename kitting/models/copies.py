from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import Index, Q
from django.db.models import UniqueConstraint as Unique

from kitting.models.kits import Kit, KitRevision
from shop.constraints import Refuse, SameShop
from shop.models import Job
from shop.rows import ShopKey, ShopRow


class KitCopyPurpose(models.TextChoices):
    JOB = "job"
    SHELF = "shelf"
    QUARANTINE = "quarantine"


class KitCopy(ShopRow):
    """One copy of a kit, awaited or received, with its place. Its counts belong to its pull lines.

    It can move from a job to the shelf and on to another job, and its lines and their counts go with it.
    """

    Purpose = KitCopyPurpose

    kit = ShopKey(Kit, related_name="copies")
    revision = ShopKey(KitRevision)  # what is in the box
    number = models.PositiveIntegerField()  # counted up in each kit
    purpose = models.CharField(max_length=10, choices=Purpose)
    job = ShopKey(Job, null=True, blank=True, related_name="kit_copies")
    place = models.CharField(max_length=80, blank=True)
    received_at = models.DateTimeField(null=True, blank=True)
    supplied = models.BooleanField(default=False)  # the customer's own: never ordered, and never the workshop's stock
    version = models.PositiveIntegerField(default=1)

    typed = ("place",)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("kit", name="kit_copy_is_of_its_shop"),
            SameShop("kit", "revision", to_fields=("kit", "id"), name="kit_copy_revision_is_of_its_kit"),
            SameShop("job", name="kit_copy_job_is_of_its_shop"),
            Unique(fields=["shop", "kit", "number"], name="kit_copy_number_is_once_in_a_kit"),
            Check(
                condition=Q(purpose="job", job__isnull=False)
                | Q(purpose__in=["shelf", "quarantine"], job__isnull=True),
                name="kit_copy_is_for_a_job_or_stands_somewhere",
            ),
            Refuse(
                name="kit_copy_stays_that_copy",
                events=("update of id, shop_id, kit_id, revision_id, number", "delete"),
            ),
        ]
        indexes = [
            Index(fields=["shop", "revision"], name="kit_copy_by_revision"),
            Index(fields=["shop", "job"], name="kit_copy_by_job"),
            Index(fields=["shop", "purpose"], name="kit_copy_by_purpose"),
        ]

    def __str__(self) -> str:
        return f"{self.kit_id} {self.number}"
