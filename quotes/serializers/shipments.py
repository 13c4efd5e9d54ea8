from decimal import Decimal
from typing import Any

from rest_framework import serializers as s

from shop.serializers.figure import Figure


class ShipmentIn(s.Serializer[Any]):
    text = s.CharField(max_length=20_000, help_text="Part numbers with quantities, a line each, as they were copied.")
    freight = Figure(decimals=3, help_text="Of the whole shipment, in the currency of the supplier.")
    brokerage = Figure(
        decimals=3, default=Decimal(0), help_text="Of the whole shipment, in the currency of the workshop."
    )
