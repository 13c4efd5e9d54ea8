"""Reads the input of a worked case: numbers are strings, a missing list or map is empty, a missing flag is false."""

from decimal import Decimal, InvalidOperation
from typing import Any


class VectorError(ValueError):
    """A vector file or case that cannot be read. The message names the place."""


def number(case: dict[str, Any], key: str, default: str | None = None) -> Decimal:
    """The number under `key`, or `default` if it is missing. Without a default it is required."""
    value = case.get(key, default)
    if not isinstance(value, str):
        raise VectorError(f"{key} is not a number in a string: {value!r}")
    return decimal(value, key)


def number_or_none(case: dict[str, Any], key: str) -> Decimal | None:
    return None if case.get(key) is None else number(case, key)


def whole(case: dict[str, Any], key: str, default: str | None = None) -> int:
    value = number(case, key, default)
    if value != value.to_integral_value():
        raise VectorError(f"{key} is not a whole number: {value}")
    return int(value)


def numbers(case: dict[str, Any], key: str) -> tuple[Decimal, ...]:
    return tuple(decimal(value, key) for value in many(case, key))


def decimal(value: Any, key: str) -> Decimal:
    if not isinstance(value, str):
        raise VectorError(f"{key} is not a number in a string: {value!r}")
    try:
        return Decimal(value)
    except InvalidOperation:
        raise VectorError(f"{key} is not a number: {value!r}") from None


def text(case: dict[str, Any], key: str, default: str | None = None) -> str:
    value = case.get(key, default)
    if not isinstance(value, str):
        raise VectorError(f"{key} is not text: {value!r}")
    return value


def flag(case: dict[str, Any], key: str) -> bool:
    value = case.get(key, False)
    if not isinstance(value, bool):
        raise VectorError(f"{key} is not true or false: {value!r}")
    return value


def many(case: dict[str, Any], key: str) -> list[Any]:
    value = case.get(key, [])
    if not isinstance(value, list):
        raise VectorError(f"{key} is not a list: {value!r}")
    return value


def texts(case: dict[str, Any], key: str) -> tuple[str, ...]:
    return tuple(text({key: value}, key) for value in many(case, key))


def mapping(case: dict[str, Any], key: str) -> dict[str, Any]:
    value = case.get(key, {})
    if not isinstance(value, dict):
        raise VectorError(f"{key} is not an object: {value!r}")
    return value
