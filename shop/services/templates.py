"""Labour templates: a new one, the next version of one, the archive. What was sold keeps its own version.

The steps of a version never change.
"""

from collections.abc import Mapping, Sequence
from typing import Any

from django.db import transaction
from django.utils import timezone

from shop.access import Actor
from shop.errors import RequestError, field_error
from shop.models import LabourTemplate, Operation
from shop.queries.calendar import shop_day
from shop.queries.entries import EntryError, read_entries
from shop.queries.templates import step_texts, steps_of, versions_of
from shop.services import history

Steps = Sequence[Mapping[str, Any]]


@transaction.atomic
def add_template(*, actor: Actor, code: str, steps: Steps) -> LabourTemplate:
    """Adds the first version of a template. Refuses a code that the shop has, also where it is archived."""
    _lock(actor)
    if LabourTemplate.objects.filter(shop=actor.shop, code=code).exists():
        raise field_error("/code", "template_code_taken", code=code)
    return _written(actor, code, steps)


@transaction.atomic
def add_version(*, actor: Actor, template: LabourTemplate, steps: Steps) -> LabourTemplate:
    """Adds the next version of the template, which brings it back from the archive.

    Refused if `template` is no longer the newest, or nothing differs.
    """
    _lock(actor)
    if versions_of(template)[0].pk != template.pk:
        raise RequestError(412, "changed-meanwhile")
    row = _written(actor, template.code, steps)
    if row.pk == template.pk:
        raise RequestError(409, "template-unchanged")
    return row


@transaction.atomic
def archive_template(*, actor: Actor, template: LabourTemplate, seen: int, archived: bool) -> LabourTemplate:
    """Archives the template or brings it back. Kits that use it keep it.

    Refused if `template` is no longer the newest version, or has changed since version `seen` of its row. It does not
    come back while one of its operations is archived.
    """
    _lock(actor)
    row = versions_of(template)[0]
    if row.pk != template.pk or row.version != seen:
        raise RequestError(412, "changed-meanwhile")
    gone = [step.operation.code for step in steps_of(row) if step.operation.archived]
    if gone and not archived:
        raise RequestError(409, "template-with-archived-operations", template=row.code, operations=", ".join(gone))
    row.archived, row.version = archived, row.version + 1
    row.save(update_fields=["archived", "version"])
    history.record(actor=actor, verb="archived" if archived else "brought back", row=row)
    return row


def _lock(actor: Actor) -> None:
    """Locks the shop's operations, of which templates are made: two simultaneous versions would get the same number."""
    rows = Operation.objects.select_for_update().filter(shop=actor.shop)
    list(rows.order_by("pk").values_list("pk", flat=True))


def _written(actor: Actor, code: str, steps: Steps) -> LabourTemplate:
    """The newest version after the steps were written as a file would."""
    if not steps:
        raise field_error("/steps", "template_without_steps")
    rows = [step_texts(step, code, position) for position, step in enumerate(steps, 1)]
    entry = read_entries(actor=actor, kind="labour", table="templates", rows=rows)
    if entry.refused:
        raise EntryError(entry.refused)
    entry.kind.write(actor, entry.plan, shop_day(actor.shop, timezone.now()))
    row: LabourTemplate = LabourTemplate.objects.filter(shop=actor.shop, code=code).latest("number")
    return row
