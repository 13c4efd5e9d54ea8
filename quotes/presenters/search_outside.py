"""Work of other firms as the one box finds it, by what was done and by the firm's name."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from uuid import UUID

from quotes.queries.earlier_work import works_with_words
from shop.models import Shop
from shop.words import say


@dataclass(frozen=True, slots=True)
class FoundWork:
    """`quote` is the newest with this work of this firm; `days` are open days, None where nobody said."""

    name: str
    days: int | None
    quote: UUID
    number: int


def outside_work(shop: Shop, typed: Sequence[str], most: int) -> Iterator[FoundWork]:
    """Work of which every typed word begins a word of it or of its firm: each kind once, the newest first."""
    columns = ("line__title", "firm__name", "days", "revision__quote", "revision__quote__number")
    for title, firm, days, quote, number in works_with_words(shop, typed, most).values_list(*columns):
        yield FoundWork(say("outside.by", title=title, firm=firm), days, quote, number)
