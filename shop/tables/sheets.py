"""A file as sheets, rows and cells, before their meaning is known."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, time
from decimal import Decimal

from shop.tables.findings import FileError, Finding

MAX_ROWS = 10_000  # rows that are not empty, in the whole file
MAX_COLUMNS = 120

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
    """A sheet. `blank` counts the empty rows between its rows; `decimal` is the decimal sign of its texts, or "".

    `hidden_rows` and `struck_rows` are row numbers, `hidden_columns` indexes from 0.
    """

    name: str
    lines: tuple[SheetRow, ...]
    blank: int = 0
    decimal: str = ""
    hidden_rows: frozenset[int] = frozenset()
    hidden_columns: frozenset[int] = frozenset()
    struck_rows: frozenset[int] = frozenset()


@dataclass(frozen=True, slots=True)
class RawFile:
    """A file as sheets of cells, with notes on how it was read."""

    name: str
    sheets: tuple[Sheet, ...]
    notes: tuple[Finding, ...] = ()


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
