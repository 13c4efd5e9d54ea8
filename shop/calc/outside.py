"""Work that another firm does, as a plan has it: a turnaround from acceptance, or from a step of our own work.

Turnarounds are open days: what leaves on one day is given back as the workshop closes on the last of them.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from shop.calc.visit import ExpectedDelivery, Step
from shop.calc.worktime import OpeningHours, WorkCalendar, instant_of, minute_of


@dataclass(frozen=True, slots=True)
class PlannedOutsideWork:
    """`code` names its step in a plan. `days`: the turnaround, None where it is not stated.

    `starts_after`: the step after which the firm can begin, "" for acceptance. `needed_by`: the one step that waits for
    the result; "": the first of all if it starts with acceptance, else none, and the vehicle is not ready without it.
    """

    code: str
    title: str
    firm: str
    days: int | None
    starts_after: str = ""
    needed_by: str = ""


def outside_json(work: PlannedOutsideWork) -> dict[str, Any]:
    """As a frozen text and a job's sheet keep it."""
    return {name: getattr(work, name) for name in PlannedOutsideWork.__slots__}


def outside_from(content: Mapping[str, Any]) -> PlannedOutsideWork:
    return PlannedOutsideWork(**{name: content[name] for name in PlannedOutsideWork.__slots__})


def with_outside(steps: Sequence[Step], works: Iterable[PlannedOutsideWork]) -> tuple[Step, ...]:
    """The steps, and behind the one that it starts after each work as a step of no hours with its open days.

    The step that needs the result comes after it, and no other. One that its own start waits for cannot.
    """
    merged = list(steps)
    for work in works:
        place = next((at for at, step in enumerate(merged) if step.code == work.starts_after), None)
        if work.days is None or place is None:
            continue
        before = merged[place]
        earlier = _before(work.starts_after, merged)
        away = Step(work.code, work.title, before.position, after=(before.code,), wait_days=work.days)
        merged = [
            replace(step, after=(*step.after, work.code))
            if step.code == work.needed_by and step.code not in earlier
            else step
            for step in merged
        ]
        merged.insert(place + 1, away)
    return tuple(merged)


def coming_back(
    works: Iterable[PlannedOutsideWork], steps: Iterable[Step], since: datetime, calendar: WorkCalendar
) -> Iterator[ExpectedDelivery]:
    """What is given back a turnaround after the acceptance `since`, and what has no day at all.

    Work without a turnaround has none, nor has work that starts after a step that is not done here.
    """
    codes = {step.code for step in steps}
    for work in works:
        if work.days is None or (work.starts_after and work.starts_after not in codes):
            yield _return_of(work, None)
        elif not work.starts_after:
            yield _return_of(work, given_back(since, work.days, calendar))


def given_back(since: datetime, days: int, calendar: WorkCalendar) -> datetime:
    """When the workshop closes on the `days`-th open date after that of `since`. Refuses `never_open`, `too_far`."""
    return instant_of(OpeningHours(calendar).closing_after(minute_of(since), days), calendar.zone)


def needs_itself(work: PlannedOutsideWork, steps: Sequence[Step]) -> bool:
    """Whether the step that needs the result is the one that the work starts after, or comes before that."""
    return bool(work.needed_by) and work.needed_by in _before(work.starts_after, steps)


def _return_of(work: PlannedOutsideWork, at: datetime | None) -> ExpectedDelivery:
    return ExpectedDelivery(work.title, work.needed_by, at, whole=at is None, ask=work.firm, outside=True)


def _before(code: str, steps: Iterable[Step]) -> set[str]:
    """The step and all that it comes after, directly or through a chain."""
    after = {step.code: step.after for step in steps}
    reached: set[str] = set()
    open_ends = [code] if code in after else []
    while open_ends:
        code = open_ends.pop()
        if code not in reached:
            reached.add(code)
            open_ends += (predecessor for predecessor in after[code] if predecessor in after)
    return reached
