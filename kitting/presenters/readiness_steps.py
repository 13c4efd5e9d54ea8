"""The steps of a job with their missing parts, and the arrivals that the work depends on."""

from collections.abc import Iterator, Sequence

from kitting.answers.readiness import (
    ArrivalOut,
    StepNameOut,
    StepPartOut,
    StepReadinessOut,
)
from kitting.calc.missing import MissingGroup
from kitting.presenters.outside import arrival_of, outside_words
from kitting.presenters.readiness_context import ReadinessContext, because, due_of, title_of, to_count, unusable
from kitting.presenters.step_parts import hazards_of, parts_of_steps
from shop.answers.base import utc
from shop.calc.visit import Step
from shop.presenters.dates import due_words
from shop.words import say
from shop.words.figures import listed

DAY, HOUR = 1440, 60


def step_name(step: Step) -> StepNameOut:
    return StepNameOut(position=step.position, code=step.code, title=step.title)


def steps_of(context: ReadinessContext) -> Iterator[StepReadinessOut]:
    if context.judged is None:
        return
    lacks, parts = context.shortages.at, parts_of_steps(context)
    for step in context.work.steps:
        state, own = context.judged.states[step.code], parts.get(step.code, [])
        yield StepReadinessOut(
            position=step.position,
            code=step.code,
            title=step.title,
            hours=f"{step.hours:.1f}",
            no_return=step.no_return,
            mobile_again=step.mobile_again,
            state=state,
            words=_step_words(context, step, own),
            missing=[
                *(_lack_words(context, step, group) for group in lacks.get(step.code, ())),
                *outside_words(context, step),
            ],
            parts=own,
            hazards=hazards_of(context, own),
        )


def _step_words(context: ReadinessContext, step: Step, parts: Sequence[StepPartOut]) -> str:
    assert context.judged is not None
    states = context.judged.states
    state = states[step.code]
    if state == "clear":
        lacking = any(part.here < part.need for part in parts)  # also of parts that no step waits for
        return say(f"readiness.step.{'no_parts' if not parts else 'can_start' if lacking else 'clear'}")
    if state != "after":
        return say(f"readiness.step.{state}")
    before = [context.step(code) for code in step.after if states.get(code, "clear") != "clear"]
    positions = sorted(earlier.position for earlier in before if earlier)
    return say("readiness.step.after", n=len(positions), positions=listed([*map(str, positions)]))


def _lack_words(context: ReadinessContext, step: Step, group: MissingGroup) -> str:
    item, n = group.first.item, len(group.lines)
    if group.first.uncounted:
        return say("readiness.uncounted", title=item.title) if n == 1 else to_count(group, context.loaded)
    due = due_of(context, group.first)
    tally = context.loaded.counts.tallies.get(item.line)
    missing, need = group.first.pieces, context.shortages.needed(step.code, item.pool)
    facts = {"missing": missing, "need": need, "title": item.title}
    if n == 1 and tally and tally.confirm:
        return say("readiness.lacks_unsure", low=tally.low, total=tally.total, **facts)
    if n == 1 and unusable(context, group.first):
        states = listed(because(context, item))
        return say("readiness.lacks_usable", usable=need - missing, states=states, due=due, **facts)
    if n == 1:
        return say("readiness.lacks" if item.counted else "readiness.lacks_awaited", due=due, **facts)
    what = say("readiness.none_counted", n=n)
    return say("readiness.lacks_lot", title=title_of(group, context.loaded), what=what, due=due)


def arrivals_of(context: ReadinessContext) -> Iterator[ArrivalOut]:
    """The arrivals that the work depends on, one for each group and step, by the time to spare."""
    seen: set[tuple[str, str]] = set()
    for coming in (
        sorted(context.judged.readiness.arrivals, key=lambda waiting: waiting.slack_minutes) if context.judged else ()
    ):
        arrival, step = arrival_of(context, coming), context.step(coming.code)
        if step is None or (arrival.key, coming.code) in seen:
            continue
        seen.add((arrival.key, coming.code))
        yield ArrivalOut(
            key=arrival.key,
            title=arrival.heading,
            step=step_name(step),
            due=utc(coming.due),
            due_words=arrival.due,
            needed_at=utc(coming.needed_at),
            words=say(
                "readiness.needed",
                position=step.position,
                when=due_words(coming.needed_at, context.zone, context.today),
                spare=_duration(coming.slack_minutes),
            ),
        )


def _duration(minutes: int) -> str:
    for key, length in (("readiness.days", DAY), ("readiness.hours", HOUR)):
        if minutes >= length:
            return say(key, n=minutes // length)
    return say("readiness.minutes", n=minutes)
