"""Stores the phones' events under the list's lock, numbered without gaps. A closed list accepts events as late."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Final
from uuid import UUID

from django.db import IntegrityError, transaction

from kitting.calc.observation import EventError, EventProblem, Observation, Outcome, clamped, read_observation
from kitting.models import CountEvent, PullLine, PullList
from kitting.services.pull_lists import locked
from shop.access import Actor
from shop.services import feed
from shop.storable import is_text

STORED: Final = "stored"
DUPLICATE: Final = "duplicate"
LATE: Final = "late"
REJECTED: Final = "rejected"


@dataclass(frozen=True, slots=True)
class Result:
    """The outcome of one event; `id` as sent. After stored, duplicate and late the server holds the event."""

    id: str | None
    status: Outcome
    seq: int | None = None
    problem: EventProblem | None = None


@dataclass(frozen=True, slots=True)
class _Stored:
    """An event that is in the log or earlier in this batch."""

    seq: int
    digest: str


def store_batch(*, actor: Actor, pull_list: PullList, events: Sequence[Any], now: datetime) -> tuple[Result, ...]:
    """Stores the events in one transaction; one result for each, in the order of the request.

    `events` are as sent. An upload to another list, which has a different lock, may take the same id or device number
    at the same moment. The database then refuses the batch and it is tried a second time.
    """
    for _ in range(3):
        try:
            return _store(actor, pull_list, events, now)
        except IntegrityError as error:
            refused = error
    raise refused


@transaction.atomic
def _store(actor: Actor, pull_list: PullList, events: Sequence[Any], now: datetime) -> tuple[Result, ...]:
    row = locked(pull_list)
    read = [_read(sent, row.pk) for sent in events]
    batch = _Batch(actor, row, [event for event in read if isinstance(event, Observation)], now)
    results = tuple(batch.result(event, _sent_id(sent)) for event, sent in zip(read, events, strict=True))
    if batch.rows:
        CountEvent.objects.bulk_create(batch.rows)
        row.last_seq += len(batch.rows)
        row.save(update_fields=["last_seq"])
        feed.record(actor=actor, kind=feed.Kind.COUNTS)
    return results


def _read(sent: Any, list_id: UUID) -> Observation | EventProblem:
    try:
        return read_observation(sent, list_id)
    except EventError as unreadable:
        return unreadable.problem


def _sent_id(sent: Any) -> str | None:
    """The event's id as sent; None if it cannot be repeated in an answer."""
    id = sent.get("id") if isinstance(sent, dict) else None
    return id if isinstance(id, str) and is_text(id) else None


class _Batch:
    """Compares the events of one upload with the log as it is under the lock."""

    def __init__(self, actor: Actor, row: PullList, events: Sequence[Observation], now: datetime) -> None:
        assert actor.member is not None, "a count has an author"
        self.row, self.now, self._author = row, now, actor.member.pk
        self.rows: list[CountEvent] = []
        self._cuts = [(epoch, seq) for epoch, seq in row.cuts]
        self._stored = _stored_events([event.id for event in events])
        self._numbers = _numbers(row, events)
        self._retired = _lines(row, [event.line for event in events])

    def result(self, event: Observation | EventProblem, sent_id: str | None) -> Result:
        if isinstance(event, str):
            return Result(sent_id, REJECTED, None, event)
        return self._take(event, sent_id)

    def _take(self, event: Observation, sent_id: str | None) -> Result:
        if event.id in self._stored:
            first = self._stored[event.id]
            if first.digest != event.digest:  # the event names its list, so one of another list never agrees
                return Result(sent_id, REJECTED, None, "id_reused")
            return Result(sent_id, DUPLICATE, first.seq)
        if event.line not in self._retired:
            return Result(sent_id, REJECTED, None, "unknown_line")
        if (event.device, event.n) in self._numbers:
            return Result(sent_id, REJECTED, None, "number_reused")
        return self._add(event, sent_id)

    def _add(self, event: Observation, sent_id: str | None) -> Result:
        late = self.row.state != PullList.State.OPEN or self._retired[event.line]
        seq = self.row.last_seq + len(self.rows) + 1
        self._stored[event.id] = _Stored(seq, event.digest)
        self._numbers.add((event.device, event.n))
        self.rows.append(self._event(event, seq, late))
        return Result(sent_id, LATE if late else STORED, seq)

    def _event(self, event: Observation, seq: int, late: bool) -> CountEvent:
        return CountEvent(
            id=event.id,
            shop_id=self.row.shop_id,
            form=event.v,
            pull_list_id=self.row.pk,
            line_id=event.line,
            seq=seq,
            kind=event.kind,
            total=event.total,
            damaged=event.damaged,
            target=event.target,
            device=event.device,
            device_seq=event.n,
            epoch=event.epoch,
            seen=clamped(event.seen, event.epoch, self._cuts, self.row.last_seq),
            late=late,
            extra=dict(event.extra),
            author_id=self._author,
            made_at=event.made_at,
            stored_at=self.now,
            body_digest=event.digest,
        )


def _stored_events(ids: Iterable[UUID]) -> dict[UUID, _Stored]:
    """The stored events with these ids, in any list or shop: an id belongs to one event for ever."""
    rows = CountEvent.objects.filter(pk__in=list(ids)).values_list("pk", "seq", "body_digest")
    return {id: _Stored(seq, digest) for id, seq, digest in rows}


def _numbers(row: PullList, events: Iterable[Observation]) -> set[tuple[UUID, int]]:
    devices, numbers = {event.device for event in events}, {event.n for event in events}
    rows = CountEvent.objects.filter(shop_id=row.shop_id, device__in=devices, device_seq__in=numbers)
    return set(rows.values_list("device", "device_seq"))


def _lines(row: PullList, ids: Iterable[UUID]) -> dict[UUID, bool]:
    """{line of this list: whether it is retired}"""
    rows = PullLine.objects.filter(shop_id=row.shop_id, pull_list_id=row.pk, pk__in=set(ids))
    return {id: retired_at is not None for id, retired_at in rows.values_list("pk", "retired_at")}
