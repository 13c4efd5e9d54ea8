"""Checking many rows before they are written at once."""

from collections.abc import Iterable

from django.db.models import Model


def clean(rows: Iterable[Model]) -> None:
    """`clean_fields` of each without a query: that a key points to a row of the shop is the database's to say."""
    for row in rows:
        row.clean_fields(exclude={field.name for field in row._meta.fields if field.is_relation})
