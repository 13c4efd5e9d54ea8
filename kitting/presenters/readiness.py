"""The readiness of a job as an answer: verdict, missing lines, steps, and the promise date."""

from datetime import datetime
from decimal import Decimal

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
from kitting.presenters.readiness_context import ReadinessContext, because, context_of, due_of, title_of
from kitting.presenters.readiness_steps import arrivals_of, step_name, steps_of
from kitting.presenters.readiness_verdict import (
    count_first_of,
    hold_of,
    hours_before_hold,
    hours_of,
    notes_of,
    reach_of,
    sentence_of,
    verdict_of,
)
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
from shop.words.figures import listed, tenths

DAY, HOUR = 1440, 60


def readiness_answer(job: Job, now: datetime) -> ReadinessOut:
    context = context_of(load_job(job, now))
    work, readiness = context.work, context.judged.readiness if context.judged else None
    return ReadinessOut(
        job=JobOfListOut(id=job.pk, number=str(job)),
        customer=job.customer.name,
        vehicle=job.vehicle.title,
        verdict=verdict_of(context),
        not_before=job.not_before if context.withdrawable else None,
        sentence=sentence_of(context),
        reach=reach_of(context),
        count_first=count_first_of(context),
        notes=list(notes_of(context)),
        hold_before=hold_of(context),
        cleared_hours=hours_of(readiness, "cleared_hours"),
        hours_before_hold=hours_before_hold(context),
        total_hours=f"{sum(operation.hours for operation in work.steps):.1f}",
        counted=_lines_counted(context),
        lines=len(context.loaded.lines),
        pull_list=_list(context),
        last_counted_at=utc_or_none(context.loaded.counted_at),
        steps=list(steps_of(context)),
        missing=[] if context.called_off else [_group(context, group) for group in context.shortages.groups],
        arrivals=[] if context.called_off else list(arrivals_of(context)),
        to_order=[]
        if context.called_off
        else to_order(
            job.shop,
            context.loaded.lines,
            context.loaded.kits,
            context.loaded.counts,
            {id: step.title for id, step in context.loaded.steps.items()},
            now,
        ),
        promise=_promise(context),
        no_promise=_no_promise(context),
        here=job.here,
        here_from=job.here_from,
        how=_how(context),
    )


def _list(context: ReadinessContext) -> ListOfJobOut | None:
    pull_list = context.loaded.pull_list
    return (
        ListOfJobOut(id=pull_list.pk, state=PullListState(pull_list.state), seq=pull_list.last_seq)
        if pull_list
        else None
    )


def _lines_counted(context: ReadinessContext) -> int:
    return sum(context.loaded.counts.counted(line.pk) for line in context.loaded.lines)


# What is missing


def _group(context: ReadinessContext, group: MissingGroup) -> MissingOut:
    first = group.first
    step = context.step(first.step)
    return MissingOut(
        key=first.item.line,
        kind=group.kind,
        title=title_of(group, context.loaded),
        words=_state_of(context, group),
        step=step_name(step) if step else None,
        stops=_stops(context, first),
        have=first.item.have if group.kind == "line" else None,
        need=first.item.need if group.kind == "line" else None,
        due=utc_or_none(first.due),
        due_words=due_of(context, first, len(group.lines)),
        overdue=first.overdue,
        uncounted=first.uncounted,
        typed=first.item.said_at is not None,
        needed=_needed(group),
        lines=[_line(context, line) for line in group.lines],
    )


def _stops(context: ReadinessContext, missing: Missing) -> str:
    """The words for what a missing line stops. A job without steps needs everything at once."""
    step = context.step(missing.step)
    if step:
        return say("readiness.stops", position=step.position)
    return say("readiness.stops_work" if missing.stops else "readiness.stops_nothing")


def _state_of(context: ReadinessContext, group: MissingGroup) -> str:
    if group.kind == "line":
        return listed(because(context, group.first.item))
    n, needed = len(group.lines), _needed(group)
    sentence = say("readiness.not_counted" if group.first.uncounted else "readiness.none_counted", n=n)
    return say("readiness.of_them_needed", said=sentence, n=needed) if 0 < needed < n else sentence


def _needed(group: MissingGroup) -> int:
    """The number of the group's lines that a step waits for."""
    return sum(bool(line.stops) for line in group.lines)


def _line(context: ReadinessContext, missing: Missing) -> MissingLineOut:
    row = context.rows[missing.item.line]
    return MissingLineOut(
        line=row.pk,
        number=row.number,
        title=row.title,
        unit=row.unit,
        have=missing.item.have,
        need=missing.item.need,
        missing=missing.pieces,
        because=because(context, missing.item),
    )


# The date


def _promise(context: ReadinessContext) -> PromiseOut | None:
    ahead, calendar = context.judged.ahead if context.judged else None, context.work.calendar
    if ahead is None or calendar is None or ahead.dateless or context.called_off:
        return None
    work, job = context.work, context.loaded.job
    others = promised_that_week(job.shop, ahead.ready.day, job.pk)
    promise = promise_answer(ahead, work.planned, calendar, work.team, quarter_of(work.now), others)
    uncounted = sum(missing.uncounted and bool(missing.stops) for missing in context.shortages.missing)
    sentences = [promise.unknown, say("readiness.date_without", n=uncounted) if uncounted else None]
    return replace(promise, unknown=" ".join(sentence for sentence in sentences if sentence) or None)


def _no_promise(context: ReadinessContext) -> str | None:
    if context.called_off:
        return say("readiness.called_off")
    if context.judged is not None and context.judged.ahead is not None:
        return no_date(context.judged.ahead)
    refused = context.refused or (context.judged.refused if context.judged else None)
    if refused is not None:
        return calculation_words(refused)
    return say("promise.no_work" if not context.work.steps else "promise.no_hours")


# How it was worked out


def _how(context: ReadinessContext) -> ExplainedOut:
    readiness, items, steps = (
        context.judged.readiness if context.judged else None,
        context.work.items,
        context.work.steps,
    )
    worked = [
        ("counted", _of(_lines_counted(context), len(context.loaded.lines))),
        ("here", _of(len(items) - len(context.shortages.missing), len(items))),
        *([("clear", _of(len(readiness.clear), len(steps)))] if readiness and steps else []),
        *([("hours", _hours_of(context, readiness))] if readiness and steps else []),
        ("in_time", str(sum(missing.in_time is not None for missing in context.shortages.missing))),
        (
            "unknown",
            str(sum(missing.in_time is None and not missing.uncounted for missing in context.shortages.missing)),
        ),
        ("unknown_uncounted", str(sum(missing.uncounted_without_day for missing in context.shortages.missing))),
        ("uncounted", str(sum(missing.uncounted and bool(missing.stops) for missing in context.shortages.missing))),
        ("uncounted_minor", str(sum(missing.uncounted and not missing.stops for missing in context.shortages.missing))),
    ]
    return ExplainedOut(
        title=say("readiness.how.title"),
        rule=[say(f"readiness.how.rule.{part}") for part in ("step", "window", "here", "due")],
        steps=[HowStepOut(say(f"readiness.how.{key}"), figure) for key, figure in worked],
        result=sentence_of(context),
    )


def _hours_of(context: ReadinessContext, readiness: Readiness) -> str:
    whole = sum((step.hours for step in context.work.steps), Decimal(0))
    return say("readiness.how.hours_of", n=tenths(readiness.cleared_hours), whole=tenths(whole))


def _of(n: int, whole: int) -> str:
    return say("readiness.how.of", n=n, whole=whole)
