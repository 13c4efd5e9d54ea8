from typing import Any

from django.db import models
from django.db.models import CheckConstraint as Check
from django.db.models import Index, Q
from django.db.models import UniqueConstraint as Unique

from shop.constraints import SameShop
from shop.keys import KeyField
from shop.language_tags import LanguageField
from shop.rows import ShopKey, ShopRow
from shop.search_words import Searched, SearchWord

VIN_TAIL = 8  # the last characters of a VIN, in a column of their own


class Customer(Searched):
    name = models.CharField(max_length=120)
    name_key = KeyField(max_length=160)  # shop.calc.keys.search_key, for finding
    phone = models.CharField(max_length=40, blank=True)
    phone_key = KeyField(max_length=40, blank=True)
    email = models.EmailField(blank=True)
    address = models.CharField(max_length=200, blank=True)
    language = LanguageField(blank=True)  # of the pages and documents for this customer; empty: the shop's
    archived = models.BooleanField(default=False)
    merged_into = ShopKey("self", null=True, blank=True)  # the record that stays, of two of one customer
    version = models.PositiveIntegerField(default=1)

    typed = ("name", "phone", "email", "address")

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("merged_into", name="merged_customer_is_of_its_shop"),
            Check(condition=Q(merged_into__isnull=True) | Q(archived=True), name="merged_customer_is_archived"),
        ]
        indexes = [
            Index(fields=["shop", "name_key"], name="customer_by_name"),
            Index(fields=["shop", "phone_key"], name="customer_by_phone"),
            Index(fields=["shop", "merged_into"], name="customer_by_record_that_stays"),
        ]

    def __str__(self) -> str:
        return self.name

    @property
    def search_texts(self) -> tuple[str, ...]:
        return () if self.archived else (self.name, self.phone)

    @property
    def standing(self) -> "Customer":
        """The record that stays: itself, or the one that it was put together with."""
        return self.merged_into or self


class Vehicle(Searched):
    """A vehicle. `attributes`, such as {"transmission": "automatic"}, answer conditions; `capacities` are litres."""

    customer = ShopKey(Customer, null=True, blank=True, related_name="vehicles")
    title = models.CharField(max_length=120)  # make and model as people say it
    title_key = KeyField(max_length=160)
    vin = models.CharField(max_length=17, blank=True)
    vin_tail = models.CharField(max_length=8, blank=True)
    plate = models.CharField(max_length=16, blank=True)
    plate_key = KeyField(max_length=16, blank=True)
    attributes: Any = models.JSONField(default=dict, blank=True)
    capacities: Any = models.JSONField(default=dict, blank=True)
    version = models.PositiveIntegerField(default=1)

    typed = ("title", "vin", "plate", "attributes", "capacities")

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("customer", name="vehicle_customer_is_of_its_shop"),
            Unique(fields=["shop", "vin"], condition=~Q(vin=""), name="vehicle_vin_is_once_in_a_shop"),
        ]
        indexes = [
            Index(fields=["shop", "customer"], name="vehicle_by_customer"),
            Index(fields=["shop", "title_key"], name="vehicle_by_title"),
            Index(fields=["shop", "plate_key"], name="vehicle_by_plate"),
            Index(fields=["shop", "vin_tail"], name="vehicle_by_vin_tail"),
        ]

    def __str__(self) -> str:
        return self.title

    @property
    def search_texts(self) -> tuple[str, ...]:
        return self.title, self.plate, *vin_endings(self.vin)


def vin_endings(vin: str) -> tuple[str, ...]:
    """The last four, five, six and seven characters of a VIN, as people say them; `vin_tail` has eight."""
    return tuple(vin[-length:] for length in range(4, VIN_TAIL) if len(vin) >= length)


class CustomerWord(SearchWord):
    target = ShopKey(Customer, models.CASCADE, related_name="search_words")

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("target", name="customer_word_is_of_its_shop"),
            Unique(fields=["shop", "target", "word"], name="customer_word_is_once"),
        ]
        indexes = [Index(fields=["shop", "word", "target"], name="customer_by_word")]


class VehicleWord(SearchWord):
    target = ShopKey(Vehicle, models.CASCADE, related_name="search_words")

    class Meta(ShopRow.Meta):
        constraints = [
            *ShopRow.Meta.constraints,
            SameShop("target", name="vehicle_word_is_of_its_shop"),
            Unique(fields=["shop", "target", "word"], name="vehicle_word_is_once"),
        ]
        indexes = [Index(fields=["shop", "word", "target"], name="vehicle_by_word")]
