from typing import Any

from django.db import models
from django.db.models import Index, Q
from django.db.models import UniqueConstraint as Unique

from shop.constraints import SameShop
from shop.keys import KeyField
from shop.rows import ShopKey, ShopRow


class Customer(ShopRow):
    name = models.CharField(max_length=120)
    name_key = KeyField(max_length=160)  # shop.calc.keys.search_key, for finding
    phone = models.CharField(max_length=40, blank=True)
    phone_key = KeyField(max_length=40, blank=True)
    email = models.EmailField(blank=True)
    address = models.CharField(max_length=200, blank=True)
    archived = models.BooleanField(default=False)
    version = models.PositiveIntegerField(default=1)

    typed = ("name", "phone", "address")

    class Meta(ShopRow.Meta):
        indexes = [
            Index(fields=["shop", "name_key"], name="customer_by_name"),
            Index(fields=["shop", "phone_key"], name="customer_by_phone"),
        ]

    def __str__(self) -> str:
        return self.name


class Vehicle(ShopRow):
    """`attributes` is what `when` may ask, {"transmission": "automatic"}; `capacities` are litres as strings."""

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
