"""Validates one count event from a phone.

An unreadable event is `malformed`, an impossible count `out_of_bounds`. All other events are kept whole, including
unknown kinds and versions. Numbers are whole pieces or packs.
"""

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from hashlib import sha256
from typing import Any, Literal
from uuid import UUID

from kitting.calc.counting import KNOWN_VERSION

Outcome = Literal["stored", "duplicate", "late", "rejected"]  # of an uploaded event
EventProblem = Literal["malformed", "out_of_bounds", "unknown_line", "id_reused", "number_reused"]

MOST = 99_999
MOST_ADDED = 999
LARGEST = 2**31 - 1
LARGEST_VERSION = 2**15 - 1
LARGEST_EXACT = 2**53
DEEPEST = 12
COUNTED = ("total", "damaged", "target")
ENVELOPE = ("v", "id", "list", "line", "kind", "device", "n", "epoch", "seen", "made_at")
THE_SERVERS = ("author", "author_name", "seq", "late")
READ = frozenset((*ENVELOPE, *COUNTED))
AS_ONE_TEXT = json.JSONEncoder(sort_keys=True, separators=(",", ":"), ensure_ascii=False)


@dataclass(frozen=True, slots=True)
class Observation:
    """A readable event. `extra` holds fields that are shown but never folded; `digest` is of the event as sent."""

    id: UUID
    v: int
    line: UUID
    kind: str
    total: int | None
    damaged: int | None
    target: UUID | None
    device: UUID
    n: int
    epoch: int
    seen: int
    made_at: datetime
    extra: Mapping[str, Any]
    digest: str


class EventError(Exception):
    """Raised for an event that cannot be stored. `problem` is malformed or out_of_bounds."""

    def __init__(self, problem: EventProblem = "malformed") -> None:
        super().__init__(problem)
        self.problem = problem


def read_observation(raw: Any, list_id: UUID) -> Observation:
    """The event, if it belongs to this list. Raises EventError."""
    if not isinstance(raw, dict) or not _storable(raw, 0):
        raise EventError
    event = {key: value for key, value in raw.items() if key not in THE_SERVERS}
    if _uuid(event.get("list")) != list_id:
        raise EventError
    v, kind = _whole(event.get("v"), 1, LARGEST_VERSION), _kind(event.get("kind"))
    is_known = v == KNOWN_VERSION and kind in ("set", "add", "undo")
    total, damaged, target = _counted(kind, event) if is_known else (None, None, None)
    return Observation(
        id=_uuid(event.get("id")),
        v=v,
        line=_uuid(event.get("line")),
        kind=kind,
        total=total,
        damaged=damaged,
        target=target,
        device=_uuid(event.get("device")),
        n=_whole(event.get("n"), 1),
        epoch=_whole(event.get("epoch"), 1),
        seen=_whole(event.get("seen"), 0),
        made_at=_instant(event.get("made_at")),
        extra=_extra(event, is_known),
        digest=_digest(event),
    )


def clamped(seen: int, epoch: int, cuts: Iterable[tuple[int, int]], last_seq: int) -> int:
    """`seen`, limited to the end of the log and to the place where the log of the phone's epoch was cut.

    `cuts` are (epoch, last seq when it ended). A restore cuts the view of all earlier epochs too.
    """
    return min(seen, last_seq, *(end for ended, end in cuts if epoch <= ended))


def _digest(event: Mapping[str, Any]) -> str:
    return sha256(AS_ONE_TEXT.encode(event).encode()).hexdigest()


def _counted(kind: str, event: Mapping[str, Any]) -> tuple[int | None, int | None, UUID | None]:
    if kind == "undo":
        if event.get("total") is not None or event.get("damaged") is not None:
            raise EventError
        return None, None, _uuid(event.get("target"))
    if event.get("target") is not None:
        raise EventError
    total, damaged = _piece(event, "total", kind == "add"), _piece(event, "damaged", True)
    within = 0 <= damaged <= total <= MOST if kind == "set" else _added(total, damaged)
    if not within:
        raise EventError("out_of_bounds")
    return total, damaged, None


def _added(total: int, damaged: int) -> bool:
    return abs(total) <= MOST_ADDED and abs(damaged) <= MOST_ADDED and (total, damaged) != (0, 0)


def _piece(event: Mapping[str, Any], name: str, may_be_absent: bool) -> int:
    value = event.get(name)
    if value is None and may_be_absent:
        return 0
    if type(value) is not int:
        raise EventError
    return value


def _extra(event: Mapping[str, Any], is_known: bool) -> dict[str, Any]:
    extra = {key: value for key, value in event.items() if key not in READ}
    unread = {} if is_known else {key: event[key] for key in COUNTED if event.get(key) is not None}
    for name, readable in (("how", str | None), ("note", str | dict | None)):
        if not isinstance(extra.get(name), readable):
            unread[name] = extra.pop(name)
    return {**extra, "sent": unread} if unread else extra


def _whole(value: Any, least: int, most: int = LARGEST) -> int:
    if type(value) is not int or not least <= value <= most:
        raise EventError
    return value


def _kind(value: Any) -> str:
    if not isinstance(value, str) or not 1 <= len(value) <= 16:
        raise EventError
    return value


def _uuid(value: Any) -> UUID:
    if not isinstance(value, str) or len(value) != 36:
        raise EventError
    try:
        return UUID(value)
    except ValueError:
        raise EventError from None


def _instant(value: Any) -> datetime:
    if not isinstance(value, str):
        raise EventError
    try:
        instant = datetime.fromisoformat(value)
        if instant.tzinfo is None:
            raise EventError
        return instant.astimezone(UTC)
    except (ValueError, OverflowError):
        raise EventError from None


def _storable(value: Any, depth: int) -> bool:
    """True if both databases can store the value and return it unchanged."""
    if isinstance(value, str):
        return "\x00" not in value and (
            value.isascii() or not any("\ud800" <= character <= "\udfff" for character in value)
        )
    if isinstance(value, bool) or value is None:
        return True
    if isinstance(value, int):
        return abs(value) <= LARGEST_EXACT
    if isinstance(value, float):
        return value - value == 0  # neither infinite nor NaN
    if depth >= DEEPEST:
        return False
    if isinstance(value, list):
        return all(_storable(item, depth + 1) for item in value)
    return all(_storable(key, depth) and _storable(item, depth + 1) for key, item in value.items())
