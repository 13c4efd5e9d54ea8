"""Opening hours and closed days, as a manager enters them."""

from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest
from django.utils import timezone

from shop.models import Calendar, ClosedDay, History, Shop
from shop.queries.calendar import opening_hours, shop_day
from tests.cast import Cast

DAY = [{"opens": "8", "closes": "12.00"}, {"opens": "12:45", "closes": "17:30"}]


def put(cast: Cast, *days: tuple[str, list[dict[str, str]]], since: date | None = None) -> Any:
    week = [{"day": day, "spans": spans} for day, spans in days]
    return cast.signed_in("manager").put("opening-hours", {"week": week, "valid_from": since and since.isoformat()})


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


def test_hours_that_somebody_else_changed_meanwhile_stay(cast: Cast) -> None:
    """Two managers read the same hours: the second does not take back what the first one saved."""
    manager = cast.signed_in("manager")
    assert put(cast, ("mon", DAY)).status_code == 200
    seen = manager.get("opening-hours").json()["week"]
    bodies = [{"week": [{"day": day, "spans": DAY}, seen[0]], "seen": seen} for day in ("tue", "wed")]
    assert [manager.put("opening-hours", body).status_code for body in bodies] == [200, 409]
    week = manager.get("opening-hours").json()["week"]
    assert [day["day"] for day in week if day["spans"]] == ["mon", "tue"]


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


def test_hours_begin_on_a_day_and_the_days_before_keep_theirs(cast: Cast, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(timezone, "now", lambda: datetime(2026, 11, 30, 12, tzinfo=UTC))
    Calendar.objects.filter(shop=cast.shop).delete()
    manager, new_year = cast.signed_in("manager"), date(2027, 1, 4)
    put(cast, ("mon", DAY), ("fri", DAY))
    assert put(cast, ("mon", DAY)).status_code == 200, "corrected on the same day: the same row"
    answer = put(cast, ("mon", DAY[:1]), ("tue", DAY[1:]), since=new_year)
    assert put(cast, ("tue", DAY[1:]), ("mon", DAY[:1]), since=date(2027, 2, 1)).json() == answer.json(), "no change"
    later, now = answer.json()["versions"]
    assert (later["valid_from"], later["state"]) == ("2027-01-04", "later")
    assert later["changes"] == [
        "Mon: 08:00 to 12:00, before 08:00 to 12:00 and 12:45 to 17:30",
        "Tue: 12:45 to 17:30, before closed",
    ]
    assert (now["valid_from"], now["state"], now["changes"]) == ("2026-11-30", "in_force", [])
    assert [day["day"] for day in answer.json()["week"] if day["spans"]] == ["mon"], "those of today"
    for since in (date(2020, 1, 1), date(2026, 12, 1)):
        calendar = opening_hours(cast.shop, since)
        assert calendar is not None and calendar.later[0][0] == new_year, "the first hours apply before their day"
        assert [len(calendar.week_on(new_year - timedelta(days=before))[1]) for before in (1, 0)] == [0, 1]
    settled = opening_hours(cast.shop, date(2027, 1, 5))
    assert settled is not None and settled.later == () and settled.week[1] == ((765, 1050),)
    assert put(cast, ("mon", DAY), since=date(2026, 11, 29)).json()["errors"][0]["pointer"] == "/valid_from"
    refusal = manager.delete(f"opening-hours/{now['id']}")
    assert (refusal.status_code, refusal.json()["type"].rpartition("/")[2]) == (409, "hours-begun")
    assert manager.delete(f"opening-hours/{later['id']}").status_code == 204
    assert manager.delete(f"opening-hours/{later['id']}").status_code == 404
    assert [row["id"] for row in manager.get("opening-hours").json()["versions"]] == [now["id"]]


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


def test_holidays_of_the_country_are_offered_and_close_the_days_that_a_person_takes(
    cast: Cast, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(timezone, "now", lambda: datetime(2027, 5, 3, 12, tzinfo=UTC))
    Shop.objects.filter(pk=cast.shop.pk).update(zone="Europe/Vienna")
    manager = cast.signed_in("manager")
    offer = manager.get("holidays").json()
    assert (offer["country"], offer["region"], offer["year"], offer["years"]) == ("AT", "", 2027, [2027, 2028, 2029])
    assert {"code": "NZ", "title": "New Zealand"} in offer["countries"]
    assert {"code": "9", "title": "Wien"} in offer["regions"]
    days = [(day["date"], day["reason"]) for day in offer["days"]]
    assert days[0] == ("2027-05-06", "Ascension Day"), "none that is over, in the reader's language"
    assert days[-1] == ("2027-12-26", "Saint Stephen's Day") and not any(day["closed"] for day in offer["days"])
    ClosedDay.objects.create(shop=cast.shop, date=date(2027, 5, 6), reason="Stocktaking")
    taken = [{"date": day["date"], "reason": day["reason"]} for day in offer["days"][:2]]
    answer = manager.post("holidays", {"days": taken})
    assert answer.status_code == 201, answer.content
    assert [day["reason"] for day in answer.json()["closed_days"]] == ["Stocktaking", taken[1]["reason"]]
    assert History.objects.filter(shop=cast.shop, subject="closedday", verb="added").count() == 1
    assert [day["closed"] for day in manager.get("holidays").json()["days"][:3]] == [True, True, False]


def test_years_are_written_without_a_comma(cast: Cast, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(timezone, "now", lambda: datetime(2027, 5, 3, 12, tzinfo=UTC))
    answer = cast.signed_in("manager").get("holidays", {"year": "1999"})
    assert answer.json()["errors"][0]["detail"] == "Choose a year from 2027 to 2029."


def test_a_region_has_holidays_of_its_own(cast: Cast) -> None:
    manager, year = cast.signed_in("manager"), str(shop_day(cast.shop, timezone.now()).year + 1)
    whole, saxony = (
        {day["reason"] for day in manager.get("holidays", {"country": "DE", "year": year} | region).json()["days"]}
        for region in ({}, {"region": "SN"})
    )
    assert saxony - whole == {"Reformation Day", "Repentance and Prayer Day"} and whole < saxony


@pytest.mark.parametrize(
    ("query", "pointer"),
    [({"country": "ZZ"}, "/country"), ({"country": "DE", "region": "QQ"}, "/region"), ({"year": "1999"}, "/year")],
)
def test_a_country_a_region_or_a_year_without_holidays_is_refused(
    cast: Cast, query: dict[str, str], pointer: str
) -> None:
    answer = cast.signed_in("manager").get("holidays", query)
    assert answer.status_code == 400 and [error["pointer"] for error in answer.json()["errors"]] == [pointer]
