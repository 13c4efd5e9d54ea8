"""A promise date as a customer reads it: a half day and what it waits for, in days and simple words."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any, Literal, TypedDict, cast

from quotes.calc.answer import HALVES, half_day_of
from quotes.queries.promise import Choice, NoDate, Promised, both_promises, frozen_plan
from shop.calc.days import HalfDay
from shop.calc.visit import ExpectedDelivery, Leg
from shop.models import Shop
from shop.presenters.dates import date_only, day_words, half_day_brief, half_day_words, short_day
from shop.presenters.promise import bring_answer, duration, headline
from shop.words import say
from shop.words.figures import weekday

SHORT_WAIT = 120  # minutes; a shorter one is part of the work to whoever waits for the vehicle
MOST_NAMED = 3


class ToldLine(TypedDict):
    """A line of the way as it is frozen and recorded."""

    kind: str
    day: str
    weekday: str
    date: str
    words: str


class ToldDay(TypedDict):
    """A day with its words: by when the vehicle has to be here."""

    day: str
    words: str


class ToldReady(ToldDay):
    """The half day from which the vehicle can be collected."""

    half: str


class CustomerPromise(TypedDict):
    """A promise date as a customer reads it: frozen with the text and recorded with the answer, under these names."""

    as_of: str
    as_of_words: str
    headline: str
    bring: ToldDay | None
    ready: ToldReady
    ready_brief: str
    ready_weekday: str
    ready_date: str
    lines: list[ToldLine]
    unknown: str | None


@dataclass(frozen=True, slots=True)
class Line:
    """One line of the way: on `day`, in words; `kind` says which stretch of the way begins."""

    kind: Literal["yes", "arrival", "bring", "work", "wait"]
    day: date
    words: str

    def shape(self, today: date) -> ToldLine:
        return {
            "kind": self.kind,
            "day": self.day.isoformat(),
            "weekday": weekday(self.day),
            "date": date_only(self.day, today),
            "words": self.words,
        }


@dataclass(frozen=True, slots=True)
class Told:
    """The date on the customer's page: `promise`, or why there is none; neither without a plan."""

    promise: CustomerPromise | None = None
    no_date: str | None = None


@dataclass(frozen=True, slots=True)
class Dates:
    """The date with every consent, and the one without that to begin early, when work begins on `first_day`.

    `open`: a consent decides between the two, which are else the same.
    """

    early: Told = Told()
    later: Told = Told()
    first_day: date | None = None
    open: bool = False

    def of(self, early: bool) -> Told:
        return self.early if early else self.later


def dates_of(kept: Mapping[str, Any], shop: Shop, now: datetime) -> Dates:
    """The dates of a frozen text as of `now`; without words where it was frozen before there were plans."""
    choice = both_promises(frozen_plan(kept), kept["rules"], shop, now)
    return dates_from(choice, now) if "plan" in kept else Dates(first_day=choice.first_day, open=choice.open)


def dates_from(choice: Choice, now: datetime) -> Dates:
    early = told_from(choice.early, now)
    later = told_from(choice.later, now) if choice.open else early
    return Dates(early, later, choice.first_day, choice.open)


def waits_words(dates: Dates) -> str:
    """The sentence on date and withdrawal period; empty where there is no period."""
    if dates.first_day is None:
        return ""
    day = day_words(dates.first_day)
    if not dates.open:
        return say("customer.consent.after_date" if dates.early.promise else "customer.consent.after", day=day)
    if dates.early.promise is None:
        return ""
    if dates.later.promise is None:
        return say("customer.consent.unless_waits", day=day)
    bring, ready = dates.later.promise["bring"], dates.later.promise["ready_brief"]
    if bring:
        return say("customer.consent.unless_ready_bring", day=day, ready=ready, bring=bring["words"])
    return say("customer.consent.unless_ready", day=day, ready=ready)


def told_from(found: Promised | NoDate, now: datetime) -> Told:
    return Told(no_date=_no_date(found)) if isinstance(found, NoDate) else Told(customer_shape(found, now))


def _no_date(found: NoDate) -> str:
    if not found.awaited:
        return say("customer.promise.no_date")
    return say("customer.promise.no_delivery_day", n=len(found.awaited), titles="; ".join(found.awaited))


def customer_shape(found: Promised, now: datetime) -> CustomerPromise:
    """All text, and nothing of hours, people or codes: it is frozen, printed and shown."""
    zone = found.calendar.zone
    today, ready = now.astimezone(zone).date(), found.visit.ready
    return {
        "as_of": today.isoformat(),
        "as_of_words": day_words(today),
        "headline": headline(found.visit, today),
        "bring": _bring(found, today),
        "ready": {"day": ready.day.isoformat(), "half": ready.half, "words": half_day_words(ready, today)},
        "ready_brief": half_day_brief(ready, today),
        "ready_weekday": weekday(ready.day),
        "ready_date": date_only(ready.day, today),
        "lines": [line.shape(today) for line in _lines(found, today)],
        "unknown": _unknown(found.visit.unknown),
    }


def _bring(found: Promised, today: date) -> ToldDay | None:
    """By when the vehicle has to be here, without a minute of the work; None where it is here."""
    bring = bring_answer(found.visit, found.calendar, today)
    return {"day": bring.day.isoformat(), "words": bring.words} if bring else None


def _unknown(coming: Sequence[ExpectedDelivery]) -> str | None:
    """Named while they are few; a customer need not read the names of many small parts."""
    if not coming:
        return None
    if len(coming) > MOST_NAMED:
        return say("customer.promise.unknown_several", n=len(coming))
    titles = "; ".join(each.title for each in coming)
    return say("customer.promise.unknown", n=len(coming), titles=titles)


def _lines(found: Promised, today: date) -> Iterator[Line]:
    yield Line("yes", today, say("customer.promise.yes"))
    bring = [] if found.visit.here else [Line("bring", _day(found.visit.bring, found), _bring_line(found, today))]
    yield from sorted([*bring, *_way(found, today)], key=lambda line: line.day)


def _bring_line(found: Promised, today: date) -> str:
    local = found.visit.bring.astimezone(found.calendar.zone)
    if local.date() == today:
        return say("customer.promise.bring_today")
    return say("customer.promise.bring", time=f"{local:%H:%M}")


def _way(found: Promised, today: date) -> Iterator[Line]:
    """Work, the arrival that the most of it waits for, and the waits that take a while; days only."""
    for leg in _merged(leg for leg in found.visit.legs if leg.kind != "drop_off"):
        since, until = _day(leg.since, found), _day(leg.until, found)
        if leg.kind == "arrival":
            yield Line("arrival", since, say("customer.promise.arrival", title=leg.title))
            continue
        if leg.kind == "outside":
            yield Line("wait", since, say("customer.promise.outside", n=leg.days, title=leg.title))
            continue
        if leg.kind == "wait":
            after = say("customer.promise.wait", wait=duration(leg.minutes), title=leg.title)
            yield Line("wait", since, after)
            continue
        key = "customer.promise.work"
        yield Line("work", since, say(key if since == until else f"{key}_until", day=short_day(until, today)))


def _merged(legs: Iterator[Leg]) -> Iterator[Leg]:
    """Short waits are taken into the work around them."""
    before: Leg | None = None
    for leg in legs:
        short = leg.kind == "wait" and leg.minutes < SHORT_WAIT
        if before is not None and before.kind == "work" and (short or leg.kind == "work"):
            before = Leg("work", before.since, leg.until, steps=(*before.steps, *leg.steps))
            continue
        if before is not None:
            yield before
        before = leg
    if before is not None:
        yield before


def _day(instant: datetime, found: Promised) -> date:
    return instant.astimezone(found.calendar.zone).date()


def with_headline(told: Mapping[str, Any]) -> CustomerPromise:
    """The recorded promise with its headline, which records from before 26 Nov 2026 lack."""
    return cast(CustomerPromise, {"headline": say("promise.headline.ready", when=told["ready"]["words"]), **told})


def words_of(shown: str, today: date) -> str:
    """'Thu 10 Dec, in the afternoon' of a form's value; empty for none."""
    seen = half_day_of(shown)
    return half_day_words(HalfDay(seen[0], HALVES[seen[1]], datetime.min), today) if seen else ""
