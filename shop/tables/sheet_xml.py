"""Reads the parts of a workbook with expat: its shared texts, its number formats, and the cells of a sheet.

openpyxl builds an object of each cell through a parser written in Python, which takes three quarters of the time of a
long list. Here a cell is a Cell from the start. Formats and shared formulas are still openpyxl's.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from decimal import ROUND_FLOOR, Context, Decimal
from typing import Any
from xml.parsers import expat

from defusedxml import ElementTree
from openpyxl.formula.translate import Translator
from openpyxl.styles.numbers import builtin_format_code, is_date_format, is_timedelta_format
from openpyxl.utils.datetime import CALENDAR_MAC_1904, WINDOWS_EPOCH, from_ISO8601

from shop.tables.findings import FileError
from shop.tables.sheets import EMPTY, MAX_COLUMNS, Cell, Content

DIGITS = "0123456789"
ZEROS = re.compile(r"0{2,20}")
MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
OUTSIDE = "#VALUE!"  # shown for a number outside the range of dates
FIFTEEN_DIGITS = Context(prec=15)
LARGEST = 308  # the power of ten of the largest number that a spreadsheet holds
LAST_DAY = 2_958_465  # 31 December 9999, counted from 1900
MILLISECONDS = 24 * 60 * 60 * 1000  # of a day

Rows = list[tuple[int, tuple[Cell, ...]]]


@dataclass(frozen=True, slots=True)
class Formats:
    """The meaning of a workbook's formats for numbers, by the position of a cell's format.

    `zeros` are the digits of formats such as 000000, `struck` the formats whose font is struck out.
    """

    dates: frozenset[int] = frozenset()
    spans: frozenset[int] = frozenset()
    zeros: Mapping[int, int] = field(default_factory=dict)
    epoch: datetime = WINDOWS_EPOCH
    struck: frozenset[int] = frozenset()


def formats_of(styles: bytes, workbook: bytes) -> Formats:
    """The formats in the part of styles; `workbook` says from which day dates count."""
    book = ElementTree.fromstring(workbook).find(f"{MAIN}workbookPr")
    mac = book is not None and book.get("date1904", "0").casefold() in ("1", "true", "on")
    epoch = CALENDAR_MAC_1904 if mac else WINDOWS_EPOCH
    if not styles:
        return Formats(epoch=epoch)
    root = ElementTree.fromstring(styles)
    own = {node.get("numFmtId"): node.get("formatCode", "") for node in root.iter(f"{MAIN}numFmt")}
    cells = root.find(f"{MAIN}cellXfs")
    codes: list[str] = []
    fonts = _struck_fonts(root)
    struck = set()
    for node in [] if cells is None else cells.findall(f"{MAIN}xf"):
        number = node.get("numFmtId", "0")
        if int(node.get("fontId", "0")) in fonts:
            struck.add(len(codes))
        codes.append(own.get(number) or builtin_format_code(int(number)) or "")
    return Formats(
        frozenset(n for n, code in enumerate(codes) if is_date_format(code)),
        frozenset(n for n, code in enumerate(codes) if is_timedelta_format(code)),
        {n: len(code) for n, code in enumerate(codes) if ZEROS.fullmatch(code)},
        epoch,
        frozenset(struck),
    )


def _struck_fonts(styles: Any) -> set[int]:
    fonts = styles.find(f"{MAIN}fonts")
    nodes = [] if fonts is None else fonts.findall(f"{MAIN}font")
    marks = [node.find(f"{MAIN}strike") for node in nodes]
    return {n for n, mark in enumerate(marks) if mark is not None and mark.get("val", "1") not in ("0", "false")}


def shared_texts(xml: bytes) -> list[str]:
    """The texts that cells share, without their formats and without readings in another script."""
    texts: list[str] = []
    pieces: list[str] = []
    phonetic = 0
    inside = False

    def start(name: str, attributes: Mapping[str, str]) -> None:
        nonlocal phonetic, inside
        tag = name.rpartition(":")[2]
        if tag == "t":
            inside = not phonetic
        elif tag == "si":
            pieces.clear()
        elif tag == "rPh":
            phonetic += 1

    def end(name: str) -> None:
        nonlocal phonetic, inside
        tag = name.rpartition(":")[2]
        if tag == "t":
            inside = False
        elif tag == "si":
            texts.append("".join(pieces).replace("x005F_", ""))
        elif tag == "rPh":
            phonetic -= 1

    def characters(text: str) -> None:
        if inside:
            pieces.append(text)

    _parse(xml, start, end, characters)
    return texts


def rows_of(xml: bytes, texts: list[str], formats: Formats, last_row: int, struck: set[int] | None = None) -> Rows:
    """(number, cells) of the rows of a sheet that hold something, in ascending order, up to `last_row`.

    Adds to `struck` the numbers of rows in which everything is struck out.
    """
    rows: Rows = []
    plain = False  # whether something in the row is not struck out
    columns: dict[str, int] = {}
    formulas: dict[str, Translator] = {}
    cells: dict[int, Cell] = {}
    cell: Mapping[str, str] = {}
    formula: Mapping[str, str] | None = None
    pieces: dict[str, list[str]] = {"v": [], "f": [], "t": []}
    collected: list[str] | None = None
    number = before = column = 0
    in_data = phonetic = False

    def start(name: str, attributes: Mapping[str, str]) -> None:
        nonlocal cell, collected, column, formula, in_data, number, phonetic, plain
        tag = name.rpartition(":")[2] if ":" in name else name
        if tag == "sheetData":
            in_data = True
        elif not in_data:
            return
        elif tag == "c":
            cell, formula = attributes, None
            for collection in pieces.values():
                collection.clear()
            reference = attributes.get("r")
            if reference is None:
                column += 1
                return
            letters = reference.rstrip(DIGITS)
            if letters not in columns:
                columns[letters] = _column(letters)
            column = columns[letters]
        elif tag == "row":
            number = int(attributes["r"]) if "r" in attributes else number + 1
            column = 0
            plain = False
            cells.clear()
        elif tag == "f":
            formula, collected = attributes, pieces["f"]
        elif tag == "rPh":
            phonetic = True
        elif tag in pieces and not phonetic:
            collected = pieces[tag]

    def end(name: str) -> None:
        nonlocal before, collected, in_data, phonetic, plain
        tag = name.rpartition(":")[2] if ":" in name else name
        collected = None
        if not in_data:
            return
        if tag == "c":
            if column > MAX_COLUMNS + 1:
                return
            value = _value(cell, pieces, texts, formats)
            written = "" if formula is None else _formula(formula, cell, pieces, formulas)
            if value is not None or written:
                cells[column] = Cell(value, written)
                plain = plain or int(cell.get("s", "0")) not in formats.struck
        elif tag == "row":
            if cells and before < number <= last_row:
                width = max(cells)
                rows.append((number, tuple(cells.get(index, EMPTY) for index in range(1, width + 1))))
                if struck is not None and not plain:
                    struck.add(number)
            before = max(before, number)
        elif tag == "rPh":
            phonetic = False
        elif tag == "sheetData":
            in_data = False

    def characters(text: str) -> None:
        if collected is not None:
            collected.append(text)

    _parse(xml, start, end, characters)
    return rows


def _parse(
    xml: bytes,
    start: Callable[[str, dict[str, str]], None],
    end: Callable[[str], None],
    characters: Callable[[str], None],
) -> None:
    parser = expat.ParserCreate()
    parser.buffer_text = True
    parser.StartElementHandler = start
    parser.EndElementHandler = end
    parser.CharacterDataHandler = characters
    parser.StartDoctypeDeclHandler = _refuse  # without a document type no entity can be defined
    parser.Parse(xml, True)


def _refuse(*arguments: object) -> None:
    raise FileError("unsafe_workbook")


def _column(letters: str) -> int:
    """The number of a column, from 1."""
    number = 0
    for letter in letters.upper():
        number = number * 26 + ord(letter) - 64
    return number


def _value(
    attributes: Mapping[str, str], pieces: Mapping[str, list[str]], texts: list[str], formats: Formats
) -> Content:
    kind = attributes.get("t", "n")
    if kind == "inlineStr":
        return _text("".join(pieces["t"]))
    written = "".join(pieces["v"])
    if not written:
        return None
    if kind == "s":
        return _text(texts[int(written)])
    if kind == "n":
        return _number(written.strip(), int(attributes.get("s", "0")), formats)
    if kind == "b":
        return bool(int(written))
    return _content(from_ISO8601(written)) if kind == "d" else _text(written)


def _number(written: str, style: int, formats: Formats) -> Content:
    """The number; a spreadsheet shows fifteen digits, and the rest is rounding error."""
    digits = written.removeprefix("-")
    if style in formats.dates:
        days = _fifteen_digits(written)
        return OUTSIDE if abs(days) > LAST_DAY else _content(_moment(days, formats.epoch, style in formats.spans))
    if not (digits.isascii() and digits.isdigit()):
        return _fifteen_digits(written)
    width = formats.zeros.get(style, 0)
    return written.lstrip("0").zfill(width) if width and digits == written else Decimal(written)


def _fifteen_digits(written: str) -> Decimal:
    """The number as it is shown. ValueError for one that no spreadsheet holds."""
    number = FIFTEEN_DIGITS.create_decimal(written).normalize()
    if not number.is_finite() or abs(number.adjusted()) > LARGEST:
        raise ValueError(written)
    return number.quantize(Decimal(1)) if number.adjusted() < FIFTEEN_DIGITS.prec and not number % 1 else number


def _moment(days: Decimal, epoch: datetime, is_span: bool) -> datetime | time | timedelta:
    """The day, time or span that a spreadsheet counts in days since its epoch, to the millisecond."""
    whole = days.to_integral_value(ROUND_FLOOR)
    rest = timedelta(milliseconds=int(((days - whole) * MILLISECONDS).to_integral_value()))
    if is_span:
        return timedelta(days=int(whole)) + rest
    if 0 <= days < 1 and not rest.days:
        return (datetime.min + rest).time()
    if 0 < days < 60 and epoch == WINDOWS_EPOCH:
        whole += 1  # spreadsheets count a 29 February 1900 that never existed
    return epoch + timedelta(days=int(whole)) + rest


def _content(moment: object) -> Content:
    return moment if isinstance(moment, datetime | date | time) else _text(str(moment))


def _text(text: str) -> str | None:
    return text if text.strip() else None


def _formula(
    attributes: Mapping[str, str],
    cell: Mapping[str, str],
    pieces: Mapping[str, list[str]],
    formulas: dict[str, Translator],
) -> str:
    """The formula as written; one that cells share as it reads in this cell."""
    formula = "=" + "".join(pieces["f"])
    if attributes.get("t") != "shared":
        return formula
    name = attributes.get("si", "")
    if name in formulas:
        return str(formulas[name].translate_formula(cell.get("r")))
    if formula != "=":
        formulas[name] = Translator(formula, cell.get("r"))
    return formula
