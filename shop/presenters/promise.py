"""A promise date as an answer: the half day, the way there in words, and the data of its picture."""

from collections.abc import Iterable, Iterator, Sequence
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal
from itertools import groupby

from shop.answers.base import utc, utc_or_none
from shop.answers.explained import ExplainedOut, HowStepOut
from shop.answers.promise import BookedOut, BringOut, ComingOut, DayOut, LegOut, PromiseOut, ReadyOut
from shop.calc.days import HalfDay
from shop.calc.outside import given_back
from shop.calc.promise import Booking, clock_minutes
from shop.calc.visit import ExpectedDelivery, Leg, Step, Team, Visit
from shop.calc.worktime import OpeningHours, Span, Week, WorkCalendar, instant_of
from shop.presenters.dates import due_words, half_day_brief, half_day_words, shelf_words, short_day
from shop.words import say
from shop.words.figures import listed, number, tenths, weekday

RULES = ("order", "hours", "arrivals", "outside", "no_return", "bring", "alone")
MONDAY = date(2026, 1, 5)  # any Monday: only the names of the days are used
MOST_DAYS = 200  # a picture of more days is too narrow to read


def promise_answer(
    visit: Visit,
    steps: Sequence[Step],
    calendar: WorkCalendar,
    team: Team | None = None,
    now: datetime | None = None,
    others: int = 0,
) -> PromiseOut:
    """The promise. The picture's days run, in the shop's zone, from `now` (or the vehicle's arrival) to the date.

    `others` is the number of other vehicles promised in that week. With `team`, the answer explains the date.
    """
    steps_by_code, zone = {step.code: step for step in steps}, calendar.zone.key
    here = visit.here or visit.bring.astimezone(calendar.zone).date() < visit.since.astimezone(calendar.zone).date()
    today = (now or visit.since).astimezone(calendar.zone).date()
    return PromiseOut(
        headline=headline(visit, today),
        others=others_words(others),
        bring=bring_answer(visit, calendar, today),
        withdrawal=None,
        ready=ready_answer(visit.ready, today),
        finish=utc(visit.promise.finish),
        since=utc(visit.since),
        words=[leg_words(leg, steps_by_code, zone, today, here) for leg in visit.legs],
        unknown=unknown_words(visit, calendar, today),
        legs=[_leg(leg, steps_by_code, zone, today, here) for leg in visit.legs],
        coming=[_coming(delivery, zone, today) for delivery in _once(visit.coming)],
        schedule=[_booked(booking, steps_by_code[booking.code], calendar) for booking in visit.promise.schedule],
        days=list(_days(calendar, min(visit.since, now or visit.since), visit.ready.at)),
        how=how_answer(visit, steps, calendar, team, today) if team else None,
    )


def ready_answer(ready: HalfDay, today: date) -> ReadyOut:
    return ReadyOut(day=ready.day, half=ready.half, at=utc(ready.at), words=half_day_words(ready, today))


def headline(visit: Visit, today: date) -> str:
    """The sentence for the date on every screen: the half day, and the number of parts it does not count."""
    when = half_day_brief(visit.ready, today)
    unknown, late = (sum(expected.parts for expected in some) for some in (visit.unknown, visit.overdue))
    if unknown and late:
        return say("promise.headline.both", when=when, n=unknown + late)
    if unknown or late:
        return say("promise.headline.unknown" if unknown else "promise.headline.late", when=when, n=unknown or late)
    return say("promise.headline.ready", when=when)


def no_date(visit: Visit) -> str | None:
    """The sentence naming kits or outside work without a delivery day, and whom to ask; None if there is a date."""
    if not visit.dateless:
        return None
    suppliers = listed([*dict.fromkeys(kit.ask for kit in visit.dateless if kit.ask)])
    ask = say("promise.ask_supplier", suppliers=suppliers) if suppliers else say("promise.ask_nobody")
    titles = listed([kit.title for kit in visit.dateless])
    facts = {"n": len(visit.dateless), "titles": titles, "ask": ask}
    late = any(kit.was_due is not None for kit in visit.dateless)
    if all(kit.outside for kit in visit.dateless):
        return say("promise.outside_late" if late else "promise.no_turnaround", **facts)
    return say("promise.no_delivery" if late else "promise.no_delivery_day", **facts)


def bring_answer(visit: Visit, calendar: WorkCalendar, today: date) -> BringOut | None:
    """The day and hour by which the vehicle has to be here, with the sentence; None if it is here."""
    if visit.here:
        return None
    local = visit.bring.astimezone(calendar.zone)
    return BringOut(day=local.date(), at=utc(visit.bring), words=_bring_words(local, today))


def _bring_words(local: datetime, today: date) -> str:
    """The sentence, with the hour of opening on any day but today."""
    day = short_day(local.date(), today)
    if local.date() == today:
        return say("promise.bring_today", day=day)
    return say("promise.bring", day=day, time=f"{local:%H:%M}")


def others_words(others: int) -> str | None:
    return say("promise.others", n=others) if others else None


def unknown_words(visit: Visit, calendar: WorkCalendar, today: date) -> str | None:
    """The sentence on parts that the date does not count: without a delivery date, or late."""
    sentences = []
    if visit.unknown:
        titles = listed([expected.title for expected in visit.unknown])
        sentences = [say("promise.unknown", n=sum(expected.things for expected in visit.unknown), titles=titles)]
    for expected in visit.overdue:
        assert expected.was_due is not None, "what is overdue was due"
        when = shelf_words(expected.was_due, calendar, calendar.zone.key, today)
        sentences.append(say("promise.overdue", n=expected.things, title=expected.title, when=when))
    return " ".join(sentences) or None


def leg_words(leg: Leg, steps: dict[str, Step], zone: str, today: date, here: bool = False) -> str:
    if leg.kind == "drop_off":
        return say("promise.here" if here else "promise.drop_off", when=due_words(leg.until, zone, today))
    if leg.kind == "arrival":
        return say("promise.arrival", n=leg.things, title=leg.title, when=due_words(leg.since, zone, today))
    if leg.kind == "withdrawal":
        return say("promise.added_work", when=due_words(leg.until, zone, today))
    if leg.kind == "wait":
        return say("promise.wait", wait=duration(leg.minutes), title=leg.title)
    if leg.kind == "outside":
        return say("promise.outside", n=leg.days, title=leg.title)
    first, last = steps[leg.steps[0]], steps[leg.steps[-1]]
    hours = sum((steps[code].hours for code in leg.steps), Decimal(0))
    return say("promise.work", n=len(leg.steps), hours=tenths(hours), first=first.title, last=last.title)


def duration(minutes: int) -> str:
    """'45 min', '12 h'; hours are rounded down to tenths."""
    if minutes < 60:
        return say("promise.minutes", n=minutes)
    return say("promise.hours", hours=number(Decimal(minutes * 10 // 60) / 10))


def _leg(leg: Leg, steps: dict[str, Step], zone: str, today: date, here: bool) -> LegOut:
    return LegOut(
        kind=leg.kind, since=utc(leg.since), until=utc(leg.until), words=leg_words(leg, steps, zone, today, here)
    )


def _once(coming: Iterable[ExpectedDelivery]) -> Iterable[ExpectedDelivery]:
    """Each delivery once, with the first of the operations that wait for it."""
    first_of: dict[tuple[str, datetime | None], ExpectedDelivery] = {}
    for delivery in coming:
        first_of.setdefault((delivery.title, delivery.at), delivery)
    return first_of.values()


def _coming(coming: ExpectedDelivery, zone: str, today: date) -> ComingOut:
    title, words = coming.title, coming.title
    when = due_words(coming.at, zone, today) if coming.at else ""
    if coming.withdrawal:
        title, words = say("promise.added_work_may_start"), say("promise.added_work_on", when=when)
    elif when:
        words = say("promise.arrival_on", title=title, when=when)
    return ComingOut(title=title, operation=coming.operation, at=utc_or_none(coming.at), words=words)


def _booked(booked: Booking, step: Step, calendar: WorkCalendar) -> BookedOut:
    """One booking. `until` is the end of a wait, or when outside work comes back."""
    until = booked.end + timedelta(minutes=step.wait_after) if step.wait_after else None
    if step.wait_days:
        until = given_back(booked.end, step.wait_days, calendar)
    return BookedOut(
        code=step.code,
        position=step.position,
        title=step.title,
        hours=f"{step.hours:.1f}",
        start=utc(booked.start),
        end=utc(booked.end),
        until=utc_or_none(until),
    )


def _days(calendar: WorkCalendar, since: datetime, until: datetime) -> Iterator[DayOut]:
    """Every day from `since` to `until`, with its first opening and its last closing."""
    hours = OpeningHours(calendar)
    day, last = since.astimezone(calendar.zone).date(), until.astimezone(calendar.zone).date()
    if (last - day).days > MOST_DAYS:
        return
    while day <= last:
        spans = hours.open_on(day)
        yield DayOut(
            day=day,
            words=short_day(day),
            opens=utc(instant_of(spans[0][0], calendar.zone)) if spans else None,
            closes=utc(instant_of(spans[-1][1], calendar.zone)) if spans else None,
        )
        day += timedelta(days=1)


def how_answer(visit: Visit, steps: Sequence[Step], calendar: WorkCalendar, team: Team, today: date) -> ExplainedOut:
    """The explanation of the date: the rule in plain words, and the numbers of this promise."""
    hours = sum((step.hours for step in steps), Decimal(0))
    minutes = sum(clock_minutes(step.hours, team.efficiency) for step in steps)
    worked = [
        ("work", say("promise.hours", hours=tenths(hours))),
        ("efficiency", number(team.efficiency)),
        ("clock", say("promise.hours_minutes", hours=minutes // 60, minutes=minutes % 60)),
        ("technicians", str(team.technicians)),
    ]
    begins = min(booking.start.astimezone(UTC) for booking in visit.promise.schedule)
    return ExplainedOut(
        title=say("promise.how.title"),
        rule=[say(f"promise.how.rule.{part}") for part in RULES if part != "outside" or _is_outside(visit, steps)],
        steps=[
            *(HowStepOut(say(f"promise.how.{key}"), figure) for key, figure in worked),
            *_hours(calendar, begins.astimezone(calendar.zone).date(), visit.ready.day, today),
            HowStepOut(say("promise.how.begins"), due_words(begins, calendar.zone.key, today)),
            HowStepOut(say("promise.how.done"), due_words(visit.promise.finish, calendar.zone.key, today)),
        ],
        result=half_day_words(visit.ready, today),
    )


def _is_outside(visit: Visit, steps: Sequence[Step]) -> bool:
    """Returns whether another firm does some of the work."""
    return any(step.wait_days for step in steps) or any(delivery.outside for delivery in visit.coming)


def _hours(calendar: WorkCalendar, since: date, until: date, today: date) -> Iterator[HowStepOut]:
    """The weeks that apply between two days. One that begins between them names its day."""
    yield from _week(calendar.week_on(since), "")
    for begins, week in calendar.later:
        if since < begins <= until:
            yield from _week(week, short_day(begins, today))


def _week(week: Week, begins: str) -> Iterator[HowStepOut]:
    """'Open Mon to Fri, 08:00 to 12:00 and 13:00 to 17:00': '8 h', for each run of days with equal hours."""
    days = zip((MONDAY + timedelta(days=at) for at in range(7)), week, strict=True)
    for spans, run in groupby(days, key=lambda day: day[1]):
        names = [weekday(day) for day, _ in run]
        if spans:
            both = say("promise.how.to", since=names[0], until=names[-1])
            facts = {"days": both if len(names) > 1 else names[0], "spans": listed([_span(span) for span in spans])}
            words = say("promise.how.open_from", begins=begins, **facts) if begins else say("promise.how.open", **facts)
            yield HowStepOut(words, duration(sum(end - begin for begin, end in spans)))


def _span(span: Span) -> str:
    return say("promise.how.to", since=_clock(span[0]), until=_clock(span[1]))


def _clock(minute: int) -> str:
    return f"{minute // 60:02}:{minute % 60:02}"
