"""Base classes for search by words: each word of a row is stored as a row, so that an index finds it."""

from collections.abc import Iterable
from itertools import islice
from typing import Any
from uuid import UUID

from shop.calc.keys import WORD_LENGTH, search_words
from shop.keys import KeyField
from shop.rows import ShopRow


class Searched(ShopRow):
    """A row that is found by its words. Who changes one of its texts calls `shop.services.search_words`."""

    class Meta(ShopRow.Meta):
        abstract = True

    @property
    def search_texts(self) -> tuple[str, ...]:
        raise NotImplementedError

    @classmethod
    def word_model(cls) -> Any:
        return cls._meta.get_field("search_words").related_model


class SearchWord(ShopRow):
    """One word of one row. A subclass adds the key `target` with the related name `search_words`."""

    word = KeyField(max_length=WORD_LENGTH)

    class Meta(ShopRow.Meta):
        abstract = True

    def __str__(self) -> str:
        return str(self.word)


def fill(words: Any, rows: Iterable[tuple[UUID, UUID, Iterable[str]]]) -> None:
    """Creates the words of rows that have none, for a migration. `rows` are (shop, id, texts)."""
    new_rows = (
        words(shop_id=shop, target_id=id, word=word) for shop, id, texts in rows for word in search_words(*texts)
    )
    while some := list(islice(new_rows, 2000)):
        words.objects.bulk_create(some)
