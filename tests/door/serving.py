"""`manage.py serve` in a process of its own, and plain sockets that speak to it."""

import os
import re
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

from django.conf import settings

PATIENCE = 60  # seconds: the machine may be busy
PROXY = "127.0.0.2"
DATABASE = "empty.sqlite3"  # with its -wal and -shm
ANSWER = b"x" * 3_000_000  # far more than a socket takes at once


@dataclass
class Served:
    process: subprocess.Popen[str]
    port: int
    folder: Path

    def connect(self, source: str = "127.0.0.1") -> socket.socket:
        return socket.create_connection(("127.0.0.1", self.port), timeout=PATIENCE, source_address=(source, 0))

    def ask(self, head: str, body: bytes = b"", source: str = "127.0.0.1") -> "Answer":
        """Sends a request with this first line and these headers, and reads until the server closes."""
        with self.connect(source) as door:
            door.sendall(request(head))
            with suppress(OSError):  # refused, and closed while we were still sending
                door.sendall(body)
            return read_answer(door)

    def files_on_disk(self) -> int:
        """Bytes of request bodies in the server's temporary folder, open and unlinked files included.

        The database stands there too: the thread of the outbox keeps it open.
        """
        total = 0
        for descriptor in Path(f"/proc/{self.process.pid}/fd").iterdir():
            try:
                path = os.readlink(descriptor)
                if str(self.folder) in path and DATABASE not in path:
                    total += descriptor.stat().st_size
            except FileNotFoundError:
                continue
        return total

    def wait_for(self, name: str) -> None:
        end = time.monotonic() + PATIENCE
        while not (self.folder / name).exists():
            assert time.monotonic() < end, f"the server never wrote {name}"
            time.sleep(0.01)


@dataclass
class Answer:
    status: int
    headers: dict[str, str]
    body: bytes


def request(head: str) -> bytes:
    first, *headers = head.split("\n")
    return "\r\n".join([f"{first} HTTP/1.1", "Host: 127.0.0.1", "Connection: close", *headers, "", ""]).encode()


def read_answer(door: socket.socket) -> Answer:
    raw = b""
    while piece := door.recv(1 << 16):
        raw += piece
    head, _, body = raw.partition(b"\r\n\r\n")
    first, *lines = head.decode().split("\r\n")
    headers = {name.lower(): value.strip() for name, _, value in (line.partition(":") for line in lines)}
    return Answer(int(first.split()[1]), headers, body)


@contextmanager
def serve(folder: Path) -> Iterator[Served]:
    environment = os.environ | {
        "DJANGO_SETTINGS_MODULE": "tests.door.settings",
        "DATABASE_URL": f"sqlite:///{folder / DATABASE}",
        "TRUSTED_PROXY": PROXY,
        "MEETING": str(folder),
        "TMPDIR": str(folder),
    }
    command = [sys.executable, "-u", "manage.py", "serve", "--listen", "127.0.0.1:0", "--skip-checks"]
    process = subprocess.Popen(
        command, cwd=settings.BASE_DIR, env=environment, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True
    )
    try:
        yield Served(process, _port(process), folder)
    finally:
        process.kill()
        process.communicate()


def _port(process: subprocess.Popen[str]) -> int:
    assert process.stdout is not None
    lines = []
    for line in process.stdout:
        lines.append(line)
        if match := re.fullmatch(r"Listening on http://127\.0\.0\.1:(\d+)\n", line):
            return int(match[1])
    raise AssertionError("the server did not start:\n" + "".join(lines))
