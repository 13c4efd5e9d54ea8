"""Suppliers: their name, contact and lead days, whether they are archived, and what is remembered about their files."""

from collections.abc import Mapping
from typing import Any

from django.db import transaction
from django.http import Http404

from kitting.models import Supplier
from kitting.queries.memories import memories, without
from shop.access import Actor
from shop.calc.keys import search_key
from shop.errors import RequestError, field_error
from shop.models import Shop
from shop.services import history


@transaction.atomic
def add_supplier(*, actor: Actor, facts: Mapping[str, Any]) -> Supplier:
    """Adds a supplier. Refuses the name of another one, as files would spell it."""
    Shop.objects.select_for_update().get(pk=actor.shop.pk)  # two of one name at once wait for each other
    row = Supplier(shop=actor.shop, **facts)
    row.clean_fields()
    _refuse_name(actor, row)
    row.save(force_insert=True)
    history.record(actor=actor, verb="added", row=row)
    return row


@transaction.atomic
def change_supplier(*, actor: Actor, supplier: Supplier, seen: int, changes: Mapping[str, Any]) -> Supplier:
    """Changes the given fields. Refused if the row has changed since version `seen`.

    Refuses the name of another supplier, as files would spell it: an import could not tell the two apart.
    """
    row = Supplier.objects.select_for_update().get(pk=supplier.pk)
    if row.version != seen:
        raise RequestError(412, "changed-meanwhile")
    before = {name: getattr(row, name) for name in changes}
    for name, value in changes.items():
        setattr(row, name, value)
    row.version += 1
    row.clean_fields()
    _refuse_name(actor, row)
    row.save(update_fields=[*changes, "version"])
    history.record(
        actor=actor, verb="changed", row=row, changes={name: [before[name], getattr(row, name)] for name in changes}
    )
    return row


def _refuse_name(actor: Actor, row: Supplier) -> None:
    key = search_key(row.name)
    if not key:
        raise field_error("/name", "nothing_to_find_by")
    others = Supplier.objects.filter(shop=actor.shop).exclude(pk=row.pk).values_list("name", flat=True)
    if any(search_key(name) == key for name in others):
        raise field_error("/name", "supplier_taken", name=row.name)


@transaction.atomic
def forget(*, actor: Actor, supplier: Supplier, key: str) -> Supplier:
    """Forgets one thing about the supplier's files, which its next file is then asked again. 404 for another key."""
    row = Supplier.objects.select_for_update().get(pk=supplier.pk)
    memory = next((memory for memory in memories(row) if memory.key == key), None)
    if memory is None:
        raise Http404
    row.columns, row.answers = without(row, memory)
    row.version += 1
    row.save(update_fields=["columns", "answers", "version"])
    history.record(
        actor=actor,
        verb="forgot",
        row=row,
        changes={"memory": [[memory.kind, memory.about, memory.name, memory.was, memory.text], None]},
    )
    return row
