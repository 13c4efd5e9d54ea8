"""The input of a document's totals as JSON, so that a total can be worked out again from the snapshot alone."""

from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal
from typing import Any

from shop.calc.document import ClassAmount, Document, DocumentLine, Rounding, Supplies, Tax, Totals
from shop.calc.tax import total_document


def document_json(document: Document) -> dict[str, Any]:
    """The document as a snapshot stores it: amounts are strings."""
    return {
        "lines": [
            {
                "id": line.id,
                "tax_class": line.tax_class,
                "quantity": _text(line.quantity),
                "unit_price": _text(line.unit_price),
            }
            for line in document.lines
        ],
        "allowances": [
            {"tax_class": allowance.tax_class, "amount": _text(allowance.amount)} for allowance in document.allowances
        ],
        "supplies": _supplies_json(document.supplies),
        "taxes": [
            {
                "code": tax.code,
                "rate": _text(tax.rate),
                "classes": list(tax.classes),
                "on_top_of": list(tax.on_top_of),
            }
            for tax in document.taxes
        ],
        "rounding": str(document.rounding),
        "prices_include_tax": document.prices_include_tax,
        "exponent": document.exponent,
    }


def document_from(content: Mapping[str, Any]) -> Document:
    """The inverse of `document_json`."""
    return Document(
        lines=tuple(
            DocumentLine(line["id"], line["tax_class"], Decimal(line["quantity"]), Decimal(line["unit_price"]))
            for line in content["lines"]
        ),
        allowances=tuple(
            ClassAmount(allowance["tax_class"], Decimal(allowance["amount"])) for allowance in content["allowances"]
        ),
        supplies=_supplies(content["supplies"]),
        taxes=tuple(
            Tax(tax["code"], Decimal(tax["rate"]), tuple(tax["classes"]), tuple(tax["on_top_of"]))
            for tax in content["taxes"]
        ),
        rounding=Rounding(content["rounding"]),
        prices_include_tax=content["prices_include_tax"],
        exponent=content["exponent"],
    )


def total_alone(
    content: Mapping[str, Any], tax_class: str, price: Decimal, *, tax_inside: bool | None = None
) -> Totals:
    """The totals of one price by the taxes of a stored document.

    `tax_inside` says whether the price holds its taxes; without it, it does as the document's prices do.
    """
    document = document_from(content)
    return total_document(
        replace(
            document,
            lines=(DocumentLine("alone", tax_class, Decimal(1), price),),
            allowances=(),
            supplies=None,
            prices_include_tax=document.prices_include_tax if tax_inside is None else tax_inside,
        )
    )


def _supplies_json(supplies: Supplies | None) -> dict[str, Any] | None:
    if supplies is None:
        return None
    return {
        "basis": list(supplies.basis),
        "rate": _text(supplies.rate),
        "cap": None if supplies.cap is None else _text(supplies.cap),
        "tax_class": supplies.tax_class,
    }


def _supplies(content: Mapping[str, Any] | None) -> Supplies | None:
    if content is None:
        return None
    cap = None if content["cap"] is None else Decimal(content["cap"])
    return Supplies(tuple(content["basis"]), Decimal(content["rate"]), cap, content["tax_class"])


def _text(number: Decimal) -> str:
    return f"{number:f}"
