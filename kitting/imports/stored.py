"""The shop's consumables, suppliers and kits as the rows of a file that can be imported again."""

from kitting import access
from kitting.models import Code, Kit, KitRevision, Offer, Part, Supplier
from shop.access import Actor
from shop.queries.templates import conditions_text
from shop.tables.writing import FileRow, StoredRows


def consumables(actor: Actor) -> StoredRows:
    """A row for each pack in use, with the price that its preferred supplier asks now, or the newest of any."""
    packs = Part.objects.filter(shop=actor.shop, kind="pack", archived=False, consumable__archived=False)
    packs = packs.select_related("consumable")
    codes = {code.part_id: code.code for code in Code.objects.filter(shop=actor.shop).order_by("-code")}
    offers: dict[object, Offer] = {}
    rows = Offer.objects.filter(shop=actor.shop, part__kind="pack").select_related("supplier", "part")
    for offer in rows.order_by("valid_from"):
        earlier = offers.get(offer.part_id)
        if earlier is None or _is_preferred(offer) or not _is_preferred(earlier):
            offers[offer.part_id] = offer
    ordered = packs.order_by("consumable__family", "consumable__specification", "pack_size", "number")
    return {"consumables": [_pack(row, offers.get(row.pk), codes.get(row.pk, "")) for row in ordered]}


def suppliers(actor: Actor) -> StoredRows:
    """A row for each supplier that is not archived."""
    rows = Supplier.objects.filter(shop=actor.shop, archived=False).order_by("name")
    return {
        "suppliers": [
            {"supplier": row.name, "contact": row.contact, "currency": row.currency, "lead_days": row.lead_days}
            for row in rows.only("name", "contact", "currency", "lead_days")
        ]
    }


def kits(actor: Actor) -> StoredRows:
    """A row for each kit that is not archived, with the figures and the size of its newest version."""
    rows = access.kits_with_newest_revision(actor).filter(archived=False).order_by("title_key", "id")
    return {"kits": [_kit(row, row.newest[0] if row.newest else None) for row in rows]}


def _kit(row: Kit, newest: KitRevision | None) -> FileRow:
    return {
        "kit": row.code,
        "title": row.title,
        "number": row.part.number,
        "supplier": row.part.preferred.name if row.part.preferred else "",
        "price": newest.price if newest else None,
        "hours": newest.hours if newest else None,
        "lead_days": newest.lead_days if newest else None,
        "fits": conditions_text(row.fits),
        "fitted_before": row.fitted_before,
        "version": newest.number if newest else None,
        "lines": getattr(newest, "part_lines", None),
        "cartons": getattr(newest, "carton_lines", None),
    }


def _is_preferred(offer: Offer) -> bool:
    return bool(offer.part.preferred_id == offer.supplier_id)


def _pack(row: Part, offer: Offer | None, code: str) -> FileRow:
    consumable = row.consumable
    assert consumable is not None  # a database constraint
    price: FileRow = {}
    if offer is not None:
        price = {
            "supplier": offer.supplier.name,
            "cost": offer.unit_cost,
            "currency": offer.currency,
            "duty": offer.duty_rate,
            "freight": offer.freight,
            "brokerage": offer.brokerage,
            "valid_until": offer.valid_until.isoformat() if offer.valid_until else "",
            "lead_days": offer.lead_days,
        }
    return {
        "family": consumable.family,
        "specification": consumable.specification,
        "form": consumable.hazard.get("form", ""),
        "unit": consumable.unit,
        "number": row.number,
        "title": row.title,
        "pack_size": row.pack_size,
        **price,
        "sells": row.selling_price,
        "code": code,
        "hazard": consumable.hazard.get("words", ""),
        "shelf_life": consumable.shelf_life_days,
        "tax_class": consumable.tax_class,
    }
