"""The words that are read out to a customer who answers by phone or at the counter."""

from datetime import datetime
from decimal import Decimal

from quotes.answers.spoken import SpokenConsentOut, SpokenFormOut, SpokenPriceOut
from quotes.calc.answer import half_day_value
from quotes.calc.consents import kind_of
from quotes.calc.forms import FrozenContent
from quotes.models import Revision
from quotes.presenters.acceptance_form import consent_rows
from quotes.presenters.choices import choice_words, open_choice_words
from quotes.presenters.contingencies import contingency_words
from quotes.presenters.possible_prices import DatesOfPrices, dates_at, later_day
from quotes.presenters.promise import Dates, waits_words
from quotes.presenters.retention import kept_months, kept_years
from quotes.queries import frozen
from quotes.queries.account import deposit_of
from shop.calc.rules import REQUIRED
from shop.words import say
from shop.words.figures import figure


def spoken_form(revision: Revision, now: datetime) -> SpokenFormOut:
    """The sentences that are read out of a sent version. Call it in the customer's language."""
    document = frozen.read(revision)
    every = dates_at(document, range(len(document["possible"]) or 1), revision.shop, now)
    return SpokenFormOut(
        revision=revision.number,
        digest=revision.digest,
        prices=[_price(document, place, dates) for place, dates in every.items()],
        consents=[
            SpokenConsentOut(row.code, row.text, kind_of(consent) == REQUIRED, row.without)
            for consent, row in zip(
                document["rules"]["consents"], consent_rows(document, every[0], _later(every)), strict=True
            )
        ],
        closing=closing_words(document),
    )


def _later(every: DatesOfPrices) -> str:
    """The half day without the consent to begin early, if all prices share it; each price tells its own."""
    days = {later_day(dates) for dates in every.values()}
    return days.pop() if len(days) == 1 else ""


def spoken_words(document: FrozenContent, place: int) -> list[str]:
    """The sentences read out of the accepted price, as the record keeps them besides consents and date."""
    return [offer_words(document, place), *contingency_words(_priced(document, place)), *closing_words(document)]


def _priced(document: FrozenContent, place: int) -> FrozenContent:
    """The document of one of several prices, else the whole text."""
    several = document.get("possible")
    priced: FrozenContent = several[place]["document"] if several else document
    return priced


def offer_words(document: FrozenContent, place: int) -> str:
    several, priced = document.get("possible"), _priced(document, place)
    facts = {
        "number": document["quote"]["number"],
        "version": document["quote"]["issue"],
        "vehicle": document["vehicle"]["title"],
        "amount": figure(priced["shown"]["totals"]["gross"]),
        "currency": document["shop"]["currency"],
    }
    if several:
        return say("customer.spoken.offer_with", words=_price_words(document, place), **facts)
    return say("customer.spoken.offer", **facts)


def _price_words(document: FrozenContent, place: int) -> str:
    """The words that identify one of several prices: the stated attributes of the vehicle, and the options."""
    stated, priced = document["possible"][place]["words"], frozen.reopened(document, place)
    return "; ".join(filter(None, [stated, *choice_words(priced), *open_choice_words(priced)]))


def closing_words(document: FrozenContent) -> list[str]:
    """The sentences on who may order, and on what is recorded, by whom and for how long."""
    house, years, months = document["shop"]["name"], kept_years(document), kept_months(document)
    recorded = (
        say("customer.spoken.recorded_years", house=house, n=years)
        if years
        else say("customer.spoken.recorded", house=house)
    )
    if months:
        recorded = say("customer.spoken.recorded_months", house=house, n=months)
    return [say("customer.spoken.may_order", vehicle=document["vehicle"]["title"]), recorded]


def _price(document: FrozenContent, place: int, dates: Dates) -> SpokenPriceOut:
    several = document.get("possible")
    row, priced = several[place] if several else None, _priced(document, place)
    return SpokenPriceOut(
        value=str(place),
        words=_price_words(document, place) if row else "",
        gross=priced["shown"]["totals"]["gross"],
        ready=half_day_value(dates.early.promise),
        ready_later=half_day_value(dates.later.promise),
        offer=offer_words(document, place),
        contingencies=contingency_words(priced),
        dates=[] if "change" in document else _dates(dates, deposit_of(priced)),  # a change has the date of its job
        open=frozen.can_be_accepted(row) if row else True,
        unfit=row["unfit"] if row else None,
    )


def _dates(dates: Dates, deposit: Decimal | None) -> list[str]:
    promise = dates.early.promise
    if promise is None:
        return list(filter(None, (dates.early.no_date, waits_words(dates))))
    bring = promise["bring"]
    moves = say("customer.promise.moves_deposit" if deposit else "customer.promise.moves")
    words = (promise["headline"], bring["words"] if bring else "", moves, waits_words(dates))
    return list(filter(None, words))
