"""Titles of the lines that the rules add to a quote: the same on draft, page, paper and in the rows that are sent."""

from quotes.calc.priced import PricedFee
from quotes.calc.priced_supplied import SUPPLIED
from shop.words import say


def fee_title(fee: PricedFee) -> str:
    """The fee's title by the rules; minimum charge and surcharge on the customer's own parts have none there."""
    supplied = fee.key.startswith(SUPPLIED)
    return fee.title or say("quote.supplied_title" if supplied else "quote.minimum_title")


def supplies_title() -> str:
    return say("quote.supplies_title")
