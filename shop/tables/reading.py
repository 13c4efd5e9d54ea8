"""Reads bytes and a file name into sheets of cells, without knowledge of their meaning."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime, time
from decimal import Decimal
from pathlib import PurePath

from shop.tables.findings import FileError, Finding, please_check

MAX_BYTES = 5 * 1024 * 1024
MAX_ROWS = 10_000  # rows that are not empty, in the whole file
MAX_COLUMNS = 120
WORKBOOKS = (".xlsx", ".xlsm", ".xls")
TEXTS = (".csv", ".tsv", ".tab", ".txt")

Content = str | Decimal | bool | date | datetime | time | None


@dataclass(frozen=True, slots=True)
class Cell:
    """The content of a cell; for a formula its last value and the formula."""

    value: Content = None
    formula: str = ""

    @property
    def empty(self) -> bool:
        return (self.value is None or self.value == "") and not self.formula

    @property
    def shown(self) -> str:
        """The content as the person sees it, for quoting."""
        if self.formula:
            return self.formula
        if isinstance(self.value, datetime) and self.value.time() == time():
            return self.value.date().isoformat()
        if isinstance(self.value, date | time):
            return self.value.isoformat()
        if isinstance(self.value, Decimal):
            return format(self.value, "f")
        return "" if self.value is None else str(self.value).strip()


EMPTY = Cell()


@dataclass(frozen=True, slots=True)
class SheetRow:
    """A row that is not empty. `number` is the spreadsheet's own, from 1."""

    number: int
    cells: tuple[Cell, ...]

    def at(self, index: int) -> Cell:
        return self.cells[index] if index < len(self.cells) else EMPTY

    def filled(self) -> Iterator[tuple[int, Cell]]:
        return ((index, cell) for index, cell in enumerate(self.cells) if not cell.empty)


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet. `blank` counts the empty rows between its rows; `decimal` is the decimal sign of its texts, or ""."""

    name: str
    lines: tuple[SheetRow, ...]
    blank: int = 0
    decimal: str = ""


@dataclass(frozen=True, slots=True)
class RawFile:
    """A file as sheets of cells, with notes on how it was read."""

    name: str
    sheets: tuple[Sheet, ...]
    notes: tuple[Finding, ...] = ()


def read_file(name: str, body: bytes) -> RawFile:
    """Reads a file. Raises FileError if it is too large, empty, not a table, or could harm the reader.

    The content decides the format. A file name that contradicts it is a finding.
    """
    from shop.tables.textfile import read_text
    from shop.tables.workbook import read_workbook

    if not body.strip():
        raise FileError("empty_file")
    if len(body) > MAX_BYTES:
        raise FileError("too_many_bytes", limit=MAX_BYTES // 1024 // 1024)
    file_type = _type_by_first_bytes(body)
    if file_type not in ("zip", ""):
        raise FileError(file_type)
    extension = PurePath(name).suffix.casefold()
    if extension and extension not in (*WORKBOOKS, *TEXTS):
        raise FileError("unknown_extension", extension=extension)
    file = read_workbook(name, body) if file_type else read_text(name, body)
    if extension in (TEXTS if file_type else WORKBOOKS):
        code = "workbook_named_as_text" if file_type else "text_named_as_workbook"
        return replace(file, notes=(*file.notes, please_check(code, extension=extension)))
    return file


def _type_by_first_bytes(body: bytes) -> str:
    for start, file_type in (
        (b"PK\x03\x04", "zip"),
        (b"PK\x05\x06", "not_a_workbook"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "old_workbook"),
        (b"%PDF", "not_a_table"),
        (b"\x89PNG", "not_a_table"),
        (b"\xff\xd8\xff", "not_a_table"),
        (b"GIF8", "not_a_table"),
        (b"\x1f\x8b", "not_a_table"),
        (b"{\\rtf", "not_a_table"),
    ):
        if body.startswith(start):
            return file_type
    return ""


def column_letters(index: int) -> str:
    """The spreadsheet's name of a column: 0 is "A", 26 is "AA"."""
    letters = ""
    index += 1
    while index:
        index, remainder = divmod(index - 1, 26)
        letters = chr(65 + remainder) + letters
    return letters


def enough(lines: int, columns: int) -> None:
    """Raises FileError for more rows or columns than we accept."""
    if lines > MAX_ROWS:
        raise FileError("too_many_rows", limit=MAX_ROWS)
    if columns > MAX_COLUMNS:
        raise FileError("too_many_columns", limit=MAX_COLUMNS)
