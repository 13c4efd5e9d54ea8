from functools import cache
from typing import Any

from rest_framework import serializers

from shop.words import say


@cache
def currencies() -> frozenset[str]:
    """The codes of currencies that CLDR has a name for."""
    from babel.numbers import list_currencies

    return frozenset(list_currencies())


class CurrencyCode(serializers.CharField):
    """A currency by its three letters (ISO 4217), in capitals or not."""

    def __init__(self, **kw: Any) -> None:
        super().__init__(max_length=3, **kw)

    def to_internal_value(self, data: Any) -> str:
        code = super().to_internal_value(data).upper()
        if code not in currencies():
            raise serializers.ValidationError(say("field.currency"))
        return code
