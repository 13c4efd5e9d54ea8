"""Items taken off and items kept add up to the sum agreed, to the last cent."""

from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.calc.agreed import agreed_items, discount_shares, with_own_work
from quotes.calc.discount import DiscountInput, split_discount
from quotes.calc.job_ceiling import AcceptedChange, job_ceiling
from shop.calc.document import ClassAmount

CENTS = st.integers(0, 500_000).map(lambda cents: Decimal(cents).scaleb(-2))
LINES = st.lists(st.tuples(st.sampled_from(["part", "labour", "outside work"]), CENTS), min_size=1, max_size=12)


@given(LINES, st.integers(0, 100), st.data())
def test_taken_off_and_kept_are_what_was_agreed(
    lines: list[tuple[str, Decimal]], percent: int, data: st.DataObject
) -> None:
    amounts = tuple(ClassAmount(*line) for line in lines)
    allowances = split_discount(DiscountInput(amounts, percent=Decimal(percent))).allowances
    shares = discount_shares(lines, {allowance.tax_class: allowance.amount for allowance in allowances}, 2)
    values = [price - share for (_, price), share in zip(lines, shares, strict=True)]
    taken = data.draw(st.sets(st.integers(0, len(lines) - 1)))
    agreed = sum(price for _, price in lines) - sum(allowance.amount for allowance in allowances)
    off = sum((value for at, value in enumerate(values) if at in taken), Decimal(0))
    rest = sum((value for at, value in enumerate(values) if at not in taken), Decimal(0))
    assert off + rest == agreed and all(value >= 0 for value in values)


def text(discount: dict[str, Any] | None, allowances: list[dict[str, str]]) -> dict[str, Any]:
    """Two kits that share one operation; 10 % off is 60 of 600."""
    work = {"skill": "mechanical", "hours": "1.0"}
    return {
        "shop": {"exponent": 2},
        "rules": {"ceiling": {"kind": "percent", "share": "10", "amount": "0.00"}},
        "shown": {
            "kits": [
                {"line": "1", "letter": "A", "title": "Turbo", "price": "300.00"},
                {"line": "2", "letter": "B", "title": "Towing", "price": "100.00"},
            ],
            "labour": {
                "operations": [
                    work | {"key": "labour:BOTH", "title": "Bumper", "kits": ["A", "B"], "price": "60.00"},
                    work | {"key": "labour:ONE", "title": "Turbo fitted", "kits": ["A"], "price": "90.00"},
                ]
            },
            "needs": [{"key": "oil", "title": "Oil", "kits": ["A"], "price": "50.00"}],
            "extras": [],
            "outside": [],
            "discount": discount,
            "totals": {"gross": "540.00"},
        },
        "inputs": {
            "exponent": 2,
            "allowances": allowances,
            "lines": [
                {"id": "kit:1", "tax_class": "part"},
                {"id": "kit:2", "tax_class": "part"},
                {"id": "labour:mechanical", "tax_class": "labour"},
                {"id": "need:oil", "tax_class": "part"},
            ],
        },
    }


TEN_PERCENT = [{"tax_class": "part", "amount": "45.00"}, {"tax_class": "labour", "amount": "15.00"}]


@pytest.mark.parametrize(
    ("discount", "values"),
    [
        (None, ["300.00", "100.00", "60.00", "90.00", "50.00"]),
        ({"percent": "10"}, ["270.00", "90.00", "54.00", "81.00", "45.00"]),
        ({"percent": None}, ["300.00", "100.00", "60.00", "90.00", "50.00"]),
    ],
)
def test_an_item_counts_its_price_less_its_share_of_a_discount_in_percent(
    discount: dict[str, Any] | None, values: list[str]
) -> None:
    assert [str(item.value) for item in agreed_items(text(discount, TEN_PERCENT if discount else []))] == values


@pytest.mark.parametrize(
    ("chosen", "gone", "going"),
    [
        (["kit:1"], [], ["kit:1", "labour:ONE", "need:oil"]),
        (["kit:2"], [], ["kit:2"]),
        (["kit:1", "kit:2"], [], ["kit:1", "kit:2", "labour:BOTH", "labour:ONE", "need:oil"]),
        (["kit:2"], ["kit:1", "labour:ONE", "need:oil"], ["kit:2", "labour:BOTH"]),
        (["labour:BOTH"], [], ["labour:BOTH"]),
    ],
)
def test_a_kit_takes_with_it_the_work_that_no_other_kit_has(
    chosen: list[str], gone: list[str], going: list[str]
) -> None:
    assert list(with_own_work(agreed_items(text(None, [])), chosen, gone)) == going


@pytest.mark.parametrize(
    ("rule", "changes", "left"),
    [
        ({"kind": "percent", "share": "10"}, [], "54.00"),
        ({"kind": "percent", "share": "10"}, [("20.00", True), ("30.00", False), ("-15.00", True)], "34.00"),
        ({"kind": "maximum", "share": "0", "maximum": "600.00"}, [("20.00", True), ("30.00", False)], "10.00"),
        ({"kind": "amount", "share": "0", "amount": "70.00"}, [("20.00", True)], "50.00"),
        ({"kind": "none", "share": "0"}, [], "0.00"),
    ],
)
def test_the_ceiling_of_a_job_is_that_of_its_first_quote(
    rule: dict[str, str], changes: list[tuple[str, bool]], left: str
) -> None:
    document = text(None, []) | {"rules": {"ceiling": rule}}
    check = job_ceiling(document, [AcceptedChange(Decimal(gross), unasked) for gross, unasked in changes])
    assert check is not None and str(check.left) == left


def test_a_text_from_before_ceilings_has_none() -> None:
    assert job_ceiling(text(None, []) | {"rules": {}}) is None
