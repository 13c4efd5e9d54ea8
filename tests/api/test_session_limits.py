"""The limits of a sign-in: an idle limit that only changes extend, and a fixed maximum age."""

from typing import Any

from django.conf import settings as ours

from shop.models import PersonSession
from tests.cast import PASSWORD, Cast
from tests.client import CheckedClient

SESSION = "/api/v1/session"


def act(client: CheckedClient) -> int:
    return client.post("customers", {"name": "Ferran Holds"}).status_code


def test_the_limits_are_settings_and_the_cookie_outlives_neither() -> None:
    assert (ours.SESSION_IDLE_HOURS, ours.SESSION_HOURS) == (12, 24 * 7)
    assert ours.SESSION_COOKIE_AGE == ours.SESSION_HOURS * 60 * 60


def test_the_limits_are_those_of_the_settings(cast: Cast, later: Any, settings: Any) -> None:
    settings.SESSION_IDLE_HOURS, settings.SESSION_HOURS = 2, 3
    client = cast.signed_in("advisor")
    later(minutes=119)
    assert act(client) == 201
    later(minutes=179)
    assert client.get("customers").status_code == 200
    later(minutes=181)
    assert client.get("customers").status_code == 401


def test_a_screen_left_open_signs_out_though_it_reads_all_the_time(cast: Cast, later: Any) -> None:
    client = cast.signed_in("advisor")
    for hours in (1, 5, 11):
        later(hours=hours)
        assert client.get("customers").status_code == 200
    later(hours=12, minutes=1)
    assert client.get("customers").status_code == 401


def test_what_a_person_does_keeps_them_signed_in(cast: Cast, later: Any) -> None:
    client = cast.signed_in("advisor")
    for hours in (10, 20, 30):
        later(hours=hours)
        assert act(client) == 201
    later(hours=41)
    assert client.get("customers").status_code == 200


def test_a_refused_act_does_not(cast: Cast, later: Any) -> None:
    client = cast.signed_in("technician")
    later(hours=10)
    assert act(client) == 403
    later(hours=13)
    assert client.get("jobs").status_code == 401


def test_whatever_a_person_does_a_week_is_the_longest(cast: Cast, later: Any) -> None:
    client = cast.signed_in("advisor")
    for hours in range(10, 24 * 7, 10):
        later(hours=hours)
        assert act(client) == 201
    later(hours=24 * 7, minutes=1)
    assert act(client) == 401


def test_signing_in_again_begins_a_new_life(cast: Cast, client: CheckedClient, later: Any, settings: Any) -> None:
    settings.SESSION_HOURS = 20
    body = {"email": "advisor@saltmarsh.example", "password": PASSWORD}
    client.post(SESSION, body)
    later(hours=11)
    client.post(SESSION, body)
    later(hours=22)
    assert act(client) == 201
    assert PersonSession.objects.get().user == cast.advisor.user


def test_acts_in_quick_succession_write_the_limit_once(cast: Cast, later: Any) -> None:
    client = cast.signed_in("advisor")
    began = PersonSession.objects.get().expire_date
    later(minutes=5)
    act(client)
    assert PersonSession.objects.get().expire_date == began
    later(minutes=11)
    act(client)
    assert PersonSession.objects.get().expire_date > began
