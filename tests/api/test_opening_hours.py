"""Opening hours and closed days, as a manager enters them."""

from datetime import date, timedelta
from typing import Any

import pytest
from django.utils import timezone

from shop.models import Calendar, ClosedDay, History
from shop.queries.calendar import shop_day
from tests.cast import Cast

DAY = [{"opens": "8", "closes": "12.00"}, {"opens": "12:45", "closes": "17:30"}]


def put(cast: Cast, *days: tuple[str, list[dict[str, str]]]) -> Any:
    week = [{"day": day, "spans": spans} for day, spans in days]
    return cast.signed_in("manager").put("opening-hours", {"week": week})


def test_a_week_is_kept_as_times_of_a_day(cast: Cast) -> None:
    Calendar.objects.filter(shop=cast.shop).delete()
    assert cast.signed_in("manager").get("opening-hours").json()["recorded"] is False
    answer = put(cast, ("sat", [{"opens": "9:00", "closes": "24"}]), ("mon", list(reversed(DAY))), ("sun", []))
    assert answer.status_code == 200, answer.content
    week = Calendar.objects.get(shop=cast.shop).week
    assert week == {"mon": [["08:00", "12:00"], ["12:45", "17:30"]], "sat": [["09:00", "24:00"]]}
    read = cast.signed_in("manager").get("opening-hours").json()
    assert read["recorded"] is True
    assert [day["day"] for day in read["week"] if day["spans"]] == ["mon", "sat"]
    assert read["week"][0]["spans"][1] == {"opens": "12:45", "closes": "17:30"}
    assert History.objects.filter(shop=cast.shop, subject="calendar").latest("recorded_at").changes["week"][1] == week


@pytest.mark.parametrize(
    ("spans", "says"),
    [
        ([{"opens": "soon", "closes": "12:00"}], "is not a time of day"),
        ([{"opens": "24:30", "closes": "12:00"}], "is not a time of day"),
        ([{"opens": "17:30", "closes": "8:00"}], "is not after the opening"),
        ([{"opens": "8:00", "closes": "8:00"}], "is not after the opening"),
        ([{"opens": "8:00", "closes": "12:00"}, {"opens": "11:59", "closes": "13:00"}], "overlap"),
        ([{"opens": f"{n}:00", "closes": f"{n}:30"} for n in range(5)], "at most 4"),
    ],
)
def test_hours_that_cannot_be_are_refused_at_their_day(cast: Cast, spans: list[dict[str, str]], says: str) -> None:
    before = Calendar.objects.get(shop=cast.shop).week if Calendar.objects.filter(shop=cast.shop) else None
    answer = put(cast, ("tue", DAY), ("wed", spans))
    assert answer.status_code == 400
    [error] = answer.json()["errors"]
    assert error["pointer"] == "/week/wed" and says in error["detail"]
    assert (Calendar.objects.get(shop=cast.shop).week if before is not None else None) == before


def test_a_shop_that_never_opens_is_refused(cast: Cast) -> None:
    assert put(cast, ("mon", [])).json()["errors"][0]["pointer"] == "/week"


def test_days_are_closed_and_opened_again(cast: Cast) -> None:
    manager, today = cast.signed_in("manager"), shop_day(cast.shop, timezone.now())
    ClosedDay.objects.create(shop=cast.shop, date=today - timedelta(days=1), reason="over")
    first, last = today + timedelta(days=9), today + timedelta(days=11)
    body = {"first": first.isoformat(), "last": last.isoformat(), "reason": "Stocktaking"}
    answer = manager.post("closed-days", body)
    assert answer.status_code == 201, answer.content
    days = answer.json()["closed_days"]
    assert [day["date"] for day in days] == [(first + timedelta(days=n)).isoformat() for n in range(3)]
    assert {day["reason"] for day in days} == {"Stocktaking"}
    days_again = manager.post("closed-days", {"first": first.isoformat(), "reason": "Holiday"}).json()["closed_days"]
    assert [day["reason"] for day in days_again] == ["Holiday", "Stocktaking", "Stocktaking"], "a day is closed once"
    assert manager.delete(f"closed-days/{days[0]['id']}").status_code == 204
    assert manager.delete(f"closed-days/{days[0]['id']}").status_code == 404
    assert ClosedDay.objects.filter(shop=cast.shop, date__gte=today).count() == 2


@pytest.mark.parametrize(("last", "says"), [("2027-01-01", "before the first"), ("2027-04-01", "at most 60")])
def test_a_stretch_of_closed_days_has_an_order_and_a_limit(cast: Cast, last: str, says: str) -> None:
    answer = cast.signed_in("manager").post("closed-days", {"first": "2027-01-02", "last": last})
    [error] = answer.json()["errors"]
    assert error["pointer"] == "/last" and says in error["detail"].lower()
    assert not ClosedDay.objects.filter(shop=cast.shop, date__gte=date(2027, 1, 1)).exists()
