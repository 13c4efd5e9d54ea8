"""The SQLite database of a backup: one file, copied by the online backup API while others write."""

import fcntl
import os
import shutil
import sqlite3
from collections.abc import Iterable, Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from uuid import UUID

from shop.backups.manifest import BackupError, sync_to_disk
from shop.sqlite import beside, serving_lock

NAME = "database.sqlite3"


def copy_database(source: Path, target: Path) -> None:
    """Copies one moment of the database into a file that needs no write-ahead log."""
    os.close(os.open(target, os.O_CREAT | os.O_EXCL, 0o600))
    with closing(sqlite3.connect(f"{source.as_uri()}?mode=rw", uri=True, timeout=20)) as live:
        live.execute("PRAGMA wal_autocheckpoint=0")
        with closing(sqlite3.connect(target)) as copy:
            live.backup(copy)  # in one step: one read transaction
            copy.execute("PRAGMA journal_mode=DELETE")
            check(copy, target)
    sync_to_disk(target)


def check(connection: sqlite3.Connection, path: Path) -> None:
    """Raises BackupError for a damaged database or a broken foreign key."""
    integrity = connection.execute("PRAGMA integrity_check").fetchone()[0]
    broken = connection.execute("PRAGMA foreign_key_check").fetchone()
    if integrity != "ok" or broken:
        raise BackupError(
            f"{path} is damaged: {integrity if integrity != 'ok' else f'a key of {broken[0]} leads nowhere'}."
        )


def counts(path: Path) -> dict[str, int]:
    """{table: rows}"""
    with closing(sqlite3.connect(path)) as connection:
        names = "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'"
        tables = [row[0] for row in connection.execute(names)]
        return {table: connection.execute(f'SELECT count(*) FROM "{table}"').fetchone()[0] for table in tables}


def epochs(path: Path) -> dict[str, int]:
    """{shop: its log's epoch}"""
    with closing(sqlite3.connect(path)) as connection:
        rows = connection.execute("SELECT id, log_epoch FROM shop_shop").fetchall()
    return {str(UUID(id)): epoch for id, epoch in rows}


def prepare(part: Path, target: Path, statements: Iterable[str]) -> Path:
    """A copy of the backup's file beside the target, with the statements applied, and synced to the disk."""
    ready = target.with_name(f"{target.name}.restoring")
    ready.unlink(missing_ok=True)
    os.close(os.open(ready, os.O_CREAT | os.O_EXCL, 0o600))
    with part.open("rb") as source, ready.open("wb") as copy:
        shutil.copyfileobj(source, copy)
    with closing(sqlite3.connect(ready, isolation_level=None)) as connection:
        connection.execute("PRAGMA recursive_triggers=ON")
        connection.execute("BEGIN")
        for statement in statements:
            connection.execute(statement)
        connection.execute("COMMIT")
        check(connection, ready)
    sync_to_disk(ready)
    return ready


def swap(ready: Path, target: Path, aside: Path) -> None:
    """Replaces the target with the prepared file. The previous file is kept as `aside`."""
    if target.exists() and target.stat().st_size:
        for old, copy in zip((target, *beside(target)), (aside, *beside(aside)), strict=True):
            if old.exists():
                os.link(old, copy)
    for old in beside(target):
        old.unlink(missing_ok=True)
    os.replace(ready, target)
    sync_to_disk(target.parent)


@contextmanager
def alone(path: Path) -> Iterator[None]:
    """Holds the database for a restore. Refuses while a server or a command has it open."""
    lock = os.open(serving_lock(path), os.O_CREAT | os.O_RDWR, 0o600)
    try:
        fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
        if path.exists():
            _leave_wal(path)
        yield
    except BlockingIOError:
        raise BackupError(IN_USE) from None
    finally:
        os.close(lock)


IN_USE = "The database is in use. Stop the server first."


def _leave_wal(path: Path) -> None:
    """Moves the write-ahead log into the database; this only works if nobody else has it open."""
    try:
        with closing(sqlite3.connect(path, timeout=2)) as connection:
            connection.execute("PRAGMA journal_mode=DELETE")
    except sqlite3.OperationalError as error:
        if "locked" in str(error):
            raise BackupError(IN_USE) from None
    except sqlite3.DatabaseError:
        pass  # a damaged database is set aside unchanged
