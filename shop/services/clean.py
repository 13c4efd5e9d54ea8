"""Validation of many rows before they are written in bulk."""

from collections.abc import Hashable, Iterable

from django.db.models import Model

Passed = set[tuple[str, type, Hashable]]
"""(field, type, value) of texts and whole numbers that the field has accepted as they are."""


def clean(rows: Iterable[Model]) -> None:
    """Runs `clean_fields` on each row without queries. A value that a field has accepted is not looked at again.

    The database itself checks that keys point to rows of the shop. The rows are of any models.
    """
    passed: dict[type[Model], Passed] = {}
    for row in rows:
        _clean(row, passed.setdefault(type(row), set()))


def _clean(row: Model, passed: Passed) -> None:
    values = {field.name: getattr(row, field.attname) for field in row._meta.fields if not field.is_relation}
    texts = {(name, type(value), value) for name, value in values.items() if isinstance(value, str | int | None)}
    exclude = {field.name for field in row._meta.fields if field.is_relation}
    row.clean_fields(exclude=exclude | {name for name, _, _ in texts & passed})
    passed |= texts
