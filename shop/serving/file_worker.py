"""The thread that reads and imports large files, beside the server."""

from django.db import connection
from django.utils import timezone

from shop.services import file_tasks
from shop.services.file_work import work_next
from shop.worker import Worker


def begin() -> None:
    """Takes up at once what a server that was killed had begun. SQLite is served by one process, PostgreSQL by many."""
    if connection.vendor == "sqlite":
        file_tasks.release_all(timezone.now())


file_worker = Worker("files", work_next, file_tasks.asked, begin)
