"""Kits and their revisions. A kit may begin as a price and hours; later revisions may add detail."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, fields
from decimal import Decimal
from typing import Any

from django.db import transaction

from kitting.calc.explosion import flatten
from kitting.models import Consumable, Kit, KitLine, KitOutside, KitRevision, Need, Part, ReusedPart, Supplier
from kitting.queries.contents import calc_kit
from shop.access import Actor
from shop.calc.keys import search_key
from shop.errors import field_error
from shop.models import LabourTemplate, Operation
from shop.rows import uuid7
from shop.services import bulk, history
from shop.services.clean import clean
from shop.services.search_words import keep_words

Conditions = Sequence[dict[str, Any]]  # [{"attribute": name, "in": [values]}], all of which must hold


@dataclass(frozen=True, slots=True)
class NewLine:
    """One carton, bag or part. `parent` is the place of an earlier line in the same sequence."""

    kind: str
    quantity: Decimal = Decimal(1)
    label: str = ""
    part: Part | None = None
    parent: int | None = None
    when: Conditions = ()
    ships: str = KitLine.Ships.ALWAYS
    role: str = KitLine.Role.FIT
    operation: Operation | None = None


@dataclass(frozen=True, slots=True)
class NewNeed:
    """A need by one of Need's rules, with exactly one of `consumable` and `part`."""

    quantity: Decimal
    consumable: Consumable | None = None
    part: Part | None = None
    rule: str = Need.Rule.FIXED
    of: str = ""
    charge: str = Need.Charge.PACK
    operation: Operation | None = None


@dataclass(frozen=True, slots=True)
class NewReusedPart:
    title: str
    quantity: Decimal = Decimal(1)
    off_at: Operation | None = None
    back_at: Operation | None = None


@dataclass(frozen=True, slots=True)
class NewOutside:
    """Work of another firm that goes with the kit, with the terms of `KitOutside`."""

    title: str
    firm: Supplier
    cost: Decimal
    tax_class: str
    markup: Decimal = Decimal(0)
    handling: Decimal = Decimal(0)
    days: int | None = None
    starts_after: Operation | None = None
    needed_by: Operation | None = None
    they_do: str = ""
    they_need: str = ""
    warranty: str = ""
    we_warrant: str = ""
    rounds: int | None = None
    per_round: bool = False


@dataclass(frozen=True, slots=True)
class NewRevision:
    """The contents of one kit revision. `price` is the kit's selling price, until there is an offer to price it from.

    `cost` is the purchase price of the whole kit and `lead_days` its delivery time, until there is an offer.
    `outside` None leaves the outside work as it was in the revision before.
    """

    lines: Sequence[NewLine] = ()
    needs: Sequence[NewNeed] = ()
    reused: Sequence[NewReusedPart] = ()
    outside: Sequence[NewOutside] | None = None
    labour: LabourTemplate | None = None
    price: Decimal | None = None
    hours: Decimal | None = None
    cost: Decimal | None = None
    lead_days: int | None = None
    fits: Conditions = field(default=())


@transaction.atomic
def add_kit(
    *,
    actor: Actor,
    code: str,
    title: str,
    contents: NewRevision,
    number: str = "",
    supplier: Supplier | None = None,
    tax_class: str = "",
    returnable: bool = True,
) -> KitRevision:
    """Adds a kit with its first revision. `number` is the part number it is bought under, if that is not its code."""
    if not search_key(code):
        raise field_error("/code", "nothing_to_find_by")
    _refuse_title(title)
    kit = Kit(shop=actor.shop, code=code, title=title, title_key=search_key(title)[:240], fits=list(contents.fits))
    kit.part = part_for(
        actor, number or code, title, supplier, tax_class, returnable, pointer="/number" if number else "/code"
    )
    clean([kit])
    kit.save(force_insert=True)
    keep_words([kit])
    history.record(actor=actor, verb="added", row=kit)
    return revise_kit(actor=actor, kit=kit, contents=contents)


@transaction.atomic
def revise_kit(
    *, actor: Actor, kit: Kit, contents: NewRevision, title: str = "", part: Part | None = None
) -> KitRevision:
    """Adds the kit's next revision. Refuses contents that cannot be flattened.

    Replaces the kit's title and `part`, the one it is bought as, if they are given.
    """
    kit = Kit.objects.select_for_update().get(pk=kit.pk)
    if title or part or contents.fits:
        describe_kit(kit, title or kit.title, part or kit.part, list(contents.fits) or kit.fits)
    last = KitRevision.objects.filter(shop=actor.shop, kit=kit).order_by("-number").first()
    revision = KitRevision(shop=actor.shop, kit=kit, number=last.number + 1 if last else 1, labour=contents.labour)
    revision.price, revision.hours = contents.price, contents.hours
    revision.cost, revision.lead_days = contents.cost, contents.lead_days
    clean([revision])
    revision.save(force_insert=True)
    kit.version += 1
    kit.save(update_fields=["version"])
    _write(revision, contents, last)
    history.record(
        actor=actor, verb="revised", row=kit, changes={"revision": [revision.number - 1 or None, revision.number]}
    )
    return revision


def part_for(
    actor: Actor,
    number: str,
    title: str,
    supplier: Supplier | None = None,
    tax_class: str = "",
    returnable: bool = True,
    pointer: str = "/number",
) -> Part:
    """The part of that number, as which a kit is bought. One that the shop lacks is added.

    Refuses the number of a pack: the kit's supplier would become the one whose offer prices the consumable.
    """
    key = search_key(number)[:60]
    if not key:
        raise field_error(pointer, "nothing_to_find_by")
    part = Part.objects.filter(shop=actor.shop, number_key=key).first()
    if part is not None:
        if part.kind == Part.Kind.PACK:
            raise field_error(pointer, "kit_number_of_pack", number=part.number)
        return part
    part = Part(shop=actor.shop, number=number, number_key=key, title=title, unit="pc", preferred=supplier)
    part.tax_class, part.returnable = tax_class, returnable
    clean([part])
    part.save(force_insert=True)
    keep_words([part])
    return part


def describe_kit(kit: Kit, title: str, part: Part, fits: list[Any]) -> None:
    """Sets the kit's title, the part it is bought as, and the vehicles that it is for. Its row is locked."""
    _refuse_title(title)
    kit.title, kit.title_key, kit.part, kit.fits = title, search_key(title)[:240], part, fits
    clean([kit])
    kit.save(update_fields=["title", "title_key", "part", "fits"])
    keep_words([kit])


def _refuse_title(title: str) -> None:
    if not search_key(title):
        raise field_error("/title", "nothing_to_find_by")


def _write(revision: KitRevision, contents: NewRevision, last: KitRevision | None) -> None:
    lines = _lines(revision, contents.lines)
    needs, reused = _needs(revision, contents.needs), _reused(revision, contents.reused)
    outside = _outside(revision, outside_of(last) if contents.outside is None else contents.outside)
    clean([*lines, *needs, *reused, *outside])
    if lines:
        flatten(calc_kit(lines, vehicle={}, superseded_by={}))
    bulk.insert(lines)
    Need.objects.bulk_create(needs)
    ReusedPart.objects.bulk_create(reused)
    KitOutside.objects.bulk_create(outside)


def _lines(revision: KitRevision, lines: Sequence[NewLine]) -> list[KitLine]:
    rows: list[KitLine] = []
    for position, line in enumerate(lines, start=1):
        rows.append(
            KitLine(
                shop=revision.shop,
                revision=revision,
                position=position,
                parent=None if line.parent is None else rows[line.parent],
                kind=line.kind,
                label=line.label,
                part=line.part,
                quantity=line.quantity,
                conditions=list(line.when),
                ships=line.ships,
                role=line.role,
                operation=line.operation,
            )
        )
    return rows


def _needs(revision: KitRevision, needs: Iterable[NewNeed]) -> list[Need]:
    return [
        Need(
            shop=revision.shop,
            revision=revision,
            position=position,
            consumable=need.consumable,
            part=need.part,
            rule=need.rule,
            quantity=need.quantity,
            basis=need.of,
            charge=need.charge,
            operation=need.operation,
        )
        for position, need in enumerate(needs, start=1)
    ]


def _reused(revision: KitRevision, parts: Iterable[NewReusedPart]) -> list[ReusedPart]:
    return [
        ReusedPart(
            shop=revision.shop,
            revision=revision,
            position=position,
            title=part.title,
            quantity=part.quantity,
            off_at=part.off_at,
            back_at=part.back_at,
        )
        for position, part in enumerate(parts, start=1)
    ]


TERMS = tuple(term.name for term in fields(NewOutside))


def _outside(revision: KitRevision, works: Iterable[NewOutside]) -> list[KitOutside]:
    return [
        KitOutside(
            shop=revision.shop, revision=revision, position=position, **{name: getattr(work, name) for name in TERMS}
        )
        for position, work in enumerate(works, start=1)
    ]


def outside_of(revision: KitRevision | None) -> list[NewOutside]:
    """The outside work of a version for another one."""
    if revision is None:
        return []
    rows = KitOutside.objects.filter(shop=revision.shop, revision=revision).select_related(
        "firm", "starts_after", "needed_by"
    )
    return [NewOutside(**{name: getattr(row, name) for name in TERMS}) for row in rows.order_by("position")]


def keep_what_a_list_lacks(before: KitRevision, revision: KitRevision) -> None:
    """Gives a new revision the cost, the delivery time, the needs and the re-used parts of the revision before it.

    A list that was counted by hand says nothing of them.
    """
    revision.cost, revision.lead_days = before.cost, before.lead_days
    revision.save(update_fields=["cost", "lead_days"])
    needs = list(Need.objects.filter(shop=before.shop, revision=before).order_by("position"))
    reused = list(ReusedPart.objects.filter(shop=before.shop, revision=before).order_by("position"))
    for need in needs:
        need.pk, need.revision, need._state.adding = uuid7(), revision, True
    for part in reused:
        part.pk, part.revision, part._state.adding = uuid7(), revision, True
    Need.objects.bulk_create(needs)
    ReusedPart.objects.bulk_create(reused)
