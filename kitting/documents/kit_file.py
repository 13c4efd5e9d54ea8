"""The contents of a version of a kit as a file that can be changed and imported as its next version."""

from kitting.models import KitRevision
from kitting.queries.kit_file import kit_file_rows
from shop.tables.csv_text import csv_text
from shop.tables.registry import kinds
from shop.tables.writing import TITLE, columns_of, heading_of, workbook, written


def kit_workbook(revision: KitRevision) -> bytes:
    """All sheets, with the title block above the first."""
    kind = kinds()["kit"]
    return workbook(kind.tables, kit_file_rows(revision), kind.title)


def kit_csv(revision: KitRevision) -> str:
    """The title block and the list of parts."""
    kind, rows = kinds()["kit"], kit_file_rows(revision)
    table, [title] = kind.tables[0], rows[TITLE]
    fields = columns_of(table, rows[table.name])
    head = [[heading_of(field), written(title[field.name])] for field in kind.title if field.name in title]
    lines = ([written(row.get(name)) for name, _ in fields] for row in rows[table.name])
    return csv_text([*head, [], [heading for _, heading in fields], *lines])
