"""The kinds of messages. An app registers its own in `AppConfig.ready`."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime

from django.core.mail import EmailMessage

from shop.models import Outbox


class NotWantedError(Exception):
    """The message must not be sent any more. `reason` is a code."""

    def __init__(self, reason: str) -> None:
        super().__init__(reason)
        self.reason = reason


@dataclass(frozen=True, slots=True)
class Kind:
    """`write` makes the message of a row or raises NotWantedError.

    `changed` is called in the transaction in which the row's state has changed, with the state before.
    """

    write: Callable[[Outbox, datetime], EmailMessage]
    changed: Callable[[Outbox, str], None]


KINDS: dict[str, Kind] = {}


def register(name: str, kind: Kind) -> None:
    KINDS[name] = kind
