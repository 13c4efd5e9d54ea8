"""The price of work by another firm, compared with a second implementation in fractions and with the totals."""

from decimal import Decimal as D
from fractions import Fraction
from math import floor

from hypothesis import given
from hypothesis import strategies as st

from quotes.calc.outside import OutsideTerms, price_outside
from shop.calc.document import Document, DocumentLine, Tax
from shop.calc.tax import total_document

amounts = st.integers(0, 900_000).map(lambda units: D(units).scaleb(-2))
terms = st.builds(
    OutsideTerms,
    cost=amounts,
    markup=st.integers(0, 5_000).map(lambda units: D(units).scaleb(-4)),
    handling=amounts,
    tax_class=st.sampled_from(["outside", "other"]),
)
rates = st.integers(0, 3_000).map(lambda units: D(units).scaleb(-4))


def half_up(amount: Fraction) -> D:
    return D(floor(amount * 100 + Fraction(1, 2))).scaleb(-2)


@given(terms, rates, rates)
def test_it_is_marked_up_then_taxed_and_rounded_once(terms: OutsideTerms, lower: D, upper: D) -> None:
    taxes = (Tax("A", lower, ("outside",)), Tax("B", upper, ("outside",), ("A",)))
    before = Fraction(terms.cost) * (1 + Fraction(terms.markup)) + Fraction(terms.handling)
    stacked = (1 + Fraction(lower)) * (1 + Fraction(upper)) if terms.tax_class == "outside" else 1
    assert price_outside(terms, taxes, inside=False, exponent=2).price == half_up(before)
    assert price_outside(terms, taxes, inside=True, exponent=2).price == half_up(before * stacked)


@given(terms, rates)
def test_before_tax_it_never_sells_below_its_cost(terms: OutsideTerms, rate: D) -> None:
    """The totals subtract the tax inside the price; at least the firm's price remains."""
    taxes = (Tax("A", rate, ("outside",)),)
    price = price_outside(terms, taxes, inside=True, exponent=2).price
    line = DocumentLine("x", terms.tax_class, D(1), price)
    totals = total_document(Document(lines=(line,), taxes=taxes, prices_include_tax=True))
    assert totals.net >= terms.cost + terms.handling - D("0.01")
