"""Commands that need a database with every migration run."""

from typing import Any

from django.core.management.base import BaseCommand, CommandError
from django.db import DatabaseError, connection
from django.db.migrations.executor import MigrationExecutor

BEHIND = (
    "The database is not up to date. Start the server once with `make serve`, or run manage.py migrate. "
    "Then repeat the command."
)


class CurrentDatabaseCommand(BaseCommand):
    """Names the remedy where a database is empty or behind. It looks only once the database has refused something."""

    def execute(self, *args: Any, **options: Any) -> str | None:
        try:
            answer: str | None = super().execute(*args, **options)
        except DatabaseError as refused:
            executor = MigrationExecutor(connection)
            if not executor.migration_plan(executor.loader.graph.leaf_nodes()):
                raise
            raise CommandError(BEHIND) from refused
        return answer
