"""A second implementation of totals from their document, in fractions: tax on top, tax inside, supplies, order."""

from dataclasses import replace
from decimal import Decimal as D
from fractions import Fraction
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from shop.calc.document import ClassAmount, Document, DocumentLine, Rounding, Supplies, Tax
from shop.calc.tax import total_document
from tests.calc.test_landed_oracle import half_up, shared_out
from tests.calc.test_tax import CLASSES, documents, tax_lists
from tests.examples import many

Items = list[tuple[str, Fraction]]


@st.composite
def in_any_currency(draw: st.DrawFn) -> Document:
    """The documents of `documents`, converted to a currency with no, two or three decimal places."""
    document, exponent = draw(documents()), draw(st.sampled_from([0, 2, 2, 3]))

    def moved(amount: D) -> D:
        return amount.scaleb(2 - exponent)

    def moved_all(amounts: tuple[ClassAmount, ...]) -> tuple[ClassAmount, ...]:
        return tuple(ClassAmount(amount.tax_class, moved(amount.amount)) for amount in amounts)

    lines = tuple(
        replace(
            line,
            id=str(at),
            allowances=tuple(map(moved, line.allowances)),
            charges=tuple(map(moved, line.charges)),
        )
        for at, line in enumerate(document.lines)
    )
    return replace(
        document,
        exponent=exponent,
        lines=lines,
        allowances=moved_all(document.allowances),
        charges=moved_all(document.charges),
        paid=moved(document.paid),
        payable_rounding=D(0),
    )


def items_of(document: Document) -> tuple[Items, Fraction]:
    """(tax class, amount) of all taxed items, including the supplies."""
    items: Items = []
    for line in document.lines:
        price = Fraction(line.quantity) * Fraction(line.unit_price) / Fraction(line.base_quantity)
        own = sum(map(Fraction, line.charges)) - sum(map(Fraction, line.allowances))
        items.append((line.tax_class, half_up(price, document.exponent) + own))
    supplies = Fraction(0)
    if document.supplies is not None:
        given_supplies = document.supplies
        share = sum((net for tax_class, net in items if tax_class in given_supplies.basis), Fraction(0))
        limits = [share * Fraction(given_supplies.rate)]
        limits += [] if given_supplies.cap is None else [Fraction(given_supplies.cap)]
        supplies = half_up(max(min(limits), Fraction(0)), document.exponent)
        items.append((given_supplies.tax_class, supplies))
    items += [(allowance.tax_class, -Fraction(allowance.amount)) for allowance in document.allowances]
    items += [(charge.tax_class, Fraction(charge.amount)) for charge in document.charges]
    return items, supplies


def put_on(tax: Tax, items: Items, document: Document) -> Fraction:
    """A tax on the classes that it names, and on the taxes below for the classes that both name."""
    taxes = {tax.code: tax for tax in document.taxes}
    named = [(tax_class, net) for tax_class, net in items if tax_class in tax.classes]
    below = sum((put_on(taxes[code], named, document) for code in tax.on_top_of), Fraction(0))
    return half_up((sum((net for _, net in named), Fraction(0)) + below) * Fraction(tax.rate), document.exponent)


def effective(tax: Tax, tax_class: str, taxes: dict[str, Tax]) -> Fraction:
    if tax_class not in tax.classes:
        return Fraction(0)
    return Fraction(tax.rate) * (1 + sum(effective(taxes[code], tax_class, taxes) for code in tax.on_top_of))


def taken_out(tax_class: str, gross: Fraction, document: Document) -> dict[str, Fraction]:
    taxes = {tax.code: tax for tax in document.taxes}
    rates = {code: effective(tax, tax_class, taxes) for code, tax in taxes.items() if tax_class in tax.classes}
    together = sum(rates.values(), Fraction(0))
    inside = half_up(gross * together / (1 + together), document.exponent)
    shares = shared_out(abs(inside), list(rates.values()), document.exponent)
    return {code: share if inside >= 0 else -share for code, share in zip(rates, shares, strict=True)}


def taxes_of(document: Document, items: Items) -> dict[str, Fraction]:
    classes = dict.fromkeys(tax_class for tax_class, _ in items)
    by_class = [(c, sum((net for of, net in items if of == c), Fraction(0))) for c in classes]
    whole = document.rounding is Rounding.DOCUMENT
    amounts = {tax.code: Fraction(0) for tax in document.taxes}
    if document.prices_include_tax:
        for tax_class, gross in by_class if whole else items:
            for code, share in taken_out(tax_class, gross, document).items():
                amounts[code] += share
    else:
        for portion in [items] if whole else [[item] for item in items]:
            for tax in document.taxes:
                amounts[tax.code] += put_on(tax, portion, document)
    return amounts


@settings(max_examples=many(300))
@given(in_any_currency())
def test_every_figure_is_what_the_document_says(document: Document) -> None:
    totals = total_document(document)
    items, supplies = items_of(document)
    stated, taxes = sum((amount for _, amount in items), Fraction(0)), taxes_of(document, items)
    assert totals.supplies == supplies
    assert [line.amount for line in totals.lines] == [amount for _, amount in items[: len(document.lines)]]
    assert {tax.code: tax.amount for tax in totals.taxes} == taxes
    assert totals.tax_total == sum(taxes.values())
    assert (totals.gross if document.prices_include_tax else totals.net) == stated
    assert totals.net + totals.tax_total == totals.gross
    assert totals.due == totals.gross - document.paid


@given(in_any_currency(), st.randoms(use_true_random=False))
def test_the_order_of_lines_and_taxes_changes_no_total(document: Document, chance: Any) -> None:
    """Except for the last cents inside a price: if two taxes have an equal claim, the one listed first gets it."""

    def shuffled(things: tuple[Any, ...]) -> tuple[Any, ...]:
        return tuple(chance.sample(things, len(things)))

    other = replace(
        document,
        lines=shuffled(document.lines),
        allowances=shuffled(document.allowances),
        charges=shuffled(document.charges),
        taxes=document.taxes if document.prices_include_tax else shuffled(document.taxes),
    )
    first, again = total_document(document), total_document(other)
    assert (first.net, first.tax_total, first.gross, first.due) == (again.net, again.tax_total, again.gross, again.due)
    assert first.supplies == again.supplies
    assert {tax.code: tax.amount for tax in first.taxes} == {tax.code: tax.amount for tax in again.taxes}


@given(documents(), st.none() | st.sampled_from([D(0), D("0.01"), D(75)]), st.decimals("0", "0.2", places=3))
def test_supplies_never_pass_their_cap_nor_fall_below_nothing(document: Document, cap: D | None, rate: D) -> None:
    bounded = total_document(replace(document, supplies=Supplies(("labour", "part"), rate, cap, "fee")))
    free = total_document(replace(document, supplies=Supplies(("labour", "part"), rate, None, "fee")))
    assert bounded.supplies == (free.supplies if cap is None else min(free.supplies, cap)) >= 0
    without = replace(document, allowances=(), charges=(), supplies=Supplies(("labour", "part"), rate, cap, "fee"))
    assert total_document(without).supplies == bounded.supplies


@given(documents(), st.sampled_from(CLASSES), st.decimals("0", "500", places=2))
def test_a_dearer_document_is_never_cheaper_with_its_tax(document: Document, tax_class: str, price: D) -> None:
    dearer = replace(document, lines=(*document.lines, DocumentLine("more", tax_class, D(1), price)))
    first, second = total_document(document), total_document(dearer)
    assert first.gross <= second.gross
    if not document.prices_include_tax:
        assert first.tax_total <= second.tax_total


@given(tax_lists(), st.decimals("-9999", "9999", places=2))
def test_what_no_tax_names_is_untaxed(taxes: tuple[Tax, ...], price: D) -> None:
    for included in (True, False):
        line = DocumentLine("1", "untaxed", D(1), price)
        totals = total_document(Document((line,), taxes=taxes, prices_include_tax=included))
        assert (totals.net, totals.tax_total, totals.gross) == (price, 0, price)
        assert [tax.code for tax in totals.taxes] == [tax.code for tax in taxes]


def test_a_cap_of_nothing_is_a_cap() -> None:
    line, rate = DocumentLine("1", "labour", D(1), D(100)), D("0.06")
    for cap, charged in ((D(0), D(0)), (None, D(6)), (D("5.99"), D("5.99"))):
        assert total_document(Document((line,), supplies=Supplies(("labour",), rate, cap, "fee"))).supplies == charged
