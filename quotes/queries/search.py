"""Reads what the search box finds: customers, vehicles, kits, parts and jobs, a handful of each."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any
from uuid import UUID

from django.db.models import Exists, OuterRef, QuerySet

from kitting.models import Code, Kit, KitLine, KitRevision, KitWord, Part, PartWord
from kitting.queries.supersessions import newest_parts
from shop.access import COUNTER, Actor
from shop.models import Customer, CustomerWord, Job, Vehicle, VehicleWord
from shop.models.customers import VIN_TAIL
from shop.queries.search import Handful, begins

EACH = 6


@dataclass(frozen=True, slots=True)
class FoundRows:
    """Rows of each kind, the most likely first."""

    customers: Sequence[Customer]
    vehicles: Sequence[Vehicle]
    kits: Sequence[Kit]


@dataclass(frozen=True, slots=True)
class FoundParts:
    """Parts, what replaces each in the end, and the titles of the kits with it. `archived`: only where no other is."""

    parts: Sequence[Part]
    newest: Mapping[UUID, Part]
    kits: Mapping[UUID, Sequence[str]]
    archived: Sequence[Part]


def rows_by_words(actor: Actor, key: str, words: Sequence[str]) -> FoundRows:
    """Rows whose text begins with the key, then rows that have a word for each word typed. An index finds them all."""
    customers, vehicles, kits = Handful(EACH), Handful(EACH), Handful(EACH)
    if actor.role in COUNTER:
        for field in ("name_key", "phone_key"):
            customers.add(_customers(actor).filter(begins(field, key)).order_by(field))
        customers.add_words(CustomerWord.objects.filter(shop=actor.shop), words)
    for field in ("plate_key", "title_key"):
        vehicles.add(_vehicles(actor).filter(begins(field, key)).order_by(field))
    if len(vin := key.upper()) >= VIN_TAIL:
        vehicles.add(_vehicles(actor).filter(vin_tail=vin[-VIN_TAIL:], vin__endswith=vin))
    for typed in (words, [key]):
        vehicles.add_words(VehicleWord.objects.filter(shop=actor.shop), typed)
    kits.add(_kits(actor).filter(begins("title_key", key)).order_by("title_key"))
    kits.add_words(KitWord.objects.filter(shop=actor.shop, target__archived=False), words)
    return _found(actor, customers, vehicles, kits)


def rows_by_middle(actor: Actor, key: str) -> FoundRows:
    """Rows with the key anywhere in their text. No index helps here, so it is tried last."""
    customers, vehicles, kits = Handful(EACH), Handful(EACH), Handful(EACH)
    if actor.role in COUNTER:
        customers.look_through(_customers(actor), "name_key", "phone_key", holding=key)
    vehicles.look_through(_vehicles(actor), "title_key", "plate_key", holding=key)
    kits.look_through(_kits(actor), "title_key", "part__number_key", holding=key)
    return _found(actor, customers, vehicles, kits)


def jobs_numbered(actor: Actor, number: int) -> QuerySet[Job]:
    """The job of that number, with its vehicle and customer."""
    return Job.objects.filter(shop=actor.shop, number=number).select_related("vehicle", "customer")


def parts_found(actor: Actor, typed: str, key: str, words: Sequence[str]) -> FoundParts:
    """Parts by a code of theirs, the beginning of their number, or the words of their title."""
    rows, handful = Part.objects.filter(shop=actor.shop, archived=False), Handful(EACH)
    code = typed.strip()
    codes = Code.objects.filter(shop=actor.shop, code__in=[code, code.zfill(14)]).values("part")
    handful.add(rows.filter(pk__in=codes))
    handful.add(rows.filter(begins("number_key", key)).order_by("number_key"))
    handful.add_words(PartWord.objects.filter(shop=actor.shop), words)
    parts = handful.rows(rows, "number_key")
    return FoundParts(
        parts=parts,
        newest=newest_parts(actor.shop, parts),
        kits=_kits_of(actor, parts),
        archived=() if parts else _archived_parts(actor, codes, key),
    )


def _found(actor: Actor, customers: Handful, vehicles: Handful, kits: Handful) -> FoundRows:
    return FoundRows(
        customers=customers.rows(_customers(actor).prefetch_related("vehicles"), "name_key"),
        vehicles=vehicles.rows(_vehicles(actor).select_related("customer"), "title_key"),
        kits=kits.rows(_kits(actor), "title_key"),
    )


def _archived_parts(actor: Actor, codes: Any, key: str) -> Sequence[Part]:
    """Archived parts whose whole number or code was typed or scanned, so that a person who holds one learns of it."""
    rows, handful = Part.objects.filter(shop=actor.shop, archived=True), Handful(EACH)
    handful.add(rows.filter(pk__in=codes))
    handful.add(rows.filter(number_key=key))
    return handful.rows(rows, "number_key")


def _kits_of(actor: Actor, parts: Sequence[Part]) -> dict[UUID, list[str]]:
    """Part -> the titles of the kits whose newest version holds it, or that are bought under its number."""
    if not parts:
        return {}
    ids = [part.pk for part in parts]
    later = KitRevision.objects.filter(shop=actor.shop, kit=OuterRef("revision__kit"))
    newer = later.filter(number__gt=OuterRef("revision__number"))
    kit_lines = KitLine.objects.filter(shop=actor.shop, part__in=ids, revision__kit__archived=False)
    lines = kit_lines.filter(~Exists(newer))
    bought = _kits(actor).filter(part__in=ids)
    rows = {*lines.values_list("part", "revision__kit__title"), *bought.values_list("part", "title")}
    titles: dict[UUID, list[str]] = {}
    for part, title in sorted(rows, key=lambda row: row[1]):
        titles.setdefault(part, []).append(title)
    return titles


def _customers(actor: Actor) -> QuerySet[Customer]:
    return Customer.objects.filter(shop=actor.shop, archived=False)


def _vehicles(actor: Actor) -> QuerySet[Vehicle]:
    return Vehicle.objects.filter(shop=actor.shop)


def _kits(actor: Actor) -> QuerySet[Kit]:
    return Kit.objects.filter(shop=actor.shop, archived=False)
