"""The answer on how far a job can go: verdict, what is missing, every step, and the way to the date."""

from datetime import datetime

from msgspec.structs import replace

from kitting.answers.pull_lists import JobOfListOut
from kitting.answers.readiness import (
    ListOfJobOut,
    MissingLineOut,
    MissingOut,
    ReadinessOut,
)
from kitting.calc.missing import Missing, MissingGroup
from kitting.calc.readiness import Readiness
from kitting.models.pulling import PullListState
from kitting.presenters.orders import to_order
from kitting.presenters.readiness_context import Told, because, due_of, title_of, told_of
from kitting.presenters.readiness_steps import arrivals_of, step_name, steps_of
from kitting.presenters.readiness_verdict import hold_of, hours_before_hold, hours_of, notes_of, sentence_of, verdict_of
from kitting.queries.readiness import load_job
from shop.answers.base import utc_or_none
from shop.answers.explained import ExplainedOut, HowStepOut
from shop.answers.promise import PromiseOut
from shop.calc.days import quarter_of
from shop.models import Job
from shop.presenters.errors import calculation_words
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
        verdict=verdict_of(told),
        not_before=job.not_before if told.withdrawable else None,
        sentence=sentence_of(told),
        notes=list(notes_of(told)),
        hold_before=hold_of(told),
        cleared_hours=hours_of(readiness, "cleared_hours"),
        hours_before_hold=hours_before_hold(told),
        total_hours=f"{sum(each.hours for each in work.steps):.1f}",
        counted=_lines_counted(told),
        lines=len(told.loaded.lines),
        pull_list=_list(told),
        last_counted_at=utc_or_none(told.loaded.counted_at),
        steps=list(steps_of(told)),
        missing=[_group(told, group) for group in told.found.groups],
        arrivals=list(arrivals_of(told)),
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


def _lines_counted(told: Told) -> int:
    return sum(told.loaded.counts.counted(line.pk) for line in told.loaded.lines)


# What is missing


def _group(told: Told, group: MissingGroup) -> MissingOut:
    first = group.first
    step = told.step(first.step)
    return MissingOut(
        key=first.item.line,
        kind=group.kind,
        title=title_of(group, told.loaded),
        words=_state_of(told, group),
        step=step_name(step) if step else None,
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


def _state_of(told: Told, group: MissingGroup) -> str:
    if group.kind == "line":
        return ", ".join(because(told, group.first.item))
    n, needed = len(group.lines), _needed(group)
    said = say("readiness.not_counted" if group.first.uncounted else "readiness.none_counted", n=n)
    return say("readiness.of_them_needed", said=said, n=needed) if 0 < needed < n else said


def _needed(group: MissingGroup) -> int:
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
        result=sentence_of(told),
    )


def _hours_of(told: Told, readiness: Readiness) -> str:
    whole = sum(each.hours for each in told.work.steps)
    return say("readiness.how.hours_of", n=f"{readiness.cleared_hours:.1f}", whole=f"{whole:.1f}")


def _of(n: int, whole: int) -> str:
    return say("readiness.how.of", n=n, whole=whole)
