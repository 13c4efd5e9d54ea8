"""Totals of one document: properties of any document. The worked cases are in the vectors."""

from dataclasses import replace
from decimal import Decimal as D
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shop.calc.document import (
    ClassAmount,
    Document,
    DocumentLine,
    Rounding,
    Supplies,
    Tax,
    Totals,
)
from shop.calc.errors import CalculationError
from shop.calc.money import rounded
from shop.calc.tax import total_document

CLASSES = ("part", "labour", "fee", "untaxed")
cents = st.decimals("-9999", "9999", places=2)
rates = st.decimals("0", "0.4", places=4)


@st.composite
def tax_lists(draw: st.DrawFn) -> tuple[Tax, ...]:
    taxes: list[Tax] = []
    for code in draw(st.sampled_from([(), ("A",), ("A", "B"), ("A", "B", "C")])):
        classes = draw(st.sets(st.sampled_from(CLASSES[:3])))
        below = draw(st.sets(st.sampled_from([tax.code for tax in taxes]))) if taxes else set()
        taxes.append(Tax(code, draw(rates), tuple(sorted(classes)), tuple(sorted(below))))
    return tuple(draw(st.permutations(taxes)))


@st.composite
def documents(draw: st.DrawFn) -> Document:
    lines = draw(
        st.lists(
            st.builds(
                DocumentLine,
                id=st.just("line"),
                tax_class=st.sampled_from(CLASSES),
                quantity=st.decimals("-20", "200", places=3),
                unit_price=st.decimals("0", "900", places=4),
                base_quantity=st.sampled_from([D(1), D(3), D(100)]),
                allowances=st.lists(cents, max_size=1).map(tuple),
                charges=st.lists(cents, max_size=1).map(tuple),
            ),
            max_size=6,
        )
    )
    extras = st.lists(st.builds(ClassAmount, st.sampled_from(CLASSES), cents), max_size=2).map(tuple)
    supplies = Supplies(("labour",), D("0.06"), draw(st.none() | st.just(D(75))), "fee")
    return Document(
        lines=tuple(lines),
        allowances=draw(extras),
        charges=draw(extras),
        supplies=draw(st.none() | st.just(supplies)),
        taxes=draw(tax_lists()),
        rounding=draw(st.sampled_from(Rounding)),
        prices_include_tax=draw(st.booleans()),
        paid=draw(cents),
        payable_rounding=draw(st.sampled_from([D(0), D("0.02"), D("-0.02")])),
    )


@settings(deadline=None)
@given(documents())
def test_every_figure_adds_up_both_ways(document: Document) -> None:
    totals = total_document(document)
    stated = sum(line.amount for line in totals.lines) + totals.supplies
    stated += sum(charge.amount for charge in document.charges)
    stated -= sum(allowance.amount for allowance in document.allowances)
    assert (totals.gross if document.prices_include_tax else totals.net) == stated
    assert totals.net + totals.tax_total == totals.gross
    assert totals.due == totals.gross - document.paid + document.payable_rounding
    assert sum(class_total.amount for class_total in totals.classes) == stated
    inside = totals.tax_total if document.prices_include_tax else 0
    assert sum(class_total.tax_inside for class_total in totals.classes) == inside


@settings(deadline=None)
@given(documents())
def test_every_figure_has_the_decimals_of_the_currency(document: Document) -> None:
    totals = total_document(document)
    figures = [totals.supplies, totals.net, totals.tax_total, totals.gross, totals.due]
    figures += [line.amount for line in totals.lines] + [tax.amount for tax in totals.taxes]
    assert {figure.as_tuple().exponent for figure in figures} == {-2}


@settings(deadline=None)
@given(documents())
def test_a_credit_note_mirrors_its_document(document: Document) -> None:
    document = replace(document, supplies=None)
    mirrored = replace(
        document,
        lines=tuple(
            replace(
                line,
                quantity=-line.quantity,
                allowances=tuple(-amount for amount in line.allowances),
                charges=tuple(-amount for amount in line.charges),
            )
            for line in document.lines
        ),
        allowances=tuple(ClassAmount(amount.tax_class, -amount.amount) for amount in document.allowances),
        charges=tuple(ClassAmount(amount.tax_class, -amount.amount) for amount in document.charges),
    )
    first, second = total_document(document), total_document(mirrored)
    assert (second.net, second.gross) == (-first.net, -first.gross)
    assert [tax.amount for tax in second.taxes] == [-tax.amount for tax in first.taxes]


@settings(deadline=None)
@given(documents())
def test_a_tax_is_its_rate_on_what_it_says_was_taxable(document: Document) -> None:
    document = replace(document, prices_include_tax=False, rounding=Rounding.DOCUMENT)
    given_rates = {tax.code: tax.rate for tax in document.taxes}
    for tax in total_document(document).taxes:
        assert tax.amount == rounded(tax.taxable * given_rates[tax.code], 2)


@settings(deadline=None)
@given(cents, tax_lists(), st.sampled_from(Rounding))
def test_the_tax_inside_a_price_is_within_a_cent_a_tax_of_the_tax_on_its_net(
    price: D, taxes: tuple[Tax, ...], rounding: Rounding
) -> None:
    line = DocumentLine("1", "part", D(1), price)
    inside = total_document(Document((line,), taxes=taxes, rounding=rounding, prices_include_tax=True))
    line = replace(line, unit_price=inside.net)
    on_top = total_document(Document((line,), taxes=taxes, rounding=rounding))
    for first, second in zip(inside.taxes, on_top.taxes, strict=True):
        # A cent of rounding in each tax below is taxed again by the tax on top.
        assert abs(first.amount - second.amount) <= D("0.02")
    assert abs(inside.gross - on_top.gross) <= D("0.01") * (2 * len(taxes) or 1)


@settings(deadline=None)
@given(documents())
def test_line_and_document_rounding_differ_by_half_a_cent_an_item_at_most(document: Document) -> None:
    flat = tuple(replace(tax, on_top_of=()) for tax in document.taxes)
    document = replace(document, taxes=flat, prices_include_tax=False)
    by_line = total_document(replace(document, rounding=Rounding.LINE))
    by_document = total_document(replace(document, rounding=Rounding.DOCUMENT))
    items = len(document.lines) + len(document.allowances) + len(document.charges) + 1
    for first, second in zip(by_line.taxes, by_document.taxes, strict=True):
        assert first.taxable == second.taxable
        assert abs(first.amount - second.amount) <= D("0.005") * (items + 1)


def document_of(*taxes: Tax, **fields: Any) -> Document:
    line = DocumentLine("hose", "part", D(3), D("3.35"))
    return Document(lines=(line,), taxes=taxes, **fields)


def test_a_tax_says_what_it_was_taken_on() -> None:
    federal, on_top = Tax("FED", D("0.05"), ("part",)), Tax("PROV", D("0.1"), ("part",), ("FED",))
    totals = total_document(document_of(federal, on_top))
    assert [(tax.code, tax.taxable, tax.amount) for tax in totals.taxes] == [
        ("FED", D("10.05"), D("0.50")),
        ("PROV", D("10.55"), D("1.06")),
    ]


def test_three_taxes_on_top_of_one_another_meet_only_on_the_classes_all_of_them_name() -> None:
    taxes = (
        Tax("A", D("0.1"), ("part", "labour")),
        Tax("B", D("0.1"), ("part", "labour"), ("A",)),
        Tax("C", D("0.1"), ("part",), ("B",)),
    )
    lines = (DocumentLine("1", "part", D(1), D(100)), DocumentLine("2", "labour", D(1), D(1000)))
    totals = total_document(Document(lines, taxes=taxes))
    assert [tax.taxable for tax in totals.taxes] == [D("1100.00"), D("1210.00"), D("111.00")]


def test_prices_that_include_tax_say_how_much_is_inside_each_class() -> None:
    document = Document(
        lines=(DocumentLine("1", "part", D(1), D("12.00")), DocumentLine("2", "fee", D(1), D("5.00"))),
        taxes=(Tax("VAT", D("0.2"), ("part",)),),
        prices_include_tax=True,
    )
    totals = total_document(document)
    assert [(class_total.tax_class, class_total.amount, class_total.tax_inside) for class_total in totals.classes] == [
        ("part", D("12.00"), D("2.00")),
        ("fee", D("5.00"), D("0.00")),
    ]
    assert totals.taxes[0].taxable == D("10.00")


@pytest.mark.parametrize(
    ("fields", "refusal"),
    [
        ({"paid": D("0.005")}, "not_rounded: paid 0.005"),
        ({"payable_rounding": D("0.005")}, "not_rounded: payable_rounding 0.005"),
        ({"charges": (ClassAmount("fee", D("1.001")),)}, "not_rounded: fee 1.001"),
        ({"lines": (DocumentLine("nut", "part", D(1), D(1), D(0)),)}, "bad_base_quantity: nut"),
        ({"lines": (DocumentLine("nut", "part", 0.5, D(1)),)}, "not_exact: nut 0.5"),
        ({"lines": (DocumentLine("nut", "part", D(1), 1.5),)}, "not_exact: nut 1.5"),
        ({"lines": (DocumentLine("nut", "part", D(1), D(1), allowances=(0.5,)),)}, "not_exact: nut 0.5"),
        ({"taxes": (Tax("VAT", 0.2, ("part",)),)}, "not_exact: VAT 0.2"),
        ({"supplies": Supplies(("part",), 0.06, None, "fee")}, "not_exact: supplies 0.06"),
        ({"taxes": (Tax("A", D(1), (), ("A",)),)}, "tax_loop: A > A"),
        ({"taxes": (Tax("A", D(-1), ("part",)),), "prices_include_tax": True}, "bad_rate: part"),
    ],
)
def test_it_refuses_and_names_the_culprit(fields: dict[str, Any], refusal: str) -> None:
    with pytest.raises(CalculationError) as refused:
        total_document(replace(document_of(), **fields))
    assert str(refused.value) == refusal


def test_totals_that_do_not_add_up_cannot_be_made() -> None:
    totals = total_document(document_of(Tax("VAT", D("0.2"), ("part",))))
    for wrong in ({"net": D("10.06")}, {"tax_total": D("2.00"), "gross": D("12.05")}):
        with pytest.raises(CalculationError, match="totals_do_not_add"):
            replace(totals, **wrong)
    assert isinstance(replace(totals, due=D(0)), Totals)
