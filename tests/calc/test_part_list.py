"""Lists of part numbers as people paste them, line by line."""

from decimal import Decimal as D

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.calc.part_list import MOST_LINES, ListedPart, read_part_list, text_lines
from shop.calc.keys import search_key

KNOWN = {search_key(number): number for number in ("BI-NUT-10", "QF 4410", "9520000000019", "M10X40")}


def listed(text: str) -> list[tuple[str, str | None, D]]:
    return [(line.reading, line.part, line.quantity) for line in read_part_list(text_lines(text), KNOWN)]


@pytest.mark.parametrize(
    ("line", "part", "quantity"),
    [
        ("BI-NUT-10", "BI-NUT-10", "1"),
        ("bi nut 10", "BI-NUT-10", "1"),
        ("BI-NUT-10\t4", "BI-NUT-10", "4"),
        ("BI-NUT-10;Nut, flanged;4 pcs", "BI-NUT-10", "4"),
        ('"BI-NUT-10";"2,5"', "BI-NUT-10", "2.5"),
        ("4 x BI-NUT-10", "BI-NUT-10", "4"),
        ("4x BI-NUT-10 flanged nut", "BI-NUT-10", "4"),
        ("BI-NUT-10 x4", "BI-NUT-10", "4"),
        ("BI-NUT-10 flanged nut 4 pieces", "BI-NUT-10", "4"),
        ("BI-NUT-10 4 pcs 8.8", "BI-NUT-10", "4"),
        ("1\tBI-NUT-10\tNut\t6", "BI-NUT-10", "6"),
        ("QF 4410 2", "QF 4410", "2"),
        ("9520000000019 3", "9520000000019", "3"),
        ("3 9520000000019", "9520000000019", "3"),
        ("- BI-NUT-10: 2", "BI-NUT-10", "2"),
        ("M10X40\t12", "M10X40", "12"),
    ],
)
def test_a_line_is_understood(line: str, part: str, quantity: str) -> None:
    assert listed(line) == [("understood", part, D(quantity))]


@pytest.mark.parametrize("line", ["Part number\tQuantity", "No.;Description;Qty", "Total\t12", "Subtotal 3 pcs"])
def test_headings_and_sums_are_left_out(line: str) -> None:
    assert [reading for reading, *_ in listed(line)] == ["left_out"]


@pytest.mark.parametrize(("line", "number"), [("XX-99 4", "XX-99"), ("4\tXX-99", "XX-99"), ("12", "12")])
def test_a_number_that_nobody_knows_is_named(line: str, number: str) -> None:
    assert read_part_list(text_lines(line), KNOWN) == (ListedPart(1, line, "unknown", number, None, D(1)),)


def test_a_quantity_of_nothing_is_told() -> None:
    assert listed("BI-NUT-10 0") == [("no_quantity", "BI-NUT-10", D(0))]


def test_rows_keep_their_numbers_over_empty_lines() -> None:
    lines = read_part_list(text_lines("\nBI-NUT-10 1\r\n\r\nQF 4410 2\n"), KNOWN)
    assert [(line.row, line.part) for line in lines] == [(2, "BI-NUT-10"), (4, "QF 4410")]


def test_a_list_that_is_too_long_is_read_one_line_too_far() -> None:
    assert len(text_lines("BI-NUT-10\n" * (MOST_LINES + 50))) == MOST_LINES + 1


@given(st.lists(st.tuples(st.sampled_from(sorted(KNOWN.values())), st.integers(1, 99999)), max_size=8))
def test_what_a_spreadsheet_holds_is_read_as_it_is(rows: list[tuple[str, int]]) -> None:
    text = "\n".join(f"{number}\t{quantity}" for number, quantity in rows)
    assert listed(text) == [("understood", number, D(quantity)) for number, quantity in rows]


@given(st.text(max_size=200))
def test_any_text_is_read_without_an_error(text: str) -> None:
    for line in read_part_list(text_lines(text), KNOWN):
        assert line.quantity >= 0 and line.text
