from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import Index, Q

from shop.constraints import SameShop, append_only
from shop.models import JobOperation, Member
from shop.rows import ExactDecimalField, ShopKey, ShopRow


class WorkedHours(ShopRow):
    """The hours really worked on a step of a called-off job, which are charged in place of the agreed ones.

    No row is changed or deleted: the newest row of a step counts.
    """

    step = ShopKey(JobOperation, related_name="worked_hours")
    hours = ExactDecimalField(scale=2)
    reason = models.CharField(max_length=200)
    recorded_at = models.DateTimeField()
    recorded_by = ShopKey(Member)

    typed = ("reason",)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            *(SameShop(key, name=f"worked_hours_{key}_is_of_its_shop") for key in ("step", "recorded_by")),
            Check(condition=Q(hours__gte=0), name="worked_hours_are_not_negative"),
            Check(condition=~Q(reason=""), name="worked_hours_have_a_reason"),
            append_only("worked_hours_never_change"),
        ]
        indexes = [
            Index(fields=["shop", "step", "-recorded_at"], name="worked_hours_newest_of_step"),
            Index(fields=["shop", "recorded_by"], name="worked_hours_by_member"),
        ]

    def __str__(self) -> str:
        return f"{self.hours} h"
