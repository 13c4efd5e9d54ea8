"""Finding rows by what people type: by the beginning of a key first, then anywhere in it."""

from collections.abc import Iterable
from typing import Any
from uuid import UUID

from django.db import connection
from django.db.models import F, Q, QuerySet

from shop.calc.keys import prefix_range, search_key

LOOKED_THROUGH = 50_000
"""How many names are read for letters in the middle. No index finds those, so their number is bounded."""


def by_key(rows: QuerySet[Any], text: str, *fields: str) -> QuerySet[Any]:
    """Rows of which one of the key `fields` begins with what was typed, or holds it further on."""
    key = search_key(text)
    if not key:
        return rows
    wanted = Q()
    for field in fields:
        wanted |= begins(field, key) | Q(**{f"{field}__contains": key})
    return rows.filter(wanted)


def begins(field: str, key: str) -> Q:
    """The key in `field` begins with `key`: a range of its index."""
    low, high = prefix_range(key)
    return Q(**{f"{field}__gte": low, f"{field}__lt": high})


class Handful:
    """At most `size` ids, in the order of the queries that found them. A full handful asks no further query."""

    def __init__(self, size: int) -> None:
        self.size = size
        self._ids: dict[UUID, None] = {}

    def add(self, rows: QuerySet[Any]) -> None:
        """The first of these rows, in their order."""
        if len(self._ids) < self.size:
            self._take(rows.values_list("pk", flat=True)[: self.size])

    def look_through(self, rows: QuerySet[Any], *fields: str, holding: str = "", ending: str = "") -> None:
        """Of the first LOOKED_THROUGH rows by the first field those of which a field holds that text, or ends with it.

        An index of the shop has to begin with the first field.
        """
        if len(self._ids) < self.size:
            text = connection.ops.prep_for_like_query(holding or ending)
            self._take(_like(rows, fields, f"%{text}%" if holding else f"%{text}", self.size))

    def rows(self, of: QuerySet[Any]) -> list[Any]:
        """The rows themselves, in the order in which they were found."""
        loaded = of.in_bulk(list(self._ids))
        return [loaded[id] for id in self._ids if id in loaded]

    def _take(self, ids: Iterable[UUID]) -> None:
        for id in ids:
            if len(self._ids) < self.size:
                self._ids[id] = None


def _like(rows: QuerySet[Any], fields: Iterable[str], pattern: str, most: int) -> list[UUID]:
    """Ids of rows, written in SQL: Django has no filter on what was sliced, and only a slice bounds what is read."""
    columns = {f"key_{at}": F(field) for at, field in enumerate(fields)}
    read = rows.annotate(row_id=F("pk"), **columns).order_by("key_0").values("row_id", *columns)[:LOOKED_THROUGH]
    inner, params = read.query.sql_with_params()
    wanted = " OR ".join(f"{column} LIKE %s ESCAPE '\\'" for column in columns)
    with connection.cursor() as cursor:
        cursor.execute(
            f"SELECT row_id FROM ({inner}) AS read WHERE {wanted} LIMIT {most}", [*params, *[pattern] * len(columns)]
        )
        return [rows.model._meta.pk.to_python(id) for (id,) in cursor.fetchall()]
