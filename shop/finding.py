"""Finding rows by what people type: exact and prefix by index first, then anywhere in the key."""

from typing import Any

from django.db.models import Q, QuerySet

from shop.calc.keys import prefix_range, search_key


def by_key(rows: QuerySet[Any], text: str, *fields: str) -> QuerySet[Any]:
    """Rows of which one of the key `fields` begins with what was typed, or holds it further on."""
    key = search_key(text)
    if not key:
        return rows
    low, high = prefix_range(key)
    wanted = Q()
    for field in fields:
        wanted |= Q(**{f"{field}__gte": low, f"{field}__lt": high}) | Q(**{f"{field}__contains": key})
    return rows.filter(wanted)
