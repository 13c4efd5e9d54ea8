"""The migrated database is made once and copied: migrating takes longer than most of the tests that wait for it."""

import fcntl
import hashlib
import os
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path
from urllib.parse import urlsplit

from django.conf import settings
from django.db import connection

from shop import sqlite

MADE_BY = (
    "*/migrations/*.py",
    *("shop/constraints.py", "shop/api/constraint_names.py", "shop/keys.py", "shop/rows.py"),
    "shop/management/commands/migrate.py",
)


ROOT = Path(settings.BASE_DIR)


def migrated(folder: Path) -> Path:
    """The SQLite file that holds what today's migrations make. Processes that start together make one."""
    file = cache_file(folder, "sqlite3")
    with (folder / "migrated.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not file.exists():
            new = file.with_suffix(".new")
            new.unlink(missing_ok=True)
            migrate(f"sqlite:///{new}")
            new.rename(file)
    return file


def cache_file(folder: Path, kind: str) -> Path:
    """The file for what today's migrations make. Those of earlier migrations are removed."""
    made_by = hashlib.sha256()
    for path in sorted(path for pattern in MADE_BY for path in ROOT.glob(pattern)):
        made_by.update(path.read_bytes())
    file = folder / f"migrated-{made_by.hexdigest()[:16]}.{kind}"
    for older in {*folder.glob(f"migrated-*.{kind}")} - {file}:
        older.unlink(missing_ok=True)
    return file


def migrated_template(folder: Path) -> str:
    """The same on PostgreSQL: the name of a database on this server to copy. Each server reads the same dump."""
    name = "migrated"
    with (folder / "migrated-postgresql.lock").open("w") as lock, connection.cursor() as cursor:
        fcntl.flock(lock, fcntl.LOCK_EX)
        cursor.execute("SELECT 1 FROM pg_database WHERE datname = %s", [name])
        if not cursor.fetchone():
            cursor.execute("SHOW server_version_num")
            dump = cache_file(folder, f"of-{cursor.fetchone()[0]}.sql")
            cursor.execute(f"CREATE DATABASE {name}")
            address = urlsplit(os.environ["DATABASE_URL"])._replace(path=f"/{name}").geturl()
            fill(address, dump)
    connection.close()
    return name


def fill(address: str, dump: Path) -> None:
    """Reading a dump takes a second where migrating takes twenty."""
    if dump.exists():
        command = ["psql", "-q", "-1", "-X", "-o", os.devnull, "-v", "ON_ERROR_STOP=1", "-f", str(dump)]
        subprocess.run([*command, "-d", libpq(address)], check=True)
        return
    migrate(address)
    new = dump.with_suffix(".new")
    subprocess.run(["pg_dump", "--no-owner", "-f", str(new), "-d", libpq(address)], check=True)
    new.rename(dump)


def libpq(address: str) -> str:
    """The address with the scheme that PostgreSQL's own programs read."""
    return urlsplit(address)._replace(scheme="postgresql").geturl()


def migrate(address: str) -> None:
    command = [sys.executable, "manage.py", "migrate", "-v", "0"]
    subprocess.run(command, cwd=ROOT, env=os.environ | {"DATABASE_URL": address}, check=True)


def copy(source: Path, target: Path) -> None:
    with closing(sqlite3.connect(source)) as old, closing(sqlite3.connect(target)) as fresh:
        old.backup(fresh)


def remove(file: Path) -> None:
    for path in (file, *sqlite.beside(file)):
        path.unlink(missing_ok=True)
