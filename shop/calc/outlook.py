"""What a promise date waits for, told from the beginning (over the calculation of promise).

The promise speaks in operations from the end back; people want it the other way round and in few words: what it
begins with, the work in a row, each wait in between. And nobody takes a vehicle apart to let it stand: a step after
which it cannot move waits for what would otherwise be late for the steps until it can move again.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from decimal import Decimal
from typing import Literal

from shop.calc.days import HalfDay, half_day
from shop.calc.network import walk
from shop.calc.promise import Booked, Link, Plan, PlannedOperation, Promise, promise
from shop.calc.worktime import Calendar

LegKind = Literal["drop_off", "arrival", "work", "wait"]


@dataclass(frozen=True, slots=True)
class Step:
    """One operation of the sheet: billed `hours`, codes it comes `after`, minutes to wait once it is done."""

    code: str
    title: str
    position: int
    hours: Decimal
    after: tuple[str, ...] = ()
    wait_after: int = 0
    no_return: bool = False  # from here on the vehicle cannot move ...
    mobile_again: bool = False  # ... until this step is done


@dataclass(frozen=True, slots=True)
class Coming:
    """What is on its way for an operation ("": the first).

    `at` is None where nobody has said when, or the day that was said has passed: `was_due` then. `things`: how many
    the title speaks of.
    """

    title: str
    operation: str
    at: datetime | None
    was_due: datetime | None = None
    things: int = 1


@dataclass(frozen=True, slots=True)
class Team:
    """How many work on the vehicle side by side, and the billed hours each does in an hour of the clock."""

    technicians: int = 1
    efficiency: Decimal = Decimal(1)


@dataclass(frozen=True, slots=True)
class Leg:
    """A stretch of the way to the date, from `since` to `until`.

    drop_off begins it with the first step of all; work is `steps` done one after another; arrival (of `title`) is what
    the steps behind it waited for; wait follows the last step before it (a cure, a soak) for `minutes` of the clock,
    also at the very end.
    """

    kind: LegKind
    since: datetime
    until: datetime
    title: str = ""
    steps: tuple[str, ...] = ()
    minutes: int = 0
    things: int = 1


@dataclass(frozen=True, slots=True)
class Outlook:
    """`unknown` names what nobody has said a day of, `overdue` is what did not come on its: the date counts neither."""

    promise: Promise
    ready: HalfDay
    available_from: datetime
    legs: tuple[Leg, ...]
    coming: tuple[Coming, ...]
    unknown: tuple[str, ...]
    overdue: tuple[Coming, ...] = ()


def look_ahead(
    steps: Sequence[Step], coming: Iterable[Coming], calendar: Calendar, available_from: datetime, team: Team
) -> Outlook:
    """When the vehicle can be ready and the way there. `steps` in sheet order, at least one.

    Refuses what the promise refuses.
    """
    known = {step.code for step in steps}
    placed = tuple(_placed(each, known, steps[0].code) for each in coming)
    latest = _latest(placed)

    def planned(waits: Mapping[str, Coming]) -> Promise:
        operations = tuple(_planned(step, waits) for step in steps)
        return promise(Plan(calendar, available_from, operations, team.technicians, team.efficiency))

    latest |= _held(steps, latest, planned({}))
    found = planned(latest)
    return Outlook(
        promise=found,
        ready=half_day(found.finish, calendar),
        available_from=available_from,
        legs=tuple(_legs(found, {step.code: step for step in steps}, latest, available_from)),
        coming=placed,
        unknown=tuple(dict.fromkeys(each.title for each in placed if each.at is None and each.was_due is None)),
        overdue=tuple({each.title: each for each in reversed(placed) if each.was_due is not None}.values())[::-1],
    )


def _placed(coming: Coming, known: set[str], first: str) -> Coming:
    return coming if coming.operation in known else replace(coming, operation=first)


def _latest(coming: Iterable[Coming]) -> dict[str, Coming]:
    """Operation -> what comes last of all it waits for."""
    found: dict[str, Coming] = {}
    for each in coming:
        before = found.get(each.operation)
        if each.at is not None and (before is None or before.at is None or not _earlier(each.at, before.at)):
            found[each.operation] = each
    return found


def _held(steps: Sequence[Step], latest: Mapping[str, Coming], at_once: Promise) -> dict[str, Coming]:
    """Each step of no return with what it waits for: of its own and of what would come too late for its window.

    The window runs in walk order to the first step that makes the vehicle mobile again; `at_once` is the work begun
    now with everything here.
    """
    starts = {each.code: each.start.astimezone(UTC) for each in at_once.schedule}
    order = walk(steps)
    found: dict[str, Coming] = {}
    for begin, step in enumerate(order):
        if step.no_return:
            window = (latest[each.code] for each in _window(order[begin:]) if each.code in latest)
            moments = {each.at.astimezone(UTC): each for each in window if each.at is not None}
            late = {at: each for at, each in moments.items() if at > starts[each.operation]}
            if late:
                found[step.code] = late[max(late)]
    return found


def _window(order: Sequence[Step]) -> Iterator[Step]:
    for step in order:
        yield step
        if step.mobile_again:
            return


def _planned(step: Step, latest: Mapping[str, Coming]) -> PlannedOperation:
    arrival = latest[step.code].at if step.code in latest else None
    return PlannedOperation(step.code, step.hours, step.after, step.wait_after, arrival)


def _legs(
    found: Promise, steps: Mapping[str, Step], latest: Mapping[str, Coming], available_from: datetime
) -> Iterable[Leg]:
    """The chain forwards: its beginning, then work in a row, cut wherever something has to wait."""
    booked = {each.code: each for each in found.schedule}
    way = list(reversed(found.chain))
    yield from _beginning(way[0], booked, latest, available_from)
    row: list[str] = []
    for link in way:
        if link.because == "wait" and link.of is not None:
            yield _work(row, booked)
            yield _wait(steps[link.of], booked, booked[link.code].start)
            row = []
        row.append(link.code)
    yield _work(row, booked)
    if steps[row[-1]].wait_after:
        yield _wait(steps[row[-1]], booked, found.finish)


def _beginning(
    first: Link, booked: Mapping[str, Booked], latest: Mapping[str, Coming], available_from: datetime
) -> Iterator[Leg]:
    """The vehicle comes; what is done before the arrival that the rest waits for; that arrival."""
    start = booked[first.code].start
    if first.because != "not_before":
        yield Leg("drop_off", available_from, start)
        return
    arrival = latest[first.code]
    assert arrival.at is not None, "an operation that waits for an arrival has one"
    before = sorted((each for each in booked.values() if _earlier(each.end, arrival.at)), key=_by_start)
    if before:
        yield Leg("drop_off", available_from, before[0].start)
        yield _work([each.code for each in before], booked)
    yield Leg("arrival", arrival.at, start, arrival.title, things=arrival.things)


def _earlier(end: datetime, arrival: datetime) -> bool:
    return end.astimezone(UTC) <= arrival.astimezone(UTC)


def _by_start(booked: Booked) -> datetime:
    return booked.start.astimezone(UTC)


def _wait(step: Step, booked: Mapping[str, Booked], until: datetime) -> Leg:
    return Leg("wait", booked[step.code].end, until, step.title, minutes=step.wait_after)


def _work(row: Sequence[str], booked: Mapping[str, Booked]) -> Leg:
    return Leg("work", booked[row[0]].start, booked[row[-1]].end, steps=tuple(row))
