"""Tasks on large files: asked for by a request, begun by one process, deleted with their effect.

A task is begun by compare-and-set and has a lease, which its progress renews. A process that dies leaves a lease that
ends: the task then begins again, at most MOST_TRIES times. A file is never half imported, for the effect and the end of
its task are one transaction.
"""

from collections.abc import Callable
from datetime import datetime, timedelta
from threading import Event

from django.db import transaction
from django.db.models import Q, QuerySet

from shop.access import Actor
from shop.models import FileRead, FileTask
from shop.models.files import FileTaskKind
from shop.services import feed

LEASE = timedelta(minutes=2)
MOST_TRIES = 3
State = FileTask.State

asked = Event()
"""Set when this process has committed a task."""


class TaskGoneError(Exception):
    """The task was removed with its file, or another process has begun it again."""


def put(*, actor: Actor, file: FileRead, kind: FileTaskKind, now: datetime) -> FileTask:
    """Adds a task for a file in the transaction of the request. It replaces an earlier task of that file."""
    FileTask.objects.filter(shop=actor.shop, file=file).delete()
    task = FileTask(shop=actor.shop, file=file, kind=kind, author=actor.member, asked_at=now, due_at=now)
    task.clean_fields()
    task.save(force_insert=True)
    feed.record(actor=actor, kind=feed.Kind.IMPORTS)
    transaction.on_commit(asked.set)
    return task


def begin_next(now: datetime, stopped: Callable[[FileTask], str]) -> FileTask | None:
    """The task that is due longest, begun; None where none is due. Call it outside a transaction.

    A task whose tries all ended with their process fails, with the reason that `stopped` words.
    """
    while task := _due(now):
        if task.tries >= MOST_TRIES:
            fail(task, stopped(task))
            continue
        same = FileTask.objects.filter(shop=task.shop_id, pk=task.pk, state=task.state, tries=task.tries)
        if same.update(state=State.BEGUN, tries=task.tries + 1, due_at=now + LEASE):
            task.state, task.tries = State.BEGUN, task.tries + 1
            return task
    return None


def _due(now: datetime) -> FileTask | None:
    rows = FileTask.objects.filter(~Q(state=State.FAILED), due_at__lte=now)
    return rows.select_related("shop", "file", "author", "author__user").order_by("due_at", "id").first()


def release_all(now: datetime) -> None:
    """Makes begun tasks due at once. For the start of a server that is alone with its database."""
    FileTask.objects.filter(state=State.BEGUN).update(state=State.WAITING, due_at=now)


def actor_of(task: FileTask) -> Actor:
    """The person who asked for the task."""
    return Actor(shop=task.shop, member=task.author)


def note(task: FileTask, done: int, in_all: int, now: datetime) -> None:
    """Notes the progress of a begun task and renews its lease. Raises TaskGoneError if it is not ours any more."""
    if not _ours(task).update(rows_done=done, rows_in_all=in_all, due_at=now + LEASE):
        raise TaskGoneError


def end(task: FileTask) -> None:
    """Deletes a begun task in the transaction of its effect. Raises TaskGoneError if it is not ours any more."""
    if not _ours(task).delete()[0]:
        raise TaskGoneError


def postpone(task: FileTask, until: datetime) -> None:
    """Gives a begun task back, for a reason that passes: a database that was busy."""
    _ours(task).update(state=State.WAITING, due_at=until)


@transaction.atomic
def fail(task: FileTask, reason: str) -> None:
    """Notes why the task failed, for the person who looks at the file. Nothing of it was saved."""
    own = FileTask.objects.filter(shop=task.shop_id, pk=task.pk, state=task.state, tries=task.tries)
    if own.update(state=State.FAILED, reason=reason[:400]):
        feed.record(actor=actor_of(task), kind=feed.Kind.IMPORTS)


def _ours(task: FileTask) -> QuerySet[FileTask]:
    return FileTask.objects.filter(shop=task.shop_id, pk=task.pk, state=State.BEGUN, tries=task.tries)
