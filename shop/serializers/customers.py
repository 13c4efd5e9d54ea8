from typing import Any

from rest_framework import serializers as s

from shop.serializers.figure import Figure
from shop.words import say


class Names(s.DictField):
    """{name: value} of short texts, such as {"transmission": "automatic"}."""

    child: s.Field[Any, Any, Any, Any] = s.CharField(max_length=40, allow_blank=True)

    def to_internal_value(self, data: Any) -> dict[str, Any]:
        values = super().to_internal_value(data)
        if len(values) > 40 or any(len(key) > 40 for key in values):
            raise s.ValidationError(say("field.too_many"))
        return {key: value for key, value in values.items() if value != ""}


class Litres(Names):
    """{circuit: litres} with litres as decimal strings."""

    child = Figure(decimals=4, digits=9)

    def to_internal_value(self, data: Any) -> dict[str, Any]:
        return {key: f"{value.normalize():f}" for key, value in super().to_internal_value(data).items()}


class CustomerIn(s.Serializer[Any]):
    name = s.CharField(max_length=120)
    phone = s.CharField(max_length=40, allow_blank=True, default="")
    email = s.EmailField(allow_blank=True, default="")
    address = s.CharField(max_length=200, allow_blank=True, default="")


class CustomerChange(s.Serializer[Any]):
    name = s.CharField(max_length=120, required=False)
    phone = s.CharField(max_length=40, allow_blank=True, required=False)
    email = s.EmailField(allow_blank=True, required=False)
    address = s.CharField(max_length=200, allow_blank=True, required=False)


class VehicleIn(s.Serializer[Any]):
    title = s.CharField(max_length=120, help_text="The make and model.")
    customer = s.UUIDField(
        allow_null=True, default=None, help_text="The id of the customer; null where none is recorded."
    )
    vin = s.CharField(max_length=40, allow_blank=True, default="")
    plate = s.CharField(max_length=16, allow_blank=True, default="")
    attributes = Names(default=dict)
    capacities = Litres(default=dict)


class OwnerIn(s.Serializer[Any]):
    customer = s.UUIDField(help_text="The id of the new owner.")
    since = s.DateField(help_text="The day since when the vehicle is theirs, today or earlier.")


class VehicleChange(s.Serializer[Any]):
    title = s.CharField(max_length=120, required=False, help_text="The make and model.")
    customer = s.UUIDField(
        allow_null=True, required=False, help_text="The id of the customer; null where none is recorded."
    )
    vin = s.CharField(max_length=40, allow_blank=True, required=False)
    plate = s.CharField(max_length=16, allow_blank=True, required=False)
    attributes = Names(required=False)
    capacities = Litres(required=False)
