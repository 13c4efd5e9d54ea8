"""Writes rows as the files that `shop.tables` reads: the same sheets, headings and spellings."""

import io
from collections.abc import Iterable, Iterator, Mapping, Sequence
from decimal import Decimal

from openpyxl import Workbook
from openpyxl.cell import WriteOnlyCell
from openpyxl.styles import Font

from shop.calc.quantity import plain
from shop.tables.columns import Field, Table
from shop.tables.csv_text import csv_text
from shop.tables.sheets import column_letters
from shop.xml_text import xml_text

Content = str | int | Decimal | None
FileRow = Mapping[str, Content]
"""The cells of one row by field. A field that `begins` others stands by its full name ("attribute:wear sensor")."""
StoredRows = Mapping[str, Sequence[FileRow]]
"""Rows by the name of their table; the one row of `TITLE` is the title block above the first."""

TITLE = "title"
EXPLANATION = "Headings"  # the sheet of an example that explains its headings; it is not read

StoredText = Mapping[str, Sequence[Sequence[str]]]
"""Sheets of text by title; the first line has the headings."""

ROOM = 6  # how many characters a column is wider than its heading


Lines = Iterable[Sequence[Content]]


def workbook(
    tables: Iterable[Table], rows: StoredRows, title: Iterable[Field] = (), more: StoredText | None = None
) -> bytes:
    """The rows as XLSX, a sheet for each table, and `more` sheets of text. A text never becomes a formula."""
    book = Workbook(write_only=True)
    head: list[Sequence[Content]] = [(heading_of(field), content) for field, content in _title_block(title, rows)]
    for table in tables:
        own = rows.get(table.name, ())
        fields = columns_of(table, own)
        _write_sheet(
            book,
            table.sheets[0],
            [*head, *([()] if head else [])],
            [heading for _, heading in fields],
            ([row.get(name) for name, _ in fields] for row in own),
        )
        head = []
    for name, (heading, *lines) in (more or {}).items():
        _write_sheet(book, name, [], heading, lines)
    file = io.BytesIO()
    book.save(file)
    return file.getvalue()


def csv_of(tables: Sequence[Table], rows: StoredRows, title: Iterable[Field] = ()) -> str:
    """The title block, the first table and each further one that has rows as CSV, with an empty line between two."""
    head = [[heading_of(field), written(content)] for field, content in _title_block(title, rows)]
    blocks = [head] if head else []
    for table in tables:
        own = rows.get(table.name, ())
        if own or table is tables[0]:
            fields = columns_of(table, own)
            lines = ([written(row.get(name)) for name, _ in fields] for row in own)
            blocks.append([[heading for _, heading in fields], *lines])
    first, *further = blocks
    return csv_text([*first, *(line for block in further for line in ([], *block))])


def sheet(title: str, headings: Sequence[str], lines: Lines) -> bytes:
    """A workbook of one sheet."""
    book = Workbook(write_only=True)
    _write_sheet(book, title, [], headings, lines)
    file = io.BytesIO()
    book.save(file)
    return file.getvalue()


def columns_of(table: Table, rows: Iterable[FileRow]) -> list[tuple[str, str]]:
    """(field, heading) of each column: every field of the table, then those of the rows that begin with one."""
    plain_fields = [(field.name, heading_of(field)) for field in table.fields if not field.begins]
    own = {field.name: heading_of(field) for field in table.fields if field.begins}
    begun = sorted({name for row in rows for name in row if name.partition(":")[0] in own and ":" in name})
    return plain_fields + [(name, f"{own[stem]}: {rest}") for name in begun for stem, _, rest in [name.partition(":")]]


def heading_of(field: Field) -> str:
    """The first of a field's headings: "part number"."""
    return field.headings[0]


def _title_block(title: Iterable[Field], rows: StoredRows) -> list[tuple[Field, Content]]:
    block = rows.get(TITLE, [{}])[0]
    return [(field, block[field.name]) for field in title if field.name in block]


def _write_sheet(
    book: Workbook, name: str, head: Sequence[Sequence[Content]], headings: Sequence[str], lines: Lines
) -> None:
    sheet = book.create_sheet(name)
    sheet.freeze_panes = f"A{len(head) + 2}"
    for at, heading in enumerate(headings):
        sheet.column_dimensions[column_letters(at)].width = len(heading) + ROOM
    for line in head:
        sheet.append(list(_cells(sheet, line)))
    sheet.append(list(_cells(sheet, headings, bold=True)))
    for line in lines:
        sheet.append(list(_cells(sheet, line)))


def _cells(sheet: object, line: Sequence[Content], *, bold: bool = False) -> Iterator[object]:
    for content in line:
        cell = WriteOnlyCell(sheet, xml_text(content) if isinstance(content, str) else content)
        if isinstance(content, str):
            cell.data_type, cell.number_format = "s", "@"
        if bold:
            cell.font = Font(bold=True)
        yield cell


def written(content: Content) -> str:
    """A cell of a CSV file."""
    if isinstance(content, Decimal):
        return plain(content)
    return "" if content is None else str(content)
