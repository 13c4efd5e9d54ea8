"""The verdict on a job in one sentence, and the step before which the work has to stop."""

from collections.abc import Iterator, Sequence

from kitting.answers.readiness import (
    HoldOut,
)
from kitting.calc.job_readiness import held_steps, waited_for
from kitting.calc.missing import Missing
from kitting.calc.readiness import Readiness, Verdict
from kitting.presenters.orders import not_before_words
from kitting.presenters.outside import arrival_of, hold_outside, whole_job_outside
from kitting.presenters.readiness_context import ReadinessContext, due_of, to_count, unusable
from shop.calc.visit import Step
from shop.models.jobs import ENDED
from shop.presenters.dates import short_day
from shop.presenters.errors import calculation_words
from shop.words import say

DAY, HOUR = 1440, 60


def verdict_of(context: ReadinessContext) -> Verdict | None:
    if context.judged is None or context.loaded.pull_list is None:
        return None
    if context.called_off:
        return None
    return "hold" if context.withdrawable else context.judged.readiness.verdict


def sentence_of(context: ReadinessContext) -> str:
    """The verdict, and the lines to count first, which could improve it. A job that was called off has none."""
    reach, count = reach_of(context), count_first_of(context)
    return say("readiness.sentence_and_count", said=reach, count=count) if count else reach


def reach_of(context: ReadinessContext) -> str:
    """The verdict alone."""
    if context.called_off:
        return say("readiness.called_off")
    if context.withdrawable:
        return not_before_words(context.loaded.job, context.today) or ""
    return _verdict_words(context)


def count_first_of(context: ReadinessContext) -> str | None:
    """The lines to count first; None where counting would change nothing."""
    if context.called_off or context.withdrawable or not context.judged:
        return None
    return to_count_first(context, context.shortages.missing)


def _verdict_words(context: ReadinessContext) -> str:
    if context.judged is None:
        assert context.refused is not None
        return calculation_words(context.refused)
    if context.loaded.pull_list is None:
        return say("readiness.no_list")
    readiness = context.judged.readiness
    if readiness.verdict == "start_on_arrivals":
        return _on_arrivals(context, readiness)
    step = context.step(readiness.hold_before or "")
    if readiness.verdict == "start_to_hold" and step:
        return say("readiness.start_to_hold", position=step.position, title=step.title)
    if readiness.verdict == "complete" and context.shortages.missing:  # a part that no step needs: a spare
        return say("readiness.start")
    return say(f"readiness.{readiness.verdict}")


def _on_arrivals(context: ReadinessContext, readiness: Readiness) -> str:
    """The sentence that names the arrival with the least time to spare."""
    first = min(readiness.arrivals, key=lambda coming: coming.slack_minutes)
    arrival = arrival_of(context, first)
    others = {arrival_of(context, coming).key for coming in readiness.arrivals} - {arrival.key}
    sentence = say("readiness.start_on_arrivals", title=arrival.title, due=arrival.due)
    return say("readiness.and_more", said=sentence, n=len(others)) if others else sentence


def to_count_first(context: ReadinessContext, lines: Sequence[Missing], more_key: str = "needed") -> str | None:
    """The bag to count first, for the earliest step that waits, and the number of lines elsewhere.

    Lines that no step waits for are named only if there are no others.
    """
    uncounted = [line for line in lines if line.uncounted]
    needed = [line for line in uncounted if line.stops]
    lines_to_count = needed or uncounted
    if not lines_to_count:
        return None
    first = min(lines_to_count, key=lambda line: (context.place(line.step), not line.item.kit))
    group = context.group_of[first.item.line]
    sentence, more = (
        to_count(group, context.loaded),
        sum(context.group_of[line.item.line] != group for line in lines_to_count),
    )
    return say(f"readiness.to_count.{more_key if needed else 'minor'}", said=sentence, n=more) if more else sentence


def notes_of(context: ReadinessContext) -> Iterator[str]:
    items = context.work.items
    to_count = any(line.uncounted for line in context.shortages.missing)  # the verdict names them already
    if items and not to_count and not any(item.counted for item in items):
        yield say("readiness.nothing_counted")
    if context.loaded.pull_list and not context.work.steps:
        yield say("readiness.no_steps")
    yield from _vehicle_comes(context)
    yield from whole_job_outside(context)


def _vehicle_comes(context: ReadinessContext) -> Iterator[str]:
    """The day on which a vehicle comes that is not here, or was to come."""
    job, today = context.loaded.job, context.today
    if job.here_from is None or job.is_here or job.state in ENDED:
        return
    key = "readiness.vehicle_comes" if job.here_from >= today else "readiness.vehicle_was_to_come"
    yield say(key, day=short_day(job.here_from, today))


def hold_of(context: ReadinessContext) -> HoldOut | None:
    readiness = context.judged.readiness if context.judged else None
    step = context.step(readiness.hold_before or "") if readiness else None
    if readiness is None or step is None:
        return None
    words = _hold_words(context, step, waited_for(readiness, context.work, context.shortages))
    return HoldOut(position=step.position, code=step.code, title=step.title, words=words, waits_at=_waits_at(context))


def _waits_at(context: ReadinessContext) -> int | None:
    """The position of the first of the held steps that lacks something itself."""
    assert context.judged is not None
    held_codes, states = held_steps(context.judged.readiness, context.work), context.judged.states
    waiting = (step for step in context.work.steps if step.code in held_codes and states[step.code] == "waits")
    return next((step.position for step in waiting), None)


def _hold_words(context: ReadinessContext, step: Step, lines: Sequence[Missing]) -> str:
    """The reasons for a stop: lines to count, then missing lines with the due date of the first, then outside work."""
    missing = _hold_missing(context, [line for line in lines if not line.uncounted])
    sentences = [to_count_first(context, lines, "held"), missing, *hold_outside(context)]
    return say(
        "readiness.hold_bar", position=step.position, what="; ".join(sentence for sentence in sentences if sentence)
    )


def _hold_missing(context: ReadinessContext, lines: Sequence[Missing]) -> str | None:
    keys = {context.group_of[line.item.line].key for line in lines}
    groups = [group for group in context.shortages.groups if group.key in keys]
    if not groups:
        return None
    first = groups[0]
    what = say("readiness.part_and_day", title=context.titles[first.key], due=due_of(context, first.first))
    words = say("readiness.and_more", said=what, n=len(groups) - 1) if len(groups) > 1 else what
    return say(_hold_key(context, lines), n=len(lines), what=words)


def _hold_key(context: ReadinessContext, lines: Sequence[Missing]) -> str:
    """The key of the sentence: a part of a carton that has not come is awaited, not missing."""
    if any(unusable(context, line) for line in lines):
        return "readiness.hold_unusable"
    return "readiness.hold_missing" if any(line.item.counted for line in lines) else "readiness.hold_awaited"


def hours_before_hold(context: ReadinessContext) -> str | None:
    judged = context.judged
    return f"{judged.before_hold:.1f}" if judged and judged.readiness.hold_before is not None else None


def hours_of(readiness: Readiness | None, name: str) -> str:
    return f"{getattr(readiness, name):.1f}" if readiness else "0.0"
