"""Reads and imports large files in the background, after the request has returned."""

import time
from collections.abc import Mapping
from typing import Any

from django.db import transaction
from django.utils import timezone

from shop.access import Actor
from shop.errors import RequestError
from shop.models import FileRead, FileTask
from shop.services import file_tasks, imports
from shop.tables.engine import FileKind

LARGE = 64 * 1024
"""Bytes from which a file is read and imported beside the server: some 1,500 rows, a second's work."""
SECONDS = 1  # between two notes of the progress


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
        raise RequestError(409, "import-task-runs")
    if not row.result:
        raise RequestError(409, "import-unread")
    imports.refuse_unready(row.result)
    file_tasks.put(actor=actor, file=row, kind=FileTask.Kind.TAKE_IN, now=timezone.now())
    return row


def _refuse_while_importing(row: FileRead) -> None:
    if row.tasks.filter(kind=FileTask.Kind.TAKE_IN).exclude(state=FileTask.State.FAILED).exists():
        raise RequestError(409, "import-task-runs")


def work(task: FileTask) -> None:
    """Does a begun task. Raises TaskGoneError if it is not ours any more."""
    _read(task) if task.kind == FileTask.Kind.READ else _take_in(task)


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
