"""The server is killed without warning while phones count, again and again: what it acknowledged is there, once."""

import sqlite3
from contextlib import closing
from typing import Any

import pytest

from tests.drills.installation import Installation, kill
from tests.drills.test_backup import acknowledged, folded, phones_of
from tests.drills.visitor import Visitor, at_work

LEAST, STEP = 6, 7  # acknowledged counts before a kill: another number in each cycle


@pytest.mark.parametrize("cycles", [2, pytest.param(25, marks=pytest.mark.drill)])
def test_what_was_acknowledged_outlives_a_killed_server(
    installation: Installation, world: dict[str, Any], cycles: int
) -> None:
    phones: list[Visitor] = []
    for cycle in range(cycles):
        server = installation.start()
        try:
            phones = phones or phones_of(installation, world)
            until = acknowledged(phones) + LEAST + cycle * STEP % 23
            threads = at_work(phones, lambda: True)
            while acknowledged(phones) < until and any(thread.is_alive() for thread in threads):
                threads[0].join(0.005)
        finally:
            kill(server)
        for thread in threads:
            thread.join()
    with installation.served():
        for phone in phones:
            if left := phone.waiting():
                phone.send(left)
        for phone in phones:
            check_log(phone)
    if installation.on_sqlite:
        with closing(sqlite3.connect(installation.file)) as connection:
            assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
    print(f"\n{cycles} kills: {acknowledged(phones)} acknowledged counts, lost 0, doubled 0, gaps 0")


def check_log(phone: Visitor) -> None:
    log = phone.pull()
    assert [event["seq"] for event in log["events"]] == list(range(1, log["seq"] + 1)), "a gap"
    own = {event["id"]: event["seq"] for event in log["events"] if event["device"] == phone.device}
    assert own == phone.answered, "lost, doubled or renumbered"
    assert sorted(own) == sorted(event["id"] for event in phone.events)
    assert log["digest"] == folded(log["events"])
