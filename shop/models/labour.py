from typing import Any

from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import F, Index, Q
from django.db.models import UniqueConstraint as Unique

from shop.constraints import Refuse, SameShop, frozen_with
from shop.rows import ExactDecimalField, ShopKey, ShopRow


class Operation(ShopRow):
    """A piece of work, with its cautions and the values that it has to keep."""

    class Sharing(models.TextChoices):
        ONCE = "once"
        EACH = "each"

    code = models.CharField(max_length=40)
    title = models.CharField(max_length=200)
    skill = models.CharField(max_length=20)
    book_hours = ExactDecimalField(scale=2)
    sharing = models.CharField(max_length=4, choices=Sharing, default=Sharing.ONCE)
    exposed = models.BooleanField(default=False)  # rusted fasteners make it longer: the condition factor applies
    no_return = models.BooleanField(default=False)  # from here on the vehicle cannot move
    mobile_again = models.BooleanField(default=False)
    hold_point = models.BooleanField(default=False)
    wheels_off = models.BooleanField(default=False)  # the rules say after what distance their fasteners are checked
    wait_after = models.PositiveIntegerField(default=0)  # minutes on the wall clock
    archived = models.BooleanField(default=False)
    version = models.PositiveIntegerField(default=1)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            Unique(fields=["shop", "code"], name="operation_code_is_once_in_a_shop"),
            Check(condition=Q(book_hours__gte=0), name="operation_hours_are_not_negative"),
            Check(condition=Q(sharing__in=["once", "each"]), name="operation_sharing_is_known"),
        ]

    def __str__(self) -> str:
        return self.code


class OperationPair(ShopRow):
    """Two operations: `operation` includes the other, or both together save `hours` (`overlap`)."""

    class Kind(models.TextChoices):
        INCLUDES = "includes"
        OVERLAP = "overlap"

    kind = models.CharField(max_length=8, choices=Kind)
    operation = ShopKey(Operation)
    other = ShopKey(Operation)
    hours = ExactDecimalField(scale=2, null=True, blank=True)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("operation", name="pair_operation_is_of_its_shop"),
            SameShop("other", name="pair_other_is_of_its_shop"),
            Unique(fields=["shop", "operation", "other", "kind"], name="operation_pair_is_once"),
            Check(condition=~Q(operation=F("other")), name="operation_pair_is_of_two"),
            Check(
                condition=Q(kind="includes", hours__isnull=True) | Q(kind="overlap", hours__isnull=False, hours__gt=0),
                name="operation_pair_has_hours_when_overlap",
            ),
        ]
        indexes = [Index(fields=["shop", "other"], name="pair_by_other")]

    def __str__(self) -> str:
        return f"{self.operation_id} {self.kind} {self.other_id}"


class LabourTemplate(ShopRow):
    """The work of fitting a kit. A row is one revision; its first use freezes it with its steps.

    A template is archived if its newest revision is. `version` counts how often that changed.
    """

    code = models.CharField(max_length=40)
    number = models.PositiveIntegerField(default=1)
    used_at = models.DateTimeField(null=True, blank=True)
    archived = models.BooleanField(default=False)
    version = models.PositiveIntegerField(default=1)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            Unique(fields=["shop", "code", "number"], name="labour_template_revision_is_once"),
            Refuse(
                name="labour_template_in_use_never_changes",
                events=("update of code, number, used_at, shop_id", "delete"),
                when="OLD.used_at IS NOT NULL",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.code} {self.number}"


class TemplateStep(ShopRow):
    """One operation of a template: its hours, the codes of its predecessors (`after`), and its stage.

    It applies if all `conditions` hold: [{"attribute", "in": [values]}].
    """

    template = ShopKey(LabourTemplate, models.CASCADE, related_name="steps")
    operation = ShopKey(Operation)
    position = models.PositiveIntegerField()
    hours = ExactDecimalField(scale=2)
    stage = models.CharField(max_length=40, blank=True)
    after: Any = models.JSONField(default=list, blank=True)
    conditions: Any = models.JSONField(default=list, blank=True)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("template", name="step_template_is_of_its_shop"),
            SameShop("operation", name="step_operation_is_of_its_shop"),
            Unique(fields=["shop", "template", "operation"], name="operation_is_once_in_a_template"),
            Unique(fields=["shop", "template", "position"], name="step_position_is_once_in_a_template"),
            Check(condition=Q(hours__gte=0), name="step_hours_are_not_negative"),
            *frozen_with("template_step", "template_id", "shop_labourtemplate", "p.used_at IS NOT NULL"),
        ]
        indexes = [Index(fields=["shop", "operation"], name="step_by_operation")]

    def __str__(self) -> str:
        return f"step {self.position}"
