"""Rules that the database enforces, written as Meta.constraints.

makemigrations therefore sees them, and SQLite's table remake (new table, copy, drop, rename) creates them again. On
SQLite the remake needs `PRAGMA legacy_alter_table=ON` (settings): a trigger that reads another table would break the
rename.
"""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import Any

from django.apps import apps
from django.db import connection
from django.db.backends.ddl_references import Statement, Table
from django.db.models import BaseConstraint, Model

Editor = Any  # django-stubs has no common type for the schema editors


class _LeftToTheDatabase(BaseConstraint):
    def validate(self, *args: Any, **kw: Any) -> None:
        """Checks nothing: access.py has fetched the other rows inside the shop, and the database refuses the rest."""

    def __eq__(self, other: object) -> bool:
        return type(self) is type(other) and self.deconstruct() == other.deconstruct()

    def __hash__(self) -> int:
        return hash(self.name)


class SameShop(_LeftToTheDatabase):
    """Composite foreign key: (shop, *fields) of this row is (shop, *to_fields) of one row of the last field's model."""

    def __init__(self, *fields: str, name: str, to_fields: Sequence[str] = ("id",), **kw: Any) -> None:
        super().__init__(name=name, **kw)
        self.fields, self.to_fields = fields, tuple(to_fields)

    def _clause(self, model: type[Model], editor: Editor) -> str:
        quote = editor.quote_name
        fields: list[Any] = [model._meta.get_field(name) for name in self.fields]
        target = fields[-1].related_model
        columns = ["shop_id", *(field.column for field in fields)]
        to = ["shop_id", *(target._meta.get_field(name).column for name in self.to_fields)]
        return (
            f"CONSTRAINT {quote(self.name)} FOREIGN KEY ({', '.join(map(quote, columns))}) "
            f"REFERENCES {quote(target._meta.db_table)} ({', '.join(map(quote, to))})"
        )

    def constraint_sql(self, model: Any, editor: Editor) -> Any:
        if editor.connection.vendor == "sqlite":  # inside CREATE TABLE; deferred, as flush needs
            return self._clause(model, editor) + " DEFERRABLE INITIALLY DEFERRED"
        return self.create_sql(model, editor)

    def create_sql(self, model: Any, editor: Editor) -> Any:
        """Adds the key at the end of the migration, as Django does: the target's unique key exists by then."""
        template = "ALTER TABLE %(table)s ADD " + self._clause(model, editor)
        editor.deferred_sql.append(Statement(template, table=Table(model._meta.db_table, editor.quote_name)))

    def remove_sql(self, model: Any, editor: Editor) -> str:
        return f"ALTER TABLE {editor.quote_name(model._meta.db_table)} DROP CONSTRAINT {editor.quote_name(self.name)}"

    def deconstruct(self) -> Any:
        path, _, kw = super().deconstruct()
        return path, self.fields, {**kw, "to_fields": self.to_fields}


class Refuse(_LeftToTheDatabase):
    """A trigger that refuses `events` ("update of a, b", "delete", "insert") if `when` (SQL over OLD, NEW) is true.

    A table whose rows may not be deleted may not be emptied either: on PostgreSQL TRUNCATE, which fires no row trigger,
    is always refused. SQLite has no TRUNCATE.
    """

    def __init__(self, *, name: str, events: Sequence[str], when: str = "1=1", **kw: Any) -> None:
        super().__init__(name=name, **kw)
        self.events, self.when = tuple(events), when

    def statements(self, model: type[Model], editor: Editor) -> Iterator[Statement]:
        table = Table(model._meta.db_table, editor.quote_name)  # a Table, so that the remake renames it
        if editor.connection.vendor == "sqlite":
            for i, event in enumerate(self.events):
                yield Statement(
                    f'CREATE TRIGGER "{self.name}_{i}" BEFORE {event.upper()} ON %(table)s WHEN {self.when} '
                    f"BEGIN SELECT RAISE(ABORT, '{self.name}'); END",
                    table=table,
                )
            return
        yield Statement(
            f'CREATE OR REPLACE FUNCTION "{self.name}"() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN '
            f"IF TG_OP = 'TRUNCATE' THEN {self._raise} END IF; IF {self.when} THEN {self._raise} END IF; "
            "IF TG_OP = 'DELETE' THEN RETURN OLD; END IF; RETURN NEW; END $$; "
            f'CREATE OR REPLACE TRIGGER "{self.name}" BEFORE {" OR ".join(self.events).upper()} ON %(table)s '
            f'FOR EACH ROW EXECUTE FUNCTION "{self.name}"()' + self._against_truncate,
            table=table,
        )

    @property
    def _raise(self) -> str:
        return f"RAISE EXCEPTION '{self.name}' USING ERRCODE = '23001', CONSTRAINT = '{self.name}';"

    @property
    def _against_truncate(self) -> str:
        if "delete" not in self.events:
            return ""
        return (
            f'; CREATE OR REPLACE TRIGGER "{self.name}_all" BEFORE TRUNCATE ON %(table)s '
            f'FOR EACH STATEMENT EXECUTE FUNCTION "{self.name}"()'
        )

    def constraint_sql(self, model: Any, editor: Editor) -> Any:
        editor.deferred_sql.extend(self.statements(model, editor))

    def create_sql(self, model: Any, editor: Editor) -> Any:
        return next(self.statements(model, editor))

    def remove_sql(self, model: Any, editor: Editor) -> str:
        return f'DROP FUNCTION IF EXISTS "{self.name}" CASCADE'

    def deconstruct(self) -> Any:
        path, args, kw = super().deconstruct()
        return path, args, {**kw, "events": self.events, "when": self.when}


def append_only(name: str) -> Refuse:
    return Refuse(name=name, events=("update", "delete"))


def frozen_with(noun: str, column: str, parent: str, frozen: str) -> list[Refuse]:
    """Refuses to add, change or delete rows below a frozen parent. `frozen` is SQL over the parent row p."""

    def held(*rows: str) -> str:
        ids = ", ".join(f"{row}.{column}" for row in rows)
        return f"EXISTS (SELECT 1 FROM {parent} p WHERE p.id IN ({ids}) AND {frozen})"

    return [
        Refuse(name=f"{noun}_added_only_to_a_draft", events=("insert",), when=held("NEW")),
        Refuse(name=f"{noun}_changes_only_in_a_draft", events=("update",), when=held("OLD", "NEW")),
        Refuse(name=f"{noun}_removed_only_from_a_draft", events=("delete",), when=held("OLD")),
    ]


def refresh_refusals(apps: Any, editor: Editor) -> None:
    """Replaces every trigger by today's declaration, for a migration. PostgreSQL only: SQLite cannot replace one."""
    if editor.connection.vendor == "sqlite":
        return
    for model in apps.get_models():
        for constraint in model._meta.constraints:
            if isinstance(constraint, Refuse):
                for statement in constraint.statements(model, editor):
                    editor.execute(statement)


@contextmanager
def refusals_suspended() -> Iterator[None]:
    """Drops every Refuse trigger and creates them again at the end.

    Only for deleting rows past their retention and for the tests' flush.
    """
    refusals = _refusals()
    _drop(refusals)
    try:
        yield
    finally:
        _create(refusals)


@contextmanager
def additions_allowed() -> Iterator[None]:
    """Drops the triggers that refuse nothing but an INSERT, and creates them again. Only for an imported archive.

    Call it inside a transaction: after an error its rollback brings the triggers back.
    """
    refusals = [(model, refuse) for model, refuse in _refusals() if refuse.events == ("insert",)]
    _drop(refusals)
    yield
    _create(refusals)


def _refusals() -> list[tuple[type[Model], Refuse]]:
    return [(m, c) for m in apps.get_models() for c in m._meta.constraints if isinstance(c, Refuse)]


def _drop(refusals: Sequence[tuple[type[Model], Refuse]]) -> None:
    with connection.cursor() as cursor:
        for model, refuse in refusals:
            if connection.vendor == "sqlite":
                for i, _ in enumerate(refuse.events):
                    cursor.execute(f'DROP TRIGGER "{refuse.name}_{i}"')
            else:
                cursor.execute(refuse.remove_sql(model, None))


def _create(refusals: Sequence[tuple[type[Model], Refuse]]) -> None:
    editor = connection.schema_editor(collect_sql=True)
    with connection.cursor() as cursor:
        for model, refuse in refusals:
            for statement in refuse.statements(model, editor):
                cursor.execute(str(statement))
