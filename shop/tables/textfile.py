"""Reads tables from text files, with the encodings, separators and quotes that occur in practice."""

import codecs
import csv
import io
import re
from collections import Counter
from collections.abc import Iterable

from shop.tables.csv_text import without_apostrophe
from shop.tables.findings import FileError, Finding, done_for_you, please_check
from shop.tables.sheets import Cell, RawFile, Sheet, SheetRow, enough

SEPARATORS = (";", "\t", ",", "|")
SNIFFED = 200  # lines examined to determine the separator
LONGEST_FIELD = 20_000
EXCEL_TEXT = re.compile(r'^="(.*)"$')  # a formula that people use to keep leading zeros


def read_text(name: str, body: bytes) -> RawFile:
    """The only sheet of a text file."""
    text, notes = _decoded(body)
    if "\x00" in text:
        raise FileError("not_a_table")
    separator, text, separator_notes = _separator(text)
    notes += separator_notes
    rows, loose = _parsed(text, separator)
    notes += loose
    lines, blank = _lines(rows)
    if not lines:
        raise FileError("empty_file")
    sheet = Sheet("", tuple(lines), blank, decimal_sign(cell.value for line in lines for cell in line.cells))
    return RawFile(name, (sheet,), tuple(notes))


def _decoded(body: bytes) -> tuple[str, list[Finding]]:
    mark = [done_for_you("byte_order_mark", Finding("", "", row=1, column="A"))]
    if body.startswith(codecs.BOM_UTF8):
        return _strict(body[3:], "utf-8"), mark
    if body.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        return _strict(body, "utf-16"), mark
    sample = body[:4000]
    if sample.count(0) > len(sample) // 4:
        encoding = "utf-16-le" if sample[1::2].count(0) >= sample[0::2].count(0) else "utf-16-be"
        return _strict(body, encoding), []
    try:
        return body.decode("utf-8"), []
    except UnicodeDecodeError:
        return _strict(body, "cp1252"), [done_for_you("old_encoding", encoding="cp1252")]


def _strict(body: bytes, encoding: str) -> str:
    try:
        return body.decode(encoding)
    except UnicodeDecodeError:
        raise FileError("unknown_encoding") from None


def _separator(text: str) -> tuple[str, str, list[Finding]]:
    """(separator, the text without a first line that only names it, notes)"""
    match = re.match(r"sep=(.)\r?\n", text)
    if match:
        return match[1], "\n" + text[match.end() :], [done_for_you("separator_line", separator=match[1])]
    head = text[:200_000]
    return max(SEPARATORS, key=lambda sign: _likeness(head, sign)), text, []


def _likeness(text: str, separator: str) -> tuple[int, int]:
    """A score of the separator: the number of rows with the most common width, then that width."""
    widths: Counter[int] = Counter()
    try:
        for number, row in enumerate(csv.reader(io.StringIO(text, newline=""), delimiter=separator)):
            if number >= SNIFFED:
                break
            if len(row) > 1:
                widths[len(row)] += 1
    except csv.Error:
        return (0, 0)
    return max(((rows, width) for width, rows in widths.items()), default=(0, 0))


def _parsed(text: str, separator: str) -> tuple[list[list[str]], list[Finding]]:
    try:
        return _rows(text, separator, strict=True), []
    except csv.Error:
        pass
    try:
        return _rows(text, separator, strict=False), [please_check("loose_quotes")]
    except csv.Error:
        raise FileError("not_a_table") from None


def _rows(text: str, separator: str, *, strict: bool) -> list[list[str]]:
    """The rows. Raises FileError with the row of a quotation mark that is never closed, or only rows further on."""
    rows: list[list[str]] = []
    filled = 0
    physical = text.splitlines(keepends=True)
    widths: Counter[int] = Counter()
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=strict)
    line = 0
    while True:
        try:
            row = next(reader)
        except StopIteration:
            return rows
        except csv.Error as problem:
            if "unexpected end" in str(problem):
                raise FileError("quote_never_closed", row=len(rows) + 1) from None
            raise
        filled += any(row)
        enough(filled, _width(row))
        if any(len(field) > LONGEST_FIELD for field in row):
            raise FileError("quote_never_closed", row=len(rows) + 1)
        if reader.line_num > line + 1 and _swallowed(physical[line : reader.line_num], separator, widths):
            raise FileError("quote_never_closed", row=len(rows) + 1)
        if reader.line_num == line + 1:
            widths[len(row)] += 1
        line = reader.line_num
        rows.append(row)


def _swallowed(lines: list[str], separator: str, widths: Counter[int]) -> bool:
    """True if lines that were read as one row are rows each: they have as many columns as the rows above."""
    usual = max(widths, key=lambda width: widths[width], default=0)
    own = [line.count(separator) + 1 for line in lines if line.strip()]
    return usual > 2 and len(own) > 1 and all(width == usual for width in own)


def _width(row: list[str]) -> int:
    width = len(row)
    while width and not row[width - 1].strip():
        width -= 1
    return width


def _lines(rows: list[list[str]]) -> tuple[list[SheetRow], int]:
    lines = []
    last = 0
    for number, row in enumerate(rows, 1):
        if any(field.strip() for field in row):
            lines.append(SheetRow(number, tuple(Cell(_field(field)) for field in row)))
            last = number
    return lines, last - len(lines)


def _field(field: str) -> str | None:
    match = EXCEL_TEXT.match(field)
    return (match[1] if match else without_apostrophe(field)) or None


POINT = re.compile(r"^\s*-?[0-9]+\.[0-9]{1,2}\D*$")
COMMA = re.compile(r"^\s*-?[0-9]+,[0-9]{1,2}\D*$")


def decimal_sign(values: Iterable[object]) -> str:
    """The decimal sign of most numbers in a sheet, judged by unambiguous ones; "" for a tie."""
    points = commas = 0
    for value in values:
        if isinstance(value, str) and len(value) < 20:
            points += bool(POINT.match(value))
            commas += bool(COMMA.match(value))
    return "" if points == commas else "." if points > commas else ","
