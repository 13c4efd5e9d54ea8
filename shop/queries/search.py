"""Finding rows by what people type: by the beginning of a key, then by words, then by letters in the middle."""

from collections.abc import Iterable, Sequence
from typing import Any
from uuid import UUID

from django.db import connection
from django.db.models import F, Q, QuerySet

from shop.calc.keys import prefix_range, words_of

LOOKED_THROUGH = 50_000
"""How many names are read for letters in the middle. No index finds those, so their number is bounded."""

RARE = 1_000
"""A word that begins the words of fewer rows than this is rare enough to look for the other words among them."""

MOST_WORDS = 8


def typed_words(text: str) -> list[str]:
    """The words of what was typed, the longest first; of a pasted text the eight longest."""
    return sorted(words_of(text), key=len, reverse=True)[:MOST_WORDS]


def by_key(rows: QuerySet[Any], text: str, *fields: str) -> QuerySet[Any]:
    """Rows of which the key `fields` hold every word that was typed, each in any of them."""
    for word in typed_words(text):
        condition = Q()
        for field in fields:
            condition |= Q(**{f"{field}__contains": word})
        rows = rows.filter(condition)
    return rows


def begins(field: str, key: str) -> Q:
    """The key in `field` begins with `key`: a range of its index."""
    low, high = prefix_range(key)
    return Q(**{f"{field}__gte": low, f"{field}__lt": high})


class Handful:
    """At most `size` ids, in the order of the queries that found them. A full handful asks no further query."""

    def __init__(self, size: int) -> None:
        self.size = size
        self._ids: dict[UUID, int] = {}  # with the number of the query
        self._queries = 0

    def add(self, rows: QuerySet[Any]) -> None:
        """The first of these rows, in their order."""
        if len(self._ids) < self.size:
            self._take(rows.values_list("pk", flat=True)[: self.size])

    def add_words(self, words: QuerySet[Any], typed: Sequence[str]) -> None:
        """The targets of which every typed word begins a word. `words` are those of a shop, `typed` the longest first.

        The rows of a rare word are read by its index, and asked for the others. Where each word is a common one, of the
        longest as many rows as are looked through.
        """
        if typed and len(self._ids) < self.size:
            first = _rarest(words, typed) if len(typed) > 1 else typed[0]
            self._take(_targets(words, first, [word for word in typed if word != first], self.size))

    def look_through(self, rows: QuerySet[Any], *fields: str, holding: str) -> None:
        """Of the first LOOKED_THROUGH rows by the first field those of which a field holds that text.

        An index of the shop has to begin with the first field.
        """
        if len(self._ids) < self.size:
            pattern = f"%{connection.ops.prep_for_like_query(holding)}%"
            self._take(_like(rows, fields, pattern, self.size))

    def rows(self, of: QuerySet[Any], by: str) -> list[Any]:
        """The rows themselves, those of one query in the order of the field `by`."""
        loaded = of.in_bulk(list(self._ids))
        found_ids = [loaded[id] for id in self._ids if id in loaded]
        return sorted(found_ids, key=lambda row: (self._ids[row.pk], getattr(row, by)))

    def _take(self, ids: Iterable[UUID]) -> None:
        self._queries += 1
        for id in ids:
            if len(self._ids) < self.size:
                self._ids.setdefault(id, self._queries)


def _rarest(words: QuerySet[Any], typed: Sequence[str]) -> str:
    """The first of the words that few rows have; the first of all where none is rare."""
    return next((word for word in typed if words.filter(begins("word", word))[:RARE].count() < RARE), typed[0])


def _targets(words: QuerySet[Any], first: str, others: Iterable[str], most: int) -> list[UUID]:
    """Ids of targets by their word, each once. Written in SQL for the same reason as `_like`."""
    table = connection.ops.quote_name(words.model._meta.db_table)
    same = f"SELECT 1 FROM {table} w WHERE w.shop_id = read.shop_id AND w.target_id = read.target_id AND w.word >= %s"
    read = words.filter(begins("word", first)).order_by("word", "target_id").values("shop_id", "target_id", "word")
    inner, params = read[:LOOKED_THROUGH].query.sql_with_params()
    conditions = [f"NOT EXISTS ({same} AND w.word < read.word)", *(f"EXISTS ({same} AND w.word < %s)" for _ in others)]
    bounds = [bound for word in others for bound in prefix_range(word)]
    with connection.cursor() as cursor:
        cursor.execute(
            f"SELECT read.target_id FROM ({inner}) AS read WHERE {' AND '.join(conditions)} LIMIT {most}",
            [*params, first, *bounds],
        )
        return [words.model._meta.pk.to_python(id) for (id,) in cursor.fetchall()]


def _like(rows: QuerySet[Any], fields: Iterable[str], pattern: str, most: int) -> list[UUID]:
    """Ids of rows, written in SQL: Django has no filter on what was sliced, and only a slice bounds what is read."""
    columns = {f"key_{at}": F(field) for at, field in enumerate(fields)}
    read = rows.annotate(row_id=F("pk"), **columns).order_by("key_0").values("row_id", *columns)[:LOOKED_THROUGH]
    inner, params = read.query.sql_with_params()
    condition = " OR ".join(f"{column} LIKE %s ESCAPE '\\'" for column in columns)
    with connection.cursor() as cursor:
        cursor.execute(
            f"SELECT row_id FROM ({inner}) AS read WHERE {condition} LIMIT {most}", [*params, *[pattern] * len(columns)]
        )
        return [rows.model._meta.pk.to_python(id) for (id,) in cursor.fetchall()]
