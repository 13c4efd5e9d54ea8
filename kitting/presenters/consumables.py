"""Consumables as answers."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from datetime import datetime
from uuid import UUID

from kitting.answers.consumables import ConsumableOut, ConsumableRowOut, PackOfferOut, PackOffersOut, PackOut
from kitting.models import Code, Consumable, Offer, Part
from kitting.queries.consumables import (
    BUYING,
    buying_texts,
    consumable_texts,
    kits_needing,
    offers_of,
    pack_texts,
    packs_of,
)
from shop.access import Actor
from shop.calc.quantity import plain
from shop.queries.calendar import shop_day
from shop.queries.entries import read_entries
from shop.tables.wording import at_a_field


def consumable_row(row: Consumable) -> ConsumableRowOut:
    """The row with its packs, which `access.consumables` has read."""
    packs: Iterable[Part] = row.current_packs  # type: ignore[attr-defined]
    return ConsumableRowOut(
        id=row.pk,
        family=row.family,
        specification=row.specification,
        unit=row.unit,
        packs=[plain(pack.pack_size) for pack in packs if pack.pack_size is not None],
        archived=row.archived,
        version=row.version,
    )


def consumable_answer(row: Consumable) -> ConsumableOut:
    packs = packs_of(row)
    codes: dict[UUID, list[str]] = {}
    stored = Code.objects.filter(shop=row.shop_id, part__in=packs).values_list("part", "code")
    for part, code in sorted(stored):  # in the database the order would have every code of the shop read
        codes.setdefault(part, []).append(code)
    texts = consumable_texts(row)
    return ConsumableOut(
        id=row.pk,
        family=row.family,
        specification=row.specification,
        unit=row.unit,
        form=texts["form"],
        hazard=texts["hazard"],
        shelf_life=texts["shelf_life"],
        tax_class=row.tax_class,
        kits=kits_needing(row),
        packs=[_pack(pack, codes.get(pack.pk, [])) for pack in packs],
        archived=row.archived,
        version=row.version,
    )


def _pack(row: Part, codes: list[str]) -> PackOut:
    texts = pack_texts(row)
    return PackOut(
        id=row.pk,
        number=row.number,
        title=row.title,
        pack_size=texts["pack_size"],
        sells=texts["sells"],
        codes=codes,
        archived=row.archived,
    )


def offers_answer(row: Consumable, actor: Actor, now: datetime) -> PackOffersOut:
    """The offers, with what a file of consumables would have a person check about each pack."""
    packs = packs_of(row)
    offers = offers_of(actor, packs, shop_day(actor.shop, now))
    bought = [dict.fromkeys(BUYING, "") | buying_texts(offers.get(pack.pk)) for pack in packs]
    facts = {**consumable_texts(row), "unit": row.unit}
    rows = [{**facts, **pack_texts(pack), **texts} for pack, texts in zip(packs, bought, strict=True)]
    entry = read_entries(actor=actor, kind="consumables", table="consumables", rows=rows)
    notices = defaultdict(list)
    for finding in entry.to_check:
        notices[finding.row].append(at_a_field(finding))
    return PackOffersOut(
        items=[
            _offer(pack, offers.get(pack.pk), texts, notices[number])
            for number, (pack, texts) in enumerate(zip(packs, bought, strict=True), start=1)
        ]
    )


def _offer(pack: Part, offer: Offer | None, texts: Mapping[str, str], notices: list[str]) -> PackOfferOut:
    return PackOfferOut(
        pack=pack.pk,
        supplier=texts["supplier"],
        cost=texts["cost"],
        currency=texts["currency"],
        duty=texts["duty"],
        freight=texts["freight"],
        brokerage=texts["brokerage"],
        valid_until=texts["valid_until"],
        lead_days=texts["lead_days"],
        valid_from=offer.valid_from.isoformat() if offer else "",
        notices=notices,
    )
