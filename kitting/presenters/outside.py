"""Sentences about what a job waits for besides parts: outside work, and the end of a withdrawal period."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from zoneinfo import ZoneInfo

from kitting.calc.job_readiness import awaited_item, held_steps
from kitting.calc.readiness import Arrival
from kitting.presenters.readiness_context import ReadinessContext, due_of, title_of
from shop.calc.visit import ExpectedDelivery, Step
from shop.presenters.dates import short_day
from shop.words import say


@dataclass(frozen=True, slots=True)
class WordedArrival:
    """An arrival without which the work stops, in words: lines, outside work, or the end of a withdrawal period."""

    key: str
    title: str
    heading: str
    due: str


def arrival_of(context: ReadinessContext, arrival: Arrival) -> WordedArrival:
    expected = (*context.work.away, *context.work.withdrawal_ends)
    back = next((delivery for delivery in expected if awaited_item(delivery) == arrival.item), None)
    if back is None:
        group = context.arriving(arrival)
        return WordedArrival(
            group.key, context.titles[group.key], title_of(group, context.loaded), due_of(context, group.first)
        )
    if back.withdrawal:
        title = say("readiness.added_work")
        return WordedArrival(arrival.item, title, title, _not_before(context, back))
    line = next(work.code for work in context.work.outside if work.title == back.title).partition(":")[2]
    return WordedArrival(line, back.title, back.title, _due(context, back))


def outside_words(context: ReadinessContext, step: Step) -> Iterator[str]:
    """Sentences about the outside work and the withdrawal period that this step waits for. They hold no price."""
    for back in context.work.away:
        if step.code == back.operation:
            yield say("readiness.outside", title=back.title, due=_due(context, back))
    for back in context.work.withdrawal_ends:
        if step.code == back.operation:
            yield say("readiness.waits_until", due=_not_before(context, back))
    if step.code == context.work.steps[0].code and any(_of_the_whole(context)):
        yield say("readiness.outside_whole_step")
    for work in context.work.proposed:
        first = context.step(work.starts_after)
        if first and work.days and work.needed_by == step.code != first.code:
            yield say("readiness.outside_after", title=work.title, n=work.days, position=first.position)


def whole_job_outside(context: ReadinessContext) -> Iterator[str]:
    """Sentences about outside work that is tied to no step of this job."""
    for back in _of_the_whole(context):
        yield say("readiness.outside_whole", title=back.title, due=_due(context, back))


def hold_outside(context: ReadinessContext) -> Iterator[str]:
    """The outside work and the withdrawal periods that the vehicle must stop for."""
    assert context.judged is not None
    held_codes = held_steps(context.judged.readiness, context.work)
    for back in context.work.away:
        if any(_is_needed_at(context, back, step) for step in context.work.steps if step.code in held_codes):
            yield say("readiness.part_and_day", title=back.title, due=_due(context, back))
    for back in context.work.withdrawal_ends:
        if back.operation in held_codes:
            yield say("readiness.part_and_day", title=say("readiness.added_work"), due=_not_before(context, back))


def _of_the_whole(context: ReadinessContext) -> Iterator[ExpectedDelivery]:
    return (back for back in context.work.away if not context.step(back.operation))


def _is_needed_at(context: ReadinessContext, back: ExpectedDelivery, step: Step) -> bool:
    """Outside work that names no step of this job counts as needed at the first one."""
    return step.code == (back.operation if context.step(back.operation) else context.work.steps[0].code)


def _due(context: ReadinessContext, back: ExpectedDelivery) -> str:
    """The day on which the work comes back, in words: counted from the day it was sent, else from the day on which the
    firm may begin.
    """
    sent_on = next((sent for sent in _sent_days(context, back.title)), None)
    if sent_on is None:
        return _proposed(context, back) if back.at else say("readiness.outside_no_day")
    sent = short_day(sent_on, context.today)
    if back.was_due:
        return say("readiness.outside_late", sent=sent, when=context.due(back.was_due), firm=back.ask)
    if back.at:
        return say("readiness.outside_sent", sent=sent, when=context.due(back.at))
    return say("readiness.outside_sent_no_day", sent=sent)


def _not_before(context: ReadinessContext, end: ExpectedDelivery) -> str:
    """The first day after a withdrawal period, in words."""
    assert end.at is not None, "a withdrawal period has an end"
    return say(
        "readiness.not_before_day", day=short_day(end.at.astimezone(ZoneInfo(context.zone)).date(), context.today)
    )


def _sent_days(context: ReadinessContext, title: str) -> Iterator[date]:
    for work in context.work.outside:
        progress = context.work.progress_of(work)
        if work.title == title and progress.state == "sent" and progress.sent_on:
            yield progress.sent_on


def _proposed(context: ReadinessContext, back: ExpectedDelivery) -> str:
    assert back.at is not None
    proposed = (work for work in context.work.proposed if work.title == back.title)
    began, when = max(context.work.first_day(work) for work in proposed), context.due(back.at)
    if began == context.today:
        return say("readiness.outside_expected_today", when=when)
    return say("readiness.outside_expected", when=when, began=short_day(began, context.today))
