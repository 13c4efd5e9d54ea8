"""The thread that reads and imports large files, beside the server."""

import logging
from datetime import timedelta

from django.db import OperationalError, connection
from django.utils import timezone

from shop.errors import RequestError
from shop.models import FileTask
from shop.services import file_tasks, file_work
from shop.services.file_tasks import TaskGoneError, actor_of
from shop.words import say
from shop.words.languages import speaking
from shop.worker import Worker

PAUSE = timedelta(seconds=5)  # before another try where the database was busy
log = logging.getLogger(__name__)


def begin() -> None:
    """Takes up at once what a server that was killed had begun. SQLite is served by one process, PostgreSQL by many."""
    if connection.vendor == "sqlite":
        file_tasks.release_all(timezone.now())


def work_next() -> bool:
    """Does the task that is due longest; False where none is due."""
    task = file_tasks.begin_next(timezone.now(), _stopped)
    if task is None:
        return False
    with speaking(*actor_of(task).languages):
        try:
            file_work.work(task)
        except TaskGoneError:
            pass
        except RequestError as error:
            file_tasks.fail(task, _reason(error))
        except OperationalError:
            log.exception("task %s waits for the database", task.pk)
            file_tasks.postpone(task, timezone.now() + PAUSE)
        except Exception:
            log.exception("task %s failed", task.pk)
            file_tasks.fail(task, say("import.task_failed"))
    return True


def _stopped(task: FileTask) -> str:
    with speaking(*actor_of(task).languages):
        return say("import.task_stopped", n=file_tasks.MOST_TRIES)


def _reason(error: RequestError) -> str:
    """The sentence of a refusal that is about the file; of any other, that the work failed."""
    own = error.code.startswith("import-")
    return say(f"problem.{error.code}.detail", **error.facts) if own else say("import.task_failed")


file_worker = Worker("files", work_next, file_tasks.asked, begin)
