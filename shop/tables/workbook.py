"""Reads XLSX behind guards: a workbook is an archive from an untrusted source."""

import io
import re
import zipfile
from collections.abc import Iterator
from itertools import islice, pairwise

from defusedxml import ElementTree
from defusedxml.common import DefusedXmlException

from shop.tables.findings import FileError, Finding, done_for_you
from shop.tables.sheet_xml import MAIN, Rows, formats_of, rows_of, shared_texts
from shop.tables.sheets import MAX_COLUMNS, Cell, RawFile, Sheet, SheetRow, enough
from shop.tables.textfile import decimal_sign

MAX_ENTRIES = 500
MAX_UNPACKED = 60 * 1024 * 1024
MAX_RATIO = 120  # real sheets are compressed ten- to thirtyfold
LAST_ROW = 100_000  # spreadsheets leave empty formatted cells below
MAX_MERGED = 20_000
MAX_TEXTS = 200_000  # all of them are read, used or not
BOOK = "xl/workbook.xml"
STYLES = "xl/styles.xml"
TEXTS = "xl/sharedStrings.xml"
MAX_FRAME = 2 * 1024 * 1024  # of the parts that are read whole before the first row
FRAME = {"[Content_Types].xml", "xl/workbook.xml", "xl/_rels/workbook.xml.rels", "xl/styles.xml", "xl/theme/theme1.xml"}
MAX_SHEETS = 20
MAX_GAP = 1_000  # consecutive empty rows; anything further below is not part of the list

MERGED = re.compile(rb'<(?:\w+:)?mergeCell\s[^<>]*?ref="([A-Z]{1,3})([0-9]{1,7}):([A-Z]{1,3})([0-9]{1,7})"')
ROW = re.compile(rb"<(?:\w+:)?row[\s>]")
HIDDEN_ROW = re.compile(rb"<(?:\w+:)?row\s[^<>]*?\bhidden=\"(?:1|true)\"[^<>]*>")
HIDDEN_COLUMNS = re.compile(rb"<(?:\w+:)?col\s[^<>]*?\bhidden=\"(?:1|true)\"[^<>]*>")
NUMBER = re.compile(rb"\br=\"([0-9]{1,7})\"")
RANGE = re.compile(rb"\b(min|max)=\"([0-9]{1,5})\"")
VALUE = re.compile(rb"<(?:\w+:)?(?:v|t|f)[\s>]")
RELATION = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}id"


def read_workbook(name: str, body: bytes) -> RawFile:
    """The visible sheets of a workbook. Raises FileError for one that is damaged or could harm the reader."""
    try:
        with zipfile.ZipFile(io.BytesIO(body)) as archive:
            _guard(archive)
            sheets = [(title, archive.read(part) if part else b"") for title, part in _sheets(archive)]
            _count_rows(sheets)
            return _read(name, archive, sheets)
    except FileError:
        raise
    except DefusedXmlException:
        raise FileError("unsafe_workbook") from None
    except Exception as problem:  # a damaged workbook can fail anywhere
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


def _sheets(archive: zipfile.ZipFile) -> list[tuple[str, str]]:
    """(name, part of the archive) of the sheets; the part of a hidden one is ""."""
    targets = {
        relation.get("Id"): str(relation.get("Target"))
        for relation in ElementTree.fromstring(archive.read("xl/_rels/workbook.xml.rels"))
        if str(relation.get("Type")).endswith("/worksheet")
    }
    names = set(archive.namelist())
    nodes = list(ElementTree.fromstring(archive.read(BOOK)).iter(f"{MAIN}sheet"))
    if len(nodes) > MAX_SHEETS:
        raise FileError("too_many_sheets", limit=MAX_SHEETS)
    sheets: list[tuple[str, str]] = []
    seen: set[str] = set()
    for sheet in nodes:
        target = targets.get(sheet.get(RELATION), "")
        part = target.lstrip("/") if target.startswith("/") else f"xl/{target}"
        if part not in names:
            continue  # a chart, or a part that is not there
        if part in seen:
            raise FileError("damaged_workbook")  # one sheet under two names
        seen.add(part)
        sheets.append((str(sheet.get("name")), part if sheet.get("state", "visible") == "visible" else ""))
    return sheets


def _count_rows(sheets: list[tuple[str, bytes]]) -> None:
    """Refuses too many rows with values before any is read."""
    count = 0
    for _, xml in sheets:
        starts = [match.end() for match in islice(ROW.finditer(xml), LAST_ROW)]
        count += sum(VALUE.search(xml, start, end) is not None for start, end in pairwise([*starts, len(xml)]))
        enough(count, 0)


def _read(name: str, archive: zipfile.ZipFile, sheets: list[tuple[str, bytes]]) -> RawFile:
    names = set(archive.namelist())
    texts = shared_texts(archive.read(TEXTS)) if TEXTS in names else []
    formats = formats_of(archive.read(STYLES) if STYLES in names else b"", archive.read(BOOK))
    notes: list[Finding] = []
    pages = []
    filled = 0
    for title, xml in sheets:
        if not xml:
            notes.append(done_for_you("hidden_sheet", Finding("", "", sheet=title)))
            continue
        struck: set[int] = set()
        lines = list(_lines(title, rows_of(xml, texts, formats, LAST_ROW, struck), filled))
        filled += len(lines)
        lines, merged = _unmerged(lines, xml)
        if merged:
            notes.append(done_for_you("merged_down", Finding("", "", sheet=title), ranges=merged))
        blank = lines[-1].number - len(lines) if lines else 0
        sign = decimal_sign(cell.value for line in lines for cell in line.cells)
        pages.append(Sheet(title, tuple(lines), blank, sign, *_hidden(xml), frozenset(struck)))
    if not filled:
        raise FileError("empty_file")
    return RawFile(name, tuple(pages), tuple(notes))


def _lines(title: str, rows: Rows, before: int) -> Iterator[SheetRow]:
    last = 0
    for count, (number, cells) in enumerate(rows, before + 1):
        if number - last > MAX_GAP + 1:
            raise FileError("far_below", page=title, row=number, after=last)
        last = number
        enough(count, len(cells))
        yield SheetRow(number, cells)


def _hidden(xml: bytes) -> tuple[frozenset[int], frozenset[int]]:
    """(numbers of hidden rows, indexes of hidden columns)"""
    rows = {int(number[1]) for tag in HIDDEN_ROW.findall(xml) if (number := NUMBER.search(tag))}
    columns: set[int] = set()
    for tag in HIDDEN_COLUMNS.findall(xml):
        ends = {name: int(number) for name, number in RANGE.findall(tag)}
        columns.update(range(ends.get(b"min", 1) - 1, min(ends.get(b"max", 0), MAX_COLUMNS)))
    return frozenset(rows), frozenset(columns)


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
