"""The embedded database: modes of its files, one checkpointing thread, the system check."""

import os
import sqlite3
import stat
import subprocess
import sys
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from django.conf import settings

from shop import checks, sqlite

Options = dict[str, Any]


@pytest.fixture
def database(tmp_path: Path) -> Path:
    """A database in WAL mode with pages in its log, and nobody who moves them."""
    path = tmp_path / "kept.sqlite3"
    sqlite.private_database(path)
    return path


@pytest.fixture
def writer(database: Path) -> Iterator[sqlite3.Connection]:
    with closing(sqlite3.connect(database, isolation_level=None)) as connection:
        for name, value in sqlite.PRAGMAS.items():
            connection.execute(f"PRAGMA {name}={value}")
        connection.execute("CREATE TABLE count (id INTEGER PRIMARY KEY, note TEXT)")
        yield connection


def fill(connection: sqlite3.Connection, rows: int) -> None:
    """In one transaction: by themselves a thousand rows would wait a thousand times for the disk."""
    connection.execute("BEGIN IMMEDIATE")
    connection.executemany("INSERT INTO count (note) VALUES (?)", [("x" * 2000,)] * rows)
    connection.execute("COMMIT")


def mode(path: Path) -> int:
    return stat.S_IMODE(path.stat().st_mode)


def test_a_new_installation_is_for_its_owner_only(tmp_path: Path) -> None:
    home = tmp_path / "var"
    script = (
        "import os; os.umask(0o022); os.environ['DJANGO_SETTINGS_MODULE'] = 'shop.settings'; import django; "
        "django.setup(); from django.db import connection; connection.cursor().execute('CREATE TABLE a (b)'); "
        "from django.core.files.base import ContentFile; from django.core.files.storage import default_storage; "
        "default_storage.save('papers/ab/x.pdf', ContentFile(b'x')); "
        "from shop.sqlite import database_path, beside; print(*beside(database_path()), database_path(), sep='\\n'); "
        "[print(oct(path.stat().st_mode & 0o777)) for path in (*beside(database_path()), database_path())]"
    )
    environment = {**os.environ, "VAR_DIR": str(home), "DATABASE_URL": f"sqlite:///{home}/kitwright.sqlite3"}
    command = [sys.executable, "-c", script]
    done = subprocess.run(command, cwd=settings.BASE_DIR, env=environment, capture_output=True, text=True, check=True)
    assert done.stdout.split()[-3:] == ["0o600"] * 3, done.stdout
    assert mode(home) == mode(home / "media") == mode(home / "media" / "papers" / "ab") == 0o700
    assert mode(home / "media" / "papers" / "ab" / "x.pdf") == mode(home / "kitwright.sqlite3") == 0o600


def test_a_database_that_was_open_to_all_is_closed(database: Path) -> None:
    database.chmod(0o644)
    log = sqlite.beside(database)[0]
    log.touch(mode=0o644)
    sqlite.private_database(database)
    assert mode(database) == mode(log) == 0o600


def test_no_connection_moves_the_log_by_itself(database: Path, writer: sqlite3.Connection) -> None:
    before = database.stat().st_size
    for _ in range(6):
        fill(writer, 1000)  # about 12 MB: three times what SQLite would have waited for
    assert database.stat().st_size == before
    pages, moved = sqlite.checkpoint(database)
    assert pages == moved > 2000 and database.stat().st_size > before


def test_a_checkpoint_waits_for_the_writer(
    database: Path, writer: sqlite3.Connection, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sqlite, "WAIT", 0.05)
    fill(writer, 10)
    before = database.stat().st_mtime_ns
    writer.execute("BEGIN IMMEDIATE")
    with pytest.raises(sqlite3.OperationalError, match="locked"):
        sqlite.checkpoint(database)
    assert database.stat().st_mtime_ns == before
    writer.execute("COMMIT")
    sqlite.checkpoint(database)
    assert database.stat().st_mtime_ns != before


def test_one_thread_checkpoints_and_a_second_process_is_told(
    database: Path, writer: sqlite3.Connection, caplog: pytest.LogCaptureFixture
) -> None:
    first = sqlite.Checkpointer(database, seconds=3600).start()
    assert caplog.records == []
    second = sqlite.Checkpointer(database, seconds=3600).start()
    assert [record.message for record in caplog.records] == [sqlite.SEVERAL]
    fill(writer, 500)
    second.stop()
    assert second.runs == 0
    first.stop()
    assert first.runs == 1 and mode(sqlite.serving_lock(database)) == 0o600
    assert database.stat().st_size > 900_000


def test_the_statistics_of_the_planner_are_written(database: Path, writer: sqlite3.Connection) -> None:
    writer.execute("CREATE INDEX by_note ON count (note)")
    fill(writer, 300)
    sqlite.optimize(database)
    assert writer.execute("SELECT tbl FROM sqlite_stat1").fetchall() == [("count",)]


@pytest.fixture
def affected(monkeypatch: pytest.MonkeyPatch) -> Options:
    """An SQLite with the race, and our options; what is returned may be changed."""
    monkeypatch.setattr(sqlite3, "sqlite_version_info", (3, 40, 1))
    monkeypatch.delenv("WEB_CONCURRENCY", raising=False)
    options = dict(sqlite.OPTIONS)
    database = {"ENGINE": "django.db.backends.sqlite3", "OPTIONS": options}
    monkeypatch.setattr(checks, "settings", SimpleNamespace(DATABASES={"default": database}))
    return options


def warning_ids() -> list[str]:
    warnings = checks.one_checkpointer(None)
    assert all(warning.hint for warning in warnings)
    return [str(warning.id) for warning in warnings]


def test_the_check_is_silent_where_one_thread_checkpoints(affected: Options) -> None:
    assert warning_ids() == []


def test_the_check_speaks_where_every_connection_checkpoints(affected: Options) -> None:
    affected["init_command"] = "PRAGMA journal_mode=WAL;"
    assert warning_ids() == ["shop.W001"]


def test_the_check_speaks_where_several_processes_serve(
    affected: dict[str, Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("WEB_CONCURRENCY", "4")
    assert warning_ids() == ["shop.W002"]


def test_the_check_is_silent_on_a_repaired_library(affected: dict[str, Any], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("WEB_CONCURRENCY", "4")
    monkeypatch.setattr(sqlite3, "sqlite_version_info", sqlite.FIXED_IN)
    assert warning_ids() == []
