"""Facts of the vehicle that are not recorded and change the price: each price in words, and the range of all."""

from collections.abc import Callable, Iterable, Mapping
from datetime import datetime
from decimal import Decimal
from typing import Any
from zoneinfo import ZoneInfo

from msgspec.structs import replace

from quotes.answers.prices import PossiblePriceOut, PriceRangeOut, StatedOut, UndecidedAttributeOut, UndecidedOut
from quotes.calc.combinations import MOST_OFFERED, Combination, Values, count, nameable
from quotes.calc.consents import first_days, terms_of
from quotes.calc.price_range import Possibilities, price_range
from quotes.models import Revision
from quotes.queries.pricing import Possibility, QuoteFigures, shop_day
from quotes.queries.promise import Promised, draft_plan, promised
from shop.answers.promise import PromiseOut
from shop.calc.days import HalfDay
from shop.calc.quantity import hours, money, plain
from shop.presenters.dates import half_day_brief
from shop.presenters.vehicles import attribute_words
from shop.words import say
from shop.words.figures import figure, listed

YES_NO = {"yes", "no"}
NO_PRICE = ("no_price", "no_rate", "no_part_price")


def undecided_answer(
    revision: Revision, found: QuoteFigures, now: datetime, promise: PromiseOut | None
) -> UndecidedOut | None:
    """Every price that the draft can come to, the lowest that can be accepted first; None where there is one.

    `promise` is that of the quote as it is shown, which is the first price's: it is not worked out again.

    Above `MOST_OFFERED` combinations there are no single prices, only the attributes (and the range beside).
    """
    if not found.open:
        return None
    titles = {kit.line: kit.title for kit in found.loaded.input.kits}
    offered = found.possible if found.offered else ()
    e = revision.shop.exponent
    readies = [
        ready_of(revision, each, now) if place else _ready_shown(promise, revision, now)
        for place, each in enumerate(offered)
    ]
    return UndecidedOut(
        title=title_of(found.open),
        words=_why(found),
        attributes=attributes_of(found.open),
        hours=hours_between(each.priced.hours for each in offered),
        prices=[_price(each, found.open, titles, ready, e) for each, ready in zip(offered, readies, strict=True)],
    )


def title_of(values: Mapping[str, Values]) -> str:
    """'Not recorded: gearbox', 'Not recorded: gearbox and wear sensor'"""
    return say("undecided.title", names=listed([attribute_words(each) for each in values]))


def attributes_of(values: Mapping[str, Values]) -> list[UndecidedAttributeOut]:
    return [
        UndecidedAttributeOut(name, attribute_words(name), [value for value in each if value is not None])
        for name, each in values.items()
    ]


def stated_words(stated: Combination, values: Mapping[str, Values]) -> str:
    """'manual', 'automatic, with wear sensor', 'another gearbox'"""
    return ", ".join(_value_words(name, value, values[name]) for name, value in stated)


def _value_words(attribute: str, value: str | None, values: Values) -> str:
    name = attribute_words(attribute)
    if value is None:
        return say("undecided.another", name=name)
    if set(values) <= YES_NO:
        return say("undecided.with" if value == "yes" else "undecided.without", name=name)
    return value


def _price(
    each: Possibility, values: Mapping[str, Values], titles: Mapping[str, str], ready: str | None, e: int
) -> PossiblePriceOut:
    return PossiblePriceOut(
        stated=[StatedOut(name, value) for name, value in each.stated],
        words=stated_words(each.stated, values),
        hours=hours(each.priced.hours),
        gross=money(each.priced.totals.gross, e),
        unfit=unfit_words(titles[line] for line in each.unfit),
        nameable=nameable(each.stated),
        ready=ready,
    )


def hours_between(every: Iterable[Decimal]) -> str:
    """'15.6 to 24.4', '15.6' where all are alike; empty for none."""
    found = sorted(every)
    return between(found[0], found[-1], hours) if found else ""


def unfit_words(titles: Iterable[str]) -> str | None:
    """The kits that a value rules out."""
    told = "; ".join(titles)
    return say("undecided.unfit", titles=told) if told else None


def ready_of(revision: Revision, each: Possibility, now: datetime) -> str | None:
    """The half day of one possibility; None where there is no date."""
    at_best, _ = first_days(terms_of(each.loaded.input.rules), shop_day(revision.shop, now))
    told = promised(draft_plan(revision, each), revision.shop, now, at_best)
    if not isinstance(told, Promised):
        return None
    return half_day_brief(told.visit.ready, told.now.astimezone(ZoneInfo(revision.shop.zone)).date())


def _ready_shown(promise: PromiseOut | None, revision: Revision, now: datetime) -> str | None:
    if promise is None:
        return None
    half_day = HalfDay(promise.ready.day, promise.ready.half, now)
    return half_day_brief(half_day, shop_day(revision.shop, now))


def _why(found: QuoteFigures) -> str:
    if not found.offered:
        return say("undecided.too_many", n=count(found.open), most=MOST_OFFERED)
    if found.loaded.input.attributes is None:
        return say("undecided.no_vehicle")
    return say("undecided.left_open")


def range_answer(found: QuoteFigures) -> PriceRangeOut | None:
    """What one says on the phone: the least and the most that the quote can come to, and what decides.

    None where the vehicle is chosen and every price is shown, for an empty quote, and while a price is missing. Above
    `MOST_PRICED` combinations it goes from the lowest to the highest that were found.
    """
    empty = not (found.priced.kits or found.priced.extras or found.priced.outside)
    shown = found.loaded.input.attributes is not None and found.offered
    priced = [each.priced for each in found.possible]
    if empty or shown or any(each.totals.gross < 0 for each in priced):
        return None
    if any(notice.code in NO_PRICE for each in priced for notice in each.notices):
        return None
    spoken = _spoken(Possibilities(tuple(p.totals.gross for p in priced), tuple(p.hours for p in priced)), found.open)
    if any(notice.code == "capacity_unknown" for each in priced for notice in each.notices):
        return replace(spoken, words=say("undecided.range_without", range=spoken.words))
    return spoken


def _spoken(possible: Possibilities, values: Mapping[str, Values]) -> PriceRangeOut:
    spoken = price_range(possible)
    told = say(
        "undecided.range" if not values else "undecided.range_depends",
        amounts=between(spoken.low, spoken.high, lambda each: figure(plain(each))),
        hours=between(spoken.hours_low, spoken.hours_high, plain),
        names=", ".join(attribute_words(each) for each in values),
    )
    return PriceRangeOut(
        low=plain(spoken.low),
        high=plain(spoken.high),
        hours_low=plain(spoken.hours_low),
        hours_high=plain(spoken.hours_high),
        words=told,
    )


def between(low: Any, high: Any, form: Callable[[Any], str]) -> str:
    """'15.6 to 24.4', '15.6' where both are alike."""
    return form(low) if low == high else say("undecided.between", low=form(low), high=form(high))
