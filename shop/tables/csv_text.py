"""Rows as the text of a CSV file that a spreadsheet reads as text and figures, never as formulas."""

import csv
import io
import re
from collections.abc import Iterable, Sequence

BEGINS_A_FORMULA = re.compile(r"\s*[=+\-@＝＋－＠]|[\t\r\n]")
NO_FORMULA = re.compile(r"-?\d+(\.\d+)?|-")


def csv_text(rows: Iterable[Sequence[str]]) -> str:
    """The rows in UTF-8 with a byte order mark, separated by commas (RFC 4180)."""
    file = io.StringIO(newline="")
    csv.writer(file, lineterminator="\r\n").writerows([harmless(cell) for cell in row] for row in rows)
    return "\ufeff" + file.getvalue()


def harmless(cell: str) -> str:
    """The cell, behind an apostrophe where a spreadsheet would take it for a formula.

    A plain figure and a single dash stay as they are.
    """
    return f"'{cell}" if BEGINS_A_FORMULA.match(cell) and not NO_FORMULA.fullmatch(cell) else cell


def without_apostrophe(cell: str) -> str:
    """The cell that `harmless` wrote, as it was; spreadsheets keep the apostrophe when they save."""
    return cell[1:] if cell[:1] == "'" and harmless(cell[1:]) == cell else cell
