"""Explains the prices of kits, outside work and loose parts. Their costs are in the margin's answer."""

from collections.abc import Iterator

from quotes.answers.how import HowOut
from quotes.calc.buying import UnitPricing
from quotes.calc.priced import PricedQuote
from quotes.calc.quote_input import FigureOverride, QuoteInput
from quotes.presenters.explanations.words import (
    cash,
    explained,
    put_in_place,
    sentences,
    step,
    unit_cash,
)
from quotes.presenters.figures import worded
from shop.answers.explained import HowStepOut
from shop.words.figures import number


def kits(quote_input: QuoteInput, priced: PricedQuote) -> Iterator[HowOut]:
    e = quote_input.exponent
    for kit in priced.kits:
        key = f"kit:{kit.line}"
        steps = [
            step(_source(kit.sold), cash(kit.computed, e)),
            *_bought(kit.sold, e),
            *put_in_place(quote_input.overrides.get(key), cash(kit.computed, e), cash(kit.price, e)),
        ]
        yield explained(key, kit.title, sentences(_source(kit.sold)), steps, cash(kit.price, e))


def outside(quote_input: QuoteInput, priced: PricedQuote) -> Iterator[HowOut]:
    e = quote_input.exponent
    rule = sentences("outside_inside" if quote_input.rules.prices_include_tax else "outside")
    for work in priced.outside:
        key = f"outside:{work.line}"
        steps = [
            step("outside", cash(work.computed, e)),
            *put_in_place(quote_input.overrides.get(key), cash(work.computed, e), cash(work.price, e)),
        ]
        yield explained(key, work.title, rule, steps, cash(work.price, e))


def extras(quote_input: QuoteInput, priced: PricedQuote) -> Iterator[HowOut]:
    e = quote_input.exponent
    for extra in priced.extras:
        sold, own = extra.sold, FigureOverride(extra.unit_price, extra.because) if extra.because else None
        offered = sold if sold is not None and (own or sold.price == extra.unit_price) else None
        source, worked_out = _source(offered), unit_cash(offered.price if offered else extra.unit_price, e)
        steps = [
            step(source, worked_out),
            *_bought(offered, e),
            *(put_in_place(own, worked_out, unit_cash(extra.unit_price, e)) if offered else ()),
            step("times", cash(extra.price, e), quantity=number(extra.quantity), each=unit_cash(extra.unit_price, e)),
        ]
        yield explained(f"extra:{extra.line}", extra.title, sentences(source, "times"), steps, cash(extra.price, e))


def _source(sold: UnitPricing | None) -> str:
    return "from_bands" if sold else "own_price"


def _bought(sold: UnitPricing | None, e: int) -> Iterator[HowStepOut]:
    """The step on a purchase in another currency, with the age of the rate; never the cost."""
    for sentence in worded(sold.reasons, e) if sold else ():
        yield HowStepOut(sentence[0].upper() + sentence[1:], "")
