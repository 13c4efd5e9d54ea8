"""Reads every row that a quote is priced from, with one query for each kind of row."""

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from decimal import Decimal
from typing import Any
from uuid import UUID

from django.db.models import Exists, OuterRef, Q, QuerySet

from kitting.models import Kit, KitLine, KitRevision, Need, Offer, Part
from kitting.queries.offers import lead_days_of, newest_offers
from quotes.calc.choices import OfferedChoice, Selection
from quotes.calc.quote_input import AgreedDiscount, Buying, ChosenOutside, TakenLine
from quotes.models import Line, Override, Revision
from quotes.queries.capacities import Litres, capacity_ends
from quotes.queries.change_rows import ChangeRows, read_change
from quotes.queries.choices import offered_choices
from quotes.queries.outside import chosen_outside
from shop.calc.rules import Rules
from shop.compiled import compiled
from shop.models import Operation as OperationRow
from shop.models import OperationPair, Rate, RuleSet, Shop, TemplateStep, Vehicle

Steps = dict[UUID | None, list[TemplateStep]]  # by template
Needs = dict[UUID | None, list[Need]]  # by revision of a kit
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
BoxLine = tuple[UUID, UUID | None, UUID, str, list[dict[str, Any]], str, str | None]
"""Id, parent, revision, kind, condition, role and operation of a carton, a bag or a part of a kit, in reading order."""


@dataclass(frozen=True, slots=True)
class QuoteRows:
    """The choices of a draft with all rows that they need, for any vehicle.

    `lines` are the chosen kits, parts and texts in their order, with what is charged only if it happens. `fitted`:
    codes of kits that were fitted before; None if the rules have no surcharge for a first fit. `letters` are those of
    all kits: a kit keeps its letter in every selection.
    """

    shop: Shop
    rules: Rules
    condition: str
    vehicle: Vehicle | None
    lines: tuple[Line, ...]
    outside: tuple[ChosenOutside, ...]
    overrides: tuple[Override, ...]
    discount: AgreedDiscount | None
    steps: Steps
    pairs: tuple[OperationPair, ...]
    needs: Needs
    parts: tuple[Part, ...]
    buying: Mapping[UUID, Buying]
    fitted: frozenset[str] | None
    boxes: tuple[BoxLine, ...]
    letters: Mapping[str, str]
    choices: tuple[OfferedChoice, ...] = ()
    taken: tuple[TakenLine, ...] = ()
    charges: Mapping[str, str] = field(default_factory=dict)  # item of a need -> the way that the advisor chose
    sold_hours: Mapping[str, Decimal] = field(default_factory=dict)  # of the standing steps of the job, by code
    ends: tuple[Litres, ...] = ()  # without a vehicle: the smallest and largest capacities of those that the kits fit

    @property
    def kits(self) -> list[Line]:
        return [line for line in self.lines if line.kind == Line.Kind.KIT]

    @property
    def labour(self) -> list[Line]:
        """The labour lines that people chose."""
        return [line for line in self.lines if line.is_chosen_labour]

    def taking(self, selection: Selection) -> "QuoteRows":
        """The rows of the quote with these options alone."""
        if not self.choices:
            return self
        lines = tuple(line for line in self.lines if line.option_id is None or str(line.option_id) in selection)
        ids = {str(line.pk) for line in lines}
        kits = [line.kit_revision for line in lines if line.kit_revision]
        revisions = {kit.pk for kit in kits}
        steps: Steps = {kit.labour_id: self.steps[kit.labour_id] for kit in kits if kit.labour_id in self.steps}
        return replace(
            self,
            lines=lines,
            outside=tuple(work for work in self.outside if work.line in ids),
            steps=steps,
            pairs=tuple(_reached(self.pairs, [operation.pk for operation in _operations(steps, lines)])),
            needs={revision: needs for revision, needs in self.needs.items() if revision in revisions},
            boxes=tuple(box for box in self.boxes if box[2] in revisions),
        )

    def buys_in(self, currency: str) -> bool:
        """Returns whether a supplier asks for this currency."""
        return any(buying.currency == currency for buying in self.buying.values())

    def at_rate(self, rate: Rate, day: date) -> "QuoteRows":
        """The rows of the quote as if this exchange rate counted on `day`."""
        age = max((day - rate.valid_from).days, 0)
        moved = {
            part: replace(buying, rate=rate.rate, rate_date=rate.valid_from, rate_days=age)
            for part, buying in self.buying.items()
            if buying.currency == rate.currency
        }
        return replace(self, buying={**self.buying, **moved})


def read_rows(revision: Revision, day: date, other: RuleSet | None = None) -> QuoteRows:
    """The rows that a version is priced from, as of `day`, by its own rules or by the set `other`.

    A sent version is priced from what people chose, without the prices that sending wrote.
    """
    rules = Rules.from_json((other or revision.rules).rules)
    change = read_change(revision, rules) if revision.quote.additional else None
    rules = change.rules if change else rules
    lines = tuple(_lines(revision.shop_id, revision.pk))
    if revision.state != Revision.State.DRAFT:
        _forget_written_prices(lines)
    return _rows(
        revision.shop,
        rules,
        lines,
        day,
        condition=rules.known_condition(revision.condition),
        vehicle=revision.quote.vehicle,
        outside=tuple(chosen_outside(revision.shop, revision, lines)),
        overrides=tuple(_overrides(revision.shop_id, revision.pk)),
        discount=_discount(revision),
        revision=revision,
        choices=offered_choices(revision),
        change=change,
    )


@compiled
def _lines(shop: UUID, revision: UUID) -> QuerySet[Line]:
    rows = Line.objects.filter(shop=shop, revision=revision)
    return rows.select_related("kit_revision__kit__part__preferred", "part", "operation").order_by("position")


@compiled
def _overrides(shop: UUID, revision: UUID) -> QuerySet[Override]:
    return Override.objects.filter(shop=shop, revision=revision)


def _forget_written_prices(lines: Iterable[Line]) -> None:
    """Takes the prices that sending worked out from lines in memory; a person's own price stays."""
    for line in lines:
        if not (line.kind == Line.Kind.TEXT or line.override_reason or line.supplied):
            line.unit_price = None


def kit_rows(kit_revision: KitRevision, rules: Rules, day: date) -> QuoteRows:
    """The rows that a quote with this kit alone would be priced from, without a vehicle."""
    kit = kit_revision.kit
    line = Line(
        shop=kit_revision.shop,
        kind=Line.Kind.KIT,
        title=kit.title,
        tax_class=kit.part.tax_class or "part",
        kit_revision=kit_revision,
        quantity=Decimal(1),
    )
    return _rows(kit_revision.shop, rules, (line,), day)


def _rows(
    shop: Shop,
    rules: Rules,
    lines: tuple[Line, ...],
    day: date,
    *,
    condition: str = "none",
    vehicle: Vehicle | None = None,
    outside: tuple[ChosenOutside, ...] = (),
    overrides: tuple[Override, ...] = (),
    discount: AgreedDiscount | None = None,
    revision: Revision | None = None,
    choices: tuple[OfferedChoice, ...] = (),
    change: ChangeRows | None = None,
) -> QuoteRows:
    chosen = [line for line in lines if line.kind == Line.Kind.KIT]
    steps = _steps(shop, chosen)
    needs = _needs(shop, chosen)
    parts = _parts(shop, needs)
    work = {operation.pk: operation for operation in _operations(steps, lines)}
    return QuoteRows(
        shop=shop,
        rules=rules,
        condition=condition,
        vehicle=vehicle,
        lines=lines,
        outside=outside,
        overrides=overrides,
        discount=discount,
        steps=steps,
        pairs=tuple(_pairs(shop, work.values())),
        needs=needs,
        parts=tuple(parts),
        buying=buying_of(shop, [*parts, *_own_parts(lines)], day),
        fitted=frozenset(_fitted_before(shop, revision, chosen)) if rules.first_fit_factor != 1 else None,
        boxes=_boxes(shop, chosen),
        letters=letters_from(chosen, change.kits if change else 0),
        choices=choices,
        taken=change.taken if change else (),
        charges=revision.charges if revision else {},
        sold_hours=change.sold_hours if change else {},
        ends=() if vehicle else capacity_ends(shop, _kits(chosen), _circuits(needs)),
    )


def _kits(chosen: Iterable[Line]) -> list[Kit]:
    return [line.kit_revision.kit for line in chosen if line.kit_revision]


def _circuits(needs: Needs) -> set[str]:
    """The circuits of the vehicle by which a need is measured."""
    return {need.basis for group in needs.values() for need in group if need.basis}


def letters_from(chosen: Iterable[Line], before: int) -> dict[str, str]:
    """{line: letter}, after the letters of the kits agreed before; past Z they begin again with two letters."""
    letters = [*LETTERS, *(first + second for first in LETTERS for second in LETTERS)]
    return {str(line.pk): letters[before + at] for at, line in enumerate(chosen)}


def _discount(revision: Revision) -> AgreedDiscount | None:
    if not revision.discount_reason:
        return None
    return AgreedDiscount(revision.discount_percent, revision.discount_amount, revision.discount_reason)


def _steps(shop: Shop, chosen: Iterable[Line]) -> Steps:
    """{template: its steps}, in the order of the kits."""
    steps: Steps = {}
    for line in chosen:
        if line.kit_revision and line.kit_revision.labour_id:
            steps.setdefault(line.kit_revision.labour_id, [])
    for step in _template_steps(shop.pk, tuple(filter(None, steps))):
        steps[step.template_id].append(step)
    return steps


@compiled
def _template_steps(shop: UUID, templates: tuple[UUID, ...]) -> QuerySet[TemplateStep]:
    rows = TemplateStep.objects.filter(shop=shop, template__in=templates).select_related("operation")
    return rows.order_by("template", "position")


def _pairs(shop: Shop, operations: Iterable[OperationRow]) -> list[OperationPair]:
    """The pairs whose first operation is one of these or is included by them, directly or not.

    Makes one query for each level of inclusion, and does not read the pairs of other operations.
    """
    pairs: list[OperationPair] = []
    reached: set[UUID] = set()
    begun = {row.pk for row in operations}
    while begun:
        reached |= begun
        pairs += sorted(_pairs_of(shop.pk, tuple(begun)), key=lambda pair: pair.pk)
        begun = {pair.other_id for pair in pairs if pair.kind == OperationPair.Kind.INCLUDES} - reached
    return pairs


@compiled
def _pairs_of(shop: UUID, operations: tuple[UUID, ...]) -> QuerySet[OperationPair]:
    return OperationPair.objects.filter(shop=shop, operation__in=operations).select_related("operation", "other")


def _reached(pairs: Iterable[OperationPair], operations: Iterable[UUID]) -> list[OperationPair]:
    """Those of the pairs that begin with one of the operations or with one that they include."""
    reached, every = set(operations), list(pairs)
    includes = [(pair.operation_id, pair.other_id) for pair in every if pair.kind == pair.Kind.INCLUDES]
    while more := {other for operation, other in includes if operation in reached} - reached:
        reached |= more
    return [pair for pair in every if pair.operation_id in reached]


def _operations(steps: Steps, lines: Iterable[Line]) -> Iterator[OperationRow]:
    """The operations of the templates, then those of labour lines."""
    yield from (step.operation for group in steps.values() for step in group)
    yield from (line.operation for line in lines if line.is_chosen_labour and line.operation)


def _needs(shop: Shop, chosen: Iterable[Line]) -> Needs:
    needs: Needs = {}
    for need in _needs_of(shop.pk, _revisions(chosen)):
        needs.setdefault(need.revision_id, []).append(need)
    return needs


@compiled
def _needs_of(shop: UUID, revisions: tuple[UUID, ...]) -> QuerySet[Need]:
    rows = Need.objects.filter(shop=shop, revision__in=revisions).select_related("consumable", "part", "operation")
    return rows.order_by("revision", "position")


def _revisions(chosen: Iterable[Line]) -> tuple[UUID, ...]:
    """Each revision of a kit that is chosen, once."""
    return tuple(dict.fromkeys(line.kit_revision_id for line in chosen if line.kit_revision_id))


def _parts(shop: Shop, needs: Needs) -> list[Part]:
    """The packs in use of every needed consumable, and the needed parts, each in the order of their numbers."""
    consumables = {need.consumable_id for group in needs.values() for need in group if need.consumable_id}
    single = {need.part_id for group in needs.values() for need in group if need.part_id}
    packs = _packs(shop.pk, tuple(consumables)) if consumables else []
    others = single - {pack.pk for pack in packs}
    return packs + (_parts_by_id(shop.pk, tuple(others)) if others else [])


@compiled
def _packs(shop: UUID, consumables: tuple[UUID, ...]) -> QuerySet[Part]:
    return Part.objects.filter(shop=shop, consumable__in=consumables, archived=False).order_by("number")


@compiled
def _parts_by_id(shop: UUID, ids: tuple[UUID, ...]) -> QuerySet[Part]:
    return Part.objects.filter(shop=shop, pk__in=ids).order_by("number")


def _own_parts(lines: Iterable[Line]) -> list[Part]:
    kits = [line.kit_revision.kit.part for line in lines if line.kit_revision]
    return kits + [line.part for line in lines if line.part]


def buying_of(shop: Shop, parts: Collection[Part], day: date) -> dict[UUID, Buying]:
    """{part: its preferred supplier's newest offer (any supplier's if none is preferred) with the newest rate}."""
    newest = newest_offers(shop, parts, day)
    rates = _rates(shop, {offer.currency for offer in newest.values()}, day)
    sells = {part.pk: part.selling_price for part in parts}
    return {part: _bought(offer, rates, shop, day, sells[part]) for part, offer in newest.items()}


def _rates(shop: Shop, currencies: set[str], day: date) -> dict[str, Rate]:
    foreign = currencies - {shop.currency}
    if not foreign:
        return {}
    rows = Rate.objects.filter(shop=shop, currency__in=foreign, valid_from__lte=day).order_by("valid_from")
    return {rate.currency: rate for rate in rows}


def _bought(offer: Offer, rates: Mapping[str, Rate], shop: Shop, day: date, sells: Decimal | None) -> Buying:
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
        days_left=(offer.valid_until - day).days if offer.valid_until else None,
        lead_days=lead_days_of(offer),
        sells=sells,
    )


def _fitted_before(shop: Shop, revision: Revision | None, chosen: Iterable[Line]) -> set[str]:
    """The codes of the chosen kits that another accepted quote has, or that a person recorded as fitted."""
    kits = {line.kit_revision.kit_id for line in chosen if line.kit_revision}
    accepted = Line.objects.filter(
        shop=shop,
        option=None,  # what the customer took of an option stands in the frozen text alone
        kind=Line.Kind.KIT,
        kit_revision__kit=OuterRef("pk"),
        kit_revision__shop=shop,
        revision__state=Revision.State.ACCEPTED,
    )
    fitted = Q(fitted_before__gt=0) | Q(Exists(accepted.exclude(revision=revision)))
    before = Kit.objects.filter(fitted, shop=shop, pk__in=kits).values_list("code", flat=True)
    return {*before, *(line.kit_revision.kit.code for line in chosen if line.fitted_before and line.kit_revision)}


def _boxes(shop: Shop, chosen: Iterable[Line]) -> tuple[BoxLine, ...]:
    return tuple(_box_lines(shop.pk, _revisions(chosen)))


@compiled
def _box_lines(shop: UUID, revisions: tuple[UUID, ...]) -> QuerySet[KitLine, BoxLine]:
    rows = KitLine.objects.filter(shop=shop, revision__in=revisions).order_by("revision", "position")
    return rows.values_list("id", "parent", "revision", "kind", "conditions", "role", "operation__code")
