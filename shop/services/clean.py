"""Validation of many rows before they are written in bulk."""

from collections.abc import Iterable

from django.db.models import Model


def clean(rows: Iterable[Model]) -> None:
    """Runs `clean_fields` on each row without queries.

    The database itself checks that keys point to rows of the shop.
    """
    for row in rows:
        row.clean_fields(exclude={field.name for field in row._meta.fields if field.is_relation})
