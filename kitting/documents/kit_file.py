"""The contents of a version of a kit as a file that can be changed and imported as its next version."""

from kitting.models import KitRevision
from kitting.queries.kit_file import kit_file_rows
from shop.tables.registry import kinds
from shop.tables.writing import csv_of, workbook


def kit_workbook(revision: KitRevision) -> bytes:
    """All sheets, with the title block above the first."""
    kind = kinds()["kit"]
    return workbook(kind.tables, kit_file_rows(revision), kind.title)


def kit_csv(revision: KitRevision) -> str:
    """The title block and all tables, one below the other."""
    kind = kinds()["kit"]
    return csv_of(kind.tables, kit_file_rows(revision), kind.title)
