"""The notation of an ugly file: its bytes, the lines that must be read, and what must be asked or refused."""

import csv
import io
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

import openpyxl

Rows = Iterable[Iterable[Any]]


@dataclass(frozen=True, slots=True)
class Expected:
    """A line of the kit as a person who reads the file would write it down."""

    carton: str
    bag: str
    number: str
    quantity: str
    when: str = ""
    unit: str = "pc"


@dataclass(frozen=True, slots=True)
class UglyFile:
    """`lines` must be read once `answers` are given; `asks` are the questions before that.

    `must_fix` and `checks` are findings as "CODE CELL" or "CODE ROW"; `says` are codes of what was done for the person.
    `refused` is the code of a file that cannot be read at all.
    """

    name: str
    body: bytes
    lines: tuple[Expected, ...] = ()
    asks: tuple[str, ...] = ()
    answers: Mapping[str, str] = field(default_factory=dict)
    must_fix: tuple[str, ...] = ()
    checks: tuple[str, ...] = ()
    says: tuple[str, ...] = ()
    refused: str = ""
    fields: Mapping[str, str] = field(default_factory=dict)


def text_file(rows: Rows, separator: str = ";", encoding: str = "utf-8") -> bytes:
    """The rows as CSV."""
    file = io.StringIO(newline="")
    csv.writer(file, delimiter=separator, lineterminator="\r\n").writerows(rows)
    return file.getvalue().encode(encoding)


def book(
    rows: Rows,
    *,
    hidden_columns: str = "",
    hidden_rows: Iterable[int] = (),
    merged: Iterable[str] = (),
    formats: Mapping[str, str] | None = None,
) -> bytes:
    """The rows as a workbook. `formats` is {cell: number format}."""
    workbook = openpyxl.Workbook()
    page = workbook.active
    page.title = "Contents"
    for row in rows:
        page.append(list(row))
    for letters in hidden_columns:
        page.column_dimensions[letters].hidden = True
    for number in hidden_rows:
        page.row_dimensions[number].hidden = True
    for reference in merged:
        page.merge_cells(reference)
    for cell, number_format in (formats or {}).items():
        page[cell].number_format = number_format
    out = io.BytesIO()
    workbook.save(out)
    return out.getvalue()


TITLE: list[list[Any]] = [["Kit number", "UG-100"], ["Supplier", "Quillfen Supply"], []]
NAMES = ("Hex bolt M8 x 30", "Washer 8.4", "Flange nut M8", "Hose clamp 16-27", "Bracket, upper", "O-ring 22 x 3")


def goods(prefix: str, count: int) -> list[tuple[str, str, int]]:
    """(number, description, quantity) of `count` parts."""
    return [(f"{prefix}-{n:04d}", NAMES[n % len(NAMES)], 1 + n * 7 % 6) for n in range(1, count + 1)]


def lines_of(carton: str, bag: str, parts: Iterable[tuple[str, str, int]], when: str = "") -> tuple[Expected, ...]:
    return tuple(Expected(carton, bag, number, str(quantity), when) for number, _, quantity in parts)
