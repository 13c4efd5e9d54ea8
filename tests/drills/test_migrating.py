"""Our `migrate` makes exactly the tables, constraints, triggers and indexes that Django's own makes."""

import os
import sqlite3
import subprocess
from collections.abc import Callable
from contextlib import closing

import pytest

from tests.database import libpq
from tests.drills.installation import Installation

STORED = "SELECT type, name, sql FROM sqlite_master WHERE name NOT LIKE 'sqlite_stat%' ORDER BY type, name"
AS_DJANGO_DOES = """
import django
django.setup()
from django.core.management import call_command
from django.core.management.commands.migrate import Command
call_command(Command(), verbosity=0)
"""


@pytest.mark.drill
def test_it_makes_what_django_makes(elsewhere: Callable[[], Installation], monkeypatch: pytest.MonkeyPatch) -> None:
    expected, djangos = elsewhere(), elsewhere()
    expected.manage("migrate", "-v", "0")
    monkeypatch.setenv("DJANGO_SETTINGS_MODULE", "shop.settings")
    djangos.python("-c", AS_DJANGO_DOES)
    assert len(schema(expected)) > 300
    assert schema(expected) == schema(djangos)


def schema(installation: Installation) -> list[str]:
    if installation.on_sqlite:
        with closing(sqlite3.connect(installation.file)) as database:
            return [str(row) for row in database.execute(STORED)]
    command = ["pg_dump", "--schema-only", "--no-owner", "-d", libpq(installation.database)]
    dump = subprocess.run(command, env=os.environ, capture_output=True, text=True, check=True).stdout
    return [line for line in dump.splitlines() if not line.startswith(("\\restrict", "\\unrestrict"))]
