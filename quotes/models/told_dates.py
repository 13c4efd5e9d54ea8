from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import Index, Q

from shop.constraints import SameShop, append_only
from shop.models import Job, Member
from shop.rows import ShopKey, ShopRow


class DateHalf(models.TextChoices):
    MORNING = "morning"
    AFTERNOON = "afternoon"


class DateMeans(models.TextChoices):
    """The way in which the customer was told: an e-mail of the tool, or a person on the telephone."""

    MAIL = "mail"
    PHONE = "phone"


class ToldDate(ShopRow):
    """A date that the customer was told after the acceptance, in the sentence that they read."""

    Half = DateHalf
    Means = DateMeans

    job = ShopKey(Job, related_name="told_dates")
    ready_on = models.DateField(null=True, blank=True)  # None: they were told that no date can be given
    half = models.CharField(max_length=9, choices=DateHalf, blank=True)
    words = models.CharField(max_length=400)
    means = models.CharField(max_length=5, choices=DateMeans)
    told_at = models.DateTimeField()
    told_by = ShopKey(Member)

    typed = ("words",)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            *(SameShop(key, name=f"told_date_{key}_is_of_its_shop") for key in ("job", "told_by")),
            Check(condition=Q(means__in=DateMeans.values), name="told_date_means_is_known"),
            Check(
                condition=Q(ready_on__isnull=True, half="") | Q(ready_on__isnull=False, half__in=DateHalf.values),
                name="told_date_is_a_half_day",
            ),
            Check(condition=~Q(words=""), name="told_date_has_words"),
            append_only("told_date_never_changes"),
        ]
        indexes = [
            Index(fields=["shop", "job", "-told_at"], name="told_date_newest_of_job"),
            Index(fields=["shop", "told_by"], name="told_date_by_member"),
        ]

    def __str__(self) -> str:
        return self.words
