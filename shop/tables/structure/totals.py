"""Totals, subtotals and carried sums: by their word in many languages, or as the sum of the rows above them."""

from decimal import Decimal

from shop.tables.columns import folded
from shop.tables.findings import Finding, done_for_you, please_check
from shop.tables.numbers import measured
from shop.tables.sheets import Cell, SheetRow
from shop.tables.structure.blocks import Block, BlockRow, Ruled
from shop.tables.structure.words import TOTALS
from shop.tables.values import CellError, plain_text

FEWEST = 2  # the fewest rows that a sum without a word must add up


def total_word(line: SheetRow) -> bool:
    """True if a text of the row is a total's word, or begins with one before a colon."""
    texts = (plain_text(cell) for _, cell in line.filled() if isinstance(cell.value, str))
    return any(folded(text) in TOTALS or folded(text.split(":")[0]) in TOTALS for text in texts)


def begins_with_total(text: str) -> bool:
    """True for "Total bag 3" and "Summe Beutel 3"."""
    words = folded(text).split()
    return any(" ".join(words[:n]) in TOTALS for n in (1, 2, 3))


def without_sums(block: Block) -> Ruled:
    """Leaves out rows that add up the quantities above them.

    A row without a number whose quantity is the sum since the last total, or of all rows, is a total in any language. A
    word without a digit in the number's column, without a description, is one to check.
    """
    layout = block.table.layout
    if layout is None:
        return Ruled(block)
    rows: list[BlockRow] = []
    findings: list[Finding] = []
    since = whole = Decimal(0)
    count = count_of_all = 0
    numbered = sum(any(map(str.isdigit, block.text(row, layout.number))) for row in block.rows)
    for row in block.rows:
        amount = amount_of(block.cell(row, layout.quantity), block.decimal)
        number = block.text(row, layout.number)
        adds_up = amount is not None and (
            (amount == since and count >= FEWEST) or (amount == whole and count_of_all >= FEWEST)
        )
        if adds_up and not number:
            findings.append(done_for_you("total_left_out", block.at(row, layout.quantity)))
            since, count = Decimal(0), 0
            continue
        wordy = number and not any(map(str.isdigit, number)) and not any(block.text(row, n) for n in layout.texts)
        if adds_up and wordy and numbered == len(block.rows) - 1 - len(findings):
            findings.append(please_check("sum_left_out", block.at(row, layout.number), what=number))
            continue
        since, whole = since + (amount or 0), whole + (amount or 0)
        count, count_of_all = count + 1, count_of_all + 1
        rows.append(row)
    return Ruled(Block(block.sheet, block.heading, tuple(rows), block.decimal), tuple(findings))


def amount_of(cell: Cell, decimal: str) -> Decimal | None:
    """The number in a cell; None if there is none."""
    if cell.empty:
        return None
    try:
        return measured(cell, decimal)[0]
    except CellError:
        return None
