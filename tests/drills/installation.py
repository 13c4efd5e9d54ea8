"""An installation of its own: a folder, a database, `manage.py`, and a server that may be killed."""

import json
import os
import shutil
import signal
import socket
import subprocess
import sys
import time
import uuid
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit, urlunsplit

from django.conf import settings

from tests import database

ROOT = Path(settings.BASE_DIR)
READY = 120  # seconds; a busy machine is no fault of the server


@dataclass
class Installation:
    home: Path
    database: str  # DATABASE_URL, empty: SQLite in `home`
    port: int = 0

    @property
    def environment(self) -> dict[str, str]:
        own = {"VAR_DIR": str(self.home), "SECRET_KEY": "only-for-drills", "SECURE_COOKIES": "false"}
        environment = {name: value for name, value in os.environ.items() if name not in ("DATABASE_URL", "TEST_RUN")}
        return environment | own | ({"DATABASE_URL": self.database} if self.database else {})

    @property
    def on_sqlite(self) -> bool:
        return not self.database

    @property
    def file(self) -> Path:
        return self.home / "kitwright.sqlite3"

    def python(self, *arguments: str, fails: bool = False) -> str:
        """The output of the command; with `fails`, its standard error when it refused."""
        command = [sys.executable, *arguments]
        done = subprocess.run(command, cwd=ROOT, env=self.environment, capture_output=True, text=True)
        assert bool(done.returncode) == fails, f"{arguments}: {done.stdout}\n{done.stderr}"
        return (done.stderr if fails else done.stdout).strip()

    def manage(self, *arguments: str, fails: bool = False) -> str:
        return self.python("manage.py", *arguments, fails=fails)

    @contextmanager
    def served(self) -> Iterator[subprocess.Popen[bytes]]:
        """A server that answers; killed at the end if it still runs."""
        server = self.start()
        try:
            yield server
        finally:
            kill(server)

    def start(self) -> subprocess.Popen[bytes]:
        self.port = free_port()
        with (self.home / "server.log").open("ab") as log:
            command = [sys.executable, "manage.py", "serve", f"--listen=127.0.0.1:{self.port}"]
            server = subprocess.Popen(
                command, cwd=ROOT, env=self.environment, stdout=log, stderr=log, start_new_session=True
            )
        give_up = time.monotonic() + READY
        while not answers(self.port):
            assert server.poll() is None, (self.home / "server.log").read_text()
            assert time.monotonic() < give_up, "the server did not come up"
            time.sleep(0.05)
        return server


def kill(server: subprocess.Popen[bytes]) -> None:
    """Kills the server without warning, as when the power goes."""
    if server.poll() is None:
        os.killpg(server.pid, signal.SIGKILL)
    server.wait()


def answers(port: int) -> bool:
    with socket.socket() as door:
        return door.connect_ex(("127.0.0.1", port)) == 0


def free_port() -> int:
    with socket.socket() as door:
        door.bind(("127.0.0.1", 0))
        return int(door.getsockname()[1])


def new_installation(home: Path) -> Installation:
    """Empty, on the kind of database that the tests run on."""
    home.mkdir(mode=0o700, parents=True, exist_ok=True)
    return Installation(home, new_database() if os.environ.get("DATABASE_URL") else "")


def copied(seed: Installation, home: Path) -> Installation:
    """The seed's data in an installation of its own."""
    if seed.on_sqlite:
        shutil.copytree(seed.home, home)
        return Installation(home, "")
    home.mkdir(mode=0o700, parents=True)
    shutil.copytree(seed.home / "media", home / "media")
    return Installation(home, new_database(template=urlsplit(seed.database).path[1:]))


def new_database(template: str = "template1") -> str:
    import psycopg

    url, name = urlsplit(os.environ["DATABASE_URL"]), f"drill_{uuid.uuid4().hex[:12]}"
    database: dict[str, Any] = settings.DATABASES["default"]
    options = {"host": database.get("HOST"), "port": database.get("PORT"), "user": database.get("USER")}
    options |= {"password": database.get("PASSWORD")} | database.get("OPTIONS", {})
    facts = {key: value for key, value in options.items() if value and key in ("host", "port", "user", "password")}
    with psycopg.connect(dbname="postgres", autocommit=True, **facts) as connection:
        connection.execute(f'CREATE DATABASE "{name}" TEMPLATE "{template}"')
    return urlunsplit(url._replace(path=f"/{name}"))


def filled(installation: Installation) -> dict[str, Any]:
    """Makes its tables and fills them with the cast, three pull lists and a sent quote; their ids."""
    if installation.on_sqlite:
        database.copy(database.migrated(settings.VAR_DIR), installation.file)
        installation.file.chmod(0o600)
    else:
        installation.manage("migrate", "-v", "0")
    return dict(json.loads(installation.python("-m", "tests.drills.world").splitlines()[-1]))
