from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import Q
from django.db.models import UniqueConstraint as Unique

from shop.constraints import SameShop, append_only
from shop.models.jobs import JobOperation
from shop.models.labour import Operation
from shop.rows import ShopKey, ShopRow


class Caution(ShopRow):
    """A caution: a hazard to people or to the vehicle."""

    position = models.PositiveSmallIntegerField()
    text = models.TextField()

    class Meta(ShopRow.Meta):
        abstract = True

    def __str__(self) -> str:
        return self.text


class ValueKind(models.TextChoices):
    TORQUE = "torque"
    OTHER = "other"  # a run-out, a pressure or a height


class RequiredValue(ShopRow):
    """A value of the manufacturer's that the work has to keep, as the manufacturer writes it, with its unit."""

    Kind = ValueKind

    position = models.PositiveSmallIntegerField()
    kind = models.CharField(max_length=6, choices=Kind, default=Kind.TORQUE)
    fastener = models.TextField(blank=True)  # of the kind other: what is measured
    value = models.TextField(blank=True)

    class Meta(ShopRow.Meta):
        abstract = True

    def __str__(self) -> str:
        return f"{self.fastener}: {self.value}"


class OperationCaution(Caution):
    operation = ShopKey(Operation, models.CASCADE, related_name="cautions")

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("operation", name="operation_caution_is_of_its_shop"),
            Unique(fields=["shop", "operation", "position"], name="operation_caution_position_is_once"),
        ]


class OperationValue(RequiredValue):
    operation = ShopKey(Operation, models.CASCADE, related_name="required_values")

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("operation", name="operation_value_is_of_its_shop"),
            Unique(fields=["shop", "operation", "position"], name="operation_value_position_is_once"),
            Check(condition=Q(kind__in=["torque", "other"]), name="operation_value_kind_is_known"),
        ]


class StepCaution(Caution):
    """A caution of a job's step, as it stood when the job was opened."""

    step = ShopKey(JobOperation, related_name="cautions")

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("step", name="step_caution_is_of_its_shop"),
            Unique(fields=["shop", "step", "position"], name="step_caution_position_is_once"),
            append_only("step_caution_never_changes"),
        ]


class StepValue(RequiredValue):
    """A value that a job's step has to keep, as it stood when the job was opened."""

    step = ShopKey(JobOperation, related_name="required_values")

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("step", name="step_value_is_of_its_shop"),
            Unique(fields=["shop", "step", "position"], name="step_value_position_is_once"),
            Check(condition=Q(kind__in=["torque", "other"]), name="step_value_kind_is_known"),
            append_only("step_value_never_changes"),
        ]
