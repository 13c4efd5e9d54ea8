"""Imports consumables and their packs: one row per pack, with one supplier's price."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from functools import partial
from typing import Any

from kitting.imports import examples, stored
from kitting.imports.buying import (
    GTIN,
    UNIT,
    ImportedOffer,
    archived_findings,
    buying_fields,
    code_findings,
    currency_findings,
    known_parts,
    offer_of,
    remember_columns,
    remembered_columns,
    write_codes,
    write_offers,
)
from kitting.imports.selling import PackPrice, sold_below_cost
from kitting.models import Consumable, Part
from shop.access import Actor
from shop.calc.keys import search_key
from shop.imports.money import finer_than_currency
from shop.queries.families import names_families
from shop.services import bulk
from shop.services.clean import clean
from shop.services.search_words import add_words, keep_words
from shop.tables.columns import Field, Table
from shop.tables.engine import FileKind, ImportPreview, ParsedFile, ParsedRow
from shop.tables.findings import Finding, facts_of, must_fix, please_check
from shop.tables.numbers import quantity, whole
from shop.tables.prices import MONEY
from shop.tables.registry import register
from shop.tables.values import article, text

PACKS = Table(
    "consumables",
    (
        Field("family", ("family", "kind", "group", "consumable"), text(40), True, True),
        Field("specification", ("specification", "spec", "class", "grade"), text(80)),
        Field("form", ("form",), text(20)),
        Field("unit", ("unit", "uom", "measured in"), UNIT, True, True),
        Field("number", ("number", "part number", "part no", "article", "item number", "sku"), article(60), True, True),
        Field("title", ("title", "description", "name", "article name"), text(200)),
        Field("pack_size", ("pack size", "size", "contents", "content", "pack"), quantity(), True, True),
        *buying_fields(("price", "net price")),
        Field("sells", ("selling price", "sells at", "sell price", "our price", "retail price"), MONEY),
        GTIN,
        Field("hazard", ("hazard", "hazards", "hazard words", "danger"), text(200)),
        Field("shelf_life", ("shelf life days", "shelf life", "keeps days"), whole(units=("d",))),
        Field("tax_class", ("tax class",), text(20)),
    ),
    ("consumables", "fluids", "packs"),
)
DESCRIBED = ("hazard", "shelf_life_days", "tax_class", "archived", "version")
OF_PACKS = ("title", "unit", "pack_size", "consumable", "archived", "selling_price")
PART_CLASS = "part"  # the default tax class of bought items
TURNED = {("mL", "L"): Decimal("0.001"), ("L", "mL"): Decimal(1000), ("kg", "g"): Decimal(1000)}
TURNED |= {("g", "kg"): Decimal("0.001"), ("mm", "m"): Decimal("0.001"), ("cm", "m"): Decimal("0.01")}


@dataclass(frozen=True, slots=True)
class ImportedConsumable:
    """A consumable as the file states it."""

    family: str
    specification: str
    unit: str
    form: str
    hazard: str
    shelf_life: int | None
    tax_class: str


@dataclass(frozen=True, slots=True)
class ImportedPack:
    """A pack of a consumable as the file states it."""

    of: ImportedConsumable
    number: str
    title: str
    size: Decimal
    code: str
    offer: ImportedOffer | None
    sells: Decimal | None
    row: ParsedRow

    @property
    def key(self) -> str:
        return search_key(self.number)[:60]

    @property
    def consumable_key(self) -> tuple[str, str]:
        return self.of.family, self.of.specification


def plan(file: ParsedFile) -> ImportPreview:
    """The packs of the file."""
    findings: list[Finding] = []
    packs = tuple(_pack(row, file.title, findings) for row in file.of("consumables") if row.get("number"))
    findings += _disagreements(packs)
    return ImportPreview(packs, tuple(findings))


def _pack(row: ParsedRow, title: Mapping[str, Any], findings: list[Finding]) -> ImportedPack:
    get = row.get
    buying = {name: title[name] for name in ("supplier",) if name in title} | dict(row.values)
    unit = get("unit", "")
    of = ImportedConsumable(
        get("family", ""),
        get("specification", ""),
        unit,
        get("form", ""),
        get("hazard", ""),
        get("shelf_life"),
        get("tax_class", ""),
    )
    name = get("title") or ", ".join(part for part in (of.family, of.specification, row.shown.get("pack_size")) if part)
    if get("cost") is not None and not buying.get("supplier"):
        findings.append(please_check("price_without_supplier", row.at("cost")))
    size = _size(row, unit, findings)
    return ImportedPack(of, get("number", ""), name[:200], size, get("code", ""), offer_of(buying), get("sells"), row)


def _size(row: ParsedRow, unit: str, findings: list[Finding]) -> Decimal:
    """The pack's size in the consumable's unit: 250 mL of a consumable in litres is 0.25."""
    size = row.get("pack_size")
    if size is None:
        return Decimal(1)
    if not size.unit or size.unit == unit or not unit:
        return Decimal(size.amount)
    factor = TURNED.get((size.unit, unit))
    if factor is None:
        findings.append(must_fix("units_differ", row.at("pack_size"), one=size.unit, other=unit))
        return Decimal(1)
    return Decimal(size.amount) * factor


def _disagreements(packs: tuple[ImportedPack, ...]) -> list[Finding]:
    numbers: dict[str, int] = {}
    units: dict[tuple[str, str], ImportedPack] = {}
    findings = []
    for pack in packs:
        first = numbers.setdefault(pack.key, pack.row.number)
        if first != pack.row.number:
            findings.append(must_fix("row_twice", pack.row.at("number"), first=first, what=pack.number))
        if not pack.of.unit:
            continue
        same = units.setdefault(pack.consumable_key, pack)
        if same.of.unit != pack.of.unit:
            findings.append(
                must_fix("unit_not_as_before", pack.row.at("unit"), first=same.row.number, unit=same.of.unit)
            )
    return findings


@names_families
def current_families(actor: Actor) -> Iterable[str]:
    """The families that fees may name."""
    rows = Consumable.objects.filter(shop=actor.shop, archived=False)
    return rows.values_list("family", flat=True)


def check(actor: Actor, plan: tuple[ImportedPack, ...]) -> ImportPreview:
    """Compares the packs with the shop's parts and consumables."""
    existing, consumables = known_parts(actor, (pack.key for pack in plan)), _consumables(actor)
    findings = code_findings(actor, ((pack.code, pack.key, pack.row) for pack in plan if pack.code))
    findings += currency_findings(actor, ((pack.offer, pack.row.at("currency")) for pack in plan if pack.offer))
    findings += archived_findings(actor, ((pack.offer, pack.row.at("supplier")) for pack in plan if pack.offer))
    for pack in plan:
        part, consumable = existing.get(pack.key), consumables.get(pack.consumable_key)
        if part is not None and part.kind != "pack":
            findings.append(must_fix("number_is_a_part", pack.row.at("number"), what=part.number))
        if consumable is not None and consumable.unit != pack.of.unit:
            findings.append(must_fix("unit_not_as_known", pack.row.at("unit"), unit=consumable.unit))
        if (part is not None and part.archived) or (consumable is not None and consumable.archived):
            findings.append(please_check("pack_comes_back", pack.row.at("number"), what=pack.number))
    selling = [
        PackPrice(pack.sells, pack.offer, pack.of.tax_class or PART_CLASS, pack.row.at("sells"))
        for pack in plan
        if pack.sells is not None
    ]
    findings += finer_than_currency(actor, ((price.price, price.where) for price in selling))
    findings += sold_below_cost(actor, selling)
    families = {pack.consumable_key for pack in plan}
    new = sum(pack.key not in existing for pack in plan)
    facts = facts_of(n=len(plan), consumables=len(families), new=new, known=len(plan) - new)
    return ImportPreview(plan, tuple(findings), (Finding("", "consumables", facts),))


def _consumables(actor: Actor) -> dict[tuple[str, str], Consumable]:
    return {(row.family, row.specification): row for row in Consumable.objects.filter(shop=actor.shop)}


def write(actor: Actor, plan: tuple[ImportedPack, ...], day: date) -> None:
    """Writes consumables, packs, codes and offers. Archived ones come back; the version of each consumable rises."""
    consumables = _write_consumables(actor, plan)
    parts = _write_packs(actor, plan, consumables)
    write_codes(actor, ((pack.code, parts[pack.key]) for pack in plan if pack.code))
    write_offers(actor, ((parts[pack.key], pack.offer) for pack in plan if pack.offer), day)


def _write_consumables(actor: Actor, plan: Iterable[ImportedPack]) -> dict[tuple[str, str], Consumable]:
    """Writes the consumables with raised versions, so that nobody saves over the file what a screen showed before."""
    consumables = _consumables(actor)
    for pack in plan:
        if pack.consumable_key not in consumables:
            of = pack.of
            row = Consumable(shop=actor.shop, family=of.family, specification=of.specification, unit=of.unit)
            consumables[pack.consumable_key] = row
        _describe(consumables[pack.consumable_key], pack.of)
    rows = [consumables[key] for key in dict.fromkeys(pack.consumable_key for pack in plan)]
    for row in rows:
        row.archived = False
        row.version += 1
    clean(rows)
    bulk.insert([row for row in rows if row._state.adding])
    bulk.update([row for row in rows if not row._state.adding], DESCRIBED)
    return consumables


def _describe(row: Consumable, of: ImportedConsumable) -> None:
    """Sets the fields that the file contains; other fields keep their values."""
    facts: dict[str, Any] = {"words": of.hazard, "form": of.form}
    signal = of.hazard.partition(":")[0].casefold()
    if signal in ("danger", "warning"):
        facts["signal"] = signal
    row.hazard = {**row.hazard, **{name: value for name, value in facts.items() if value}}
    row.shelf_life_days = of.shelf_life if of.shelf_life is not None else row.shelf_life_days
    row.tax_class = of.tax_class or row.tax_class


def _write_packs(
    actor: Actor, plan: Iterable[ImportedPack], consumables: dict[tuple[str, str], Consumable]
) -> dict[str, Part]:
    parts = known_parts(actor, (pack.key for pack in plan))
    titles = {key: part.title for key, part in parts.items()}
    for pack in plan:
        row = parts.setdefault(pack.key, Part(shop=actor.shop, number=pack.number, number_key=pack.key, kind="pack"))
        row.title, row.unit, row.pack_size = pack.title, "pc", pack.size
        row.consumable, row.archived = consumables[pack.consumable_key], False
        row.selling_price = row.selling_price if pack.sells is None else pack.sells
    clean(parts.values())
    added = [row for row in parts.values() if row._state.adding]
    stored = [row for row in parts.values() if not row._state.adding]
    bulk.insert(added)
    add_words(added)
    bulk.update(stored, OF_PACKS)
    keep_words([row for row in stored if row.title != titles[row.number_key]])
    return parts


KIND = register(
    FileKind(
        "consumables",
        (PACKS,),
        plan,
        check,
        write,
        remembered=partial(remembered_columns, "consumables"),
        remember=partial(remember_columns, "consumables"),
        stored=stored.consumables,
        example=examples.CONSUMABLES,
    )
)
