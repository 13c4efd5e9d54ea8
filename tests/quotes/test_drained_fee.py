"""A fee per litre drained stands on the customer's page and the paper as it was frozen."""

from decimal import Decimal
from html import unescape

import pytest

from kitting.models import Need
from quotes.calc.forms import read_text
from quotes.documents.quote_pdf import paper_html
from quotes.models import Revision
from quotes.queries import frozen
from shop.models import RuleSet, Vehicle
from tests.quotes.phone import Phone
from tests.quotes.stage import RULES, Stage

pytestmark = pytest.mark.once

FEE = {"code": "old", "title": "Old oil taken back", "amount": "1.25", "tax_class": "fee", "per": "litre drained"}
WHY = "6.1 L of engine oil drained, at 1.25"


def test_it_opens_from_the_frozen_text_after_the_capacity_is_gone(stage: Stage) -> None:
    """The circuit holds 6.1 L and takes 7.32 L with its filter. What runs out is charged: at 1.25, 7.625 is 7.63."""
    rules = RULES | {"fees": [FEE | {"fluid": "engine oil"}]}
    RuleSet.objects.filter(shop=stage.cast.shop).update(rules=rules)
    Need.objects.filter(shop=stage.cast.shop).update(quantity=Decimal("1.2"))
    url = stage.sent()["link"]["url"]
    Vehicle.objects.filter(pk=stage.vehicle.pk).update(capacities={})
    text = Revision.objects.get().snapshot
    content = read_text(text)
    fee, _supplies = content["shown"]["fees"]
    assert (fee["title"], fee["price"], fee["why"]) == (FEE["title"], "7.63", [WHY])
    assert frozen.gross_of(content) == content["shown"]["totals"]["gross"]
    for drawn in (Phone(url).html, paper_html(text)):
        assert FEE["title"] in drawn and WHY in unescape(drawn) and "7.63" in drawn
