"""A full disk is reported in words and as 507, so that a phone keeps what it could not send."""

import errno
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from django.db import OperationalError

from shop.api.problems import FULL
from shop.services import customers
from tests.cast import Cast


def wrapped(error: Exception) -> Exception:
    outer = ValueError("while writing")
    outer.__cause__ = error
    return outer


@pytest.mark.parametrize(
    "error",
    [
        OperationalError("database or disk is full"),
        OperationalError("could not extend file: No space left on device"),
        OSError(errno.ENOSPC, "No space left on device"),
        wrapped(OSError(errno.ENOSPC, "No space left on device")),
    ],
)
def test_a_full_disk_is_said(cast: Cast, monkeypatch: pytest.MonkeyPatch, error: Exception) -> None:
    def full(**fields: object) -> None:
        raise error

    monkeypatch.setattr(customers, "add_customer", full)
    answer = cast.signed_in("advisor").post("customers", {"name": "Ada"})
    assert (answer.status_code, answer.json()["type"]) == (507, "/problems/disk-full")


def test_another_failure_of_the_database_stays_unforeseen(cast: Cast, monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(**fields: object) -> None:
        raise OperationalError("database is locked")

    monkeypatch.setattr(customers, "add_customer", broken)
    answer = cast.signed_in("advisor").post("customers", {"name": "Ada"})
    assert (answer.status_code, answer.json()["type"]) == (500, "/problems/unforeseen")
    assert not [word for word in (b"locked", b"Operational", b"Traceback", b".py") if word in answer.content]


def test_sqlite_says_it_in_these_words(tmp_path: Path) -> None:
    with closing(sqlite3.connect(tmp_path / "small.sqlite3")) as small:
        small.execute("PRAGMA max_page_count=4")
        small.execute("CREATE TABLE held (body)")
        with pytest.raises(sqlite3.OperationalError, match=FULL[0]):
            small.execute("INSERT INTO held VALUES (zeroblob(100000))")
