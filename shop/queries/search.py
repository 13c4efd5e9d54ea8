"""Searches rows by what people type: by the beginning of a key, then by words, then by letters in the middle."""

from collections.abc import Iterable, Sequence
from typing import Any
from uuid import UUID

from django.db import connection
from django.db.models import F, Q, QuerySet

from shop.calc.keys import prefix_range, search_key, word_forms, words_of

LOOKED_THROUGH = 50_000
"""The most names that are read to find letters in the middle. No index finds those, so the number is bounded."""

RARE = 1_000
"""A typed word that fewer rows match is rare: the other words are then checked on those rows only."""

MOST_WORDS = 8
LONGEST_PIECE = 60
LONGEST_KEY = 240  # of a stored title; a database refuses patterns of some thousand letters


def typed_words(text: str) -> list[str]:
    """The words of the typed text, longest first; at most eight."""
    return sorted(words_of(text), key=len, reverse=True)[:MOST_WORDS]


def typed_pieces(text: str) -> list[str]:
    """The pieces of the typed text between spaces, with their signs, longest first; at most eight of 60 letters."""
    pieces = dict.fromkeys(piece[:LONGEST_PIECE] for piece in text.split())
    return sorted(pieces, key=len, reverse=True)[:MOST_WORDS]


def typed_key(text: str) -> str:
    """The typed text as a key, no longer than a stored one."""
    return search_key(text)[:LONGEST_KEY]


def by_key(rows: QuerySet[Any], text: str, *fields: str) -> QuerySet[Any]:
    """Rows that contain every typed word, in either number, in one of the key `fields`."""
    for word in typed_words(text):
        condition = Q()
        for field in fields:
            for form in word_forms(word):
                condition |= Q(**{f"{field}__contains": form})
        rows = rows.filter(condition)
    return rows


def begins(field: str, key: str) -> Q:
    """The condition that `field` begins with `key`, as a range of its index."""
    low, high = prefix_range(key)
    return Q(**{f"{field}__gte": low, f"{field}__lt": high})


def begins_word(word: str) -> Q:
    """The condition that `word` begins with the typed word, in its singular or plural."""
    condition = Q()
    for form in word_forms(word):
        condition |= begins("word", form)
    return condition


class Handful:
    """At most `size` ids, in the order of the queries that found them. Once it is full it makes no further query."""

    def __init__(self, size: int) -> None:
        self.size = size
        self._ids: dict[UUID, int] = {}  # with the number of the query
        self._queries = 0

    def add(self, rows: QuerySet[Any]) -> None:
        """Adds the first of these rows, in their order."""
        if len(self._ids) < self.size:
            self._take(rows.values_list("pk", flat=True)[: self.size])

    def add_words(self, words: QuerySet[Any], typed: Sequence[str]) -> None:
        """Adds the targets that have, for every typed word in either number, a word beginning with it.

        Targets that have the rarest word as it was typed come first.
        `words` are the word rows of a shop, `typed` is sorted longest first. A rare word is read by its index and its
        rows are checked for the others. Without a rare word, LOOKED_THROUGH rows of the longest word are checked.
        """
        if typed and len(self._ids) < self.size:
            first = _rarest(words, typed) if len(typed) > 1 else typed[0]
            others = [word for word in typed if word != first]
            for form in word_forms(first):
                if len(self._ids) < self.size:
                    self._take(_targets(words, form, others, self.size))

    def look_through(self, rows: QuerySet[Any], *fields: str, holding: str) -> None:
        """Adds rows that have the text `holding` in a field, among the first LOOKED_THROUGH rows by the first field.

        That field needs an index (shop, field).
        """
        if len(self._ids) < self.size:
            pattern = f"%{connection.ops.prep_for_like_query(holding)}%"
            self._take(_like(rows, fields, pattern, self.size))

    def rows(self, of: QuerySet[Any], by: str) -> list[Any]:
        """The rows, in the order of their queries, and within a query by the field `by`."""
        loaded = of.in_bulk(list(self._ids))
        found_ids = [loaded[id] for id in self._ids if id in loaded]
        return sorted(found_ids, key=lambda row: (self._ids[row.pk], getattr(row, by)))

    def _take(self, ids: Iterable[UUID]) -> None:
        self._queries += 1
        for id in ids:
            if len(self._ids) < self.size:
                self._ids.setdefault(id, self._queries)


def _rarest(words: QuerySet[Any], typed: Sequence[str]) -> str:
    """The first rare word; the first word if none is rare."""
    return next((word for word in typed if words.filter(begins_word(word))[:RARE].count() < RARE), typed[0])


def _targets(words: QuerySet[Any], first: str, others: Iterable[str], most: int) -> list[UUID]:
    """Distinct ids of the targets that have all words. Written in SQL for the same reason as `_like`."""
    table = connection.ops.quote_name(words.model._meta.db_table)
    same = f"SELECT 1 FROM {table} w WHERE w.shop_id = read.shop_id AND w.target_id = read.target_id"
    read = words.filter(begins("word", first)).order_by("word", "target_id").values("shop_id", "target_id", "word")
    inner, params = read[:LOOKED_THROUGH].query.sql_with_params()
    conditions, bounds = [f"NOT EXISTS ({same} AND w.word >= %s AND w.word < read.word)"], list[str]()
    for word in others:
        forms = word_forms(word)
        ranges = " OR ".join("w.word >= %s AND w.word < %s" for _ in forms)
        conditions.append(f"EXISTS ({same} AND ({ranges}))")
        bounds += [bound for form in forms for bound in prefix_range(form)]
    with connection.cursor() as cursor:
        cursor.execute(
            f"SELECT read.target_id FROM ({inner}) AS read WHERE {' AND '.join(conditions)} LIMIT {most}",
            [*params, first, *bounds],
        )
        return [words.model._meta.pk.to_python(id) for (id,) in cursor.fetchall()]


def _like(rows: QuerySet[Any], fields: Iterable[str], pattern: str, most: int) -> list[UUID]:
    """Ids of matching rows. Written in SQL: Django cannot filter a slice, and only a slice bounds what is read."""
    columns = {f"key_{at}": F(field) for at, field in enumerate(fields)}
    read = rows.annotate(row_id=F("pk"), **columns).order_by("key_0").values("row_id", *columns)[:LOOKED_THROUGH]
    inner, params = read.query.sql_with_params()
    condition = " OR ".join(f"{column} LIKE %s ESCAPE '\\'" for column in columns)
    with connection.cursor() as cursor:
        cursor.execute(
            f"SELECT row_id FROM ({inner}) AS read WHERE {condition} LIMIT {most}", [*params, *[pattern] * len(columns)]
        )
        return [rows.model._meta.pk.to_python(id) for (id,) in cursor.fetchall()]
