"""Consumables and their packs, one at a time: added, changed, archived, brought back.

What was sent or sold holds copies of its own. The version of a consumable covers its packs.
"""

from collections.abc import Mapping
from dataclasses import replace

from django.db import transaction
from django.utils import timezone

from kitting.models import Consumable, Part, Supplier
from kitting.queries.consumables import (
    BUYING,
    FACTS,
    Texts,
    buying_texts,
    consumable_texts,
    kits_needing,
    offers_of,
    pack_texts,
    packs_of,
)
from shop.access import Actor
from shop.calc.keys import search_key
from shop.errors import RequestError, field_error
from shop.queries.calendar import shop_day
from shop.queries.entries import Entry, EntryError, read_texts, sound_entry
from shop.services import history
from shop.services.family_rules import follow_family
from shop.tables.findings import MUST_FIX

FILE = "consumables"  # the kind of file and its table
SIGNALS = ("danger", "warning")


@transaction.atomic
def add_consumable(*, actor: Actor, texts: Mapping[str, str]) -> Consumable:
    """Adds a consumable with its first pack. Refuses a family and specification, or a number, that the shop has."""
    entry = _sound(actor, texts)
    pack = entry.plan[0]
    family, specification = pack.consumable_key
    _refuse_taken(actor, family, specification)
    _refuse_number(actor, pack.key, pack.number)
    entry.kind.write(actor, entry.plan, shop_day(actor.shop, timezone.now()))
    row = Consumable.objects.get(shop=actor.shop, family=family, specification=specification)
    history.record(actor=actor, verb="added", row=row)
    return row


@transaction.atomic
def change_consumable(
    *, actor: Actor, consumable: Consumable, seen: int, texts: Mapping[str, str], move_rules: bool = False
) -> Consumable:
    """Sets the facts of the consumable; its unit stays, for its packs and the needs of kits are measured in it.

    Refused if the row has changed since version `seen`, or if the price rules name its family and would no longer
    apply; with `move_rules` they follow to the new name.
    """
    row = _current(consumable, seen)
    before = consumable_texts(row)
    values, findings = read_texts(kind=FILE, table=FILE, texts={name: texts[name] for name in FACTS})
    if refused := tuple(finding for finding in findings if finding.weight == MUST_FIX):
        raise EntryError(refused)
    row.family, row.specification = values["family"], values.get("specification", "")
    _refuse_taken(actor, row.family, row.specification, but=row)
    words = values.get("hazard", "")
    signal = words.partition(":")[0].casefold()
    facts = {"words": words, "form": values.get("form", ""), "signal": signal if signal in SIGNALS else ""}
    row.hazard = {name: value for name, value in {**row.hazard, **facts}.items() if value}
    row.shelf_life_days, row.tax_class = values.get("shelf_life"), values.get("tax_class", "")
    row.version += 1
    row.clean_fields()
    row.save()
    _record(actor, row, before, consumable_texts(row))
    today = shop_day(actor.shop, timezone.now())
    follow_family(actor=actor, old=before["family"], new=row.family, agreed=move_rules, today=today)
    return row


@transaction.atomic
def archive_consumable(*, actor: Actor, consumable: Consumable, seen: int, archived: bool) -> Consumable:
    """Archives the consumable or brings it back. Refuses to archive one that the newest version of a kit needs."""
    row = _current(consumable, seen)
    if archived and (kits := kits_needing(row)):
        raise RequestError(409, "consumable-is-needed", what=str(row), kits=", ".join(kits))
    row.archived, row.version = archived, row.version + 1
    row.save(update_fields=["archived", "version"])
    history.record(actor=actor, verb="archived" if archived else "brought back", row=row)
    return row


@transaction.atomic
def add_pack(*, actor: Actor, consumable: Consumable, texts: Mapping[str, str]) -> Consumable:
    """Adds a pack to the consumable. Refuses an archived consumable, and a number that the shop has."""
    row = Consumable.objects.select_for_update().get(pk=consumable.pk)
    if row.archived:
        raise RequestError(409, "consumable-archived", what=str(row))
    entry = _sound(actor, {**_of(row), **texts})
    _refuse_number(actor, entry.plan[0].key, entry.plan[0].number)
    _write(actor, row, entry, archived=False)
    pack = Part.objects.get(shop=actor.shop, number_key=entry.plan[0].key)
    history.record(actor=actor, verb="added", row=pack)
    return row


@transaction.atomic
def change_pack(*, actor: Actor, consumable: Consumable, pack: Part, seen: int, texts: Mapping[str, str]) -> Consumable:
    """Sets the pack to the texts; its number stays. Refused if the consumable has changed since version `seen`.

    A changed buying price is a new offer of today, and its supplier becomes the one whose price counts. Earlier
    offers stay, so the supplier and the price can be changed and not emptied.
    """
    row = _current(consumable, seen)
    offer = offers_of(actor, [pack], shop_day(actor.shop, timezone.now())).get(pack.pk)
    bought, archived = buying_texts(offer), pack.archived
    before = pack_texts(pack) | bought
    entry = _sound(actor, {**_of(row), **texts, "number": pack.number})
    imported = entry.plan[0]
    if offer is not None and imported.offer is None:
        raise field_error("/supplier" if not texts["supplier"].strip() else "/cost", "offer_stays")
    if {name: texts[name] for name in BUYING} == bought:
        entry = replace(entry, plan=(replace(imported, offer=None),))
    _write(actor, row, entry, archived=row.archived)
    pack.refresh_from_db()
    if imported.sells is None:
        pack.selling_price = None
    pack.archived = archived
    if entry.plan[0].offer is not None:
        pack.preferred = _supplier_of(actor, pack, imported.offer.supplier)
    pack.save(update_fields=["selling_price", "archived", "preferred"])
    newest = offers_of(actor, [pack], shop_day(actor.shop, timezone.now())).get(pack.pk)
    _record(actor, pack, before, pack_texts(pack) | buying_texts(newest))
    return row


@transaction.atomic
def archive_pack(*, actor: Actor, consumable: Consumable, pack: Part, seen: int, archived: bool) -> Consumable:
    """Archives the pack or brings it back. Refuses to archive the last pack of a consumable that a kit needs."""
    row = _current(consumable, seen)
    others = [other for other in packs_of(row) if not other.archived and other.pk != pack.pk]
    if archived and not others and (kits := kits_needing(row)):
        raise RequestError(409, "pack-is-the-last", what=str(row), kits=", ".join(kits))
    pack.archived = archived
    pack.save(update_fields=["archived"])
    row.version += 1
    row.save(update_fields=["version"])
    history.record(actor=actor, verb="archived" if archived else "brought back", row=pack)
    return row


def _current(consumable: Consumable, seen: int) -> Consumable:
    row = Consumable.objects.select_for_update().get(pk=consumable.pk)
    if row.version != seen:
        raise RequestError(412, "changed-meanwhile")
    return row


def _of(row: Consumable) -> Texts:
    return {**consumable_texts(row), "unit": row.unit}


def _sound(actor: Actor, texts: Mapping[str, str]) -> Entry:
    return sound_entry(actor=actor, kind=FILE, table=FILE, texts=texts)


def _write(actor: Actor, row: Consumable, entry: Entry, *, archived: bool) -> None:
    """Writes the pack as a file would, which raises the version; an archived consumable stays so."""
    entry.kind.write(actor, entry.plan, shop_day(actor.shop, timezone.now()))
    row.refresh_from_db()
    if row.archived != archived:
        row.archived = archived
        row.save(update_fields=["archived"])


def _supplier_of(actor: Actor, pack: Part, name: str) -> Supplier:
    """The supplier of the offer that was just written."""
    key = search_key(name)
    offers = pack.offers.filter(shop=actor.shop).select_related("supplier")
    supplier: Supplier = next(offer.supplier for offer in offers if search_key(offer.supplier.name) == key)
    return supplier


def _refuse_taken(actor: Actor, family: str, specification: str, but: Consumable | None = None) -> None:
    rows = Consumable.objects.filter(shop=actor.shop, family=family, specification=specification)
    if (rows.exclude(pk=but.pk) if but else rows).exists():
        raise field_error("/specification", "consumable_taken", family=family)


def _refuse_number(actor: Actor, key: str, number: str) -> None:
    if Part.objects.filter(shop=actor.shop, number_key=key).exists():
        raise field_error("/number", "part_number_taken", number=number)


def _record(actor: Actor, row: Consumable | Part, before: Texts, after: Texts) -> None:
    names = sorted({*before, *after})
    changes: dict[str, list[object]] = {
        name: [before.get(name, ""), after.get(name, "")] for name in names if before.get(name) != after.get(name)
    }
    history.record(actor=actor, verb="changed", row=row, changes=changes)
