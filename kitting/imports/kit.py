"""Imports a kit: contents as the supplier lists them, further needs, parts that are refitted, work of other firms.

The title block identifies the kit and its purchase data. An import makes the kit's next revision. A file without a list
of outside work leaves that of the revision before.
"""

from collections.abc import Iterable
from datetime import date
from decimal import Decimal
from functools import partial
from typing import Any
from uuid import UUID

from kitting.imports import examples
from kitting.imports.buying import (
    GTIN,
    PER,
    UNIT,
    ImportedPart,
    buying_fields,
    offer_of,
    remember_columns,
    remembered_columns,
)
from kitting.imports.kit_headings import (
    BAG,
    CARTON,
    DESCRIPTION,
    KIT_ABROAD,
    NUMBER,
    PRICE,
    QUANTITY,
    REMARK,
    REPLACED_BY,
    REPLACES,
    UNIT_OF,
)
from kitting.imports.kit_list import planned_lines
from kitting.imports.kit_needs import BY_CIRCUIT, NEEDS, needs_of
from kitting.imports.kit_outside import OUTSIDE, outside_of
from kitting.imports.kit_plan import ImportedKitLine, ImportedReusedPart, KitPlan
from kitting.imports.kit_rows import check_kit, write_kit
from kitting.models import Kit, KitRevision, Need
from kitting.models.parts import UNITS
from shop.access import Actor
from shop.calc.keys import search_key
from shop.imports.labour import HOURS
from shop.imports.sold import names_drained, names_sold
from shop.models import FileRead
from shop.tables.columns import Field, Layout, Table
from shop.tables.conditions import Condition, when
from shop.tables.engine import FileKind, ImportPreview, ParsedFile, ParsedRow
from shop.tables.findings import Finding, must_fix, please_check
from shop.tables.numbers import quantity
from shop.tables.prices import MONEY
from shop.tables.registry import register
from shop.tables.values import article, one_of, text, yes_or_no

ROLES = one_of(
    {
        **dict.fromkeys(("", "fit", "part", "main", "gasket", "seal", "hardware", "fitting", "fastener"), "fit"),
        **dict.fromkeys(("spare", "spares", "extra"), "spare"),
        **dict.fromkeys(("tool", "tools", "special tool"), "tool"),
        **dict.fromkeys(("paper", "papers", "document", "instructions", "label"), "paper"),
    }
)
SHIPS = one_of(
    {
        **dict.fromkeys(("", "always", "in every box", "every box"), "always"),
        **dict.fromkeys(("when", "only then", "only when it fits", "on request"), "when"),
    }
)
OPERATION_WORDS = ("operation", "first needed at", "needed at", "step", "first operation", "op")
RETURNABLE = Field("returnable", ("can be sent back", "returnable", "goes back to the supplier"), yes_or_no)
LINES = Table(
    "lines",
    (
        Field("carton", CARTON, article(80)),
        Field("bag", BAG, article(80)),
        Field("number", NUMBER, article(60), True, True),
        Field("title", DESCRIPTION, text(200)),
        Field("quantity", QUANTITY, quantity(units=frozenset(UNITS)), True, True, several=True),
        Field("unit", UNIT_OF, UNIT),
        Field("when", ("when", "fits", "only if", "variant", "for", "condition"), when),
        Field("ships", ("ships", "shipped", "in the box"), SHIPS),
        Field("role", ("role", "kind", "use"), ROLES),
        Field("operation", OPERATION_WORDS, article(40)),
        Field("remark", REMARK, text(400)),
        Field("replaces", REPLACES, article(60)),
        Field("replaced_by", REPLACED_BY, article(60)),
        GTIN,
        *buying_fields(PRICE),
        PER,
        RETURNABLE,
    ),
    ("contents", "bom", "packing list", "parts", "lines", "kit contents"),
    Layout(
        "number",
        "quantity",
        ("carton", "bag"),
        ("quantity", "cost", "freight", "brokerage"),
        ("title", "remark"),
        "when",
    ),
)
REUSED = Table(
    "re-used",
    (
        Field("title", ("title", "description", "what", "part", "item"), text(200), True, True),
        Field("quantity", ("quantity", "qty", "pieces"), quantity(units=frozenset(UNITS))),
        Field("off_at", ("off at", "comes off at", "off", "removed at"), article(40), True),
        Field("back_at", ("back at", "goes back at", "back", "refitted at"), article(40), True),
    ),
    ("re used", "used again", "reused", "re used parts"),
)
TITLE = (
    Field(
        "kit",
        ("kit", "kit number", "kit no", "kit code", "code", "kit p n", "kit part number", *KIT_ABROAD),
        article(40),
    ),
    Field("title", ("title", "description", "name", "kit name", "designation"), text(200)),
    Field("number", ("order number", "part number", "bought as"), article(60)),
    Field("labour", ("labour template", "labour", "template", "fitting"), article(40)),
    Field("fits", ("for vehicles", "vehicles", "fits", "for"), when),
    Field("price", ("selling price", "our price", "sells for"), MONEY),
    Field("hours", ("hours", "fitting hours", "book hours"), HOURS),
    *buying_fields(("price", "kit price")),
    RETURNABLE,
)


def plan(file: ParsedFile) -> ImportPreview:
    """The kit of the file."""
    findings: list[Finding] = []
    title = file.title
    lines = tuple(_line(row, title, findings) for row in file.of("lines") if row.get("number"))
    if "kit" not in title:
        findings.append(must_fix("kit_without_code", file.title_place("kit")))
    if not lines and not file.has("lines"):
        findings.append(must_fix("kit_without_lines"))
    findings += _twice_in_a_bag(lines)
    findings += _one_meaning(lines)
    if title.get("cost") is not None and not title.get("supplier"):
        findings.append(please_check("price_without_supplier", file.title_place("cost")))
    kit_plan = KitPlan(
        title.get("kit", ""),
        file.title_place("kit"),
        title.get("title", "") or title.get("kit", ""),
        title.get("number", "") or title.get("kit", ""),
        title.get("labour", ""),
        file.title_place("labour"),
        title.get("supplier", ""),
        title.get("currency", ""),
        offer_of(title),
        file.title_place("currency"),
        title.get("price"),
        file.title_place("price"),
        title.get("hours"),
        title.get("fits", ()),
        lines,
        needs_of(file.of("needs"), title, findings),
        tuple(_reused(row) for row in file.of("re-used")),
        outside_of(file.of("outside work")) if file.has("outside work") else None,
        title.get("returnable"),
    )
    return ImportPreview(kit_plan, tuple(findings))


def _line(row: ParsedRow, title: Any, findings: list[Finding]) -> ImportedKitLine:
    get = row.get
    amount = get("quantity")
    unit = _unit(row, findings)
    buying = {name: title[name] for name in ("supplier", "currency", "duty") if name in title} | dict(row.values)
    return ImportedKitLine(
        get("carton", ""),
        get("bag", ""),
        ImportedPart(get("number", ""), get("title", "") or get("number", ""), unit, returnable=get("returnable")),
        amount.amount if amount else Decimal(1),
        _when(row, findings),
        get("ships", "always"),
        get("role", "fit"),
        get("operation", ""),
        get("code", ""),
        offer_of(buying),
        row,
        get("replaces", ""),
        get("replaced_by", ""),
    )


def _when(row: ParsedRow, findings: list[Finding]) -> tuple[Condition, ...]:
    """The conditions of the row, with what its heading or its column of quantities adds."""
    conditions: tuple[Condition, ...] = row.get("when", ())
    for name, values in row.when:
        own = dict(conditions).get(name)
        if own is None:
            conditions = (*conditions, (name, values))
        elif own != values:
            own_words, added = " / ".join(own), " / ".join(values)
            findings.append(must_fix("conditions_differ", row.at("when"), attribute=name, one=own_words, other=added))
    return conditions


def _unit(row: ParsedRow, findings: list[Finding]) -> str:
    """The unit from its column or behind the quantity; "" if it could not be read. A contradiction is a finding."""
    written = row.get("quantity").unit if row.get("quantity") else ""
    if row.unread("unit"):
        return str(written)
    column_unit = str(row.get("unit", ""))
    pieces = {"pc", "set", "pair"}
    if column_unit and written and column_unit != written and not (column_unit in pieces and written == "pc"):
        findings.append(must_fix("units_differ", row.at("quantity"), one=written, other=column_unit))
    unit = column_unit or written or "pc"
    amount = row.get("quantity").amount if row.get("quantity") else Decimal(1)
    if unit in pieces and amount != amount.to_integral_value():
        findings.append(must_fix("half_a_piece", row.at("quantity"), n=_written(amount)))
    return unit


def _reused(row: ParsedRow) -> ImportedReusedPart:
    amount = row.get("quantity")
    return ImportedReusedPart(
        row.get("title", ""),
        amount.amount if amount else Decimal(1),
        row.get("off_at", ""),
        row.get("back_at", ""),
        row,
    )


def _twice_in_a_bag(lines: tuple[ImportedKitLine, ...]) -> list[Finding]:
    """The same part twice in one bag for the same vehicle: a person who counts could not distinguish the lines."""
    seen: dict[Any, ImportedKitLine] = {}
    findings = []
    for line in lines:
        first = seen.setdefault(line.key, line)
        if first is not line:
            facts = {
                "first": first.row.number,
                "row": line.row.number,
                "bag": line.bag or line.carton or "-",
                "one": _written(first.quantity),
                "other": _written(line.quantity),
                "sum": _written(first.quantity + line.quantity),
            }
            findings.append(must_fix("part_twice_in_bag", line.row.at("number"), **facts))
    return findings


def _one_meaning(lines: tuple[ImportedKitLine, ...]) -> list[Finding]:
    """Findings for a part number with different units or titles."""
    seen: dict[str, ImportedKitLine] = {}
    findings = []
    for line in lines:
        if not line.part.unit:
            continue
        first = seen.setdefault(line.part.key, line)
        if first.part.unit != line.part.unit:
            findings.append(
                must_fix("unit_not_as_before", line.row.at("unit"), first=first.row.number, unit=first.part.unit)
            )
        elif search_key(first.part.title) != search_key(line.part.title):
            findings.append(
                please_check("title_not_as_before", line.row.at("title"), first=first.row.number, what=first.part.title)
            )
    return findings


def _written(amount: Decimal) -> str:
    return f"{amount.normalize():f}"


def check(actor: Actor, plan: KitPlan) -> ImportPreview:
    """Compares the kit with the shop."""
    return check_kit(actor, plan)


def write(actor: Actor, plan: KitPlan, day: date) -> KitRevision:
    """Writes the next revision of the kit."""
    return write_kit(actor, plan, day)


def keep_file(revision: KitRevision, file: FileRead) -> UUID:
    """Notes the file that the revision comes from. Returns the id of the kit."""
    revision.file = file
    revision.save(update_fields=["file"])
    return revision.kit_id


@names_sold
def kit_names(actor: Actor) -> Iterable[str]:
    """The codes of the shop's kits."""
    return Kit.objects.filter(shop=actor.shop).values_list("code", flat=True)


@names_drained
def circuit_names(actor: Actor) -> Iterable[str]:
    """The circuits whose fluid some kit needs."""
    return Need.objects.filter(shop=actor.shop, rule__in=BY_CIRCUIT).values_list("basis", flat=True).distinct()


KIND = register(
    FileKind(
        "kit",
        (LINES, NEEDS, REUSED, OUTSIDE),
        plan,
        check,
        write,
        TITLE,
        remembered=partial(remembered_columns, "kit"),
        remember=partial(remember_columns, "kit"),
        lines=planned_lines,
        typed=("kit", "title", "supplier", "currency"),
        keep_file=keep_file,
        example=examples.KIT,
    )
)
