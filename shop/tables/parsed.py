"""A file as read: its rows by field, its title block, what is asked and what was remarked."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any
from uuid import UUID

from shop.tables.columns import Field, Heading, Table
from shop.tables.conditions import Condition
from shop.tables.findings import Finding
from shop.tables.sheets import column_letters
from shop.tables.structure.questions import FileQuestion
from shop.tables.writing import StoredRows

Progress = Callable[[int, int], None]  # (rows read, rows of the file)


def unwatched(done: int, in_all: int) -> None:
    """Ignores the progress of a reading."""


@dataclass(frozen=True, slots=True)
class ParsedRow:
    """A row by field: `values` without empty fields, `shown` as the person sees them.

    `section` is the section heading above it, `when` what its column or its heading adds to its own conditions, and
    `filled` are fields whose value stands in another row.
    """

    table: str
    sheet: str
    number: int
    values: Mapping[str, Any]
    columns: Mapping[str, int]
    shown: Mapping[str, str]
    section: str = ""
    when: tuple[Condition, ...] = ()
    filled: frozenset[str] = frozenset()

    def get(self, name: str, default: Any = None) -> Any:
        return self.values.get(name, default)

    def unread(self, name: str) -> bool:
        """Whether the cell holds something that could not be read, which has a finding of its own."""
        return bool(self.shown.get(name)) and name not in self.values

    def at(self, name: str = "") -> Finding:
        """The place for a finding: this row, and the field's cell if it has one."""
        column = column_letters(self.columns[name]) if name in self.columns else ""
        return Finding("", "", (), self.sheet, self.number, column, name, "", self.shown.get(name, ""))


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A row that is no line. `why` is a code: heading, total, foot, section, hidden, struck, no_column, by_you."""

    sheet: str
    number: int
    why: str
    text: str


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
    questions: tuple[FileQuestion, ...] = ()
    left_out: tuple[LeftOut, ...] = ()
    originals: Mapping[tuple[str, int, str], str] = field(default_factory=dict)  # of corrected cells: as in the file

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
class Memory:
    """The headings and corrections of a supplier's earlier files: {field: heading}, and the stored repairs."""

    columns: Mapping[str, str] = field(default_factory=dict)
    repairs: Mapping[str, Any] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class PlannedLine:
    """A line of the list before it is imported, as texts."""

    row: ParsedRow
    carton: str
    bag: str
    number: str
    title: str
    quantity: str
    unit: str
    when: str


@dataclass(frozen=True, slots=True)
class FileKind:
    """A kind of file. `plan(file)` is pure; `check(actor, plan)` reads the shop; `write(actor, plan, day)` writes.

    `write` may return a row that keeps its file: `keep_file(row, file)` then notes where the row comes from, and
    returns the id of what the file became.
    """

    name: str
    tables: tuple[Table, ...]
    plan: Callable[[ParsedFile], ImportPreview]
    check: Callable[..., ImportPreview]
    write: Callable[..., Any]
    title: tuple[Field, ...] = ()
    remembered: Callable[..., Memory] | None = None  # (actor, supplier) -> what its last file taught
    remember: Callable[..., None] | None = None  # (actor, supplier, memory)
    lines: Callable[[ParsedFile, Any], tuple[PlannedLine, ...]] | None = None  # (file, plan) -> the list to look at
    typed: tuple[str, ...] = ()  # fields of the title block that a person may type
    stored: Callable[..., StoredRows] | None = None  # (actor) -> what the shop has, as a file of this kind has it
    keep_file: Callable[..., UUID] | None = None
    example: StoredRows | None = None  # rows that show how a file of this kind is filled in
