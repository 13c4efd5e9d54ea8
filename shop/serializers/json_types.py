"""Makes each field of a JSON body accept only the type that the OpenAPI document names.

The framework also reads 0 as the text "0", 1e400 as "inf", the text "yes" as true and a number as an id: it would
store a client's mistake without an error.
"""

from collections.abc import Callable
from typing import Any

from rest_framework import serializers

TYPES: dict[type[serializers.Field[Any, Any, Any, Any]], Callable[[Any], bool]] = {
    serializers.CharField: lambda data: isinstance(data, str),
    serializers.UUIDField: lambda data: isinstance(data, str),
    serializers.BooleanField: lambda data: isinstance(data, bool),
    serializers.IntegerField: lambda data: isinstance(data, int) and not isinstance(data, bool),
}


def take_only_their_types() -> None:
    """Changes the framework's fields. Called once, when the apps are ready."""
    for kind, fits in TYPES.items():
        _hold_to(kind, fits)


def _hold_to(kind: Any, fits: Callable[[Any], bool]) -> None:
    read = kind.to_internal_value

    def to_internal_value(self: Any, data: Any) -> Any:
        if not fits(data):
            self.fail("invalid", value=data)
        return read(self, data)

    kind.to_internal_value = to_internal_value


def unknown_fields(serializer: Any, data: Any, pointer: str = "") -> list[str]:
    """JSON pointers of the unknown fields of a body, at any depth."""
    if isinstance(serializer, serializers.ListSerializer | serializers.ListField):
        rows = enumerate(data) if isinstance(data, list) else ()
        return [field for i, row in rows for field in unknown_fields(serializer.child, row, f"{pointer}/{i}")]
    if not isinstance(serializer, serializers.BaseSerializer) or not isinstance(data, dict):
        return []
    fields = getattr(serializer, "fields", {})
    unknown = [f"{pointer}/{name}" for name in sorted(set(data) - set(fields))]
    for name in sorted(set(data) & set(fields)):
        unknown += unknown_fields(fields[name], data[name], f"{pointer}/{name}")
    return unknown
