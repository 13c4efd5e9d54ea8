"""Each step of a job with what it lacks, and the arrivals that the work depends on."""

from collections.abc import Iterator, Sequence

from kitting.answers.readiness import (
    ArrivalOut,
    StepNameOut,
    StepPartOut,
    StepReadinessOut,
)
from kitting.calc.missing import MissingGroup
from kitting.presenters.outside import arrival_of, outside_words
from kitting.presenters.readiness_context import Told, because, due_of, title_of, to_count, unusable
from kitting.presenters.step_parts import hazards_of, parts_of_steps
from shop.answers.base import utc
from shop.calc.visit import Step
from shop.presenters.dates import due_words
from shop.words import say

DAY, HOUR = 1440, 60


def step_name(step: Step) -> StepNameOut:
    return StepNameOut(position=step.position, code=step.code, title=step.title)


def steps_of(told: Told) -> Iterator[StepReadinessOut]:
    if told.judged is None:
        return
    lacks, parts = told.found.at, parts_of_steps(told)
    for step in told.work.steps:
        state, own = told.judged.states[step.code], parts.get(step.code, [])
        yield StepReadinessOut(
            position=step.position,
            code=step.code,
            title=step.title,
            hours=f"{step.hours:.1f}",
            no_return=step.no_return,
            mobile_again=step.mobile_again,
            state=state,
            words=_step_words(told, step, own),
            missing=[
                *(_lack_words(told, step, group) for group in lacks.get(step.code, ())),
                *outside_words(told, step),
            ],
            parts=own,
            hazards=hazards_of(told, own),
        )


def _step_words(told: Told, step: Step, parts: Sequence[StepPartOut]) -> str:
    assert told.judged is not None
    states = told.judged.states
    state = states[step.code]
    if state == "clear":
        lacking = any(each.here < each.need for each in parts)  # of what no step waits for
        return say(f"readiness.step.{'no_parts' if not parts else 'can_start' if lacking else 'clear'}")
    if state != "after":
        return say(f"readiness.step.{state}")
    before = [told.step(code) for code in step.after if states.get(code, "clear") != "clear"]
    positions = sorted(each.position for each in before if each)
    return say("readiness.step.after", n=len(positions), positions=", ".join(map(str, positions)))


def _lack_words(told: Told, step: Step, group: MissingGroup) -> str:
    item, n = group.first.item, len(group.lines)
    if group.first.uncounted:
        return say("readiness.uncounted", title=item.title) if n == 1 else to_count(group, told.loaded)
    due = due_of(told, group.first)
    tally = told.loaded.counts.tallies.get(item.line)
    missing, need = group.first.pieces, told.found.needed(step.code, item.pool)
    facts = {"missing": missing, "need": need, "title": item.title}
    if n == 1 and tally and tally.confirm:
        return say("readiness.lacks_unsure", low=tally.low, total=tally.total, **facts)
    if n == 1 and unusable(told, group.first):
        states = ", ".join(because(told, item))
        return say("readiness.lacks_usable", usable=need - missing, states=states, due=due, **facts)
    if n == 1:
        return say("readiness.lacks", due=due, **facts)
    what = say("readiness.none_counted", n=n)
    return say("readiness.lacks_lot", title=title_of(group, told.loaded), what=what, due=due)


def arrivals_of(told: Told) -> Iterator[ArrivalOut]:
    """The arrivals that the work depends on, one for each group and step, the least time to spare first."""
    said: set[tuple[str, str]] = set()
    for each in sorted(told.judged.readiness.arrivals, key=lambda one: one.slack_minutes) if told.judged else ():
        arrival, step = arrival_of(told, each), told.step(each.code)
        if step is None or (arrival.key, each.code) in said:
            continue
        said.add((arrival.key, each.code))
        yield ArrivalOut(
            key=arrival.key,
            title=arrival.heading,
            step=step_name(step),
            due=utc(each.due),
            due_words=arrival.due,
            needed_at=utc(each.needed_at),
            words=say(
                "readiness.needed",
                position=step.position,
                when=due_words(each.needed_at, told.zone, told.today),
                spare=_duration(each.slack_minutes),
            ),
        )


def _duration(minutes: int) -> str:
    for unit, length in (("days", DAY), ("hours", HOUR)):
        if minutes >= length:
            return say(f"readiness.{unit}", n=minutes // length)
    return say("readiness.minutes", n=minutes)
