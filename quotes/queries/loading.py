"""Builds the frozen input of pricing from a quote's rows, for the recorded vehicle or for assumed attributes."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any
from uuid import UUID

from kitting.calc.freezing import glycol_named
from kitting.calc.needs import NeedRow
from kitting.models import KitLine, KitRevision, Part
from kitting.queries.offers import lead_days_without_offer
from quotes.calc.combinations import QuoteConditions
from quotes.calc.labour import KitOperation, LabourOperation, Overlap, SharingRule
from quotes.calc.plan import WorkSequence
from quotes.calc.priced_labour import WORK
from quotes.calc.quote_input import (
    Buying,
    ChosenKit,
    ChosenLabour,
    Contingency,
    Extra,
    FigureOverride,
    OfferedItem,
    PackOffer,
    QuoteInput,
)
from quotes.models import Line
from quotes.queries.rows import Needs, QuoteRows, Steps
from shop.calc.sheet import SheetStep, merged_sheet, mobile_again
from shop.calc.when import KNOWN_VALUES, Attributes, Condition, holds, undecided
from shop.models import Operation as OperationRow
from shop.models import OperationPair, TemplateStep

LOOSE = (Line.Kind.PART, Line.Kind.TEXT)
WORKED_WITH = (KitLine.Role.FIT, KitLine.Role.TOOL)  # no work waits for a spare or a leaflet


@dataclass(frozen=True, slots=True)
class KitFacts:
    """Facts of a kit that a screen shows with its figures."""

    revision: KitRevision
    parts: int  # lines of its parts list that apply to the vehicle
    listed: int  # all lines of its parts list
    cartons: int
    fitted_before: bool  # a person said so on this quote


@dataclass(frozen=True, slots=True)
class LoadedQuote:
    """The pricing input, facts that are only shown (of kits, of open attributes), and the order of work."""

    input: QuoteInput
    kits: Mapping[str, KitFacts]
    decide: Mapping[str, tuple[str, ...]]
    sheet: WorkSequence
    stages: Mapping[str, str]  # the install stage of an operation, as its first kit's template names it


def load_quote(rows: QuoteRows, attributes: Attributes) -> LoadedQuote:
    """The input of pricing for a vehicle with these attributes. Reads nothing from the database."""
    chosen, steps, vehicle, letters = rows.kits, rows.steps, rows.vehicle, rows.letters
    sheets = [template_sheet(steps[id], attributes) for id in steps]
    sheet = merged_sheet(sheets)
    order = [step.code for step in sheet]
    operations, overlaps = _operations(rows, order)
    quote_input = QuoteInput(
        rules=rows.rules,
        exponent=rows.shop.exponent,
        kits=tuple(_kit(line, letters, rows, attributes) for line in chosen),
        labour=tuple(_labour(line) for line in rows.labour),
        operations=operations,
        titles={
            **{_code(line): line.title for line in rows.labour},
            **{step.operation.code: step.operation.title for group in steps.values() for step in group},
        },
        overlaps=overlaps,
        needs=tuple(_need_rows(chosen, letters, rows.needs, _dropped(chosen, steps, attributes))),
        items=_items(rows.needs, rows.parts, rows.buying),
        capacities={name: Decimal(litres) for name, litres in (vehicle.capacities if vehicle else {}).items()},
        attributes=attributes if vehicle else None,
        condition=rows.condition,
        extras=tuple(_extra(line, rows.buying) for line in rows.lines if line.certain and line.kind in LOOSE),
        contingencies=tuple(_contingency(line, rows.buying) for line in rows.lines if not line.certain),
        outside=rows.outside,
        overrides={override.figure: FigureOverride(override.own_value, override.reason) for override in rows.overrides},
        discount=rows.discount,
        taken=rows.taken,
        charges=rows.charges,
    )
    facts, needed_at = _boxes(rows, attributes, order)
    done = [step.operation for group in steps.values() for step in group]
    work = _sheet(sheets, sheet, [*done, *(line.operation for line in rows.labour if line.operation)], needed_at)
    asking = conditions(rows)
    stages = {step.operation.code: step.stage for group in reversed(list(steps.values())) for step in group}
    return LoadedQuote(quote_input, facts, undecided([*asking.parts, *asking.work], attributes), work, stages)


def conditions(rows: QuoteRows) -> QuoteConditions:
    """Every condition of the quote on the vehicle, by what it decides."""
    work = [condition for group in rows.steps.values() for step in group for condition in step.conditions]
    parts = [condition for *_, when, _, _ in rows.boxes for condition in when]
    return QuoteConditions(
        work=work, fits=[fit for kit in rows.kits for fit in _fits(kit)], parts=parts, values=KNOWN_VALUES
    )


def _fits(line: Line) -> list[Condition]:
    return list(line.kit_revision.kit.fits) if line.kit_revision else []


def _sheet(
    sheets: Sequence[Sequence[SheetStep]],
    order: tuple[SheetStep, ...],
    done: Iterable[OperationRow],
    needed_at: Mapping[str, tuple[str, ...]],
) -> WorkSequence:
    rows = {row.code: row for row in done}
    leaves = frozenset(code for code, row in rows.items() if row.no_return)
    returns = [code for code, row in rows.items() if row.mobile_again]
    return WorkSequence(
        steps=order,
        waits={code: row.wait_after for code, row in rows.items()},
        needed_at=needed_at,
        no_return=leaves,
        mobile_again=mobile_again(sheets, [step.code for step in order], leaves, returns),
        wheels_off=frozenset(code for code, row in rows.items() if row.wheels_off),
    )


def template_sheet(steps: Iterable[TemplateStep], attributes: Attributes) -> list[SheetStep]:
    """A template's steps as input of the order of work. A step without predecessors follows the one above it."""
    sheet: list[SheetStep] = []
    for step in steps:
        above = (sheet[-1].code,) if sheet else ()
        sheet.append(SheetStep(step.operation.code, tuple(step.after) or above, holds(step.conditions, attributes)))
    return sheet


def _operations(rows: QuoteRows, order: Iterable[str]) -> tuple[tuple[LabourOperation, ...], tuple[Overlap, ...]]:
    """The operations of the templates and of labour lines with all that they include, directly or not, and the
    overlaps of any two. Hours at the rate of a skill are an operation of their own."""
    work = {step.operation.code: step.operation for group in rows.steps.values() for step in group}
    operation_rows: dict[str, OperationRow] = {code: work[code] for code in order} | work
    for line in rows.labour:
        if line.operation:
            operation_rows.setdefault(line.operation.code, line.operation)
    includes: dict[str, list[str]] = {}
    for pair in rows.pairs:
        if pair.kind == OperationPair.Kind.INCLUDES:
            operation_rows.setdefault(pair.other.code, pair.other)
            includes.setdefault(pair.operation.code, []).append(pair.other.code)
    operations = tuple(
        LabourOperation(
            row.code, row.skill, SharingRule(row.sharing), row.exposed, tuple(sorted(includes.get(row.code, ())))
        )
        for row in operation_rows.values()
    )
    overlaps = tuple(
        Overlap(pair.operation.code, pair.other.code, pair.hours)
        for pair in rows.pairs
        if pair.hours is not None and pair.other.code in operation_rows
    )
    by_hours = tuple(LabourOperation(_code(line), line.skill) for line in rows.labour if not line.operation)
    return (*operations, *by_hours), overlaps


def _labour(line: Line) -> ChosenLabour:
    return ChosenLabour(str(line.pk), _code(line), line.quantity)


def _code(line: Line) -> str:
    """The code of a labour line's operation."""
    return line.operation.code if line.operation else f"{WORK}{line.pk.hex}"


def _dropped(chosen: Iterable[Line], steps: Steps, attributes: Attributes) -> dict[UUID | None, set[UUID]]:
    """Maps a kit's revision to the operations of its template that do not apply to this vehicle."""
    return {
        line.kit_revision_id: {
            step.operation_id
            for step in steps.get(line.kit_revision.labour_id if line.kit_revision else None, ())
            if not holds(step.conditions, attributes)
        }
        for line in chosen
    }


def _need_rows(
    chosen: Iterable[Line], letters: Mapping[str, str], needs: Needs, dropped: Mapping[UUID | None, set[UUID]]
) -> Iterable[NeedRow]:
    """The needs of the kits, without those of steps that do not apply to the vehicle."""
    for line in chosen:
        for need in needs.get(line.kit_revision_id, ()):
            if need.operation_id in dropped[line.kit_revision_id]:
                continue
            yield NeedRow(
                kit=letters[str(line.pk)],
                item=str(need.consumable_id or need.part_id),
                rule=need.rule,
                quantity=need.quantity,
                of=need.basis,
                charge=need.charge,
                operation=need.operation.code if need.operation else "",
                shared=bool(need.operation and need.operation.sharing == OperationRow.Sharing.ONCE),
                glycol=glycol_named(need.consumable.specification) if need.consumable else None,
            )


def _kit(line: Line, letters: Mapping[str, str], rows: QuoteRows, attributes: Attributes) -> ChosenKit:
    revision = line.kit_revision
    assert revision is not None
    kit = revision.kit
    first = rows.fitted is not None and kit.code not in rows.fitted
    return ChosenKit(
        line=str(line.pk),
        letter=letters[str(line.pk)],
        code=kit.code,
        title=kit.title,
        operations=tuple(
            KitOperation(step.operation.code, _still_to_charge(step, rows.sold_hours))
            for step in rows.steps.get(revision.labour_id, ())
            if holds(step.conditions, attributes)
        ),
        tax_class=line.tax_class,
        buying=rows.buying.get(kit.part_id),
        own_price=revision.price,
        own_hours=revision.hours if revision.labour_id is None else None,
        own_cost=revision.cost,
        own_lead_days=lead_days_without_offer(kit, revision.lead_days),
        first_fit=rows.rules.first_fit_factor if first else Decimal(1),
        fits=tuple((condition["attribute"], tuple(condition["in"])) for condition in kit.fits),
        returnable=line.returnable,
        supplied=line.supplied,
    )


def _still_to_charge(step: TemplateStep, sold_hours: Mapping[str, Decimal]) -> Decimal:
    """The hours of a step; on a change without those for which the job is charged already."""
    sold: Decimal = sold_hours.get(step.operation.code, Decimal(0))
    return max(Decimal(step.hours) - sold, Decimal(0))


def _items(needs: Needs, parts: Iterable[Part], buying: Mapping[UUID, Buying]) -> dict[str, OfferedItem]:
    packs: dict[UUID, list[Part]] = {}
    for part in parts:
        packs.setdefault(part.consumable_id or part.pk, []).append(part)
    items: dict[str, OfferedItem] = {}
    for need in (need for group in needs.values() for need in group):
        subject: Any = need.consumable or need.part
        items[str(subject.pk)] = OfferedItem(
            id=str(subject.pk),
            title=str(need.consumable) if need.consumable else need.part.title,
            family=need.consumable.family if need.consumable else "",
            unit=subject.unit,
            tax_class=subject.tax_class or "part",
            packs=tuple(_pack(part, buying) for part in packs.get(subject.pk, ())),
        )
    return items


def _pack(part: Part, buying: Mapping[UUID, Buying]) -> PackOffer:
    return PackOffer(str(part.pk), part.number, part.title, part.pack_size or Decimal(1), buying.get(part.pk))


def _extra(line: Line, buying: Mapping[UUID, Buying]) -> Extra:
    return Extra(
        line=str(line.pk),
        title=line.title,
        tax_class=line.tax_class,
        quantity=line.quantity,
        unit_price=line.unit_price,
        buying=buying.get(line.part_id) if line.part_id and not line.supplied else None,
        part=str(line.part_id) if line.part_id else None,
        condition=line.part_condition if line.part_id and not line.supplied else "",
        original=line.original,
        because=line.override_reason,
        core=line.core,
        supplied=line.supplied,
        fitted_by=line.operation.code if line.supplied and line.operation else "",
        returnable=line.returnable,
    )


def _contingency(line: Line, buying: Mapping[UUID, Buying]) -> Contingency:
    assert line.cap is not None
    return Contingency(
        line=str(line.pk),
        event=line.event,
        title=line.title,
        tax_class=line.tax_class,
        quantity=line.quantity,
        cap=int(line.cap),
        unit_price=line.unit_price,
        buying=buying.get(line.part_id) if line.part_id else None,
        part=str(line.part_id) if line.part_id else None,
        skill=line.skill,
        because=line.override_reason if line.part_id else "",
    )


def _boxes(
    rows: QuoteRows, attributes: Attributes, order: list[str]
) -> tuple[dict[str, KitFacts], dict[str, tuple[str, ...]]]:
    """(facts of each kit, codes of the operations that need its parts), for this vehicle.

    Parts that depend on an unknown attribute are left out. As on the pull list, so are the contents of a carton or bag
    for another vehicle.
    """
    parts: dict[UUID | None, int] = {}
    listed: dict[UUID | None, int] = {}
    left_out: set[UUID | None] = set()
    cartons: dict[UUID | None, int] = {}
    needed: dict[UUID | None, set[str]] = {}
    for id, parent, revision, kind, when, role, code in rows.boxes:
        if kind == KitLine.Kind.PART:
            listed[revision] = listed.get(revision, 0) + 1
        if parent in left_out or not holds(when, attributes):
            left_out.add(id)
            continue
        if kind == KitLine.Kind.BAG:
            continue
        counts = parts if kind == KitLine.Kind.PART else cartons
        counts[revision] = counts.get(revision, 0) + 1
        if kind == KitLine.Kind.PART and role in WORKED_WITH:
            needed.setdefault(revision, set()).add(code or "")
    places = {code: place for place, code in enumerate(order)}
    facts, needed_at = {}, {}
    for line in rows.kits:
        assert line.kit_revision is not None
        of, key = line.kit_revision_id, str(line.pk)
        facts[key] = KitFacts(
            line.kit_revision, parts.get(of, 0), listed.get(of, 0), cartons.get(of, 0), line.fitted_before
        )
        needed_at[key] = tuple(sorted(needed.get(of, ()), key=lambda code: (places.get(code, -1), code)))
    return facts, needed_at
