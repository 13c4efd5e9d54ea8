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
Pairs = dict[tuple[str, tuple[str, str]], Decimal | None]  # {(kind, codes of both): hours of the overlap}
ImportedTemplate = tuple[str, tuple[ImportedStep, ...]]


def known_operations(actor: Actor) -> dict[str, Operation]:
    """{code: operation} of the shop."""
    return {row.code: row for row in Operation.objects.filter(shop=actor.shop)}


def newest_templates(actor: Actor) -> dict[str, LabourTemplate]:
    """{code: latest version of the template}"""
    return {row.code: row for row in LabourTemplate.objects.filter(shop=actor.shop).order_by("number")}


def write_operations(actor: Actor, operations: Iterable[ImportedOperation]) -> None:
    """Adds the operations and updates those that the file changes; the version of the others stays."""
    existing = known_operations(actor)
    operations = tuple(operations)
    unchanged = unchanged_operations(actor, operations, existing)
    added: list[Operation] = []
    changed: list[Operation] = []
    differing = [imported for imported in operations if imported.code not in unchanged]
    for imported in differing:
        row = existing.get(imported.code) or Operation(shop=actor.shop, code=imported.code)
        _set(row, imported)
        clean((row,))
        (changed if imported.code in existing else added).append(row)
        existing.setdefault(imported.code, row)
    Operation.objects.bulk_create(added)
    Operation.objects.bulk_update(changed, (*FIELDS, *BOOKKEEPING))
    _write_cautions(actor, differing, existing)
    _write_values(actor, differing, existing)
    _write_pairs(actor, operations, existing)


def unchanged_operations(
    actor: Actor, operations: Iterable[ImportedOperation], existing: Mapping[str, Operation]
) -> set[str]:
    """The codes of the operations that are in use as the file states them, pairs included. Three queries."""
    operations = tuple(operations)
    rows = [existing[imported.code] for imported in operations if imported.code in existing]
    below = {"shop": actor.shop, "operation__in": rows}
    cautions = OperationCaution.objects.filter(**below).order_by("position")
    cautions_by_code = _grouped(cautions.values_list("operation__code", "text"))
    values = OperationValue.objects.filter(**below).order_by("position")
    values_by_code = _grouped(values.values_list("operation__code", "kind", "fastener", "value"))
    stored, stated = _by_operation(_stored_pairs(actor, rows)), _by_operation(_stated_pairs(operations))
    return {
        imported.code
        for imported in operations
        if imported.code in existing
        and not existing[imported.code].archived
        and _same_fields(existing[imported.code], imported)
        and [text for (text,) in cautions_by_code.get(imported.code, [])] == list(imported.cautions)
        and values_by_code.get(imported.code, []) == list(imported.required_values)
        and stored.get(imported.code) == stated.get(imported.code)
    }


def _grouped(rows: Iterable[tuple[Any, ...]]) -> dict[str, list[tuple[Any, ...]]]:
    """{the first value: the others of its rows}"""
    groups: dict[str, list[tuple[Any, ...]]] = {}
    for code, *rest in rows:
        groups.setdefault(code, []).append(tuple(rest))
    return groups


def _same_fields(row: Operation, imported: ImportedOperation) -> bool:
    fields = _fields(imported)
    return all(getattr(row, name) == fields[name] for name in FIELDS)


def _stored_pairs(actor: Actor, rows: Iterable[Operation]) -> Pairs:
    touching = Q(operation__in=rows) | Q(kind="overlap", other__in=rows)
    pairs = OperationPair.objects.filter(touching, shop=actor.shop)
    return {
        (kind, (a, b)): hours
        for kind, a, b, hours in pairs.values_list("kind", "operation__code", "other__code", "hours")
    }


def _stated_pairs(operations: Iterable[ImportedOperation]) -> Pairs:
    """{(kind, codes of both): hours of the overlap} as the file states them."""
    pairs: Pairs = {}
    for operation in operations:
        pairs |= {("includes", (operation.code, code)): None for code in operation.includes}
        pairs |= {("overlap", overlap_of(operation.code, code)): hours for code, hours in operation.overlaps}
    return pairs


def _by_operation(pairs: Pairs) -> dict[str, Pairs]:
    """{code: the inclusions of the operation and all overlaps with it}"""
    groups: dict[str, Pairs] = {}
    for (kind, both), hours in pairs.items():
        for code in both if kind == "overlap" else both[:1]:
            groups.setdefault(code, {})[kind, both] = hours
    return groups


def _set(row: Operation, imported: ImportedOperation) -> None:
    """Sets the row to the file's values. A change raises its version, and brings an archived operation back."""
    if not row._state.adding:
        row.version += 1
    row.archived = False
    for name, value in _fields(imported).items():
        setattr(row, name, value)


def _fields(imported: ImportedOperation) -> dict[str, Any]:
    """{FIELDS: the value that the file states}"""
    return {
        "title": imported.title,
        "skill": imported.skill,
        "book_hours": imported.hours,
        "sharing": imported.sharing,
        **dict(zip(FLAGS, imported.flags, strict=True)),
        "wait_after": imported.wait_after,
    }


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
    OperationPair.objects.bulk_create(
        OperationPair(shop=actor.shop, kind=kind, operation=stored[a], other=stored[b], hours=hours)
        for (kind, (a, b)), hours in _stated_pairs(operations).items()
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
