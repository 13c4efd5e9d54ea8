"""Commands: an id made by the client, and its answer stored in the same transaction as the effect."""

from collections.abc import Callable
from typing import Any
from uuid import UUID

import orjson
from django.db import IntegrityError, transaction
from django.utils import timezone
from rest_framework.response import Response

from shop.access import Actor
from shop.models import Command
from shop.problems import Problem


def stored(*, who: Actor, key: UUID, name: str, digest: str) -> Command | None:
    """The answer this id already got; another body or another address under the same id is refused."""
    found = Command.objects.filter(shop=who.shop, pk=key).first()
    if found is not None and (found.body_digest != digest or found.name != name):
        raise Problem(422, "key-reused")
    return found


def once(*, who: Actor, key: UUID, name: str, digest: str, act: Callable[[], Response]) -> Response:
    """Do it and store the answer, or give the answer of the one that was first."""
    try:
        with transaction.atomic():
            answer = act()
            Command.objects.create(
                id=key,
                shop=who.shop,
                by=who.member,
                name=name,
                body_digest=digest,
                status=answer.status_code,
                result=_as_sent(getattr(answer, "kept", answer.data)),
                at=timezone.now(),
            )
            return answer
    except (IntegrityError, Problem):  # a repeat that overtook its first: the first one's answer is the answer
        first = stored(who=who, key=key, name=name, digest=digest)
        if first is None:
            raise
        return Response(first.result, status=first.status)


def _as_sent(data: Any) -> Any:
    """What whoever asked reads: there an id or an instant is text."""
    return orjson.loads(orjson.dumps(data))
