"""Maintains the words by which rows are found."""

from collections.abc import Iterable, Sequence
from typing import Any
from uuid import UUID

from shop.calc.keys import search_words
from shop.rows import uuid7s
from shop.search_words import Searched
from shop.services import bulk

AT_ONCE = 500  # rows whose words are read by one query


def add_words(rows: Sequence[Searched]) -> None:
    """Stores the words of rows of one kind that this transaction has added."""
    _insert(rows, ((row.pk, word) for row in rows for word in search_words(*row.search_texts)))


def keep_words(rows: Sequence[Searched]) -> None:
    """Updates the stored words of these rows, of one kind and shop, from their `search_texts`.

    Call it in the transaction that writes one of the texts.
    """
    for start in range(0, len(rows), AT_ONCE):
        _keep_words(rows[start : start + AT_ONCE])


def _keep_words(rows: Sequence[Searched]) -> None:
    words = type(rows[0]).word_model()
    stored_words = words.objects.filter(shop=rows[0].shop_id, target__in=rows)
    stored = {(target, word): id for id, target, word in stored_words.values_list("pk", "target", "word")}
    new_words = {(row.pk, word): None for row in rows for word in search_words(*row.search_texts)}
    if gone := [id for key, id in stored.items() if key not in new_words]:
        stored_words.filter(pk__in=gone).delete()
    _insert(rows, (key for key in new_words if key not in stored))


def _insert(rows: Sequence[Searched], new_words: Iterable[tuple[UUID, str]]) -> None:
    """Inserts words as (row, word). Their rows of the database are made without a model instance each."""
    pairs = list(new_words)
    if not pairs:
        return
    words: Any = type(rows[0]).word_model()
    fields = [words._meta.get_field(name) for name in ("id", "shop", "target", "word")]
    targets, texts = zip(*pairs, strict=True)
    shops = [rows[0].shop_id] * len(pairs)
    bulk.insert_values(words, fields, ([*uuid7s(len(pairs))], shops, targets, texts))
