"""Work of other firms as the one box finds it, by what was done and by the firm's name."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from uuid import UUID

from django.db.models import CharField, Exists, Max, OuterRef
from django.db.models.functions import Cast

from quotes.models import OutsideWork, OutsideWorkWord
from shop.calc.keys import search_key
from shop.models import Shop
from shop.queries.search import LOOKED_THROUGH, begins
from shop.words import say


@dataclass(frozen=True, slots=True)
class FoundWork:
    """`quote` is the newest with this work of this firm; `days` are open days, None where nobody said."""

    name: str
    days: int | None
    quote: UUID
    number: int


def outside_work(shop: Shop, typed: Sequence[str], most: int) -> Iterator[FoundWork]:
    """Work of which every typed word begins a word of it or of its firm: each kind once, the newest first.

    Each revision has rows of its own for the same work, so they are grouped before they are cut to `most`.
    """
    if not typed:
        return
    words = OutsideWorkWord.objects.filter(shop=shop)
    first = words.filter(begins("word", typed[0])).order_by("word", "target").values("target")[:LOOKED_THROUGH]
    works = OutsideWork.objects.filter(shop=shop, pk__in=first, revision__quote__discarded_at=None)
    for word in typed[1:]:
        works = works.filter(Exists(words.filter(begins("word", word), target=OuterRef("pk"))))
    # Ids rise with time. PostgreSQL has no maximum of them, but of their text.
    named = works.values("line__title", "firm__name").annotate(newest=Max(Cast("line_id", CharField())))
    kinds = dict[tuple[str, str], UUID]()
    for title, firm, newest in named.order_by("-newest").values_list("line__title", "firm__name", "newest")[: 4 * most]:
        kinds.setdefault((search_key(title), search_key(firm)), UUID(newest))
    ids = list(kinds.values())[:most]
    columns = ("line__title", "firm__name", "days", "revision__quote", "revision__quote__number")
    newest_works = OutsideWork.objects.filter(shop=shop, line__in=ids).order_by("-line_id")
    for title, firm, days, quote, number in newest_works.values_list(*columns):
        yield FoundWork(say("outside.by", title=title, firm=firm), days, quote, number)
