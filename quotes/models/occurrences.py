from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import F, Index, Q
from django.db.models import UniqueConstraint as Unique

from quotes.models.lines import Line
from shop.constraints import SameShop, append_only
from shop.models import Job, Member, Photograph
from shop.rows import ShopKey, ShopRow


class Occurrence(ShopRow):
    """The number of times that a contingent line of a job's quote happened; negative for an opposite row.

    No row is changed or deleted: a mistake is the `reversed_occurrence` of one opposite row.
    """

    job = ShopKey(Job, related_name="occurrences")
    line = ShopKey(Line, related_name="occurrences")
    count = models.SmallIntegerField()
    note = models.CharField(max_length=300, blank=True)
    reversed_occurrence = ShopKey("self", null=True, blank=True)
    recorded_at = models.DateTimeField()
    recorded_by = ShopKey(Member)

    typed = ("note",)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            *(SameShop(key, name=f"occurrence_{key}_is_of_its_shop") for key in ("job", "line", "recorded_by")),
            Unique(fields=["shop", "job", "line", "id"], name="occurrence_is_of_one_line_of_a_job"),
            SameShop(
                "job",
                "line",
                "reversed_occurrence",
                to_fields=("job", "line", "id"),
                name="reversed_occurrence_is_of_the_same_line",
            ),
            Unique(fields=["shop", "reversed_occurrence"], name="occurrence_is_reversed_once"),
            Check(
                condition=Q(count__gt=0, reversed_occurrence__isnull=True)
                | Q(count__lt=0, reversed_occurrence__isnull=False),
                name="occurrence_happened_or_is_an_opposite_row",
            ),
            Check(
                condition=Q(reversed_occurrence__isnull=True) | ~Q(reversed_occurrence=F("id")),
                name="occurrence_reverses_another",
            ),
            append_only("occurrence_never_changes"),
        ]
        indexes = [
            Index(fields=["shop", "job", "recorded_at"], name="occurrence_by_job"),
            Index(fields=["shop", "line"], name="occurrence_by_line"),
            Index(fields=["shop", "recorded_by"], name="occurrence_by_recorder"),
            Index(fields=["shop", "recorded_at"], name="occurrence_by_time"),
        ]

    def __str__(self) -> str:
        return f"{self.count} on {self.recorded_at}"


class OccurrencePhotograph(ShopRow):
    """A photograph that shows what happened. `job` is repeated, so that the database can compare it."""

    job = ShopKey(Job)
    line = ShopKey(Line)
    occurrence = ShopKey(Occurrence, related_name="photographs")
    photograph = ShopKey(Photograph)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("job", name="photograph_of_occurrence_is_of_its_shop"),
            SameShop("line", name="photograph_of_occurrence_line_is_of_its_shop"),
            SameShop(
                "job",
                "line",
                "occurrence",
                to_fields=("job", "line", "id"),
                name="photographed_occurrence_is_of_the_job",
            ),
            SameShop("job", "photograph", to_fields=("job", "id"), name="photograph_of_occurrence_is_of_the_job"),
            Unique(fields=["shop", "photograph"], name="photograph_shows_one_occurrence"),
            append_only("occurrence_photograph_never_changes"),
        ]
        indexes = [
            Index(fields=["shop", "occurrence"], name="photographs_by_occurrence"),
            Index(fields=["shop", "job"], name="occurrence_photograph_by_job"),
            Index(fields=["shop", "line"], name="occurrence_photograph_by_line"),
        ]

    def __str__(self) -> str:
        return str(self.photograph_id)
