"""Restores leading zeros that a spreadsheet dropped: 2744 where the column's numbers have six digits."""

from collections import Counter
from dataclasses import replace

from shop.tables.findings import facts_of
from shop.tables.sheets import Cell
from shop.tables.structure.blocks import Block, BlockRow, Ruled, some, with_cell
from shop.tables.structure.questions import AnswerChoice, Answers, FileQuestion, answered

FEWEST = 3  # numbers of the full width; fewer could share a width by chance
NARROWEST = 5


def with_zeros(block: Block, answers: Answers) -> Ruled:
    """Asks once whether shorter numbers have lost their zeros, and puts them back."""
    layout = block.table.layout
    if layout is None or layout.number not in block.heading.found:
        return Ruled(block)
    digits = {
        n: text
        for n, row in enumerate(block.rows)
        if (text := block.text(row, layout.number)).isascii() and text.isdigit()
    }
    width = _width(list(digits.values()))
    short = {n: text for n, text in digits.items() if len(text) < width}
    if not short:
        return Ruled(block)
    first = next(iter(short))
    at = block.at(block.rows[first], layout.number)
    question = answered(
        FileQuestion(
            f"zeros:{layout.number}",
            "zeros",
            (
                AnswerChoice("restore", "zeros_restore", facts_of(example=short[first].zfill(width))),
                AnswerChoice("keep", "zeros_keep", facts_of(example=short[first])),
            ),
            "restore",
            facts_of(
                n=len(short), width=width, example=short[first], rows=some([block.rows[n].line.number for n in short])
            ),
            block.sheet,
            at.column,
        ),
        answers,
    )
    if question.value != "restore":
        return Ruled(block, (), (question,))
    rows = tuple(_restored(block, row, layout.number, width) if n in short else row for n, row in enumerate(block.rows))
    return Ruled(replace(block, rows=rows), (), (question,))


def _width(numbers: list[str]) -> int:
    """The number of digits that the column's numbers had; 0 if the column shows no pattern."""
    if not numbers:
        return 0
    longest = max(map(len, numbers))
    if any(number[0] == "0" and len(number) == longest for number in numbers):
        return longest
    full = Counter(map(len, numbers))[longest]
    return longest if longest >= NARROWEST and full >= FEWEST and full * 3 >= len(numbers) else 0


def _restored(block: Block, row: BlockRow, name: str, width: int) -> BlockRow:
    cell = Cell(block.text(row, name).zfill(width))
    return replace(row, line=with_cell(row.line, block.heading.found[name], cell))
