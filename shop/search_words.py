"""The words of a row, each a row of its own, so that any of them is found by an index."""

from collections.abc import Iterable
from itertools import islice
from typing import Any
from uuid import UUID

from shop.calc.keys import WORD_LENGTH, search_words
from shop.keys import KeyField
from shop.rows import ShopRow


class Searched(ShopRow):
    """A row that is found by its words. `shop.services.search_words` keeps them, for whoever writes a text of these."""

    class Meta(ShopRow.Meta):
        abstract = True

    @property
    def search_texts(self) -> tuple[str, ...]:
        raise NotImplementedError

    @classmethod
    def word_model(cls) -> Any:
        return cls._meta.get_field("search_words").related_model


class SearchWord(ShopRow):
    """One word of one row: `target`, a key of the subclass, with the related name `search_words`."""

    word = KeyField(max_length=WORD_LENGTH)

    class Meta(ShopRow.Meta):
        abstract = True

    def __str__(self) -> str:
        return str(self.word)


def fill(words: Any, rows: Iterable[tuple[UUID, UUID, Iterable[str]]]) -> None:
    """For a migration: the words of rows that have none. `rows` are (shop, id, texts)."""
    new_rows = (
        words(shop_id=shop, target_id=id, word=word) for shop, id, texts in rows for word in search_words(*texts)
    )
    while some := list(islice(new_rows, 2000)):
        words.objects.bulk_create(some)
