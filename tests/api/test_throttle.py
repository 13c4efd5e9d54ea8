"""Guessing passwords: a person's wrong tries count for one address, and for every process alike."""

import threading
from datetime import timedelta
from typing import Any

import pytest
from django.core.management import call_command
from django.db import connection
from django.utils import timezone

from shop import hashing
from shop.models import SignInTry
from shop.views import session
from tests.cast import PASSWORD, Cast, make_cast
from tests.client import CheckedClient

SESSION = "/api/v1/session"
STRANGER, WORKSHOP = "203.0.113.7", "198.51.100.20"


def sign_in(client: CheckedClient, role: str, password: str, address: str) -> Any:
    body = {"email": f"{role}@saltmarsh.example", "password": password}
    return client.post(SESSION, body, REMOTE_ADDR=address)


def guess(client: CheckedClient, role: str, address: str) -> int:
    return sign_in(client, role, "guess", address).status_code


def test_wrong_tries_of_a_person_from_an_address_run_out(cast: Cast, client: CheckedClient, settings: Any) -> None:
    settings.SIGN_IN_TRIES = 2
    assert [guess(client, "manager", STRANGER) for _ in range(3)] == [401, 401, 429]
    answer = sign_in(client, "manager", PASSWORD, STRANGER)
    assert answer.status_code == 429
    assert 0 < int(answer["Retry-After"]) <= 15 * 60 + 1


def test_a_stranger_never_keeps_the_right_password_out(cast: Cast, client: CheckedClient, settings: Any) -> None:
    settings.SIGN_IN_TRIES = 2
    for n in range(20):
        guess(client, "manager", f"203.0.113.{n}")
        guess(client, "manager", STRANGER)
    assert sign_in(client, "manager", PASSWORD, WORKSHOP).status_code == 200


def test_one_person_s_slips_keep_nobody_else_at_that_address_out(
    cast: Cast, client: CheckedClient, settings: Any
) -> None:
    settings.SIGN_IN_TRIES = 2
    assert [guess(client, "manager", WORKSHOP) for _ in range(3)][-1] == 429
    assert sign_in(client, "parts", PASSWORD, WORKSHOP).status_code == 200


def test_an_address_that_tries_many_people_has_a_limit_of_its_own(
    cast: Cast, client: CheckedClient, settings: Any
) -> None:
    settings.SIGN_IN_TRIES_OF_AN_ADDRESS = 3
    assert [guess(client, f"person{n}", STRANGER) for n in range(4)] == [401, 401, 401, 429]
    assert guess(client, "person5", WORKSHOP) == 401


def test_a_subscriber_s_many_ipv6_addresses_are_one(cast: Cast, client: CheckedClient, settings: Any) -> None:
    settings.SIGN_IN_TRIES = 2
    answers = [guess(client, "manager", f"2001:db8:1:2::{n}") for n in range(1, 4)]
    assert answers == [401, 401, 429]
    assert guess(client, "manager", "2001:db8:1:3::1") == 401


def test_the_right_password_clears_the_slips_before_it(cast: Cast, client: CheckedClient, settings: Any) -> None:
    settings.SIGN_IN_TRIES = 2
    for _ in range(3):
        assert guess(client, "manager", WORKSHOP) == 401
        assert sign_in(client, "manager", PASSWORD, WORKSHOP).status_code == 200


def test_it_clears_neither_another_person_s_slips_nor_those_made_elsewhere(
    cast: Cast, client: CheckedClient, settings: Any
) -> None:
    settings.SIGN_IN_TRIES = 2
    for role, address in (("manager", WORKSHOP), ("parts", STRANGER)):
        assert [guess(client, role, address) for _ in range(2)] == [401, 401]
    assert sign_in(client, "parts", PASSWORD, WORKSHOP).status_code == 200
    assert [guess(client, "manager", WORKSHOP), guess(client, "parts", STRANGER)] == [429, 429]


def test_a_refused_try_does_not_lengthen_the_wait(cast: Cast, client: CheckedClient, settings: Any) -> None:
    settings.SIGN_IN_TRIES = 1
    assert [guess(client, "manager", WORKSHOP) for _ in range(5)] == [401, 429, 429, 429, 429]
    assert SignInTry.objects.count() == 1
    SignInTry.objects.update(tried_at=timezone.now() - timedelta(minutes=15))
    assert sign_in(client, "manager", PASSWORD, WORKSHOP).status_code == 200


def test_tries_that_no_longer_count_are_purged_and_hold_no_e_mail(cast: Cast, client: CheckedClient) -> None:
    guess(client, "manager", STRANGER)
    SignInTry.objects.update(tried_at=timezone.now() - timedelta(minutes=15))
    guess(client, "parts", WORKSHOP)
    call_command("purge", verbosity=0)
    left = SignInTry.objects.get()
    assert left.address == WORKSHOP and "parts" not in left.person


AT_ONCE = 16


class Gate:
    """Holds each caller until all callers have come in or gone away."""

    def __init__(self) -> None:
        self.inside: set[str] = set()
        self.gone: dict[str, int] = {}  # who left, and with which status
        self.moved = threading.Condition()

    def wait(self) -> None:
        with self.moved:
            self.inside.add(threading.current_thread().name)
            self.moved.notify_all()
            self.moved.wait_for(lambda: len(self.inside | self.gone.keys()) >= AT_ONCE, timeout=60)

    def leave(self, status: int) -> None:
        with self.moved:
            self.gone[threading.current_thread().name] = status
            self.moved.notify_all()


@pytest.mark.django_db(transaction=True)
def test_many_tries_at_once_are_no_more_than_the_limit(monkeypatch: pytest.MonkeyPatch, settings: Any) -> None:
    settings.SIGN_IN_TRIES = 4
    make_cast()
    gate = Gate()
    monkeypatch.setattr(session, "authenticate", lambda *args, **kw: gate.wait())
    for name in ("_hashing", "_room"):
        monkeypatch.setattr(hashing, name, threading.BoundedSemaphore(AT_ONCE))

    def attempt() -> None:
        status = 0
        try:
            status = guess(CheckedClient(), "manager", STRANGER)
        finally:
            connection.close()
            gate.leave(status)

    threads = [threading.Thread(target=attempt) for _ in range(AT_ONCE)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(gate.inside) <= 4
    assert sorted(gate.gone.values()) == [401] * len(gate.inside) + [429] * (AT_ONCE - len(gate.inside))
