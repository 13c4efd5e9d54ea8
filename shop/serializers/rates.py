from typing import Any

from rest_framework import serializers as s

from shop.serializers.currency import CurrencyCode
from shop.serializers.figure import Figure


class RateIn(s.Serializer[Any]):
    """The worth of one unit of a foreign currency from a day on."""

    currency = CurrencyCode(help_text="The foreign currency, in three letters.")
    rate = Figure(decimals=6, help_text="The worth of one unit in the shop's own currency.")
    valid_from = s.DateField(
        allow_null=True, default=None, help_text="The day from which it counts; null: from today on."
    )
