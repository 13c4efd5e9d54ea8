"""Kits as their list changes them: the head of a kit, and the figures of its newest version."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from django.db import transaction

from kitting.models import Kit, KitLine, KitRevision, Need, Part, ReusedPart, Supplier
from kitting.services.kits import NewLine, NewNeed, NewReusedPart, NewRevision, describe_kit, part_for, revise_kit
from shop.access import Actor
from shop.services import history
from shop.services.clean import clean


@transaction.atomic
def change_head(*, actor: Actor, kit: Kit, head: Mapping[str, Any]) -> None:
    """Changes the given ones of `title`, `number` (the part it is bought as), `fits` and `fitted_before`."""
    row = Kit.objects.select_for_update(of=("self",)).select_related("part").get(pk=kit.pk)
    before = _head(row)
    if "number" in head:
        row.part = part_for(actor, head["number"], head.get("title", row.title))
    row.fitted_before = head.get("fitted_before", row.fitted_before)
    describe_kit(row, head.get("title", row.title), row.part, list(head.get("fits", row.fits)))
    row.save(update_fields=["fitted_before"])
    after = _head(row)
    changes = {name: [before[name], after[name]] for name in after if before[name] != after[name]}
    history.record(actor=actor, verb="changed", row=row, changes=changes)


def _head(row: Kit) -> dict[str, Any]:
    return {"title": row.title, "number": row.part.number, "fits": row.fits, "fitted_before": row.fitted_before}


@transaction.atomic
def prefer_supplier(*, actor: Actor, kit: Kit, supplier: Supplier) -> None:
    """Makes the supplier the one whose offer prices the kit."""
    part_id = Kit.objects.get(pk=kit.pk).part_id
    row = Part.objects.select_for_update(of=("self",)).select_related("preferred").get(pk=part_id)
    before, row.preferred = row.preferred, supplier
    clean([row])
    row.save(update_fields=["preferred"])
    history.record(
        actor=actor, verb="changed", row=row, changes={"supplier": [before.name if before else None, supplier.name]}
    )


@transaction.atomic
def revise_figures(*, actor: Actor, kit: Kit, figures: Mapping[str, Any]) -> KitRevision:
    """Adds a version with the given ones of price, hours, cost and lead days, and the contents of the newest."""
    Kit.objects.select_for_update().get(pk=kit.pk)
    newest = KitRevision.objects.filter(shop=actor.shop, kit=kit).select_related("labour").latest("number")
    return revise_kit(actor=actor, kit=kit, contents=replace(contents_of(newest), **figures))


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
