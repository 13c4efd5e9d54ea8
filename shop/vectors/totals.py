"""The calculation of totals (section 5)."""

from typing import Any

from shop.calc.document import ClassAmount, Document, DocumentLine, Rounding, Supplies, Tax, Totals
from shop.calc.quantity import fixed
from shop.calc.tax import total_document
from shop.vectors.reading import flag, many, number, number_or_none, numbers, text, texts, whole


def totals(case: dict[str, Any]) -> dict[str, Any]:
    return _written(total_document(_document(case)))


def _document(case: dict[str, Any]) -> Document:
    supplies = case.get("supplies")
    return Document(
        lines=tuple(_line(line) for line in many(case, "lines")),
        allowances=_amounts(case, "allowances"),
        charges=_amounts(case, "charges"),
        supplies=None if supplies is None else _supplies(supplies),
        taxes=tuple(read_tax(tax) for tax in many(case, "taxes")),
        rounding=Rounding(text(case, "rounding", "document")),
        prices_include_tax=flag(case, "prices_include_tax"),
        paid=number(case, "paid", "0"),
        payable_rounding=number(case, "payable_rounding", "0"),
        exponent=whole(case, "exponent", "2"),
    )


def _line(case: dict[str, Any]) -> DocumentLine:
    return DocumentLine(
        id=text(case, "id"),
        tax_class=text(case, "tax_class"),
        quantity=number(case, "quantity"),
        unit_price=number(case, "unit_price"),
        base_quantity=number(case, "base_quantity", "1"),
        allowances=numbers(case, "allowances"),
        charges=numbers(case, "charges"),
    )


def _amounts(case: dict[str, Any], key: str) -> tuple[ClassAmount, ...]:
    return tuple(ClassAmount(text(item, "tax_class"), number(item, "amount")) for item in many(case, key))


def _supplies(case: dict[str, Any]) -> Supplies:
    return Supplies(
        basis=texts(case, "basis"),
        rate=number(case, "rate"),
        cap=number_or_none(case, "cap"),
        tax_class=text(case, "tax_class"),
    )


def read_tax(case: dict[str, Any]) -> Tax:
    return Tax(
        code=text(case, "code"),
        rate=number(case, "rate"),
        classes=texts(case, "classes"),
        on_top_of=texts(case, "on_top_of"),
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
