"""How far a job can go, in one sentence, and what holds it."""

from collections.abc import Iterator, Sequence

from kitting.answers.readiness import (
    HoldOut,
)
from kitting.calc.job_readiness import held_steps, waited_for
from kitting.calc.missing import Missing
from kitting.calc.readiness import Readiness, Verdict
from kitting.presenters.orders import not_before_words
from kitting.presenters.outside import arrival_of, hold_outside, whole_job_outside
from kitting.presenters.readiness_context import Told, due_of, to_count, unusable
from shop.calc.visit import Step
from shop.presenters.errors import calculation_words
from shop.words import say

DAY, HOUR = 1440, 60


def verdict_of(told: Told) -> Verdict | None:
    if told.judged is None or told.loaded.pull_list is None:
        return None
    return "hold" if told.withdrawable else told.judged.readiness.verdict


def sentence_of(told: Told) -> str:
    """The verdict, and what only has to be counted for a better one."""
    if told.withdrawable:
        return not_before_words(told.loaded.job, told.today) or ""
    said, first = _verdict_words(told), to_count_first(told, told.found.missing)
    return say("readiness.sentence_and_count", said=said, count=first) if told.judged and first else said


def _verdict_words(told: Told) -> str:
    if told.judged is None:
        assert told.refused is not None
        return calculation_words(told.refused)
    if told.loaded.pull_list is None:
        return say("readiness.no_list")
    readiness = told.judged.readiness
    if readiness.verdict == "start_on_arrivals":
        return _on_arrivals(told, readiness)
    step = told.step(readiness.hold_before or "")
    if readiness.verdict == "start_to_hold" and step:
        return say("readiness.start_to_hold", position=step.position, title=step.title)
    if readiness.verdict == "complete" and told.found.missing:  # what no step needs: a spare
        return say("readiness.start")
    return say(f"readiness.{readiness.verdict}")


def _on_arrivals(told: Told, readiness: Readiness) -> str:
    """Names what comes closest to its step."""
    first = min(readiness.arrivals, key=lambda each: each.slack_minutes)
    arrival = arrival_of(told, first)
    others = {arrival_of(told, each).key for each in readiness.arrivals} - {arrival.key}
    said = say("readiness.start_on_arrivals", title=arrival.title, due=arrival.due)
    return say("readiness.and_more", said=said, n=len(others)) if others else said


def to_count_first(told: Told, lines: Sequence[Missing], more_key: str = "needed") -> str | None:
    """Of these lines that the work needs, the bag to count for the first step that waits, and how many lines are
    elsewhere. Lines that no step waits for are named only where there are no others.
    """
    uncounted = [line for line in lines if line.uncounted]
    needed = [line for line in uncounted if line.stops]
    asked = needed or uncounted
    if not asked:
        return None
    first = min(asked, key=lambda line: (told.place(line.step), not line.item.kit))
    group = told.group_of[first.item.line]
    said, more = to_count(group, told.loaded), sum(told.group_of[line.item.line] != group for line in asked)
    return say(f"readiness.to_count.{more_key if needed else 'minor'}", said=said, n=more) if more else said


def notes_of(told: Told) -> Iterator[str]:
    items = told.work.items
    if items and not any(item.counted for item in items):
        yield say("readiness.nothing_counted")
    if told.loaded.pull_list and not told.work.steps:
        yield say("readiness.no_steps")
    yield from whole_job_outside(told)


def hold_of(told: Told) -> HoldOut | None:
    readiness = told.judged.readiness if told.judged else None
    step = told.step(readiness.hold_before or "") if readiness else None
    if readiness is None or step is None:
        return None
    words = _hold_words(told, step, waited_for(readiness, told.work, told.found))
    return HoldOut(position=step.position, code=step.code, title=step.title, words=words, waits_at=_waits_at(told))


def _waits_at(told: Told) -> int | None:
    """The position of the first step that the stop is for and that lacks something itself."""
    assert told.judged is not None
    held, states = held_steps(told.judged.readiness, told.work), told.judged.states
    waiting = (step for step in told.work.steps if step.code in held and states[step.code] == "waits")
    return next((step.position for step in waiting), None)


def _hold_words(told: Told, step: Step, lines: Sequence[Missing]) -> str:
    """The reasons for a stop: lines that only have to be counted, then the missing ones with the first's day."""
    missing = _hold_missing(told, [line for line in lines if not line.uncounted])
    said = [to_count_first(told, lines, "held"), missing, *hold_outside(told)]
    return say("readiness.hold_bar", position=step.position, what="; ".join(each for each in said if each))


def _hold_missing(told: Told, lines: Sequence[Missing]) -> str | None:
    keys = {told.group_of[line.item.line].key for line in lines}
    groups = [group for group in told.found.groups if group.key in keys]
    if not groups:
        return None
    first = groups[0]
    what = say("readiness.part_and_day", title=told.titles[first.key], due=due_of(told, first.first))
    said = say("readiness.and_more", said=what, n=len(groups) - 1) if len(groups) > 1 else what
    key = "hold_unusable" if any(unusable(told, line) for line in lines) else "hold_missing"
    return say(f"readiness.{key}", n=len(lines), what=said)


def hours_before_hold(told: Told) -> str | None:
    judged = told.judged
    return f"{judged.before_hold:.1f}" if judged and judged.readiness.hold_before is not None else None


def hours_of(readiness: Readiness | None, name: str) -> str:
    return f"{getattr(readiness, name):.1f}" if readiness else "0.0"
