"""One discount on a quote: on draft, page and paper, in totals, taxes and margin, and frozen when sent."""

import json
from typing import Any

import pytest
from django.db import IntegrityError, transaction

from quotes.calc.forms import FORM
from quotes.documents.quote_pdf import paper_html
from quotes.models import Revision
from quotes.queries.frozen import gross_of, read
from shop.models import History, RuleSet
from tests.quotes.phone import Phone
from tests.quotes.stage import RULES, Stage

pytestmark = pytest.mark.once

FIVE = {"percent": "5", "because": "Second job with us this year"}
TWO_TAXES = {
    "prices_include_tax": False,
    "taxes": [
        {"code": "STATE", "title": "State tax", "rate": "0.05", "classes": ["part", "labour", "supplies", "fee"]},
        {"code": "COUNTY", "title": "County tax", "rate": "0.07", "classes": ["part"]},
    ],
}


def put(stage: Stage, quote: dict[str, Any], **fields: Any) -> Any:
    return stage.client.put(f"quotes/{quote['id']}/discount", fields, seen=f'"{quote["version"]}"')


def discounted_by(stage: Stage, quote: dict[str, Any], **discount: Any) -> dict[str, Any]:
    answer = put(stage, quote, **discount)
    assert answer.status_code == 200, answer.content
    body: dict[str, Any] = answer.json()
    return body


def send(stage: Stage, quote: dict[str, Any]) -> Any:
    return stage.client.post(f"quotes/{quote['id']}/send", {"version": quote["version"], "recipient": "Maren Oldacre"})


def taxes(quote: dict[str, Any]) -> dict[str, str]:
    return {tax["code"]: tax["amount"] for tax in quote["totals"]["taxes"]}


def test_a_percentage_where_prices_hold_the_tax(stage: Stage) -> None:
    """Kits 1,110.00 + 510.00 and oil 69.00 taxed as part, labour 1,465.50; supplies 48.00 and fee 4.88 stay.

    5 % of 3,154.50 is 157.725, so 157.73: 84.45 on parts, 73.28 on labour (the larger remainder). Tax inside, rounded
    once a class: 1,604.55 / 6 = 267.43, 1,392.22 / 6 = 232.04, 48 / 6 = 8.00, 4.88 / 6 = 0.81.
    """
    quote = discounted_by(stage, stage.quote().json(), **FIVE)
    assert quote["discount"] == {
        "key": "discount",
        "title": "Discount, 5 %",
        "because": "Second job with us this year",
        "percent": "5",
        "amount": None,
        "why": ["5 % of 3,154.50"],
        "price": "-157.73",
    }
    totals = quote["totals"]
    assert (totals["discount"], totals["fees"]) == ("-157.73", "52.88")
    assert (totals["gross"], totals["tax"], totals["net"]) == ("3049.65", "508.28", "2541.37")


def test_an_amount_where_two_taxes_are_added(stage: Stage) -> None:
    """250.00: 133.86 on parts of 1,689.00, 116.14 on labour of 1,465.50.

    State tax 5 % of (1,555.14 + 1,349.36 + 48.00 + 4.88 = 2,957.38) is 147.87, county tax 7 % of 1,555.14 is 108.86.
    """
    RuleSet.objects.update(rules=RULES | TWO_TAXES)
    quote = discounted_by(stage, stage.quote().json(), amount="250.00", because="The late delivery")
    assert (quote["discount"]["title"], quote["discount"]["price"]) == ("Discount", "-250.00")
    assert taxes(quote) == {"STATE": "147.87", "COUNTY": "108.86"}
    assert (quote["totals"]["net"], quote["totals"]["gross"]) == ("2957.38", "3214.11")


def test_it_is_changed_and_removed_and_the_history_says_so(stage: Stage) -> None:
    plain = stage.quote().json()
    first = discounted_by(stage, plain, **FIVE)
    second = discounted_by(stage, first, amount="40", because="agreed")
    removed = stage.client.delete(f"quotes/{plain['id']}/discount", seen=f'"{second["version"]}"').json()
    assert (removed["discount"], removed["totals"]) == (None, plain["totals"])
    again = stage.client.delete(f"quotes/{plain['id']}/discount", seen=f'"{removed["version"]}"').json()
    assert again["version"] == removed["version"]
    lines = (
        History.objects.filter(verb__startswith="discount").order_by("recorded_at", "id").values_list("verb", "changes")
    )
    assert list(lines) == [
        ("discount given", {"discount": ["", "5 %: Second job with us this year"]}),
        ("discount given", {"discount": ["5 %: Second job with us this year", "40: agreed"]}),
        ("discount removed", {"discount": ["40: agreed", ""]}),
    ]


@pytest.mark.parametrize(
    ("wrong", "pointer"),
    [
        ({"percent": "5"}, "/because"),
        ({"percent": "5", "because": " "}, "/because"),
        ({"percent": "5", "because": "\u200b"}, "/because"),
        ({"percent": "5", "because": "agr\x07eed"}, "/because"),
        ({"because": "agreed"}, "/amount"),
        ({"percent": "5", "amount": "9", "because": "agreed"}, "/amount"),
        ({"percent": "0", "because": "agreed"}, "/percent"),
        ({"percent": "100.5", "because": "agreed"}, "/percent"),
        ({"amount": "0", "because": "agreed"}, "/amount"),
        ({"amount": "-5", "because": "agreed"}, "/amount"),
        ({"amount": "0.005", "because": "agreed"}, "/amount"),
        ({"amount": "3154.51", "because": "agreed"}, "/amount"),
    ],
)
def test_it_needs_a_reason_and_a_sensible_figure(stage: Stage, wrong: dict[str, str], pointer: str) -> None:
    quote = stage.quote().json()
    answer = put(stage, quote, **wrong)
    assert answer.status_code == 400, answer.content
    assert [error["pointer"] for error in answer.json()["errors"]] == [pointer]
    assert stage.client.get(f"quotes/{quote['id']}").json()["discount"] is None


def test_all_that_it_is_given_on_may_be_given_away(stage: Stage) -> None:
    quote = discounted_by(stage, stage.quote().json(), amount="3154.50", because="The workshop's own vehicle")
    assert quote["totals"]["gross"] == "52.88"  # fee and supplies


def test_one_that_has_become_too_large_does_not_count_and_stops_the_quote(stage: Stage) -> None:
    quote = discounted_by(stage, stage.quote().json(), amount="1500", because="agreed")
    turbo = quote["kits"][0]["line"]
    left = stage.client.delete(f"quotes/{quote['id']}/lines/{turbo}", seen=f'"{quote["version"]}"').json()
    words = (
        "The discount of 1,500.00 is more than the 1,497.00 it is given on, so it does not count. Enter a smaller one."
    )
    assert (left["stops"], left["discount"]["price"]) == ([words], "0.00")
    assert left["discount"]["amount"] == "1500.00" and send(stage, left).status_code == 409


def test_the_margin_is_that_of_the_lower_price(stage: Stage) -> None:
    quote = discounted_by(stage, stage.quote().json(), **FIVE)
    margin = stage.client.get(f"quotes/{quote['id']}/margin").json()
    assert (margin["revenue"], margin["profit"], margin["rate"]) == ("2541.37", "673.37", "0.2650")  # cost 1,868.00
    assert "The discount counts in the total." in margin["how"]["rule"][-1]
    sent = send(stage, quote).json()["quote"]
    assert stage.client.get(f"quotes/{sent['id']}/margin").json()["rate"] == "0.2650"


def test_an_item_without_a_cost_is_left_out_with_its_share_of_the_discount(stage: Stage) -> None:
    quote = stage.quote().json()
    body = {"kind": "text", "title": "Wheel alignment", "unit_price": "96", "tax_class": "part"}
    quote = discounted_by(
        stage, stage.client.post(f"quotes/{quote['id']}/lines", body).json(), percent="10", because="x"
    )
    margin = stage.client.get(f"quotes/{quote['id']}/margin").json()
    steps = {step["words"]: step["figure"] for step in margin["how"]["steps"]}
    assert steps["Items without a cost, before tax"] == "− 72.00"  # 96.00 - 9.60, without the tax inside
    send(stage, quote)
    again = stage.client.get(f"quotes/{quote['id']}/margin").json()
    assert {step["words"]: step["figure"] for step in again["how"]["steps"]} == steps


def test_it_says_how_it_was_worked_out(stage: Stage) -> None:
    quote = discounted_by(stage, stage.quote().json(), **FIVE)
    path = f"quotes/{quote['id']}/how"
    body = stage.client.get(f"{path}?key=discount").json()
    assert [(step["words"], step["figure"]) for step in body["steps"]] == [
        ("What it is given on", "3,154.50"),
        ("5 % of 3,154.50", "157.73"),
        ("Of that on what is taxed as part", "− 84.45"),
        ("Of that on what is taxed as labour", "− 73.28"),
    ]
    assert body["result"] == "− 157.73"
    total = [(step["words"], step["figure"]) for step in stage.client.get(f"{path}?key=total").json()["steps"]]
    assert ("Discount", "− 157.73") in total


def test_page_and_paper_show_one_line_with_its_reason(stage: Stage) -> None:
    quote = discounted_by(stage, stage.quote().json(), **FIVE)
    sent = send(stage, quote).json()
    revision = Revision.objects.get()
    paper = paper_html(revision.snapshot)
    for text in (Phone(sent["link"]["url"]).html, paper):
        assert text.count("Discount: Second job with us this year") == 1
        assert "5 % of 3,154.50" in text and "−157.73" in text and "3,049.65" in text


@pytest.mark.both
def test_it_is_frozen_with_the_version_and_the_next_one_begins_with_it(stage: Stage) -> None:
    quote = discounted_by(stage, stage.quote().json(), **FIVE)
    sent = send(stage, quote).json()["quote"]
    assert (sent["discount"], sent["totals"]) == (quote["discount"], quote["totals"])
    revision = Revision.objects.get()
    content = read(revision)
    assert gross_of(content) == "3049.65" == f"{revision.gross:.2f}" and content["form"] == FORM
    assert json.loads(revision.snapshot)["inputs"]["allowances"] == [
        {"tax_class": "part", "amount": "84.45"},
        {"tax_class": "labour", "amount": "73.28"},
    ]
    with pytest.raises(IntegrityError), transaction.atomic():
        Revision.objects.update(discount_percent=9)
    assert put(stage, sent, **FIVE).json()["type"] == "/problems/not-a-draft"
    after = stage.client.post(f"quotes/{quote['id']}/revise").json()
    assert (after["discount"], after["totals"]) == (quote["discount"], quote["totals"])


def test_a_customer_whose_quote_was_replaced_sees_what_the_discount_changed(stage: Stage) -> None:
    first = stage.sent()
    phone = Phone(first["link"]["url"])
    draft = stage.client.post(f"quotes/{first['quote']['id']}/revise").json()
    send(stage, discounted_by(stage, draft, **FIVE))
    html = phone.answer().content.decode()
    assert "Discount, 5 %" in html and "−157.73" in html
