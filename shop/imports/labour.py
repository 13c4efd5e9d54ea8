"""Imports operations and the labour templates made of them, from one workbook or one file each.

An operation is identified by its code and set to the file's values, and keeps its version if it has them already. A
template gets a new version unless its latest version is the same. A step without predecessors follows the step above
it; "-" lets it begin at once.
"""

import re
from collections.abc import Container, Iterable
from datetime import date
from decimal import Decimal

from shop.access import Actor
from shop.calc.quantity import plain
from shop.calc.rules import MOST_HOURS
from shop.imports import examples, stored
from shop.imports.labour_pairs import differing_overlaps, loop_from, loops
from shop.imports.labour_plan import ImportedOperation, ImportedStep, LabourPlan
from shop.imports.labour_rows import (
    known_operations,
    newest_templates,
    stored_includes,
    unchanged_operations,
    unchanged_templates,
    write_operations,
    write_templates,
)
from shop.imports.skills import skills_without_rate
from shop.models import LabourTemplate
from shop.queries.operations import FLAGS
from shop.tables.columns import Field, Table
from shop.tables.conditions import when
from shop.tables.engine import FileKind, ImportPreview, ParsedFile, ParsedRow
from shop.tables.findings import Finding, facts_of, must_fix, please_check
from shop.tables.numbers import number, whole
from shop.tables.registry import register
from shop.tables.sheets import Cell
from shop.tables.values import CellError, Value, article, listed, one_of, plain_text, text, yes_or_no

MOST_WAIT = 365 * 24 * 60
HOURS = number(scale=2, units=("h",), most=MOST_HOURS)
TORQUE = re.compile(r"\d\s*(N[·.\s]?m\b|lbf?\b|ft\b|in\b|deg|°)|turn", re.IGNORECASE)
OVERLAP = re.compile(r"^(?P<code>[^\s:=]+)\s*[:= ]\s*(?P<hours>[0-9]+(?:[.,][0-9]{1,2})?)\s*h?$")


def minutes(cell: Cell, decimal: str) -> Value:
    """Reads minutes; "2 h" is 120."""
    written = plain_text(cell)
    hours = re.fullmatch(r"([0-9]+)\s*h(?:ours?)?", written, re.IGNORECASE)
    if hours:
        cell = Cell(Decimal(hours[1]) * 60)
    return whole(units=("min",), most=MOST_WAIT)(cell, decimal)


def overlaps(cell: Cell, decimal: str) -> Value:
    """Reads "QT-08 0.3; QT-07 0.2" as ((code, hours), ...)."""
    pairs = []
    for part in listed(";\n")(cell, decimal).value:  # type: ignore[attr-defined]
        match = OVERLAP.match(part)
        hours = Decimal(match["hours"].replace(",", ".")) if match else Decimal(0)
        if not match or not hours:
            raise CellError("not_an_overlap", part=part)
        pairs.append((match["code"], hours))
    return Value(tuple(pairs))


def torques(cell: Cell, decimal: str) -> Value:
    """Reads "Drain plug: 35 N·m | Filter: hand tight" as ((fastener, value), ...)."""
    parts = listed("|\n")(cell, decimal).value
    split = (part.partition(":") for part in parts)  # type: ignore[attr-defined]
    return Value(tuple((fastener.strip(), value.strip()) for fastener, _, value in split))


def only_torques(cell: Cell, decimal: str) -> Value:
    """Reads tightening values only: a run-out or a pressure taken for a torque damages what it should check."""
    torque_list = torques(cell, decimal)
    for fastener, value in torque_list.value:  # type: ignore[attr-defined]
        if re.search(r"\d", value) and not TORQUE.search(value):
            raise CellError("not_a_torque", what=f"{fastener}: {value}")
    return torque_list


def predecessors(cell: Cell, decimal: str) -> Value:
    """Reads codes; "-" and "none" mean no predecessor."""
    if plain_text(cell).casefold() in ("-", "–", "none", "nothing"):
        return Value(())
    return listed()(cell, decimal)


SHARING = one_of({"": "once", "once": "once", "shared": "once", "each": "each", "every": "each", "per kit": "each"})
OPERATIONS = Table(
    "operations",
    (
        Field("code", ("code", "operation code", "op code", "op", "operation no"), article(40), True, True),
        Field("title", ("title", "operation", "description", "what", "work", "text"), text(200), True, True),
        Field("skill", ("skill", "trade", "labour class", "class"), text(20), True, True),
        Field("hours", ("hours", "book hours", "time", "h", "book time", "standard hours"), HOURS, True, True),
        Field("sharing", ("sharing", "shared", "charged"), SHARING),
        Field("exposed", ("exposed", "exposed fasteners", "rust"), yes_or_no),
        Field("no_return", ("no return", "point of no return", "cannot move", "immobile"), yes_or_no),
        Field("mobile_again", ("mobile again", "mobile", "moves again"), yes_or_no),
        Field("hold_point", ("check point", "hold point", "hold", "stop and check"), yes_or_no),
        Field("wheels_off", ("wheels off", "takes wheels off"), yes_or_no),
        Field("wait_after", ("wait after", "wait after min", "wait min", "wait", "cure min"), minutes),
        Field("includes", ("includes", "included", "contains"), listed()),
        Field("overlaps", ("overlaps", "overlap", "overlaps with"), overlaps),
        Field("cautions", ("cautions", "caution", "warnings"), listed("|\n")),
        Field("torques", ("torques", "torque", "torque values", "tightening"), only_torques),
        Field("others", ("other values", "values", "limits", "pressures"), torques),
    ),
    ("operations", "labour", "work"),
)
TEMPLATES = Table(
    "templates",
    (
        Field("template", ("template", "template code", "labour template", "job"), article(40), True, True),
        Field("position", ("position", "pos", "order", "no", "step no"), whole()),
        Field("operation", ("operation", "operation code", "code", "op"), article(40), True, True),
        Field("hours", ("hours", "h", "time"), HOURS),
        Field("stage", ("stage", "install stage", "phase"), text(40), True),
        Field("after", ("after", "predecessors", "follows", "waits for"), predecessors),
        Field("when", ("when", "fits", "only if", "variant", "condition"), when),
    ),
    ("templates", "template", "steps"),
)


def plan(file: ParsedFile) -> ImportPreview:
    """The operations and templates of the file."""
    operations = tuple(_operation(row) for row in file.of("operations"))
    templates = tuple((code, _steps(rows)) for code, rows in _by_template(file.of("templates")).items() if code)
    findings = [*_twice(operations), *loops(operations, {}), *differing_overlaps(operations)]
    for code, steps in templates:
        findings += _template_findings(code, steps)
    return ImportPreview(LabourPlan(operations, templates), tuple(findings))


def _operation(row: ParsedRow) -> ImportedOperation:
    get = row.get
    return ImportedOperation(
        get("code", ""),
        get("title", ""),
        get("skill", "").casefold(),
        get("hours", Decimal(0)),
        get("sharing", "once"),
        tuple(get(flag, False) for flag in FLAGS),
        get("wait_after", 0),
        get("includes", ()),
        get("overlaps", ()),
        get("cautions", ()),
        get("torques", ()),
        get("others", ()),
        row,
    )


def _by_template(rows: Iterable[ParsedRow]) -> dict[str, list[ParsedRow]]:
    rows_by_template: dict[str, list[ParsedRow]] = {}
    for row in rows:
        rows_by_template.setdefault(row.get("template", ""), []).append(row)
    return rows_by_template


def _steps(rows: list[ParsedRow]) -> tuple[ImportedStep, ...]:
    ordered = sorted(rows, key=lambda row: (row.get("position", 0), row.number))
    steps: list[ImportedStep] = []
    for row in ordered:
        above = (steps[-1].operation,) if steps else ()
        get = row.get
        steps.append(
            ImportedStep(
                get("operation", ""), get("hours"), get("stage", ""), get("after", above), get("when", ()), row
            )
        )
    return tuple(steps)


def _twice(operations: tuple[ImportedOperation, ...]) -> list[Finding]:
    seen: dict[str, int] = {}
    findings = []
    for operation in operations:
        first = seen.setdefault(operation.code, operation.row.number)
        if first != operation.row.number and operation.code:
            findings.append(must_fix("row_twice", operation.row.at("code"), first=first, what=operation.code))
    return findings


def _template_findings(code: str, steps: tuple[ImportedStep, ...]) -> list[Finding]:
    findings: list[Finding] = []
    seen: dict[str, int] = {}
    for step in steps:
        first = seen.setdefault(step.operation, step.row.number)
        if first != step.row.number:
            findings.append(must_fix("row_twice", step.row.at("operation"), first=first, what=step.operation))
    after = {step.operation: step.after for step in steps}
    for step in steps:
        for other in step.after:
            if other not in seen:
                findings.append(must_fix("step_unknown", step.row.at("after"), what=other, template=code))
        path = loop_from(step.operation, after)
        if path and min(path) == step.operation:
            findings.append(must_fix("after_loop", step.row.at("after"), loop=" > ".join((*path, step.operation))))
    return findings


def check(actor: Actor, plan: LabourPlan) -> ImportPreview:
    """Compares the plan with the shop's operations and templates."""
    existing = known_operations(actor)
    own_codes = {operation.code for operation in plan.operations}
    codes = {code for code, row in existing.items() if not row.archived} | own_codes
    findings = loops(plan.operations, stored_includes(actor, own_codes))
    for operation in plan.operations:
        for name, others in (
            ("includes", operation.includes),
            ("overlaps", tuple(code for code, _ in operation.overlaps)),
        ):
            for other in others:
                if other not in codes:
                    findings.append(must_fix("operation_unknown", operation.row.at(name), what=other))
                elif other == operation.code and name == "overlaps":
                    findings.append(must_fix("overlaps_itself", operation.row.at(name), what=other))
    for _, steps in plan.templates:
        for step in steps:
            if step.operation not in codes:
                findings.append(must_fix("operation_unknown", step.row.at("operation"), what=step.operation))
    findings += skills_without_rate(actor, plan.operations)
    findings += [
        please_check("operation_comes_back", operation.row.at("code"), what=operation.code)
        for operation in plan.operations
        if operation.code in existing and existing[operation.code].archived
    ]
    newest = newest_templates(actor)
    findings += [
        please_check("template_comes_back", steps[0].row.at("template"), what=code)
        for code, steps in plan.templates
        if code in newest and newest[code].archived
    ]
    book_hours = {code: row.book_hours for code, row in existing.items()}
    book_hours |= {operation.code: operation.hours for operation in plan.operations}
    same = unchanged_operations(actor, plan.operations, existing)
    unchanged = unchanged_templates(actor, plan.templates, newest, book_hours)
    becomes = (*_operations_become(plan, existing, same), *_templates_become(plan, newest, unchanged, book_hours))
    return ImportPreview(plan, tuple(findings), becomes)


def _operations_become(plan: LabourPlan, existing: Container[str], unchanged: set[str]) -> tuple[Finding, ...]:
    if not plan.operations:
        return ()
    n, same = len(plan.operations), len(unchanged)
    new = sum(operation.code not in existing for operation in plan.operations)
    return (Finding("", "operations", facts_of(n=n, new=new, known=n - new - same, same=same)),)


def _templates_become(
    plan: LabourPlan,
    newest: dict[str, LabourTemplate],
    unchanged: set[str],
    book_hours: dict[str, Decimal],
) -> tuple[Finding, ...]:
    lines = []
    for code, steps in plan.templates:
        if code in unchanged:
            lines.append(Finding("", "template_unchanged", facts_of(code=code, revision=newest[code].number)))
            continue
        hours = sum(
            (book_hours.get(step.operation, Decimal(0)) if step.hours is None else step.hours for step in steps),
            Decimal(0),
        )
        revision = newest[code].number + 1 if code in newest else 1
        facts = facts_of(code=code, revision=revision, n=len(steps), hours=plain(hours))
        lines.append(Finding("", "template", facts))
    return tuple(lines)


def write(actor: Actor, plan: LabourPlan, day: date) -> None:
    """Writes operations first, then templates."""
    write_operations(actor, plan.operations)
    write_templates(actor, plan.templates)


KIND = register(
    FileKind("labour", (OPERATIONS, TEMPLATES), plan, check, write, stored=stored.labour, example=examples.LABOUR)
)
