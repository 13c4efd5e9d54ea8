"""Reads and writes the rows of operations and labour templates."""

from collections.abc import Container, Iterable, Iterator, Mapping
from decimal import Decimal
from typing import Any

from django.db.models import Q

from shop.access import Actor
from shop.imports.labour_pairs import overlap_of
from shop.imports.labour_plan import ImportedOperation, ImportedStep
from shop.models import LabourTemplate, Operation, OperationCaution, OperationPair, OperationValue, TemplateStep
from shop.queries.operations import FLAGS
from shop.services import history
from shop.services.clean import clean

FIELDS = ("title", "skill", "book_hours", "sharing", *FLAGS, "wait_after")
BOOKKEEPING = ("archived", "version")
STEP_FIELDS = ("position", "hours", "stage", "after", "conditions")
ImportedTemplate = tuple[str, tuple[ImportedStep, ...]]


def known_operations(actor: Actor) -> dict[str, Operation]:
    """{code: operation} of the shop."""
    return {row.code: row for row in Operation.objects.filter(shop=actor.shop)}


def newest_templates(actor: Actor) -> dict[str, LabourTemplate]:
    """{code: latest version of the template}"""
    return {row.code: row for row in LabourTemplate.objects.filter(shop=actor.shop).order_by("number")}


def write_operations(actor: Actor, operations: Iterable[ImportedOperation]) -> None:
    """Adds or updates the operations and replaces their pairs."""
    existing = known_operations(actor)
    added: list[Operation] = []
    changed: list[Operation] = []
    for imported in operations:
        row = existing.get(imported.code) or Operation(shop=actor.shop, code=imported.code)
        _set(row, imported)
        clean((row,))
        (changed if imported.code in existing else added).append(row)
        existing.setdefault(imported.code, row)
    Operation.objects.bulk_create(added)
    Operation.objects.bulk_update(changed, (*FIELDS, *BOOKKEEPING))
    _write_cautions(actor, operations, existing)
    _write_values(actor, operations, existing)
    _write_pairs(actor, operations, existing)


def _set(row: Operation, imported: ImportedOperation) -> None:
    """Sets the row to the file's values. A change raises its version, and brings an archived operation back."""
    if not row._state.adding:
        row.version += 1
    row.archived = False
    row.title, row.skill, row.book_hours, row.sharing = imported.title, imported.skill, imported.hours, imported.sharing
    for flag, value in zip(FLAGS, imported.flags, strict=True):
        setattr(row, flag, value)
    row.wait_after = imported.wait_after


def _write_cautions(actor: Actor, operations: Iterable[ImportedOperation], stored: dict[str, Operation]) -> None:
    """Replaces the cautions of the file's operations."""
    rows = [
        OperationCaution(shop=actor.shop, operation=stored[operation.code], position=position, text=text)
        for operation in operations
        for position, text in enumerate(operation.cautions, 1)
    ]
    clean(rows)
    rewritten = [stored[operation.code] for operation in operations]
    OperationCaution.objects.filter(shop=actor.shop, operation__in=rewritten).delete()
    OperationCaution.objects.bulk_create(rows)


def _write_values(actor: Actor, operations: Iterable[ImportedOperation], stored: dict[str, Operation]) -> None:
    """Replaces the required values of the file's operations: the torque values, then the others."""
    rows = [
        OperationValue(
            shop=actor.shop,
            operation=stored[operation.code],
            position=position,
            kind=kind,
            fastener=fastener,
            value=value,
        )
        for operation in operations
        for position, (kind, fastener, value) in enumerate(operation.required_values, 1)
    ]
    clean(rows)
    rewritten = [stored[operation.code] for operation in operations]
    OperationValue.objects.filter(shop=actor.shop, operation__in=rewritten).delete()
    OperationValue.objects.bulk_create(rows)


def _write_pairs(actor: Actor, operations: Iterable[ImportedOperation], stored: dict[str, Operation]) -> None:
    """Replaces the inclusions of the file's operations and all overlaps with them."""
    rewritten = [stored[operation.code] for operation in operations]
    replaced = Q(operation__in=rewritten) | Q(kind="overlap", other__in=rewritten)
    OperationPair.objects.filter(replaced, shop=actor.shop).delete()
    includes = {(operation.code, code): None for operation in operations for code in operation.includes}
    overlaps = {
        overlap_of(operation.code, code): hours for operation in operations for code, hours in operation.overlaps
    }
    OperationPair.objects.bulk_create(
        OperationPair(shop=actor.shop, kind=kind, operation=stored[a], other=stored[b], hours=hours)
        for kind, pairs in (("includes", includes), ("overlap", overlaps))
        for (a, b), hours in pairs.items()
    )


def stored_includes(actor: Actor, but: Container[str]) -> dict[str, tuple[str, ...]]:
    """{operation: the operations it includes} in the shop, without the inclusions of the operations in `but`."""
    includes: dict[str, tuple[str, ...]] = {}
    rows = OperationPair.objects.filter(shop=actor.shop, kind="includes").order_by("operation__code", "other__code")
    for a, b in rows.values_list("operation__code", "other__code"):
        if a not in but:
            includes[a] = (*includes.get(a, ()), b)
    return includes


def write_templates(actor: Actor, templates: Iterable[ImportedTemplate]) -> None:
    """Writes a new version of each template that differs from its latest version. An archived one comes back."""
    templates = list(templates)
    operations, newest = known_operations(actor), newest_templates(actor)
    book_hours = {code: operation.book_hours for code, operation in operations.items()}
    unchanged = unchanged_templates(actor, templates, newest, book_hours)
    for code, steps in templates:
        before = newest.get(code)
        if before is not None and code in unchanged:
            _bring_back(actor, before)
            continue
        template = LabourTemplate(shop=actor.shop, code=code, number=before.number + 1 if before else 1)
        clean((template,))
        template.save(force_insert=True)
        rows = [
            TemplateStep(shop=actor.shop, template=template, operation=operations[operation], **values)
            for operation, values in _steps(steps, book_hours)
        ]
        clean(rows)
        TemplateStep.objects.bulk_create(rows)
        history.record(actor=actor, verb="imported", row=template)


def unchanged_templates(
    actor: Actor,
    templates: Iterable[ImportedTemplate],
    newest: Mapping[str, LabourTemplate],
    book_hours: Mapping[str, Decimal],
) -> set[str]:
    """The codes of the templates whose newest version has the steps that the file states. One query."""
    rows = TemplateStep.objects.filter(
        shop=actor.shop, template__in=[newest[code].pk for code, _ in templates if code in newest]
    )
    stored: dict[str, list[tuple[str, dict[str, Any]]]] = {}
    for row in rows.order_by("position").values("template__code", "operation__code", *STEP_FIELDS):
        step = (row["operation__code"], {name: row[name] for name in STEP_FIELDS})
        stored.setdefault(row["template__code"], []).append(step)
    return {code for code, steps in templates if stored.get(code) == list(_steps(steps, book_hours))}


def _bring_back(actor: Actor, template: LabourTemplate) -> None:
    if template.archived:
        template.archived, template.version = False, template.version + 1
        template.save(update_fields=["archived", "version"])
        history.record(actor=actor, verb="brought back", row=template)


def _steps(steps: Iterable[ImportedStep], book_hours: Mapping[str, Decimal]) -> Iterator[tuple[str, dict[str, Any]]]:
    """(code of its operation, STEP_FIELDS) of each step. One without hours of its own has those of its operation."""
    for position, step in enumerate(steps, 1):
        yield (
            step.operation,
            {
                "position": position,
                "hours": book_hours.get(step.operation) if step.hours is None else step.hours,
                "stage": step.stage,
                "after": list(step.after),
                "conditions": [{"attribute": name, "in": list(values)} for name, values in step.when],
            },
        )
