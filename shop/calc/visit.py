"""A vehicle's visit to the workshop: its dates from the outlook, and the way there in stretches from start to finish.

The promise's chain runs from the end back, operation by operation. People read it forwards and in few words: the start,
the work in a row, and each wait between.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime
from decimal import Decimal
from typing import Literal

from shop.calc.days import HalfDay
from shop.calc.outlook import Candidate, OutlookInput, OutlookOperation, outlook
from shop.calc.promise import Booking, ChainLink, Plan, Promise, promise
from shop.calc.worktime import WorkCalendar

LegKind = Literal["drop_off", "arrival", "withdrawal", "work", "wait", "outside"]


@dataclass(frozen=True, slots=True)
class Step:
    """One operation of the sheet: billed `hours`, predecessors in `after`, clock minutes to wait once it is done.

    With `wait_days` it is work of another firm, which begins then and returns it after that many open days.
    """

    code: str
    title: str
    position: int
    hours: Decimal = Decimal(0)
    after: tuple[str, ...] = ()
    wait_after: int = 0
    no_return: bool = False  # from here on the vehicle cannot move ...
    mobile_again: bool = False  # ... until this step is done
    wait_days: int = 0


@dataclass(frozen=True, slots=True)
class ExpectedDelivery:
    """A delivery that an operation ("": the first one) waits for.

    `at` is None without a delivery date, and also once the date has passed; then `was_due` holds it. `things` is the
    number of items that the title stands for, `parts` the number of lines on the parts list. `whole`: a whole kit, its
    only carton or work of another firm, without which no date can be given. `ask` is the supplier or firm. `outside`:
    work of another firm. `withdrawal`: no delivery, but the end of the period in which the customer may withdraw.
    """

    title: str
    operation: str
    at: datetime | None
    was_due: datetime | None = None
    things: int = 1
    parts: int = 1
    whole: bool = False
    ask: str = ""
    outside: bool = False
    withdrawal: bool = False


@dataclass(frozen=True, slots=True)
class Team:
    """The number of technicians at the vehicle, and the billed hours that each does per hour of the clock."""

    technicians: int = 1
    efficiency: Decimal = Decimal(1)


@dataclass(frozen=True, slots=True)
class Leg:
    """A stretch of the way to the date, from `since` to `until`.

    By kind: `drop_off` ends at the first step. `work` is `steps` in succession. `arrival` is a delivery (`title`) that
    the next steps waited for, `withdrawal` the end of a withdrawal period. `wait` follows the step before it (a cure,
    a soak) for `minutes` of the clock. `outside` is work of another firm (`title`) for `days` open days. A wait or
    outside work may come last.
    """

    kind: LegKind
    since: datetime
    until: datetime
    title: str = ""
    steps: tuple[str, ...] = ()
    minutes: int = 0
    things: int = 1
    days: int = 0


@dataclass(frozen=True, slots=True)
class Visit:
    """The dates of a visit: the vehicle comes at `bring`, and the plan begins at `since`, the best of the `tried`.

    `unknown` are deliveries without a date, `overdue` those past their date; the dates do not depend on either. `here`:
    the vehicle is in the workshop.
    """

    promise: Promise
    ready: HalfDay
    bring: datetime
    since: datetime
    tried: tuple[Candidate, ...]
    legs: tuple[Leg, ...]
    coming: tuple[ExpectedDelivery, ...]
    unknown: tuple[ExpectedDelivery, ...]
    overdue: tuple[ExpectedDelivery, ...] = ()
    here: bool = False

    @property
    def dateless(self) -> tuple[ExpectedDelivery, ...]:
        """The deliveries that make any date impossible."""
        return tuple(delivery for delivery in (*self.unknown, *self.overdue) if delivery.whole)


def look_ahead(
    steps: Sequence[Step],
    coming: Iterable[ExpectedDelivery],
    calendar: WorkCalendar,
    now: datetime,
    team: Team,
    here_from: date | None = None,
) -> Visit:
    """The visit: drop-off, ready date, and the way there. `steps` in sheet order, at least one.

    `here_from` is the date from which the vehicle is here, today or earlier if it is here already; None: the best
    drop-off is proposed. Refuses what the outlook refuses.
    """
    codes = {step.code for step in steps}
    placed = tuple(_placed(delivery, codes, steps[0].code) for delivery in coming)
    latest = _latest(placed)
    operations = tuple(_operation(step, latest) for step in steps)
    best = outlook(OutlookInput(calendar, now, operations, team.technicians, team.efficiency, here_from))
    awaited = latest | {code: latest[cause] for code, cause in best.waits_for.items()}
    return Visit(
        promise=best.promise,
        ready=best.ready,
        bring=best.bring,
        since=best.since,
        tried=best.tried,
        legs=(
            *_reason_to_wait(placed, now, best.since if here_from is None else now),
            *_legs(best.promise, {step.code: step for step in steps}, awaited, best.since),
        ),
        coming=placed,
        unknown=_once(delivery for delivery in placed if delivery.at is None and delivery.was_due is None),
        overdue=_once(delivery for delivery in placed if delivery.was_due is not None),
        here=here_from is not None and here_from <= now.astimezone(calendar.zone).date(),
    )


def starts_at_once(steps: Sequence[Step], calendar: WorkCalendar, since: datetime, team: Team) -> dict[str, datetime]:
    """The start of each step if work began at `since` and nothing had to arrive. Refuses what the promise refuses."""
    operations = tuple(_operation(step, {}) for step in steps)
    outcome = promise(Plan(calendar, since, operations, team.technicians, team.efficiency))
    return {booking.code: booking.start for booking in outcome.schedule}


def _once(coming: Iterable[ExpectedDelivery]) -> tuple[ExpectedDelivery, ...]:
    """Each delivery once, with the first of the operations that wait for it."""
    first: dict[str, ExpectedDelivery] = {}
    for delivery in coming:
        first.setdefault(delivery.title, delivery)
    return tuple(first.values())


def _placed(coming: ExpectedDelivery, codes: set[str], first: str) -> ExpectedDelivery:
    return coming if coming.operation in codes else replace(coming, operation=first)


def _latest(coming: Iterable[ExpectedDelivery]) -> dict[str, ExpectedDelivery]:
    """Maps each operation to the latest of its dated deliveries."""
    latest: dict[str, ExpectedDelivery] = {}
    for delivery in coming:
        before = latest.get(delivery.operation)
        if delivery.at is not None and (before is None or before.at is None or not _earlier(delivery.at, before.at)):
            latest[delivery.operation] = delivery
    return latest


def _operation(step: Step, latest: Mapping[str, ExpectedDelivery]) -> OutlookOperation:
    return OutlookOperation(
        code=step.code,
        hours=step.hours,
        after=step.after,
        wait_after=step.wait_after,
        not_before=latest[step.code].at if step.code in latest else None,
        no_return=step.no_return,
        mobile_again=step.mobile_again,
        wait_days=step.wait_days,
    )


def _reason_to_wait(coming: Iterable[ExpectedDelivery], now: datetime, since: datetime) -> Iterator[Leg]:
    """The last delivery before the proposed drop-off: without it the vehicle could come sooner."""
    dated = ((delivery.at, delivery) for delivery in coming if delivery.at is not None)
    arrived = [(at, delivery) for at, delivery in dated if not _earlier(at, now) and _earlier(at, since)]
    if arrived:
        at, last = max(arrived, key=lambda arrival: arrival[0].astimezone(UTC))
        yield _awaited_leg(last, at, since)


def _legs(
    outcome: Promise, steps: Mapping[str, Step], awaited: Mapping[str, ExpectedDelivery], since: datetime
) -> Iterable[Leg]:
    """The chain in forward order: the beginning, then work in a row, cut at each wait."""
    bookings = {booking.code: booking for booking in outcome.schedule}
    path = list(reversed(outcome.chain))
    own_work = {code: booking for code, booking in bookings.items() if not steps[code].wait_days}
    yield from _beginning(path[0], own_work, awaited, since)
    row: list[str] = []
    for link in path:
        if link.because == "wait" and link.of is not None:
            yield from _work(row, bookings)
            yield _wait(steps[link.of], bookings, bookings[link.code].start)
            row = []
        if link.code in own_work:
            row.append(link.code)
    yield from _work(row, bookings)
    last = steps[path[-1].code]
    if last.wait_after or last.wait_days:
        yield _wait(last, bookings, outcome.finish)


def _beginning(
    first: ChainLink, bookings: Mapping[str, Booking], awaited: Mapping[str, ExpectedDelivery], since: datetime
) -> Iterator[Leg]:
    """The drop-off, and the work done before the arrival that the rest waits for, with that arrival."""
    start = bookings[first.code].start
    if first.because != "not_before":
        yield Leg("drop_off", since, start)
        return
    arrival = awaited[first.code]
    assert arrival.at is not None, "an operation that waits for an arrival has one"
    before = sorted((booking for booking in bookings.values() if _earlier(booking.end, arrival.at)), key=_by_start)
    if before:
        yield Leg("drop_off", since, before[0].start)
        yield from _work([booking.code for booking in before], bookings)
    yield _awaited_leg(arrival, arrival.at, start)


def _awaited_leg(delivery: ExpectedDelivery, since: datetime, until: datetime) -> Leg:
    kind: LegKind = "withdrawal" if delivery.withdrawal else "arrival"
    return Leg(kind, since, until, delivery.title, things=delivery.things)


def _earlier(end: datetime, arrival: datetime) -> bool:
    return end.astimezone(UTC) <= arrival.astimezone(UTC)


def _by_start(booking: Booking) -> datetime:
    return booking.start.astimezone(UTC)


def _wait(step: Step, bookings: Mapping[str, Booking], until: datetime) -> Leg:
    if step.wait_days:
        return Leg("outside", bookings[step.code].end, until, step.title, days=step.wait_days)
    return Leg("wait", bookings[step.code].end, until, step.title, minutes=step.wait_after)


def _work(row: Sequence[str], bookings: Mapping[str, Booking]) -> Iterator[Leg]:
    """The work leg; none where another firm's step follows a wait directly and `row` is empty."""
    if row:
        yield Leg("work", bookings[row[0]].start, bookings[row[-1]].end, steps=tuple(row))
