"""Prices one quote by the exchange rate that counts and by one that somebody is typing."""

from datetime import datetime

from quotes.answers.rate_example import ComparedRateOut, RateExampleOut
from quotes.models import Revision
from quotes.presenters.examples import Example
from quotes.presenters.newer_rules import compared_lines
from quotes.presenters.rules_example import compared_prices
from quotes.queries.pricing import figures_of, shop_day
from quotes.queries.rows import QuoteRows, read_rows
from shop.calc.errors import CalculationError
from shop.calc.quantity import plain
from shop.presenters.dates import date_only
from shop.presenters.errors import calculation_words
from shop.queries.rates import TwoRates
from shop.words import say


def rate_example(example: Example, rates: TwoRates, now: datetime) -> RateExampleOut:
    """The example priced by both rates."""
    revision, choices = example
    compared = _compared_rate(rates)
    if revision is None:
        return RateExampleOut(None, say("rate_example.none"), None, compared, [], [], choices)
    day = shop_day(revision.shop, now)
    rows = read_rows(revision, day)
    words = _words(revision, rows, rates, now)
    try:
        current = figures_of(rows)
        then = current if rates.is_replaced else figures_of(rows.at_rate(rates.then, day))
    except CalculationError as refused:
        return RateExampleOut(revision.quote_id, words, calculation_words(refused), compared, [], [], choices)
    prices = [row for row in compared_prices(current, then, revision.shop) if row.code != "hours"]
    lines = list(compared_lines(current, then))
    return RateExampleOut(revision.quote_id, words, None, compared, prices, lines, choices)


def _compared_rate(rates: TwoRates) -> ComparedRateOut:
    now, then = plain(rates.now.rate) if rates.now else None, plain(rates.then.rate)
    title = say("rate_example.rate", currency=rates.then.currency)
    return ComparedRateOut(title=title, now=now, then=then, moved=now != then)


def _words(revision: Revision, rows: QuoteRows, rates: TwoRates, now: datetime) -> str:
    quote, currency, today = str(revision.quote), rates.then.currency, shop_day(revision.shop, now)
    if rates.now is not None and rates.is_replaced:
        day = date_only(rates.now.valid_from, today)
        return say("rate_example.replaced", quote=quote, currency=currency, day=day)
    if not rows.buys_in(currency):
        return say("rate_example.not_bought", quote=quote, currency=currency)
    key = "begun" if revision.state == Revision.State.DRAFT else "sent"
    return say(f"rate_example.{key}", quote=quote, day=date_only(rates.then.valid_from, today))
