"""Exchange rates, as a manager adds them: by day, the one that counts marked, none ever changed."""

from datetime import timedelta
from typing import Any
from uuid import UUID

import pytest
from django.utils import timezone
from django.utils.dateparse import parse_datetime

from shop.models import History, Rate
from shop.queries.calendar import shop_day
from tests.cast import Cast

pytestmark = pytest.mark.once


def test_the_newest_rate_that_has_begun_counts(cast: Cast) -> None:
    manager, today = cast.signed_in("manager"), shop_day(cast.shop, timezone.now())
    days = {"0.08": today - timedelta(days=9), "0.09": today - timedelta(days=1), "0.1": today + timedelta(days=1)}
    for rate, day in days.items():
        body = {"currency": "NOK", "rate": rate, "valid_from": day.isoformat()}
        assert manager.post("exchange-rates", body).status_code == 201
    added = manager.post("exchange-rates", {"currency": "USD", "rate": "0.910000"})
    assert (added.json()["rate"], added.json()["state"], added.json()["valid_from"]) == (
        "0.91",
        "in_force",
        today.isoformat(),
    )
    items = manager.get("exchange-rates").json()["items"]
    assert [(row["currency"], row["rate"], row["state"]) for row in items] == [
        ("NOK", "0.1", "coming"),
        ("NOK", "0.09", "in_force"),
        ("NOK", "0.08", "earlier"),
        ("USD", "0.91", "in_force"),
    ]
    assert History.objects.filter(subject="rate", verb="added").count() == 4
    added_at = {row.subject_id: row.recorded_at for row in History.objects.filter(subject="rate", verb="added")}
    assert {row["by"] for row in [*items, added.json()]} == {cast.manager.user.name}
    assert [parse_datetime(row["added_at"]) for row in items] == [added_at[UUID(row["id"])] for row in items]
    Rate.objects.create(shop=cast.shop, currency="CHF", valid_from=today, rate="1")
    assert manager.get("exchange-rates").json()["items"][0]["by"] is None


@pytest.mark.parametrize(
    ("body", "pointer"),
    [
        ({"currency": "EUR", "rate": "1"}, "/currency"),
        ({"currency": "QQQ", "rate": "1"}, "/currency"),
        ({"currency": "NOK", "rate": "0"}, "/rate"),
        ({"currency": "NOK", "rate": "0.0000001"}, "/rate"),
        ({"currency": "NOK", "rate": 0.09}, "/rate"),
        ({"currency": "USD", "rate": "0.91"}, "/valid_from"),
    ],
)
def test_what_is_no_new_rate_is_refused(cast: Cast, body: dict[str, Any], pointer: str) -> None:
    today = shop_day(cast.shop, timezone.now())
    Rate.objects.create(shop=cast.shop, currency="USD", valid_from=today, rate="0.9")
    Rate.objects.create(shop=cast.elsewhere, currency="NOK", valid_from=today, rate="0.9")
    answer = cast.signed_in("manager").post("exchange-rates", body)
    assert (answer.status_code, answer.json()["errors"][0]["pointer"]) == (400, pointer)
    assert Rate.objects.filter(shop=cast.shop).count() == 1


def test_rates_are_the_managers_and_of_one_shop(cast: Cast) -> None:
    Rate.objects.create(shop=cast.elsewhere, currency="NOK", valid_from="2026-11-02", rate="0.9")
    assert cast.signed_in("manager").get("exchange-rates").json()["items"] == []
    assert cast.signed_in("advisor").get("exchange-rates").status_code == 403
