"""Ways past the rules for rows that never change: REPLACE on SQLite, TRUNCATE on PostgreSQL."""

from collections.abc import Callable
from typing import Any

import pytest
from django.db import IntegrityError, OperationalError, connection, transaction
from django.db.models import Model
from django.utils import timezone

from kitting.models import CountEvent
from quotes.calc.answer import AnswerForm
from quotes.models import Link, Revision
from quotes.services.acceptance import accept_revision
from shop.api.constraint_names import refusal
from shop.constraints import Refuse
from shop.models import Command, History
from tests.cast import Cast
from tests.factories import PullLineFactory
from tests.models.test_refusals import count
from tests.quotes.stage import make_stage


def refused(act: Callable[[], Any]) -> str:
    with pytest.raises(IntegrityError) as error, transaction.atomic():
        act()
    return refusal(error.value)


def replace(row: Model, **changes: Any) -> None:
    """INSERT OR REPLACE of the row as it stands, with these columns changed; on PostgreSQL an upsert does the same."""
    table, columns = row._meta.db_table, [field.column for field in row._meta.local_fields]
    with connection.cursor() as cursor:
        cursor.execute(f'SELECT {", ".join(columns)} FROM "{table}" WHERE id = %s', [_key(row)])
        values = dict(zip(columns, cursor.fetchone(), strict=True)) | changes
        places, names = ", ".join(["%s"] * len(values)), ", ".join(values)
        if connection.vendor == "sqlite":
            cursor.execute(f'INSERT OR REPLACE INTO "{table}" ({names}) VALUES ({places})', list(values.values()))
        else:
            sets = ", ".join(f"{name} = EXCLUDED.{name}" for name in changes)
            copied = ", ".join("%s" if name in changes else name for name in values)
            cursor.execute(
                f'INSERT INTO "{table}" ({names}) SELECT {copied} FROM "{table}" WHERE id = %s '
                f"ON CONFLICT (id) DO UPDATE SET {sets}",
                [*changes.values(), _key(row)],
            )


def _key(row: Model) -> Any:
    return row.pk.hex if connection.vendor == "sqlite" else row.pk


def test_a_counted_number_cannot_be_replaced(cast: Cast) -> None:
    event = count(cast, PullLineFactory(shop=cast.shop))
    event.save()
    assert refused(lambda: replace(event, total=777)) == "count_event_never_changes"
    assert CountEvent.objects.get().total == 4


def test_the_total_of_an_accepted_quote_cannot_be_replaced(cast: Cast) -> None:
    stage = make_stage(cast)
    sent = stage.sent()
    answer = AnswerForm(1, sent["quote"]["digest"], "Maren Oldacre", ("road",), "127.0.0.1", "test")
    accept_revision(source=Link.objects.get(pk=sent["link"]["id"]), answer=answer, now=timezone.now())
    revision = Revision.objects.get(state="accepted")
    assert refused(lambda: replace(revision, net=1, tax=0, gross=1)) == "sent_revision_never_changes"
    assert Revision.objects.get(pk=revision.pk).gross == revision.gross


def test_no_table_of_rows_that_stay_can_be_emptied(cast: Cast) -> None:
    """PostgreSQL refuses by a trigger; SQLite does not know the statement, and its DELETE fires the rows' triggers."""
    from django.apps import apps

    tables = {
        model._meta.db_table
        for model in apps.get_models()
        for constraint in model._meta.constraints
        if isinstance(constraint, Refuse) and "delete" in constraint.events
    }
    assert {CountEvent._meta.db_table, History._meta.db_table, Command._meta.db_table} < tables
    on_sqlite = connection.vendor == "sqlite"
    error, words = (OperationalError, 'near "TRUNCATE"') if on_sqlite else (IntegrityError, None)
    for table in tables:
        with pytest.raises(error, match=words), transaction.atomic(), connection.cursor() as cursor:
            cursor.execute(f"TRUNCATE {table} CASCADE")


def test_each_sqlite_connection_has_the_pragmas_and_leaves_checkpoints_to_one_thread(db: None) -> None:
    if connection.vendor != "sqlite":
        return
    read = {}
    with connection.cursor() as cursor:
        for pragma in ("recursive_triggers", "wal_autocheckpoint", "mmap_size"):
            row = cursor.execute(f"PRAGMA {pragma}").fetchone()
            read[pragma] = row[0]
    assert read == {"recursive_triggers": 1, "wal_autocheckpoint": 0, "mmap_size": 0}
