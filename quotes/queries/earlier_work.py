"""Searches outside work on earlier quotes: the newest row of each firm for each kind of work."""

from collections.abc import Sequence
from typing import Any
from uuid import UUID

from django.db.models import CharField, Exists, Max, OuterRef
from django.db.models.functions import Cast

from quotes.models import OutsideWork, OutsideWorkWord
from shop.calc.keys import search_key
from shop.models import Shop
from shop.queries.search import LOOKED_THROUGH, begins_word, typed_words

OFFERED = 50  # kinds of work
NEWEST = 50  # rows that are read without typed words, or for letters in the middle of a word


def earlier_work(shop: Shop, typed: str) -> list[OutsideWork]:
    """Outside work by the typed words, among all quotes; among the newest rows if no word begins with them."""
    words = typed_words(typed)
    works = list(works_with_words(shop, words, OFFERED).select_related("firm", "line")) if words else []
    return works or _among_the_newest(shop, search_key(typed))


def works_with_words(shop: Shop, typed: Sequence[str], most: int) -> Any:
    """Works that have, for every typed word, a word of title or firm beginning with it; each kind once, newest first.

    Each revision has its own rows for the same work, so they are grouped before they are cut to `most`.
    """
    rows = OutsideWork.objects.filter(shop=shop)
    if not typed:
        return rows.none()
    words = OutsideWorkWord.objects.filter(shop=shop)
    first = words.filter(begins_word(typed[0])).order_by("word", "target").values("target")[:LOOKED_THROUGH]
    works = rows.filter(pk__in=first, revision__quote__discarded_at=None)
    for word in typed[1:]:
        works = works.filter(Exists(words.filter(begins_word(word), target=OuterRef("pk"))))
    # Ids rise with time. PostgreSQL has no maximum of UUIDs, but it has one of their text.
    named = works.values("line__title", "firm__name").annotate(newest=Max(Cast("line_id", CharField())))
    kinds = dict[tuple[str, str], UUID]()
    for title, firm, newest in named.order_by("-newest").values_list("line__title", "firm__name", "newest")[: 4 * most]:
        kinds.setdefault((search_key(title), search_key(firm)), UUID(newest))
    return rows.filter(line__in=list(kinds.values())[:most]).order_by("-line_id")


def _among_the_newest(shop: Shop, key: str) -> list[OutsideWork]:
    by_names = dict[tuple[str, str], OutsideWork]()
    rows = OutsideWork.objects.filter(shop=shop, revision__quote__discarded_at=None).select_related("firm")
    rows = rows.prefetch_related("line")  # joined, PostgreSQL may walk all lines in order
    for row in rows.order_by("-line_id")[:NEWEST]:  # an index led by the shop; ids of lines rise with time
        names = search_key(row.line.title), search_key(row.firm.name)
        if any(key in name for name in names):
            by_names.setdefault(names, row)
    return list(by_names.values())
