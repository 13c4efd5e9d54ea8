"""Reads XLSX through openpyxl, behind guards: a workbook is an archive from an untrusted source."""

import io
import re
import warnings
import zipfile
from collections.abc import Iterator
from datetime import date, datetime, time
from decimal import Decimal
from itertools import islice, pairwise
from typing import Any

import openpyxl
from defusedxml import ElementTree
from defusedxml.common import DefusedXmlException

from shop.tables.findings import FileError, Finding, done_for_you
from shop.tables.sheets import MAX_COLUMNS, MAX_ROWS, Cell, Content, RawFile, Sheet, SheetRow, enough
from shop.tables.textfile import decimal_sign

MAX_ENTRIES = 500
MAX_UNPACKED = 60 * 1024 * 1024
MAX_RATIO = 120  # real sheets are compressed ten- to thirtyfold
LAST_ROW = 100_000  # spreadsheets leave empty formatted cells below
MAX_MERGED = 20_000
MAX_TEXTS = 200_000  # openpyxl loads all of them, used or not
TEXTS = "xl/sharedStrings.xml"
MAX_FRAME = 2 * 1024 * 1024  # of the parts that openpyxl reads whole before the first row
FRAME = {"[Content_Types].xml", "xl/workbook.xml", "xl/_rels/workbook.xml.rels", "xl/styles.xml", "xl/theme/theme1.xml"}
MAX_SHEETS = 20
MAX_GAP = 1_000  # consecutive empty rows; anything further below is not part of the list

MERGED = re.compile(rb'<(?:\w+:)?mergeCell\s[^<>]*?ref="([A-Z]{1,3})([0-9]{1,7}):([A-Z]{1,3})([0-9]{1,7})"')
FORMULA = re.compile(rb"<(?:\w+:)?f[\s>/]")
ROW = re.compile(rb"<(?:\w+:)?row[\s>]")
HIDDEN_ROW = re.compile(rb"<(?:\w+:)?row\s[^<>]*?\bhidden=\"(?:1|true)\"[^<>]*>")
HIDDEN_COLUMNS = re.compile(rb"<(?:\w+:)?col\s[^<>]*?\bhidden=\"(?:1|true)\"[^<>]*>")
NUMBER = re.compile(rb"\br=\"([0-9]{1,7})\"")
RANGE = re.compile(rb"\b(min|max)=\"([0-9]{1,5})\"")
ZEROS = re.compile(r"0{2,20}")
VALUE = re.compile(rb"<(?:\w+:)?(?:v|t|f)[\s>]")
MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
RELATION = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}id"


def read_workbook(name: str, body: bytes) -> RawFile:
    """The visible sheets of a workbook. Raises FileError for one that is damaged or could harm the reader."""
    try:
        with zipfile.ZipFile(io.BytesIO(body)) as archive:
            _guard(archive)
            parts = {title: archive.read(part) for title, part in _sheet_parts(archive).items()}
            _count_rows(parts)
            return _read(name, body, parts)
    except FileError:
        raise
    except DefusedXmlException:
        raise FileError("unsafe_workbook") from None
    except Exception as problem:  # openpyxl raises arbitrary errors for a damaged workbook
        raise FileError("damaged_workbook") from problem


def _guard(archive: zipfile.ZipFile) -> None:
    """Refuses archives that are too large, encrypted, not a workbook, or contain macros or document types."""
    entries = archive.infolist()
    names = {entry.filename for entry in entries}
    if "xl/workbook.xml" not in names or "[Content_Types].xml" not in names:
        raise FileError("not_a_workbook")
    unpacked = sum(entry.file_size for entry in entries)
    packed = sum(entry.compress_size for entry in entries) or 1
    if len(entries) > MAX_ENTRIES or unpacked > MAX_UNPACKED:
        raise FileError("unpacks_too_large")
    if unpacked > 1024 * 1024 and unpacked > packed * MAX_RATIO:
        raise FileError("unpacks_too_large")
    if any(entry.flag_bits & 1 for entry in entries):
        raise FileError("locked_workbook")
    if any("vbaproject" in name.lower() for name in names) or b"macroEnabled" in archive.read("[Content_Types].xml"):
        raise FileError("macro_workbook")
    if any(entry.file_size > MAX_FRAME for entry in entries if entry.filename in FRAME):
        raise FileError("unpacks_too_large")
    if TEXTS in names and archive.read(TEXTS).count(b"<si") > MAX_TEXTS:
        raise FileError("unpacks_too_large")
    for entry in entries:
        if entry.filename.endswith((".xml", ".rels")):
            with archive.open(entry) as part:
                if b"<!DOCTYPE" in part.read(2000).upper():
                    raise FileError("unsafe_workbook")


def _sheet_parts(archive: zipfile.ZipFile) -> dict[str, str]:
    """{visible sheet's name: its part of the archive}, for merged cells, which openpyxl skips when streaming."""
    targets = {
        relation.get("Id"): str(relation.get("Target"))
        for relation in ElementTree.fromstring(archive.read("xl/_rels/workbook.xml.rels"))
    }
    names = set(archive.namelist())
    sheets = list(ElementTree.fromstring(archive.read("xl/workbook.xml")).iter(f"{MAIN}sheet"))
    if len(sheets) > MAX_SHEETS:
        raise FileError("too_many_sheets", limit=MAX_SHEETS)
    parts: dict[str, str] = {}
    seen: set[str] = set()
    for sheet in sheets:
        target = targets.get(sheet.get(RELATION), "")
        part = target.lstrip("/") if target.startswith("/") else f"xl/{target}"
        if part in seen:
            raise FileError("damaged_workbook")  # one sheet under two names
        seen.add(part)
        if part in names and sheet.get("state", "visible") == "visible":
            parts[str(sheet.get("name"))] = part
    return parts


def _count_rows(parts: dict[str, bytes]) -> None:
    """Refuses too many rows with values before openpyxl reads any: it loads all texts of a file first."""
    count = 0
    for xml in parts.values():
        starts = [match.end() for match in islice(ROW.finditer(xml), LAST_ROW)]
        count += sum(VALUE.search(xml, start, end) is not None for start, end in pairwise([*starts, len(xml)]))
        enough(count, 0)


def _read(name: str, body: bytes, parts: dict[str, bytes]) -> RawFile:
    with_formulas = {title for title, xml in parts.items() if FORMULA.search(xml)}
    formulas = _formulas(body, with_formulas) if with_formulas else {}
    notes: list[Finding] = []
    sheets = []
    filled = 0
    book = _open(body, data_only=True)
    try:
        for page in book.worksheets:
            if page.sheet_state != "visible":
                notes.append(done_for_you("hidden_sheet", Finding("", "", sheet=page.title)))
                continue
            lines = list(_lines(page, formulas.get(page.title, {}), filled))
            filled += len(lines)
            lines, merged = _unmerged(lines, parts.get(page.title, b""))
            if merged:
                notes.append(done_for_you("merged_down", Finding("", "", sheet=page.title), ranges=merged))
            blank = lines[-1].number - len(lines) if lines else 0
            sign = decimal_sign(cell.value for line in lines for cell in line.cells)
            hidden = _hidden(parts.get(page.title, b""))
            sheets.append(Sheet(page.title, tuple(lines), blank, sign, *hidden))
    finally:
        book.close()
    if not filled:
        raise FileError("empty_file")
    return RawFile(name, tuple(sheets), tuple(notes))


def _open(body: bytes, *, data_only: bool) -> Any:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # about format extensions without values
        return openpyxl.load_workbook(io.BytesIO(body), read_only=True, data_only=data_only, keep_links=False)


def _formulas(body: bytes, titles: set[str]) -> dict[str, dict[tuple[int, int], str]]:
    formulas: dict[str, dict[tuple[int, int], str]] = {}
    book = _open(body, data_only=False)
    try:
        for page in book.worksheets:
            if page.title in titles:
                formulas[page.title] = {
                    (row, column): str(getattr(cell.value, "text", cell.value))
                    for row, cells in _rows(page)
                    for column, cell in enumerate(cells)
                    if getattr(cell, "data_type", "") == "f"
                }
    finally:
        book.close()
    return formulas


def _rows(page: Any) -> Iterator[tuple[int, tuple[Any, ...]]]:
    """(number, cells) of the rows in the file.

    Rows missing in the file come as one tuple repeated; one of each gap is passed on.
    """
    page.reset_dimensions()  # the size stated in a file may be wrong
    before = None
    for number, cells in enumerate(page.iter_rows(max_col=MAX_COLUMNS + 1, max_row=LAST_ROW), 1):
        if cells is not before:
            yield number, cells
        before = cells


def _lines(page: Any, formulas: dict[tuple[int, int], str], before: int) -> Iterator[SheetRow]:
    count = before
    last = 0
    for number, cells in _rows(page):
        if not formulas and all(cell.value is None for cell in cells):
            continue
        line = tuple(
            Cell(_content(cell), formulas.get((number, column), "") if formulas else "")
            for column, cell in enumerate(cells)
        )
        width = max((index + 1 for index, cell in enumerate(line) if not cell.empty), default=0)
        if width:
            if number - last > MAX_GAP + 1:
                raise FileError("far_below", page=page.title, row=number, after=last)
            last = number
            count += 1
            enough(count, width)
            yield SheetRow(number, line[:width])
    if count > MAX_ROWS:
        enough(count, 0)


def _hidden(xml: bytes) -> tuple[frozenset[int], frozenset[int]]:
    """(numbers of hidden rows, indexes of hidden columns)"""
    rows = {int(number[1]) for tag in HIDDEN_ROW.findall(xml) if (number := NUMBER.search(tag))}
    columns: set[int] = set()
    for tag in HIDDEN_COLUMNS.findall(xml):
        ends = {name: int(number) for name, number in RANGE.findall(tag)}
        columns.update(range(ends.get(b"min", 1) - 1, min(ends.get(b"max", 0), MAX_COLUMNS)))
    return frozenset(rows), frozenset(columns)


def _content(cell: Any) -> Content:
    value = cell.value
    if value is None or isinstance(value, bool | datetime | date | time):
        return value
    if isinstance(value, int):
        zeros = cell.number_format if value >= 0 else ""
        return f"{value:0{len(zeros)}d}" if ZEROS.fullmatch(zeros) else Decimal(value)
    if isinstance(value, float):
        return Decimal(f"{value:.15g}")  # a spreadsheet shows fifteen digits; the rest is rounding error
    text = str(value)
    return text if text.strip() else None


def _unmerged(lines: list[SheetRow], xml: bytes) -> tuple[list[SheetRow], str]:
    """The rows with the value of each vertically merged cell copied to all rows that it covers."""
    by_number = {line.number: index for index, line in enumerate(lines)}
    ranges = []
    for number, match in enumerate(MERGED.finditer(xml)):
        if number >= MAX_MERGED:
            raise FileError("unpacks_too_large")
        left, top, right, bottom = (part.decode() for part in match.groups())
        first, last = int(top), int(bottom)
        if left != right or last <= first or first not in by_number:
            continue
        column = _index(left)
        value = lines[by_number[first]].at(column)
        if value.empty:
            continue
        for row in range(first + 1, min(last, lines[-1].number) + 1):
            if row in by_number:
                lines[by_number[row]] = _with(lines[by_number[row]], column, value)
        ranges.append(f"{left}{top}:{right}{bottom}")
    more = f" (+{len(ranges) - 4})" if len(ranges) > 4 else ""
    return lines, ", ".join(ranges[:4]) + more


def _with(line: SheetRow, column: int, cell: Cell) -> SheetRow:
    cells = list(line.cells) + [Cell()] * (column + 1 - len(line.cells))
    cells[column] = cell
    return SheetRow(line.number, tuple(cells))


def _index(letters: str) -> int:
    index = 0
    for letter in letters:
        index = index * 26 + ord(letter) - 64
    return index - 1
