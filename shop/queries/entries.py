"""Reads what a person typed into a form as one row of a file, so that form and file have the same rules.

Each text is read by its column's reader; the kind's `plan` and `check` compare the row with the shop.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from shop.access import Actor
from shop.tables.engine import FileKind, ParsedFile, ParsedRow
from shop.tables.findings import MUST_FIX, PLEASE_CHECK, Finding, must_fix
from shop.tables.registry import kinds
from shop.tables.sheets import Cell
from shop.tables.values import CellError

DECIMAL = "."


@dataclass(frozen=True, slots=True)
class Entry:
    """A row that was typed: the kind's own `plan`, and all findings, each with the field that it is about."""

    kind: FileKind
    plan: Any
    findings: tuple[Finding, ...]

    def of(self, weight: str) -> tuple[Finding, ...]:
        return tuple(finding for finding in self.findings if finding.weight == weight)

    @property
    def refused(self) -> tuple[Finding, ...]:
        return self.of(MUST_FIX)

    @property
    def to_check(self) -> tuple[Finding, ...]:
        return self.of(PLEASE_CHECK)


class EntryError(Exception):
    """The typed texts are refused. `findings` name the fields."""

    def __init__(self, findings: tuple[Finding, ...]) -> None:
        super().__init__([finding.code for finding in findings])
        self.findings = findings


def sound_entry(*, actor: Actor, kind: str, table: str, texts: Mapping[str, str]) -> Entry:
    """The entry of the texts. Raises EntryError if one of them is refused."""
    entry = read_entry(actor=actor, kind=kind, table=table, texts=texts)
    if entry.refused:
        raise EntryError(entry.refused)
    return entry


def read_entry(*, actor: Actor, kind: str, table: str, texts: Mapping[str, str]) -> Entry:
    """The entry of {field: text} as a row of that table of the kind of file. Nothing is written."""
    return read_entries(actor=actor, kind=kind, table=table, rows=(texts,), first=0)


def read_entries(
    *,
    actor: Actor,
    kind: str,
    table: str,
    rows: Iterable[Mapping[str, str]],
    first: int = 1,
    title: Mapping[str, Any] | None = None,
) -> Entry:
    """The entry of several rows of one table, which are numbered from `first`, below a title block of values.

    Nothing is written.
    """
    file_kind = kinds()[kind]
    findings: tuple[Finding, ...] = ()
    parsed: list[ParsedRow] = []
    for number, texts in enumerate(rows, first):
        values, row_findings = read_texts(kind=kind, table=table, texts=texts)
        findings += tuple(replace(finding, row=number) for finding in row_findings)
        parsed.append(ParsedRow(table, "", number, values, {}, dict(texts)))
    file = ParsedFile("", tuple(parsed), title or {})
    if any(finding.weight == MUST_FIX for finding in findings):
        return Entry(file_kind, None, findings)
    planned = file_kind.plan(file)
    checked = file_kind.check(actor, planned.plan)
    return Entry(file_kind, planned.plan, (*findings, *planned.findings, *checked.findings))


def read_texts(*, kind: str, table: str, texts: Mapping[str, str]) -> tuple[dict[str, Any], tuple[Finding, ...]]:
    """({field: value}, findings) of the texts alone: nothing is compared with the shop."""
    columns = next(columns for columns in kinds()[kind].tables if columns.name == table)
    values: dict[str, Any] = {}
    findings: list[Finding] = []
    for name, text in texts.items():
        place = Finding("", "", field=name, says=text)
        field = columns.field(name)
        if not text.strip():
            findings += [must_fix("missing_value", place)] if field.filled else []
            continue
        try:
            value = field.read(Cell(text), DECIMAL)
        except CellError as problem:
            findings.append(replace(place, weight=MUST_FIX, code=problem.code, facts=problem.facts))
            continue
        findings += [replace(place, weight=weight, code=code, facts=facts) for weight, code, facts in value.notes]
        if value.value is not None and value.value != "":
            values[name] = value.value
        elif field.filled:  # nothing in the text can be seen
            findings.append(must_fix("missing_value", place))
    return values, tuple(findings)
