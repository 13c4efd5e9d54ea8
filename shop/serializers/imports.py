from typing import Any

from drf_spectacular.utils import extend_schema_field
from rest_framework import serializers as s

from shop.api.parsers import refuse_unkeepable


@extend_schema_field({"type": "object", "additionalProperties": {"type": "string"}})
class MappingField(s.JSONField):
    """{field: heading}; in a form it is written as JSON."""

    def to_internal_value(self, data: Any) -> Any:
        try:
            value = super().to_internal_value(data)
        except RecursionError:
            self.fail("invalid")
        refuse_unkeepable(value, "/mapping")
        return value


class ImportIn(s.Serializer[Any]):
    kind = s.CharField(max_length=20)
    file = s.FileField(allow_empty_file=True, max_length=200)
    supplier = s.CharField(max_length=120, allow_blank=True, default="")
    mapping = MappingField(default=dict)


class TakeInIn(s.Serializer[Any]):
    """Nothing: the file is named by the address."""
