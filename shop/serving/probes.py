"""Answers the probes of a monitoring program: /healthz, /readyz and /metrics.

They stand before everything else: a probe of this machine names no host that ALLOWED_HOSTS lists, speaks no HTTPS, and
has to be answered when the database does not.
"""

import threading
import time
from collections import Counter
from collections.abc import Callable
from datetime import datetime
from decimal import Decimal
from pathlib import Path
from tempfile import TemporaryFile

from django.conf import settings
from django.core.files.storage import default_storage
from django.db import DatabaseError, connection
from django.db.migrations.executor import MigrationExecutor
from django.http import HttpRequest, HttpResponse
from django.utils import timezone

from shop.models import Shop
from shop.outbox.webhook_worker import worker as webhook_worker
from shop.outbox.worker import worker
from shop.queries import outbox
from shop.serving.file_worker import file_worker

Handler = Callable[[HttpRequest], HttpResponse]
TEXT = "text/plain; charset=utf-8"
METRICS = "text/plain; version=0.0.4; charset=utf-8"  # the version of the text format, not ours
FRESH = 2  # seconds for which a look at the disk and the database counts, however many ask


def probes(get_response: Handler) -> Handler:
    """Middleware that answers the probes and counts all other responses."""

    def middleware(request: HttpRequest) -> HttpResponse:
        if request.method in ("GET", "HEAD"):
            if request.path == "/healthz":
                return _plain("ok\n")
            if request.path == "/readyz":
                return _state()
            if request.path == "/metrics" and request.META.get("REMOTE_ADDR") in settings.METRICS_FOR:
                return _plain(metrics(timezone.now()), content_type=METRICS)
        began = time.monotonic_ns()
        response = get_response(request)
        response_counts.count(response.status_code, time.monotonic_ns() - began)
        return response

    return middleware


def _plain(text: str, status: int = 200, content_type: str = TEXT) -> HttpResponse:
    response = HttpResponse(text, status=status, content_type=content_type)
    response["Cache-Control"] = "no-store"
    response["X-Content-Type-Options"] = "nosniff"
    return response


class ResponseCounts:
    """The responses since this process started."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self.by_class: Counter[str] = Counter()
        self.milliseconds = Decimal(0)

    def count(self, status: int, nanoseconds: int) -> None:
        with self._lock:
            self.by_class[f"{status // 100}xx"] += 1
            self.milliseconds += Decimal(nanoseconds).scaleb(-6)


class ServerState:
    """The state of each part that the server needs: {part: "ok", or what is wrong with it}."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._migrated = False  # it stays so while this process runs
        self._parts: dict[str, str] = {}
        self._looked_at: int | None = None  # by a monotonic clock, in seconds

    def parts(self) -> dict[str, str]:
        with self._lock:
            now = int(time.monotonic())
            if self._looked_at is None or now - self._looked_at > FRESH:
                self._parts = {
                    "database": self._database(),
                    "files": self._files(),
                    "e-mails": "ok" if worker.is_alive() else "nobody sends them",
                    "webhooks": "ok" if webhook_worker.is_alive() else "nobody sends them",
                    "imports": "ok" if file_worker.is_alive() else "nobody reads large files",
                }
                self._looked_at = now
            return self._parts

    def _database(self) -> str:
        try:
            Shop.objects.exists()
            if not self._migrated:
                executor = MigrationExecutor(connection)
                self._migrated = not executor.migration_plan(executor.loader.graph.leaf_nodes())
        except DatabaseError:
            return "does not answer, or lacks its tables"
        return "ok" if self._migrated else "migrations have not run"

    def _files(self) -> str:
        """Writes a byte that has no name, so that a full disk and a folder of somebody else are noticed."""
        try:
            with TemporaryFile(dir=Path(default_storage.path(""))) as file:
                file.write(b"x")
                file.flush()
        except OSError:
            return "the folder cannot be written"
        return "ok"


response_counts, server_state = ResponseCounts(), ServerState()


def _state() -> HttpResponse:
    parts = server_state.parts()
    text = "".join(f"{part}: {state}\n" for part, state in parts.items())
    return _plain(text, status=200 if set(parts.values()) == {"ok"} else 503)


def metrics(now: datetime) -> str:
    """Counters and gauges in the text format of Prometheus. The e-mails are left out while no database answers."""
    lines = [
        *_described("kitwright_responses_total", "counter", "Responses since the server started, by class of status."),
        *(f'kitwright_responses_total{{class="{name}"}} {response_counts.by_class[name]}' for name in CLASSES),
        *_described("kitwright_response_seconds_total", "counter", "Time in which these responses were made."),
        f"kitwright_response_seconds_total {response_counts.milliseconds.scaleb(-3):.3f}",
        *_mails(now),
        *_described("kitwright_ready", "gauge", "1 if /readyz answers 200."),
        f"kitwright_ready {int(set(server_state.parts().values()) == {'ok'})}",
    ]
    return "\n".join(lines) + "\n"


def _mails(now: datetime) -> list[str]:
    try:
        numbers, oldest = outbox.numbers(now), outbox.oldest_waiting(now)
    except DatabaseError:
        return []
    return [
        *_described("kitwright_emails", "gauge", "E-mails that wait, that failed, and that may have been sent."),
        *(f'kitwright_emails{{state="{state}"}} {number}' for state, number in numbers.items()),
        *_described("kitwright_email_oldest_seconds", "gauge", "Age of the e-mail that waits longest; 0 if none does."),
        f"kitwright_email_oldest_seconds {oldest}",
    ]


CLASSES = ("2xx", "3xx", "4xx", "5xx")


def _described(name: str, kind: str, text: str) -> list[str]:
    return [f"# HELP {name} {text}", f"# TYPE {name} {kind}"]
