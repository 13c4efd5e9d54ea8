"""A visit with less labour than the minimum charge has the rest as a line of its own, also on paper."""

from decimal import Decimal

import pytest

from quotes.models import Line, Revision
from quotes.queries import frozen
from tests.quotes.stage import Stage
from tests.quotes.test_how import how, steps, with_rules

pytestmark = pytest.mark.once


def test_the_rest_of_the_minimum_is_priced_explained_and_sent(stage: Stage) -> None:
    with_rules(minimum={"hours": "12"})
    quote = stage.quote().json()
    (minimum,) = (fee for fee in quote["fees"] if fee["key"] == "minimum")
    rest = Decimal(12) - Decimal(quote["labour"]["hours"])
    price = rest * Decimal("165.00")
    assert (minimum["title"], Decimal(minimum["price"])) == ("Minimum charge", price)
    assert minimum["why"] == [f"{Decimal(quote['labour']['hours']).normalize()} h of labour, charged as 12 h"]
    assert steps(how(stage, quote, "minimum"))[-1] == (f"{rest} h × 165.00", f"{price:.2f}")

    stage.sent()
    assert Line.objects.get(title="Minimum charge").amount == price
    content = frozen.read(Revision.objects.get(state="sent"))
    assert ("Minimum charge", minimum["price"]) in [(fee["title"], fee["price"]) for fee in content["shown"]["fees"]]


def test_labour_that_reaches_the_minimum_has_no_such_line(stage: Stage) -> None:
    with_rules(minimum={"hours": "0.5"})
    assert "minimum" not in [fee["key"] for fee in stage.quote().json()["fees"]]
