"""Parts whose number another one replaces."""

from collections.abc import Iterable
from uuid import UUID

from kitting.models import Part
from shop.access import Actor
from shop.models import Shop

LONGEST_CHAIN = 20
MARKS = 10**9  # the digits that If-Match may have


def lock_replaced_numbers(actor: Actor) -> None:
    """Locks the replaced numbers of the shop, before any of its parts: two could close a circle together.

    The shop's row is their lock; rows that name the shop can still be added beside it.
    """
    Shop.objects.select_for_update(no_key=True).get(pk=actor.shop.pk)


def newer_keys(shop: Shop) -> dict[str, str]:
    """{number key: that of the part that replaces it}, for the whole shop."""
    rows = Part.objects.filter(shop=shop, superseded_by__isnull=False)
    return dict(rows.values_list("number_key", "superseded_by__number_key"))


def newest_parts(shop: Shop, parts: Iterable[Part]) -> dict[UUID, Part]:
    """{part: the one that replaces it in the end, itself where none does}. One query for each step of a chain."""
    newest = {part.pk: part for part in parts}
    for _ in range(LONGEST_CHAIN):
        newer = {part.superseded_by_id for part in newest.values() if part.superseded_by_id}
        if not newer:
            break
        rows = Part.objects.filter(shop=shop).in_bulk(newer)
        newest = {id: rows[part.superseded_by_id] if part.superseded_by_id else part for id, part in newest.items()}
    return newest


def mark_of(part: Part) -> int:
    """The version for If-Match. Parts have none, so it is made of the id of what replaces the part."""
    return part.superseded_by_id.int % MARKS if part.superseded_by_id else MARKS
