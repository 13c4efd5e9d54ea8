"""Open attributes, which are not recorded and change the price: every possible price, and their range."""

from collections import defaultdict
from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence
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
from quotes.queries.promise import Opening, Promised, draft_plan, hours_on, promised
from shop.answers.promise import PromiseOut
from shop.calc.days import HalfDay
from shop.calc.quantity import hours, money, plain
from shop.presenters.dates import half_day_brief
from shop.presenters.vehicles import attribute_words
from shop.words import say
from shop.words.figures import figure, listed, number, tenths

YES_NO = {"yes", "no"}
NO_PRICE = ("no_price", "no_rate", "no_part_price")


def undecided_answer(
    revision: Revision, figures: QuoteFigures, now: datetime, promise: PromiseOut | None
) -> UndecidedOut | None:
    """Every price that the draft can come to, the lowest acceptable one first; None if there is a single price.

    `promise` is that of the quote as it is shown, which is the first price's: it is not worked out again.

    Above `MOST_OFFERED` combinations there are no single prices, only the attributes (and the range beside).
    """
    if not figures.open:
        return None
    titles = {kit.line: kit.title for kit in figures.loaded.input.kits}
    offered = figures.as_proposed if figures.offered else ()
    e = revision.shop.exponent
    opening = hours_on(revision.shop, now) if len(offered) > 1 else None
    readies = [
        ready_of(revision, possibility, now, opening) if place else _ready_shown(promise, revision, now)
        for place, possibility in enumerate(offered)
    ]
    return UndecidedOut(
        title=title_of(figures.open),
        words=_why(figures),
        attributes=attributes_of(figures.open),
        hours=hours_between(possibility.priced.hours for possibility in offered),
        prices=[
            _price(possibility, figures.open, titles, ready, e)
            for possibility, ready in zip(offered, readies, strict=True)
        ],
    )


def title_of(values: Mapping[str, Values]) -> str:
    """'Not recorded: gearbox', 'Not recorded: gearbox and wear sensor'"""
    return say("undecided.title", names=listed([attribute_words(name) for name in values]))


def attributes_of(values: Mapping[str, Values]) -> list[UndecidedAttributeOut]:
    return [
        UndecidedAttributeOut(name, attribute_words(name), [value for value in possible if value is not None])
        for name, possible in values.items()
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
    possibility: Possibility, values: Mapping[str, Values], titles: Mapping[str, str], ready: str | None, e: int
) -> PossiblePriceOut:
    return PossiblePriceOut(
        stated=[StatedOut(name, value) for name, value in possibility.stated],
        words=stated_words(possibility.stated, values),
        hours=hours(possibility.priced.hours),
        gross=money(possibility.priced.totals.gross, e),
        unfit=unfit_words(titles[line] for line in possibility.unfit),
        nameable=nameable(possibility.stated),
        ready=ready,
    )


def hours_between(every: Iterable[Decimal]) -> str:
    """'15.6 to 24.4'; '15.6' if all are equal; empty for none."""
    in_order = sorted(every)
    return between(in_order[0], in_order[-1], tenths) if in_order else ""


def unfit_words(titles: Iterable[str]) -> str | None:
    """The kits that a value rules out."""
    joined = listed([*titles])
    return say("undecided.unfit", titles=joined) if joined else None


def ready_of(revision: Revision, possibility: Possibility, now: datetime, opening: Opening = "unread") -> str | None:
    """The half day of one possibility; None without a date."""
    at_best, _ = first_days(terms_of(possibility.loaded.input.rules), shop_day(revision.shop, now))
    promise = promised(draft_plan(revision, possibility), revision.shop, now, at_best, opening)
    if not isinstance(promise, Promised):
        return None
    return half_day_brief(promise.visit.ready, promise.now.astimezone(ZoneInfo(revision.shop.zone)).date())


def _ready_shown(promise: PromiseOut | None, revision: Revision, now: datetime) -> str | None:
    if promise is None:
        return None
    half_day = HalfDay(promise.ready.day, promise.ready.half, now)
    return half_day_brief(half_day, shop_day(revision.shop, now))


def _why(figures: QuoteFigures) -> str:
    if not figures.offered:
        return say("undecided.too_many", n=count(figures.open), most=MOST_OFFERED)
    if figures.loaded.input.attributes is None:
        return say("undecided.no_vehicle")
    return say("undecided.left_open")


def range_answer(figures: QuoteFigures) -> PriceRangeOut | None:
    """The price range for the telephone: the lowest and highest total, and the attributes that decide.

    None where the vehicle is chosen and every price is shown, for an empty quote, and while a price is missing. Above
    `MOST_PRICED` combinations the range goes from the lowest to the highest that were found.
    """
    all_shown = figures.loaded.input.attributes is not None and figures.offered
    priced = [price for _, prices in figures.by_phone for price in prices]
    if figures.priced.empty or all_shown or any(quote.totals.gross < 0 for quote in priced):
        return None
    if any(notice.code in NO_PRICE for quote in priced for notice in quote.notices):
        return None
    totals_and_hours = Possibilities(
        totals=tuple(quote.totals.gross for quote in priced),
        hours=tuple(quote.hours for quote in priced),
        if_it_happens=max(sum((line.highest for line in quote.contingencies), Decimal(0)) for quote in priced),
    )
    names = [attribute_words(name) for name in _decisive(figures.open, [price for price, _ in figures.by_phone])]
    if any(len({price.totals.gross for price in prices}) > 1 for _, prices in figures.by_phone):
        names.append(say("undecided.capacities"))
    spoken = _spoken(totals_and_hours, names)
    if any(notice.code == "capacity_unknown" for quote in priced for notice in quote.notices):
        return replace(spoken, words=say("undecided.range_without", range=spoken.words))
    return spoken


def _decisive(attributes: Iterable[str], possible: Sequence[Possibility]) -> list[str]:
    """The attributes that change a total or hours on their own; all of them if none does but the totals differ."""
    alone = [attribute for attribute in attributes if _decides(attribute, possible)]
    return alone if alone or len({_outcome(possibility) for possibility in possible}) == 1 else list(attributes)


def _decides(attribute: str, possible: Iterable[Possibility]) -> bool:
    outcomes = defaultdict[Hashable, set[tuple[Decimal, Decimal]]](set)
    for possibility in possible:
        others = tuple(pair for pair in possibility.stated if pair[0] != attribute)
        outcomes[possibility.selection, others].add(_outcome(possibility))
    return any(len(different) > 1 for different in outcomes.values())


def _outcome(possibility: Possibility) -> tuple[Decimal, Decimal]:
    return possibility.priced.totals.gross, possibility.priced.hours


def _spoken(possible: Possibilities, names: Sequence[str]) -> PriceRangeOut:
    """The range in words; `names` are the attributes on which the price depends."""
    spoken = price_range(possible)
    words = say(
        "undecided.range_depends" if names else "undecided.range",
        amounts=between(spoken.low, spoken.high, lambda amount: figure(plain(amount))),
        hours=between(spoken.hours_low, spoken.hours_high, number),
        names=listed(names),
    )
    return PriceRangeOut(
        low=plain(spoken.low),
        high=plain(spoken.high),
        hours_low=plain(spoken.hours_low),
        hours_high=plain(spoken.hours_high),
        words=words,
    )


def between(low: Any, high: Any, form: Callable[[Any], str]) -> str:
    """'15.6 to 24.4'; '15.6' if both are equal."""
    return form(low) if low == high else say("undecided.between", low=form(low), high=form(high))
