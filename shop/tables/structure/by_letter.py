"""Names the columns of a list without headings by their letters, "column A", and shows some texts of each."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import replace

from shop.tables.columns import Heading, Table, best_heading, folded, match_headings
from shop.tables.findings import facts_of
from shop.tables.sheets import Cell, Sheet, SheetRow, column_letters
from shop.tables.structure.blocks import some
from shop.tables.structure.questions import AnswerChoice, Answers, FileQuestion, answered
from shop.tables.values import plain_text

LETTER = re.compile(r"column [a-z]{1,3}")
ROW = 0  # the number of the row of letters, which is not in the file
FEW, LONGEST = 3, 24  # texts that are shown of a column, and characters of each
KEY = "titles"
CHOICES = (AnswerChoice("titles", "titles_above"), AnswerChoice("lines", "titles_lines"))
LOOKED_AT = 200  # rows in which they are looked for


def without_letters(mapping: Mapping[str, str]) -> dict[str, str]:
    """The mapping without the columns that a person chose by their letters."""
    return {name: heading for name, heading in mapping.items() if not LETTER.fullmatch(folded(heading))}


def letter_row(sheet: Sheet) -> SheetRow:
    """A row of headings for the columns that hold something, to stand above the sheet."""
    filled = {index for line in sheet.lines for index, _ in line.filled()}
    width = max(filled, default=-1) + 1
    return SheetRow(ROW, tuple(Cell(f"column {column_letters(n)}") if n in filled else Cell() for n in range(width)))


def with_letters(
    sheet: Sheet, tables: Iterable[Table], mapping: Mapping[str, str], answers: Answers
) -> tuple[Sheet, tuple[FileQuestion, ...]]:
    """The sheet with a row of letters above its list, and the question whether the rows above that are titles."""
    letters = letter_row(sheet)
    heading = best_heading(letters, tables, sheet.name, mapping)
    titles = _titles(sheet, heading) if heading else 0
    if not titles:
        return replace(sheet, lines=(letters, *sheet.lines)), ()
    first, above = sheet.lines[titles], sheet.lines[:titles]
    facts = facts_of(n=titles, rows=some([line.number for line in above]), row=first.number)
    question = answered(
        FileQuestion(KEY, KEY, CHOICES, "titles", facts, sheet.name, needed=False),
        answers,
    )
    if question.value == "lines":
        return replace(sheet, lines=(letters, *sheet.lines)), (question,)
    return replace(sheet, lines=(*above, letters, *sheet.lines[titles:])), (question,)


def _titles(sheet: Sheet, heading: Heading) -> int:
    """The number of rows above the first one that can be a line: 0 if there is none in sight."""
    rows = enumerate(sheet.lines[:LOOKED_AT])
    return next((n for n, line in rows if _may_be_line(line, heading)), 0)


def _may_be_line(line: SheetRow, heading: Heading) -> bool:
    """Returns whether the row has the cells that a line needs, two or more, and a digit where its quantity belongs."""
    layout, columns = heading.table.layout, heading.found
    filled = {name for name, index in columns.items() if not line.at(index).empty}
    if len(filled) < min(2, len(columns)) or not filled.issuperset({*heading.table.filled} & columns.keys()):
        return False
    return layout is None or any(map(str.isdigit, plain_text(line.at(columns[layout.quantity]))))


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
    begin = next((n + 1 for n, line in enumerate(sheet.lines) if line.number == ROW), 0)
    lines = sheet.lines[begin : begin + LOOKED_AT]
    texts = dict.fromkeys(plain_text(line.at(index))[:LONGEST] for line in lines)
    return tuple(text for text in texts if text)[:FEW]
