"""The discount over several tax classes, compared with a second implementation in fractions, and its properties."""

from collections import defaultdict
from dataclasses import replace
from decimal import Decimal as D
from fractions import Fraction
from math import floor
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from quotes.calc.discount import DiscountInput, SplitDiscount, split_discount
from shop.calc.document import ClassAmount, Document, DocumentLine, Tax
from shop.calc.errors import CalculationError
from shop.calc.reason import Reason
from shop.calc.tax import total_document

CLASSES = ("part", "labour", "fluid", "fee")


@st.composite
def discounts(draw: st.DrawFn) -> DiscountInput:
    exponent = draw(st.sampled_from([0, 2, 3]))
    nets = st.integers(-9_000, 90_000).map(lambda units: D(units).scaleb(-exponent))
    alike = st.sampled_from([D(10), D(10), D(-5)])
    lines = draw(st.lists(st.builds(ClassAmount, st.sampled_from(CLASSES), nets | alike), max_size=7))
    if draw(st.booleans()):
        return DiscountInput(tuple(lines), percent=draw(st.decimals("0", "60", places=1)), exponent=exponent)
    units = draw(st.integers(0, 3) | st.integers(0, 120_000))
    return DiscountInput(tuple(lines), amount=D(units).scaleb(-exponent), exponent=exponent)


def by_class(lines: tuple[ClassAmount, ...]) -> dict[str, Fraction]:
    sums: dict[str, Fraction] = defaultdict(Fraction)
    for line in lines:
        sums[line.tax_class] += Fraction(line.amount)
    return sums


def split_oracle(discount_input: DiscountInput) -> tuple[Fraction, list[tuple[str, Fraction]]] | None:
    """Gives one unit at a time to the class furthest below its fair share; None if the discount is too large."""
    sums, unit = by_class(discount_input.lines), Fraction(1, 10**discount_input.exponent)
    total = sum(sums.values())
    amount = (
        Fraction(discount_input.amount)
        if discount_input.amount is not None
        else max(total, 0) * Fraction(discount_input.percent or 0) / 100
    )
    discount = floor(amount / unit + Fraction(1, 2)) * unit
    above = {name: net for name, net in sums.items() if net > 0}
    whole = sum(above.values())
    if discount > whole:
        return None
    fair = {name: discount * net / whole for name, net in above.items()}
    shares = {name: floor(allowance / unit) * unit for name, allowance in fair.items()}
    while sum(shares.values()) < discount:
        behind = max(above, key=lambda name: (fair[name] - shares[name], -list(above).index(name)))
        shares[behind] += unit
    return discount, [(name, share) for name, share in shares.items() if share]


@given(discounts())
def test_it_is_shared_by_largest_remainder(discount_input: DiscountInput) -> None:
    expected = split_oracle(discount_input)
    if expected is None:
        with pytest.raises(CalculationError, match="^discount_too_large: "):
            split_discount(discount_input)
    else:
        result = split_discount(discount_input)
        assert (
            result.discount,
            [(allowance.tax_class, allowance.amount) for allowance in result.allowances],
        ) == expected


def split(discount_input: DiscountInput) -> SplitDiscount:
    """Splits the discount; skips examples in which it is too large."""
    assume(split_oracle(discount_input) is not None)
    return split_discount(discount_input)


@given(discounts())
def test_the_allowances_add_to_the_discount_and_none_is_more_than_its_class(discount_input: DiscountInput) -> None:
    result, nets = split(discount_input), by_class(discount_input.lines)
    assert sum((allowance.amount for allowance in result.allowances), D(0)) == result.discount
    assert all(0 < allowance.amount <= nets[allowance.tax_class] for allowance in result.allowances)
    assert len({allowance.tax_class for allowance in result.allowances}) == len(result.allowances)


@given(discounts())
def test_the_classes_keep_the_order_in_which_the_lines_name_them(discount_input: DiscountInput) -> None:
    named = list(dict.fromkeys(line.tax_class for line in discount_input.lines))
    order = [named.index(allowance.tax_class) for allowance in split(discount_input).allowances]
    assert order == sorted(order)


@given(discounts(), st.integers(0, 6))
def test_a_line_in_two_pieces_is_discounted_like_one(discount_input: DiscountInput, at: int) -> None:
    assume(at < len(discount_input.lines))
    line = discount_input.lines[at]
    pieces = (ClassAmount(line.tax_class, line.amount - 7), ClassAmount(line.tax_class, D(7)))
    cut = replace(discount_input, lines=(*discount_input.lines[:at], *pieces, *discount_input.lines[at + 1 :]))
    assert split(cut) == split(discount_input)


@given(discounts())
def test_a_document_with_the_allowances_costs_less_by_the_discount(discount_input: DiscountInput) -> None:
    result = split(discount_input)
    lines = tuple(
        DocumentLine(str(at), line.tax_class, D(1), line.amount) for at, line in enumerate(discount_input.lines)
    )
    plain = Document(lines, taxes=(Tax("VAT", D("0.2"), CLASSES),), exponent=discount_input.exponent)
    before, after = total_document(plain), total_document(replace(plain, allowances=result.allowances))
    assert before.net - after.net == result.discount


@given(discounts())
def test_the_steps_name_the_share_of_every_class(discount_input: DiscountInput) -> None:
    result, nets = split(discount_input), by_class(discount_input.lines)
    first, *classes = result.steps
    assert first.code == ("amount" if discount_input.percent is None else "percent_of_nets")
    assert first.named["amount"] == result.discount
    assert {step.named["tax_class"]: step.named["net"] for step in classes} == nets
    shares = {allowance.tax_class: allowance.amount for allowance in result.allowances}
    for step in classes:
        assert (step.code == "share") == (step.named["net"] > 0)
        assert step.named.get("amount", 0) == shares.get(step.named["tax_class"], 0)


def test_the_steps_of_a_percentage_beside_a_class_below_zero() -> None:
    lines = (ClassAmount("part", D("300.00")), ClassAmount("fluid", D("-50.00")))
    assert split_discount(DiscountInput(lines, percent=D(10))).steps == (
        Reason.of("percent_of_nets", percent=D(10), nets=D("250.00"), amount=D("25.00")),
        Reason.of("share", tax_class="part", net=D("300.00"), amount=D("25.00")),
        Reason.of("no_share", tax_class="fluid", net=D("-50.00")),
    )


def test_no_lines_take_no_discount() -> None:
    assert split_discount(DiscountInput((), percent=D(10))).allowances == ()
    with pytest.raises(CalculationError, match=r"^discount_too_large: 0\.01 of 0$"):
        split_discount(DiscountInput((), amount=D("0.01")))


@pytest.mark.parametrize(
    ("fields", "refusal"),
    [
        ({"amount": D("-0.01")}, "bad_discount: amount -0.01"),
        ({"percent": D("-0.5")}, "bad_discount: percent -0.5"),
        ({}, "bad_discount: neither percent nor amount"),
        ({"percent": D(0), "amount": D(0)}, "bad_discount: percent and amount"),
        ({"percent": D("100.1")}, "discount_too_large: 100.10 of 100.00"),
        ({"percent": 2.5}, "not_exact: percent 2.5"),
        ({"amount": D("NaN")}, "not_exact: amount Decimal('NaN')"),
        ({"percent": D(5), "lines": (ClassAmount("part", 5.5),)}, "not_exact: part 5.5"),
    ],
)
def test_it_refuses_and_names_the_culprit(fields: dict[str, Any], refusal: str) -> None:
    with pytest.raises(CalculationError) as refused:
        split_discount(replace(DiscountInput((ClassAmount("part", D("100.00")),)), **fields))
    assert str(refused.value) == refusal
