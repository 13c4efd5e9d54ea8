from typing import Any, Literal

from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import F, Index, Q
from django.db.models import UniqueConstraint as Unique

from shop.constraints import SameShop
from shop.keys import KeyField
from shop.rows import ExactDecimalField, ShopKey, ShopRow
from shop.search_words import Searched, SearchWord

UNITS = ["pc", "set", "pair", "m", "cm", "mm", "L", "mL", "kg", "g"]  # in which goods are counted and measured

About = Literal["column", "answer", "fact", "text", "left_out"]  # what a supplier's file taught


class Supplier(ShopRow):
    """`columns` and `answers` remember how its files are read.

    They are {kind of file: {field: heading}} and {kind of file: {"answers", "fields", "values", "left_out"}}.
    """

    name = models.CharField(max_length=120)
    currency = models.CharField(max_length=3)
    contact = models.CharField(max_length=200, blank=True)  # whom to ask, and how
    lead_days = models.PositiveSmallIntegerField(null=True, blank=True)  # where an offer or a kit names none
    archived = models.BooleanField(default=False)
    version = models.PositiveIntegerField(default=1)
    columns: Any = models.JSONField(default=dict, blank=True)
    answers: Any = models.JSONField(default=dict, blank=True)

    typed = ("name", "contact")

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            Unique(fields=["shop", "name"], name="supplier_name_is_once_in_a_shop"),
        ]

    def __str__(self) -> str:
        return self.name


class Consumable(ShopRow):
    """A fluid or material by family and specification, never by brand or colour. A pack of it is a Part."""

    family = models.CharField(max_length=40)
    specification = models.CharField(max_length=80, blank=True)
    unit = models.CharField(max_length=4)  # L, mL, g, pc, m
    tax_class = models.CharField(max_length=20, blank=True)
    hazard: Any = models.JSONField(default=dict, blank=True)
    shelf_life_days = models.PositiveIntegerField(null=True, blank=True)
    archived = models.BooleanField(default=False)
    version = models.PositiveIntegerField(default=1)  # a change to one of its packs raises it too

    typed = ("family", "specification")

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            Unique(fields=["shop", "family", "specification"], name="consumable_is_once_in_a_shop"),
            Check(condition=Q(unit__in=UNITS), name="consumable_unit_is_known"),
        ]

    def __str__(self) -> str:
        return f"{self.family}, {self.specification}" if self.specification else self.family


class Part(Searched):
    """Anything with a number that can be bought. A pack is a part with a consumable and a size."""

    class Kind(models.TextChoices):
        PART = "part"
        PACK = "pack"
        TOOL = "tool"

    number = models.CharField(max_length=60)
    number_key = KeyField(max_length=60)
    title = models.CharField(max_length=200)
    kind = models.CharField(max_length=10, choices=Kind, default=Kind.PART)
    unit = models.CharField(max_length=4, default="pc")
    tax_class = models.CharField(max_length=20, blank=True)
    consumable = ShopKey(Consumable, null=True, blank=True, related_name="packs")
    pack_size = ExactDecimalField(scale=4, null=True, blank=True)
    selling_price = ExactDecimalField(
        scale=4, null=True, blank=True
    )  # of one, as prices are: with tax where they hold it
    returnable = models.BooleanField(default=True)  # False: its supplier does not take it back
    superseded_by = ShopKey("self", null=True, blank=True)
    preferred = ShopKey(Supplier, null=True, blank=True)  # whose newest offer makes the price
    archived = models.BooleanField(default=False)  # a pack that is no longer bought

    typed = ("number", "title")

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("consumable", name="pack_consumable_is_of_its_shop"),
            SameShop("superseded_by", name="part_successor_is_of_its_shop"),
            SameShop("preferred", name="part_supplier_is_of_its_shop"),
            Unique(fields=["shop", "number_key"], name="part_number_is_once_in_a_shop"),
            Check(condition=Q(kind__in=["part", "pack", "tool"]), name="part_kind_is_known"),
            Check(condition=Q(unit__in=UNITS), name="part_unit_is_known"),
            Check(
                condition=Q(kind="pack", consumable__isnull=False, pack_size__isnull=False, pack_size__gt=0)
                | (~Q(kind="pack") & Q(consumable__isnull=True, pack_size__isnull=True)),
                name="pack_has_a_consumable_and_a_size",
            ),
            Check(
                condition=Q(selling_price__isnull=True) | Q(selling_price__gte=0), name="selling_price_is_not_negative"
            ),
            Check(
                condition=Q(superseded_by__isnull=True) | ~Q(superseded_by=F("id")),
                name="part_does_not_supersede_itself",
            ),
        ]
        indexes = [
            Index(fields=["shop", "consumable"], name="part_by_consumable"),
            Index(fields=["shop", "superseded_by"], name="part_by_successor"),
            Index(fields=["shop", "preferred"], name="part_by_supplier"),
        ]

    def __str__(self) -> str:
        return self.number

    @property
    def search_texts(self) -> tuple[str, ...]:
        return self.number, self.title


class PartWord(SearchWord):
    target = ShopKey(Part, models.CASCADE, related_name="search_words")

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("target", name="part_word_is_of_its_shop"),
            Unique(fields=["shop", "target", "word"], name="part_word_is_once"),
        ]
        indexes = [Index(fields=["shop", "word", "target"], name="part_by_word")]


class Code(ShopRow):
    """A code that a scanner reads for a part: a GTIN of 14 digits, a manufacturer's number, a learned alias."""

    code = models.CharField(max_length=80)
    part = ShopKey(Part, related_name="codes")

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("part", name="code_part_is_of_its_shop"),
            Unique(fields=["shop", "code"], name="code_is_once_in_a_shop"),
        ]
        indexes = [Index(fields=["shop", "part"], name="code_by_part")]

    def __str__(self) -> str:
        return self.code


class Offer(ShopRow):
    """A supplier's price of a part from a day on: cost and freight in `currency`, brokerage in the shop's own."""

    supplier = ShopKey(Supplier)
    part = ShopKey(Part, related_name="offers")
    currency = models.CharField(max_length=3)
    unit_cost = ExactDecimalField(scale=4)
    duty_rate = ExactDecimalField(scale=6, default=0)
    freight = ExactDecimalField(scale=4, default=0)  # a unit
    brokerage = ExactDecimalField(scale=4, default=0)  # a unit
    valid_from = models.DateField()
    valid_until = models.DateField(null=True, blank=True)  # the supplier's last day for this price
    lead_days = models.PositiveSmallIntegerField(null=True, blank=True)

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("supplier", name="offer_supplier_is_of_its_shop"),
            SameShop("part", name="offer_part_is_of_its_shop"),
            Unique(fields=["shop", "part", "supplier", "valid_from"], name="offer_is_once_a_day"),
            Check(
                condition=Q(unit_cost__gte=0, duty_rate__gte=0, freight__gte=0, brokerage__gte=0),
                name="offer_cost_is_not_negative",
            ),
        ]
        indexes = [Index(fields=["shop", "supplier"], name="offer_by_supplier")]

    def __str__(self) -> str:
        return f"{self.part_id} from {self.valid_from}"
