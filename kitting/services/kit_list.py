"""Kits as their list and their screen change them: the head, the figures of the newest version, the archive."""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from decimal import Decimal
from typing import Any

from django.db import transaction

from kitting.models import Kit, KitLine, KitRevision, Need, Part, ReusedPart, Supplier
from kitting.queries.first_counts import has_contents, newest_revision
from kitting.services.kits import (
    NewLine,
    NewNeed,
    NewReusedPart,
    NewRevision,
    add_kit,
    describe_kit,
    outside_of,
    part_for,
    revise_kit,
)
from shop.access import Actor
from shop.errors import RequestError, field_error
from shop.queries.templates import is_archived
from shop.services import history
from shop.services.clean import clean

HEAD = ("title", "number", "fits", "fitted_before")
FIGURES = ("price", "hours", "lead_days", "cost", "labour")


def differing(
    kit: Kit, newest: KitRevision | None, values: Mapping[str, Any], names: Iterable[str] = (*HEAD, *FIGURES)
) -> dict[str, Any]:
    """Those of the values under these names that the kit and its newest version do not have."""
    return {name: values[name] for name in names if name in values and values[name] != _recorded(kit, newest, name)}


def _recorded(kit: Kit, newest: KitRevision | None, name: str) -> Any:
    if name in FIGURES:
        return getattr(newest, name) if newest else None
    return kit.part.number if name == "number" else getattr(kit, name)


@transaction.atomic
def set_listed(*, actor: Actor, kit: Kit, newest: KitRevision | None, values: Mapping[str, Any]) -> None:
    """Sets the given ones of HEAD, FIGURES and `supplier` where they differ. A changed figure makes the next version.

    `kit` has its part.
    """
    head = differing(kit, newest, values, HEAD)
    if head:
        _change_head(actor, kit, head)
    if "supplier" in values and (kit.part.preferred != values["supplier"] or "number" in head):
        _prefer_supplier(actor, kit, values["supplier"])
    if figures := differing(kit, newest, values, FIGURES):
        _revise_figures(actor, kit, figures)


@transaction.atomic
def change_kit(*, actor: Actor, kit: Kit, seen: int, values: Mapping[str, Any]) -> None:
    """Sets the given values as `set_listed` does. Refused if the kit has changed since version `seen`.

    Until it has contents, a kit is quoted by a price and hours of its own, so neither can be emptied. An archived
    labour template is refused, unless the kit has it already.
    """
    row, newest = _current(kit, seen), newest_revision(kit)
    for name in ("price", "hours"):
        if name in values and values[name] is None and not has_contents(newest):
            raise field_error(f"/{name}", "kit_without_contents_needs")
    labour = values.get("labour")
    if labour and is_archived(labour) and (newest is None or newest.labour != labour):
        raise field_error("/labour", "template_archived", template=labour.code)
    set_listed(actor=actor, kit=row, newest=newest, values=values)


@transaction.atomic
def change_cost(*, actor: Actor, kit: Kit, seen: int, cost: Decimal | None) -> None:
    """Sets the cost of the whole kit; another one makes the next version.

    Refused if the kit has changed since version `seen`.
    """
    row = _current(kit, seen)
    set_listed(actor=actor, kit=row, newest=newest_revision(kit), values={"cost": cost})


@transaction.atomic
def archive_kit(*, actor: Actor, kit: Kit, seen: int, archived: bool) -> None:
    """Archives the kit or brings it back. Quotes and jobs that have it keep it.

    Refused if the kit has changed since version `seen`.
    """
    row = _current(kit, seen)
    row.archived, row.version = archived, row.version + 1
    row.save(update_fields=["archived", "version"])
    history.record(actor=actor, verb="archived" if archived else "brought back", row=row)


def bring_back(*, actor: Actor, kit: Kit) -> None:
    """Brings the kit back if it is archived."""
    if kit.archived:
        archive_kit(actor=actor, kit=kit, seen=kit.version, archived=False)


def _current(kit: Kit, seen: int) -> Kit:
    row = Kit.objects.select_for_update(of=("self",)).select_related("part__preferred").get(pk=kit.pk)
    if row.version != seen:
        raise RequestError(412, "changed-meanwhile")
    return row


@transaction.atomic
def duplicate_kit(*, actor: Actor, kit: Kit, code: str, title: str, number: str = "") -> KitRevision:
    """Adds a kit with the contents, the work and the figures of the kit's newest version. Offers stay with the first.

    `number` is the part number it is bought under, if that is not its code.
    """
    newest = newest_revision(kit)
    contents = contents_of(newest) if newest else NewRevision()
    return add_kit(
        actor=actor,
        code=code,
        title=title,
        contents=replace(contents, outside=outside_of(newest), fits=kit.fits),
        number=number,
        supplier=kit.part.preferred,
        tax_class=kit.part.tax_class,
        returnable=kit.part.returnable,
    )


def _change_head(actor: Actor, kit: Kit, head: Mapping[str, Any]) -> None:
    row = Kit.objects.select_for_update(of=("self",)).select_related("part").get(pk=kit.pk)
    before = _head(row)
    if "number" in head:
        row.part = part_for(actor, head["number"], head.get("title", row.title))
    row.fitted_before, row.version = head.get("fitted_before", row.fitted_before), row.version + 1
    describe_kit(row, head.get("title", row.title), row.part, list(head.get("fits", row.fits)))
    row.save(update_fields=["fitted_before", "version"])
    after = _head(row)
    changes = {name: [before[name], after[name]] for name in after if before[name] != after[name]}
    history.record(actor=actor, verb="changed", row=row, changes=changes)


def _head(row: Kit) -> dict[str, Any]:
    return {"title": row.title, "number": row.part.number, "fits": row.fits, "fitted_before": row.fitted_before}


def _prefer_supplier(actor: Actor, kit: Kit, supplier: Supplier | None) -> None:
    """Makes the supplier the one whose offer prices the kit."""
    part_id = Kit.objects.get(pk=kit.pk).part_id
    row = Part.objects.select_for_update(of=("self",)).select_related("preferred").get(pk=part_id)
    before, row.preferred = row.preferred, supplier
    clean([row])
    row.save(update_fields=["preferred"])
    names = [firm.name if firm else None for firm in (before, supplier)]
    history.record(actor=actor, verb="changed", row=row, changes={"supplier": names})


def _revise_figures(actor: Actor, kit: Kit, figures: Mapping[str, Any]) -> KitRevision:
    """Adds a version with the given ones of FIGURES and the contents of the newest."""
    Kit.objects.select_for_update().get(pk=kit.pk)
    newest = newest_revision(kit)
    contents = contents_of(newest) if newest else NewRevision()
    return revise_kit(actor=actor, kit=kit, contents=replace(contents, **figures))


def contents_of(revision: KitRevision) -> NewRevision:
    """The contents of a version for another one. Its outside work is left to `revise_kit`, which takes it over."""
    needs = Need.objects.filter(shop=revision.shop_id, revision=revision).order_by("position")
    reused = ReusedPart.objects.filter(shop=revision.shop_id, revision=revision).order_by("position")
    return NewRevision(
        lines=_lines(revision),
        needs=[
            NewNeed(row.quantity, row.consumable, row.part, row.rule, row.basis, row.charge, row.operation)
            for row in needs.select_related("consumable", "part", "operation")
        ],
        reused=[
            NewReusedPart(row.title, row.quantity, row.off_at, row.back_at)
            for row in reused.select_related("off_at", "back_at")
        ],
        labour=revision.labour,
        price=revision.price,
        hours=revision.hours,
        cost=revision.cost,
        lead_days=revision.lead_days,
    )


def _lines(revision: KitRevision) -> list[NewLine]:
    rows = list(
        KitLine.objects.filter(shop=revision.shop_id, revision=revision)
        .select_related("part", "operation")
        .order_by("position")
    )
    places = {row.pk: place for place, row in enumerate(rows)}
    return [
        NewLine(
            row.kind,
            row.quantity,
            row.label,
            row.part,
            places[row.parent_id] if row.parent_id else None,
            row.conditions,
            row.ships,
            row.role,
            row.operation,
        )
        for row in rows
    ]
