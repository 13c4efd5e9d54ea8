"""Headings in two rows, as "Qty" above "manual" and "automatic", and columns that have no heading."""

from collections import defaultdict
from dataclasses import replace

from shop.tables.columns import Heading
from shop.tables.findings import Finding, done_for_you, please_check
from shop.tables.sheets import Cell, SheetRow, column_letters
from shop.tables.structure.blocks import Block, with_cell
from shop.tables.structure.place_rows import place_of
from shop.tables.structure.totals import amount_of
from shop.tables.values import plain_text


def in_two_rows(line: SheetRow, below: SheetRow, heading: Heading) -> SheetRow | None:
    """The headings of both rows in one; None if the second row is no row of headings.

    It is one if it holds nothing but words, none of them a part's number or title, and goes on below an empty heading.
    """
    layout = heading.table.layout
    if layout is None or not _goes_below(line, below):
        return None
    described = {heading.found.get(name) for name in (layout.number, *layout.texts)}
    cells = _own_cells(line, below)
    if any(index in described or not _is_word(cell) for index, cell in cells.items()):
        return None
    joined = line
    for index, cell in cells.items():
        above = line.at(index)
        if above.empty and index - 1 in cells:
            above = line.at(_heading_above(line, index))
        text = f"{plain_text(above)} {plain_text(cell)}".strip()
        joined = with_cell(joined, index, replace(cell, value=text))
    return joined


def _own_cells(line: SheetRow, below: SheetRow) -> dict[int, Cell]:
    """The cells of the second row without those that are merged with the cell above."""
    return {index: cell for index, cell in below.filled() if cell.value != line.at(index).value}


def _goes_below(line: SheetRow, below: SheetRow) -> bool:
    cells = _own_cells(line, below)
    return any(line.at(index).empty and index - 1 in cells for index in cells)


def _heading_above(line: SheetRow, index: int) -> int:
    """The column of the nearest heading to the left, which also spans this column."""
    return next((column for column in range(index, -1, -1) if not line.at(column).empty), index)


def _is_word(cell: Cell) -> bool:
    return isinstance(cell.value, str) and not any(map(str.isdigit, cell.value))


def columns_without_heading(block: Block) -> list[Finding]:
    """Says which columns are not read because nothing stands above them; a person checks those that hold numbers."""
    headed = {column.index for column in block.heading.columns}
    cells: dict[int, list[Cell]] = defaultdict(list)
    for row in block.rows:
        for index, cell in row.line.filled():
            if index not in headed:
                cells[index].append(cell)
    findings = []
    for index, column in sorted(cells.items()):
        letters = column_letters(index)
        at = Finding("", "", (), block.sheet, block.heading.number, letters, says=_some_texts(column))
        matters = any(amount_of(cell, block.decimal) is not None or _is_place(cell) for cell in column)
        weigh = please_check if matters and not _counts_up(column) else done_for_you
        findings.append(weigh("column_without_heading", at, n=len(column), column=letters))
    return findings


def _is_place(cell: Cell) -> bool:
    return place_of(plain_text(cell)) is not None


def _counts_up(column: list[Cell]) -> bool:
    """True for the positions of the lines: 1, 2, 3 or 10, 20, 30."""
    amounts = [amount_of(cell, "") for cell in column]
    first = amounts[0]
    return len(amounts) > 2 and first is not None and amounts == [first * n for n in range(1, len(amounts) + 1)]


def _some_texts(column: list[Cell]) -> str:
    return ", ".join(plain_text(cell) for cell in column)[:120]
