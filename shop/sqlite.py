"""The embedded database: its pragmas, its files' modes, and the one thread that checkpoints.

SQLite before 3.51.3 has a race between a write and a checkpoint that can corrupt a database in WAL mode. So no
connection checkpoints by itself (`wal_autocheckpoint=0`), and `checkpoint` keeps writers out while it works.
"""

import atexit
import fcntl
import logging
import os
import sqlite3
import threading
from contextlib import closing, suppress
from functools import cache
from pathlib import Path
from typing import Any

FIXED_IN = (3, 51, 3)
# IMMEDIATE and the long timeout keep writers in a queue instead of "database is locked"; FULL keeps an acknowledged
# count over a power cut; legacy_alter_table lets Django rebuild a table that a trigger reads; recursive_triggers makes
# INSERT OR REPLACE pass the delete triggers.
PRAGMAS = {
    "journal_mode": "WAL",
    "synchronous": "FULL",
    "foreign_keys": "ON",
    "recursive_triggers": "ON",
    "legacy_alter_table": "ON",
    "wal_autocheckpoint": "0",
    "cache_size": "-32000",
}
OPTIONS = {
    "transaction_mode": "IMMEDIATE",
    "timeout": 20,
    "init_command": " ".join(f"PRAGMA {name}={value};" for name, value in PRAGMAS.items()),
}
WAIT = 20  # seconds for the writers' lock
SECONDS = 5  # between two looks at the log
HOURS = 6 * 3600  # seconds between two updates of the planner's statistics

log = logging.getLogger(__name__)
used = threading.Event()


def private_folder(path: Path) -> Path:
    """Makes the folder if it is missing, readable by its owner only. Another owner's folder is left as it is."""
    path.mkdir(mode=0o700, parents=True, exist_ok=True)
    with suppress(PermissionError):
        path.chmod(0o700)
    return path


def private_database(path: Path) -> None:
    """Creates the database file, readable by its owner only, before SQLite does; -wal and -shm copy its mode."""
    with suppress(FileNotFoundError):  # no such folder: SQLite says so in its own words
        path.touch(mode=0o600)
    for file in (path, *beside(path)):
        with suppress(FileNotFoundError, PermissionError):
            file.chmod(0o600)


def beside(path: Path) -> tuple[Path, Path]:
    """The files that SQLite keeps next to a database while it is in use."""
    return path.with_name(f"{path.name}-wal"), path.with_name(f"{path.name}-shm")


def checkpoint(path: Path) -> tuple[int, int]:
    """Moves the log's pages into the database while no connection writes; (pages in the log, pages moved)."""
    with closing(sqlite3.connect(path, timeout=WAIT, isolation_level=None)) as writer:
        writer.execute("PRAGMA wal_autocheckpoint=0")
        with closing(sqlite3.connect(path, timeout=WAIT, isolation_level=None)) as mover:
            mover.execute("PRAGMA synchronous=FULL")
            writer.execute("BEGIN IMMEDIATE")
            try:
                _, pages, moved = mover.execute("PRAGMA wal_checkpoint(PASSIVE)").fetchone()
            finally:
                writer.execute("ROLLBACK")
    return pages, moved


def optimize(path: Path) -> None:
    """Updates the planner's statistics. SQLite before 3.46 only looks at tables that this connection has read."""
    with closing(sqlite3.connect(path, timeout=WAIT, isolation_level=None)) as connection:
        connection.execute("PRAGMA wal_autocheckpoint=0")
        connection.execute("PRAGMA analysis_limit=400")
        connection.execute("PRAGMA optimize=0x10002" if sqlite3.sqlite_version_info >= (3, 46) else "ANALYZE")


def database_path() -> Path | None:
    """The file of the default connection; None on PostgreSQL and in memory."""
    from django.db import connection

    name = str(connection.settings_dict["NAME"])
    return Path(name) if connection.vendor == "sqlite" and "memory" not in name else None


def was_used(**kw: Any) -> None:
    """Receives `connection_created` and notes it for `tidy`: a command's connection may be closed by then."""
    used.set()


def tidy() -> None:
    """Updates statistics, then checkpoints, at the end of a command that used the database."""
    from django.db import connection

    path = database_path()
    if path is None or not used.is_set() or not path.exists():
        return
    connection.close()
    try:
        optimize(path)
        checkpoint(path)
    except sqlite3.OperationalError as error:  # a full disk, or a writer that does not end: the server tries again
        log.warning("the database's log was not moved: %s", error)


class Checkpointer:
    """The one thread that checkpoints. A second process that serves the same file logs this and does not checkpoint.

    A lock on a separate file decides who is first. It ends with the process, even if that was killed.
    """

    def __init__(self, path: Path, seconds: int = SECONDS) -> None:
        self.path, self.seconds = path, seconds
        self.runs = 0
        self._stop = threading.Event()
        self._lock: int | None = None
        self._thread = threading.Thread(target=self._work, name="checkpoints", daemon=True)

    def start(self) -> "Checkpointer":
        if self._thread.ident is None:
            if not self._alone():
                log.warning(SEVERAL)
            self._thread.start()
        return self

    def stop(self) -> None:
        """Ends the thread after a last checkpoint. A second call does nothing."""
        self._stop.set()
        if self._thread.is_alive():
            self._thread.join(WAIT)
        if self._lock is not None:
            os.close(self._lock)
            self._lock = None

    def _alone(self) -> bool:
        if self._lock is None:
            lock = os.open(serving_lock(self.path), os.O_CREAT | os.O_RDWR, 0o600)
            try:
                fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
            except BlockingIOError:
                os.close(lock)
                return False
            self._lock = lock
        return True

    def _work(self) -> None:
        last, waited = 0, HOURS
        while True:
            ended = self._stop.wait(self.seconds)
            waited += self.seconds
            if self.path.exists() and self._alone():
                try:
                    if ended or waited >= HOURS:
                        optimize(self.path)
                        waited = 0
                    if (now := self._written()) != last:
                        checkpoint(self.path)
                        last, self.runs = now, self.runs + 1
                except sqlite3.Error as error:
                    log.warning("the database's log was not moved: %s", error)
            if ended:
                return

    def _written(self) -> int:
        """Time of the last write to the log; 0 without a log."""
        try:
            return beside(self.path)[0].stat().st_mtime_ns
        except FileNotFoundError:
            return 0


SEVERAL = (
    "Another process serves this SQLite database. Serve it with one process of several threads "
    "(manage.py serve), or move to PostgreSQL with DATABASE_URL."
)


def serving_lock(path: Path) -> Path:
    return path.with_name(f"{path.name}-serving")


@cache
def _ours() -> Checkpointer | None:
    path = database_path()
    return Checkpointer(path) if path else None


def start_checkpoints() -> None:
    """Starts this process' thread, once, if the database is a file. It ends with the process at the latest."""
    if checkpointer := _ours():
        checkpointer.start()
        atexit.register(checkpointer.stop)


def stop_checkpoints() -> None:
    if checkpointer := _ours():
        checkpointer.stop()
