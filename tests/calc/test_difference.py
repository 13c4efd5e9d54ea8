"""Two documents of a quote: what changed, by hand and for any lines."""

from collections import Counter
from collections.abc import Sequence
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from quotes.calc.difference import (
    PriceChange,
    PricedLine,
    changed_lines,
    largest_first,
    packed_lines,
    priced_lines,
    unpacked_lines,
)

CLIP, HOSE = PricedLine("extra:clip", "Clip", "1.00", "1"), PricedLine("extra:hose", "Hose", "4.00", "2")
LINES = st.lists(
    st.builds(
        lambda key, price: PricedLine(key, key.upper(), price, "1"),
        st.sampled_from("abcd"),
        st.sampled_from(("0.00", "1.00", "2.50")),
    ),
    max_size=9,
)


def prices(lines: Sequence[PricedLine]) -> Counter[tuple[str, str]]:
    return Counter((line.title, line.price) for line in lines)


def applied(old: Sequence[PricedLine], changes: Sequence[PriceChange]) -> Counter[tuple[str, str]]:
    """The lines that are there after the changes; every line that goes has to have been there."""
    left = prices(old)
    for change in changes:
        if change.before is not None:
            assert left[change.title, change.before] > 0
            left[change.title, change.before] -= 1
    for change in changes:
        if change.after is not None:
            left[change.title, change.after] += 1
    return +left


@given(LINES, LINES)
def test_the_changes_lead_from_the_old_lines_to_the_new_ones(old: list[PricedLine], new: list[PricedLine]) -> None:
    assert applied(old, changed_lines(old, new)) == prices(new)


@given(LINES)
def test_a_document_does_not_differ_from_itself(lines: list[PricedLine]) -> None:
    assert changed_lines(lines, lines[::-1]) == ()


@given(LINES, LINES)
def test_no_change_leaves_a_price_as_it_is(old: list[PricedLine], new: list[PricedLine]) -> None:
    assert all(change.before != change.after for change in changed_lines(old, new))


@given(LINES)
def test_lines_are_read_back_as_they_were_packed(lines: list[PricedLine]) -> None:
    assert unpacked_lines(packed_lines(lines)) == lines


def test_of_two_alike_the_one_that_stays_is_not_told() -> None:
    dear = PricedLine("extra:clip", "Clip", "2.00", "2")
    assert changed_lines([CLIP, dear], [dear]) == (PriceChange("Clip", "1.00", None, "1", ""),)


def test_a_line_that_is_called_something_else_is_the_same_line() -> None:
    renamed = PricedLine("extra:clip", "Spring clip", "3.00", "3")
    assert changed_lines([CLIP, HOSE], [renamed, HOSE]) == (PriceChange("Spring clip", "1.00", "3.00", "1", "3"),)


def test_every_group_of_lines_is_read() -> None:
    document: dict[str, Any] = {
        "kits": [{"code": "K", "title": "Kit", "price": "1.00"}],
        "labour": {
            "operations": [
                {"key": "labour:A", "title": "Work", "price": "2.00", "hours": "1.5"},
                {"key": "labour:work:0f1e", "title": "Straighten it", "price": "2.50", "hours": "0.5"},
            ]
        },
        "needs": [{"key": "need:oil", "title": "Oil", "price": "3.00", "quantity": "4", "unit": "L"}],
        "outside": [{"title": "Map", "name": "Map by Firm", "price": "4.00"}],
        "extras": [{"part": None, "title": "Polish", "price": "5.00", "quantity": "1"}],
        "fees": [{"key": "fee:oil", "title": "Used oil", "price": "6.00"}],
        "discount": {"title": "Discount, 5 %", "price": "-1.00"},
    }
    assert priced_lines(document) == [
        PricedLine("kit:K", "Kit", "1.00"),
        PricedLine("labour:A", "Work", "2.00", "1.5 h"),
        PricedLine("labour:Straighten it", "Straighten it", "2.50", "0.5 h"),
        PricedLine("need:oil", "Oil", "3.00", "4 L"),
        PricedLine("outside:Map by Firm", "Map by Firm", "4.00"),
        PricedLine("extra:Polish", "Polish", "5.00", "1"),
        PricedLine("fee:oil", "Used oil", "6.00"),
        PricedLine("discount", "Discount, 5 %", "-1.00"),
    ]


def test_of_many_changes_the_largest_come_first_and_the_rest_is_apart() -> None:
    few = [PriceChange(f"Line {n}", "0.00", f"{n}.00") for n in range(1, 13)]
    assert largest_first(few) == (few, ())
    gone = PriceChange("Gone", "20.00", None)
    first, rest = largest_first([*few, gone])
    assert [change.title for change in first[:2]] == ["Gone", "Line 12"]
    assert [change.title for change in rest] == ["Line 1"]
