from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import Index, Q

from shop.constraints import SameShop, append_only
from shop.models import Job, Member
from shop.rows import ShopKey, ShopRow


class OutsideEventKind(models.TextChoices):
    SENT = "sent"
    ASKED = "asked"
    BACK = "back"
    UNDONE = "undone"


class OutsideEvent(ShopRow):
    """An entry in the log of a job's outside work: sent, asked again, come back, or the last entry undone.

    `work` is the code of the work on the job's sheet. No row is changed or deleted.
    """

    Kind = OutsideEventKind

    job = ShopKey(Job, related_name="outside_events")
    work = models.CharField(max_length=80)
    kind = models.CharField(max_length=6, choices=OutsideEventKind)
    happened_on = models.DateField()
    expected_on = models.DateField(null=True, blank=True)  # the day that the firm named
    reference = models.CharField(max_length=80, blank=True)  # the firm's
    note = models.CharField(max_length=200, blank=True)
    recorded_at = models.DateTimeField()
    recorded_by = ShopKey(Member)

    typed = ("reference", "note")

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            *(SameShop(key, name=f"outside_event_{key}_is_of_its_shop") for key in ("job", "recorded_by")),
            Check(condition=Q(kind__in=OutsideEventKind.values), name="outside_event_kind_is_known"),
            Check(
                condition=Q(expected_on__isnull=True) | Q(kind__in=["sent", "asked"]),
                name="outside_event_expects_what_is_out",
            ),
            append_only("outside_event_never_changes"),
        ]
        indexes = [
            Index(fields=["shop", "job", "recorded_at"], name="outside_event_by_job"),
            Index(fields=["shop", "kind", "-happened_on"], name="outside_event_by_kind"),
            Index(fields=["shop", "recorded_by"], name="outside_event_by_member"),
        ]

    def __str__(self) -> str:
        return f"{self.work}: {self.kind}"
