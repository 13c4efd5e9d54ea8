"""A flood of sign-ins: two passwords are hashed at once in a process, two wait, and all others are refused at once."""

import threading
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from typing import Any

import pytest

from shop import hashing
from shop.models import SignInTry
from tests.cast import PASSWORD, Cast
from tests.client import CheckedClient

SESSION = "/api/v1/session"


@contextmanager
def holding(many: int) -> Iterator[None]:
    """Waits until so many threads are in the middle of a hash."""
    begun, done = threading.Barrier(many + 1), threading.Event()

    def hold() -> None:
        with hashing.hashing():
            begun.wait(10)
            done.wait(10)

    threads = [threading.Thread(target=hold, daemon=True) for _ in range(many)]
    with ExitStack() as stack:
        for thread in threads:
            thread.start()
            stack.callback(thread.join, 10)
        stack.callback(done.set)
        begun.wait(10)
        yield


class Unasked:
    def acquire(self, **options: Any) -> bool:
        raise AssertionError("it waited in a line that was full")


def sign_in(client: CheckedClient) -> Any:
    return client.post(SESSION, {"email": "advisor@saltmarsh.example", "password": PASSWORD})


def test_a_third_sign_in_waits_a_little_and_is_asked_to_come_back(
    cast: Cast, client: CheckedClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(hashing, "PATIENCE", 0.01)
    with holding(hashing.AT_ONCE):
        answer = sign_in(client)
        assert (answer.status_code, answer.json()["type"]) == (503, "/problems/busy")
        assert int(answer["Retry-After"]) > 0
        assert not SignInTry.objects.exists(), "it is no try: no password was looked at"
    assert sign_in(client).status_code == 200


def test_the_third_goes_in_once_one_of_them_is_done(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(hashing, "PATIENCE", 60)
    inside = threading.Event()

    def third() -> None:
        with hashing.hashing():
            inside.set()

    thread = threading.Thread(target=third, daemon=True)
    with holding(hashing.AT_ONCE):
        thread.start()
        assert not inside.is_set()
    assert inside.wait(10)
    thread.join(10)


def test_whoever_finds_the_line_full_is_refused_at_once(
    cast: Cast, client: CheckedClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(hashing, "_room", threading.BoundedSemaphore(hashing.AT_ONCE))
    with holding(hashing.AT_ONCE):
        monkeypatch.setattr(hashing, "_hashing", Unasked())
        assert sign_in(client).status_code == 503


def test_a_new_password_is_hashed_in_the_same_line(cast: Cast, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(hashing, "PATIENCE", 0.01)
    client = cast.signed_in("advisor")
    body = {"current_password": PASSWORD, "new_password": "a plain long sentence"}
    with holding(hashing.AT_ONCE):
        assert client.put("/api/v1/session/password", body).status_code == 503
    assert client.put("/api/v1/session/password", body).status_code == 204


def test_a_refused_password_gives_its_place_back(cast: Cast, client: CheckedClient) -> None:
    for _ in range(hashing.AT_ONCE + hashing.IN_LINE + 1):
        assert client.post(SESSION, {"email": "advisor@saltmarsh.example", "password": "guess"}).status_code == 401
