"""Consumables and their packs as the texts of forms, which are the texts of a row in a file of consumables."""

from collections.abc import Iterable
from datetime import date
from uuid import UUID

from django.db.models import Max

from kitting.models import Consumable, Kit, KitRevision, Need, Offer, Part
from kitting.queries.offers import newest_offers
from shop.access import Actor
from shop.calc.quantity import plain

FACTS = ("family", "specification", "form", "hazard", "shelf_life", "tax_class")
BUYING = ("supplier", "cost", "currency", "duty", "freight", "brokerage", "valid_until", "lead_days")
Texts = dict[str, str]


def consumable_texts(row: Consumable) -> Texts:
    """{column: text} of what a file says about the consumable itself; its unit is not among it."""
    return {
        "family": row.family,
        "specification": row.specification,
        "form": str(row.hazard.get("form", "")),
        "hazard": str(row.hazard.get("words", "")),
        "shelf_life": "" if row.shelf_life_days is None else str(row.shelf_life_days),
        "tax_class": row.tax_class,
    }


def pack_texts(row: Part) -> Texts:
    """{column: text} of a pack without its buying price."""
    assert row.pack_size is not None  # a database constraint
    return {
        "number": row.number,
        "title": row.title,
        "pack_size": plain(row.pack_size),
        "sells": "" if row.selling_price is None else plain(row.selling_price),
    }


def buying_texts(offer: Offer | None) -> Texts:
    """{column: text} of the buying price; {} where the pack has none."""
    if offer is None:
        return {}
    return {
        "supplier": offer.supplier.name,
        "cost": plain(offer.unit_cost),
        "currency": offer.currency,
        "duty": f"{plain(offer.duty_rate * 100)} %",
        "freight": plain(offer.freight),
        "brokerage": plain(offer.brokerage),
        "valid_until": offer.valid_until.isoformat() if offer.valid_until else "",
        "lead_days": "" if offer.lead_days is None else str(offer.lead_days),
    }


def packs_of(row: Consumable) -> list[Part]:
    """All packs of the consumable, the smallest first."""
    return list(Part.objects.filter(shop=row.shop_id, consumable=row).order_by("pack_size", "number"))


def offers_of(actor: Actor, packs: Iterable[Part], day: date) -> dict[UUID, Offer]:
    """{pack: the offer that makes its price on `day`}"""
    return newest_offers(actor.shop, list(packs), day)


def kits_needing(row: Consumable) -> list[str]:
    """The codes of the kits whose newest version needs the consumable."""
    needs = Need.objects.filter(shop=row.shop_id, consumable=row)
    used = set(needs.values_list("revision__kit", "revision__number"))
    versions = KitRevision.objects.filter(shop=row.shop_id, kit__in={kit for kit, _ in used})
    newest = set(versions.values_list("kit").annotate(newest=Max("number")))
    kits = [kit for kit, _ in used & newest]
    return sorted(Kit.objects.filter(shop=row.shop_id, pk__in=kits).values_list("code", flat=True))
