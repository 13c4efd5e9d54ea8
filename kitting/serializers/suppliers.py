from typing import Any

from rest_framework import serializers as s


class SupplierChange(s.Serializer[Any]):
    name = s.CharField(max_length=120, required=False)
    contact = s.CharField(
        max_length=200, allow_blank=True, required=False, help_text="The person to ask, and how; empty for none."
    )
