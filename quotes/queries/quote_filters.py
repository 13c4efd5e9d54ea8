"""Filters of a list of quotes: by typed words, and by a kit or a part."""

import re
from typing import Any

from django.db.models import Exists, OuterRef, Q

from kitting.models import Kit, KitLine, KitWord, Part
from quotes.models import Line, Quote, Revision
from shop.calc.keys import search_key
from shop.models import CustomerWord, Shop, VehicleWord
from shop.queries import search
from shop.queries.search import begins_word, typed_words

NUMBER = re.compile(r"^(?P<kind>[qj])?-?0*(?P<number>\d{1,9})$", re.IGNORECASE)  # of a quote or a job
MOST_QUOTES = 5_000  # of one customer or vehicle, the newest
LEAST = 2  # the fewest letters or digits to search for


def quote_number(typed: str) -> int | None:
    """The number in 'Q-12', 'q12' or '12'; None for another text."""
    match = NUMBER.match(typed.strip())
    return int(match["number"]) if match and (match["kind"] or "q").lower() == "q" else None


def of_quotes(rows: Any, shop: Shop, **filters: Any) -> Any:
    """Revisions of quotes that pass `filters`. Reads their ids first: a join would read every quote of the list.

    SQLite prefers an index that gives the order of a list to one that finds few rows, and would read every quote of
    the shop. So the ids are sorted here, and the list gets the moments of its rows, with which its index begins.
    """
    ids = sorted(Quote.objects.filter(shop=shop, **filters).values_list("id", flat=True), reverse=True)
    revisions = Revision.objects.filter(shop=shop, quote__in=ids[:MOST_QUOTES]).values_list("pk", "changed_at")
    keys, moments = {pk for pk, _ in revisions}, {moment for _, moment in revisions}
    return rows.filter(pk__in=keys, changed_at__in=moments)


def with_words(rows: Any, shop: Shop, typed: str) -> Any:
    """Revisions of the quote with the typed number; else revisions with every word in customer, vehicle or kits.

    Words are searched among the newest `search.LOOKED_THROUGH` revisions of the shop.
    """
    if (number := quote_number(typed)) is not None:
        return of_quotes(rows, shop, number=number)
    key = search_key(typed)
    if len(key) < LEAST:
        return rows.none() if typed.strip() else rows
    lines = Line.objects.filter(shop=shop, revision=OuterRef("pk"))
    for word in typed_words(typed):
        kits = KitWord.objects.filter(begins_word(word), shop=shop).values("target")
        rows = rows.filter(
            Q(quote__customer__in=_targets(CustomerWord, shop, word))
            | Q(quote__vehicle__in=_targets(VehicleWord, shop, word))
            | Exists(lines.filter(kit_revision__kit__in=kits))
        )
    return _newest(rows, shop)


def with_kit(rows: Any, shop: Shop, kit: Kit) -> Any:
    """Revisions with any version of the kit, among the newest `search.LOOKED_THROUGH` of the shop."""
    lines = Line.objects.filter(shop=shop, revision=OuterRef("pk"), kit_revision__kit=kit)
    return _newest(rows.filter(Exists(lines)), shop)


def with_part(rows: Any, shop: Shop, part: Part) -> Any:
    """Revisions with the part, loose or in a kit as it is quoted, among the newest `search.LOOKED_THROUGH`."""
    kits = KitLine.objects.filter(shop=shop, part=part).values("revision")
    lines = Line.objects.filter(Q(part=part) | Q(kit_revision__in=kits), shop=shop, revision=OuterRef("pk"))
    return _newest(rows.filter(Exists(lines)), shop)


def _targets(words: Any, shop: Shop, word: str) -> Any:
    matching = words.objects.filter(begins_word(word), shop=shop).order_by("word", "target")
    return matching.values("target")[: search.LOOKED_THROUGH]


def _newest(rows: Any, shop: Shop) -> Any:
    """The rows among the newest changes of the shop, as a range of the index that orders lists."""
    changes = Revision.objects.filter(shop=shop).order_by("-changed_at", "-id").values_list("changed_at", flat=True)
    older = changes[search.LOOKED_THROUGH : search.LOOKED_THROUGH + 1]
    return rows.filter(changed_at__gt=older[0]) if len(older) else rows
