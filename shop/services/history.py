"""History: who did what to which row, written in the transaction of the change."""

from typing import Any

from django.db.models import Model
from django.utils import timezone

from shop.access import Actor
from shop.models import History


def record(*, actor: Actor, verb: str, row: Model, changes: dict[str, list[Any]] | None = None) -> None:
    """`changes` is {field: [before, after]} of JSON values."""
    History.objects.create(
        shop=actor.shop,
        recorded_at=timezone.now(),
        author=actor.member,
        channel=actor.channel,
        verb=verb,
        subject=row._meta.model_name or "",
        subject_id=row.pk,
        changes=changes or {},
    )
