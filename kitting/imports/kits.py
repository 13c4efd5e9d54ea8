"""Imports the list of kits: the head of each kit, and the selling price, hours and lead days of its newest version.

An empty cell leaves what is recorded. A changed figure makes the kit's next version, with the contents of the last.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Any

from kitting import access
from kitting.imports import examples, stored
from kitting.imports.buying import supplier_for, suppliers
from kitting.imports.suppliers import MOST_LEAD
from kitting.models import Kit, KitRevision, Offer
from kitting.services.kit_list import FIGURES, HEAD, bring_back, differing, set_listed
from kitting.services.kits import NewRevision, add_kit
from shop.access import Actor
from shop.calc.keys import search_key
from shop.imports.labour import HOURS
from shop.imports.money import finer_than_currency
from shop.tables.columns import Field, Table
from shop.tables.conditions import when
from shop.tables.engine import FileKind, ImportPreview, ParsedFile, ParsedRow
from shop.tables.findings import Finding, facts_of, must_fix, please_check
from shop.tables.numbers import whole
from shop.tables.prices import MONEY
from shop.tables.registry import register
from shop.tables.values import article, text

MOST_FITTED = 9999
TABLE = Table(
    "kits",
    (
        Field("kit", ("kit", "kit number", "kit no", "kit code", "code"), article(40), True, True),
        Field("title", ("title", "description", "name", "kit name"), text(200)),
        Field("number", ("order number", "part number", "bought as"), article(60)),
        Field("supplier", ("supplier", "vendor", "bought from"), text(120)),
        Field("price", ("selling price", "our price", "price", "sells for"), MONEY),
        Field("hours", ("hours", "fitting hours", "book hours"), HOURS),
        Field("lead_days", ("lead days", "lead time", "delivery days"), whole(units=("d",), most=MOST_LEAD)),
        Field("fits", ("for vehicles", "vehicles", "fits", "for"), when),
        Field("fitted_before", ("fitted before", "times fitted"), whole(most=MOST_FITTED)),
        Field("version", ("version",), text(20)),
        Field("lines", ("lines",), text(20)),
        Field("cartons", ("cartons",), text(20)),
    ),
    ("kits",),
)


@dataclass(frozen=True, slots=True)
class ImportedKit:
    """A kit as the file states it; `values` has the filled cells."""

    code: str
    values: dict[str, Any]
    row: ParsedRow

    def of(self, names: Iterable[str]) -> dict[str, Any]:
        return {name: self.values[name] for name in names if name in self.values}


@dataclass(frozen=True, slots=True)
class StoredKit:
    """A kit of the shop with its newest version."""

    row: Kit
    newest: KitRevision | None


def plan(file: ParsedFile) -> ImportPreview:
    """The kits of the file."""
    rows = tuple(_kit(row) for row in file.of("kits"))
    findings: list[Finding] = []
    seen: dict[str, int] = {}
    for imported in rows:
        first = seen.setdefault(imported.code, imported.row.number)
        if first != imported.row.number:
            findings.append(must_fix("row_twice", imported.row.at("kit"), first=first, what=imported.code))
    return ImportPreview(rows, tuple(findings))


def _kit(row: ParsedRow) -> ImportedKit:
    values = {name: row.get(name) for name in ("supplier", *HEAD, *FIGURES) if row.get(name) not in (None, "", ())}
    if "fits" in values:
        values["fits"] = [{"attribute": name, "in": list(accepted)} for name, accepted in values["fits"]]
    return ImportedKit(row.get("kit", ""), values, row)


def check(actor: Actor, plan: tuple[ImportedKit, ...]) -> ImportPreview:
    """Compares the kits with those of the shop."""
    existing = _existing(actor)
    findings = finer_than_currency(actor, [(row.values.get("price"), row.row.at("price")) for row in plan])
    for imported in plan:
        if imported.code not in existing:
            findings += _missing(imported)
        elif existing[imported.code].row.archived:
            findings.append(please_check("kit_comes_back", imported.row.at("kit"), what=imported.code))
    findings += _without_offer(actor, plan, existing)
    new = sum(imported.code not in existing for imported in plan)
    versions = sum(_makes_a_version(imported, existing.get(imported.code)) for imported in plan)
    facts = facts_of(n=len(plan), new=new, known=len(plan) - new, versions=versions)
    return ImportPreview(plan, tuple(findings), (Finding("", "kits", facts),))


def _makes_a_version(imported: ImportedKit, kit: StoredKit | None) -> bool:
    return kit is not None and bool(differing(kit.row, kit.newest, imported.values, FIGURES))


def _missing(imported: ImportedKit) -> Iterable[Finding]:
    """Findings for a new kit, which needs a code to be found by, a title, a price and hours."""
    if not search_key(imported.code):
        yield must_fix("nothing_to_find_by", imported.row.at("kit"))
    for name in ("title", "price", "hours"):
        if name not in imported.values:
            yield must_fix("new_kit_needs", imported.row.at(name), what=imported.code)


def _without_offer(actor: Actor, plan: Iterable[ImportedKit], existing: dict[str, StoredKit]) -> Iterable[Finding]:
    """Findings for kits that another supplier without an offer is to price."""
    offers = set(Offer.objects.filter(shop=actor.shop).values_list("part", "supplier"))
    offered = {part for part, _ in offers}
    by_key = suppliers(actor)
    for imported in plan:
        kit = existing.get(imported.code)
        if kit is None or "supplier" not in imported.values or "number" in imported.values:
            continue
        supplier = by_key.get(search_key(imported.values["supplier"]))
        part = kit.row.part_id
        if part in offered and (supplier is None or (part, supplier.pk) not in offers):
            yield please_check("supplier_without_offer", imported.row.at("supplier"), what=imported.values["supplier"])


def write(actor: Actor, plan: tuple[ImportedKit, ...], day: date) -> None:
    """Adds new kits, and changes the others where the file differs from what is recorded. Archived ones come back."""
    existing, by_key = _existing(actor), suppliers(actor)
    for imported in plan:
        name = imported.values.get("supplier")
        supplier = supplier_for(actor, by_key, name, "") if name else None
        kit = existing.get(imported.code)
        if kit is None:
            contents = NewRevision(**imported.of(FIGURES), fits=imported.values.get("fits", ()))
            number, title = imported.values.get("number", ""), imported.values["title"]
            revision = add_kit(
                actor=actor, code=imported.code, title=title, contents=contents, number=number, supplier=supplier
            )
            kit = StoredKit(revision.kit, revision)
        else:
            bring_back(actor=actor, kit=kit.row)
        values = imported.of((*HEAD, *FIGURES)) | ({"supplier": supplier} if supplier else {})
        set_listed(actor=actor, kit=kit.row, newest=kit.newest, values=values)


def _existing(actor: Actor) -> dict[str, StoredKit]:
    rows = access.kits_with_newest_revision(actor)
    return {row.code: StoredKit(row, row.newest[0] if row.newest else None) for row in rows}


KIND = register(FileKind("kits", (TABLE,), plan, check, write, stored=stored.kits, example=examples.KITS))
