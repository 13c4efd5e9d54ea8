"""Imports suppliers: name, currency, contact and lead days. One of the same name is completed, not duplicated."""

from dataclasses import dataclass
from datetime import date
from typing import Any

from kitting.imports import examples, stored
from kitting.imports.buying import currency, suppliers
from kitting.models import Supplier
from kitting.services.suppliers import change_supplier
from shop.access import Actor
from shop.calc.keys import search_key
from shop.services.clean import clean
from shop.tables.columns import Field, Table
from shop.tables.engine import FileKind, ImportPreview, ParsedFile, ParsedRow
from shop.tables.findings import Finding, facts_of, must_fix, please_check
from shop.tables.numbers import whole
from shop.tables.registry import register
from shop.tables.values import text

MOST_LEAD = 3652  # ten years, in days
FACTS = ("contact", "currency", "lead_days")
TABLE = Table(
    "suppliers",
    (
        Field("supplier", ("supplier", "name", "vendor", "firm", "supplier name"), text(120), True, True),
        Field("contact", ("contact", "contact person", "ask for"), text(200)),
        Field("currency", ("currency", "cur"), currency),
        Field(
            "lead_days",
            ("lead days", "lead time", "lead time days", "delivery days"),
            whole(units=("d",), most=MOST_LEAD),
        ),
    ),
    ("suppliers", "vendors"),
)


@dataclass(frozen=True, slots=True)
class ImportedSupplier:
    """A supplier as the file states it; `facts` has the filled cells."""

    name: str
    facts: dict[str, Any]
    row: ParsedRow

    @property
    def key(self) -> str:
        return search_key(self.name)


def plan(file: ParsedFile) -> ImportPreview:
    """The suppliers of the file."""
    rows = tuple(_supplier(row) for row in file.of("suppliers"))
    findings: list[Finding] = []
    seen: dict[str, int] = {}
    for imported in rows:
        first = seen.setdefault(imported.key, imported.row.number)
        if not imported.key:
            findings.append(must_fix("nothing_to_find_by", imported.row.at("supplier")))
        elif first != imported.row.number:
            findings.append(must_fix("row_twice", imported.row.at("supplier"), first=first, what=imported.name))
    return ImportPreview(rows, tuple(findings))


def _supplier(row: ParsedRow) -> ImportedSupplier:
    facts = {name: row.get(name) for name in FACTS if row.get(name) not in (None, "")}
    return ImportedSupplier(row.get("supplier", ""), facts, row)


def check(actor: Actor, plan: tuple[ImportedSupplier, ...]) -> ImportPreview:
    """Compares the suppliers with those of the shop."""
    existing = suppliers(actor)
    findings = [
        please_check("supplier_comes_back", imported.row.at("supplier"), what=imported.name)
        for imported in plan
        if imported.key in existing and existing[imported.key].archived
    ]
    new = sum(imported.key not in existing for imported in plan)
    becomes = Finding("", "suppliers", facts_of(n=len(plan), new=new, known=len(plan) - new))
    return ImportPreview(plan, tuple(findings), (becomes,))


def write(actor: Actor, plan: tuple[ImportedSupplier, ...], day: date) -> None:
    """Adds new suppliers and completes existing ones. An archived one comes back."""
    existing = suppliers(actor)
    added = [_new(actor, imported) for imported in plan if imported.key not in existing]
    clean(added)
    Supplier.objects.bulk_create(added)
    for imported in plan:
        if imported.key in existing:
            _complete(actor, existing[imported.key], imported)


def _new(actor: Actor, imported: ImportedSupplier) -> Supplier:
    return Supplier(shop=actor.shop, name=imported.name, **{"currency": actor.shop.currency, **imported.facts})


def _complete(actor: Actor, row: Supplier, imported: ImportedSupplier) -> None:
    facts = {**imported.facts, "name": imported.name, "archived": False}
    changes = {name: value for name, value in facts.items() if value != getattr(row, name)}
    if changes:
        change_supplier(actor=actor, supplier=row, seen=row.version, changes=changes)


KIND = register(
    FileKind(
        "suppliers",
        (TABLE,),
        plan,
        check,
        write,
        stored=stored.suppliers,
        example=examples.SUPPLIERS,
    )
)
