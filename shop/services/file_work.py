"""Reads and imports large files in the background, after the request has returned."""

import logging
import time
from collections.abc import Mapping
from datetime import timedelta
from typing import Any

from django.db import OperationalError, transaction
from django.utils import timezone

from shop.access import Actor
from shop.errors import RequestError
from shop.models import FileRead, FileTask
from shop.services import file_tasks, imports
from shop.services.file_tasks import TaskGoneError
from shop.tables.engine import FileKind
from shop.words import say
from shop.words.languages import speaking

LARGE = 64 * 1024
"""Bytes from which a file is read and imported beside the server: some 1,500 rows, a second's work."""
SECONDS = 1  # between two notes of the progress
PAUSE = timedelta(seconds=5)  # before another try where the database was busy
log = logging.getLogger(__name__)


def is_large(body: bytes | memoryview) -> bool:
    return len(body) > LARGE


@transaction.atomic
def keep_unread(
    *, actor: Actor, kind: FileKind, file_name: str, body: bytes, supplier: str, mapping: Mapping[str, str]
) -> FileRead:
    """Stores a large file and asks for its reading. 409 when the shop has too many files waiting."""
    now = timezone.now()
    imports.make_room(actor=actor, size=len(body), now=now)
    row = FileRead(
        shop=actor.shop,
        kind=kind.name,
        file_name=file_name[:200],
        body=body,
        supplier=supplier,
        mapping=dict(mapping),
        author=actor.member,
        read_at=now,
    )
    row.clean_fields()
    row.save(force_insert=True)
    file_tasks.put(actor=actor, file=row, kind=FileTask.Kind.READ, now=now)
    return row


@transaction.atomic
def repair_later(*, actor: Actor, file: FileRead, steps: list[dict[str, Any]]) -> FileRead:
    """Stores the steps that a person took with a large file, and asks for its reading with them."""
    row = imports.locked(file)
    _refuse_while_importing(row)
    row.repairs = steps
    row.save(update_fields=["repairs"])
    file_tasks.put(actor=actor, file=row, kind=FileTask.Kind.READ, now=timezone.now())
    return row


@transaction.atomic
def take_in_later(*, actor: Actor, file: FileRead) -> FileRead:
    """Asks for the import of a large file. 409 while something must be fixed, or while it is read or imported."""
    row = imports.locked(file)
    if row.tasks.exclude(state=FileTask.State.FAILED).exists():
        raise RequestError(409, "refused", why=say("import.task_runs"))
    if not row.result:
        raise RequestError(409, "refused", why=say("import.unread"))
    imports.refuse_unready(row.result)
    file_tasks.put(actor=actor, file=row, kind=FileTask.Kind.TAKE_IN, now=timezone.now())
    return row


def _refuse_while_importing(row: FileRead) -> None:
    if row.tasks.filter(kind=FileTask.Kind.TAKE_IN).exclude(state=FileTask.State.FAILED).exists():
        raise RequestError(409, "refused", why=say("import.task_runs"))


def work_next() -> bool:
    """Does the task that is due longest; False where none is due."""
    task = file_tasks.begin_next(timezone.now())
    if task is None:
        return False
    with speaking(*file_tasks.actor_of(task).languages):
        try:
            _read(task) if task.kind == FileTask.Kind.READ else _take_in(task)
        except TaskGoneError:
            pass
        except RequestError as error:
            file_tasks.fail(task, str(dict(error.facts).get("why", "")) or say("import.task_failed"))
        except OperationalError:
            log.exception("task %s waits for the database", task.pk)
            file_tasks.postpone(task, timezone.now() + PAUSE)
        except Exception:
            log.exception("task %s failed", task.pk)
            file_tasks.fail(task, say("import.task_failed"))
    return True


def _read(task: FileTask) -> None:
    """Reads the file with the steps it has now. Steps that are added in the meantime begin a task of their own."""
    actor, file = file_tasks.actor_of(task), task.file
    reading = imports.read_again(actor=actor, file=file, progress=Progress(task))
    outcome = imports.outcome_of(actor=actor, file=file, reading=reading)
    with transaction.atomic():
        imports.locked(file)  # the file before its task, as requests do
        file_tasks.end(task)
        imports.repair(actor=actor, file=file, steps=file.repairs, outcome=outcome)


def _take_in(task: FileTask) -> None:
    actor, file = file_tasks.actor_of(task), task.file
    reading = imports.read_again(actor=actor, file=file, progress=Progress(task))
    before = imports.outcome_of(actor=actor, file=file, reading=reading)
    with transaction.atomic():
        imports.locked(file)
        file_tasks.end(task)
        imports.take_in(actor=actor, file=file, reading=reading, before=before)


class Progress:
    """Notes the rows that were read, once a second."""

    def __init__(self, task: FileTask) -> None:
        self.task, self.noted_at = task, 0

    def __call__(self, done: int, in_all: int) -> None:
        now = int(time.monotonic())
        if now - self.noted_at >= SECONDS or done == in_all:
            self.noted_at = now
            file_tasks.note(self.task, done, in_all, timezone.now())
