"""Tests of the way from bytes to cells: encodings, separators, and untrusted archives."""

import sys
from contextlib import suppress
from decimal import Decimal

import pytest

from shop.tables.findings import FileError
from shop.tables.reading import read_file
from shop.tables.sheets import MAX_ROWS, RawFile, column_letters
from tests.imports.files import repacked, workbook


def texts_of(file: RawFile) -> list[list[str]]:
    return [[cell.shown for cell in line.cells] for sheet in file.sheets for line in sheet.lines]


def codes(file: RawFile) -> list[str]:
    return [note.code for note in file.notes]


def refusal(name: str, body: bytes) -> str:
    with pytest.raises(FileError) as caught:
        read_file(name, body)
    return caught.value.code


TEXT = "Name;Stück\nÖse;1,5\n"


@pytest.mark.parametrize(
    ("encoding", "note"),
    [
        ("utf-8", []),
        ("utf-8-sig", ["byte_order_mark"]),
        ("utf-16", ["byte_order_mark"]),
        ("utf-16-le", []),
        ("utf-16-be", []),
        ("cp1252", ["old_encoding"]),
    ],
)
def test_every_usual_encoding_reads_alike(encoding: str, note: list[str]) -> None:
    file = read_file("list.csv", TEXT.encode(encoding))
    assert texts_of(file) == [["Name", "Stück"], ["Öse", "1,5"]]
    assert codes(file) == note


@pytest.mark.parametrize("separator", [";", ",", "\t", "|"])
def test_the_separator_is_told_from_the_columns(separator: str) -> None:
    rows = [["Part", "Title", "Qty"], ["A", "Bolt M8 x 20", "2"], ["B", "Nut", "3"]]
    file = read_file("list.csv", "\n".join(separator.join(row) for row in rows).encode())
    assert texts_of(file) == rows


def test_decimal_commas_do_not_pass_for_separators() -> None:
    file = read_file("list.csv", b"Title;Length;Price\nHose;1,5;12,40\nPipe;0,8;3,10\nTube;2,0;1,00\n")
    assert texts_of(file)[1] == ["Hose", "1,5", "12,40"]
    assert file.sheets[0].decimal == ","


def test_a_title_with_commas_in_a_semicolon_file_stays_whole() -> None:
    file = read_file("list.csv", b"Kit, front, 356 mm, six pistons, left, right\nNo;Title\n1;a, b\n2;c\n3;d, e, f\n")
    assert texts_of(file)[2] == ["1", "a, b"]


def test_a_line_that_names_the_separator_is_left_out_and_rows_keep_their_numbers() -> None:
    file = read_file("list.csv", b"sep=,\nName,Qty\nBolt,2\n")
    assert [line.number for line in file.sheets[0].lines] == [2, 3]
    assert codes(file) == ["separator_line"]


def test_quoted_fields_keep_separators_line_breaks_and_quotes() -> None:
    file = read_file("list.csv", b'Name;Note\n"a;b";"two\nlines ""q"""\nc;d\n')
    assert texts_of(file)[1] == ["a;b", 'two\nlines "q"']
    assert [line.number for line in file.sheets[0].lines] == [1, 2, 3]


def test_a_quote_never_closed_is_refused_not_swallowed() -> None:
    assert refusal("list.csv", b'Name;Qty\n"Pipe;2\nBolt;3\n') == "quote_never_closed"


def test_loose_quotes_are_kept_and_said() -> None:
    file = read_file("list.csv", b'Name;Qty\n"12" pipe;2\n')
    assert codes(file) == ["loose_quotes"] and "pipe" in texts_of(file)[1][0]


def test_a_number_kept_as_text_by_a_formula_is_that_text() -> None:
    assert texts_of(read_file("list.csv", b'Part,Qty\n="002240",1\n'))[1] == ["002240", "1"]


def test_rows_count_from_the_top_of_the_file_blank_ones_too() -> None:
    file = read_file("list.csv", b"\n\nName;Qty\n\nBolt;2\n;\n")
    assert [line.number for line in file.sheets[0].lines] == [3, 5] and file.sheets[0].blank == 3


@pytest.mark.parametrize(
    ("name", "body", "code"),
    [
        ("a.csv", b"", "empty_file"),
        ("a.csv", b" \r\n \r\n", "empty_file"),
        ("a.csv", b";;\n;;\n", "empty_file"),
        ("a.pdf", b"%PDF-1.7 ...", "not_a_table"),
        ("a.xlsx", b"\x89PNG\r\n\x1a\n....", "not_a_table"),
        ("a.csv", b"abc\x00\x01\x02def" * 3, "not_a_table"),
        ("a.xls", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"x" * 100, "old_workbook"),
        ("a.xlsx", b"PK\x03\x04 but nothing more", "damaged_workbook"),
        ("a.csv", b"x" * (5 * 1024 * 1024 + 1), "too_many_bytes"),
        ("a.csv", b"a;b\n" * (MAX_ROWS + 1), "too_many_rows"),
        ("a.csv", b";".join([b"x"] * 121) + b"\n", "too_many_columns"),
        ("a.csv", b"Na\x81me;Qty\nB;1\n", "unknown_encoding"),
    ],
)
def test_it_refuses_what_is_no_list(name: str, body: bytes, code: str) -> None:
    assert refusal(name, body) == code


def test_ten_thousand_rows_are_still_read() -> None:
    assert len(read_file("a.csv", b"a;b\n" * MAX_ROWS).sheets[0].lines) == MAX_ROWS


def test_a_workbook_reads_with_its_sheets_and_exact_numbers() -> None:
    body = workbook({"Parts": [["No", "Qty"], ["A-1", 0.1 + 0.2], ["A-2", 3]], "Empty": [], "More": [["x", True]]})
    file = read_file("a.xlsx", body)
    assert [sheet.name for sheet in file.sheets] == ["Parts", "Empty", "More"]
    assert [line.cells[1].value for line in file.sheets[0].lines[1:]] == [Decimal("0.3"), Decimal(3)]


def test_the_name_does_not_decide_what_a_file_is() -> None:
    assert texts_of(read_file("a.csv", workbook({"S": [["No"], ["A-1"]]}))) == [["No"], ["A-1"]]


def test_a_formula_comes_with_its_last_value() -> None:
    file = read_file("a.xlsx", workbook({"S": [["Qty"], ["=2*4"]]}, values={"2*4": "8"}))
    cell = file.sheets[0].lines[1].cells[0]
    assert (cell.value, cell.formula, cell.shown) == (Decimal(8), "=2*4", "=2*4")


def test_cells_merged_downwards_mean_their_value_in_every_row() -> None:
    rows = [["Carton", "No"], [1, "A"], [None, "B"], [None, "C"], [2, "D"]]
    file = read_file("a.xlsx", workbook({"S": rows}, merged={"S": ["A2:A4"]}))
    assert [line.cells[0].shown for line in file.sheets[0].lines[1:]] == ["1", "1", "1", "2"]
    assert codes(file) == ["merged_down"]


def test_cells_merged_across_do_not_spread() -> None:
    file = read_file("a.xlsx", workbook({"S": [["Contents", None, None], ["No", "Qty", "Unit"]]}, {"S": ["A1:C1"]}))
    assert texts_of(file)[0] == ["Contents"]


def test_a_hidden_sheet_is_left_out_and_said() -> None:
    file = read_file("a.xlsx", workbook({"S": [["No"]], "Costs": [["secret"]]}, hidden=["Costs"]))
    assert texts_of(file) == [["No"]] and codes(file) == ["hidden_sheet"]


def test_rows_far_below_do_not_count_as_rows() -> None:
    body = workbook({"S": [["No", "Qty"], ["A", 1]]})
    moved = repacked(body, lambda name, data: data.replace(b'r="2"', b'r="900"').replace(b'"A2"', b'"A900"'))
    assert [line.number for line in read_file("a.xlsx", moved).sheets[0].lines] == [1, 900]


def moved(body: bytes, row: int, cell: bytes | None = None) -> bytes:
    """Row 2 of every sheet moved down to `row`; `cell` may replace the content of A2."""

    def change(name: str, data: bytes) -> bytes:
        if not name.startswith("xl/worksheets/sheet"):
            return data
        at = f'r="A{row}"'.encode()
        data = data.replace(b'<row r="2"', f'<row r="{row}"'.encode()).replace(b'r="A2"', at)
        start, end = data.index(b"<c " + at), data.rindex(b"</row>")
        return data if cell is None else data[:start] + b"<c " + at + cell + data[end:]

    return repacked(body, change)


def test_a_row_far_below_all_others_is_refused_by_its_number() -> None:
    body = workbook({"Parts": [["No"], ["A"]]})
    assert [line.number for line in read_file("a.xlsx", moved(body, 1001)).sheets[0].lines] == [1, 1001]
    with pytest.raises(FileError) as caught:
        read_file("a.xlsx", moved(body, 1003))
    assert (caught.value.code, dict(caught.value.facts)) == (
        "far_below",
        {"page": "Parts", "row": "1003", "after": "1"},
    )


def test_formatted_emptiness_far_below_is_no_row() -> None:
    file = read_file("a.xlsx", moved(workbook({"S": [["No"], ["A"]]}), 99_999, b' s="1"/>'))
    assert [line.number for line in file.sheets[0].lines] == [1]


def test_a_formula_without_a_value_far_below_is_a_row() -> None:
    body = moved(workbook({"S": [["No"], ["=1+1"]]}), 99_999)
    assert refusal("a.xlsx", body) == "far_below"


def test_a_workbook_of_very_many_sheets_is_refused() -> None:
    assert len(read_file("a.xlsx", workbook({f"S{n}": [["No"]] for n in range(20)})).sheets) == 20
    assert refusal("a.xlsx", workbook({f"S{n}": [["No"]] for n in range(21)})) == "too_many_sheets"


def test_one_part_shown_as_many_sheets_is_refused() -> None:
    body = workbook({"S": [["No"]], "T": [["No"]]})
    twice = repacked(body, lambda name, data: data.replace(b"sheet2.xml", b"sheet1.xml") if "rels" in name else data)
    assert refusal("a.xlsx", twice) == "damaged_workbook"


@pytest.mark.parametrize("cell", [None, b' s="1"/>', b"><f>1+1</f></c>"])
def test_rows_that_are_not_there_cost_next_to_nothing(cell: bytes | None) -> None:
    """Counted in calls (except for stepping over rows): twenty sheets with a cell far below, and with one near."""
    body = workbook({f"S{n}": [["No"], ["A"]] for n in range(20)})
    assert calls(moved(body, 9_999, cell)) < 2 * calls(moved(body, 9, cell)) + 2000


def calls(body: bytes) -> int:
    count = 0

    def counted(frame: object, event: str, argument: object) -> None:
        nonlocal count
        code = getattr(frame, "f_code").co_name  # noqa: B009
        count += event == "call" and code != "_cells_by_row"

    sys.setprofile(counted)
    try:
        with suppress(FileError):
            read_file("a.xlsx", body)
    finally:
        sys.setprofile(None)
    return count


GOOD = workbook({"S": [["No", "Qty"], ["A", 1]]})


def test_an_archive_that_is_no_workbook_is_refused() -> None:
    assert refusal(
        "a.xlsx", repacked(GOOD, lambda name, data: data).replace(b"xl/workbook.xml", b"xl/workbonk.xml")
    ) == ("not_a_workbook")


def test_a_workbook_with_macros_is_refused() -> None:
    assert refusal("a.xlsm", repacked(GOOD, extra={"xl/vbaProject.bin": b"..."})) == "macro_workbook"
    typed = repacked(
        GOOD,
        lambda name, data: (
            data.replace(b"spreadsheetml.sheet.main", b"sheet.macroEnabled.main") if name.startswith("[") else data
        ),
    )
    assert refusal("a.xlsx", typed) == "macro_workbook"


def test_an_archive_that_unpacks_without_measure_is_refused_unopened() -> None:
    assert refusal("a.xlsx", repacked(GOOD, extra={"xl/media/x.bin": b"\0" * 61 * 1024 * 1024})) == "unpacks_too_large"
    assert refusal("a.xlsx", repacked(GOOD, extra={"xl/media/x.bin": b"\0" * 2 * 1024 * 1024})) == "unpacks_too_large"
    assert refusal("a.xlsx", repacked(GOOD, extra={f"xl/m/{n}": b"x" for n in range(600)})) == "unpacks_too_large"


def test_a_workbook_that_defines_entities_is_refused() -> None:
    def armed(name: str, data: bytes) -> bytes:
        if not name.endswith("sheet1.xml"):
            return data
        bomb = b'<!DOCTYPE x [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;">]>'
        return bomb + data[data.index(b"?>") + 2 :] if data.startswith(b"<?xml") else bomb + data

    assert refusal("a.xlsx", repacked(GOOD, armed)) == "unsafe_workbook"


def test_a_workbook_cut_in_half_is_refused() -> None:
    assert refusal("a.xlsx", GOOD[: len(GOOD) // 2]) == "damaged_workbook"
    broken = repacked(GOOD, lambda name, data: data[:-30] if name.endswith("sheet1.xml") else data)
    assert refusal("a.xlsx", broken) == "damaged_workbook"


@pytest.mark.parametrize(("index", "letters"), [(0, "A"), (25, "Z"), (26, "AA"), (51, "AZ"), (52, "BA"), (701, "ZZ")])
def test_columns_have_the_letters_a_spreadsheet_shows(index: int, letters: str) -> None:
    assert column_letters(index) == letters


def test_binary_dust_behind_a_number_is_not_read() -> None:
    body = workbook({"S": [["Qty"], [0.25]]})
    dusty = repacked(body, lambda name, data: data.replace(b"<v>0.25</v>", b"<v>0.25000000000000006</v>"))
    assert read_file("a.xlsx", dusty).sheets[0].lines[1].cells[0].value == Decimal("0.25")


def test_a_block_of_merged_cells_is_a_title_and_does_not_spread() -> None:
    rows = [["Contents", None, "v4"], [None, None, "2026"]]
    file = read_file("a.xlsx", workbook({"S": rows}, {"S": ["A1:B2"]}))
    assert texts_of(file) == [["Contents", "", "v4"], ["", "", "2026"]]


@pytest.mark.parametrize(
    ("numbers", "sign"), [("1.5;2.25;3", "."), ("1,5;2,25;3", ","), ("1;2;1.500", ""), ("1.5;1,5;", "")]
)
def test_a_sheet_shows_which_decimal_sign_it_uses(numbers: str, sign: str) -> None:
    assert read_file("a.csv", f"{numbers}\na;b;c\n".encode()).sheets[0].decimal == sign


@pytest.mark.parametrize("name", ["list.exe", "list.html", "list.PDF", "../list.csv.js"])
def test_a_name_of_no_list_is_refused(name: str) -> None:
    assert refusal(name, b"a;b\n1;2\n") == "unknown_extension"


@pytest.mark.parametrize(
    ("name", "text", "expected"),
    [
        ("list.xlsx", True, ["text_named_as_workbook"]),
        ("list.XLS", True, ["text_named_as_workbook"]),
        ("list.csv", False, ["workbook_named_as_text"]),
        ("list.CSV", True, []),
        ("list", True, []),
        ("list.xlsx", False, []),
    ],
)
def test_a_name_that_says_another_kind_of_file_is_told(name: str, text: bool, expected: list[str]) -> None:
    body = b"a;b\n1;2\n" if text else workbook({"Sheet": [["a", "b"], ["1", "2"]]})
    file = read_file(name, body)
    assert codes(file) == expected and [note.weight for note in file.notes] == ["please_check"] * len(expected)
    assert texts_of(file) == [["a", "b"], ["1", "2"]]
