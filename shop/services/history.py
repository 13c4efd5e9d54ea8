"""History: who did what to which row, written in the transaction of the change."""

from collections.abc import Iterable
from typing import Any

from django.db.models import Model
from django.utils import timezone

from shop.access import Actor
from shop.models import History
from shop.services import bulk


def record(*, actor: Actor, verb: str, row: Model, changes: dict[str, list[Any]] | None = None) -> None:
    """`changes` is {field: [before, after]} of JSON values."""
    _line(actor, verb, row, changes).save(force_insert=True)


def record_all(*, actor: Actor, verb: str, rows: Iterable[Model]) -> None:
    """Records the same of several rows, in one statement."""
    record_each(actor=actor, verb=verb, changes=((row, {}) for row in rows))


def record_each(*, actor: Actor, verb: str, changes: Iterable[tuple[Model, dict[str, list[Any]]]]) -> None:
    """Records the changes of several rows, in one statement."""
    bulk.insert([_line(actor, verb, row, of_row) for row, of_row in changes])


def _line(actor: Actor, verb: str, row: Model, changes: dict[str, list[Any]] | None) -> History:
    return History(
        shop=actor.shop,
        recorded_at=timezone.now(),
        author=actor.member,
        channel=actor.channel,
        verb=verb,
        subject=row._meta.model_name or "",
        subject_id=row.pk,
        changes=changes or {},
    )
