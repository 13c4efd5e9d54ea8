"""While a manager edits the price rules, one quote of the shop shows what they would change. Nothing is written."""

from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from quotes.models import Quote, Revision
from shop.models import Command, RuleSet
from tests.api.test_rule_sets import add
from tests.cast import Cast
from tests.factories import OfferFactory, PartFactory, SupplierFactory
from tests.quotes.stage import Stage

pytestmark = pytest.mark.once

DEARER = {
    "tables": {
        "labour": [
            {"skill": "mechanical", "rate": "175.00", "cost": "60"},
            {"skill": "electrical", "rate": "180.00", "cost": "60"},
        ]
    }
}


def example(cast: Cast, **change: Any) -> Any:
    rules = RuleSet.objects.filter(shop=cast.shop).order_by("-number")[0]
    body = {"base": str(rules.pk), "valid_from": "2099-01-01"} | change
    return cast.signed_in("manager").post("rules/example", body)


def figures(answer: Any) -> dict[str, tuple[str, str, bool]]:
    assert answer.status_code == 200, answer.content
    return {row["code"]: (row["now"], row["then"], row["moved"]) for row in answer.json()["figures"]}


def test_a_quote_shows_what_the_change_does_before_it_is_saved(stage: Stage) -> None:
    """6.7 h mechanical at 175 and not at 165 is 67.00 more with tax, 55.83 before it; no hour more."""
    quote = stage.quote().json()
    stored = [list(model.objects.values()) for model in (RuleSet, Revision, Quote, Command)]
    answer = example(stage.cast, **DEARER)
    assert figures(answer) == {
        "hours": ("8.7", "8.7", False),
        "net": ("2,672.82", "2,728.65", True),
        "tax": ("534.56", "545.73", True),
        "total": ("3,207.38", "3,274.38", True),
        "margin": ("30.1 %", "31.5 %", True),
    }
    body = answer.json()
    assert body["quote"] == quote["id"] and body["words"].startswith(f"{quote['number']} at today’s prices")
    assert {line["title"]: (line["now"], line["then"]) for line in body["lines"]}["Turbocharger fitted"] == (
        *("495.00", "525.00"),
    )
    assert [change["title"] for change in body["changes"]] == ["Skills, mechanical, Rate"]
    assert [list(model.objects.values()) for model in (RuleSet, Revision, Quote, Command)] == stored


def test_a_sent_quote_is_worked_out_from_what_was_chosen(stage: Stage) -> None:
    """Its stored prices stay out of it: a loose part moves with the markup, as it would on a new quote."""
    part = PartFactory(shop=stage.shop, title="Oil line", preferred=SupplierFactory(shop=stage.shop))
    OfferFactory(shop=stage.shop, supplier=part.preferred, part=part, unit_cost=Decimal("10.0000"))
    draft = stage.quote(parts=[str(part.pk)]).json()
    recipient = {"version": draft["version"], "recipient": "01632 960 417"}
    answer = stage.client.post(f"quotes/{draft['id']}/send", recipient)
    assert answer.status_code == 201, answer.content
    sent = answer.json()["quote"]
    bands = [{"up_to": "100", "x": "1.80"}, {"x": "1.20"}]
    answer = example(stage.cast, quote=sent["id"], tables={"markup.bands": bands})
    lines = {line["title"]: (line["now"], line["then"]) for line in answer.json()["lines"]}
    assert lines[part.title] == ("15.00", "18.00"), lines
    assert "What was sent stays as it is." in answer.json()["words"]
    assert figures(answer)["total"][0] == f"{sent['totals']['gross'][:1]},{sent['totals']['gross'][1:]}"


def test_the_newest_quote_is_the_example_until_another_is_chosen(stage: Stage) -> None:
    first, second = stage.quote().json(), stage.quote().json()
    answer = example(stage.cast).json()
    assert answer["quote"] == second["id"] and not answer["changes"]
    assert [choice["id"] for choice in answer["quotes"]] == [second["id"], first["id"]]
    assert answer["quotes"][0]["title"].startswith(f"{second['number']}, ")
    assert example(stage.cast, quote=first["id"]).json()["quote"] == first["id"]


def test_rules_that_cannot_price_it_or_cannot_be_used_say_why(stage: Stage) -> None:
    stage.quote()
    without = example(stage.cast, tables={"labour": [{"skill": "mechanical", "rate": "175.00"}]}).json()
    assert "electrical" in without["stops"] and without["figures"] == []
    refused = example(stage.cast, figures={"validity_days": "1.5"})
    assert refused.json()["errors"][0]["pointer"] == "/figures/validity_days"


def test_a_shop_without_quotes_says_so(cast: Cast) -> None:
    add(cast, date(2026, 1, 1))
    answer = example(cast, **DEARER).json()
    assert (answer["quote"], answer["figures"], len(answer["changes"])) == (None, [], 1)
    assert answer["words"].startswith("There is no quote yet.")
