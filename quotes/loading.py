"""Rows -> the frozen input of pricing, one query a kind of row, however many rows there are."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any
from uuid import UUID

from django.db.models import Exists, OuterRef, Q

from kitting.calc.freezing import glycol_named
from kitting.calc.needs import NeedRow
from kitting.loading import newest_offers
from kitting.models import Kit, KitLine, KitRevision, Need, Offer, Part
from quotes.calc.labour import KitOperation, Operation, Overlap, Sharing
from quotes.calc.plan import Sheet
from quotes.calc.quote_input import Buying, ChosenKit, Extra, Item, Override, PackOffer, QuoteInput
from quotes.models import Line, Revision
from shop.calc.rules import Rules
from shop.calc.sheet import Step, merged_sheet, mobile_again
from shop.calc.when import Attributes, holds, undecided
from shop.models import Operation as OperationRow
from shop.models import OperationPair, Rate, Shop, TemplateStep

Steps = dict[UUID | None, list[TemplateStep]]  # by template
Needs = dict[UUID | None, list[Need]]  # by revision of a kit
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
WORKED_WITH = (KitLine.Role.FIT, KitLine.Role.TOOL)  # work does not wait for a spare or a leaflet


@dataclass(frozen=True, slots=True)
class KitFacts:
    """Facts of a kit that a screen shows with its figures."""

    revision: KitRevision
    parts: int
    cartons: int


@dataclass(frozen=True, slots=True)
class LoadedQuote:
    """The pricing input, what is only shown (kit facts, attributes not recorded), and the order of work."""

    input: QuoteInput
    kits: Mapping[str, KitFacts]
    decide: Mapping[str, tuple[str, ...]]
    sheet: Sheet


def load_quote(revision: Revision, day: date) -> LoadedQuote:
    """Everything that the draft's choices are priced from, as of `day`."""
    shop, rules = revision.shop, Rules.from_json(revision.rules.rules)
    lines = list(
        Line.objects.filter(shop=shop, revision=revision)
        .select_related("kit_revision__kit__part", "part")
        .order_by("position")
    )
    chosen = [line for line in lines if line.kind == Line.Kind.KIT]
    letters = {str(line.pk): LETTERS[at] for at, line in enumerate(chosen)}
    vehicle = revision.quote.vehicle
    attributes: Attributes = vehicle.attributes if vehicle else {}
    steps = _steps(shop, chosen)
    needs = _needs(shop, chosen)
    parts = _parts(shop, needs)
    buying = _buying(shop, [*parts, *_own_parts(lines)], day)
    asked = _asked_attributes(shop, chosen, steps)
    sheets = [template_sheet(steps[id], attributes) for id in steps]
    sheet = merged_sheet(sheets)
    operations, pairs = _operations(shop, steps, [step.code for step in sheet])
    fitted = _fitted_before(shop, revision, chosen) if rules.first_fit_factor != 1 else None
    given = QuoteInput(
        rules=rules,
        exponent=shop.exponent,
        kits=tuple(_kit(line, letters, steps, attributes, buying, rules, fitted) for line in chosen),
        operations=operations,
        titles={step.operation.code: step.operation.title for group in steps.values() for step in group},
        overlaps=pairs,
        needs=tuple(_need_rows(chosen, letters, needs, _dropped(chosen, steps, attributes))),
        items=_items(needs, parts, buying),
        capacities={name: Decimal(litres) for name, litres in (vehicle.capacities if vehicle else {}).items()},
        attributes=attributes if vehicle else None,
        condition=revision.condition,
        extras=tuple(_extra(line, buying) for line in lines if line.kind in (Line.Kind.PART, Line.Kind.TEXT)),
        overrides={each.key: Override(each.value, each.because) for each in revision.overrides.all()},
    )
    facts, needed_at = _boxes(shop, chosen, attributes, [step.code for step in sheet])
    work = _sheet(sheets, sheet, [step.operation for group in steps.values() for step in group], needed_at)
    return LoadedQuote(given, facts, undecided(asked, attributes), work)


def _sheet(
    sheets: Sequence[Sequence[Step]],
    order: tuple[Step, ...],
    done: Iterable[OperationRow],
    needed_at: Mapping[str, tuple[str, ...]],
) -> Sheet:
    rows = {row.code: row for row in done}
    leaves = frozenset(code for code, row in rows.items() if row.no_return)
    returns = [code for code, row in rows.items() if row.mobile_again]
    return Sheet(
        steps=order,
        waits={code: row.wait_after for code, row in rows.items()},
        needed_at=needed_at,
        no_return=leaves,
        mobile_again=mobile_again(sheets, [step.code for step in order], leaves, returns),
        wheels_off=frozenset(code for code, row in rows.items() if row.wheels_off),
    )


def _steps(shop: Shop, chosen: Iterable[Line]) -> Steps:
    """Template -> its steps, in the order of the kits."""
    found: Steps = {}
    for line in chosen:
        if line.kit_revision and line.kit_revision.labour_id:
            found.setdefault(line.kit_revision.labour_id, [])
    rows = TemplateStep.objects.filter(shop=shop, template__in=found).select_related("operation")
    for step in rows.order_by("template", "position"):
        found[step.template_id].append(step)
    return found


def template_sheet(steps: Iterable[TemplateStep], attributes: Attributes) -> list[Step]:
    """A template's steps as the order of work is made from them; one without predecessors follows the one above."""
    found: list[Step] = []
    for step in steps:
        above = (found[-1].code,) if found else ()
        found.append(Step(step.operation.code, tuple(step.after) or above, holds(step.when, attributes)))
    return found


def _operations(shop: Shop, steps: Steps, order: Iterable[str]) -> tuple[tuple[Operation, ...], tuple[Overlap, ...]]:
    """The operations of the templates, those that they include in the end, and what any two of all these save."""
    rows = {step.operation.code: step.operation for group in steps.values() for step in group}
    wanted: dict[str, OperationRow] = {code: rows[code] for code in order} | rows
    pairs = _pairs(shop, wanted.values())
    includes: dict[str, list[str]] = {}
    for pair in pairs:
        if pair.kind == OperationPair.Kind.INCLUDES:
            wanted.setdefault(pair.b.code, pair.b)
            includes.setdefault(pair.a.code, []).append(pair.b.code)
    operations = tuple(
        Operation(row.code, row.skill, Sharing(row.sharing), row.exposed, tuple(sorted(includes.get(row.code, ()))))
        for row in wanted.values()
    )
    overlaps = tuple(
        Overlap(pair.a.code, pair.b.code, pair.hours)
        for pair in pairs
        if pair.hours is not None and pair.b.code in wanted
    )
    return operations, overlaps


def _pairs(shop: Shop, operations: Iterable[OperationRow]) -> list[OperationPair]:
    """The pairs that begin with one of the operations or with one that they include, however long the chain.

    One query for each link of the longest chain, and none of the pairs of other work.
    """
    pairs: list[OperationPair] = []
    reached: set[UUID] = set()
    begun = {row.pk for row in operations}
    while begun:
        reached |= begun
        rows = OperationPair.objects.filter(shop=shop, a__in=begun).select_related("a", "b")
        pairs += sorted(rows, key=lambda pair: pair.pk)
        begun = {pair.b_id for pair in pairs if pair.kind == OperationPair.Kind.INCLUDES} - reached
    return pairs


def _needs(shop: Shop, chosen: Iterable[Line]) -> Needs:
    revisions = [line.kit_revision_id for line in chosen]
    found: Needs = {}
    rows = Need.objects.filter(shop=shop, revision__in=revisions).select_related("consumable", "part", "operation")
    for need in rows.order_by("revision", "position"):
        found.setdefault(need.revision_id, []).append(need)
    return found


def _dropped(chosen: Iterable[Line], steps: Steps, attributes: Attributes) -> dict[UUID | None, set[UUID]]:
    """Maps a kit's revision to the operations of its template that do not apply to this vehicle."""
    return {
        line.kit_revision_id: {
            step.operation_id
            for step in steps.get(line.kit_revision.labour_id if line.kit_revision else None, ())
            if not holds(step.when, attributes)
        }
        for line in chosen
    }


def _need_rows(
    chosen: Iterable[Line], letters: Mapping[str, str], needs: Needs, dropped: Mapping[UUID | None, set[UUID]]
) -> Iterable[NeedRow]:
    """The needs of the kits for the work that is done: a step that does not apply needs nothing."""
    for line in chosen:
        for need in needs.get(line.kit_revision_id, ()):
            if need.operation_id in dropped[line.kit_revision_id]:
                continue
            yield NeedRow(
                kit=letters[str(line.pk)],
                item=str(need.consumable_id or need.part_id),
                rule=need.rule,
                quantity=need.quantity,
                of=need.of,
                charge=need.charge,
                operation=need.operation.code if need.operation else "",
                shared=bool(need.operation and need.operation.sharing == OperationRow.Sharing.ONCE),
                glycol=glycol_named(need.consumable.specification) if need.consumable else None,
            )


def _parts(shop: Shop, needs: Needs) -> list[Part]:
    """The packs of every consumable that is needed, and the needed parts themselves."""
    consumables = {need.consumable_id for group in needs.values() for need in group if need.consumable_id}
    single = {need.part_id for group in needs.values() for need in group if need.part_id}
    return list(Part.objects.filter(Q(consumable__in=consumables) | Q(pk__in=single), shop=shop).order_by("number"))


def _own_parts(lines: Iterable[Line]) -> list[Part]:
    kits = [line.kit_revision.kit.part for line in lines if line.kit_revision]
    return kits + [line.part for line in lines if line.part]


def _buying(shop: Shop, parts: Iterable[Part], day: date) -> dict[UUID, Buying]:
    """Part -> the newest offer of its preferred supplier (of any, where none is preferred) and the newest rate."""
    newest = newest_offers(shop, parts, day)
    rates = _rates(shop, {offer.currency for offer in newest.values()}, day)
    return {part: _bought(offer, rates, shop, day) for part, offer in newest.items()}


def _rates(shop: Shop, currencies: set[str], day: date) -> dict[str, Rate]:
    wanted = currencies - {shop.currency}
    if not wanted:
        return {}
    rows = Rate.objects.filter(shop=shop, currency__in=wanted, valid_from__lte=day).order_by("valid_from")
    return {rate.currency: rate for rate in rows}


def _bought(offer: Offer, rates: Mapping[str, Rate], shop: Shop, day: date) -> Buying:
    rate = rates.get(offer.currency)
    at_home = offer.currency == shop.currency
    return Buying(
        supplier=offer.supplier.name,
        currency=offer.currency,
        unit_cost=offer.unit_cost,
        rate=Decimal(1) if at_home else (rate.rate if rate else None),
        rate_date=rate.valid_from if rate else None,
        rate_days=(day - rate.valid_from).days if rate else None,
        duty_rate=offer.duty_rate,
        freight=offer.freight,
        brokerage=offer.brokerage,
        valid_from=offer.valid_from,
        lead_days=offer.lead_days,
    )


def _kit(
    line: Line,
    letters: Mapping[str, str],
    steps: Steps,
    attributes: Attributes,
    buying: Mapping[UUID, Buying],
    rules: Rules,
    fitted: set[str] | None,
) -> ChosenKit:
    revision = line.kit_revision
    assert revision is not None
    kit = revision.kit
    first = fitted is not None and kit.code not in fitted
    return ChosenKit(
        line=str(line.pk),
        letter=letters[str(line.pk)],
        code=kit.code,
        title=kit.title,
        operations=tuple(
            KitOperation(step.operation.code, step.hours)
            for step in steps.get(revision.labour_id, ())
            if holds(step.when, attributes)
        ),
        tax_class=line.tax_class,
        buying=buying.get(kit.part_id),
        own_price=revision.price,
        own_hours=revision.hours if revision.labour_id is None else None,
        own_cost=revision.cost,
        own_lead_days=revision.lead_days,
        first_fit=rules.first_fit_factor if first else Decimal(1),
        fits=tuple((each["attribute"], tuple(each["in"])) for each in kit.fits),
    )


def _fitted_before(shop: Shop, revision: Revision, chosen: Iterable[Line]) -> set[str]:
    """The codes of those of the chosen kits that another accepted quote has."""
    kits = {line.kit_revision.kit_id for line in chosen if line.kit_revision}
    accepted = Line.objects.filter(
        shop=shop,
        kind=Line.Kind.KIT,
        kit_revision__kit=OuterRef("pk"),
        kit_revision__shop=shop,
        revision__state=Revision.State.ACCEPTED,
    )
    before = Kit.objects.filter(Exists(accepted.exclude(revision=revision)), shop=shop, pk__in=kits)
    return set(before.values_list("code", flat=True))


def _items(needs: Needs, parts: Iterable[Part], buying: Mapping[UUID, Buying]) -> dict[str, Item]:
    packs: dict[UUID, list[Part]] = {}
    for part in parts:
        packs.setdefault(part.consumable_id or part.pk, []).append(part)
    found: dict[str, Item] = {}
    for need in (need for group in needs.values() for need in group):
        subject: Any = need.consumable or need.part
        found[str(subject.pk)] = Item(
            id=str(subject.pk),
            title=str(need.consumable) if need.consumable else need.part.title,  # type: ignore[union-attr]
            family=need.consumable.family if need.consumable else "",
            unit=subject.unit,
            tax_class=subject.tax_class or "part",
            packs=tuple(_pack(part, buying) for part in packs.get(subject.pk, ())),
        )
    return found


def _pack(part: Part, buying: Mapping[UUID, Buying]) -> PackOffer:
    return PackOffer(str(part.pk), part.number, part.title, part.pack_size or Decimal(1), buying.get(part.pk))


def _extra(line: Line, buying: Mapping[UUID, Buying]) -> Extra:
    return Extra(
        line=str(line.pk),
        title=line.title,
        tax_class=line.tax_class,
        quantity=line.quantity,
        unit_price=line.unit_price,
        buying=buying.get(line.part_id) if line.part_id else None,
        part=str(line.part_id) if line.part_id else None,
    )


def _boxes(
    shop: Shop, chosen: Iterable[Line], attributes: Attributes, order: list[str]
) -> tuple[dict[str, KitFacts], dict[str, tuple[str, ...]]]:
    """The contents of the boxes for this vehicle, and for which work; without parts of an unknown attribute."""
    parts: dict[UUID | None, int] = {}
    cartons: dict[UUID | None, int] = {}
    needed: dict[UUID | None, set[str]] = {}
    rows = KitLine.objects.filter(shop=shop, revision__in=[line.kit_revision_id for line in chosen])
    rows = rows.exclude(kind=KitLine.Kind.BAG)
    for revision, kind, when, role, code in rows.values_list("revision", "kind", "when", "role", "operation__code"):
        if not holds(when, attributes):
            continue
        counts = parts if kind == KitLine.Kind.PART else cartons
        counts[revision] = counts.get(revision, 0) + 1
        if kind == KitLine.Kind.PART and role in WORKED_WITH:
            needed.setdefault(revision, set()).add(code or "")
    places = {code: place for place, code in enumerate(order)}
    found, needed_at = {}, {}
    for line in chosen:
        assert line.kit_revision is not None
        id, key = line.kit_revision_id, str(line.pk)
        found[key] = KitFacts(line.kit_revision, parts.get(id, 0), cartons.get(id, 0))
        needed_at[key] = tuple(sorted(needed.get(id, ()), key=lambda code: (places.get(code, -1), code)))
    return found, needed_at


def _asked_attributes(shop: Shop, chosen: Iterable[Line], steps: Steps) -> list[Mapping[str, Any]]:
    """Every condition on a part of the kits or a step of their templates."""
    revisions = [line.kit_revision_id for line in chosen]
    rows = KitLine.objects.filter(shop=shop, revision__in=revisions).exclude(when=[])
    found = [condition for when in rows.values_list("when", flat=True) for condition in when]
    return found + [condition for group in steps.values() for step in group for condition in step.when]
