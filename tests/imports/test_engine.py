"""Tables in realistic files: headings in any order below any title block, rows without data, and findings."""

import csv
import io
import sys
import time
from collections.abc import Mapping
from decimal import Decimal

import pytest

from kitting.imports.kit import KIND as KIT
from shop.imports.customers import KIND as CUSTOMERS
from shop.imports.labour import KIND as LABOUR
from shop.tables.engine import ParsedFile, read
from shop.tables.findings import Finding, gathered
from shop.tables.repairs import NO_REPAIRS, PlaceRange, Repairs
from tests.imports.files import KIT_HEAD, LINES, workbook


def kit(text: str, mapping: Mapping[str, str] | None = None, repairs: Repairs = NO_REPAIRS) -> ParsedFile:
    return read(KIT, "kit.csv", text.encode(), mapping, repairs)


def findings_of(reading: ParsedFile, code: str) -> list[Finding]:
    return [finding for finding in reading.findings if finding.code == code]


def numbers(reading: ParsedFile) -> list[str]:
    return [row.get("number") for row in reading.of("lines")]


def test_columns_are_known_by_their_headings_in_any_order() -> None:
    reading = kit("GTIN;PIECES;Item number;Description\n;2;A-1;Bolt\n;3;A-2;Nut\n")
    assert [(row.get("number"), row.get("quantity").amount, row.get("title")) for row in reading.of("lines")] == [
        ("A-1", Decimal(2), "Bolt"),
        ("A-2", Decimal(3), "Nut"),
    ]


def test_the_title_block_above_says_which_kit_it_is() -> None:
    reading = kit(
        "Quillfen Supply\nKit No.: K-1\nPrice;1.124,00;Currency;EUR\nLead time (days);9\n\n" + LINES + "1;;A;;1;;;\n"
    )
    assert reading.title == {"kit": "K-1", "cost": Decimal("1124.00"), "currency": "EUR", "lead_days": 9}
    assert reading.title_place("cost").cell == "B3"


def test_a_title_block_may_have_a_sheet_of_its_own() -> None:
    body = workbook(
        {"Kit": [["Kit", "K-1"], ["Supplier", "Quillfen Supply"]], "Lines": [["No", "Part no", "Qty"], [1, "A", 2]]}
    )
    reading = read(KIT, "kit.xlsx", body)
    assert reading.title["kit"] == "K-1" and numbers(reading) == ["A"]
    assert not findings_of(reading, "sheet_left_out")


def test_a_sheet_of_something_else_is_left_out_and_said() -> None:
    reading = read(KIT, "kit.xlsx", workbook({"Letter": [["Dear customer"]], "Lines": [["Part no", "Qty"], ["A", 2]]}))
    assert [finding.sheet for finding in findings_of(reading, "sheet_left_out")] == ["Letter"]


def test_group_headings_merged_above_the_headings_are_no_headings() -> None:
    rows = [["Packed in", None, "Part", None], ["Carton", "Bag", "Number", "Qty"], [1, "1-01", "A", 2]]
    reading = read(KIT, "kit.xlsx", workbook({"S": rows}, {"S": ["A1:B1", "C1:D1"]}))
    assert numbers(reading) == ["A"] and findings_of(reading, "row_above")


def test_a_heading_merged_over_two_rows_counts_in_the_lower_one() -> None:
    rows = [["Carton", "Part", None], [None, "Number", "Qty"], [1, "A", 2]]
    reading = read(KIT, "kit.xlsx", workbook({"S": rows}, {"S": ["A1:A2", "B1:C1"]}))
    assert reading.of("lines")[0].get("carton") == "1"


def test_blank_section_and_total_rows_are_no_lines() -> None:
    reading = kit(
        LINES + "CARTON 1;;;;;;;\n1;;A;Bolt;2;;;\n\n1;;B;Nut;3;;;\nTotal;;;2 lines;5;;;\n;;;;;;;\n;;;Subtotal:;5;;;\n"
    )
    assert numbers(reading) == ["A", "B"]
    assert [finding.row for finding in findings_of(reading, "total_left_out")] == [6, 8]
    assert dict(findings_of(reading, "places_in_rows")[0].facts) == {"n": "1"}
    assert reading.skipped == 6  # the headings, a section, two blank rows, two totals


def test_a_part_called_total_is_a_part() -> None:
    assert numbers(kit(LINES + "1;;T-1;Total seal set;1;;;\n1;;T-2;Total;1;;;\n")) == ["T-1", "T-2"]


def test_a_row_knows_the_section_it_stands_under() -> None:
    reading = read(LABOUR, "labour.csv", b"Code;Title;Skill;Hours\nBody\nA;x;fit;1\nEngine\nB;y;fit;1\n")
    assert [row.section for row in reading.rows] == ["Body", "Engine"]


def test_headings_repeated_on_every_page_are_left_out() -> None:
    reading = kit(LINES + "1;;A;;1;;;\n" + LINES + "1;;B;;1;;;\n")
    assert numbers(reading) == ["A", "B"] and [finding.row for finding in findings_of(reading, "heading_again")] == [3]
    numbered = "Pos;Part no;Qty\n1;A;1\nCarton 2 of 2;;\nPos;Part no;Qty\n2;B;1\n"
    assert numbers(kit(numbered)) == ["A", "B"], "the first column is none that we know"


def test_tables_may_stand_one_under_another() -> None:
    reading = kit(LINES + "1;;A;;1;;;\n\nNot in the box\nFamily;Quantity;Charged\nBrake fluid;1,2;pack\n")
    assert numbers(reading) == ["A"]
    assert [row.get("family") for row in reading.of("needs")] == ["Brake fluid"]


def test_columns_nobody_knows_are_said_and_a_second_one_of_a_kind_is_to_be_looked_at() -> None:
    reading = kit("Part no;Qty;Colour;Description;Title\nA;1;red;Bolt;Bolt M8\n")
    assert [(finding.cell, finding.says) for finding in findings_of(reading, "column_left_out")] == [("C1", "Colour")]
    assert [(finding.weight, finding.cell) for finding in findings_of(reading, "heading_twice")] == [
        ("please_check", "E1")
    ]
    assert reading.of("lines")[0].get("title") == "Bolt"


def test_a_mapping_wins_over_what_a_heading_seems_to_say() -> None:
    text = "Part no;Qty;Per car;Remark\nA;99;2;Bolt\n"
    row = kit(text, {"quantity": "per CAR", "title": "Remark"}).of("lines")[0]
    assert (row.get("quantity").amount, row.get("title")) == (Decimal(2), "Bolt")


def test_a_mapping_wins_even_over_a_heading_of_another_field() -> None:
    row = kit("Part no;Qty;Bag\nA;2;Bolt\n", {"title": "Bag"}).of("lines")[0]
    assert (row.get("title"), row.get("bag")) == ("Bolt", None)


def test_a_mapping_makes_headings_of_another_language_known() -> None:
    reading = kit("Teil;Menge\nA;2\n", {"number": "Teil", "quantity": "Menge"})
    assert numbers(reading) == ["A"]


def test_a_mapping_to_a_heading_that_is_not_there_is_refused_and_says_what_is() -> None:
    (finding,) = findings_of(kit("Part no;Qty\nA;2\n", {"title": "Remark"}), "mapping_heading_unknown")
    assert finding.weight == "must_fix" and dict(finding.facts)["there"] == "Part no, Qty"


def test_a_mapping_of_a_field_that_is_not_there_is_refused() -> None:
    (finding,) = findings_of(kit("Part no;Qty\nA;2\n", {"colour": "Qty"}), "mapping_field_unknown")
    assert "quantity" in dict(finding.facts)["known"]


def test_a_missing_column_is_named_beside_the_headings_found() -> None:
    reading = kit("Part no;Description;Bag\nA;Bolt;1\n")
    assert [(finding.row, finding.field) for finding in findings_of(reading, "column_missing")] == [(1, "quantity")]
    assert reading.headings[0][1].number == 1 and not reading.rows
    assert findings_of(reading, "rows_above") == []


def test_headings_further_down_with_an_unknown_word_are_no_line_of_the_list_above() -> None:
    text = "Part no;Description;Qty\nA;Bolt;2\n\nWork;Firm;Fee;Tax class\nBalancing;Fellmark;80;part\n"
    reading = kit(text)
    assert [(finding.row, finding.field) for finding in findings_of(reading, "column_missing")] == [(4, "cost")]
    assert numbers(reading) == ["A"] and len(reading.rows) == 1
    assert [(line.number, line.why) for line in reading.left_out] == [(1, "heading"), (4, "heading"), (5, "no_column")]
    whole = kit(text, {"outside work.cost": "Fee", "contents.bag": "Description"})
    assert not findings_of(whole, "column_missing") and whole.of("outside work")[0].get("cost") == 80
    assert whole.of("lines")[0].get("bag") == "Bolt"


def test_nothing_like_headings_is_refused() -> None:
    assert findings_of(kit("alpha;beta\n1;2\n"), "no_headings")


def test_a_list_without_headings_is_read_by_the_letters_of_its_columns() -> None:
    text = "QF-101;Bolt;;4\nQF-102;Nut;;2\nQF-102;Washer;;3\n"
    unread = kit(text)
    columns = [("A", ("QF-101", "QF-102")), ("B", ("Bolt", "Nut", "Washer")), ("D", ("4", "2", "3"))]
    assert [(column.letters, column.holds) for column in unread.headings[0][1].columns] == columns
    assert [finding.code for finding in unread.findings] == ["no_headings"] and not unread.rows
    partly = kit(text, {"number": "column A"})
    assert [(finding.code, finding.field) for finding in partly.findings] == [("column_missing", "quantity")]
    reading = kit(text, {"number": "column A", "quantity": "Column D"})
    assert [(row.number, row.get("number"), row.get("quantity").amount) for row in reading.of("lines")] == [
        (1, "QF-101", 4),
        (2, "QF-102", 2),
        (3, "QF-102", 3),
    ]
    assert [(column.letters, column.holds) for column in reading.headings[0][1].columns] == columns
    assert [(finding.facts, finding.says) for finding in findings_of(reading, "letter_left_out")] == [
        ((("column", "B"),), "Bolt, Nut, Washer")
    ]
    assert not reading.skipped and not [finding for finding in reading.findings if finding.weight == "must_fix"]
    headed = kit(LINES + "QF-9;1\n", {"number": "column B", "quantity": "column A"})
    assert numbers(headed) == numbers(kit(LINES + "QF-9;1\n")), "headings that are known come first"
    assert len(findings_of(headed, "mapping_heading_unknown")) == 2


def test_one_column_chosen_by_its_letter_is_enough_where_a_list_needs_no_more() -> None:
    for letter, names in (("A", ["Ada", "Bea"]), ("C", ["Rowan"])):
        reading = read(CUSTOMERS, "names.csv", b"Ada;1;\nBea;2;Rowan\n", {"name": f"column {letter}"})
        assert [row.get("name") for row in reading.of("customers") if row.get("name")] == names
        assert {column.letters for column in reading.headings[0][1].columns if column.field} == {letter}


def test_the_title_above_a_list_without_headings_is_no_line_of_it() -> None:
    text = "Quillfen Supply;List 7;;November\nKit;K-1\n\nBag 1;;;\nQF-101;Bolt;;4\nQF-102;;;2\nQF-103;Nut;;\n"
    mapping = {"number": "column A", "quantity": "column D"}
    reading = kit(text, mapping)
    assert reading.title == {"kit": "K-1"}
    assert [(row.number, row.get("number"), row.get("bag")) for row in reading.of("lines")] == [
        (5, "QF-101", "1"),
        (6, "QF-102", "1"),
        (7, "QF-103", "1"),
    ]
    question = next(question for question in reading.questions if question.key == "titles")
    assert not question.open and dict(question.facts) == {"n": "3", "rows": "1, 2, 4", "row": "5"}
    assert reading.headings[0][1].columns[0].holds == ("QF-101", "QF-102", "QF-103")
    others = kit(text, mapping, Repairs(answers={"titles": "lines"}))
    assert [row.number for row in others.of("lines")] == [1, 2, 5, 6, 7]


def test_a_list_without_headings_and_without_a_whole_line_begins_at_the_top() -> None:
    reading = kit("QF-101;few\nQF-102;some\n", {"number": "column A", "quantity": "column B"})
    assert [row.number for row in reading.of("lines")] == [1, 2] and not reading.questions


def test_a_title_of_one_cell_is_no_customer() -> None:
    mapping = {"name": "column A", "phone": "column B"}
    reading = read(CUSTOMERS, "names.csv", b"Customers 2026;\nAda;0100 1\nBea;\n", mapping)
    assert [row.get("name") for row in reading.of("customers")] == ["Ada", "Bea"]


def test_only_headings_is_refused() -> None:
    assert findings_of(kit(LINES), "only_headings")


def test_a_file_that_cannot_be_read_is_a_finding_like_any_other() -> None:
    reading = read(KIT, "kit.pdf", b"%PDF-1.7")
    assert [(finding.weight, finding.code) for finding in reading.findings] == [("must_fix", "not_a_table")]


def test_every_problem_is_said_with_its_cell_and_what_stands_there() -> None:
    reading = kit(KIT_HEAD + LINES + "1;;A;Bolt;a few;;CVT only;\n1;;;Nut;2;;;\n")
    assert [
        (finding.code, finding.cell, finding.says) for finding in reading.findings if finding.weight == "must_fix"
    ] == [
        ("not_a_number", "E5", "a few"),
        ("unknown_condition", "G5", "CVT only"),
        ("missing_value", "C6", ""),
    ]


def test_a_lone_code_is_a_section_but_a_lone_quantity_is_a_mistake() -> None:
    reading = read(LABOUR, "l.csv", b"Code,Title,Skill,Hours\nFor every job,,,\nA-1,Wash,mechanical,0.5\n,,,0.7\n")
    assert [row.get("code") for row in reading.of("operations")] == ["A-1", None]
    assert [finding.cell for finding in findings_of(reading, "missing_value")] == ["A4", "B4", "C4"]


def test_many_notes_of_one_kind_are_counted_but_must_fix_is_listed() -> None:
    notes = [Finding("please_check", "decimal_comma", row=row, column="E") for row in range(50)]
    wrong = [Finding("must_fix", "not_a_number", row=row, column="E") for row in range(30)]
    selected = gathered([*notes, *wrong])
    assert [finding.weight for finding in selected] == ["must_fix"] * 30 + ["please_check"] * 5
    assert dict(selected[-1].facts) == {"more": "45"}


def long_kit(rows: int) -> bytes:
    out = io.StringIO()
    writer = csv.writer(out, delimiter=";")
    writer.writerow(["Carton", "Bag", "Part no.", "Description", "Qty", "Fits"])
    for row in range(rows):
        writer.writerow([row // 500, f"B{row // 20}", f"P-{row:05d}", f"Bolt {row}", "2 pcs" if row % 7 else "1,5", ""])
    return out.getvalue().encode()


def test_ten_thousand_rows_take_no_more_than_their_share() -> None:
    """Growth, not speed: four times the rows may take about four times the work, counted in calls."""
    assert 3.0 < work(1600) / work(400) < 4.5


def work(rows: int) -> int:
    calls = 0

    def count(frame: object, event: str, argument: object) -> None:
        nonlocal calls
        calls += event == "call"

    body = long_kit(rows)
    sys.setprofile(count)
    try:
        KIT.plan(read(KIT, "k.csv", body))
    finally:
        sys.setprofile(None)
    return calls


@pytest.mark.bench
def test_ten_thousand_rows_in_three_seconds() -> None:
    body = long_kit(9_999)
    began = time.perf_counter()
    KIT.plan(read(KIT, "k.csv", body))
    assert time.perf_counter() - began < 3


def test_nobody_is_asked_for_the_bag_of_a_row_that_is_left_out_or_put_into_one() -> None:
    text = "Bag;Part no;Qty\n1;A;2\n;LEAFLET;1\n2;B;1\n2;C;1\n"
    assert [question.key for question in kit(text).questions] == ["empty:bag"]
    for repairs, left in (
        (Repairs(left_out=frozenset({("", 3)})), ["LEAFLET · 1"]),
        (Repairs(texts_left_out=frozenset({"LEAFLET · 1"})), ["LEAFLET · 1"]),
        (Repairs(ranges=(PlaceRange("", 3, 3, {"carton": "", "bag": "2"}),)), []),
    ):
        reading = kit(text, repairs=repairs)
        assert not reading.questions and not findings_of(reading, "in_no_bag")
        assert [line.text for line in reading.left_out if line.why == "by_you"] == left
    filled = kit("Bag;Part no;Qty\n1;A;2\n;X;1\n;Y;1\n", repairs=Repairs(texts_left_out=frozenset({"1 · X · 1"})))
    assert numbers(filled) == ["A", "Y"]  # as the last version of the tool remembered a row that it had filled
