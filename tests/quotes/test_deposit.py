"""The deposit of the price rules stands on the draft, the page, the paper and the receipt, and is frozen when sent."""

import html
from decimal import Decimal
from typing import Any

import pytest

from quotes.documents.quote_pdf import paper_html
from quotes.models import Revision
from tests.factories import OfferFactory, PartFactory, SupplierFactory
from tests.quotes.choosing import draft, pads_and_towing
from tests.quotes.open_gearbox import open_gearbox
from tests.quotes.phone import Phone
from tests.quotes.stage import RULES, Stage

pytestmark = pytest.mark.once

PAY = "Transfer it to XX00 0555 0140 0417."


def ask(stage: Stage, **changes: Any) -> None:
    words = {**RULES["words"], "payment": [PAY]}
    stage.enact({**RULES, "words": words, "deposit_share": "0.5", **changes})


def paper() -> str:
    return html.unescape(paper_html(Revision.objects.get().snapshot))


def test_half_of_kits_and_loose_parts_is_asked_before_discount_and_without_fluids(stage: Stage) -> None:
    ask(stage)
    proposal = draft(stage)
    proposal.text("Badge", "40.00")
    hose = PartFactory(shop=stage.shop, number="HOSE", title="Hose", preferred=SupplierFactory(shop=stage.shop))
    OfferFactory(shop=stage.shop, supplier=hose.preferred, part=hose, unit_cost=Decimal("40.00"))
    proposal.post("lines", {"kind": "part", "part": str(hose.pk), "quantity": "2"})
    discount = {"amount": "100.00", "because": "Two kits"}
    changed = stage.client.put(f"{proposal.path}/discount", discount, seen=f'"{proposal.now["version"]}"').json()
    kits = sum(Decimal(kit["price"]) for kit in changed["kits"]) + Decimal("120.00")
    assert changed["deposit"] == {
        "base": "parts",
        "percent": "50",
        "amount": str((kits / 2).quantize(Decimal("0.01"))),
        "why": [f"50 % of kits and parts, {kits:,}"],
    }


def test_a_share_of_the_total_is_a_share_with_tax(stage: Stage) -> None:
    ask(stage, deposit={"base": "total"}, prices_include_tax=False)
    quote = stage.quote().json()
    assert Decimal(quote["deposit"]["amount"]) == (Decimal(quote["totals"]["gross"]) / 2).quantize(Decimal("0.01"))


def test_parts_before_tax_are_counted_with_tax(stage: Stage) -> None:
    ask(stage, prices_include_tax=False)
    quote = stage.quote().json()
    kits = sum(Decimal(kit["price"]) for kit in quote["kits"])
    assert Decimal(quote["deposit"]["amount"]) == (kits * Decimal("0.6")).quantize(Decimal("0.01"))


def test_a_workshop_that_asks_for_none_says_nothing(stage: Stage) -> None:
    sent = stage.sent()
    phone = Phone(sent["link"]["url"])
    assert sent["quote"]["deposit"] is None
    assert "eposit" not in phone.html and "eposit" not in paper()


def test_page_paper_and_receipt_name_the_amount_and_how_to_pay(stage: Stage) -> None:
    ask(stage)
    sent = stage.sent()
    amount = f"{Decimal(sent['quote']['deposit']['amount']):,} EUR"
    phone = Phone(sent["link"]["url"])
    assert phone.html.count(amount) == 1 and phone.html.count(PAY) == 1
    assert paper().count(amount.removesuffix(" EUR")) == 1 and paper().count(PAY) == 1
    ask(stage, deposit_share="0.1")  # rules of a later day
    phone.answer()
    receipt = phone.client.get(f"{phone.page}receipt").content.decode()
    assert receipt.count(amount) == 1 and receipt.count(PAY) == 1


def test_the_deposit_is_that_of_the_chosen_combination(stage: Stage) -> None:
    ask(stage)
    proposal = pads_and_towing(stage)
    turbo, towing = (Decimal(kit["price"]) for kit in stage.quote().json()["kits"])
    phone = Phone(proposal.send()["link"]["url"])
    alone, both = (f"{(amount / 2).quantize(Decimal('0.01')):,} EUR" for amount in (turbo, turbo + towing))
    assert alone in phone.html and both not in phone.html
    chosen = phone.client.get(phone.page, {"show": "1", "choice-0": "0", "choice-1": "0"}).content.decode()
    assert both in chosen
    phone.answer(price=chosen.split('name="price" value="')[1].split('"')[0], shown=None)
    assert both in phone.client.get(f"{phone.page}receipt").content.decode()


def test_each_answer_about_the_vehicle_has_its_deposit(stage: Stage) -> None:
    open_gearbox(stage)
    ask(stage, deposit={"base": "total"})
    sent = stage.sent(stage.turbo)
    half = [f"{(Decimal(price['gross']) / 2):,.2f}" for price in sent["quote"]["undecided"]["prices"]]
    html_text = Phone(sent["link"]["url"]).html
    assert len(set(half)) == 2
    assert f"Deposit: {half[0]} to {half[1]} EUR, by the price you take." in html_text
    assert all(f"Deposit, {price['words']}" in paper() for price in sent["quote"]["undecided"]["prices"])
    assert all(amount in paper() for amount in half)
