"""While a manager types an exchange rate, one quote of the shop shows its prices by it. Nothing is written."""

from datetime import timedelta
from typing import Any

import pytest
from django.utils import timezone

from quotes.models import Revision
from shop.models import Command, History, Rate
from shop.queries.calendar import shop_day
from tests.quotes.stage import Stage

pytestmark = pytest.mark.once


def example(stage: Stage, **body: Any) -> Any:
    return stage.cast.signed_in("manager").post("exchange-rates/example", {"currency": "USD", "rate": "0.95"} | body)


def moved(answer: Any) -> dict[str, tuple[str, str]]:
    return {row["code"]: (row["now"], row["then"]) for row in answer.json()["figures"] if row["moved"]}


def test_a_quote_shows_what_a_rate_does_before_it_is_added(stage: Stage) -> None:
    """1,000 USD cost 950.00 and not 900.00: by the bands 1,170.00 and not 1,110.00, 50.00 of it before tax."""
    quote = stage.quote().json()
    stored = [list(model.objects.values()) for model in (Rate, Revision, History, Command)]
    answer = example(stage)
    assert answer.status_code == 200, answer.content
    assert moved(answer) == {
        "net": ("2,672.82", "2,722.82"),
        "tax": ("534.56", "544.56"),
        "total": ("3,207.38", "3,267.38"),
        "margin": ("30.1 %", "29.6 %"),
    }
    body = answer.json()
    assert body["rate"] == {"title": "1 USD", "now": "0.9", "then": "0.95", "moved": True}
    assert body["lines"] == [{"title": "Turbocharger kit", "now": "1,110.00", "then": "1,170.00"}]
    assert body["quote"] == quote["id"] and body["words"].startswith(f"{quote['number']} at today’s prices")
    assert [list(model.objects.values()) for model in (Rate, Revision, History, Command)] == stored


def test_a_rate_that_moves_nothing_says_why(stage: Stage) -> None:
    assert "no quote yet" in example(stage).json()["words"]
    stage.quote()
    foreign = example(stage, currency="NOK", rate="0.09")
    assert moved(foreign) == {} and "nothing that is bought in NOK" in foreign.json()["words"]
    assert foreign.json()["rate"]["now"] is None
    week_ago = shop_day(stage.shop, timezone.now()) - timedelta(days=7)
    late = example(stage, valid_from=week_ago.isoformat())
    assert moved(late) == {} and late.json()["words"].startswith("A newer rate of USD is in force already")
    assert example(stage, rate="0").json()["errors"][0]["pointer"] == "/rate"
    assert example(stage, currency="EUR").json()["errors"][0]["pointer"] == "/currency"
