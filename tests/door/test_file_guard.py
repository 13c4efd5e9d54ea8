"""Files made to keep the server busy: each is read or refused in a time that grows with its size alone.

Processor time, not the clock's: other tests may run at the same moment.
"""

import io
import time
import zipfile
from collections.abc import Callable

import pytest

from shop.tables.columns import folded
from shop.tables.conditions import conditions
from shop.tables.engine import read
from shop.tables.findings import FileError
from shop.tables.reading import read_file
from shop.tables.registry import kinds
from shop.tables.sheets import MAX_ROWS
from shop.tables.values import CellError


def cost(act: Callable[[], object]) -> int:
    """Milliseconds of processor time of this thread."""
    began = time.thread_time_ns()
    act()
    return (time.thread_time_ns() - began) // 1_000_000


PACKAGE = "http://schemas.openxmlformats.org/package/2006"
OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
SHEETS = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
KIND = "application/vnd.openxmlformats-officedocument.spreadsheetml"
FRAME = {
    "[Content_Types].xml": f'''<Types xmlns="{PACKAGE}/content-types">
        <Override PartName="/xl/workbook.xml" ContentType="{KIND}.sheet.main+xml"/>
        <Override PartName="/xl/worksheets/sheet1.xml" ContentType="{KIND}.worksheet+xml"/>
        <Override PartName="/xl/sharedStrings.xml" ContentType="{KIND}.sharedStrings+xml"/></Types>''',
    "_rels/.rels": f'''<Relationships xmlns="{PACKAGE}/relationships">
        <Relationship Id="r1" Type="{OFFICE}/officeDocument" Target="xl/workbook.xml"/></Relationships>''',
    "xl/_rels/workbook.xml.rels": f'''<Relationships xmlns="{PACKAGE}/relationships">
        <Relationship Id="r1" Type="{OFFICE}/worksheet" Target="worksheets/sheet1.xml"/>
        <Relationship Id="r2" Type="{OFFICE}/sharedStrings" Target="sharedStrings.xml"/></Relationships>''',
    "xl/workbook.xml": f'''<workbook xmlns="{SHEETS}" xmlns:r="{OFFICE}">
        <sheets><sheet name="S" sheetId="1" r:id="r1"/></sheets></workbook>''',
}


def with_sheet(rows: str, texts: int = 1, before: str = "") -> bytes:
    """A workbook whose one sheet holds these rows, with so many shared texts."""
    every = "".join(f"<si><t>part {n}</t></si>" for n in range(texts))
    parts = FRAME | {
        "xl/worksheets/sheet1.xml": f'<worksheet xmlns="{SHEETS}">{before}<sheetData>{rows}</sheetData></worksheet>',
        "xl/sharedStrings.xml": f'<sst xmlns="{SHEETS}">{every}</sst>',
    }
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, body in parts.items():
            archive.writestr(name, body)
    return buffer.getvalue()


def numbered(count: int) -> str:
    return "".join(f'<row r="{n}"><c r="A{n}" t="s"><v>{n - 1}</v></c></row>' for n in range(1, count + 1))


def refused_as(body: bytes) -> str:
    with pytest.raises(FileError) as refused:
        read_file("a.xlsx", body)
    return refused.value.code


def test_twenty_times_too_many_short_rows_are_refused_before_they_are_read() -> None:
    most, many = with_sheet(numbered(MAX_ROWS), texts=MAX_ROWS), with_sheet(numbered(200_000), texts=190_000)
    assert len(read_file("a.xlsx", most).sheets[0].lines) == MAX_ROWS
    codes: list[str] = []
    reading = cost(lambda: read_file("a.xlsx", most))
    assert cost(lambda: codes.append(refused_as(many))) < 5 * reading
    assert codes == ["too_many_rows"]


def test_rows_of_a_format_alone_are_not_counted() -> None:
    empty = "".join(f'<row r="{n}"><c r="A{n}" s="0"/></row>' for n in range(2, 30_000))
    body = with_sheet('<row r="1"><c r="A1" t="s"><v>0</v></c></row>' + empty)
    assert len(read_file("a.xlsx", body).sheets[0].lines) == 1


def test_texts_that_no_cell_shows_are_refused() -> None:
    body = with_sheet(numbered(1), texts=250_000)
    assert cost(lambda: refused_as(body)) < 1_000
    assert refused_as(body) == "unpacks_too_large"


def test_merged_cells_that_never_end_are_passed_over() -> None:
    noise = "<!--" + "<mergeCell " * 40_000 + "-->"
    body = with_sheet(numbered(1), before=noise)
    assert cost(lambda: read_file("a.xlsx", body)) < 1_000


def test_headings_of_opening_brackets() -> None:
    headings = [f"{n}" + "[" * 15_000 for n in range(100)]
    body = (";".join(headings) + "\n" + ";".join("x" * 100)).encode()
    assert cost(lambda: read(kinds()["customers"], "a.csv", body)) < 2_000
    assert cost(lambda: folded("(" * 15_000)) < 100


@pytest.mark.parametrize("written", [" " * 19_000 + "x", "a" + " " * 19_000 + "b", "=" * 19_000, "a, " * 6_000])
def test_conditions_of_blanks(written: str) -> None:
    def tried() -> None:
        with pytest.raises(CellError):
            conditions(written)

    assert cost(tried) < 500
