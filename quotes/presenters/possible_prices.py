"""The prices of a frozen text that has several, for page, paper, acceptance and screen."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal

from quotes.answers.prices import PossiblePriceOut, StatedOut, UndecidedOut
from quotes.calc.difference import difference
from quotes.calc.forms import FrozenContent
from quotes.presenters.promise import Dates, dates_of
from quotes.presenters.undecided import hours_between
from quotes.queries.frozen import asked_places, can_be_accepted
from quotes.queries.promise import hours_on
from shop.models import Shop, Vehicle
from shop.words import say
from shop.words.figures import figure, listed

DatesOfPrices = Mapping[int, Dates]
"""Keys are the places of the prices in the frozen text."""


@dataclass(frozen=True, slots=True)
class DifferingLine:
    """A line that differs between two prices."""

    title: str
    before: str
    after: str


@dataclass(frozen=True, slots=True)
class PriceRow:
    """One of several prices. `value` names it in the form; `open`: it can be accepted.

    `ready` is the half day; `date` says it in whole sentences, with the day to bring the vehicle, or why there is none.
    """

    value: str
    words: str
    gross: str
    hours: str
    ready: str
    unfit: str | None
    open: bool
    chosen: bool
    differs: Sequence[DifferingLine]
    date: str = ""


def rows_of(document: FrozenContent, dates: DatesOfPrices, chosen: str = "") -> list[PriceRow]:
    """Each price for what the vehicle may have, with the options of the opened document; none where that is known.

    A row has its hours, its half day, the kits that do not fit, and its differences from the first price. Without
    `dates` the half days are those of the day of sending.
    """
    if not document["undecided"]:
        return []
    first, *_ = places = asked_places(document)
    prices = ((place, document["possible"][place]) for place in places)
    return [
        PriceRow(
            value=str(place),
            words=price["words"],
            gross=figure(price["document"]["shown"]["totals"]["gross"]),
            hours=say("customer.labour_hours", hours=figure(price["document"]["shown"]["labour"]["hours"])),
            ready=ready_words(dates[place]) if dates else frozen_ready(price["document"]),
            date=date_sentences(dates[place]) if dates else "",
            unfit=price["unfit"],
            open=can_be_accepted(price),
            chosen=chosen == str(place),
            differs=differs(document["possible"][first]["document"], price["document"]) if place != first else [],
        )
        for place, price in prices
    ]


def common_date(rows: Sequence[PriceRow]) -> str:
    """The sentences on the date that all prices share; empty if they differ."""
    dates = {row.date for row in rows}
    return dates.pop() if len(dates) == 1 else ""


def ready_words(dates: Dates) -> str:
    return dates.early.promise["ready_brief"] if dates.early.promise else ""


def date_sentences(dates: Dates) -> str:
    """The date and the day to bring the vehicle, or the sentence on why there is no date; empty without a plan."""
    promise = dates.early.promise
    if promise is None:
        return dates.early.no_date or ""
    bring = promise["bring"]
    if bring is None:
        return say("customer.price_date", headline=promise["headline"])
    return say("customer.price_date_bring", headline=promise["headline"], bring=bring["words"])


def later_ready(prices: Sequence[PriceRow], dates: DatesOfPrices) -> str:
    """The half days without the consent to begin early, each with the words of its price; empty if one has none."""
    days = {price.words: later_day(dates[int(price.value)]) for price in prices if price.open}
    if not all(days.values()):
        return ""
    if len(set(days.values())) == 1:
        return next(iter(days.values()))
    return listed([say("customer.consent.ready_of", ready=day, words=words) for words, day in days.items()])


def later_day(dates: Dates) -> str:
    """The half day without the consent to begin early; empty without a date."""
    return dates.later.promise["ready_brief"] if dates.later.promise else ""


def frozen_ready(document: FrozenContent) -> str:
    promise = document["plan"]["promised"]
    return promise["ready_brief"] if promise else ""


def differs(first: FrozenContent, document: FrozenContent) -> list[DifferingLine]:
    """The lines of two prices that differ, the total last."""
    return [
        DifferingLine(
            title=line.title or say("customer.total"),
            before=figure(line.before) if line.before else say("customer.no_line"),
            after=figure(line.after) if line.after else say("customer.no_line"),
        )
        for line in difference(first["shown"], document["shown"])
    ]


def form_names(place: int) -> dict[str, str]:
    """The names of the form's hidden fields for the half days of a price."""
    return {name: name if place == 0 else f"{name}-{place}" for name in ("ready", "ready_later")}


def dates_at(document: FrozenContent, places: Collection[int], shop: Shop, now: datetime) -> DatesOfPrices:
    """The dates of the prices at these places; at 0 alone where there is one price."""
    if not document["possible"]:
        return {0: dates_of(document, shop, now)}
    opening = hours_on(shop, now)
    return {place: dates_of(document["possible"][place]["document"], shop, now, opening) for place in places}


def recorded_since(document: FrozenContent, shop: Shop) -> str:
    """The form's value for the price that the attributes recorded since sending decide; empty if none."""
    if not document["undecided"]:
        return ""
    vehicle = Vehicle.objects.get(shop=shop, pk=document["vehicle"]["id"])
    for place in asked_places(document):
        stated = document["possible"][place]["stated"]
        if all(value and vehicle.attributes.get(name) == value for name, value in stated):
            return str(place)
    return ""


def sent_undecided(document: FrozenContent, shop: Shop, now: datetime) -> UndecidedOut | None:
    """The prices of a sent version, in the form of `undecided_answer`."""
    if not document["undecided"]:
        return None
    places = asked_places(document)
    dates, prices = dates_at(document, places, shop, now), [document["possible"][place] for place in places]
    return UndecidedOut(
        title=document["undecided"]["title"],
        words=say("undecided.asked"),
        attributes=[],
        hours=hours_between(Decimal(price["document"]["shown"]["labour"]["hours"]) for price in prices),
        prices=[
            PossiblePriceOut(
                stated=[StatedOut(name, value) for name, value in price["stated"]],
                words=price["words"],
                hours=price["document"]["shown"]["labour"]["hours"],
                gross=price["document"]["shown"]["totals"]["gross"],
                unfit=price["unfit"],
                nameable=all(value is not None for _, value in price["stated"]),
                ready=ready_words(dates[place]) or None,
            )
            for place, price in zip(places, prices, strict=True)
        ],
    )
