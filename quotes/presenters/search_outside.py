"""Work of other firms as the one box finds it, by what was done and by the firm's name."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from uuid import UUID

from quotes.access import LOOKED_THROUGH
from quotes.models import OutsideWork
from shop.calc.keys import search_key, words_of
from shop.models import Shop
from shop.words import say

QUOTE = ("", "__number", "__discarded_at")


@dataclass(frozen=True, slots=True)
class FoundWork:
    """`quote` is the newest with this work of this firm; `days` are open days, None where nobody said."""

    name: str
    days: int | None
    quote: UUID
    number: int


def outside_work(shop: Shop, typed: Sequence[str], most: int) -> Iterator[FoundWork]:
    """Work of which every typed word begins a word of it or of its firm: each kind once, the newest first.

    It has no index of words. So the last works quoted are looked through, as where one is quoted again.
    """
    columns = ("line__title", "firm__name", "days", *(f"revision__quote{each}" for each in QUOTE))
    works = OutsideWork.objects.filter(shop=shop).order_by("-line_id").values_list(*columns)
    seen: set[tuple[str, str]] = set()
    for title, firm, days, quote, number, discarded in works[:LOOKED_THROUGH]:
        names = search_key(title), search_key(firm)
        if discarded or names in seen or len(seen) == most or not _begin_words(typed, f"{title} {firm}"):
            continue
        seen.add(names)
        yield FoundWork(say("outside.by", title=title, firm=firm), days, quote, number)


def _begin_words(typed: Sequence[str], text: str) -> bool:
    words = words_of(text)
    return bool(typed) and all(any(word.startswith(each) for word in words) for each in typed)
