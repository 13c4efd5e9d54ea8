"""Attributes that are not recorded leave parts and work out of the price, and every reader of the price sees that."""

import json

import pytest

from kitting.models import KitLine
from quotes.models import Revision
from quotes.presenters.customer import for_customer
from tests.quotes.phone import Phone
from tests.quotes.stage import RULES, Stage

pytestmark = pytest.mark.once

OPEN = "We do not know yet which gearbox yours has. It decides which parts of the kit we use; the price stays the same."
EVERYTHING = "The price includes tax and all compulsory charges."


@pytest.fixture
def open_question(stage: Stage) -> Stage:
    only = [{"attribute": "transmission", "in": ["automatic"]}]
    line = KitLine.objects.filter(revision__kit=stage.turbo, kind="part").first()
    KitLine.objects.filter(pk=line.pk).update(conditions=only)
    stage.vehicle.attributes = {}
    stage.vehicle.save(update_fields=["attributes"])
    return stage


def test_the_advisor_reads_what_it_decides(open_question: Stage) -> None:
    (question,) = open_question.quote().json()["decide"]
    assert question["words"] == (
        "gearbox: not recorded. It decides which parts of the kit are taken; price and hours stay as they are."
    )


def test_the_customer_reads_it_and_that_the_price_holds_everything(open_question: Stage) -> None:
    page = Phone(open_question.sent()["link"]["url"]).html
    assert OPEN in page and EVERYTHING in page and "not recorded" not in page


def test_the_customers_copy_speaks_as_the_page_does(open_question: Stage) -> None:
    open_question.sent()
    content = json.loads(Revision.objects.get().snapshot)
    assert [question["words"].startswith(OPEN) for question in for_customer(content)["shown"]["decide"]] == [True]
    assert "not recorded" in content["shown"]["decide"][0]["words"]  # the frozen text stays as it was


def test_once_it_is_stated_the_price_holds_everything(stage: Stage) -> None:
    page = Phone(stage.sent()["link"]["url"]).html
    assert EVERYTHING in page and "Still to be decided" not in page


def test_taxes_on_top_are_spoken_of_as_before(open_question: Stage) -> None:
    from shop.models import RuleSet

    RuleSet.objects.update(rules={**RULES, "prices_include_tax": False})
    page = Phone(open_question.sent()["link"]["url"]).html
    assert "The total includes the taxes shown below" in page and OPEN in page


def test_anything_else_that_is_open_is_named() -> None:
    (question,) = for_customer({"shown": {"decide": [{"attribute": "tow_bar"}]}})["shown"]["decide"]
    assert question["words"].startswith("We do not know yet which tow bar yours has.")
