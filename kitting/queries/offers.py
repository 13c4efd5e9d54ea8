"""Reads the offers at which parts are bought."""

from collections.abc import Iterable
from datetime import date
from typing import Any
from uuid import UUID

from django.db.models import F, QuerySet

from kitting.models import Kit, Offer, Part, Supplier
from shop.compiled import compiled
from shop.models import Shop


def newest_offers(shop: Shop, parts: Iterable[Part], day: date) -> dict[UUID, Offer]:
    """{part: its preferred supplier's newest offer on `day`}; any supplier's if none is preferred.

    An archived supplier is preferred no more: its offer counts only where nobody else has one.
    """
    preferred = {part.pk: part.preferred_id for part in parts}
    newest: dict[UUID, Offer] = {}
    for offer in _offers(shop.pk, tuple(preferred), day):
        if offer.without_supplier or preferred[offer.part_id] in (None, offer.supplier_id):
            newest[offer.part_id] = offer
    return newest


@compiled
def _offers(shop: UUID, parts: tuple[UUID, ...], day: date) -> QuerySet[Offer, Any]:
    rows = Offer.objects.filter(shop=shop, part__in=parts, valid_from__lte=day).select_related("supplier")
    rows = rows.annotate(without_supplier=F("part__preferred__archived"))
    return rows.order_by("part", "-supplier__archived", "valid_from")


def suppliers_of(shop: Shop, parts: Iterable[Part]) -> dict[UUID, str]:
    """{part: the preferred supplier's name, else that of the newest offer's supplier}, archived ones last."""
    preferred_ids = {part.pk: part.preferred_id for part in parts}
    offers = Offer.objects.filter(shop=shop, part__in=preferred_ids).order_by("-supplier__archived", "valid_from", "id")
    newest = dict(offers.values_list("part", "supplier__name"))
    preferred = Part.objects.filter(shop=shop, pk__in=preferred_ids, preferred__archived=False)
    return {**newest, **dict(preferred.values_list("pk", "preferred__name"))}


def lead_days_of(offer: Offer) -> int | None:
    """The days from order to delivery: those of the offer, else the supplier's own; None if neither is known."""
    return offer.supplier.lead_days if offer.lead_days is None else offer.lead_days


def lead_days_without_offer(kit: Kit, own: int | None) -> int | None:
    """The days of a kit that has no offer: its `own`, else those of the supplier that is preferred for it."""
    supplier = kit.part.preferred
    return supplier.lead_days if own is None and supplier and not supplier.archived else own


def offers_from(supplier: Supplier, parts: Iterable[Part], day: date) -> dict[UUID, Offer]:
    """{part: the supplier's newest offer of it on `day`}"""
    rows = Offer.objects.filter(shop=supplier.shop_id, supplier=supplier, part__in=[part.pk for part in parts])
    return {offer.part_id: offer for offer in rows.filter(valid_from__lte=day).order_by("valid_from")}
