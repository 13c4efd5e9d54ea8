from typing import Any

from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import F, Index, Q
from django.db.models import UniqueConstraint as Unique

from kitting.models.copies import KitCopy
from kitting.models.parts import Part
from shop.constraints import Refuse, SameShop, append_only
from shop.models import Agreement, Job, JobOperation, Member
from shop.rows import ExactDecimalField, ShopKey, ShopRow


class PullListState(models.TextChoices):
    OPEN = "open"
    CLOSED = "closed"


class PullList(ShopRow):
    """A list of the parts and fluids of a job, or of the contents of a kit copy without a job.

    `last_seq` is raised under the row's lock, so that the events' seq has no gaps.
    """

    State = PullListState

    job = ShopKey(Job, null=True, blank=True, related_name="pull_lists")
    copy = ShopKey(KitCopy, null=True, blank=True, related_name="pull_lists")
    state = models.CharField(max_length=8, choices=State, default=State.OPEN)
    last_seq = models.PositiveIntegerField(default=0)
    cuts: Any = models.JSONField(default=list, blank=True)  # [[epoch, last seq when it ended], ...]
    facts: Any = models.JSONField(default=dict, blank=True)  # as it was opened: whose, which vehicle, its circuits
    opened_at = models.DateTimeField()
    closed_at = models.DateTimeField(null=True, blank=True)
    closed_by = ShopKey(Member, null=True, blank=True)
    version = models.PositiveIntegerField(default=1)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("job", name="pull_list_job_is_of_its_shop"),
            SameShop("copy", name="pull_list_copy_is_of_its_shop"),
            Check(condition=Q(job__isnull=False) ^ Q(copy__isnull=False), name="pull_list_is_of_a_job_or_a_copy"),
            SameShop("closed_by", name="pull_list_closer_is_of_its_shop"),
            Check(condition=Q(state__in=["open", "closed"]), name="pull_list_state_is_known"),
        ]
        indexes = [
            Index(fields=["shop", "job", "-opened_at", "-id"], name="pull_list_by_job"),
            Index(fields=["shop", "copy"], name="pull_list_by_copy"),
            Index(fields=["shop", "closed_by"], name="pull_list_by_closer"),
            Index(fields=["shop", "state", "-opened_at"], name="pull_list_by_state"),
            Index(fields=["shop", "-opened_at", "-id"], name="pull_list_newest"),
        ]

    def __str__(self) -> str:
        return f"pull list {self.id}"


class PullLineKind(models.TextChoices):
    BOX = "box"  # in the kit's box and for this vehicle
    BESIDE = "beside"  # in the box, not for this vehicle: counted, never fitted
    NEED = "need"  # not in the box: packs and one-time parts from the shelf
    REUSED = "reused"  # comes off the vehicle and goes back on


class PullLine(ShopRow):
    """One place on the list. It has text of its own, so that a changed kit or part never changes an open list."""

    Kind = PullLineKind

    pull_list = ShopKey(PullList, related_name="lines")
    position = models.PositiveIntegerField()
    kind = models.CharField(max_length=6, choices=Kind)
    part = ShopKey(Part, null=True, blank=True)
    number = models.CharField(max_length=60, blank=True)
    title = models.CharField(max_length=200)
    quantity = ExactDecimalField(scale=4)
    unit = models.CharField(max_length=4)
    copy = ShopKey(KitCopy, null=True, blank=True, related_name="lines")  # whose contents it is
    kit = models.CharField(max_length=40, blank=True)
    carton = models.CharField(max_length=80, blank=True)
    bag = models.CharField(max_length=80, blank=True)
    operation = models.CharField(max_length=40, blank=True)  # the code of the step that first needs it
    step = ShopKey(JobOperation, null=True, blank=True)  # that step
    detail: Any = models.JSONField(default=dict, blank=True)  # why: volume needed, off_at and back_at, role
    origin = ShopKey(Agreement, null=True, blank=True)  # none where the copy came for no job
    cancellation = ShopKey(Agreement, null=True, blank=True)
    due_at = models.DateTimeField(null=True, blank=True)  # the arrival of the missing pieces, as a person entered it
    due_with_box = models.BooleanField(default=False)  # entered before its box was counted: it ends once the box comes
    due_unusable = models.PositiveIntegerField(null=True, blank=True)  # pieces here that could not be used by then
    retired_at = models.DateTimeField(null=True, blank=True)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            Unique(fields=["shop", "pull_list", "id"], name="pull_line_is_of_one_list"),
            Unique(fields=["shop", "pull_list", "position"], name="pull_line_position_is_once"),
            SameShop("pull_list", name="pull_line_is_of_its_shop"),
            SameShop("part", name="pull_line_part_is_of_its_shop"),
            SameShop("copy", name="pull_line_copy_is_of_its_shop"),
            SameShop("step", name="pull_line_step_is_of_its_shop"),
            SameShop("origin", name="pull_line_origin_is_of_its_shop"),
            SameShop("cancellation", name="pull_line_cancellation_is_of_its_shop"),
            Check(
                condition=Q(cancellation__isnull=True) | Q(retired_at__isnull=False),
                name="cancelled_pull_line_is_retired",
            ),
            Check(condition=Q(quantity__gt=0), name="pull_line_quantity_is_positive"),
            Check(condition=Q(kind__in=["box", "beside", "need", "reused"]), name="pull_line_kind_is_known"),
            Check(condition=Q(kind="reused") | Q(part__isnull=False), name="pull_line_has_a_part"),
            Refuse(name="pull_line_keeps_its_copy", events=("update of copy_id",), when="OLD.copy_id IS NOT NULL"),
            Refuse(
                name="pull_line_never_changes",
                events=("update of pull_list_id, kind, part_id, quantity, unit, shop_id, origin_id", "delete"),
            ),
        ]
        indexes = [
            Index(fields=["shop", "part"], name="pull_line_by_part"),
            Index(fields=["shop", "copy"], name="pull_line_by_copy"),
            Index(fields=["shop", "step"], name="pull_line_by_step"),
            Index(fields=["shop", "origin"], name="pull_line_by_origin"),
            Index(fields=["shop", "cancellation"], name="pull_line_by_cancellation"),
        ]

    def __str__(self) -> str:
        return self.title

    @property
    def copy_number(self) -> int:
        """The number of its kit copy; 1 if none is recorded. Select `copy` with the line."""
        return self.copy.number if self.copy else 1

    @property
    def supplied(self) -> bool:
        """Whether it is of a kit that the customer brings. Select `copy` with the line."""
        return self.copy is not None and self.copy.supplied


class CountEvent(ShopRow):
    """One observation of a person, as the phone sent it. The id is the phone's, `seq` the list's; it never changes."""

    form = models.PositiveSmallIntegerField(default=1)
    pull_list = ShopKey(PullList, related_name="events")
    line = ShopKey(PullLine)
    seq = models.PositiveIntegerField()
    kind = models.CharField(max_length=16)
    total = models.IntegerField(null=True, blank=True)
    damaged = models.IntegerField(null=True, blank=True)
    target = models.UUIDField(null=True, blank=True)
    device = models.UUIDField()
    device_seq = models.PositiveIntegerField()
    epoch = models.PositiveIntegerField(default=1)
    seen = models.PositiveIntegerField()  # clamped: never past what the list had
    late = models.BooleanField(default=False)
    extra: Any = models.JSONField(default=dict, blank=True)  # how, note, and what a newer phone may say
    author = ShopKey(Member)
    made_at = models.DateTimeField()  # the phone's clock: shown, never used
    stored_at = models.DateTimeField()
    body_digest = models.CharField(max_length=64)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("pull_list", "line", to_fields=("pull_list", "id"), name="count_line_is_in_its_list"),
            SameShop("pull_list", name="count_list_is_of_its_shop"),
            SameShop("author", name="count_author_is_of_its_shop"),
            Unique(fields=["shop", "pull_list", "seq"], name="count_seq_is_once_in_a_list"),
            Unique(fields=["shop", "device", "device_seq"], name="count_number_is_once_on_a_device"),
            Check(
                condition=Q(kind="undo", target__isnull=False, total__isnull=True, damaged__isnull=True)
                | Q(
                    kind="set",
                    target__isnull=True,
                    total__isnull=False,  # a comparison with NULL would pass
                    damaged__isnull=False,
                    damaged__gte=0,
                    total__gte=F("damaged"),
                )
                | Q(kind="add", target__isnull=True, total__isnull=False, damaged__isnull=False)
                | ~Q(kind__in=["undo", "set", "add"])
                | ~Q(form=1),  # what a newer phone says is kept as it is
                name="count_event_has_the_fields_of_its_kind",
            ),
            append_only("count_event_never_changes"),
        ]
        indexes = [
            Index(fields=["shop", "pull_list", "line"], name="count_by_line"),
            Index(fields=["shop", "line"], name="count_by_place"),
            Index(fields=["shop", "author"], name="count_by_author"),
        ]

    def __str__(self) -> str:
        return f"{self.kind} {self.seq}"
