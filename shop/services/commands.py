"""Commands (idempotency keys): a client's id and its answer, stored in the same transaction as the effect."""

import hashlib
from collections.abc import Callable
from datetime import datetime
from typing import Any
from uuid import UUID

import orjson
from django.db import IntegrityError, transaction
from django.db.models import QuerySet
from django.utils import timezone
from rest_framework.response import Response

from shop.access import Actor
from shop.compiled import compiled
from shop.encoding import encode
from shop.errors import RequestError
from shop.models import Command, Shop

LONGEST = Command._meta.get_field("name").max_length or 0


def command_name(view: str, path: str) -> str:
    """The name of a command. A long one ends in its digest, so that two never agree after they are cut."""
    name = f"{view} {path}"
    if len(name) <= LONGEST:
        return name
    digest = hashlib.sha256(name.encode()).hexdigest()[:32]
    return f"{name[: LONGEST - len(digest) - 1]}#{digest}"


def stored(*, actor: Actor, key: UUID, name: str, digest: str) -> Command | None:
    """The command stored under this id, or None. Refuses another body or another address under the same id.

    410 if it was executed and its answer has been dropped.
    """
    command = _command.first(actor.shop.pk, key)
    if command is not None and (command.body_digest != digest or command.name != name):
        raise RequestError(422, "key-reused")
    if command is not None and command.dropped_at is not None:
        raise RequestError(410, "answer-not-kept")
    return command


@compiled
def _command(shop: UUID, key: UUID) -> QuerySet[Command]:
    return Command.objects.filter(shop=shop, pk=key)


def once(*, actor: Actor, key: UUID, name: str, digest: str, act: Callable[[], Response]) -> Response:
    """Executes `act` and stores its answer, or returns the answer of the first request with this key."""
    try:
        with transaction.atomic():
            answer = act()
            Command.objects.create(
                id=key,
                shop=actor.shop,
                author=actor.member,
                name=name,
                body_digest=digest,
                status=answer.status_code,
                result=_as_sent(getattr(answer, "stored", answer.data)),
                done_at=timezone.now(),
            )
            return answer
    except (IntegrityError, RequestError):  # of two simultaneous requests the first to commit counts
        first = stored(actor=actor, key=key, name=name, digest=digest)
        if first is None:
            raise
        return Response(first.result, status=first.status)


def _as_sent(data: Any) -> Any:
    """The answer as plain JSON values, with ids and instants as text; `data` may be JSON bytes already."""
    return orjson.loads(data if isinstance(data, bytes) else encode(data))


def drop_answers(*, before: datetime, now: datetime) -> int:
    """Drops answers older than `before` in every shop, in batches of a transaction each. Returns their number."""
    return sum(_drop(shop, before, now) for shop in Shop.objects.all())


def _drop(shop: Shop, before: datetime, now: datetime) -> int:
    answered, dropped = Command.objects.filter(shop=shop, dropped_at__isnull=True), 0
    while ids := list(answered.filter(done_at__lt=before).values_list("pk", flat=True)[:500]):
        dropped += answered.filter(pk__in=ids).update(result=None, dropped_at=now)
    return dropped
