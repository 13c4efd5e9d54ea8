"""Compares expected with actual JSON values exactly; 1 is not true."""

import json
from collections.abc import Iterator
from typing import Any

_ABSENT = object()


def differences(expected: dict[str, Any], actual: dict[str, Any]) -> Iterator[str]:
    """One phrase for each key of `expected` whose value in `actual` differs. `actual` may have more keys."""
    for key, value in expected.items():
        actual_value = actual.get(key, _ABSENT)
        if not same(value, actual_value):
            yield f"{key}: expected {shown(value)}, got {'nothing' if actual_value is _ABSENT else shown(actual_value)}"


def same(first: Any, second: Any) -> bool:
    """True if both are equal as JSON: same types, lists in the same order, objects with the same keys."""
    if type(first) is not type(second):
        return False
    if isinstance(first, dict):
        return first.keys() == second.keys() and all(same(first[key], second[key]) for key in first)
    if isinstance(first, list):
        return len(first) == len(second) and all(map(same, first, second))
    return bool(first == second)


def shown(value: Any) -> str:
    return json.dumps(value, default=repr)
