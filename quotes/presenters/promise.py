"""A promise date for the customer: a half day and the arrivals it waits for, in days and simple words."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Literal, TypedDict, cast

from quotes.calc.answer import HALVES, half_day_of
from quotes.calc.forms import FrozenContent
from quotes.queries.promise import BothPromises, NoDate, Opening, Promised, both_promises, frozen_plan
from shop.calc.days import HalfDay
from shop.calc.visit import ExpectedDelivery, Leg
from shop.models import Shop
from shop.presenters.dates import date_only, day_words, half_day_brief, half_day_words, short_day
from shop.presenters.promise import bring_answer, duration, headline
from shop.words import say
from shop.words.figures import listed, weekday

SHORT_WAIT = 120  # minutes; a shorter wait is shown as part of the work
MOST_NAMED = 3


class PromiseLine(TypedDict):
    """A line of the timeline, as frozen and recorded."""

    kind: str
    day: str
    weekday: str
    date: str
    words: str


class PromiseDay(TypedDict):
    """The day by which the vehicle has to be here, with its words."""

    day: str
    words: str


class PromiseReady(PromiseDay):
    """The half day from which the vehicle can be collected."""

    half: str


class CustomerPromise(TypedDict):
    """A promise date for the customer, frozen with the text and recorded with the answer under these names."""

    as_of: str
    as_of_words: str
    headline: str
    bring: PromiseDay | None
    ready: PromiseReady
    ready_brief: str
    ready_weekday: str
    ready_date: str
    lines: list[PromiseLine]
    unknown: str | None


@dataclass(frozen=True, slots=True)
class WayLine:
    """One line of the timeline on `day`, in words; `kind` is the stretch that begins."""

    kind: Literal["yes", "arrival", "bring", "work", "wait"]
    day: date
    words: str

    def shape(self, today: date) -> PromiseLine:
        return {
            "kind": self.kind,
            "day": self.day.isoformat(),
            "weekday": weekday(self.day),
            "date": date_only(self.day, today),
            "words": self.words,
        }


@dataclass(frozen=True, slots=True)
class DateWords:
    """The date on the customer's page: `promise`, or the reason for having none; neither without a plan."""

    promise: CustomerPromise | None = None
    no_date: str | None = None


@dataclass(frozen=True, slots=True)
class Dates:
    """The date with every consent (`early`), and the one without the consent to begin early, from `first_day`.

    `open`: the consent decides between the two; otherwise they are equal.
    """

    early: DateWords = DateWords()
    later: DateWords = DateWords()
    first_day: date | None = None
    open: bool = False

    def of(self, early: bool) -> DateWords:
        return self.early if early else self.later


def dates_of(document: FrozenContent, shop: Shop, now: datetime, opening: Opening = "unread") -> Dates:
    """The dates of a frozen text as of `now`; without words for an older text without a plan."""
    choice = both_promises(frozen_plan(document), document["rules"], shop, now, opening)
    return dates_from(choice, now) if "plan" in document else Dates(first_day=choice.first_day, open=choice.open)


def dates_from(choice: BothPromises, now: datetime) -> Dates:
    early = date_words(choice.early, now)
    later = date_words(choice.later, now) if choice.open else early
    return Dates(early, later, choice.first_day, choice.open)


def waits_words(dates: Dates) -> str:
    """The sentence on date and withdrawal period; empty without a period."""
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


def date_words(promised: Promised | NoDate, now: datetime) -> DateWords:
    if isinstance(promised, NoDate):
        return DateWords(no_date=_no_date(promised))
    return DateWords(customer_shape(promised, now))


def _no_date(missing: NoDate) -> str:
    if not missing.awaited:
        return say("customer.promise.no_date")
    return say("customer.promise.no_delivery_day", n=len(missing.awaited), titles=listed(missing.awaited))


def customer_shape(promised: Promised, now: datetime) -> CustomerPromise:
    """The promise as text for freezing, printing and showing, without hours, people or codes."""
    zone = promised.calendar.zone
    today, ready = now.astimezone(zone).date(), promised.visit.ready
    return {
        "as_of": today.isoformat(),
        "as_of_words": day_words(today),
        "headline": headline(promised.visit, today),
        "bring": _bring(promised, today),
        "ready": {"day": ready.day.isoformat(), "half": ready.half, "words": half_day_words(ready, today)},
        "ready_brief": half_day_brief(ready, today),
        "ready_weekday": weekday(ready.day),
        "ready_date": date_only(ready.day, today),
        "lines": [line.shape(today) for line in _lines(promised, today)],
        "unknown": _unknown(promised.visit.unknown),
    }


def _bring(promised: Promised, today: date) -> PromiseDay | None:
    """The day by which the vehicle has to be here; None if it is here."""
    bring = bring_answer(promised.visit, promised.calendar, today)
    return {"day": bring.day.isoformat(), "words": bring.words} if bring else None


def _unknown(coming: Sequence[ExpectedDelivery]) -> str | None:
    """The sentence on parts without a date: with their names if they are few, else with their number."""
    if not coming:
        return None
    if len(coming) > MOST_NAMED:
        return say("customer.promise.unknown_several", n=len(coming))
    titles = listed([delivery.title for delivery in coming])
    return say("customer.promise.unknown", n=len(coming), titles=titles)


def _lines(promised: Promised, today: date) -> Iterator[WayLine]:
    yield WayLine("yes", today, say("customer.promise.yes"))
    bring = (
        []
        if promised.visit.here
        else [WayLine("bring", _day(promised.visit.bring, promised), _bring_line(promised, today))]
    )
    yield from sorted([*bring, *_way(promised, today)], key=lambda line: line.day)


def _bring_line(promised: Promised, today: date) -> str:
    local = promised.visit.bring.astimezone(promised.calendar.zone)
    if local.date() == today:
        return say("customer.promise.bring_today")
    return say("customer.promise.bring", time=f"{local:%H:%M}")


def _way(promised: Promised, today: date) -> Iterator[WayLine]:
    """The lines for work, for arrivals that it waits for, and for longer waits; days only."""
    for leg in _merged(leg for leg in promised.visit.legs if leg.kind != "drop_off"):
        since, until = _day(leg.since, promised), _day(leg.until, promised)
        if leg.kind == "arrival":
            yield WayLine("arrival", since, say("customer.promise.arrival", title=leg.title))
            continue
        if leg.kind == "outside":
            yield WayLine("wait", since, say("customer.promise.outside", n=leg.days, title=leg.title))
            continue
        if leg.kind == "wait":
            after = say("customer.promise.wait", wait=duration(leg.minutes), title=leg.title)
            yield WayLine("wait", since, after)
            continue
        key = "customer.promise.work" if since == until else "customer.promise.work_until"
        yield WayLine("work", since, say(key, day=short_day(until, today)))


def _merged(legs: Iterator[Leg]) -> Iterator[Leg]:
    """The legs, with short waits merged into the work around them."""
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


def _day(instant: datetime, promised: Promised) -> date:
    return instant.astimezone(promised.calendar.zone).date()


def with_headline(recorded: FrozenContent) -> CustomerPromise:
    """The recorded promise with its headline, which records from before 26 Nov 2026 lack."""
    return cast(
        CustomerPromise, {"headline": say("promise.headline.ready", when=recorded["ready"]["words"]), **recorded}
    )


def words_of(value: str, today: date) -> str:
    """'Thu 10 Dec, in the afternoon' from a form's value; empty for an invalid value."""
    seen = half_day_of(value)
    return half_day_words(HalfDay(seen[0], HALVES[seen[1]], datetime.min), today) if seen else ""
