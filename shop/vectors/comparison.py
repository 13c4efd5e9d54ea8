"""Expected against got: as JSON values, text by text, and never 1 for true."""

import json
from collections.abc import Iterator
from typing import Any

_ABSENT = object()


def differences(expected: dict[str, Any], got: dict[str, Any]) -> Iterator[str]:
    """One phrase for every key of `expected` that `got` does not match exactly; `got` may hold more keys."""
    for key, value in expected.items():
        found = got.get(key, _ABSENT)
        if not same(value, found):
            yield f"{key}: expected {shown(value)}, got {'nothing' if found is _ABSENT else shown(found)}"


def same(one: Any, other: Any) -> bool:
    """Equal as JSON: same type all the way down, lists in order, objects with the same keys."""
    if type(one) is not type(other):
        return False
    if isinstance(one, dict):
        return one.keys() == other.keys() and all(same(one[key], other[key]) for key in one)
    if isinstance(one, list):
        return len(one) == len(other) and all(map(same, one, other))
    return bool(one == other)


def shown(value: Any) -> str:
    return json.dumps(value, default=repr)
