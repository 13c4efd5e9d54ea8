"""The column of a search key, and the migration that gives an older column its collation."""

from typing import Any

from django.db import migrations, models


class KeyField(models.CharField):  # type: ignore[type-arg]
    """The column of a `search_key`, with the collation "C" on PostgreSQL: compared byte by byte, as SQLite does.

    In the collation of a language U+10FFFF sorts before all letters, so the range of a prefix would be empty.
    """

    def db_parameters(self, connection: Any) -> Any:
        parameters = super().db_parameters(connection)
        return {**parameters, "collation": "C"} if connection.vendor == "postgresql" else parameters


class AlterKeyField(migrations.AlterField):
    """CharField to KeyField. Does nothing on SQLite, which would copy the whole table."""

    def database_forwards(self, app_label: str, schema_editor: Any, from_state: Any, to_state: Any) -> None:
        if schema_editor.connection.vendor == "postgresql":
            super().database_forwards(app_label, schema_editor, from_state, to_state)

    def database_backwards(self, app_label: str, schema_editor: Any, from_state: Any, to_state: Any) -> None:
        self.database_forwards(app_label, schema_editor, from_state, to_state)
