"""Maintains the words by which rows are found."""

from collections.abc import Sequence
from typing import Any

from shop.calc.keys import search_words
from shop.search_words import Searched

AT_ONCE = 500  # rows whose words are read by one query


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
    new_words = {(row.pk, word): row for row in rows for word in search_words(*row.search_texts)}
    if gone := [id for key, id in stored.items() if key not in new_words]:
        stored_words.filter(pk__in=gone).delete()
    new: list[Any] = [
        words(shop_id=row.shop_id, target_id=target, word=word)
        for (target, word), row in new_words.items()
        if (target, word) not in stored
    ]
    words.objects.bulk_create(new)
