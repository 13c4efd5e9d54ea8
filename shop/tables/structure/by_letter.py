"""Names the columns of a list without headings by their letters, "column A", and shows some texts of each."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import replace

from shop.tables.columns import Heading, Table, folded, match_headings
from shop.tables.sheets import Cell, Sheet, SheetRow, column_letters
from shop.tables.values import plain_text

LETTER = re.compile(r"column [a-z]{1,3}")
ROW = 0  # the row of the letters, above the first of the file
FEW, LONGEST = 3, 24  # texts that are shown of a column, and characters of each
LOOKED_AT = 200  # rows in which they are looked for


def without_letters(mapping: Mapping[str, str]) -> dict[str, str]:
    """The mapping without the columns that a person chose by their letters."""
    return {name: heading for name, heading in mapping.items() if not LETTER.fullmatch(folded(heading))}


def letter_row(sheet: Sheet) -> SheetRow:
    """A row of headings for the columns that hold something, to stand above the sheet."""
    filled = {index for line in sheet.lines for index, _ in line.filled()}
    width = max(filled, default=-1) + 1
    return SheetRow(ROW, tuple(Cell(f"column {column_letters(n)}") if n in filled else Cell() for n in range(width)))


def with_letters(sheet: Sheet) -> Sheet:
    """The sheet below a row of letters."""
    return replace(sheet, lines=(letter_row(sheet), *sheet.lines))


def told_apart(heading: Heading, sheet: Sheet) -> Heading:
    """The headings with the first different texts of each column; unchanged unless they are letters."""
    if heading.number != ROW:
        return heading
    columns = tuple(replace(column, holds=_texts(sheet, column.index)) for column in heading.columns)
    return replace(heading, columns=columns)


def lettered(sheet: Sheet, tables: Iterable[Table], mapping: Mapping[str, str]) -> Heading:
    """The letters as the headings of the table of which most columns are chosen, of the first if none is."""
    headings = [match_headings(letter_row(sheet), table, mapping) for table in tables]
    best = max(headings, key=lambda heading: (len(heading.found), -len(heading.missing) if heading.found else 0))
    return told_apart(best, sheet)


def _texts(sheet: Sheet, index: int) -> tuple[str, ...]:
    lines = [line for line in sheet.lines if line.number != ROW][:LOOKED_AT]
    texts = dict.fromkeys(plain_text(line.at(index))[:LONGEST] for line in lines)
    return tuple(text for text in texts if text)[:FEW]
