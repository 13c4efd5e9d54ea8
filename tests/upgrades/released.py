"""Rows as version 0.0.1 wrote them, and a database that has come from there to today.

`released-0.0.1.json` holds two workshops of the demonstration, cut down: quotes drafted, sent, replaced, withdrawn,
declined and accepted, two jobs with their pull lists, counts, and a file that was read. `counts_waiting` are the events
that two phones had not sent yet when the server was upgraded.
"""

import base64
import json
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from django.apps.registry import Apps
from django.db import connection, models, transaction
from django.db.migrations.executor import MigrationExecutor
from django.db.models import Model

from shop.management.commands.migrate import changed_models_alone

FILE = Path(__file__).with_name("released-0.0.1.json")
LAST_MIGRATIONS = [("shop", "0001_initial"), ("kitting", "0001_initial"), ("quotes", "0001_initial")]


def released() -> dict[str, Any]:
    content: dict[str, Any] = json.loads(FILE.read_text("utf-8"))
    return content


def make_upgraded_database() -> None:
    """Fills the empty database of the connection with the released rows and migrates it to today."""
    with changed_models_alone():
        executor = MigrationExecutor(connection)
        executor.migrate(LAST_MIGRATIONS)
        with transaction.atomic(), triggers_suspended():
            write_rows(executor.loader.project_state(LAST_MIGRATIONS).apps)
        executor = MigrationExecutor(connection)
        executor.migrate(executor.loader.graph.leaf_nodes())


def write_rows(apps: Apps) -> None:
    for label, table in released()["tables"].items():
        model = apps.get_model(label)
        fields = [_field(model, name) for name in table["fields"]]
        rows = (zip(fields, row, strict=True) for row in table["rows"])
        model._base_manager.bulk_create(
            model(**{field.attname: _value(field, value) for field, value in row}) for row in rows
        )


def _field(model: type[Model], attname: str) -> Any:
    return next(field for field in model._meta.local_fields if field.attname == attname)


def _value(field: Any, value: Any) -> Any:
    if value is None or isinstance(field, models.JSONField):
        return value
    if isinstance(field, models.BinaryField):
        return base64.b64decode(value)
    return (field.target_field if field.is_relation else field).to_python(value)


@contextmanager
def triggers_suspended() -> Iterator[None]:
    """Suspends the triggers: what a sent quote holds was written before it was sent."""
    with connection.cursor() as cursor:
        if connection.vendor == "postgresql":
            cursor.execute("SET LOCAL session_replication_role = replica")
            yield
            cursor.execute("SET LOCAL session_replication_role = origin")
            return
        cursor.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'")
        triggers = cursor.fetchall()
        for name, _ in triggers:
            cursor.execute(f'DROP TRIGGER "{name}"')
        yield
        for _, sql in triggers:
            cursor.execute(sql)


@contextmanager
def empty_database(folder: Path) -> Iterator[None]:
    """Turns the connection to a new database, and back again in the end."""
    before = connection.settings_dict["NAME"]
    if connection.vendor == "sqlite":
        new: str = str(folder / "upgraded.sqlite3")
    else:
        new = f"{before}_upgraded"
        with connection.cursor() as cursor:
            cursor.execute(f'CREATE DATABASE "{new}"')
    connection.close()
    connection.settings_dict["NAME"] = new
    try:
        yield
    finally:
        connection.close()
        connection.settings_dict["NAME"] = before
        if connection.vendor == "postgresql":
            with connection.cursor() as cursor:
                cursor.execute(f'DROP DATABASE "{new}"')
