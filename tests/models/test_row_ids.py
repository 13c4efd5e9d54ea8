"""The ids of rows are UUIDs of version 7, of this moment, in the order in which they were made."""

import time
from concurrent.futures import ThreadPoolExecutor

import pytest

from shop.rows import uuid7, uuid7s


def test_one_says_its_version_and_the_time() -> None:
    before, id, after = time.time_ns() // 1_000_000, uuid7(), time.time_ns() // 1_000_000
    assert (id.version, id.variant) == (7, "specified in RFC 4122")
    assert before <= id.int >> 80 <= after + 1


def test_those_of_one_millisecond_rise() -> None:
    ids = [uuid7(), *uuid7s(5000), uuid7(), uuid7()]
    assert ids == sorted(ids)
    assert {(id.version, id.variant) for id in ids} == {(7, "specified in RFC 4122")}


def test_they_rise_while_the_clock_goes_back(monkeypatch: pytest.MonkeyPatch) -> None:
    first = uuid7()
    monkeypatch.setattr(time, "time_ns", lambda: 0)
    assert first < uuid7() < uuid7()


def test_threads_share_none() -> None:
    with ThreadPoolExecutor(8) as threads:
        batches = list(threads.map(lambda _: [uuid7() for _ in range(500)], range(16)))
    ticks = {id.int >> 64 for batch in batches for id in batch}
    assert len(ticks) == 16 * 500
