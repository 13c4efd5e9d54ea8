"""A sent quote stores enough to recompute its total and to compare it with another revision."""

import json
from dataclasses import replace
from decimal import Decimal as D
from typing import Any

import pytest

from quotes.calc.difference import PriceChange, difference
from quotes.calc.forms import FORM, read_text
from quotes.calc.frozen import document_from, document_json
from shop.calc.document import ClassAmount, Document, DocumentLine, Rounding, Supplies, Tax
from shop.calc.tax import total_document

FULL = Document(
    lines=(DocumentLine("kit:1", "part", D("2.5"), D("1E+3")), DocumentLine("labour:m", "labour", D(3), D("99.999"))),
    allowances=(ClassAmount("part", D("2.50")),),
    supplies=Supplies(("labour",), D("0.05"), D("0"), "part"),
    taxes=(Tax("A", D("0.05"), ("part",)), Tax("B", D("0.1"), ("part", "labour"), ("A",))),
    rounding=Rounding.LINE,
    prices_include_tax=True,
    exponent=3,
)


@pytest.mark.parametrize(
    "document",
    [FULL, Document(), replace(FULL, supplies=None), replace(FULL, supplies=replace(FULL.supplies, cap=None))],
    ids=["full", "empty", "no supplies", "no cap"],
)
def test_a_document_is_read_back_as_it_was(document: Document) -> None:
    content = json.loads(json.dumps(document_json(document)))
    assert document_from(content) == document
    assert total_document(document_from(content)) == total_document(document)


def test_every_amount_is_kept_as_plain_text() -> None:
    content = document_json(FULL)
    assert content["lines"][0] == {"id": "kit:1", "tax_class": "part", "quantity": "2.5", "unit_price": "1000"}
    assert content["supplies"] == {"basis": ["labour"], "rate": "0.05", "cap": "0", "tax_class": "part"}


def content(gross: str, *lines: tuple[str, str]) -> dict[str, Any]:
    kits = [{"title": title, "price": price} for title, price in lines]
    totals = {"net": "1.00", "gross": gross}
    none = dict.fromkeys(("needs", "outside", "extras", "fees"), ())
    return {"kits": kits, "labour": {"operations": []}, "discount": None, "totals": totals, **none}


def test_what_came_went_and_moved_is_told_and_the_total_last() -> None:
    old = content("30.00", ("Clip", "1.00"), ("Hose", "4.00"), ("Seal", "2.00"))
    new = content("31.00", ("Clip", "1.00"), ("Hose", "5.00"), ("Fan", "9.00"))
    assert difference(old, new) == (
        PriceChange("Hose", "4.00", "5.00"),
        PriceChange("Seal", "2.00", None),
        PriceChange("Fan", None, "9.00"),
        PriceChange("", "30.00", "31.00"),
    )


def test_of_two_lines_with_one_title_each_is_compared_with_its_own() -> None:
    old = content("3.00", ("Clip", "1.00"), ("Clip", "2.00"))
    assert difference(old, content("3.00", ("Clip", "1.00"), ("Clip", "2.00"))) == ()
    assert difference(old, content("3.00", ("Clip", "1.50"), ("Clip", "2.00"))) == (
        PriceChange("Clip", "1.00", "1.50"),
    )


def test_a_text_of_the_first_form_is_read_without_a_discount_and_without_other_firms() -> None:
    text = '{"form":1,"inputs":{"lines":[]},"shown":{"totals":{"gross":"1.00"}}}'
    content = read_text(text)
    assert (content["form"], content["inputs"]["allowances"], content["shown"]["discount"]) == (1, [], None)
    assert content["language"] == ""
    assert content["shown"]["totals"] == {"gross": "1.00", "discount": "0", "outside": "0"}
    assert content["shown"]["outside"] == []


def test_a_text_of_the_newest_form_is_read_as_it_is() -> None:
    content = {"form": FORM, "shown": {"discount": {"price": "-5.00"}}}
    assert read_text(json.dumps(content)) == content
