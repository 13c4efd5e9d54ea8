"""The reader of workbooks, held against openpyxl's on cells of every kind."""

import io
import warnings
import zipfile
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from typing import Any

import openpyxl
import pytest

from shop.tables.findings import FileError
from shop.tables.reading import read_file
from tests.imports.files import repacked, workbook
from tests.ugly.reader import FILES

EVERY_KIND: list[list[Any]] = [
    ["text", " spaces ", "a & b <c>", "line\nbreak", "Ünïcode", "   "],
    [1, 0, -7, 12345678901234, 0.1, 2.5e-9, 1.1e20, 3.0],
    [True, False, None, "", "#N/A"],
    [datetime(2026, 5, 3), datetime(2026, 5, 3, 14, 30), date(1900, 2, 1), time(6, 15), timedelta(hours=30)],
    [None, None, "=A2+B2"],
    [],
    [None, "last", None],
]
SHARED = (
    b'<c r="C5"><f t="shared" ref="C5:D5" si="0">A2*2</f><v>2</v></c>'
    b'<c r="D5"><f t="shared" si="0"/><v>0</v></c><c r="E5" t="inlineStr"><is><t>in</t><r><t> line</t></r></is></c>'
    b'<c t="str"><v>no place</v></c>'
)


def by_openpyxl(body: bytes) -> dict[str, dict[int, list[tuple[Any, str]]]]:
    """{visible sheet: {row: [(value, formula) of its cells without empty ones at the end]}}"""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        values = openpyxl.load_workbook(io.BytesIO(body), data_only=True)
        written = openpyxl.load_workbook(io.BytesIO(body))
    sheets: dict[str, dict[int, list[tuple[Any, str]]]] = {}
    for page in values.worksheets:
        if page.sheet_state == "visible":
            sheets[page.title] = {}
            for row in page.iter_rows():
                cells = [(_plain(cell), _formula(written[page.title][cell.coordinate])) for cell in row]
                while cells and cells[-1] == (None, ""):
                    cells.pop()
                if cells:
                    sheets[page.title][row[0].row] = cells
    return sheets


def _plain(cell: Any) -> Any:
    value = cell.value
    if isinstance(value, str | timedelta):
        return str(value) if str(value).strip() else None
    if isinstance(value, bool) or not isinstance(value, int | float):
        return value
    if isinstance(value, int) and value >= 0 and set(cell.number_format) == {"0"} and len(cell.number_format) > 1:
        return f"{value:0{len(cell.number_format)}d}"
    return Decimal(f"{value:.15g}") if isinstance(value, float) else Decimal(value)


def _formula(cell: Any) -> str:
    return str(cell.value) if cell.data_type == "f" else ""


def by_us(body: bytes) -> dict[str, dict[int, list[tuple[Any, str]]]]:
    sheets = read_file("a.xlsx", body).sheets
    return {
        sheet.name: {line.number: [(cell.value, cell.formula) for cell in line.cells] for line in sheet.lines}
        for sheet in sheets
    }


def test_cells_of_every_kind_read_as_openpyxl_reads_them() -> None:
    body = workbook({"S": EVERY_KIND, "Two": [["x"]], "Gone": [["y"]]}, hidden=["Gone"])

    def with_shared(name: str, data: bytes) -> bytes:
        return data.replace(b'<c r="C5"><f>A2+B2</f><v></v></c>', SHARED) if name.endswith("sheet1.xml") else data

    plain = repacked(body, lambda name, data: data.replace(b"<v />", b"<v></v>").replace(b"<v/>", b"<v></v>"))
    shared = repacked(plain, with_shared)
    assert shared != plain
    reading = by_us(shared)
    assert reading == by_openpyxl(shared)
    assert reading["S"][5][2:6] == [(2, "=A2*2"), (0, "=B2*2"), ("in line", ""), ("no place", "")]
    assert [type(value) for value, _ in reading["S"][4]] == [
        datetime,
        datetime,
        datetime,
        time,
        str,
    ]


@pytest.mark.parametrize("file", [file for file in FILES if file.name.endswith(".xlsx")], ids=lambda file: file.name)
def test_suppliers_workbooks_read_as_openpyxl_reads_them(file: Any) -> None:
    body = repacked(file.body, lambda name, data: data.replace(b"<mergeCell ", b"<unmerged "))
    assert by_us(body) == by_openpyxl(body)


def test_dates_count_from_1904_if_the_workbook_says_so() -> None:
    def mac(name: str, data: bytes) -> bytes:
        return data.replace(b"<workbookPr ", b'<workbookPr date1904="1" ') if name == "xl/workbook.xml" else data

    body = repacked(workbook({"S": [[datetime(2026, 5, 3)]]}), mac)
    assert by_us(body) == by_openpyxl(body) == {"S": {1: [(datetime(2030, 5, 4), "")]}}


@pytest.mark.parametrize(
    "written", ["0.30000000000000004", "100.0", "1E+2", "-0.5", "12.3456789012345678", "1E-7", "2.5E+17", "-3.0"]
)
@pytest.mark.parametrize("style", [0, 1])
def test_figures_and_dates_have_the_digits_that_openpyxl_gives_them(written: str, style: int) -> None:
    """`style` 1 is that of a date."""

    def with_figure(name: str, data: bytes) -> bytes:
        if not name.endswith("sheet1.xml"):
            return data
        start, end = data.index(b"<c "), data.index(b"</c>")
        return data[:start] + f'<c r="A1" s="{style}"><v>{written}</v>'.encode() + data[end:]

    body = repacked(workbook({"S": [[datetime(2026, 5, 3)]]}), with_figure)
    assert by_us(body) == by_openpyxl(body)


@pytest.mark.parametrize("written", ["1E+400", "1E+999999999", "-1E+99999", "NaN", "Infinity", "2,5"])
def test_a_figure_that_no_spreadsheet_holds_is_a_damaged_workbook(written: str) -> None:
    body = repacked(workbook({"S": [[1.5]]}), lambda name, data: data.replace(b"<v>1.5<", f"<v>{written}<".encode()))
    with pytest.raises(FileError) as refusal:
        read_file("a.xlsx", body)
    assert refusal.value.code == "damaged_workbook"


def test_a_document_type_behind_a_long_comment_is_refused() -> None:
    def typed(name: str, data: bytes) -> bytes:
        if not name.endswith("sheet1.xml"):
            return data
        return b"<!--" + b" " * 3000 + b'--><!DOCTYPE x [<!ENTITY e "boo">]>' + data[data.index(b"<worksheet") :]

    body = repacked(workbook({"S": [["a"]]}), typed)
    assert zipfile.ZipFile(io.BytesIO(body)).testzip() is None
    with pytest.raises(FileError) as refusal:
        read_file("a.xlsx", body)
    assert refusal.value.code == "unsafe_workbook"
