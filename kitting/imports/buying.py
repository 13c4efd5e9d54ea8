"""Purchase data shared by kit and consumables files: suppliers, parts by number, codes, dated offers."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any
from uuid import UUID

from django.db.models import QuerySet

from kitting.models import Code, Offer, Part, Supplier
from kitting.models.parts import UNITS
from shop.access import Actor
from shop.calc.keys import search_key
from shop.services import bulk
from shop.services.clean import clean
from shop.services.search_words import add_words
from shop.tables import dates
from shop.tables.columns import Field
from shop.tables.findings import Finding, must_fix, please_check
from shop.tables.numbers import share, whole
from shop.tables.parsed import Memory, ParsedRow
from shop.tables.prices import MONEY
from shop.tables.sheets import Cell
from shop.tables.units import UNITS as UNIT_WORDS
from shop.tables.units import unit_of
from shop.tables.values import CellError, Value, barcode, content_of, plain_text, text

AT_ONCE = 500  # rows of one query: databases limit parameters
TERMS_OF_OFFER = ["currency", "unit_cost", "duty_rate", "freight", "brokerage", "lead_days", "valid_until"]


class UnitReader:
    """A reader of a unit of goods in any language that we know."""

    words = {word: unit for word, unit in UNIT_WORDS.items() if unit in UNITS}

    def __call__(self, cell: Cell, decimal: str) -> Value:
        content_of(cell)
        written = plain_text(cell)
        unit = unit_of(written)
        if written and unit not in UNITS:
            raise CellError("unknown_unit", unit=written)
        return Value(unit)


UNIT = UnitReader()


def currency(cell: Cell, decimal: str) -> Value:
    """Reads a currency code of three letters."""
    written = plain_text(cell).upper()
    if len(written) != 3 or not (written.isascii() and written.isalpha()):
        raise CellError("not_a_currency")
    return Value(written)


def buying_fields(cost: tuple[str, ...]) -> tuple[Field, ...]:
    """Supplier, cost, currency, duty, freight, brokerage, lead days: columns of a list or labels of a title block."""
    return (
        Field("supplier", ("supplier", "vendor", "from", "bought from"), text(120)),
        Field("cost", ("cost", "unit cost", "purchase price", "buying price", *cost), MONEY),
        Field("currency", ("currency", "cur"), currency),
        Field("duty", ("duty", "duty rate", "customs duty"), share()),
        Field("freight", ("freight", "freight cost", "freight a unit", "carriage"), MONEY),
        Field("brokerage", ("brokerage", "brokerage a unit", "clearance"), MONEY),
        Field("valid_until", ("price valid until", "offer valid until", "valid until", "price holds until"), dates.day),
        Field("lead_days", ("lead days", "lead time", "lead time days", "delivery days"), whole(units=("d",))),
    )


PER = Field(
    "per",
    ("per", "price per", "price unit", "price base", "base quantity", "je", "preiseinheit", "pe"),
    whole(units=("pc",)),
)
GTIN = Field("code", ("code", "gtin", "ean", "barcode", "bar code", "ean code", "upc"), barcode)


@dataclass(frozen=True, slots=True)
class ImportedOffer:
    """An offer as the file states it: amounts in `currency` ("": the supplier's), brokerage in the shop's own."""

    supplier: str
    cost: Decimal
    currency: str
    duty: Decimal = Decimal(0)
    freight: Decimal = Decimal(0)
    brokerage: Decimal = Decimal(0)
    lead_days: int | None = None
    valid_until: date | None = None


@dataclass(frozen=True, slots=True)
class ImportedPart:
    """A part as the file states it."""

    number: str
    title: str
    unit: str = "pc"
    kind: str = "part"
    returnable: bool | None = None  # None: the file does not say

    @property
    def key(self) -> str:
        return search_key(self.number)[:60]


def offer_of(values: Mapping[str, Any]) -> ImportedOffer | None:
    """The offer in these values; None without a supplier or a cost."""
    if not values.get("supplier") or values.get("cost") is None:
        return None
    return ImportedOffer(
        values["supplier"],
        values["cost"],
        values.get("currency", ""),
        values.get("duty", Decimal(0)),
        values.get("freight", Decimal(0)),
        values.get("brokerage", Decimal(0)),
        values.get("lead_days"),
        values.get("valid_until"),
    )


def known_parts(actor: Actor, keys: Iterable[str]) -> dict[str, Part]:
    """{number key: part}."""
    return {row.number_key: row for rows in _of_keys(actor, keys) for row in rows}


def known_units(actor: Actor, keys: Iterable[str]) -> dict[str, str]:
    """{number key: unit}."""
    return {key: unit for rows in _of_keys(actor, keys) for key, unit in rows.values_list("number_key", "unit")}


def _of_keys(actor: Actor, keys: Iterable[str]) -> Iterator[QuerySet[Part]]:
    number_keys = sorted(set(keys))
    for start in range(0, len(number_keys), AT_ONCE):
        yield Part.objects.filter(shop=actor.shop, number_key__in=number_keys[start : start + AT_ONCE])


def suppliers(actor: Actor) -> dict[str, Supplier]:
    """{name key: supplier} of the shop."""
    return {search_key(row.name): row for row in Supplier.objects.filter(shop=actor.shop)}


def supplier_for(actor: Actor, suppliers_by_key: dict[str, Supplier], name: str, currency: str) -> Supplier:
    """The supplier of that name. A new one is added with the given currency, or the shop's own."""
    key = search_key(name)
    if key not in suppliers_by_key:
        row = Supplier(shop=actor.shop, name=name, currency=currency or actor.shop.currency)
        clean((row,))
        row.save(force_insert=True)
        suppliers_by_key[key] = row
    return suppliers_by_key[key]


def write_parts(actor: Actor, imported: Iterable[ImportedPart]) -> dict[str, Part]:
    """{number key: part}. New numbers are added; existing parts change in `returnable` alone, if the file says it."""
    parts = {part.key: part for part in reversed(tuple(imported))}
    existing = known_parts(actor, parts)
    added = [
        Part(
            shop=actor.shop,
            number=part.number,
            number_key=key,
            title=part.title,
            kind=part.kind,
            unit=part.unit,
            returnable=part.returnable is not False,
        )
        for key, part in parts.items()
        if key not in existing
    ]
    clean(added)
    bulk.insert(added)
    add_words(added)
    changed = [row for key, row in existing.items() if parts[key].returnable not in (None, row.returnable)]
    for row in changed:
        row.returnable = not row.returnable
    bulk.update(changed, ["returnable"])
    return existing | {row.number_key: row for row in added}


def code_findings(actor: Actor, codes: Iterable[tuple[str, str, ParsedRow]]) -> list[Finding]:
    """Findings for (code, number key, row): a code stands for one part only, in the file and in the shop."""
    seen: dict[str, tuple[str, int]] = {}
    rows = Code.objects.filter(shop=actor.shop).values_list("code", "part__number_key", "part__number")
    parts_by_code = {code: (key, number) for code, key, number in rows}
    findings = []
    for code, key, row in codes:
        part_key, number = parts_by_code.get(code, (key, ""))
        first = seen.setdefault(code, (key, row.number))
        if part_key != key:
            findings.append(please_check("code_of_another_part", row.at("code"), barcode=code, what=number))
        elif first[0] != key:
            findings.append(must_fix("code_twice", row.at("code"), barcode=code, first=first[1]))
    return findings


def prefer(actor: Actor, parts: Iterable[Part], name: str, currency: str) -> None:
    """Sets the supplier of the file as preferred for parts that have no preferred supplier, or an archived one."""
    if not name:
        return
    suppliers_by_key = suppliers(actor)
    supplier = supplier_for(actor, suppliers_by_key, name, currency)
    archived = _archived(suppliers_by_key)
    _prefer(actor, supplier, (part for part in parts if part.preferred_id in archived))


def _prefer(actor: Actor, supplier: Supplier, parts: Iterable[Part]) -> None:
    """Sets the supplier as the preferred one of these parts, unless it is archived."""
    free = [] if supplier.archived else list({part.pk: part for part in parts}.values())
    for part in free:
        part.preferred = supplier
    for start in range(0, len(free), AT_ONCE):
        keys = [part.pk for part in free[start : start + AT_ONCE]]
        Part.objects.filter(shop=actor.shop, pk__in=keys).update(preferred=supplier)


def _archived(suppliers_by_key: Mapping[str, Supplier]) -> set[UUID | None]:
    """The ids of archived suppliers, and None: a part with one of these counts as having no preferred supplier."""
    return {None, *(row.pk for row in suppliers_by_key.values() if row.archived)}


def remembered_columns(kind: str, actor: Actor, supplier: str) -> Memory:
    """The columns and answers of the supplier's last file of this kind."""
    row = suppliers(actor).get(search_key(supplier))
    return Memory(row.columns.get(kind, {}), row.answers.get(kind, {})) if row else Memory()


def remember_columns(kind: str, actor: Actor, supplier: str, memory: Memory) -> None:
    """Stores how the file was read for the supplier's next one of this kind. A mapping of none leaves the last one."""
    row = supplier_for(actor, suppliers(actor), supplier, "")
    if memory.columns:
        row.columns = {**row.columns, kind: dict(memory.columns)}
    row.answers = {**row.answers, kind: dict(memory.repairs)}
    row.save(update_fields=["columns", "answers"])


def write_codes(actor: Actor, pairs: Iterable[tuple[str, Part]]) -> None:
    """Adds the codes that the shop does not have yet."""
    codes = dict(pairs)
    stored = set(Code.objects.filter(shop=actor.shop).values_list("code", flat=True))
    rows = [Code(shop=actor.shop, code=code, part=part) for code, part in codes.items() if code not in stored]
    clean(rows)
    bulk.insert(rows)


def write_offers(actor: Actor, offers: Iterable[tuple[Part, ImportedOffer]], day: date) -> None:
    """Adds or corrects one offer per part and supplier for the day. A part's first supplier becomes its preferred one.

    Of two offers for a part by one supplier the later one counts.
    """
    suppliers_by_key = suppliers(actor)
    rows: dict[tuple[UUID, UUID], Offer] = {}
    first: dict[UUID, tuple[Supplier, list[Part]]] = {}  # {supplier: the parts that it is preferred for}
    preferred: set[UUID] = set()
    archived = _archived(suppliers_by_key)
    for part, offer in offers:
        supplier = supplier_for(actor, suppliers_by_key, offer.supplier, offer.currency)
        rows[part.pk, supplier.pk] = _offer(actor, part, supplier, offer, day)
        if part.preferred_id in archived and part.pk not in preferred and not supplier.archived:
            preferred.add(part.pk)
            first.setdefault(supplier.pk, (supplier, []))[1].append(part)
    stored = _offers_of_the_day(actor, [part for part, _ in rows], day)
    added = [row for key, row in rows.items() if key not in stored]
    corrected = [row for key, row in rows.items() if key in stored]
    for row in corrected:
        row.pk = stored[row.part_id, row.supplier_id]
    clean(rows.values())
    bulk.insert(added)
    bulk.update(corrected, TERMS_OF_OFFER)
    for supplier, parts in first.values():
        _prefer(actor, supplier, parts)


def _offer(actor: Actor, part: Part, supplier: Supplier, offer: ImportedOffer, day: date) -> Offer:
    return Offer(
        shop=actor.shop,
        part=part,
        supplier=supplier,
        valid_from=day,
        currency=offer.currency or supplier.currency,
        unit_cost=offer.cost,
        duty_rate=offer.duty,
        freight=offer.freight,
        brokerage=offer.brokerage,
        lead_days=offer.lead_days,
        valid_until=offer.valid_until,
    )


def _offers_of_the_day(actor: Actor, parts: Iterable[UUID], day: date) -> dict[tuple[UUID, UUID], UUID]:
    """{(part, supplier): offer} of the offers that begin on the day."""
    keys = sorted(set(parts))
    stored: dict[tuple[UUID, UUID], UUID] = {}
    for start in range(0, len(keys), AT_ONCE):
        rows = Offer.objects.filter(shop=actor.shop, part__in=keys[start : start + AT_ONCE], valid_from=day)
        stored |= {(part, supplier): id for part, supplier, id in rows.values_list("part", "supplier", "pk")}
    return stored


def currency_findings(actor: Actor, offers: Iterable[tuple[ImportedOffer, Finding]]) -> list[Finding]:
    """Findings for foreign currencies without an exchange rate: they cannot be priced yet, but may be imported."""
    from shop.models import Rate

    rated = set(Rate.objects.filter(shop=actor.shop).values_list("currency", flat=True)) | {actor.shop.currency}
    suppliers_by_key = suppliers(actor)
    findings: dict[str, Finding] = {}
    for offer, at in offers:
        supplier = suppliers_by_key.get(search_key(offer.supplier))
        money = offer.currency or (supplier.currency if supplier else actor.shop.currency)
        if money not in rated:
            findings.setdefault(money, please_check("no_rate", at, currency=money))
    return list(findings.values())


def archived_findings(actor: Actor, offers: Iterable[tuple[ImportedOffer, Finding]]) -> list[Finding]:
    """A finding for each archived supplier of an offer."""
    suppliers_by_key = suppliers(actor)
    findings: dict[str, Finding] = {}
    for offer, at in offers:
        key = search_key(offer.supplier)
        if key in suppliers_by_key and suppliers_by_key[key].archived:
            findings.setdefault(key, please_check("supplier_archived", at, what=suppliers_by_key[key].name))
    return list(findings.values())
