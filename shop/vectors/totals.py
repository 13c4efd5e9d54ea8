"""Section 5, `totals`."""

from typing import Any

from shop.calc.document import ClassAmount, Document, DocumentLine, Rounding, Supplies, Tax, Totals
from shop.calc.quantity import fixed
from shop.calc.tax import total_document
from shop.vectors.reading import flag, many, number, number_or_none, numbers, text, texts, whole


def totals(given: dict[str, Any]) -> dict[str, Any]:
    return _written(total_document(_document(given)))


def _document(given: dict[str, Any]) -> Document:
    supplies = given.get("supplies")
    return Document(
        lines=tuple(_line(line) for line in many(given, "lines")),
        allowances=_amounts(given, "allowances"),
        charges=_amounts(given, "charges"),
        supplies=None if supplies is None else _supplies(supplies),
        taxes=tuple(read_tax(tax) for tax in many(given, "taxes")),
        rounding=Rounding(text(given, "rounding", "document")),
        prices_include_tax=flag(given, "prices_include_tax"),
        paid=number(given, "paid", "0"),
        payable_rounding=number(given, "payable_rounding", "0"),
        exponent=whole(given, "exponent", "2"),
    )


def _line(given: dict[str, Any]) -> DocumentLine:
    return DocumentLine(
        id=text(given, "id"),
        tax_class=text(given, "tax_class"),
        quantity=number(given, "quantity"),
        unit_price=number(given, "unit_price"),
        base_quantity=number(given, "base_quantity", "1"),
        allowances=numbers(given, "allowances"),
        charges=numbers(given, "charges"),
    )


def _amounts(given: dict[str, Any], key: str) -> tuple[ClassAmount, ...]:
    return tuple(ClassAmount(text(item, "tax_class"), number(item, "amount")) for item in many(given, key))


def _supplies(given: dict[str, Any]) -> Supplies:
    return Supplies(
        basis=texts(given, "basis"),
        rate=number(given, "rate"),
        cap=number_or_none(given, "cap"),
        tax_class=text(given, "tax_class"),
    )


def read_tax(given: dict[str, Any]) -> Tax:
    return Tax(
        code=text(given, "code"),
        rate=number(given, "rate"),
        classes=texts(given, "classes"),
        on_top_of=texts(given, "on_top_of"),
    )


def _written(result: Totals) -> dict[str, Any]:
    places = result.exponent
    return {
        "supplies": fixed(result.supplies, places),
        "net": fixed(result.net, places),
        "taxes": {tax.code: fixed(tax.amount, places) for tax in result.taxes},
        "tax_total": fixed(result.tax_total, places),
        "gross": fixed(result.gross, places),
        "due": fixed(result.due, places),
    }
