from typing import Any

from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import Index, Q
from django.db.models import UniqueConstraint as Unique

from shop.constraints import Refuse, SameShop, append_only
from shop.models.customers import Customer, Vehicle
from shop.models.labour import Operation
from shop.models.people import Member
from shop.rows import ExactDecimalField, ShopKey, ShopRow


class JobState(models.TextChoices):
    ACCEPTED = "accepted"
    WAITING = "waiting"
    READY = "ready"
    IN_BAY = "in_bay"
    IN_CHECKS = "in_checks"
    HANDED_OVER = "handed_over"
    CALLED_OFF = "called_off"


class Job(ShopRow):
    """A job, opened when a quote is accepted."""

    State = JobState

    number = models.PositiveIntegerField()
    customer = ShopKey(Customer, related_name="jobs")
    vehicle = ShopKey(Vehicle, related_name="jobs")
    state = models.CharField(max_length=12, choices=State, default=State.ACCEPTED)
    opened_at = models.DateTimeField()
    here = models.BooleanField(default=False)  # the vehicle stands in the workshop already
    here_from = models.DateField(null=True, blank=True)  # the day on which the vehicle comes, if known
    promised_on = models.DateField(null=True, blank=True)  # the day the customer was told last
    not_before = models.DateField(null=True, blank=True)  # the customer may withdraw until then
    in_bay_on = models.DateField(null=True, blank=True)
    odometer_in = models.PositiveIntegerField(null=True, blank=True)  # in the unit of the vehicle's own display
    handed_over_on = models.DateField(null=True, blank=True)
    odometer_out = models.PositiveIntegerField(null=True, blank=True)
    called_off_on = models.DateField(null=True, blank=True)
    called_off_reason = models.CharField(max_length=200, blank=True)
    version = models.PositiveIntegerField(default=1)

    typed = ("called_off_reason",)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("customer", name="job_customer_is_of_its_shop"),
            SameShop("vehicle", name="job_vehicle_is_of_its_shop"),
            Unique(fields=["shop", "number"], name="job_number_is_once_in_a_shop"),
            Check(
                condition=Q(
                    state__in=[
                        "accepted",
                        "waiting",
                        "ready",
                        "in_bay",
                        "in_checks",
                        "handed_over",
                        "called_off",
                    ]
                ),
                name="job_state_is_known",
            ),
            Check(condition=Q(here=False) | Q(here_from__isnull=True), name="job_vehicle_is_here_or_comes_on_a_day"),
            Check(
                condition=Q(handed_over_on__isnull=True)
                | Q(handed_over_on__isnull=False, in_bay_on__isnull=False, handed_over_on__gte=models.F("in_bay_on")),
                name="job_is_handed_over_after_the_bay",
            ),
            Check(
                condition=Q(odometer_out__isnull=True)
                | Q(odometer_in__isnull=True)
                | Q(odometer_out__isnull=False, odometer_in__isnull=False, odometer_out__gte=models.F("odometer_in")),
                name="odometer_never_runs_back",
            ),
            Check(
                condition=Q(called_off_on__isnull=True, called_off_reason="")
                | Q(called_off_on__isnull=False) & ~Q(called_off_reason=""),
                name="called_off_job_has_a_reason",
            ),
        ]
        indexes = [
            Index(fields=["shop", "state", "-number"], name="job_by_state"),
            Index(fields=["shop", "promised_on"], name="job_by_promised_day"),
            Index(fields=["shop", "customer"], name="job_by_customer"),
            Index(fields=["shop", "vehicle"], name="job_by_vehicle"),
        ]

    def __str__(self) -> str:
        return f"J-{self.number}"

    @property
    def is_here(self) -> bool:
        """Returns whether the vehicle stands in the workshop: it came, or work on it has begun."""
        return self.here or self.state in (self.State.IN_BAY, self.State.IN_CHECKS)


ENDED = (Job.State.HANDED_OVER, Job.State.CALLED_OFF)
"""The states in which nothing is left to do on a job."""


class Agreement(ShopRow):
    """An agreement with the customer on a job: first the quote that opened it, then each change to it.

    A step and a pull line name the agreement that added them, and the one that cancelled them.
    """

    job = ShopKey(Job, related_name="agreements")
    number = models.PositiveSmallIntegerField()  # 1 opened the job
    agreed_at = models.DateTimeField()
    not_before = models.DateField(null=True, blank=True)  # the first day for what a change added

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("job", name="agreement_is_of_its_shop"),
            Unique(fields=["shop", "job", "number"], name="agreement_number_is_once_in_a_job"),
            Unique(fields=["shop", "job", "id"], name="agreement_is_of_one_job"),
            append_only("agreement_never_changes"),
        ]

    def __str__(self) -> str:
        return f"agreement {self.number}"


class StepState(models.TextChoices):
    OPEN = "open"
    RUNNING = "running"
    WAITING = "waiting"
    DONE = "done"


class JobOperation(ShopRow):
    """A step of the job as it was sold: a copy, so that a changed template never changes an accepted job.

    `code` is unique among the job's current steps; a cancelled step keeps its row. Several steps may have the same
    `operation`; it is null for work quoted by hours alone and for an operation that no longer exists.
    """

    State = StepState

    job = ShopKey(Job, related_name="operations")
    position = models.PositiveIntegerField()
    code = models.CharField(max_length=40)
    title = models.CharField(max_length=200)
    quoted_hours = ExactDecimalField(scale=2)
    credited_hours = ExactDecimalField(scale=2, null=True, blank=True)
    actual_hours = ExactDecimalField(scale=2, null=True, blank=True)
    operation = ShopKey(Operation, null=True, blank=True)
    state = models.CharField(max_length=8, choices=State, default=State.OPEN)
    started_at = models.DateTimeField(null=True, blank=True)
    done_at = models.DateTimeField(null=True, blank=True)
    done_by = ShopKey(Member, null=True, blank=True)
    origin = ShopKey(Agreement)
    cancellation = ShopKey(Agreement, null=True, blank=True)
    sheet: Any = models.JSONField(default=dict, blank=True)  # skill, after, wait_after, stage, how ...

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("job", name="job_operation_is_of_its_shop"),
            SameShop("operation", name="job_operation_operation_is_of_its_shop"),
            SameShop("done_by", name="job_operation_member_is_of_its_shop"),
            Check(condition=Q(state__in=["open", "running", "waiting", "done"]), name="step_state_is_known"),
            Check(condition=~Q(state="running") | Q(started_at__isnull=False), name="running_step_has_a_start"),
            Check(
                condition=Q(state="done", done_at__isnull=False, done_by__isnull=False)
                | ~Q(state="done") & Q(done_at__isnull=True, done_by__isnull=True),
                name="step_is_done_by_a_person_at_a_time",
            ),
            SameShop("job", "origin", to_fields=("job", "id"), name="job_operation_origin_is_of_its_job"),
            SameShop("job", "cancellation", to_fields=("job", "id"), name="job_operation_cancellation_is_of_its_job"),
            Unique(
                fields=["shop", "job", "code"],
                condition=Q(cancellation__isnull=True),
                name="code_is_once_among_the_steps_of_a_job",
            ),
            Check(condition=Q(quoted_hours__gte=0), name="job_operation_hours_are_not_negative"),
            Refuse(
                name="job_operation_stays_as_accepted",
                events=(
                    "update of id, shop_id, job_id, position, code, title, quoted_hours, sheet, origin_id",
                    "delete",
                ),
            ),
            Refuse(
                name="job_operation_keeps_its_operation",
                events=("update of operation_id",),
                when="OLD.operation_id IS NOT NULL",
            ),
            Refuse(
                name="job_operation_stays_cancelled",
                events=("update of cancellation_id",),
                when="OLD.cancellation_id IS NOT NULL",
            ),
        ]
        indexes = [
            Index(fields=["shop", "job", "position"], name="job_operation_in_order"),
            Index(fields=["shop", "operation"], name="job_operation_by_operation"),
            Index(fields=["shop", "done_by"], name="job_operation_by_member"),
            Index(fields=["shop", "origin"], name="job_operation_by_origin"),
            Index(fields=["shop", "cancellation"], name="job_operation_by_cancellation"),
        ]

    def __str__(self) -> str:
        return self.code
