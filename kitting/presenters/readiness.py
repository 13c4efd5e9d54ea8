"""How far a job can go, in sentences: the verdict, what it waits for, every step, and the way to the date."""

from collections.abc import Iterator, Sequence
from datetime import datetime

from msgspec.structs import replace

from kitting.answers.pull_lists import JobOfListOut
from kitting.answers.readiness import (
    ArrivalOut,
    HoldOut,
    ListOfJobOut,
    MissingLineOut,
    MissingOut,
    ReadinessOut,
    StepNameOut,
    StepPartOut,
    StepReadinessOut,
)
from kitting.calc.job_readiness import held_steps, waited_for
from kitting.calc.missing import Group, Missing
from kitting.calc.readiness import Readiness, Verdict
from kitting.models.pulling import PullListState
from kitting.presenters.orders import not_before_words, to_order
from kitting.presenters.outside import arrival_of, hold_outside, outside_words, whole_job_outside
from kitting.presenters.readiness_context import Told, because, due_of, title_of, to_count, told_of, unusable
from kitting.presenters.step_parts import hazards_of, parts_of_steps
from kitting.queries.readiness import load_job
from shop.answers.base import utc, utc_or_none
from shop.answers.explained import ExplainedOut, HowStepOut
from shop.answers.promise import PromiseOut
from shop.api.problems import calculation_words
from shop.calc.days import quarter_of
from shop.calc.visit import Step
from shop.models import Job
from shop.presenters.dates import due_words
from shop.presenters.promise import no_date, promise_answer
from shop.queries.promised_week import promised_that_week
from shop.words import say

DAY, HOUR = 1440, 60


def readiness_answer(job: Job, now: datetime) -> ReadinessOut:
    told = told_of(load_job(job, now))
    work, readiness = told.work, told.judged.readiness if told.judged else None
    return ReadinessOut(
        job=JobOfListOut(id=job.pk, number=str(job)),
        customer=job.customer.name,
        vehicle=job.vehicle.title,
        verdict=_verdict(told),
        not_before=job.not_before if told.withdrawable else None,
        sentence=_sentence(told),
        notes=list(_notes(told)),
        hold_before=_hold_before(told),
        cleared_hours=_hours(readiness, "cleared_hours"),
        hours_before_hold=_before_hold(told),
        total_hours=f"{sum(each.hours for each in work.steps):.1f}",
        counted=_lines_counted(told),
        lines=len(told.loaded.lines),
        pull_list=_list(told),
        last_counted_at=utc_or_none(told.loaded.counted_at),
        steps=list(_steps(told)),
        missing=[_group(told, group) for group in told.found.groups],
        arrivals=list(_arrivals(told)),
        to_order=to_order(
            job.shop,
            told.loaded.lines,
            told.loaded.kits,
            told.loaded.counts,
            {step.code: step.title for step in work.steps},
            now,
        ),
        promise=_promise(told),
        no_promise=_no_promise(told),
        here=job.here,
        here_from=job.here_from,
        how=_how(told),
    )


def _list(told: Told) -> ListOfJobOut | None:
    found = told.loaded.pull_list
    return ListOfJobOut(id=found.pk, state=PullListState(found.state), seq=found.last_seq) if found else None


def _name(step: Step) -> StepNameOut:
    return StepNameOut(position=step.position, code=step.code, title=step.title)


def _lines_counted(told: Told) -> int:
    return sum(told.loaded.counts.counted(line.pk) for line in told.loaded.lines)


# The verdict


def _verdict(told: Told) -> Verdict | None:
    if told.judged is None or told.loaded.pull_list is None:
        return None
    return "hold" if told.withdrawable else told.judged.readiness.verdict


def _sentence(told: Told) -> str:
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


def _notes(told: Told) -> Iterator[str]:
    items = told.work.items
    if items and not any(item.counted for item in items):
        yield say("readiness.nothing_counted")
    if told.loaded.pull_list and not told.work.steps:
        yield say("readiness.no_steps")
    yield from whole_job_outside(told)


def _hold_before(told: Told) -> HoldOut | None:
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


def _before_hold(told: Told) -> str | None:
    judged = told.judged
    return f"{judged.before_hold:.1f}" if judged and judged.readiness.hold_before is not None else None


def _hours(readiness: Readiness | None, name: str) -> str:
    return f"{getattr(readiness, name):.1f}" if readiness else "0.0"


# What is missing


def _group(told: Told, group: Group) -> MissingOut:
    first = group.first
    step = told.step(first.step)
    return MissingOut(
        key=first.item.line,
        kind=group.kind,
        title=title_of(group, told.loaded),
        words=_state_of(told, group),
        step=_name(step) if step else None,
        stops=_stops(told, first),
        have=first.item.have if group.kind == "line" else None,
        need=first.item.need if group.kind == "line" else None,
        due=utc_or_none(first.due),
        due_words=due_of(told, first, len(group.lines)),
        overdue=first.overdue,
        uncounted=first.uncounted,
        typed=first.item.said_at is not None,
        needed=_needed(group),
        lines=[_line(told, each) for each in group.lines],
    )


def _stops(told: Told, missing: Missing) -> str:
    """A job without written steps needs everything at once: its work is what a missing part stops."""
    step = told.step(missing.step)
    if step:
        return say("readiness.stops", position=step.position)
    return say("readiness.stops_work" if missing.stops else "readiness.stops_nothing")


def _state_of(told: Told, group: Group) -> str:
    if group.kind == "line":
        return ", ".join(because(told, group.first.item))
    n, needed = len(group.lines), _needed(group)
    said = say("readiness.not_counted" if group.first.uncounted else "readiness.none_counted", n=n)
    return say("readiness.of_them_needed", said=said, n=needed) if 0 < needed < n else said


def _needed(group: Group) -> int:
    """How many of its lines some step waits for."""
    return sum(bool(line.stops) for line in group.lines)


def _line(told: Told, missing: Missing) -> MissingLineOut:
    row = told.rows[missing.item.line]
    return MissingLineOut(
        line=row.pk,
        number=row.number,
        title=row.title,
        unit=row.unit,
        have=missing.item.have,
        need=missing.item.need,
        missing=missing.pieces,
        because=because(told, missing.item),
    )


# The steps, and what arrives for them


def _steps(told: Told) -> Iterator[StepReadinessOut]:
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


def _lack_words(told: Told, step: Step, group: Group) -> str:
    item, n = group.first.item, len(group.lines)
    if group.first.uncounted:
        return say("readiness.uncounted", title=item.title) if n == 1 else to_count(group, told.loaded)
    due = due_of(told, group.first)
    tally = told.loaded.counts.tallies.get(item.line)
    missing, need = group.first.pieces, told.found.asked(step.code, item.pool)
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


def _arrivals(told: Told) -> Iterator[ArrivalOut]:
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
            step=_name(step),
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


# The date


def _promise(told: Told) -> PromiseOut | None:
    ahead, calendar = told.judged.ahead if told.judged else None, told.work.calendar
    if ahead is None or calendar is None or ahead.dateless:
        return None
    work, job = told.work, told.loaded.job
    others = promised_that_week(job.shop, ahead.ready.day, job.pk)
    promise = promise_answer(ahead, work.planned, calendar, work.team, quarter_of(work.now), others)
    uncounted = sum(each.uncounted and bool(each.stops) for each in told.found.missing)
    said = [promise.unknown, say("readiness.date_without", n=uncounted) if uncounted else None]
    return replace(promise, unknown=" ".join(each for each in said if each) or None)


def _no_promise(told: Told) -> str | None:
    if told.judged is not None and told.judged.ahead is not None:
        return no_date(told.judged.ahead)
    refused = told.refused or (told.judged.refused if told.judged else None)
    if refused is not None:
        return calculation_words(refused)
    return say("promise.no_work" if not told.work.steps else "promise.no_hours")


# How it was worked out


def _how(told: Told) -> ExplainedOut:
    readiness, items, steps = told.judged.readiness if told.judged else None, told.work.items, told.work.steps
    worked = [
        ("counted", _of(_lines_counted(told), len(told.loaded.lines))),
        ("here", _of(len(items) - len(told.found.missing), len(items))),
        *([("clear", _of(len(readiness.clear), len(steps)))] if readiness and steps else []),
        *([("hours", _hours_of(told, readiness))] if readiness and steps else []),
        ("in_time", str(sum(each.in_time is not None for each in told.found.missing))),
        ("unknown", str(sum(each.in_time is None and not each.uncounted for each in told.found.missing))),
        ("unknown_uncounted", str(sum(each.uncounted_without_day for each in told.found.missing))),
        ("uncounted", str(sum(each.uncounted and bool(each.stops) for each in told.found.missing))),
        ("uncounted_minor", str(sum(each.uncounted and not each.stops for each in told.found.missing))),
    ]
    return ExplainedOut(
        title=say("readiness.how.title"),
        rule=[say(f"readiness.how.rule.{part}") for part in ("step", "window", "here", "due")],
        steps=[HowStepOut(say(f"readiness.how.{key}"), figure) for key, figure in worked],
        result=_sentence(told),
    )


def _hours_of(told: Told, readiness: Readiness) -> str:
    whole = sum(each.hours for each in told.work.steps)
    return say("readiness.how.hours_of", n=f"{readiness.cleared_hours:.1f}", whole=f"{whole:.1f}")


def _of(n: int, whole: int) -> str:
    return say("readiness.how.of", n=n, whole=whole)
