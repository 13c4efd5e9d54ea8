from typing import Any

from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import F, Index, Q
from django.db.models import UniqueConstraint as Unique

from kitting.models.parts import Consumable, Part
from shop.constraints import Refuse, SameShop, frozen_with
from shop.keys import KeyField
from shop.models import FileRead, LabourTemplate, Operation
from shop.rows import ExactDecimalField, ShopKey, ShopRow
from shop.search_words import Searched, SearchWord

IN_USE = "p.used_at IS NOT NULL"


class Kit(Searched):
    """`part` is the number under which the whole kit is bought; `fits` are the conditions on the vehicle.

    `fitted_before` is the number of times that the workshop fitted it before it used this tool.
    """

    code = models.CharField(max_length=40)
    title = models.CharField(max_length=200)
    title_key = KeyField(max_length=240)
    part = ShopKey(Part)
    fits: Any = models.JSONField(default=list, blank=True)  # [{"attribute", "in": [values]}]
    fitted_before = models.PositiveSmallIntegerField(default=0)
    archived = models.BooleanField(default=False)
    version = models.PositiveIntegerField(default=1)  # a new revision raises it too

    typed = ("code", "title", "fits")

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("part", name="kit_part_is_of_its_shop"),
            Unique(fields=["shop", "code"], name="kit_code_is_once_in_a_shop"),
        ]
        indexes = [
            Index(fields=["shop", "part"], name="kit_by_part"),
            Index(fields=["shop", "title_key"], name="kit_by_title"),
        ]

    def __str__(self) -> str:
        return self.code

    @property
    def search_texts(self) -> tuple[str, ...]:
        """The words to find a kit by. They hold every value that it asks of a vehicle, so that 'brake T35' finds it."""
        values = (value for condition in self.fits for value in condition["in"])
        return self.title, self.code, self.part.number, *values


class KitWord(SearchWord):
    target = ShopKey(Kit, models.CASCADE, related_name="search_words")

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("target", name="kit_word_is_of_its_shop"),
            Unique(fields=["shop", "target", "word"], name="kit_word_is_once"),
        ]
        indexes = [Index(fields=["shop", "word", "target"], name="kit_by_word")]


class KitRevision(ShopRow):
    """One revision of a kit. `price` and `hours` serve until there is an offer and a labour template.

    So do `cost`, of the whole kit in the shop's own money before tax, and `lead_days`, calendar days from the order.
    """

    kit = ShopKey(Kit, related_name="revisions")
    number = models.PositiveIntegerField()
    labour = ShopKey(LabourTemplate, null=True, blank=True)
    price = ExactDecimalField(scale=4, null=True, blank=True)
    hours = ExactDecimalField(scale=2, null=True, blank=True)
    cost = ExactDecimalField(scale=4, null=True, blank=True)
    lead_days = models.PositiveSmallIntegerField(null=True, blank=True)
    used_at = models.DateTimeField(null=True, blank=True)
    file = ShopKey(FileRead, null=True, blank=True)  # that it was imported from

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("kit", name="kit_revision_is_of_its_shop"),
            SameShop("labour", name="kit_labour_is_of_its_shop"),
            SameShop("file", name="kit_file_is_of_its_shop"),
            Unique(fields=["shop", "kit", "id"], name="kit_revision_is_of_one_kit"),
            Unique(fields=["shop", "kit", "number"], name="kit_revision_is_once"),
            Check(
                condition=(Q(price__isnull=True) | Q(price__gte=0)) & (Q(hours__isnull=True) | Q(hours__gte=0)),
                name="kit_price_and_hours_are_not_negative",
            ),
            Check(condition=Q(cost__isnull=True) | Q(cost__gte=0), name="kit_cost_is_not_negative"),
            Refuse(
                name="kit_revision_in_use_never_changes",
                events=(
                    "update of kit_id, number, labour_id, price, hours, cost, lead_days, used_at, file_id, shop_id",
                    "delete",
                ),
                when="OLD.used_at IS NOT NULL",
            ),
        ]
        indexes = [
            Index(fields=["shop", "labour"], name="kit_by_labour"),
            Index(fields=["shop", "file"], name="kit_by_file"),
        ]

    def __str__(self) -> str:
        return f"version {self.number}"


class KitLineKind(models.TextChoices):
    CARTON = "carton"
    BAG = "bag"
    PART = "part"


class KitLineShips(models.TextChoices):
    ALWAYS = "always"
    WHEN = "when"


class KitLine(ShopRow):
    """Carton > bag > part. Reading in `position` order is reading the tree."""

    Kind = KitLineKind

    class Role(models.TextChoices):
        FIT = "fit"
        SPARE = "spare"
        TOOL = "tool"
        PAPER = "paper"

    Ships = KitLineShips

    revision = ShopKey(KitRevision, models.CASCADE, related_name="lines")
    parent = ShopKey("self", models.CASCADE, null=True, blank=True)
    position = models.PositiveIntegerField()
    kind = models.CharField(max_length=7, choices=Kind)
    label = models.CharField(max_length=80, blank=True)
    part = ShopKey(Part, null=True, blank=True)
    quantity = ExactDecimalField(scale=4)
    conditions: Any = models.JSONField(default=list, blank=True)  # [{"attribute", "in": [values]}], all must hold
    ships = models.CharField(max_length=6, choices=Ships, default=Ships.ALWAYS)
    role = models.CharField(max_length=8, choices=Role, default=Role.FIT)
    operation = ShopKey(Operation, null=True, blank=True)  # the operation that first needs the line

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            Unique(fields=["shop", "revision", "id"], name="kit_line_is_of_one_revision"),
            SameShop("revision", name="kit_line_is_of_its_shop"),
            SameShop("part", name="kit_line_part_is_of_its_shop"),
            SameShop("operation", name="kit_line_operation_is_of_its_shop"),
            SameShop("revision", "parent", to_fields=("revision", "id"), name="kit_line_parent_is_in_its_revision"),
            Unique(fields=["shop", "revision", "position"], name="kit_line_position_is_once"),
            Check(condition=Q(quantity__gt=0), name="kit_line_quantity_is_positive"),
            Check(condition=Q(ships__in=["always", "when"]), name="kit_line_ships_is_known"),
            Check(
                condition=Q(kind="part", part__isnull=False) | Q(kind__in=["carton", "bag"], part__isnull=True),
                name="kit_line_part_has_a_part",
            ),
            Check(condition=Q(parent__isnull=True) | ~Q(parent=F("id")), name="kit_line_is_not_its_own_parent"),
            *frozen_with("kit_line", "revision_id", "kitting_kitrevision", IN_USE),
        ]
        indexes = [
            Index(fields=["shop", "parent"], name="kit_line_by_parent"),
            Index(fields=["shop", "part"], name="kit_line_by_part"),
            Index(fields=["shop", "operation"], name="kit_line_by_operation"),
        ]

    def __str__(self) -> str:
        return f"line {self.position}"


class NeedRule(models.TextChoices):
    FIXED = "fixed"
    PER_FASTENER = "per_fastener"
    BEAD = "bead"
    OF_CAPACITY = "of_capacity"
    REFILL = "refill"
    REFILL_WATER = "refill_water"


class NeedCharge(models.TextChoices):
    PACK = "pack"
    USED = "used"
    SUPPLIES = "supplies"


class Need(ShopRow):
    """A need of the work that is not in the box. The rule gives its quantity:

    fixed          `quantity`
    per_fastener   `quantity` each, of `basis` fasteners
    bead           `quantity` metres, `basis` mm wide
    of_capacity    `quantity` times the vehicle's capacity `basis`
    refill         concentrate to refill circuit `basis` after a partial drain, the kit adding `quantity` litres to it
    refill_water   the water that goes with it
    """

    Rule = NeedRule
    Charge = NeedCharge

    revision = ShopKey(KitRevision, models.CASCADE, related_name="needs")
    position = models.PositiveIntegerField()
    consumable = ShopKey(Consumable, null=True, blank=True)
    part = ShopKey(Part, null=True, blank=True)
    rule = models.CharField(max_length=12, choices=Rule, default=Rule.FIXED)
    quantity = ExactDecimalField(scale=4)
    basis = models.CharField(max_length=40, blank=True)
    charge = models.CharField(max_length=8, choices=Charge, default=Charge.PACK)
    operation = ShopKey(Operation, null=True, blank=True)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("revision", name="need_is_of_its_shop"),
            SameShop("consumable", name="need_consumable_is_of_its_shop"),
            SameShop("part", name="need_part_is_of_its_shop"),
            SameShop("operation", name="need_operation_is_of_its_shop"),
            Unique(fields=["shop", "revision", "position"], name="need_position_is_once"),
            Check(
                condition=Q(consumable__isnull=False) ^ Q(part__isnull=False),
                name="need_is_a_consumable_or_a_part",
            ),
            Check(condition=Q(quantity__gte=0), name="need_quantity_is_not_negative"),
            Check(
                condition=Q(rule__in=["fixed", "per_fastener", "bead", "of_capacity", "refill", "refill_water"]),
                name="need_rule_is_known",
            ),
            Check(condition=Q(charge__in=["pack", "used", "supplies"]), name="need_charge_is_known"),
            *frozen_with("need", "revision_id", "kitting_kitrevision", IN_USE),
        ]
        indexes = [
            Index(fields=["shop", "consumable"], name="need_by_consumable"),
            Index(fields=["shop", "part"], name="need_by_part"),
            Index(fields=["shop", "operation"], name="need_by_operation"),
        ]

    def __str__(self) -> str:
        return f"need {self.position}"


class ReusedPart(ShopRow):
    """Comes off the vehicle at one operation and goes back on at another."""

    revision = ShopKey(KitRevision, models.CASCADE, related_name="reused")
    position = models.PositiveIntegerField()
    title = models.CharField(max_length=200)
    quantity = ExactDecimalField(scale=4)
    off_at = ShopKey(Operation, null=True, blank=True)
    back_at = ShopKey(Operation, null=True, blank=True)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("revision", name="reused_part_is_of_its_shop"),
            SameShop("off_at", name="reused_off_at_is_of_its_shop"),
            SameShop("back_at", name="reused_back_at_is_of_its_shop"),
            Unique(fields=["shop", "revision", "position"], name="reused_position_is_once"),
            Check(condition=Q(quantity__gt=0), name="reused_quantity_is_positive"),
            *frozen_with("reused_part", "revision_id", "kitting_kitrevision", IN_USE),
        ]
        indexes = [
            Index(fields=["shop", "off_at"], name="reused_by_off_at"),
            Index(fields=["shop", "back_at"], name="reused_by_back_at"),
        ]

    def __str__(self) -> str:
        return self.title
