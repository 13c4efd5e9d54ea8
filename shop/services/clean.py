"""Validation of many rows before they are written in bulk."""

from collections.abc import Iterable
from datetime import date
from decimal import Decimal
from functools import cache
from typing import Any

from django.db.models import Model

PLAIN = (str, int, Decimal, date, type(None))
Accepted = set[tuple[str, type, Any]]
"""(field, type, value) of plain values that the field has accepted and left as they are."""


def clean(rows: Iterable[Model]) -> None:
    """Runs `clean_fields` on each row without queries. A value that its field has accepted is not looked at again.

    The database itself checks that keys point to rows of the shop.
    """
    accepted: dict[type[Model], Accepted] = {}
    for row in rows:
        _clean(row, accepted.setdefault(type(row), set()))


def _clean(row: Model, accepted: Accepted) -> None:
    values = ((name, getattr(row, name)) for name in _checked(type(row)))
    plain = {(name, type(value), value) for name, value in values if isinstance(value, PLAIN)}
    row.clean_fields(exclude=_keys(type(row)) | {name for name, _, _ in plain & accepted})
    accepted.update(item for item in plain - accepted if getattr(row, item[0]) is item[2])


@cache
def _checked(model: type[Model]) -> list[str]:
    return [field.name for field in model._meta.fields if not field.is_relation and not field.primary_key]


@cache
def _keys(model: type[Model]) -> frozenset[str]:
    return frozenset(field.name for field in model._meta.fields) - frozenset(_checked(model))
