"""Inserts many rows of a model at once."""

from collections.abc import Hashable, Iterator
from typing import Any

from django.db import connection

from shop.calc.keys import search_words


def insert(model: Any, rows: Iterator[Any]) -> list[Any]:
    """Insert the rows by one prepared statement; bulk_create takes three times as long over the same rows."""
    instances = list(rows)
    fields = [field for field in model._meta.concrete_fields if not field.generated]
    columns = [_column(field, [getattr(row, field.attname) for row in instances]) for field in fields]
    names = ", ".join(connection.ops.quote_name(field.column) for field in fields)
    table, places = connection.ops.quote_name(model._meta.db_table), ", ".join(["%s"] * len(fields))
    with connection.cursor() as cursor:
        cursor.executemany(f"INSERT INTO {table} ({names}) VALUES ({places})", zip(*columns, strict=True))
    return instances


def with_words(rows: list[Any]) -> list[Any]:
    """The rows, with the words by which they are found."""
    words = rows[0].word_model()
    pairs = ((row, word) for row in rows for word in search_words(*row.search_texts))
    insert(words, (words(shop_id=row.shop_id, target=row, word=word) for row, word in pairs))
    return rows


def _column(field: Any, values: list[Any]) -> list[Any]:
    """The values as the database takes them. Most columns hold one value throughout, which is prepared once."""
    if isinstance(values[0], Hashable):
        prepared = {value: field.get_db_prep_save(value, connection) for value in set(values)}
        return [prepared[value] for value in values]
    return [field.get_db_prep_save(value, connection) for value in values]
