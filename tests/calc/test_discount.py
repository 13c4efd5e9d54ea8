"""One discount over several tax classes, written a second time in fractions, and what must hold for every discount."""

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


def split_again(given: DiscountInput) -> tuple[Fraction, list[tuple[str, Fraction]]] | None:
    """In fractions, a unit at a time to the class that is furthest behind its fair share; None if it is too large."""
    sums, unit = by_class(given.lines), Fraction(1, 10**given.exponent)
    total = sum(sums.values())
    asked = Fraction(given.amount) if given.amount is not None else max(total, 0) * Fraction(given.percent or 0) / 100
    discount = floor(asked / unit + Fraction(1, 2)) * unit
    above = {name: net for name, net in sums.items() if net > 0}
    whole = sum(above.values())
    if discount > whole:
        return None
    fair = {name: discount * net / whole for name, net in above.items()}
    shares = {name: floor(each / unit) * unit for name, each in fair.items()}
    while sum(shares.values()) < discount:
        behind = max(above, key=lambda name: (fair[name] - shares[name], -list(above).index(name)))
        shares[behind] += unit
    return discount, [(name, share) for name, share in shares.items() if share]


@given(discounts())
def test_it_is_shared_by_largest_remainder(given: DiscountInput) -> None:
    again = split_again(given)
    if again is None:
        with pytest.raises(CalculationError, match="^discount_too_large: "):
            split_discount(given)
    else:
        found = split_discount(given)
        assert (found.discount, [(each.tax_class, each.amount) for each in found.allowances]) == again


def split(given: DiscountInput) -> SplitDiscount:
    """The discount, of those that are not too large."""
    assume(split_again(given) is not None)
    return split_discount(given)


@given(discounts())
def test_the_allowances_add_to_the_discount_and_none_is_more_than_its_class(given: DiscountInput) -> None:
    found, nets = split(given), by_class(given.lines)
    assert sum((each.amount for each in found.allowances), D(0)) == found.discount
    assert all(0 < each.amount <= nets[each.tax_class] for each in found.allowances)
    assert len({each.tax_class for each in found.allowances}) == len(found.allowances)


@given(discounts())
def test_the_classes_keep_the_order_in_which_the_lines_name_them(given: DiscountInput) -> None:
    named = list(dict.fromkeys(line.tax_class for line in given.lines))
    order = [named.index(each.tax_class) for each in split(given).allowances]
    assert order == sorted(order)


@given(discounts(), st.integers(0, 6))
def test_a_line_in_two_pieces_is_discounted_like_one(given: DiscountInput, at: int) -> None:
    assume(at < len(given.lines))
    line = given.lines[at]
    pieces = (ClassAmount(line.tax_class, line.amount - 7), ClassAmount(line.tax_class, D(7)))
    cut = replace(given, lines=(*given.lines[:at], *pieces, *given.lines[at + 1 :]))
    assert split(cut) == split(given)


@given(discounts())
def test_a_document_with_the_allowances_costs_less_by_the_discount(given: DiscountInput) -> None:
    found = split(given)
    lines = tuple(DocumentLine(str(at), line.tax_class, D(1), line.amount) for at, line in enumerate(given.lines))
    plain = Document(lines, taxes=(Tax("VAT", D("0.2"), CLASSES),), exponent=given.exponent)
    before, after = total_document(plain), total_document(replace(plain, allowances=found.allowances))
    assert before.net - after.net == found.discount


@given(discounts())
def test_the_steps_name_the_share_of_every_class(given: DiscountInput) -> None:
    found, nets = split(given), by_class(given.lines)
    first, *classes = found.steps
    assert first.code == ("amount" if given.percent is None else "percent_of_nets")
    assert first.named["amount"] == found.discount
    assert {step.named["tax_class"]: step.named["net"] for step in classes} == nets
    shares = {each.tax_class: each.amount for each in found.allowances}
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
