"""The choices of a quote in words: what each option changes in total, hours and date."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from functools import cache
from typing import Any, cast

from quotes.answers.choices import ChoiceOut, ChosenKind, OptionLineOut, OptionOut, Take
from quotes.calc.choices import (
    ANY,
    ONE,
    OfferedChoice,
    OfferedOption,
    OptionChange,
    Selection,
    choices_from,
    option_changes,
    proposed,
)
from quotes.calc.forms import FrozenContent
from quotes.models import Line, Revision
from quotes.presenters.possible_prices import DatesOfPrices, dates_at, frozen_ready, ready_words
from quotes.presenters.undecided import ready_of
from quotes.queries.frozen import asked_places, place_with, selection_of
from quotes.queries.pricing import QuoteFigures
from quotes.queries.promise import hours_on
from shop.calc.quantity import hours, money, plain
from shop.models import Shop
from shop.words import say
from shop.words.figures import figure


@dataclass(frozen=True, slots=True)
class SelectedPrice:
    """Total and hours of a selection, and the half day in words; empty without a date."""

    gross: Decimal
    hours: Decimal
    ready: str


PriceOf = Callable[[Selection], SelectedPrice]


@dataclass(frozen=True, slots=True)
class OptionRow:
    """An option of the customer's page. `value` names it in the form."""

    value: str
    title: str
    taken: bool
    price: str
    why: list[str]


@dataclass(frozen=True, slots=True)
class ChoiceRow:
    """A choice of the customer's page. `name` is that of its fields in the form; `several`: check boxes."""

    name: str
    legend: str
    several: bool
    options: list[OptionRow]


def choice_rows(document: FrozenContent, dates: DatesOfPrices) -> list[ChoiceRow]:
    """Each choice of a frozen text, as its opened document has it.

    Without dates of today the half days are those of the day of sending.
    """
    choices = _choices(document)
    changes = option_changes(choices, tuple(selection_of(document)))
    price_of = _kept_prices(document, dates)
    exponent = document["shop"]["exponent"]
    return [
        ChoiceRow(
            name=_name(at),
            legend=say("customer.choice.any" if choice.take == ANY else "customer.choice.one", title=choice.title),
            several=choice.take == ANY,
            options=[
                OptionRow(
                    value=str(place),
                    title=option.title,
                    taken=changes[option.id].taken,
                    price=price_words(changes[option.id], price_of, exponent),
                    why=list(change_words(changes[option.id], price_of, tuple(selection_of(document)), exponent)),
                )
                for place, option in enumerate(choice.options)
            ],
        )
        for at, choice in enumerate(choices)
    ]


def choice_words(document: FrozenContent) -> list[str]:
    """The options of the opened document: 'Brake pads: fast-road pads'."""
    taken = selection_of(document)
    return [
        say("customer.choice.chosen", choice=choice.title, option=option.title)
        for choice in _choices(document)
        for option in choice.options
        if option.id in taken
    ]


def open_choice_words(document: FrozenContent) -> list[str]:
    """The choices of the opened document of which nothing is taken: 'Extras: none'."""
    taken = selection_of(document)
    return [
        say("customer.choice.none", choice=choice.title)
        for choice in _choices(document)
        if not any(option.id in taken for option in choice.options)
    ]


def as_sent(document: FrozenContent) -> str:
    """The total with the options that the workshop proposes, where others are shown; else empty."""
    if not document["choices"] or selection_of(document) == document["possible"][0]["selection"]:
        return ""
    stated = document["possible"][document["combination"]]["stated"]
    first = next(price for price in document["possible"] if price["stated"] == stated)
    return figure(first["document"]["shown"]["totals"]["gross"])


def places_of(document: FrozenContent) -> set[int]:
    """The places of the prices that the rows of the opened document compare."""
    if not document["choices"]:
        return set()
    changes = option_changes(_choices(document), tuple(selection_of(document)))
    selections = {
        selection for change in changes.values() for selection in (change.chosen, change.without, change.turned)
    }
    return {place_with(document, selection) for selection in selections}


def asked_selection(document: FrozenContent, form: Any) -> Selection:
    """The selection that the address of the page asks for; what is proposed where it asks for none.

    Of a choice of one an answer that is missing, doubled or unknown counts as what is proposed.
    """
    choices = _choices(document)
    if "show" not in form:
        return proposed(choices)
    taken: list[str] = []
    for at, choice in enumerate(choices):
        places = form.getlist(_name(at))
        ids = [option.id for place, option in enumerate(choice.options) if str(place) in places]
        taken += choice.proposed if choice.take == ONE and len(ids) != 1 else ids
    return tuple(taken)


def _name(at: int) -> str:
    return f"choice-{at}"


def _choices(document: FrozenContent) -> tuple[OfferedChoice, ...]:
    return choices_from(document["choices"], document["possible"][0]["selection"]) if document["choices"] else ()


def _kept_prices(document: FrozenContent, dates: DatesOfPrices) -> PriceOf:
    def price_of(selection: Selection) -> SelectedPrice:
        place = place_with(document, selection)
        priced = document["possible"][place]["document"]
        return SelectedPrice(
            Decimal(priced["shown"]["totals"]["gross"]),
            Decimal(priced["shown"]["labour"]["hours"]),
            ready_words(dates[place]) if dates else frozen_ready(priced),
        )

    return cache(price_of)


def price_words(change: OptionChange, price_of: PriceOf, exponent: int) -> str:
    """'included', '+84.00', '−20.00', 'no extra cost'"""
    if change.proposed:
        return say("customer.choice.included")
    more = price_of(change.chosen).gross - price_of(change.without).gross
    if not more:
        return say("customer.choice.same_price")
    return _signed(money(more, exponent))


def _signed(amount: str) -> str:
    return figure(amount) if amount.startswith("-") else say("customer.choice.plus", amount=figure(amount))


def change_words(change: OptionChange, price_of: PriceOf, selection: Selection, exponent: int) -> Iterator[str]:
    """Hours against what is proposed, and the date against the one that is shown."""
    with_it, without = price_of(change.chosen), price_of(change.without)
    if change.proposed and change.chosen != change.without:
        yield say("customer.choice.without_price", amount=_signed(money(without.gross - with_it.gross, exponent)))
    if more := with_it.hours - without.hours:
        yield say(
            "customer.choice.hours_more" if more > 0 else "customer.choice.hours_fewer", hours=figure(hours(abs(more)))
        )
    if change.turned == selection:
        return
    turned = price_of(change.turned).ready
    if turned == price_of(selection).ready:
        yield say("customer.choice.same_date")
    elif turned:
        yield say("customer.choice.without_ready" if change.taken else "customer.choice.ready", ready=turned)
    else:
        yield say("customer.choice.no_date")


def draft_choices(revision: Revision, figures: QuoteFigures, now: datetime) -> list[ChoiceOut]:
    """The choices of a draft as its figures are shown, with their lines."""
    if not figures.choices:
        return []
    first = figures.possible[0]
    priced = {price.selection: price for price in figures.possible if price.stated == first.stated}
    opening, exponent = hours_on(revision.shop, now), revision.shop.exponent

    def price_of(selection: Selection) -> SelectedPrice:
        possibility = priced[selection]
        ready = ready_of(revision, possibility, now, opening) or ""
        return SelectedPrice(possibility.priced.totals.gross, possibility.priced.hours, ready)

    lines = _lines(revision)
    changes = option_changes(figures.choices, first.selection)
    prices = None if figures.too_many else cache(price_of)
    return [
        ChoiceOut(
            choice.id,
            choice.title,
            cast(Take, choice.take),
            [
                _option(option, changes[option.id], prices, first.selection, exponent, lines.get(option.id, []))
                for option in choice.options
            ],
        )
        for choice in figures.choices
    ]


def sent_choices(document: FrozenContent, shop: Shop, now: datetime) -> list[ChoiceOut]:
    """The choices of a sent version as its first price, or the accepted one, has them."""
    if not document.get("choices"):
        return []
    selection = tuple(selection_of(document))
    dates = dates_at(document, {*asked_places(document), *places_of(document)}, shop, now)
    changes = option_changes(_choices(document), selection)
    price_of = _kept_prices(document, dates)
    return [
        ChoiceOut(
            choice.id,
            choice.title,
            cast(Take, choice.take),
            [_option(option, changes[option.id], price_of, selection, shop.exponent, []) for option in choice.options],
        )
        for choice in _choices(document)
    ]


def _option(
    option: OfferedOption,
    change: OptionChange,
    price_of: PriceOf | None,
    selection: Selection,
    exponent: int,
    lines: list[OptionLineOut],
) -> OptionOut:
    if price_of is None:
        return OptionOut(option.id, option.title, option.preselected, change.taken, None, None, "", [], lines)
    with_it, without = price_of(change.chosen), price_of(change.without)
    return OptionOut(
        id=option.id,
        title=option.title,
        preselected=option.preselected,
        taken=change.taken,
        gross=money(with_it.gross - without.gross, exponent),
        hours=hours(with_it.hours - without.hours),
        price=price_words(change, price_of, exponent),
        why=list(change_words(change, price_of, selection, exponent)),
        lines=lines,
    )


def _lines(revision: Revision) -> dict[str, list[OptionLineOut]]:
    lines: dict[str, list[OptionLineOut]] = {}
    rows = Line.objects.filter(shop=revision.shop_id, revision=revision, option__isnull=False).order_by("position")
    for line in rows:
        row = OptionLineOut(str(line.pk), cast(ChosenKind, line.kind), line.title, plain(line.quantity))
        lines.setdefault(str(line.option_id), []).append(row)
    return lines
