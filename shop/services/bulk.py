"""Writes many rows of one table by one prepared statement, for files of many thousand rows.

Django's bulk_create and bulk_update write the same rows, but take several times as long to build their statements.
"""

from collections.abc import Iterable, Sequence
from typing import Any

from django.db import connection
from django.db.models import Field, JSONField, Model


def insert(rows: Sequence[Model]) -> None:
    """Inserts rows of one model. Their fields were checked before, by `clean`."""
    if not rows:
        return
    fields = [field for field in rows[0]._meta.concrete_fields if not field.generated]
    insert_values(type(rows[0]), fields, ([getattr(row, field.attname) for row in rows] for field in fields))
    for row in rows:
        row._state.adding, row._state.db = False, connection.alias


def insert_values(model: type[Model], fields: Sequence[Any], columns: Iterable[Sequence[Any]]) -> None:
    """Inserts rows given as one sequence of values for each field."""
    names, places = ", ".join(map(_column, fields)), ", ".join(["%s"] * len(fields))
    _execute(f"INSERT INTO {_table(model)} ({names}) VALUES ({places})", fields, columns)


def update(rows: Sequence[Model], names: Sequence[str]) -> None:
    """Writes these fields of rows of one model that the transaction has locked."""
    if not rows:
        return
    meta = rows[0]._meta
    changed = [meta.get_field(name) for name in names]
    keys = [meta.get_field(name) for name in ("shop", "id")]
    setting, where = (
        sign.join(f"{_column(field)} = %s" for field in some) for sign, some in ((", ", changed), (" AND ", keys))
    )
    fields: list[Any] = [*changed, *keys]
    columns = ([getattr(row, field.attname) for row in rows] for field in fields)
    _execute(f"UPDATE {_table(type(rows[0]))} SET {setting} WHERE {where}", fields, columns)


def _execute(sql: str, fields: Sequence[Any], columns: Iterable[Sequence[Any]]) -> None:
    prepared = (_prepared(field, values) for field, values in zip(fields, columns, strict=True))
    with connection.cursor() as cursor:
        cursor.executemany(sql, list(zip(*prepared, strict=True)))


def _prepared(field: "Field[Any, Any]", values: Sequence[Any]) -> list[Any]:
    """The values as the database takes them. In a column of few values each is prepared once."""
    if isinstance(field, JSONField):
        return [field.get_db_prep_save(value, connection) for value in values]
    distinct = set(values)
    if 2 * len(distinct) > len(values):
        return [field.get_db_prep_save(value, connection) for value in values]
    by_value = {value: field.get_db_prep_save(value, connection) for value in distinct}
    return [by_value[value] for value in values]


def _table(model: type[Model]) -> str:
    return connection.ops.quote_name(model._meta.db_table)


def _column(field: Any) -> str:
    return connection.ops.quote_name(field.column)
