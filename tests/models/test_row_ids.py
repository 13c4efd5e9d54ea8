"""The ids of rows: version 7, of this moment, and in the order in which they were made."""

import time
from concurrent.futures import ThreadPoolExecutor

import pytest

from shop.rows import uuid7, uuid7s


def test_one_says_its_version_and_the_time() -> None:
    before, made, after = time.time_ns() // 1_000_000, uuid7(), time.time_ns() // 1_000_000
    assert (made.version, made.variant) == (7, "specified in RFC 4122")
    assert before <= made.int >> 80 <= after + 1


def test_those_of_one_millisecond_rise() -> None:
    made = [uuid7(), *uuid7s(5000), uuid7(), uuid7()]
    assert made == sorted(made)
    assert {(one.version, one.variant) for one in made} == {(7, "specified in RFC 4122")}


def test_they_rise_while_the_clock_goes_back(monkeypatch: pytest.MonkeyPatch) -> None:
    first = uuid7()
    monkeypatch.setattr(time, "time_ns", lambda: 0)
    assert first < uuid7() < uuid7()


def test_threads_share_none() -> None:
    with ThreadPoolExecutor(8) as threads:
        batches = list(threads.map(lambda _: [uuid7() for _ in range(500)], range(16)))
    ticks = {one.int >> 64 for batch in batches for one in batch}
    assert len(ticks) == 16 * 500
