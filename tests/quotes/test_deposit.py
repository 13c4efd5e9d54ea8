"""The deposit of the price rules stands on the draft, the page, the paper and the receipt, and is frozen when sent."""

import html
from decimal import Decimal
from typing import Any

import pytest
from django.utils import timezone

from quotes.documents.quote_pdf import paper_html
from quotes.models import Revision
from quotes.queries.pricing import shop_day
from tests.factories import OfferFactory, PartFactory, SupplierFactory
from tests.quotes.choosing import Draft, draft, pads_and_towing
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
        "because": "percent",
        "covers": False,
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
    page = phone.client.get(phone.page).content.decode()
    assert PAY in page and "received</p>" not in page
    job = stage.client.get(f"quotes/{sent['quote']['id']}").json()["job"]["id"]
    today = str(shop_day(stage.shop, timezone.now()))
    paid = {"amount": sent["quote"]["deposit"]["amount"], "received_on": today, "means": "card"}
    assert stage.client.post(f"jobs/{job}/payments", paid).status_code == 201
    page = phone.client.get(phone.page).content.decode()
    assert amount in page and "received</p>" in page and PAY not in page


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


COVER = {"base": "parts", "cover": True}
CANNOT = "it cannot be sent back"


def keep(proposal: Draft, line: str, returnable: bool = False) -> Any:
    """Marks a line as one that cannot be sent back, or takes the mark away."""
    answer = proposal.patch(f"lines/{line}", {"returnable": returnable})
    assert answer.status_code == 200, answer.content
    return answer.json()


def calibration(proposal: Draft) -> str:
    fields = {"title": "Calibration", "firm": "Lathe & Lambda", "cost": "620.00", "tax_class": "labour", "days": 3}
    return str(proposal.post("outside", fields)["outside"][0]["line"])


def hoses(stage: Stage, proposal: Draft) -> str:
    """Two hoses on the draft that cost the workshop 40.00 each."""
    hose = PartFactory(shop=stage.shop, number="HOSE", title="Hose", preferred=SupplierFactory(shop=stage.shop))
    OfferFactory(shop=stage.shop, supplier=hose.preferred, part=hose, unit_cost=Decimal("40.00"))
    body = {"kind": "part", "part": str(hose.pk), "quantity": "2"}
    return str(proposal.post("lines", body)["extras"][0]["line"])


def send(proposal: Draft) -> Phone:
    body = {"version": proposal.now["version"], "recipient": "01632 960 417"}
    return Phone(proposal.post("send", body)["link"]["url"])


def test_the_deposit_covers_what_the_workshop_pays_for_what_cannot_be_sent_back(stage: Stage) -> None:
    ask(stage, deposit=COVER, deposit_share="0.01")
    proposal = draft(stage)
    line = calibration(proposal)
    share = proposal.now["deposit"]["amount"]
    changed = keep(proposal, line)
    assert (changed["deposit"]["amount"], changed["deposit"]["because"]) == ("620.00", "cover")
    assert changed["deposit"]["why"][1] == "raised to what we pay for what cannot be sent back"
    assert changed["outside"][0]["returnable"] is False
    back = keep(proposal, line, returnable=True)
    assert (back["deposit"]["amount"], back["deposit"]["because"]) == (share, "percent")


def test_a_part_and_a_kit_count_at_their_cost_and_undo_takes_the_mark_back(stage: Stage) -> None:
    ask(stage, deposit=COVER, deposit_share="0")
    proposal = draft(stage)
    assert proposal.now["deposit"]["amount"] == "0.00"
    assert keep(proposal, hoses(stage, proposal))["deposit"]["amount"] == "80.00"
    kit = proposal.now["kits"][0]
    stage.turbo.part.preferred = SupplierFactory(shop=stage.shop)
    stage.turbo.part.save()
    OfferFactory(shop=stage.shop, supplier=stage.turbo.part.preferred, part=stage.turbo.part, unit_cost=Decimal(1000))
    changed = keep(proposal, kit["line"])
    assert (changed["deposit"]["amount"], changed["kits"][0]["returnable"]) == ("1080.00", False)
    undone = stage.client.post(f"{proposal.path}/undo", {"version": changed["version"]}).json()
    assert (undone["deposit"]["amount"], undone["kits"][0]["returnable"]) == ("80.00", True)


def test_without_the_rule_a_mark_changes_no_deposit(stage: Stage) -> None:
    ask(stage, deposit_share="0.01")
    proposal = draft(stage)
    changed = keep(proposal, calibration(proposal))
    assert changed["deposit"]["because"] == "percent" and changed["deposit"]["covers"] is False


def test_a_line_written_by_hand_has_no_cost_to_cover(stage: Stage) -> None:
    ask(stage, deposit=COVER)
    proposal = draft(stage)
    refusal = proposal.patch(f"lines/{proposal.text('Badge', '40.00')}", {"returnable": False})
    assert refusal.status_code == 400 and refusal.json()["errors"][0]["pointer"] == "/returnable"


def test_page_paper_and_receipt_say_that_the_deposit_covers_it(stage: Stage) -> None:
    ask(stage, deposit=COVER, deposit_share="0.01")
    proposal = draft(stage)
    keep(proposal, calibration(proposal))
    phone = send(proposal)
    covers = "It covers what we order for you and cannot send back."
    assert covers in phone.html and CANNOT in phone.html and "620.00 EUR" in phone.html
    assert covers in paper() and CANNOT in paper() and "1 % of kits" not in paper()
    phone.answer()
    assert covers in phone.client.get(f"{phone.page}receipt").content.decode()


def test_a_new_version_keeps_what_cannot_be_sent_back(stage: Stage) -> None:
    ask(stage, deposit=COVER, deposit_share="0.01")
    proposal = draft(stage)
    keep(proposal, calibration(proposal))
    send(proposal)
    revised = stage.client.post(f"quotes/{proposal.now['quote']['id']}/revise", {}).json()
    assert revised["outside"][0]["returnable"] is False and revised["deposit"]["because"] == "cover"


def test_the_counter_names_what_was_received_of_the_deposit_and_when(stage: Stage) -> None:
    ask(stage)
    sent = stage.sent()
    path = f"quotes/{sent['quote']['id']}"
    read = lambda: stage.client.get(path).json()  # noqa: E731
    assert sent["quote"]["deposit_received"] is None
    Phone(sent["link"]["url"]).answer()
    accepted = read()
    assert accepted["deposit_received"] is None
    deposit, today = Decimal(accepted["deposit"]["amount"]), str(shop_day(stage.shop, timezone.now()))
    pay = lambda amount: stage.client.post(  # noqa: E731
        f"jobs/{accepted['job']['id']}/payments", {"amount": str(amount), "received_on": today, "means": "card"}
    )
    assert pay("100.00").status_code == 201
    assert read()["deposit_received"] == {"amount": "100.00", "day": today, "whole": False}
    assert pay(deposit).status_code == 201
    assert read()["deposit_received"] == {"amount": str(deposit), "day": today, "whole": True}
