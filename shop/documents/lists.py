"""A list of the shop as a file, and examples of the files that can be imported."""

from shop.presenters.headings import file_headings
from shop.tables.engine import FileKind
from shop.tables.writing import EXPLANATION, StoredRows, csv_of, workbook
from shop.words import say


def workbook_list(kind: FileKind, rows: StoredRows) -> bytes:
    return workbook(kind.tables, rows)


def csv_list(kind: FileKind, rows: StoredRows) -> str:
    return csv_of(kind.tables, rows)


def example_file(kind: FileKind) -> bytes:
    """A file that could be imported, with a sheet that explains every heading."""
    assert kind.example is not None
    tables = [table for table in kind.tables if table.name in kind.example]
    return workbook(tables, kind.example, kind.title, {EXPLANATION: headings(kind)})


def headings(kind: FileKind) -> list[list[str]]:
    """A line for each field: its sheet, heading, meaning, whether it is needed, and the headings it also goes by."""
    lines = [[say(f"import.list.column.{name}") for name in ("sheet", "heading", "means", "needed", "also")]]
    for sheet in file_headings(kind).sheets:
        lines += [
            [
                sheet.name,
                heading.heading,
                heading.means,
                say(f"import.list.needed.{heading.needed}"),
                ", ".join(heading.also),
            ]
            for heading in sheet.headings
        ]
    return lines
