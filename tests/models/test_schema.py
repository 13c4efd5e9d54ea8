"""The triggers and keys in the database are the ones that the models declare, after every migration."""

import re
from collections.abc import Iterator
from typing import Any

from django.apps import apps
from django.db import connection

from shop.constraints import Refuse, SameShop


def one_spelling(sql: str) -> str:
    """The text without quotes, line breaks and the difference of capitals."""
    return re.sub(r'[\s"]+', " ", sql).replace("( ", "(").replace(" )", ")").replace(" ,", ",").strip().casefold()


def declared(kind: type[Any]) -> Iterator[tuple[Any, Any]]:
    for model in apps.get_models():
        yield from ((model, constraint) for constraint in model._meta.constraints if isinstance(constraint, kind))


def rows(sql: str) -> list[Any]:
    with connection.cursor() as cursor:
        cursor.execute(sql)
        return cursor.fetchall()


def test_every_trigger_is_as_declared(db: None) -> None:
    editor = connection.schema_editor(collect_sql=True)
    expected = {
        f"{refuse.name}_{i}" if connection.vendor == "sqlite" else refuse.name: one_spelling(str(statement))
        for model, refuse in declared(Refuse)
        for i, statement in enumerate(refuse.statements(model, editor))
    }
    if connection.vendor == "sqlite":
        stored = rows("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'")
        assert {name: one_spelling(sql) for name, sql in stored} == expected
        return
    bodies = rows("SELECT proname, prosrc FROM pg_proc WHERE pronamespace = 'public'::regnamespace")
    assert {name for name, _ in bodies} == set(expected)
    assert [name for name, body in bodies if one_spelling(body) not in expected[name]] == []


def test_every_key_is_as_declared(db: None) -> None:
    editor = connection.schema_editor(collect_sql=True)
    expected = {key.name: one_spelling(key._clause(model, editor)) for model, key in declared(SameShop)}
    if connection.vendor == "sqlite":
        tables = " ".join(one_spelling(sql) for (sql,) in rows("SELECT sql FROM sqlite_master WHERE type = 'table'"))
        assert [name for name, clause in expected.items() if clause not in tables] == []
        return
    keys = dict(rows("SELECT conname, pg_get_constraintdef(oid) FROM pg_constraint WHERE contype = 'f'"))
    clauses = {name: f"constraint {name} {one_spelling(keys.get(name, ''))}" for name in expected}
    assert {name: clause.replace("(", " (").replace("  ", " ") for name, clause in clauses.items()} == {
        name: clause.replace("(", " (").replace("  ", " ") for name, clause in expected.items()
    }
