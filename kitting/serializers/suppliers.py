from typing import Any

from rest_framework import serializers as s

from kitting.serializers.kits import MOST_LEAD
from shop.serializers.currency import CurrencyCode


class SupplierIn(s.Serializer[Any]):
    name = s.CharField(max_length=120)
    currency = CurrencyCode(help_text="That of its prices, in three letters.")
    contact = s.CharField(
        max_length=200, allow_blank=True, default="", help_text="The person to ask, and how; empty for none."
    )
    lead_days = s.IntegerField(
        min_value=0,
        max_value=MOST_LEAD,
        allow_null=True,
        default=None,
        help_text="Calendar days from the order until it comes; null if not known.",
    )


class SupplierChange(s.Serializer[Any]):
    name = s.CharField(max_length=120, required=False)
    contact = s.CharField(
        max_length=200, allow_blank=True, required=False, help_text="The person to ask, and how; empty for none."
    )
    lead_days = s.IntegerField(
        min_value=0,
        max_value=MOST_LEAD,
        allow_null=True,
        required=False,
        help_text="Calendar days from the order until it comes; null if not known.",
    )
    archived = s.BooleanField(required=False, help_text="True to archive it, false to bring it back.")
