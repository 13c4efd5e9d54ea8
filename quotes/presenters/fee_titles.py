"""Titles of the lines that the rules add to a quote: the same on draft, page, paper and in the rows that are sent."""

from quotes.calc.priced import PricedFee
from shop.words import say


def fee_title(fee: PricedFee) -> str:
    """The fee's title by the rules; the minimum charge has none there."""
    return fee.title or say("quote.minimum_title")


def supplies_title() -> str:
    return say("quote.supplies_title")
