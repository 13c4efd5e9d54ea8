"""Work by another firm in a plan: its turnaround starts at acceptance or after a step of our own.

A turnaround is counted in open days. The work comes back at closing time on the last of them.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from shop.calc.visit import ExpectedDelivery, Step
from shop.calc.worktime import OpeningHours, WorkCalendar, instant_of, minute_of


@dataclass(frozen=True, slots=True)
class PlannedOutsideWork:
    """Work by another firm. `code` identifies its step in a plan; `days` is the turnaround, None if it is not stated.

    `starts_after` is the step after which the firm can begin ("": acceptance). `needed_by` is the step that waits for
    the result. If it is "", the first step waits for work that starts at acceptance; other work only has to be back
    before the vehicle is ready.
    """

    code: str
    title: str
    firm: str
    days: int | None
    starts_after: str = ""
    needed_by: str = ""


def outside_json(work: PlannedOutsideWork) -> dict[str, Any]:
    """The work as frozen texts and job sheets store it."""
    return {name: getattr(work, name) for name in PlannedOutsideWork.__slots__}


def outside_from(content: Mapping[str, Any]) -> PlannedOutsideWork:
    """The inverse of `outside_json`."""
    return PlannedOutsideWork(**{name: content[name] for name in PlannedOutsideWork.__slots__})


def with_outside(steps: Sequence[Step], works: Iterable[PlannedOutsideWork]) -> tuple[Step, ...]:
    """The steps with each outside work inserted after the step it starts after, as a step of no hours with `wait_days`.

    The step that needs the result gets the new step as a predecessor, unless the outside work itself waits for that
    step.
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
    """The returns that no step of the plan stands for: work that starts at acceptance (`since`) or has no date.

    Work has no date without a turnaround, or if it starts after a step that is not done here.
    """
    codes = {step.code for step in steps}
    for work in works:
        if work.days is None or (work.starts_after and work.starts_after not in codes):
            yield _return_of(work, None)
        elif not work.starts_after:
            yield _return_of(work, given_back(since, work.days, calendar))


def given_back(since: datetime, days: int, calendar: WorkCalendar) -> datetime:
    """Closing time on the `days`-th open date after the date of `since`. Refuses `never_open`, `too_far`."""
    return instant_of(OpeningHours(calendar).closing_after(minute_of(since), days), calendar.zone)


def needs_itself(work: PlannedOutsideWork, steps: Sequence[Step]) -> bool:
    """True if the step that needs the result is the step that the work starts after, or one of its predecessors."""
    return bool(work.needed_by) and work.needed_by in _before(work.starts_after, steps)


def _return_of(work: PlannedOutsideWork, at: datetime | None) -> ExpectedDelivery:
    return ExpectedDelivery(work.title, work.needed_by, at, whole=at is None, ask=work.firm, outside=True)


def _before(code: str, steps: Iterable[Step]) -> set[str]:
    """The step and all its direct and indirect predecessors."""
    after = {step.code: step.after for step in steps}
    reached: set[str] = set()
    open_ends = [code] if code in after else []
    while open_ends:
        code = open_ends.pop()
        if code not in reached:
            reached.add(code)
            open_ends += (predecessor for predecessor in after[code] if predecessor in after)
    return reached
