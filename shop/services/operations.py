"""Operations, one at a time: added, changed, archived, brought back. Jobs and sent quotes hold copies of their own."""

from collections.abc import Mapping

from django.db import transaction
from django.utils import timezone

from shop.access import Actor
from shop.errors import RequestError, field_error
from shop.models import Operation
from shop.queries.calendar import shop_day
from shop.queries.entries import Entry, sound_entry
from shop.queries.operations import operation_texts, paired_with, templates_with
from shop.services import history


@transaction.atomic
def add_operation(*, actor: Actor, texts: Mapping[str, str]) -> Operation:
    """Adds an operation. Refuses a code that the shop has, also where it is archived."""
    _lock_all(actor)
    entry = _sound(actor, texts)
    code = entry.plan.operations[0].code
    if Operation.objects.filter(shop=actor.shop, code=code).exists():
        raise field_error("/code", "operation_code_taken", code=code)
    _write(actor, entry)
    row = Operation.objects.get(shop=actor.shop, code=code)
    history.record(actor=actor, verb="added", row=row)
    return row


@transaction.atomic
def change_operation(*, actor: Actor, operation: Operation, seen: int, texts: Mapping[str, str]) -> Operation:
    """Sets the operation to the texts; its code stays. Refused if the row has changed since version `seen`."""
    _lock_all(actor)
    row = _current(operation, seen)
    before = operation_texts(row)
    _write(actor, _sound(actor, {**texts, "code": row.code}))
    row.refresh_from_db()
    after = operation_texts(row)
    changes: dict[str, list[object]] = {
        name: [before[name], after[name]] for name in after if before[name] != after[name]
    }
    history.record(actor=actor, verb="changed", row=row, changes=changes)
    return row


@transaction.atomic
def archive_operation(*, actor: Actor, operation: Operation, seen: int, archived: bool) -> Operation:
    """Archives the operation or brings it back.

    Refuses to archive one that the latest version of a template has as a step, or that another operation includes.
    """
    _lock_all(actor)
    row = _current(operation, seen)
    if archived and (templates := templates_with(actor, row)):
        raise RequestError(409, "operation-in-a-template", operation=row.code, templates=", ".join(templates))
    if archived and (others := paired_with(actor, row)):
        raise RequestError(409, "operation-is-included", operation=row.code, others=", ".join(others))
    row.archived, row.version = archived, row.version + 1
    row.save(update_fields=["archived", "version"])
    history.record(actor=actor, verb="archived" if archived else "brought back", row=row)
    return row


def _lock_all(actor: Actor) -> None:
    """Locks the shop's operations: two changes at once could otherwise close a loop of inclusions together."""
    rows = Operation.objects.select_for_update().filter(shop=actor.shop)
    list(rows.order_by("pk").values_list("pk", flat=True))


def _current(operation: Operation, seen: int) -> Operation:
    row = Operation.objects.get(pk=operation.pk)
    if row.version != seen:
        raise RequestError(412, "changed-meanwhile")
    return row


def _sound(actor: Actor, texts: Mapping[str, str]) -> Entry:
    return sound_entry(actor=actor, kind="labour", table="operations", texts=texts)


def _write(actor: Actor, entry: Entry) -> None:
    entry.kind.write(actor, entry.plan, shop_day(actor.shop, timezone.now()))
