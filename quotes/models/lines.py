from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import Index, Q
from django.db.models import UniqueConstraint as Unique

from kitting.models import KitRevision, Part
from quotes.models.quotes import Revision
from shop.constraints import SameShop, frozen_with
from shop.models import Operation
from shop.rows import ExactDecimalField, ShopKey, ShopRow

SENT = "p.state <> 'draft'"


class Choice(ShopRow):
    class Take(models.TextChoices):
        ONE = "one"
        ANY = "any"

    revision = ShopKey(Revision, models.CASCADE, related_name="choices")
    title = models.CharField(max_length=200)
    take = models.CharField(max_length=3, choices=Take)
    position = models.PositiveIntegerField()

    typed = ("title",)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("revision", name="choice_is_of_its_shop"),
            Unique(fields=["shop", "revision", "position"], name="choice_position_is_once"),
            Check(condition=Q(take__in=["one", "any"]), name="choice_take_is_known"),
            *frozen_with("choice", "revision_id", "quotes_revision", SENT),
        ]

    def __str__(self) -> str:
        return self.title


class Option(ShopRow):
    """An option of a choice. `revision` is repeated, so that the database can freeze it and compare it."""

    revision = ShopKey(Revision, models.CASCADE)
    choice = ShopKey(Choice, models.CASCADE, related_name="options")
    title = models.CharField(max_length=200)
    position = models.PositiveIntegerField()
    preselected = models.BooleanField(default=False)

    typed = ("title",)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("revision", name="option_revision_is_of_its_shop"),
            SameShop("choice", name="option_is_of_its_shop"),
            Unique(fields=["shop", "choice", "position"], name="option_position_is_once"),
            *frozen_with("option", "revision_id", "quotes_revision", SENT),
        ]
        indexes = [Index(fields=["shop", "revision"], name="option_by_revision")]

    def __str__(self) -> str:
        return self.title


class PartCondition(models.TextChoices):
    """The condition in which a part is sold."""

    NEW = "new"
    USED = "used"
    RECONDITIONED = "reconditioned"


class Line(ShopRow):
    """A line. A draft has only the lines that people chose; a sent revision has every line, with price and amount."""

    class Kind(models.TextChoices):
        KIT = "kit"
        PART = "part"
        TEXT = "text"
        OUTSIDE = "outside"
        LABOUR = "labour"
        NEED = "need"
        FEE = "fee"
        SUPPLIES = "supplies"

    revision = ShopKey(Revision, models.CASCADE, related_name="lines")
    position = models.PositiveIntegerField()
    kind = models.CharField(max_length=10, choices=Kind)
    option = ShopKey(Option, models.CASCADE, null=True, blank=True)
    certain = models.BooleanField(default=True)  # False: charged only if `event` happens, `cap` times at most
    cap = ExactDecimalField(scale=4, null=True, blank=True)
    event = models.CharField(max_length=200, blank=True)
    skill = models.CharField(max_length=40, blank=True)  # of chosen labour: `quantity` are its hours
    title = models.CharField(max_length=200)
    tax_class = models.CharField(max_length=20)
    kit_revision = ShopKey(KitRevision, null=True, blank=True)
    part = ShopKey(Part, null=True, blank=True)
    operation = ShopKey(Operation, null=True, blank=True)
    quantity = ExactDecimalField(scale=4)
    unit_price = ExactDecimalField(scale=4, null=True, blank=True)
    amount = ExactDecimalField(scale=3, null=True, blank=True)
    cost = ExactDecimalField(scale=4, null=True, blank=True)  # of the whole line
    fitted_before = models.BooleanField(default=False)  # a person says that the workshop has fitted this kit before
    part_condition = models.CharField(max_length=14, choices=PartCondition, default=PartCondition.NEW)
    original = models.BooleanField(default=False)  # a part of the vehicle's manufacturer
    core = models.BooleanField(default=False)  # a deposit on the old part, paid back when it comes
    supplied = models.BooleanField(default=False)  # the customer brings it; `operation` fits it, if it is no kit
    returnable = models.BooleanField(default=True)  # False: its supplier does not take it back
    override_reason = models.CharField(max_length=200, blank=True)  # of a part's own price

    typed = ("title", "event", "override_reason")

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            *(
                SameShop(key, name=f"line_{key}_is_of_its_shop")
                for key in ("revision", "option", "kit_revision", "part", "operation")
            ),
            Unique(fields=["shop", "revision", "position"], name="line_position_is_once"),
            Check(
                condition=Q(kind__in=["kit", "part", "text", "outside", "labour", "need", "fee", "supplies"]),
                name="line_kind_is_known",
            ),
            Check(condition=Q(kind="kit") ^ Q(kit_revision__isnull=True), name="line_of_a_kit_has_a_kit"),
            Check(condition=Q(part_condition__in=PartCondition.values), name="line_part_condition_is_known"),
            Check(condition=Q(certain=True) | Q(cap__isnull=False), name="conditional_line_has_a_cap"),
            Check(
                condition=Q(supplied=False)
                | Q(kind__in=["kit", "part", "text"], certain=True, core=False, unit_price__isnull=False, unit_price=0),
                name="customers_part_is_certain_and_free",
            ),
            Check(condition=Q(core=False) | Q(kind="text", certain=True), name="core_deposit_is_written_by_hand"),
            Check(
                condition=Q(certain=True) | Q(kind__in=["part", "text", "labour"]) & ~Q(event=""),
                name="line_that_may_happen_names_its_event",
            ),
            *frozen_with("line", "revision_id", "quotes_revision", SENT),
        ]
        indexes = [
            Index(fields=["shop", "option"], name="line_by_option"),
            Index(fields=["shop", "kit_revision"], name="line_by_kit"),
            Index(fields=["shop", "part"], name="line_by_part"),
            Index(fields=["shop", "operation"], name="line_by_operation"),
            Index(fields=["shop", "-id"], condition=Q(core=True), name="line_of_a_core_deposit"),
        ]

    def __str__(self) -> str:
        return self.title

    @property
    def is_chosen_labour(self) -> bool:
        """Whether a person added this labour to the quote. Labour lines that sending writes have no skill."""
        return self.kind == self.Kind.LABOUR and self.certain and self.skill != ""


class Override(ShopRow):
    """A person's figure that replaces the one worked out. `figure` is labour:CODE, kit:LINE or need:KEY."""

    revision = ShopKey(Revision, models.CASCADE, related_name="overrides")
    figure = models.CharField(max_length=120)
    own_value = ExactDecimalField(scale=4)
    reason = models.CharField(max_length=200)

    typed = ("reason",)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("revision", name="override_is_of_its_shop"),
            Unique(fields=["shop", "revision", "figure"], name="override_is_once_a_figure"),
            Check(condition=Q(own_value__gte=0), name="override_is_not_negative"),
            Check(condition=~Q(reason=""), name="override_has_a_reason"),
            *frozen_with("override", "revision_id", "quotes_revision", SENT),
        ]

    def __str__(self) -> str:
        return self.figure
