"""The rows of labour: what the shop has, and writing what a file brings."""

from collections.abc import Container, Iterable
from typing import TYPE_CHECKING, Any

from django.db.models import Q

from shop.access import Actor
from shop.imports.clean import clean
from shop.imports.labour_pairs import overlap_of
from shop.models import LabourTemplate, Operation, OperationPair, TemplateStep
from shop.services import history

if TYPE_CHECKING:
    from shop.imports.labour import ImportedOperation, ImportedStep

FLAGS = ("exposed", "no_return", "mobile_again", "hold_point", "wheels_off")
FIELDS = ("title", "skill", "book_hours", "sharing", *FLAGS, "wait_after", "cautions", "torques")


def known_operations(actor: Actor) -> dict[str, Operation]:
    return {row.code: row for row in Operation.objects.filter(shop=actor.shop)}


def newest_templates(actor: Actor) -> dict[str, LabourTemplate]:
    return {row.code: row for row in LabourTemplate.objects.filter(shop=actor.shop).order_by("number")}


def take_in_operations(actor: Actor, operations: "Iterable[ImportedOperation]") -> None:
    known = known_operations(actor)
    added: list[Operation] = []
    changed: list[Operation] = []
    for one in operations:
        row = known.get(one.code) or Operation(shop=actor.shop, code=one.code)
        _set(row, one)
        clean((row,))
        (changed if one.code in known else added).append(row)
        known.setdefault(one.code, row)
    Operation.objects.bulk_create(added)
    Operation.objects.bulk_update(changed, FIELDS)
    _take_in_pairs(actor, operations, known)


def _set(row: Operation, one: "ImportedOperation") -> None:
    row.title, row.skill, row.book_hours, row.sharing = one.title, one.skill, one.hours, one.sharing
    for flag, value in zip(FLAGS, one.flags, strict=True):
        setattr(row, flag, value)
    row.wait_after = one.wait_after
    row.cautions = list(one.cautions)
    row.torques = [{"fastener": fastener, "value": value} for fastener, value in one.torques]
    row.torques += [{"fastener": what, "value": value, "kind": "other"} for what, value in one.others]


def _take_in_pairs(actor: Actor, operations: "Iterable[ImportedOperation]", known: dict[str, Operation]) -> None:
    """Replaces the inclusions of the file's operations, and every overlap with one of them, by those of the file."""
    rewritten = [known[one.code] for one in operations]
    theirs = Q(a__in=rewritten) | Q(kind="overlap", b__in=rewritten)
    OperationPair.objects.filter(theirs, shop=actor.shop).delete()
    includes = {(one.code, code): None for one in operations for code in one.includes}
    overlaps = {overlap_of(one.code, code): hours for one in operations for code, hours in one.overlaps}
    OperationPair.objects.bulk_create(
        OperationPair(shop=actor.shop, kind=kind, a=known[a], b=known[b], hours=hours)
        for kind, found in (("includes", includes), ("overlap", overlaps))
        for (a, b), hours in found.items()
    )


def stored_includes(actor: Actor, but: Container[str]) -> dict[str, tuple[str, ...]]:
    """{operation: what it includes} as the shop has it, leaving out what the operations in `but` include."""
    found: dict[str, tuple[str, ...]] = {}
    rows = OperationPair.objects.filter(shop=actor.shop, kind="includes").order_by("a__code", "b__code")
    for a, b in rows.values_list("a__code", "b__code"):
        if a not in but:
            found[a] = (*found.get(a, ()), b)
    return found


def take_in_templates(actor: Actor, templates: "Iterable[tuple[str, tuple[ImportedStep, ...]]]") -> None:
    known, newest = known_operations(actor), newest_templates(actor)
    for code, steps in templates:
        before = newest.get(code)
        wanted = [_step(position, step, known) for position, step in enumerate(steps, 1)]
        if before is not None and _said_by(before) == wanted:
            continue
        template = LabourTemplate(shop=actor.shop, code=code, number=before.number + 1 if before else 1)
        clean((template,))
        template.save(force_insert=True)
        rows = [TemplateStep(shop=actor.shop, template=template, **each) for each in wanted]
        clean(rows)
        TemplateStep.objects.bulk_create(rows)
        history.record(actor=actor, verb="imported", row=template)


def _step(position: int, step: "ImportedStep", known: dict[str, Operation]) -> dict[str, Any]:
    operation = known[step.operation]
    return {
        "operation_id": operation.pk,
        "position": position,
        "hours": operation.book_hours if step.hours is None else step.hours,
        "stage": step.stage,
        "after": list(step.after),
        "when": [{"attribute": name, "in": list(values)} for name, values in step.when],
    }


def _said_by(template: LabourTemplate) -> list[dict[str, Any]]:
    fields = ("operation_id", "position", "hours", "stage", "after", "when")
    return list(template.steps.order_by("position").values(*fields))
