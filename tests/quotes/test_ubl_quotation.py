"""A sent version as a Quotation of UBL: valid, with the figures of its frozen text."""

import json
from decimal import Decimal
from pathlib import Path
from uuid import UUID
from xml.etree.ElementTree import Element

import pytest

from quotes.documents.ubl_quotation import quotation_file
from quotes.queries.frozen import opened
from shop.calc.unit_codes import CODES, ONE, UNITS_BY_CODE
from tests import ubl
from tests.quotes.contingent import with_stud
from tests.quotes.stage import RULES, Stage
from tests.standards import folder
from tests.ubl import amount, text, texts

pytestmark = pytest.mark.once

FROZEN = sorted((Path(__file__).parent / "frozen").glob("*.json"))
OUTSIDE_TAX = {**RULES, "prices_include_tax": False}
LINE = "cac:QuotationLine/cac:LineItem"
HOSTILE = '=cmd|"/C calc"!A1 & <b>Co</b> \N{WRENCH}'


def adds_up(root: Element) -> bool:
    """Whether lines, allowances, taxes and totals of a quotation agree to the cent, each line with its price."""
    total = root.find("cac:QuotedMonetaryTotal", ubl.NAMES)
    assert total is not None
    lines, net = amount(root, f"{LINE}/cbc:LineExtensionAmount"), amount(total, "cbc:TaxExclusiveAmount")
    allowances, taxes = amount(root, "cac:AllowanceCharge/cbc:Amount"), amount(root, "cac:TaxTotal/cbc:TaxAmount")
    prices_agree = all(
        amount(line, "cbc:Quantity") * amount(line, "cac:Price/cbc:PriceAmount")
        == amount(line, "cbc:LineExtensionAmount") * amount(line, "cac:Price/cbc:BaseQuantity")
        for line in root.findall(LINE, ubl.NAMES)
    )
    stated = amount(total, "cbc:LineExtensionAmount") - amount(total, "cbc:AllowanceTotalAmount")
    gross = amount(total, "cbc:TaxInclusiveAmount")
    sums_agree = lines - allowances == net == stated and net + taxes == gross
    return prices_agree and sums_agree and gross == amount(total, "cbc:PayableAmount")


def quotation_of(frozen: Path) -> bytes:
    return quotation_file(opened(frozen.read_text("utf-8")), id=str(UUID(int=1)))


@pytest.mark.standards
def test_texts_of_every_form_become_valid_quotations() -> None:
    assert folder() is not None
    assert {path.name: ubl.faults(quotation_of(path), "Quotation") for path in FROZEN} == {
        path.name: [] for path in FROZEN
    }


def test_texts_of_every_form_become_quotations_that_add_up() -> None:
    for path in FROZEN:
        root, stated = ubl.read(quotation_of(path)), json.loads(path.read_text("utf-8"))["shown"]["totals"]
        assert adds_up(root), path.name
        assert text(root, "cac:QuotedMonetaryTotal/cbc:TaxInclusiveAmount") == stated["gross"]


@pytest.mark.standards
def test_the_codes_of_units_are_published_ones() -> None:
    where = folder()
    assert where is not None
    listed = (where / "ubl-2.4/cl/gc/default/UnitOfMeasureCode-2.4.gc").read_text("utf-8")
    assert all(f"<SimpleValue>{code}</SimpleValue>" in listed for code in {*CODES.values(), ONE, *UNITS_BY_CODE})


def test_a_sent_version_is_a_valid_quotation_with_its_own_figures(stage: Stage) -> None:
    draft = with_stud(stage)
    path = f"quotes/{draft['id']}"
    assert stage.client.get(f"{path}/ubl").status_code == 404
    stage.customer.name = HOSTILE
    stage.customer.save()
    discount = {"percent": "7", "amount": None, "because": "Spring offer\N{RIGHT SINGLE QUOTATION MARK}s end"}
    draft = stage.client.put(f"{path}/discount", discount, seen=f'"{draft["version"]}"').json()
    sent = stage.client.post(f"{path}/send", {"version": draft["version"], "recipient": "x"}).json()["quote"]
    answer = stage.client.get(f"{path}/ubl")
    assert answer["Content-Type"] == "application/xml" and "Q-1-1.xml" in answer["Content-Disposition"]
    assert ubl.faults(answer.content, "Quotation") == []
    root = ubl.read(answer.content)
    assert adds_up(root)
    assert (text(root, "cbc:ID"), text(root, "cbc:PricingCurrencyCode")) == ("Q-1-1", stage.shop.currency)
    assert text(root, "cac:ValidityPeriod/cbc:EndDate") == sent["valid_until"][:10]
    assert text(root, "cac:BuyerCustomerParty/cac:Party/cac:PartyName/cbc:Name") == HOSTILE
    assert text(root, "cac:QuotedMonetaryTotal/cbc:TaxInclusiveAmount") == sent["totals"]["gross"]
    assert texts(root, "cac:TaxTotal/cbc:TaxAmount") == [tax["amount"] for tax in sent["totals"]["taxes"]]
    inside = amount(root, f"{LINE}/cbc:TaxInclusiveLineExtensionAmount") + Decimal(sent["totals"]["discount"])
    assert inside == Decimal(sent["totals"]["gross"])
    hours = [line for line in root.findall(LINE, ubl.NAMES) if "Labour" in text(line, "cac:Item/cbc:Name")]
    assert amount(hours[0], "cbc:Quantity") == amount(hours[0], "cac:SubLineItem/cbc:Quantity")
    assert any(note.startswith("Only if it happens") for note in texts(root, "cbc:Note"))
    assert not any(word in answer.content.lower() for word in (b"cost", b"margin", b"they_need"))


def test_prices_before_tax_stand_as_they_were_quoted(stage: Stage) -> None:
    stage.enact(OUTSIDE_TAX)
    sent = stage.sent()["quote"]
    body = stage.client.get(f"quotes/{sent['id']}/ubl").content
    root = ubl.read(body)
    assert ubl.faults(body, "Quotation") == [] and adds_up(root)
    assert text(root, "cac:QuotedMonetaryTotal/cbc:TaxExclusiveAmount") == sent["totals"]["net"]
    assert "165.00" in texts(root, f"{LINE}/cac:Price/cbc:PriceAmount")
    assert not root.findall(f"{LINE}/cbc:TaxInclusiveLineExtensionAmount", ubl.NAMES)


def test_what_xml_cannot_hold_is_replaced() -> None:
    document = opened(FROZEN[0].read_text("utf-8"))
    document["customer"]["name"] = "bell \x07\ufffe"
    root = ubl.read(quotation_file(document, id=str(UUID(int=1))))
    assert text(root, "cac:BuyerCustomerParty/cac:Party/cac:PartyName/cbc:Name") == "bell \ufffd\ufffd"
