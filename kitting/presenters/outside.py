"""The sentences about work that other firms do for a job: which step waits for it, and when it comes back."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from kitting.calc.job_readiness import held_steps, outside_item
from kitting.calc.readiness import Arrival
from kitting.presenters.readiness_context import Told, due_of, title_of
from shop.calc.visit import ExpectedDelivery, Step
from shop.presenters.dates import short_day
from shop.words import say


@dataclass(frozen=True, slots=True)
class ToldArrival:
    """Something that must come for the work not to stop: a group of lines, or another firm's work."""

    key: str
    title: str
    heading: str
    due: str


def arrival_of(told: Told, arrival: Arrival) -> ToldArrival:
    back = next((each for each in told.work.away if outside_item(each) == arrival.item), None)
    if back is None:
        group = told.arriving(arrival)
        return ToldArrival(group.key, told.titles[group.key], title_of(group, told.loaded), due_of(told, group.first))
    line = next(work.code for work in told.work.outside if work.title == back.title).partition(":")[2]
    return ToldArrival(line, back.title, back.title, _back(told, arrival.due))


def outside_words(told: Told, step: Step) -> Iterator[str]:
    """The sentence that names the outside work this step waits for. It holds no price."""
    for back in told.work.away:
        if step.code == back.operation:
            yield say("readiness.outside", title=back.title, due=_due(told, back))
    if step.code == told.work.steps[0].code and any(_of_the_whole(told)):
        yield say("readiness.outside_whole_step")
    for work in told.work.outside:
        first = told.step(work.starts_after)
        if first and work.days and work.needed_by == step.code != first.code:
            yield say("readiness.outside_after", title=work.title, n=work.days, position=first.position)


def whole_job_outside(told: Told) -> Iterator[str]:
    """The sentences about outside work that is tied to no step of this job."""
    for back in _of_the_whole(told):
        yield say("readiness.outside_whole", title=back.title, due=_due(told, back))


def hold_outside(told: Told) -> Iterator[str]:
    """The outside work that the vehicle must stop for."""
    assert told.judged is not None
    held = held_steps(told.judged.readiness, told.work)
    for back in told.work.away:
        if any(_is_needed_at(told, back, step) for step in told.work.steps if step.code in held):
            yield say("readiness.part_and_day", title=back.title, due=_due(told, back))


def _of_the_whole(told: Told) -> Iterator[ExpectedDelivery]:
    return (back for back in told.work.away if not told.step(back.operation))


def _is_needed_at(told: Told, back: ExpectedDelivery, step: Step) -> bool:
    """Outside work that names no step of this job counts as needed at the first one."""
    return step.code == (back.operation if told.step(back.operation) else told.work.steps[0].code)


def _due(told: Told, back: ExpectedDelivery) -> str:
    return _back(told, back.at) if back.at else say("readiness.outside_no_day")


def _back(told: Told, at: datetime) -> str:
    began, when = told.work.opened_on, told.due(at)
    if began == told.today:
        return say("readiness.outside_expected_today", when=when)
    return say("readiness.outside_expected", when=when, began=short_day(began, told.today))
