import re
from decimal import Decimal
from typing import Any

from rest_framework import serializers

WRITTEN = re.compile(r"-?([0-9]+\.?[0-9]*|\.[0-9]+)")  # a minus is refused in words of its own


class Figure(serializers.DecimalField):
    """A figure of a request, as a string, not below nothing; a JSON number may have been a float and is refused.

    An empty string is no figure, where null is allowed too.
    """

    def __init__(self, *, decimals: int, digits: int = 14, **kw: object) -> None:
        super().__init__(max_digits=digits, decimal_places=decimals, min_value=Decimal(0), **kw)  # type: ignore[arg-type]

    def validate_empty_values(self, data: Any) -> tuple[bool, Any]:
        return serializers.Field.validate_empty_values(self, data)

    def to_internal_value(self, data: Any) -> Decimal:
        if not isinstance(data, str) or not WRITTEN.fullmatch(data.strip()):
            self.fail("invalid")
        return super().to_internal_value(data)
