"""Compares a kit's file with its latest revision, and writes the next one."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any
from uuid import UUID

from kitting.imports.buying import (
    ImportedPart,
    archived_findings,
    code_findings,
    currency_findings,
    known_units,
    prefer,
    supplier_for,
    suppliers,
    write_codes,
    write_offers,
    write_parts,
)
from kitting.imports.kit_losses import losses
from kitting.imports.kit_needs import BY_CIRCUIT, TURNED, ImportedNeed
from kitting.imports.kit_outside import new_outside, outside_findings
from kitting.imports.kit_plan import KitPlan
from kitting.imports.supersessions import (
    lock_supersessions,
    supersession_findings,
    supersessions_of,
    write_supersessions,
)
from kitting.models import Consumable, Kit, KitRevision, Part
from kitting.queries.first_counts import newest_revision
from kitting.services.kit_list import bring_back
from kitting.services.kits import NewLine, NewNeed, NewOutside, NewReusedPart, NewRevision, add_kit, revise_kit
from shop.access import Actor
from shop.imports.labour_rows import known_operations, newest_templates
from shop.imports.money import finer_than_currency
from shop.models import LabourTemplate, Operation, TemplateStep
from shop.tables.engine import ImportPreview, ParsedRow
from shop.tables.findings import Finding, facts_of, must_fix, please_check


@dataclass(frozen=True, slots=True)
class ShopRecords:
    """The shop's rows that a kit's file refers to."""

    operations: dict[str, Operation]
    named: LabourTemplate | None  # the template of the file, also where it is archived
    template: LabourTemplate | None  # what the kit gets
    steps: dict[str, tuple[str, ...]]  # {code: predecessors}
    consumables: dict[tuple[str, str], Consumable]
    kit: Kit | None
    newest: KitRevision | None


def shop_records(actor: Actor, plan: KitPlan) -> ShopRecords:
    """Reads the rows that the plan refers to."""
    named = newest_templates(actor).get(plan.labour) if plan.labour else None
    kit = Kit.objects.filter(shop=actor.shop, code=plan.code).first()
    newest = newest_revision(kit) if kit else None
    template = named if named and (not named.archived or _uses(newest, named)) else None
    steps = TemplateStep.objects.filter(shop=actor.shop, template=template).values_list("operation__code", "after")
    current = Consumable.objects.filter(shop=actor.shop, archived=False)
    consumables = {(row.family, row.specification): row for row in current}
    afters = {code: tuple(after) for code, after in steps} if template else {}
    return ShopRecords(known_operations(actor), named, template, afters, consumables, kit, newest)


def _uses(newest: KitRevision | None, template: LabourTemplate) -> bool:
    """True if the kit's newest version has some version of the template."""
    return bool(newest and newest.labour and newest.labour.code == template.code)


def check_kit(actor: Actor, plan: KitPlan) -> ImportPreview:
    """Findings about references to the shop, and the effect of the import."""
    records = shop_records(actor, plan)
    findings = finer_than_currency(actor, [(plan.price, plan.price_at)])
    findings += _template_findings(records, plan)
    if records.kit is not None and records.kit.archived:
        findings.append(please_check("kit_comes_back", plan.code_at, what=plan.code))
    if records.newest is not None:
        findings += losses(plan, records.newest)
    for operation, row, name in _operations_named(plan):
        findings += _operation_findings(records, operation, row, name)
    findings += _part_findings(actor, plan)
    findings += supersession_findings(actor, plan.lines)
    for need in plan.needs:
        findings += _need_findings(records, need)
    findings += outside_findings(actor, plan.outside or (), records.steps or dict.fromkeys(records.operations, ()))
    offers = [(line.offer, line.row.at("currency")) for line in plan.lines if line.offer]
    offers += [(need.offer, need.row.at("currency")) for need in plan.needs if need.offer]
    if plan.offer:
        offers.append((plan.offer, plan.offer_at))
    findings += currency_findings(actor, offers)
    findings += archived_findings(actor, offers)
    findings += code_findings(actor, ((line.code, line.part.key, line.row) for line in plan.lines if line.code))
    return ImportPreview(plan, tuple(findings), _becomes(records, plan))


def _template_findings(records: ShopRecords, plan: KitPlan) -> list[Finding]:
    named = records.named
    if not plan.labour or (named and not named.archived):
        return []
    if named is None:
        return [please_check("template_unknown", plan.labour_at, what=plan.labour)]
    return [
        please_check(
            "template_archived_stays" if records.template else "template_archived", plan.labour_at, what=plan.labour
        )
    ]


def _operations_named(plan: KitPlan) -> Iterable[tuple[str, ParsedRow, str]]:
    for line in plan.lines:
        yield line.operation, line.row, "operation"
    for need in plan.needs:
        yield need.operation, need.row, "operation"
    for back in plan.reused:
        yield back.off_at, back.row, "off_at"
        yield back.back_at, back.row, "back_at"


def _operation_findings(records: ShopRecords, operation: str, row: ParsedRow, name: str) -> list[Finding]:
    if not operation:
        return []
    if operation not in records.operations:
        return [please_check("operation_not_known", row.at(name), what=operation)]
    if records.template is not None and operation not in records.steps:
        return [please_check("operation_not_in_template", row.at(name), what=operation, template=records.template.code)]
    return []


def _part_findings(actor: Actor, plan: KitPlan) -> list[Finding]:
    units = known_units(actor, (line.part.key for line in plan.lines))
    findings = []
    for line in plan.lines:
        unit = units.get(line.part.key, line.part.unit)
        if unit != line.part.unit:
            findings.append(must_fix("unit_not_as_known", line.row.at("quantity"), unit=unit))
    return findings


def _need_findings(records: ShopRecords, need: ImportedNeed) -> list[Finding]:
    if need.part is not None:
        return []
    consumable = records.consumables.get((need.family, need.specification))
    if consumable is None:
        return [must_fix("consumable_unknown", need.row.at("family"), what=f"{need.family}, {need.specification}")]
    if need.unit and need.unit != consumable.unit and (need.unit, consumable.unit) not in TURNED:
        return [must_fix("units_differ", need.row.at("quantity"), one=need.unit, other=consumable.unit)]
    if need.rule in BY_CIRCUIT and consumable.unit != "L":
        return [must_fix("need_in_litres", need.row.at("family"), unit=consumable.unit)]
    return []


def _becomes(records: ShopRecords, plan: KitPlan) -> tuple[Finding, ...]:
    revision = records.newest.number + 1 if records.newest else 1
    lines = [
        Finding("", "kit", facts_of(code=plan.code, revision=revision, title=plan.title)),
        Finding("", "kit_lines", facts_of(n=len(plan.lines), cartons=_cartons(plan), bags=_bags(plan))),
    ]
    if plan.needs or plan.reused:
        lines.append(Finding("", "kit_needs", facts_of(needs=len(plan.needs), reused=len(plan.reused))))
    if pairs := list(supersessions_of(plan.lines)):
        lines.append(Finding("", "kit_supersessions", facts_of(n=len(pairs))))
    if plan.outside is not None:
        lines.append(Finding("", "kit_outside", facts_of(n=len(plan.outside))))
    if records.newest is not None:
        before, after = _stored_lines(records.newest), _planned_lines(plan, set(records.operations))
        new, gone = len(after.keys() - before.keys()), len(before.keys() - after.keys())
        changed = sum(before[key] != after[key] for key in before.keys() & after.keys())
        facts = facts_of(revision=records.newest.number, new=new, gone=gone, changed=changed)
        lines.append(Finding("", "kit_against", facts))
    return tuple(lines)


def _cartons(plan: KitPlan) -> int:
    return len({line.carton for line in plan.lines if line.carton})


def _bags(plan: KitPlan) -> int:
    return len({line.place for line in plan.lines if line.bag})


Contents = dict[tuple[Any, ...], tuple[Any, ...]]


def _planned_lines(plan: KitPlan, operations: set[str]) -> Contents:
    return {
        line.key: (line.quantity, line.ships, line.operation if line.operation in operations else "")
        for line in plan.lines
    }


def _stored_lines(revision: KitRevision) -> Contents:
    places = {
        id: (kind, label, parent)
        for id, kind, label, parent in revision.lines.exclude(kind="part").values_list("pk", "kind", "label", "parent")
    }
    contents: Contents = {}
    for parent, part, role, conditions, *line in revision.lines.filter(kind="part").values_list(
        "parent", "part__number_key", "role", "conditions", "quantity", "ships", "operation__code"
    ):
        when = tuple((condition["attribute"], tuple(condition["in"])) for condition in conditions)
        quantity, ships, operation = line
        contents[*_place(parent, places), part, role, when] = (quantity, ships, operation or "")
    return contents


def _place(id: UUID | None, places: dict[UUID, tuple[str, str, UUID | None]]) -> tuple[str, str]:
    """(carton, bag) of what lies in this carton or bag."""
    carton = bag = ""
    while id is not None:
        kind, label, id = places[id]
        carton, bag = (label, bag) if kind == "carton" else (carton, label)
    return carton, bag


def write_kit(actor: Actor, plan: KitPlan, day: date) -> KitRevision:
    """Writes parts, codes and offers, then the kit's next revision, and returns it."""
    lock_supersessions(actor, plan.lines)
    records = shop_records(actor, plan)
    needed = [need.part for need in plan.needs if need.part]
    kit_part = ImportedPart(plan.number, plan.title, "set", returnable=plan.returnable)
    parts = write_parts(actor, [kit_part, *(line.part for line in plan.lines), *needed])
    ordered = [kit_part, *(line.part for line in plan.lines)]
    prefer(actor, (parts[part.key] for part in ordered), plan.supplier, plan.currency)
    write_codes(actor, ((line.code, parts[line.part.key]) for line in plan.lines if line.code))
    offers = [(parts[line.part.key], line.offer) for line in plan.lines if line.offer]
    offers += [(parts[need.part.key], need.offer) for need in plan.needs if need.part and need.offer]
    if plan.offer:
        offers.append((parts[kit_part.key], plan.offer))
    write_offers(actor, offers, day)
    write_supersessions(actor, plan.lines)
    contents = _new_revision(plan, parts, records, _new_outside(actor, plan, records))
    if records.kit is None:
        return add_kit(actor=actor, code=plan.code, title=plan.title, contents=contents, number=plan.number)
    bring_back(actor=actor, kit=records.kit)
    return revise_kit(actor=actor, kit=records.kit, contents=contents, title=plan.title, part=parts[kit_part.key])


def _new_outside(actor: Actor, plan: KitPlan, records: ShopRecords) -> list[NewOutside] | None:
    if plan.outside is None:
        return None
    firms = suppliers(actor)
    return [new_outside(work, supplier_for(actor, firms, work.firm, ""), records.operations) for work in plan.outside]


def _new_revision(
    plan: KitPlan, parts: dict[str, Part], records: ShopRecords, outside: list[NewOutside] | None
) -> NewRevision:
    return NewRevision(
        lines=_lines(plan, parts, records.operations),
        needs=[_need(need, parts, records) for need in plan.needs],
        reused=[
            NewReusedPart(
                reused.title,
                reused.quantity,
                records.operations.get(reused.off_at),
                records.operations.get(reused.back_at),
            )
            for reused in plan.reused
        ],
        outside=outside,
        labour=records.template,
        price=plan.price,
        hours=plan.hours,
        fits=_conditions(plan.fits),
    )


def _conditions(conditions: Iterable[tuple[str, tuple[str, ...]]]) -> list[dict[str, Any]]:
    return [{"attribute": name, "in": list(values)} for name, values in conditions]


def _lines(plan: KitPlan, parts: dict[str, Part], operations: dict[str, Operation]) -> list[NewLine]:
    """Cartons and bags in order of first appearance, each with its lines in the order of the file."""
    rows: list[NewLine] = []
    tree: dict[str, dict[str, list[Any]]] = {}
    for line in plan.lines:
        tree.setdefault(line.carton, {}).setdefault(line.bag, []).append(line)

    def place(row: NewLine) -> int:
        rows.append(row)
        return len(rows) - 1

    for carton, bags in tree.items():
        top = place(NewLine("carton", label=carton)) if carton else None
        for bag, lines in bags.items():
            holder = place(NewLine("bag", label=bag, parent=top)) if bag else top
            for line in lines:
                place(
                    NewLine(
                        "part",
                        quantity=line.quantity,
                        part=parts[line.part.key],
                        parent=holder,
                        when=_conditions(line.when),
                        ships=line.ships,
                        role=line.role,
                        operation=operations.get(line.operation),
                    )
                )
    return rows


def _need(need: ImportedNeed, parts: dict[str, Part], records: ShopRecords) -> NewNeed:
    consumable = None if need.part else records.consumables[need.family, need.specification]
    factor = TURNED.get((need.unit, consumable.unit), Decimal(1)) if consumable else Decimal(1)
    return NewNeed(
        quantity=need.quantity * factor,
        consumable=consumable,
        part=parts[need.part.key] if need.part else None,
        rule=need.rule,
        of=need.of,
        charge=need.charge,
        operation=records.operations.get(need.operation),
    )
