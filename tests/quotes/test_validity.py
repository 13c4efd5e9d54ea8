"""A sent quote can be accepted no longer than the supplier's price holds, and the draft says why."""

import io
from datetime import datetime, timedelta
from pathlib import Path

import pytest
from django.core.management import call_command
from django.utils import timezone

from kitting.models import Offer, Part
from quotes.models import Revision
from quotes.queries.pricing import shop_day
from tests.quotes.stage import Stage
from tests.quotes.test_how import with_rules

pytestmark = pytest.mark.once

HEADS = "Family;Specification;Unit;Number;Pack size;Supplier;Price;Currency;Price valid until\n"


def test_it_ends_with_the_price_of_a_supplier(stage: Stage, tmp_path: Path) -> None:
    assert stage.quote().json()["validity"] == {"days": 14, "why": None}
    last = shop_day(stage.shop, timezone.now()) + timedelta(days=3)
    supplier = Part.objects.get(number="OIL-5").preferred
    file = tmp_path / "consumables.csv"
    file.write_text(HEADS + f"engine oil;5W-30;L;OIL-5;5 L;{supplier};30;EUR;{last.isoformat()}\n")
    call_command("import", "consumables", file, shop=stage.shop.slug, stdout=io.StringIO())
    assert Offer.objects.get(valid_until=last).part.number == "OIL-5"
    draft = stage.quote().json()
    assert draft["validity"]["days"] == 3
    assert draft["validity"]["why"].startswith(f"{supplier}’s price for ")

    sent = stage.sent()["quote"]
    assert sent["validity"] is None
    valid_until = Revision.objects.get(state="sent").valid_until
    assert isinstance(valid_until, datetime)
    assert shop_day(stage.shop, valid_until) == last


def test_it_ends_with_the_days_for_which_foreign_money_is_held(stage: Stage) -> None:
    with_rules(currency_days=4)
    assert stage.quote().json()["validity"] == {
        "days": 4,
        "why": "the workshop does not keep prices in USD any longer than that",
    }


def test_a_price_that_has_ended_is_a_notice_and_stops_nothing(stage: Stage) -> None:
    Offer.objects.update(valid_until=shop_day(stage.shop, timezone.now()) - timedelta(days=1))
    draft = stage.quote().json()
    assert draft["validity"]["days"] == 14
    assert "offer_ended" in [notice["code"] for notice in draft["notices"]]
    assert draft["stops"] == []
