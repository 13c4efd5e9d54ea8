"""A line takes only a tax class that the price rules of its quote offer. Another would be untaxed by mistake."""

from datetime import date
from typing import Any

import pytest

from quotes.models import Line
from shop.models import RuleSet
from tests.cast import Cast
from tests.factories import PartFactory
from tests.quotes.stage import RULES, Stage, make_stage
from tests.quotes.test_outside import FILE

pytestmark = pytest.mark.once

REMEDY = "Choose one of: fee, labour, part, supplies, untaxed."
WAX = {"kind": "text", "title": "Wax", "unit_price": "12.00"}


@pytest.fixture
def stage(cast: Cast) -> Stage:
    """The small workshop; the one next door has a class of its own."""
    stage = make_stage(cast)
    tax = {"code": "VAT", "title": "VAT", "rate": "0.2", "classes": ["curios"]}
    RuleSet.objects.create(shop=cast.elsewhere, number=1, valid_from=date(2026, 6, 1), rules=RULES | {"taxes": [tax]})
    return stage


def refused(answer: Any) -> None:
    assert answer.status_code == 400, answer.content
    (error,) = answer.json()["errors"]
    assert error["pointer"] == "/tax_class" and error["detail"].endswith(REMEDY)


@pytest.mark.parametrize("tax_class", ["curios", "Part", "labor"])
def test_a_line_written_by_hand_takes_no_other_class(stage: Stage, tax_class: str) -> None:
    quote = stage.quote(stage.turbo).json()
    refused(stage.client.post(f"quotes/{quote['id']}/lines", WAX | {"tax_class": tax_class}))
    assert not Line.objects.filter(kind="text").exists()


def test_it_takes_each_class_that_the_quote_offers(stage: Stage) -> None:
    quote = stage.quote(stage.turbo).json()
    offered = [tax_class["code"] for tax_class in quote["rules"]["tax_classes"]]
    assert offered == ["fee", "labour", "part", "supplies", "untaxed"]
    for tax_class in offered:
        added = stage.client.post(f"quotes/{quote['id']}/lines", WAX | {"tax_class": tax_class})
        assert added.status_code == 201 and added.json()["extras"][-1]["tax_class"] == tax_class


def test_a_loose_part_changes_to_no_other_class(stage: Stage) -> None:
    quote = stage.quote(stage.turbo).json()
    part = PartFactory(shop=stage.cast.shop, tax_class="part")
    added = stage.client.post(f"quotes/{quote['id']}/lines", {"kind": "part", "part": str(part.pk)})
    path = f"quotes/{quote['id']}/lines/{added.json()['extras'][0]['line']}"
    refused(stage.client.patch(path, {"tax_class": "curios"}, seen=added))
    assert stage.client.patch(path, {"tax_class": "untaxed"}, seen=added).status_code == 200


def test_a_class_that_the_rules_have_lost_stays_until_it_is_changed(stage: Stage) -> None:
    """A line that was written under earlier rules can still be renamed; the quote says that it is untaxed."""
    quote = stage.quote(stage.turbo).json()
    added = stage.client.post(f"quotes/{quote['id']}/lines", WAX | {"tax_class": "part"})
    line = added.json()["extras"][0]["line"]
    Line.objects.filter(pk=line).update(tax_class="sundries")
    path = f"quotes/{quote['id']}/lines/{line}"
    renamed = stage.client.patch(path, {"title": "Polish", "tax_class": "sundries"}, seen=added)
    assert renamed.status_code == 200 and "unknown_class" in [notice["code"] for notice in renamed.json()["notices"]]


def test_outside_work_takes_no_other_class(stage: Stage) -> None:
    quote = stage.quote(stage.turbo).json()
    refused(stage.client.post(f"quotes/{quote['id']}/outside", FILE | {"tax_class": "curios"}))
    added = stage.client.post(f"quotes/{quote['id']}/outside", FILE)
    path = f"quotes/{quote['id']}/outside/{added.json()['outside'][0]['line']}"
    refused(stage.client.put(path, FILE | {"tax_class": "curios"}, seen=added))
    assert stage.client.put(path, FILE | {"tax_class": "untaxed"}, seen=added).status_code == 200
