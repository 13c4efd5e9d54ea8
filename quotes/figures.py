"""The one place that prices a quote: load, price, word. Screen, sending, margin and paper all come through here."""

from dataclasses import dataclass
from datetime import date, datetime
from zoneinfo import ZoneInfo

from quotes.calc.priced import PricedQuote, Saving
from quotes.calc.pricing import price_quote, savings
from quotes.loading import LoadedQuote, load_quote
from quotes.models import Revision
from quotes.showing import Shown, shown
from shop.models import Shop


@dataclass(frozen=True, slots=True)
class Figures:
    loaded: LoadedQuote
    priced: PricedQuote
    shown: Shown
    saved: tuple[Saving, ...]


def figures(revision: Revision, now: datetime) -> Figures:
    """The draft's figures at the prices and rates of today in the shop's zone."""
    loaded = load_quote(revision, shop_day(revision.shop, now))
    priced = price_quote(loaded.input)
    saved = savings(loaded.input, priced)
    return Figures(loaded, priced, shown(loaded, priced, saved), saved)


def shop_day(shop: Shop, now: datetime) -> date:
    return now.astimezone(ZoneInfo(shop.zone)).date()
