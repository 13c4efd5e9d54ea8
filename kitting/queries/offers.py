"""Reads the offers at which parts are bought."""

from collections.abc import Iterable
from datetime import date
from uuid import UUID

from kitting.models import Offer, Part
from shop.models import Shop


def newest_offers(shop: Shop, parts: Iterable[Part], day: date) -> dict[UUID, Offer]:
    """{part: its preferred supplier's newest offer on `day`}; any supplier's if none is preferred."""
    preferred = {part.pk: part.preferred_id for part in parts}
    newest: dict[UUID, Offer] = {}
    rows = Offer.objects.filter(shop=shop, part__in=preferred, valid_from__lte=day).select_related("supplier")
    for offer in rows.order_by("part", "valid_from"):
        if preferred[offer.part_id] in (None, offer.supplier_id):
            newest[offer.part_id] = offer
    return newest
