"""Explains the prices of kits, outside work, parts and what may happen. Their costs are in the margin's answer."""

from collections.abc import Iterator

from quotes.answers.how import HowOut
from quotes.calc.buying import UnitPricing
from quotes.calc.priced import PricedContingency, PricedExtra, PricedQuote
from quotes.calc.quote_input import FigureOverride, QuoteInput
from quotes.presenters.explanations.words import (
    cash,
    explained,
    hour,
    put_in_place,
    sentences,
    step,
    unit_cash,
)
from quotes.presenters.reason_words import worded
from shop.answers.explained import HowStepOut
from shop.words.figures import number


def kits(quote_input: QuoteInput, priced: PricedQuote) -> Iterator[HowOut]:
    e = quote_input.exponent
    for kit in priced.kits:
        key = f"kit:{kit.line}"
        if kit.supplied:
            yield explained(key, kit.title, sentences("brought"), [], cash(kit.price, e))
            continue
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
        source, unit_steps = _unit_price(extra, e)
        steps = [
            *unit_steps,
            step("times", cash(extra.price, e), quantity=number(extra.quantity), each=unit_cash(extra.unit_price, e)),
        ]
        yield explained(f"extra:{extra.line}", extra.title, sentences(source, "times"), steps, cash(extra.price, e))


def contingencies(quote_input: QuoteInput, priced: PricedQuote) -> Iterator[HowOut]:
    """The price of one time with its tax, and the most that can be charged."""
    e = quote_input.exponent
    for line in priced.contingencies:
        unit_price = unit_cash(line.unit_price, e)
        source, unit_steps = ("skill_rate", [step("skill_rate", unit_price)]) if line.skill else _unit_price(line, e)
        quantity = hour(line.quantity) if line.skill else number(line.quantity)
        steps = [
            *unit_steps,
            step(
                "times",
                cash(line.price if _inside(quote_input) else line.price - line.tax, e),
                quantity=quantity,
                each=unit_price,
            ),
        ]
        if not _inside(quote_input):
            steps += [step("once_tax", cash(line.tax, e)), step("one_time", cash(line.price, e))]
        steps.append(step("most_times", cash(line.highest, e), n=line.cap, each=cash(line.price, e)))
        rule = sentences("contingency", source, "once_rounded")
        yield explained(f"contingency:{line.line}", line.event, rule, steps, cash(line.highest, e))


def _unit_price(line: PricedExtra | PricedContingency, e: int) -> tuple[str, list[HowStepOut]]:
    """(the code of its source, its steps), with a person's own price and the reason for it as the last ones."""
    sold, own = line.sold, FigureOverride(line.unit_price, line.because) if line.because else None
    offered = sold if sold is not None and (own or sold.price == line.unit_price) else None
    source, worked_out = _source(offered), unit_cash(offered.price if offered else line.unit_price, e)
    put = put_in_place(own, worked_out, unit_cash(line.unit_price, e)) if offered else []
    return source, [step(source, worked_out), *_bought(offered, e), *put]


def _inside(quote_input: QuoteInput) -> bool:
    return quote_input.rules.prices_include_tax


def _source(sold: UnitPricing | None) -> str:
    return "from_bands" if sold else "own_price"


def _bought(sold: UnitPricing | None, e: int) -> Iterator[HowStepOut]:
    """The step on a purchase in another currency, with the age of the rate; never the cost."""
    for sentence in worded(sold.reasons, e) if sold else ():
        yield HowStepOut(sentence[0].upper() + sentence[1:], "")
