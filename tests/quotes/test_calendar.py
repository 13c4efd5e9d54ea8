"""A calendar reads the days of the open jobs from a secret address, until it is revoked."""

from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest
from django.db import DatabaseError, connection, transaction
from django.test import Client
from django.test.utils import CaptureQueriesContext
from icalendar import Calendar

from quotes.models import ToldDate
from quotes.queries.pricing import shop_day
from shop.models import CalendarFeed, History, Job, Vehicle
from tests.cast import Cast, make_member
from tests.client import CheckedClient
from tests.factories import JobFactory

pytestmark = pytest.mark.once

NOW = datetime.now(UTC)
TODAY = NOW.date()
READY = TODAY + timedelta(days=9)


@pytest.fixture
def job(cast: Cast) -> Job:
    job: Job = JobFactory(shop=cast.shop, promised_on=READY, here_from=TODAY + timedelta(days=5))
    Vehicle.objects.filter(pk=job.vehicle_id).update(plate="SL 14, TSK;\\X")
    return job


def address(cast: Cast) -> str:
    answer = cast.signed_in("manager").post("calendar-feeds", {"title": "Phone of the bay"})
    assert answer.status_code == 201, answer.content
    return str(answer.json()["url"].removeprefix("http://testserver"))


def events(answer: Any) -> dict[str, tuple[str, date]]:
    """{kind: (summary, day)} as a calendar reads them."""
    assert answer.status_code == 200, answer.content
    entries = Calendar.from_ical(answer.content).walk("VEVENT")
    return {str(event["UID"]).split("@")[0][37:]: (str(event["SUMMARY"]), event["DTSTART"].dt) for event in entries}


def test_it_shows_the_days_of_an_open_job_by_plate_and_number(cast: Cast, job: Job) -> None:
    answer = Client().get(address(cast))
    assert answer["Content-Type"] == "text/calendar; charset=utf-8"
    assert events(answer) == {
        "bring": (f"SL 14, TSK;\\X comes in (J-{job.number})", TODAY + timedelta(days=5)),
        "ready": (f"SL 14, TSK;\\X ready, as the customer was told (J-{job.number})", READY),
    }
    assert all(len(line) <= 75 and not line.endswith(b"\n") for line in answer.content.split(b"\r\n"))
    for secret in (job.customer.name, job.customer.phone or "01632", "EUR"):
        assert secret not in answer.content.decode()


def test_a_date_that_was_told_later_counts(cast: Cast, job: Job) -> None:
    where = address(cast)
    later = {"job": job, "words": "x", "means": "phone", "told_by": cast.advisor, "shop": cast.shop}
    ToldDate.objects.create(**later, ready_on=READY + timedelta(days=2), half="morning", told_at=NOW)
    answer = Client().get(where)
    assert events(answer)["ready"][1] == READY + timedelta(days=2) and b"In the morning" in answer.content
    ToldDate.objects.create(**later, ready_on=None, half="", told_at=NOW + timedelta(hours=1))
    assert "ready" not in events(Client().get(where))


@pytest.mark.parametrize(
    ("change", "kinds"),
    [
        ({"here": True, "here_from": None}, {"ready"}),
        ({"state": "in_bay"}, {"ready"}),
        ({"state": "called_off", "called_off_on": TODAY, "called_off_reason": "x"}, set()),
        ({"state": "handed_over", "in_bay_on": TODAY, "handed_over_on": TODAY}, {"handed_over"}),
    ],
)
def test_only_what_is_still_to_come_or_just_happened_is_shown(
    cast: Cast, job: Job, change: dict[str, Any], kinds: set[str]
) -> None:
    Job.objects.filter(pk=job.pk).update(**change)
    assert set(events(Client().get(address(cast)))) == kinds


def test_a_vehicle_handed_over_long_ago_is_left_out(cast: Cast, job: Job) -> None:
    day = shop_day(cast.shop, NOW) - timedelta(days=31)
    Job.objects.filter(pk=job.pk).update(state="handed_over", in_bay_on=day, handed_over_on=day)
    assert events(Client().get(address(cast))) == {}


def test_another_shops_jobs_are_not_in_it(cast: Cast) -> None:
    JobFactory(shop=cast.elsewhere, promised_on=READY)
    assert events(Client().get(address(cast))) == {}


def test_what_a_calendar_has_is_not_sent_again(cast: Cast, job: Job) -> None:
    where = address(cast)
    first = Client().get(where)
    again = Client().get(where, headers={"If-None-Match": first["ETag"]})
    assert (again.status_code, again.content) == (304, b"")
    Job.objects.filter(pk=job.pk).update(promised_on=READY + timedelta(days=1))
    assert Client().get(where, headers={"If-None-Match": first["ETag"]}).status_code == 200


def test_the_address_is_told_once_stored_hashed_and_ends(cast: Cast, caplog: pytest.LogCaptureFixture) -> None:
    caplog.set_level("INFO")
    where = address(cast)
    secret = where.rpartition("/")[2].removesuffix(".ics")
    assert len(secret) == 43
    assert secret not in str([*CalendarFeed.objects.values(), *History.objects.values()])
    manager = cast.signed_in("manager")
    (listed,) = manager.get("calendar-feeds").json()["items"]
    assert (listed["title"], listed["by"], secret in str(listed)) == ("Phone of the bay", "Manager", False)
    assert Client().get(where).status_code == 200
    guesses = [where.replace(secret, "x" * 43), where.replace(listed["id"], str(cast.shop.pk))]
    assert {Client().get(guess).status_code for guess in guesses} == {404}
    assert [manager.delete(f"calendar-feeds/{listed['id']}").status_code for _ in range(2)] == [204, 204]
    assert {(answer.status_code, answer.content) for answer in map(Client().get, [where, *guesses])} == {
        (404, Client().get("/nowhere/at/all").content)
    }
    assert "/calendar/" in caplog.text and secret not in caplog.text


def test_a_leavers_addresses_end(cast: Cast) -> None:
    second = make_member(cast.shop, "manager", "second")
    client = CheckedClient()
    client.force_login(second.user)
    where = client.post("calendar-feeds", {"title": "Own"}).json()["url"]
    assert Client().get(where).status_code == 200
    assert cast.signed_in("manager").delete(f"people/{second.pk}").status_code == 204
    assert Client().get(where).status_code == 404


def test_a_feed_takes_as_many_queries_for_many_jobs(cast: Cast, job: Job) -> None:
    where = address(cast)
    with CaptureQueriesContext(connection) as queries:
        assert len(events(Client().get(where))) == 2
    for _ in range(4):
        JobFactory(shop=cast.shop, promised_on=READY)
    with CaptureQueriesContext(connection) as more_queries:
        assert Client().get(where).status_code == 200
    assert len(more_queries) == len(queries) <= 5


@pytest.mark.both
def test_a_revoked_address_stays_revoked(cast: Cast) -> None:
    address(cast)
    CalendarFeed.objects.update(revoked_at=NOW)
    with pytest.raises(DatabaseError), transaction.atomic():
        CalendarFeed.objects.update(revoked_at=None)
