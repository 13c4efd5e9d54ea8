"""System checks of an installation. Each warning names the fault and its remedy."""

import os
import sqlite3
from typing import Any

from django.conf import settings
from django.core.checks import CheckMessage, Warning, register

from shop import sqlite


@register()
def one_checkpointer(app_configs: Any, **kw: Any) -> list[CheckMessage]:
    """Warns where an SQLite with the race between a write and a checkpoint is set up so that they can meet."""
    database = settings.DATABASES["default"]
    if not database["ENGINE"].endswith("sqlite3") or sqlite3.sqlite_version_info >= sqlite.FIXED_IN:
        return []
    warnings: list[CheckMessage] = []
    at_start = str(database.get("OPTIONS", {}).get("init_command", "")).replace(" ", "")
    if "wal_autocheckpoint=0" not in at_start:
        warnings.append(
            Warning(
                f"SQLite {sqlite3.sqlite_version} can damage the database when every connection checkpoints.",
                hint="Keep PRAGMA wal_autocheckpoint=0 in the init_command, or install SQLite 3.51.3 or newer.",
                id="shop.W001",
            )
        )
    if processes() > 1:
        warnings.append(
            Warning(
                f"{processes()} processes are to serve one SQLite {sqlite3.sqlite_version} database.",
                hint="Serve SQLite with one process of several threads (manage.py serve), or set DATABASE_URL to a "
                "PostgreSQL database.",
                id="shop.W002",
            )
        )
    return warnings


def processes() -> int:
    """The number of processes that the usual variable asks a server for."""
    count = os.environ.get("WEB_CONCURRENCY", "")
    return int(count) if count.isdecimal() else 1


@register()
def password_of_the_mail_server(app_configs: Any, **kw: Any) -> list[CheckMessage]:
    """Warns where the password of the mail server would cross a network without encryption."""
    own = settings.EMAIL_HOST in ("localhost", "127.0.0.1", "::1")
    if not settings.EMAIL_HOST_PASSWORD or own or settings.EMAIL_USE_TLS or settings.EMAIL_USE_SSL:
        return []
    return [
        Warning(
            "The password of the mail server is sent without encryption.",
            hint="Set SMTP_SECURITY to starttls or tls.",
            id="shop.W003",
        )
    ]
