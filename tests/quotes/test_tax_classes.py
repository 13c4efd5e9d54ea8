"""The tax class of a hand-written line is chosen, with its rate beside it; one that no tax names is untaxed."""

from typing import Any

import pytest

from quotes.documents.quote_pdf import paper_html
from quotes.models import Line, Revision
from shop.models import RuleSet
from tests.quotes.phone import Phone
from tests.quotes.stage import RULES, Stage

pytestmark = pytest.mark.once

NOTHING_ON = {"code": "NONE", "title": "Not taxed", "rate": "0", "classes": ["gift"]}


def add(stage: Stage, quote: dict[str, Any], **fields: Any) -> Any:
    body = {"kind": "text", "title": "Tow-bar permit", "unit_price": "60.00"} | fields
    return stage.client.post(f"quotes/{quote['id']}/lines", body)


def test_none_is_assumed(stage: Stage) -> None:
    answer = add(stage, stage.quote().json())
    assert (answer.status_code, [error["pointer"] for error in answer.json()["errors"]]) == (400, ["/tax_class"])


def test_the_choices_name_their_rates(stage: Stage) -> None:
    taxes = [
        {"code": "STATE", "title": "State tax", "rate": "0.05", "classes": ["part", "labour", "supplies", "fee"]},
        {"code": "COUNTY", "title": "County tax", "rate": "0.07", "classes": ["part"]},
    ]
    RuleSet.objects.update(rules=RULES | {"taxes": taxes})
    classes = stage.quote().json()["rules"]["tax_classes"]
    assert {tax_class["code"]: tax_class["words"] for tax_class in classes} == {
        "fee": "fee: State tax 5 %",
        "labour": "labour: State tax 5 %",
        "part": "part: State tax 5 % and County tax 7 %",
        "supplies": "supplies: State tax 5 %",
        "untaxed": "untaxed: no tax",
    }


def test_an_untaxed_line_is_sent_and_adds_no_tax_and_no_row(stage: Stage) -> None:
    RuleSet.objects.update(rules=RULES | {"taxes": [*RULES["taxes"], NOTHING_ON]})
    before = stage.quote().json()
    quote = add(stage, before, tax_class="untaxed").json()
    assert quote["stops"] == [] and quote["totals"]["tax"] == before["totals"]["tax"]
    assert quote["totals"]["gross"] == "3267.38"
    body = {"version": quote["version"], "recipient": "Maren Oldacre"}
    sent = stage.client.post(f"quotes/{quote['id']}/send", body)
    assert sent.status_code == 201, sent.content
    revision = Revision.objects.get()
    paper = paper_html(revision.snapshot)
    for text in (Phone(sent.json()["link"]["url"]).html, paper):
        assert "Tow-bar permit" in text and "Value added tax" in text
        assert "Not taxed" not in text and "0 %" not in text.replace("20 %", "")


def test_a_class_that_the_rules_no_longer_know_is_noticed_and_may_be_sent(stage: Stage) -> None:
    quote = add(stage, stage.quote().json(), tax_class="part").json()
    Line.objects.filter(kind="text").update(tax_class="prat")
    quote = stage.client.get(f"quotes/{quote['id']}").json()
    assert quote["stops"] == []
    assert [notice["words"] for notice in quote["notices"] if notice["code"] == "unknown_class"] == [
        "No rule names the tax class prat, so it is sold without tax. Correct the rules or the line if that is wrong."
    ]
