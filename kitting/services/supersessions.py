"""Replaced numbers: parts that lead to the part of a newer number."""

from django.db import transaction

from kitting.calc.supersessions import leads_to
from kitting.models import Part
from kitting.queries.supersessions import lock_replaced_numbers, mark_of, newer_keys
from shop.access import Actor
from shop.calc.keys import search_key
from shop.errors import RequestError, field_error
from shop.services import history


@transaction.atomic
def replace_number(*, actor: Actor, number: str, newer: str) -> Part:
    """Replaces the part of `number` by that of `newer`, which quotes and lists then name instead.

    Refuses unknown numbers, a part that is replaced already, and a chain that would lead back to its beginning.
    """
    lock_replaced_numbers(actor)
    old, new = _part(actor, "/number", number), _part(actor, "/newer", newer)
    _refuse(actor, old, new)
    return _lead(actor, "replaced", old, new)


@transaction.atomic
def take_back(*, actor: Actor, part: Part, seen: int) -> Part:
    """Takes the replacement of the part back.

    Refused if the replacing part has changed since `seen`, the row's mark.
    """
    row = Part.objects.select_for_update(of=("self",)).select_related("superseded_by").get(pk=part.pk)
    if mark_of(row) != seen:
        raise RequestError(412, "changed-meanwhile")
    return _lead(actor, "brought back", row, None)


def _part(actor: Actor, pointer: str, number: str) -> Part:
    key = search_key(number)
    row = Part.objects.select_for_update().filter(shop=actor.shop, number_key=key).first() if key else None
    if row is None:
        raise field_error(pointer, "part_number_unknown", number=number)
    if row.kind == Part.Kind.PACK:
        raise field_error(pointer, "replaced_pack", number=row.number)
    return row


def _refuse(actor: Actor, old: Part, new: Part) -> None:
    facts = {"number": old.number, "newer": new.number}
    if old.pk == new.pk:
        raise field_error("/newer", "replaced_by_itself", **facts)
    if old.superseded_by:
        raise field_error("/number", "replaced_already", **facts | {"newer": old.superseded_by.number})
    if leads_to(new.number_key, old.number_key, newer_keys(actor.shop)):
        raise field_error("/newer", "replaced_in_a_circle", **facts)
    if old.unit != new.unit:
        raise field_error("/newer", "replaced_in_another_unit", **facts, unit=old.unit, other=new.unit)


def _lead(actor: Actor, verb: str, row: Part, new: Part | None) -> Part:
    before, row.superseded_by = row.superseded_by, new
    row.save(update_fields=["superseded_by"])
    numbers = [part and part.number for part in (before, new)]
    history.record(actor=actor, verb=verb, row=row, changes={"superseded_by": numbers})
    return row
