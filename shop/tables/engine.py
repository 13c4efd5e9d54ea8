"""The import engine: finds the tables of a file, reads their rows, and collects all findings.

`read(kind, name, body, mapping) -> ParsedFile`. Nothing here uses the database. A kind's `plan` turns a ParsedFile into
what would be imported, its `check` compares that with the shop, and its `write` saves it.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from shop.tables.columns import (
    Column,
    Field,
    Heading,
    Table,
    best_heading,
    folded,
    known_words,
    nearest_heading,
)
from shop.tables.findings import FileError, Finding, done_for_you, gathered, must_fix, please_check
from shop.tables.reading import read_file
from shop.tables.sheets import EMPTY, Cell, Sheet, SheetRow, column_letters
from shop.tables.values import CellError, plain_text

LOOKED_AT = 60  # a table must begin within this number of rows
TOTALS = frozenset({"total", "totals", "sum", "subtotal", "sub total", "grand total", "sum total", "total lines"})


@dataclass(frozen=True, slots=True)
class ParsedRow:
    """A row by field: `values` without empty fields, `shown` as the person sees them.

    `section` is the section heading above it.
    """

    table: str
    sheet: str
    number: int
    values: Mapping[str, Any]
    columns: Mapping[str, int]
    shown: Mapping[str, str]
    section: str = ""

    def get(self, name: str, default: Any = None) -> Any:
        return self.values.get(name, default)

    def at(self, name: str = "") -> Finding:
        """The place for a finding: this row, and the field's cell if it has one."""
        column = column_letters(self.columns[name]) if name in self.columns else ""
        return Finding("", "", (), self.sheet, self.number, column, name, "", self.shown.get(name, ""))


@dataclass(frozen=True, slots=True)
class ParsedFile:
    """The content of a file. `title` is its title block; `skipped` counts rows that are not data."""

    name: str
    rows: tuple[ParsedRow, ...] = ()
    title: Mapping[str, Any] = field(default_factory=dict)
    title_at: Mapping[str, Finding] = field(default_factory=dict)
    headings: tuple[tuple[str, Heading], ...] = ()
    findings: tuple[Finding, ...] = ()
    skipped: int = 0

    def of(self, table: str) -> tuple[ParsedRow, ...]:
        """The rows of one table."""
        return tuple(row for row in self.rows if row.table == table)

    def has(self, table: str) -> bool:
        return any(heading.table.name == table for _, heading in self.headings)

    def title_place(self, name: str) -> Finding:
        """The place of a field of the title block, for a finding."""
        return self.title_at.get(name, Finding("", "", field=name))


@dataclass(frozen=True, slots=True)
class ImportPreview:
    """The effect of an import: the kind's own `plan`, findings, and `becomes`, the lines shown before importing."""

    plan: Any
    findings: tuple[Finding, ...] = ()
    becomes: tuple[Finding, ...] = ()


@dataclass(frozen=True, slots=True)
class FileKind:
    """A kind of file. `plan(file)` is pure; `check(actor, plan)` reads the shop; `write(actor, plan, day)` writes."""

    name: str
    tables: tuple[Table, ...]
    plan: Callable[[ParsedFile], ImportPreview]
    check: Callable[..., ImportPreview]
    write: Callable[..., None]
    title: tuple[Field, ...] = ()
    remembered: Callable[..., Mapping[str, str]] | None = None  # (actor, supplier) -> the mapping of its last file
    remember: Callable[..., None] | None = None  # (actor, supplier, mapping)


def read(kind: FileKind, name: str, body: bytes, mapping: Mapping[str, str] | None = None) -> ParsedFile:
    """Reads a file. Never raises for its content: an unreadable file gives a ParsedFile with that finding only."""
    mapping = mapping or {}
    try:
        file = read_file(name, body)
    except FileError as problem:
        return ParsedFile(name, findings=(Finding("must_fix", problem.code, problem.facts),))
    work = _FileParser(kind, mapping)
    for sheet in file.sheets:
        work.read_sheet(sheet)
    work.look_back(file.sheets)
    return ParsedFile(
        name,
        tuple(work.rows),
        work.title,
        work.title_at,
        tuple(work.headings),
        (*file.notes, *work.findings),
        work.skipped,
    )


def shown_findings(*groups: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """The findings that are shown, sorted and limited."""
    return gathered(finding for group in groups for finding in group)


class _FileParser:
    """Collects the rows, headings and findings of one file."""

    def __init__(self, kind: FileKind, mapping: Mapping[str, str]) -> None:
        self.kind, self.mapping = kind, mapping
        self.words = known_words(kind.tables, mapping)
        self.rows: list[ParsedRow] = []
        self.title: dict[str, Any] = {}
        self.title_at: dict[str, Finding] = {}
        self.headings: list[tuple[str, Heading]] = []
        self.findings: list[Finding] = []
        self.skipped = 0
        self.left_out: list[Sheet] = []

    def read_sheet(self, sheet: Sheet) -> None:
        heading: Heading | None = None
        section = ""
        sections: list[str] = []
        above: list[SheetRow] = []
        for line in sheet.lines:
            next_heading = self._heading(line, sheet, heading)
            if next_heading is not None:
                section = ""
                again = heading is not None and next_heading.columns == heading.columns
                if heading is None:
                    self._title_block(sheet, above)
                heading = next_heading
                self.skipped += 1
                if again:
                    self.findings.append(done_for_you("heading_again", Finding("", "", (), sheet.name, line.number)))
                else:
                    self._note_heading(sheet, heading)
            elif heading is None:
                above.append(line)
            elif self._is_total(line, heading):
                self.skipped += 1
                at = Finding("", "", (), sheet.name, line.number, says=_first(line))
                self.findings.append(done_for_you("total_left_out", at))
            elif self._is_section(line, heading):
                self.skipped += 1
                section = _first(line)
                sections.append(f"{line.number}")
            else:
                self._row(sheet, heading, line, section)
        self.skipped += sheet.blank
        if heading is None:
            self.left_out.append(sheet)
        if sections:
            at = Finding("", "", (), sheet.name)
            rows = ", ".join(sections[:8]) + (f" (+{len(sections) - 8})" if len(sections) > 8 else "")
            self.findings.append(done_for_you("sections_left_out", at, rows=rows))

    def _heading(self, line: SheetRow, sheet: Sheet, current: Heading | None) -> Heading | None:
        if current is None and line.number > LOOKED_AT + (sheet.lines[0].number if sheet.lines else 0):
            return None
        first = next((plain_text(cell) for _, cell in line.filled() if isinstance(cell.value, str)), "")
        if current is not None and folded(first) not in self.words:
            return None
        return best_heading(line, self.kind.tables, sheet.name, self.mapping)

    def _note_heading(self, sheet: Sheet, heading: Heading) -> None:
        self.headings.append((sheet.name, heading))
        for column in heading.columns:
            at = Finding("", "", (), sheet.name, heading.number, column.letters, "", column.heading, column.heading)
            if any(duplicate.index == column.index for duplicate in heading.twice):
                self.findings.append(please_check("heading_twice", at))
            elif not column.field:
                self.findings.append(done_for_you("column_left_out", at))

    def _is_total(self, line: SheetRow, heading: Heading) -> bool:
        if self._complete(line, heading):
            return False
        texts = (plain_text(cell) for _, cell in line.filled() if isinstance(cell.value, str))
        return any(folded(text) in TOTALS or folded(text.split(":")[0]) in TOTALS for text in texts)

    def _is_section(self, line: SheetRow, heading: Heading) -> bool:
        filled = [cell for _, cell in line.filled()]
        words = len(filled) == 1 and isinstance(filled[0].value, str) and any(map(str.isalpha, filled[0].value))
        return words and not self._complete(line, heading)

    def _complete(self, line: SheetRow, heading: Heading) -> bool:
        columns = heading.found
        return all(name in columns and not line.at(columns[name]).empty for name in heading.table.filled)

    def _row(self, sheet: Sheet, heading: Heading, line: SheetRow, section: str) -> None:
        values: dict[str, Any] = {}
        shown_texts: dict[str, str] = {}
        titles = {column.field: column.heading for column in heading.columns if column.field}
        for name, index in heading.found.items():
            cell = line.at(index)
            at = Finding(
                "", "", (), sheet.name, line.number, column_letters(index), name, titles[name], cell.shown[:120]
            )
            field = heading.table.field(name)
            if cell.empty:
                if field.filled:
                    self.findings.append(must_fix("missing_value", at))
                continue
            shown_texts[name] = at.says
            self._value(field, cell, sheet.decimal, at, values, name)
        for name in heading.table.filled:
            if name not in heading.found and name in heading.table.required:
                self.findings.append(must_fix("missing_value", Finding("", "", (), sheet.name, line.number)))
        columns = heading.found
        self.rows.append(ParsedRow(heading.table.name, sheet.name, line.number, values, columns, shown_texts, section))

    def _value(self, field: Field, cell: Cell, decimal: str, at: Finding, values: dict[str, Any], name: str) -> None:
        try:
            value = field.read(cell, decimal)
        except CellError as problem:
            self.findings.append(replace(at, weight="must_fix", code=problem.code, facts=problem.facts))
            return
        for weight, code, facts in value.notes:
            self.findings.append(replace(at, weight=weight, code=code, facts=facts))
        if value.value is not None and value.value != "":
            values[name] = value.value

    def _title_block(self, sheet: Sheet, lines: list[SheetRow]) -> None:
        """Labels with the value in the next filled cell, or "Label: value" in one cell."""
        self.skipped += len(lines)
        labels = {word: field for field in self.kind.title for word in field.headings}
        for line in lines:
            cells = list(line.filled())
            for place, (index, cell) in enumerate(cells):
                label, _, value_text = plain_text(cell).partition(":")
                field = labels.get(folded(label))
                if field is None or field.name in self.title:
                    continue
                if value_text.strip():
                    self._title_value(field, sheet, line, index, Cell(value_text.strip()))
                elif place + 1 < len(cells):
                    self._title_value(field, sheet, line, cells[place + 1][0], cells[place + 1][1])
        if lines:
            at = Finding("", "", (), sheet.name)
            code = "rows_above" if len(lines) > 1 else "row_above"
            self.findings.append(done_for_you(code, at, first=lines[0].number, last=lines[-1].number))

    def _title_value(self, field: Field, sheet: Sheet, line: SheetRow, index: int, cell: Cell) -> None:
        at = Finding("", "", (), sheet.name, line.number, column_letters(index), field.name, "", cell.shown[:120])
        self.title_at[field.name] = at
        self._value(field, cell, sheet.decimal, at, self.title, field.name)

    def look_back(self, sheets: tuple[Sheet, ...]) -> None:
        """Runs after all sheets: reports sheets that were not recognised and mappings that match nothing."""
        for sheet in self.left_out:
            if not sheet.lines:
                continue
            before = set(self.title)
            if self.kind.title:
                self._title_block(sheet, list(sheet.lines))
            else:
                self.skipped += len(sheet.lines)
            if self.headings and set(self.title) == before:
                self.findings.append(done_for_you("sheet_left_out", Finding("", "", (), sheet.name)))
        if not self.headings:
            self._no_heading(sheets)
        elif not self.rows:
            self.findings.append(must_fix("only_headings"))
        self._unused_mapping(sheets)

    def _no_heading(self, sheets: tuple[Sheet, ...]) -> None:
        for sheet in sheets:
            near = nearest_heading(sheet.lines[:LOOKED_AT], self.kind.tables, self.mapping)
            if near is not None:
                self.headings.append((sheet.name, near))
                for name in sorted(near.missing):
                    self.findings.append(
                        must_fix("column_missing", Finding("", "", (), sheet.name, near.number, field=name), field=name)
                    )
                return
        self.findings.append(must_fix("no_headings", kind=self.kind.name))

    def _unused_mapping(self, sheets: tuple[Sheet, ...]) -> None:
        names = {field.name for table in self.kind.tables for field in table.fields}
        headings = {
            folded(column.heading): column.heading for _, heading in self.headings for column in heading.columns
        }
        for key, heading in self.mapping.items():
            name = key.rpartition(".")[2].partition(":")[0]
            if name not in names:
                self.findings.append(must_fix("mapping_field_unknown", field=key, known=", ".join(sorted(names))))
            elif folded(heading) not in headings:
                self.findings.append(
                    must_fix(
                        "mapping_heading_unknown", field=key, heading=heading, there=", ".join(headings.values()) or "-"
                    )
                )


def _first(line: SheetRow) -> str:
    return next((plain_text(cell) for _, cell in line.filled()), "")


__all__ = ["EMPTY", "Column", "FileKind", "ImportPreview", "ParsedFile", "ParsedRow", "read", "shown_findings"]
