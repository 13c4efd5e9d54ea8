"""Backups taken while several phones count, put back elsewhere: lists, digests and phones agree."""

import hashlib
import sqlite3
import stat
from collections.abc import Callable, Iterator
from contextlib import closing
from datetime import datetime
from pathlib import Path
from typing import Any

import psycopg
import pytest

from kitting.calc.counting import Event, digest, fold
from shop.backups.manifest import read_manifest
from shop.sqlite import beside
from tests.database import libpq
from tests.drills.installation import Installation
from tests.drills.visitor import Visitor, at_work

PHONES = 6
BETWEEN = 40  # acknowledged counts between two backups


def phones_of(site: Installation, world: dict[str, Any], number: int = PHONES) -> list[Visitor]:
    """Phones signed in as one person, two to a list."""
    lists = list(world["lists"])
    first = Visitor(site, world, lists[0])
    first.sign_in()
    more = (Visitor(site, world, lists[at % len(lists)], cookies=dict(first.cookies)) for at in range(1, number))
    return [first, *more]


def counted(events: list[dict[str, Any]]) -> Iterator[Event]:
    named = ("id", "line", "kind", "total", "damaged", "target", "device", "n", "seen", "author", "seq", "late", "v")
    return (Event(**{name: event[name] for name in named}) for event in events)


def folded(events: list[dict[str, Any]]) -> str:
    return digest(fold(counted(events)))


@pytest.mark.parametrize("backups", [1, pytest.param(8, marks=pytest.mark.drill)])
def test_a_backup_under_load_is_one_moment_and_phones_bring_back_the_rest(
    installation: Installation,
    world: dict[str, Any],
    elsewhere: Callable[[], Installation],
    tmp_path: Path,
    backups: int,
) -> None:
    copies: list[tuple[Path, set[str]]] = []
    with installation.served():
        phones, ended = phones_of(installation, world), False
        threads = at_work(phones, lambda: not ended)
        try:
            for _ in range(backups):
                until = acknowledged(phones) + BETWEEN
                while acknowledged(phones) < until and any(thread.is_alive() for thread in threads):
                    threads[0].join(0.02)
                folder = Path(installation.manage("backup", str(tmp_path / "backups")))
                began = datetime.fromisoformat(read_manifest(folder).made_at)
                heard = [row for phone in phones for row in phone.heard.copy().items()]  # other threads add to it
                copies.append((folder, {id for id, at in heard if at < began}))
        finally:
            ended = True
            for thread in threads:
                thread.join()
        old = {phone.list: phone.pull()["seq"] for phone in phones}
    assert acknowledged(phones) >= BETWEEN * backups and not [phone for phone in phones if phone.waiting()]
    for folder, before in copies:
        check_restored(folder, before, elsewhere(), phones, old)


def acknowledged(phones: list[Visitor]) -> int:
    return sum(len(phone.answered) for phone in phones)


def check_restored(
    folder: Path, before: set[str], site: Installation, phones: list[Visitor], old: dict[str, int]
) -> None:
    """`before` was acknowledged before the backup began; `old` is the last seq of each list as phones knew it."""
    site.manage("restore", str(folder))
    with site.served():
        again = phones_of(site, phones[0].world, len(phones))
        assert again[0].ask("GET", phones[0].address)[0] == 200
        assert (
            Visitor(site, phones[0].world, phones[0].list, cookies=phones[0].cookies).ask("GET", phones[0].address)[0]
            == 401
        ), "a session from before the restore still counts"
        cut = {}
        restored: list[str] = []
        for reader in {phone.list: phone for phone in again}.values():
            log = reader.pull()
            assert [event["seq"] for event in log["events"]] == list(range(1, log["seq"] + 1))
            assert log["digest"] == folded(log["events"])
            assert log["epoch"] > 1
            cut[reader.list] = log["seq"]
            restored += [event["id"] for event in log["events"]]
        sent = {event["id"] for phone in phones for event in phone.events}
        assert len(restored) == len(set(restored)) and before <= set(restored) <= sent
        for phone, signed_in in zip(phones, again, strict=True):
            give_back(phone, signed_in, old, cut)
        for phone in phones:
            log = Visitor(site, phone.world, phone.list, cookies=again[0].cookies).pull()
            own = [event["n"] for event in log["events"] if event["device"] == phone.device]
            assert sorted(own) == list(range(1, len(phone.events) + 2)), "a count is lost or twice there"
            assert [event["seq"] for event in log["events"]] == list(range(1, log["seq"] + 1))
            assert log["digest"] == folded(log["events"])
    papers = sorted(path for path in (site.home / "media").rglob("*") if path.is_file())
    assert papers and all(path.stem == hashlib.sha256(path.read_bytes()).hexdigest() for path in papers)


def give_back(phone: Visitor, signed_in: Visitor, old: dict[str, int], cut: dict[str, int]) -> None:
    """A phone that meets a new epoch sends everything again: the events it kept, and a count that waited."""
    back = Visitor(signed_in.site, phone.world, phone.list, device=phone.device, cookies=signed_in.cookies)
    back.events = list(phone.events)
    queued = back.count(epoch=1, seen=old[phone.list])
    for at in range(0, len(back.events), 200):
        back.send(back.events[at : at + 200])
    stored = next(event for event in back.pull()["events"] if event["id"] == queued["id"])
    assert (stored["epoch"], stored["seen"]) == (1, min(old[phone.list], cut[phone.list]))


@pytest.mark.drill
def test_restore_refuses_to_overwrite_what_is_served_and_never_gives_an_epoch_twice(
    installation: Installation, world: dict[str, Any], tmp_path: Path
) -> None:
    folder = Path(installation.manage("backup", str(tmp_path / "backups")))
    with installation.served():
        phones_of(installation, world, 1)
        assert "Stop the server first" in installation.manage("restore", str(folder), "--yes", fails=True)
    assert "1 files" in installation.manage("restore", str(folder), "--yes")
    first = epochs(installation)
    installation.manage("restore", str(folder), "--yes")
    second = epochs(installation)
    assert first < second, "the same epoch was given out twice"
    if installation.on_sqlite:
        assert stat.S_IMODE(installation.file.stat().st_mode) == 0o600


def test_commands_leave_statistics_and_no_log(installation: Installation) -> None:
    if not installation.on_sqlite:
        return
    installation.manage("purge")
    assert [log for log in beside(installation.file) if log.exists()] == []
    with closing(sqlite3.connect(installation.file)) as connection:
        tables = {row[0] for row in connection.execute("SELECT tbl FROM sqlite_stat1")}
    assert {"django_migrations", "shop_member"} <= tables


def epochs(installation: Installation) -> list[int]:
    """Read past Django: starting it would take longer than the rest of the command."""
    question = "SELECT log_epoch FROM shop_shop ORDER BY log_epoch"
    if installation.on_sqlite:
        with closing(sqlite3.connect(installation.file)) as database:
            return [row[0] for row in database.execute(question)]
    with psycopg.connect(libpq(installation.database)) as database:
        return [row[0] for row in database.execute(question)]
