"""Figures at which a simplified calculation would differ by a cent."""

from decimal import Decimal as D

from shop.calc.document import Document, DocumentLine, Supplies, Tax
from shop.calc.tax import total_document


def test_a_price_for_several_is_divided_exactly() -> None:
    line = DocumentLine("hose", "part", D(1), D("600000000000000000.03"), base_quantity=D(2))
    assert total_document(Document(lines=(line,))).net == D("300000000000000000.02")


def test_a_cap_of_nothing_is_a_cap() -> None:
    def supplies(cap: D | None) -> D:
        rule = Supplies(("labour",), D("0.05"), cap, "supplies")
        return total_document(Document(lines=(DocumentLine("w", "labour", D(2), D(100)),), supplies=rule)).supplies

    assert (supplies(D(0)), supplies(D(4)), supplies(None)) == (D("0.00"), D("4.00"), D("10.00"))


def test_of_two_taxes_inside_a_price_the_first_on_the_list_gets_the_odd_cent() -> None:
    def inside(*rates: str) -> list[str]:
        taxes = tuple(Tax(rate, D(rate), ("part",)) for rate in rates)
        lines = (DocumentLine("clip", "part", D(1), D("0.12")),)
        document = Document(lines=lines, taxes=taxes, prices_include_tax=True)
        return [f"{tax.code}: {tax.amount}" for tax in total_document(document).taxes]

    assert inside("0.15", "0.05") == ["0.15: 0.02", "0.05: 0.00"]
    assert inside("0.05", "0.15") == ["0.05: 0.01", "0.15: 0.01"]
