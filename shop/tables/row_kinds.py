"""Kinds of rows under a row of headings, by their cells alone: totals, headings between the lines, going-on texts."""

from shop.tables.columns import Heading, folded
from shop.tables.sheets import Cell, SheetRow
from shop.tables.structure.totals import begins_with_total, total_word
from shop.tables.structure.words import TOTALS
from shop.tables.values import plain_text


def sheet_words(name: str) -> str:
    """The name of a sheet as one would say it: "carton_A" is "carton A"."""
    return name.replace("_", " ")


def text_right_of(cells: list[tuple[int, Cell]], place: int) -> str:
    return plain_text(cells[place + 1][1]) if place + 1 < len(cells) else ""


def same_headings(heading: Heading, other: Heading) -> bool:
    return heading.table is other.table and heading.found == other.found


def is_total(line: SheetRow, heading: Heading) -> bool:
    layout = heading.table.layout
    if is_complete(line, heading):
        if layout is None:
            return False
        named = any(not line.at(heading.found.get(name, 999)).empty for name in layout.texts)
        return not named and folded(plain_text(line.at(heading.found[layout.number]))) in TOTALS
    if total_word(line):
        return True
    return layout is not None and line.at(heading.found[layout.number]).empty and begins_with_total(first_text(line))


def is_section(line: SheetRow, heading: Heading) -> bool:
    filled = [cell for _, cell in line.filled()]
    words = len(filled) == 1 and isinstance(filled[0].value, str) and any(map(str.isalpha, filled[0].value))
    return words and not is_complete(line, heading)


def goes_on(line: SheetRow, heading: Heading) -> bool:
    """True if the row only continues the description above it: one text in its column that begins small."""
    layout = heading.table.layout
    assert layout is not None
    index, cell = next(line.filled())
    texts = {heading.found.get(name) for name in layout.texts}
    return index in texts and index != 0 and plain_text(cell)[:1].islower()


def is_complete(line: SheetRow, heading: Heading) -> bool:
    columns = heading.found
    return all(name in columns and not line.at(columns[name]).empty for name in heading.table.filled)


def whole_text(line: SheetRow) -> str:
    """The row's texts in one, shortened."""
    return " · ".join(plain_text(cell) for _, cell in line.filled())[:200]


def first_text(line: SheetRow) -> str:
    return next((plain_text(cell) for _, cell in line.filled()), "")
