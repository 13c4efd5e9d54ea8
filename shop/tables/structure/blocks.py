"""A block: the rows under one row of headings, as the rules of structure pass it on."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from shop.tables.columns import Heading, Table
from shop.tables.conditions import Condition
from shop.tables.findings import Finding
from shop.tables.sheets import Cell, SheetRow, column_letters
from shop.tables.structure.questions import FileQuestion
from shop.tables.values import plain_text


@dataclass(frozen=True, slots=True)
class BlockRow:
    """A row that holds a line.

    `section` is the plain heading above it, `places` the carton and the bag of the rows above it. `filled` are fields
    whose value comes from another row, `columns` those read from another column than the heading says. `gone` is the
    text of a row that a person left out; `placed` says that a person put it into a bag.
    """

    line: SheetRow
    section: str = ""
    section_row: int = 0
    places: Mapping[str, str] = field(default_factory=dict)
    when: tuple[Condition, ...] = ()
    filled: frozenset[str] = frozenset()
    columns: Mapping[str, int] = field(default_factory=dict)
    gone: str = ""
    placed: bool = False


@dataclass(frozen=True, slots=True)
class Block:
    """A row of headings and the rows under it."""

    sheet: str
    heading: Heading
    rows: tuple[BlockRow, ...] = ()
    decimal: str = ""
    decimals: Mapping[str, str] = field(default_factory=dict)  # {field: decimal sign of its column}

    @property
    def table(self) -> Table:
        return self.heading.table

    def cell(self, row: BlockRow, name: str) -> Cell:
        """The cell of a field; an empty one if the table has no such column."""
        index = row.columns.get(name, self.heading.found.get(name, -1))
        return row.line.at(index) if index >= 0 else Cell()

    def text(self, row: BlockRow, name: str) -> str:
        return plain_text(self.cell(row, name))

    def at(self, row: BlockRow | None, name: str) -> Finding:
        """The place of a field's cell, or of its column without a row."""
        index = (row.columns if row else {}).get(name, self.heading.found.get(name, -1))
        letters = column_letters(index) if index >= 0 else ""
        says = self.cell(row, name).shown[:120] if row else ""
        return Finding("", "", (), self.sheet, row.line.number if row else 0, letters, name, "", says)


@dataclass(frozen=True, slots=True)
class Ruled:
    """A block as a rule leaves it, with what the rule did and asks."""

    block: Block
    findings: tuple[Finding, ...] = ()
    questions: tuple[FileQuestion, ...] = ()


def with_cell(line: SheetRow, index: int, cell: Cell) -> SheetRow:
    """The row with another cell in that column."""
    cells = [*line.cells, *[Cell()] * (index + 1 - len(line.cells))]
    cells[index] = cell
    return replace(line, cells=tuple(cells))


def some(numbers: list[int], most: int = 8) -> str:
    """The row numbers as text, shortened: "5, 9, 12 (+30)"."""
    more = f" (+{len(numbers) - most})" if len(numbers) > most else ""
    return ", ".join(map(str, numbers[:most])) + more
