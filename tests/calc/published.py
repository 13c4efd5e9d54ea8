"""Converts a published document in the shape of the standard's cases to the input and the result of `total_document`.

A tax category at a rate ("S" at 19 %) becomes one tax class and one tax. A category without a rate is untaxed.
"""

from collections.abc import Iterable
from decimal import Decimal
from typing import Any

from shop.calc.document import ClassAmount, Document, DocumentLine, Tax, Totals
from shop.calc.money import rounded

EXPONENTS = {"DKK": 2, "EUR": 2, "SEK": 2, "USD": 2}
NOTHING = Decimal(0)

Published = dict[str, Any]


def document_of(published: Published) -> Document:
    everything = [*published["lines"], *published["document_allowances_charges"]]
    expected = published["expected"]
    return Document(
        lines=tuple(_line(line) for line in published["lines"]),
        allowances=_on_the_document(published, charge=False),
        charges=_on_the_document(published, charge=True),
        taxes=tuple(_taxes(everything)),
        paid=_number(expected["prepaid"]),
        payable_rounding=_number(expected["rounding"]),
        exponent=EXPONENTS[published["currency"]],
    )


def expected_of(published: Published) -> dict[str, Any]:
    """The published figures. A missing sum counts as 0."""
    stated = {key: value for key, value in published["expected"].items() if value is not None}
    for unstated in ("allowance_total", "charge_total", "prepaid", "rounding"):
        stated.setdefault(unstated, "0")
    breakdown = stated.pop("tax_breakdown")
    return {
        "lines": [_number(line["expected_net"]) for line in published["lines"]],
        "tax_breakdown": {
            tax_class(subtotal["category"], subtotal["percent"]): (
                _number(subtotal["taxable"]),
                _number(subtotal["tax"]),
            )
            for subtotal in breakdown
        },
        "breakdowns": len(breakdown),
        **{key: _number(value) for key, value in stated.items()},
    }


def recomputed(document: Document, totals: Totals) -> dict[str, Any]:
    """The same figures from our totals."""
    return {
        "lines": [line.amount for line in totals.lines],
        "tax_breakdown": {tax.code: (tax.taxable, tax.amount) for tax in totals.taxes},
        "breakdowns": len(totals.taxes),
        "sum_of_line_net": sum((line.amount for line in totals.lines), NOTHING),
        "allowance_total": sum((allowance.amount for allowance in document.allowances), NOTHING),
        "charge_total": sum((charge.amount for charge in document.charges), NOTHING),
        "tax_exclusive": totals.net,
        "tax_total": totals.tax_total,
        "tax_inclusive": totals.gross,
        "prepaid": document.paid,
        "rounding": totals.due - (totals.gross - document.paid),
        "payable": totals.due,
    }


def percentages(published: Published) -> list[tuple[Decimal, Decimal]]:
    """(published, worked out) for every allowance and charge with a base and a percentage."""
    inside = [amount for line in published["lines"] for amount in line["allowances_charges"]]
    stated = [
        amount for amount in inside + published["document_allowances_charges"] if amount["base"] and amount["percent"]
    ]
    exponent = EXPONENTS[published["currency"]]
    return [
        (_number(amount["amount"]), rounded(_number(amount["base"]) * _number(amount["percent"]).scaleb(-2), exponent))
        for amount in stated
    ]


def net_prices(published: Published) -> list[tuple[Decimal, Decimal]]:
    """(published, worked out) for every price with a discount."""
    return [
        (_number(line["net_price"]), _number(line["gross_price"]) - _number(line["price_discount"]))
        for line in published["lines"]
        if line["gross_price"] is not None
    ]


def tax_class(category: str, percent: str | None) -> str:
    return f"{category} {_number(percent).normalize():f}"


def _line(line: Published) -> DocumentLine:
    of_line = line["allowances_charges"]
    return DocumentLine(
        id=line["id"],
        tax_class=_class(line),
        quantity=_number(line["quantity"]),
        unit_price=_number(line["net_price"]),
        base_quantity=_number(line["price_base_quantity"], "1"),
        allowances=tuple(_number(amount["amount"]) for amount in of_line if not amount["charge"]),
        charges=tuple(_number(amount["amount"]) for amount in of_line if amount["charge"]),
    )


def _on_the_document(published: Published, *, charge: bool) -> tuple[ClassAmount, ...]:
    stated = [amount for amount in published["document_allowances_charges"] if amount["charge"] is charge]
    return tuple(ClassAmount(_class(amount), _number(amount["amount"])) for amount in stated)


def _taxes(everything: Iterable[Published]) -> Iterable[Tax]:
    rates = {_class(entry): _number(entry["tax_percent"]).scaleb(-2) for entry in everything}
    return (Tax(name, rate, (name,)) for name, rate in rates.items())


def _class(entry: Published) -> str:
    return tax_class(entry["tax_category"], entry["tax_percent"])


def _number(text: str | None, absent: str = "0") -> Decimal:
    return Decimal(absent if text is None else text)
