"""Needs of fitting a kit that the kit does not include: consumables by family, or parts by number."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from kitting.imports.buying import ImportedOffer, ImportedPart, buying_fields, offer_of
from shop.imports.rules_tables import CHARGE_WORDS
from shop.tables.columns import Field, Table
from shop.tables.conditions import attribute_name
from shop.tables.engine import ParsedRow
from shop.tables.findings import Finding, must_fix
from shop.tables.numbers import Quantity, quantity
from shop.tables.values import article, one_of, text

RULES = one_of(
    {
        **dict.fromkeys(("", "fixed", "as stated"), "fixed"),
        **dict.fromkeys(("per fastener", "each fastener", "a fastener"), "per_fastener"),
        **dict.fromkeys(("bead", "bead length"), "bead"),
        **dict.fromkeys(("of capacity", "of a capacity", "capacity"), "of_capacity"),
        **dict.fromkeys(("refill", "concentrate to refill"), "refill"),
        **dict.fromkeys(("refill water", "water to refill"), "refill_water"),
    }
)
CHARGES = one_of({"": "pack", **CHARGE_WORDS})
NEEDS = Table(
    "needs",
    (
        Field("family", ("family", "consumable", "group"), text(40)),
        Field("specification", ("specification", "spec", "class", "grade"), text(80)),
        Field("number", ("number", "part number", "part no", "article", "item number"), article(60)),
        Field("title", ("title", "description", "for", "what"), text(200)),
        Field("rule", ("rule", "how much", "reckoned"), RULES),
        Field("quantity", ("quantity", "qty", "amount"), quantity(zero=True), True, True),
        Field("of", ("of", "of what", "circuit", "fasteners"), text(40)),
        Field("charge", ("charge", "charged", "charged as"), CHARGES, True),
        Field("operation", ("operation", "first needed at", "needed at", "step", "op"), article(40)),
        *buying_fields(("price", "unit price")),
    ),
    ("needs", "not in the box", "extra needs", "also needed", "needed"),
)
BY_CIRCUIT = ("of_capacity", "refill", "refill_water")
TURNED = {("mL", "L"): Decimal("0.001"), ("L", "mL"): Decimal(1000), ("kg", "g"): Decimal(1000)}
TURNED |= {("g", "kg"): Decimal("0.001"), ("mm", "m"): Decimal("0.001"), ("cm", "m"): Decimal("0.01")}


@dataclass(frozen=True, slots=True)
class ImportedNeed:
    """A need by family and specification, or by part. `unit` is as written; "": the consumable's."""

    family: str
    specification: str
    part: ImportedPart | None
    rule: str
    quantity: Decimal
    unit: str
    of: str
    charge: str
    operation: str
    offer: ImportedOffer | None  # for a part by number; consumables are priced by their packs
    row: ParsedRow


def needs_of(rows: Iterable[ParsedRow], title: Mapping[str, Any], findings: list[Finding]) -> tuple[ImportedNeed, ...]:
    """The needs of the file. `title` has the supplier for prices without one."""
    return tuple(need for need in (_need(row, title, findings) for row in rows) if need is not None)


def _need(row: ParsedRow, title: Mapping[str, Any], findings: list[Finding]) -> ImportedNeed | None:
    get = row.get
    amount: Quantity | None = get("quantity")
    if amount is None:
        return None  # the engine has already reported the missing quantity
    if bool(get("family")) == bool(get("number")):
        findings.append(must_fix("need_of_what", row.at("family")))
        return None
    rule = get("rule", "fixed")
    unit = amount.unit
    value = amount.amount
    if rule == "bead" and unit:
        value, unit = _turned(row, value, unit, "m", findings), ""
    if rule in BY_CIRCUIT and unit in ("L", "mL"):
        value, unit = _turned(row, value, unit, "L", findings), ""
    part = ImportedPart(get("number"), get("title") or get("number")) if get("number") else None
    of = _of(row, rule, findings)
    return ImportedNeed(
        get("family", ""),
        get("specification", ""),
        part,
        rule,
        value,
        unit,
        of,
        get("charge", "pack"),
        get("operation", ""),
        offer_of({name: title[name] for name in ("supplier", "currency") if name in title} | dict(row.values))
        if part
        else None,
        row,
    )


def _of(row: ParsedRow, rule: str, findings: list[Finding]) -> str:
    """The need's `of`: number of fasteners, bead width in mm, or name of a circuit; "" for a fixed quantity."""
    written = str(row.get("of", ""))
    if rule == "fixed":
        return ""
    if rule in BY_CIRCUIT:
        if not written:
            findings.append(must_fix("need_of_which_circuit", row.at("of")))
        return attribute_name(written)
    number = written.casefold().removesuffix("mm").strip().replace(",", ".")
    plain = number.replace(".", "", 1) if rule == "bead" else number
    if not (plain.isascii() and plain.isdigit() and Decimal(number) > 0):
        findings.append(must_fix("need_of_how_many" if rule == "per_fastener" else "need_of_what_width", row.at("of")))
    return number


def _turned(row: ParsedRow, value: Decimal, unit: str, target: str, findings: list[Finding]) -> Decimal:
    if unit == target:
        return value
    factor = TURNED.get((unit, target))
    if factor is None:
        findings.append(must_fix("units_differ", row.at("quantity"), one=unit, other=target))
        return value
    return value * factor
